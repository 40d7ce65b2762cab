package exact_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

func TestCubic(t *testing.T) {
	foot, inch, metre := exact.Whole(quantity.Foot), exact.Whole(quantity.Inch), exact.Whole(quantity.Metre)
	v := exact.Box(foot, foot, inch)
	assert.Equal(t, "2359737216000000000000000", v.CubicNanometres().String(), "a board foot, 144 cubic inches")
	whole := exact.Box(metre, metre, metre)
	assert.Equal(t, 1, whole.Compare(v))
	assert.Equal(t, -1, v.Compare(whole))
	assert.Equal(t, 0, whole.Minus(v).Plus(v).Compare(whole))
	assert.Equal(t, exact.Cubic{}, exact.Box(-1, foot, foot), "nothing has no side")
	assert.Equal(t, "1180591620717411303424", exact.CubicOf(1<<70).CubicNanometres().String())
	assert.Equal(t, exact.Cubic{}, exact.CubicOf(-1))
}
