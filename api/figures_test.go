package api_test

import (
	"encoding/json"
	"net/http"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// figuresOf gathers the figures of all woods of an answer.
func figuresOf(node any, all map[string]string) {
	switch is := node.(type) {
	case []any:
		for _, one := range is {
			figuresOf(one, all)
		}
	case map[string]any:
		list, _ := is["figures"].([]any)
		for _, one := range list {
			if figure, isObject := one.(map[string]any); isObject {
				all[figure["name"].(string)] = figure["provenance"].(string) //nolint:forcetypeassert // of the contract
			}
		}
		for _, one := range is {
			figuresOf(one, all)
		}
	}
}

// Every figure that is given beside a species is among those that the answer used, by the
// name it was sent with, or is said to have no bearing.
func TestFiguresBesideASpeciesAreListed(t *testing.T) {
	given := map[string]string{"specific_gravity": "0.6", "radial_shrinkage_pct": "5", "tangential_shrinkage_pct": "9", "longitudinal_shrinkage_pct": "0.2",
		"radial_coefficient": "0.0017", "tangential_coefficient": "0.0035", "radial_swelling_pct_per_point": "0.2", "tangential_swelling_pct_per_point": "0.36",
		"volumetric_swelling_pct_per_point": "0.5", "fibre_saturation_mc_pct": "28", "modulus_of_elasticity": `"11000 MPa"`}
	for field := range wire.Members(reflect.TypeFor[shelf.WoodAsked]()) {
		kind := wire.Pointed(field.Type).Kind()
		if name := wire.MemberName(field); name != "drying_factor" && (kind == reflect.Float64 || kind == reflect.Struct) {
			assert.Contains(t, given, name, "a figure that this test does not send")
		}
	}
	var members []string
	for name, value := range given {
		members = append(members, `"`+name+`": `+value)
	}
	const ends = `"from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 6}`
	const part = `"build_condition": {"mc_pct": 8}, "parts": [{"thickness": "20 mm", "width": "200 mm", "length": "500 mm", "rings": {"angle_deg": 40}, WOOD}]}`
	const room = `"room": {"air": {"temperature": "20 C", "rh_pct": 45}}, `
	for path, body := range map[string]string{
		"/v1/movement":          `{WOOD, "size": "300 mm", "size_ring_angle_deg": 40, ` + ends + `}`,
		"/v1/section-shape":     `{WOOD, "width": "200 mm", "thickness": "30 mm", "rings": {"angle_deg": 40, "radius": "200 mm"}, ` + ends + `}`,
		"/v1/laminate":          `{"length": "500 mm", "width": "300 mm", "glue_up_condition": {"mc_pct": 10}, "later_condition": {"mc_pct": 6}, "layers": [{WOOD, "thickness": "5 mm", "rings": {"angle_deg": 40}}]}`,
		"/v1/year-in-service":   `{` + room + part,
		"/v1/assembly-movement": `{` + room + part,
	} {
		for _, wood := range []string{`"species": "maple-sugar", `, ``, `"any": "maple", `} {
			if wood == "" && path == "/v1/laminate" {
				wood = `"group": "hardwood", `
			}
			asked := strings.ReplaceAll(body, "WOOD", `"wood": {`+wood+strings.Join(members, ", ")+`}`)
			r := asking.Posting(path, asked).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code, "%s\n%s", asked, r.Body)
			var answer struct {
				Result   any
				Warnings []method.Warning
			}
			require.NoError(t, json.Unmarshal(r.Body.Bytes(), &answer))
			idle := ""
			for _, w := range answer.Warnings {
				if w.Code == method.NotUsed {
					idle += w.Detail
				}
			}
			listed := map[string]string{}
			figuresOf(answer.Result, listed)
			for name := range given {
				assert.True(t, listed[name] == "caller" || strings.Contains(idle, name), "%s %s%s: %v; idle: %s", path, wood, name, listed, idle)
			}
			for name, mark := range listed {
				if mark == "caller" {
					_, is := wire.FieldNamed(reflect.TypeFor[shelf.WoodAsked](), name)
					assert.True(t, is, name)
				}
			}
		}
	}
}
