package serve

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
)

// Many warnings that say the same of different places are one, with all the places; few of
// them, and those of what may do harm, stand by themselves. None is lost.
func TestManyAlikeAreOne(t *testing.T) {
	thin := func(i int) method.Warning {
		return method.Warning{Code: method.OutsideFitted, Method: "inservice.year", Subject: fmt.Sprintf("part %d", i),
			Input: fmt.Sprintf("/parts/%d/thickness", i), Detail: fmt.Sprintf("thickness 0.%d mm lies outside 10 to 110 mm", i)}
	}
	other := thin(9)
	other.Detail = "width 3 mm lies outside 10 to 110 mm"
	var list []method.Warning
	for i := range 6 {
		list = append(list, thin(i))
		crack := method.Warning{Code: method.Caution, Input: fmt.Sprintf("/parts/%d", i), Detail: "this part may crack"}
		list = append(list, crack)
	}
	list = append(list, other, method.Warning{Code: method.Assumption, Detail: "of nothing in particular"})
	told := alike(list)
	require.Len(t, told, 1+6+1+1)
	assert.Equal(t, "thickness 0.0 mm lies outside 10 to 110 mm; and 5 more like it", told[0].Detail)
	require.NotNil(t, told[0].Also)
	assert.Equal(t, method.Pointers{"/parts/1/thickness", "/parts/2/thickness", "/parts/3/thickness", "/parts/4/thickness", "/parts/5/thickness"}, *told[0].Also)
	for _, w := range told[1:] {
		assert.Nil(t, w.Also)
	}
	assert.Equal(t, list[:4], alike(list[:4]), "two are no crowd")
}

// What is said again of the same place is told once, whatever the number: in the same words, or of
// the same quantity beyond what several methods were fitted to.
func TestOneWarningOfOneCause(t *testing.T) {
	fitted := func(place, subject, low string) method.Warning {
		return method.Warning{Code: method.OutsideFitted, Method: "of " + low, Input: place, Subject: subject,
			Detail: "thickness 7.2 mm lies outside " + low + " to 110 mm"}
	}
	scale := method.Warning{Code: method.DefaultUsed, Input: "/scale_division", Detail: "the division was not given"}
	again, other := scale, scale
	again.Method, other.Detail = "another", "no division was given"
	list := []method.Warning{fitted("/leaf", "", "10"), scale, fitted("/leaf", "", "19"), again, other, fitted("/billet", "", "19"),
		fitted("/leaf", "part 1", "19")}
	assert.Equal(t, []method.Warning{list[0], scale, other, list[5], list[6]}, alike(list))
}
