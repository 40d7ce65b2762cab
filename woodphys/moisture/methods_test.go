package moisture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
)

// Every row is whole and refuses NaN, and every estimator names a listed row.
func TestMethods(t *testing.T) {
	ids := map[string]bool{}
	for _, m := range moisture.Methods() {
		assert.False(t, ids[m.ID], m.ID)
		ids[m.ID] = true
		assert.Equal(t, "moisture", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
		require.NotEmpty(t, m.Inputs, m.ID)
		for _, in := range m.Inputs {
			assert.LessOrEqual(t, in.Limit.Low, in.Fitted.Low, m.ID+" "+in.Name)
			assert.GreaterOrEqual(t, in.Limit.High, in.Fitted.High, m.ID+" "+in.Name)
			_, err := m.Check(in.Name, math.NaN())
			expect.Code(t, err, method.OutOfRange, in.Name)
		}
	}
	assert.Len(t, ids, 12)
	e, err := moisture.FromPinMeter(pin(12, 20))
	require.NoError(t, err)
	for _, id := range append(e.Notes.Basis, e.How) {
		assert.True(t, ids[id], id)
	}
	_, err = moisture.Stated(0.1, 0)
	expect.Code(t, err, method.OutOfRange, "sd_pct")
	_, err = moisture.Stated(2.6, 0.01)
	expect.Code(t, err, method.OutOfRange, "mc_pct")
}
