package api_test

import (
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// boundsOfLengths are all bounds on lengths that requests of a type state.
func boundsOfLengths(t reflect.Type, seen map[reflect.Type]bool, found map[string]bool) {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || seen[t] {
		return
	}
	seen[t] = true
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Type == reflect.TypeFor[*wire.Length]() {
			for rule := range strings.SplitSeq(f.Tag.Get("validate"), ",") {
				if name, _, is := strings.Cut(rule, "="); is && (name == "gte" || name == "lte") {
					found[rule] = true
				}
			}
		}
		boundsOfLengths(f.Type, seen, found)
	}
}

// Every limit of a length, in every unit, is one that keeps to it: the checker
// takes what the message says.
func TestLimitsOfLengthsCanBeObeyed(t *testing.T) {
	found := map[string]bool{}
	seen := map[reflect.Type]bool{}
	for i := range api.Routes {
		if api.Routes[i].Request != nil {
			boundsOfLengths(reflect.TypeOf(api.Routes[i].Request), seen, found)
		}
	}
	require.Greater(t, len(found), 20)
	for rule := range found {
		name, text, _ := strings.Cut(rule, "=")
		bound, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		for _, unit := range quantity.Units(quantity.DimensionLength) {
			said, of := wire.Bound(text, "length", wire.Length{Unit: unit}, name == "gte")
			l, err := quantity.LengthOf(said, of)
			require.NoError(t, err)
			if name == "gte" {
				assert.GreaterOrEqual(t, wire.ToPicometre(float64(l)), bound, "%s says %g %s", rule, said, of)
			} else {
				assert.LessOrEqual(t, wire.ToPicometre(float64(l)), bound, "%s says %g %s", rule, said, of)
			}
		}
	}
}

// Requests that were refused with a limit that was then refused itself.
func TestRefusedLengthsNameALimitThatIsTaken(t *testing.T) {
	billet := func(length string) asking.Asked {
		return asking.PlanWith(`"length": "`+length+`", "width": "220 mm", "thickness": "60 mm"`, asking.OkPlanSaw, asking.OkPlanPart, "")
	}
	assert.Equal(t, "at most 65.616 ft", asking.ProblemOf(t, billet("70 ft").Of(t, asking.SharedService()), 422).Errors[0].Limit.String())
	assert.Equal(t, 200, billet("65.616 ft").Of(t, asking.SharedService()).Code)
	assert.Equal(t, "at most 0.065 ft", asking.ProblemOf(t, asking.PlanSawOf(`"kerf": "0.066 ft"`).Of(t, asking.SharedService()), 422).Errors[0].Limit.String())
	assert.Equal(t, 200, asking.PlanSawOf(`"kerf": "0.065 ft"`).Of(t, asking.SharedService()).Code)
	assert.Equal(t, "at least 0.3938 in", asking.ProblemOf(t, billet("0.3937 in").Of(t, asking.SharedService()), 422).Errors[0].Limit.String())
	assert.Equal(t, 200, asking.PlanPart(`"length": "560 mm", "width": "210 mm", "final_thickness": "200 um"`).Of(t, asking.SharedService()).Code)
}
