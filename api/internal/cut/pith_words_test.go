package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
)

// Where the pith lies is told as it is found on a bench, by the edge and the face that the
// request counts from, in the stack of leaves and in the end of a billet alike.
func TestThePlaceOfThePithIsToldFromEdgeAndFace(t *testing.T) {
	for place, told := range map[[2]string]string{
		{"40 mm", "70 mm"}:   "pith 40 mm from the near edge, 70 mm below face 1",
		{"-60 mm", "70 mm"}:  "pith 60 mm outside the near edge, 70 mm below face 1",
		{"-60 mm", "-15 mm"}: "pith 60 mm outside the near edge, 15 mm above face 1",
	} {
		wood := `"width": "210 mm", "rings": {"pith": {"y": "` + place[0] + `", "z": "` + place[1] + `"}}`
		stack := `{"billet": {` + wood + `}, "stack": {"leaves": 4, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "1.5 mm", "cleanup_show": "0 mm"}}`
		plan := `{"billets": [{"length": "600 mm", "thickness": "50 mm", ` + wood + `}], "saws": [{"kerf": "1.5 mm"}], "max_search_steps": 20000,
			"parts": [{"id": "back", "length": "400 mm", "width": "180 mm", "final_thickness": "4 mm", "match": "none"}]}`
		for path, body := range map[string]string{"/v1/bookmatch": stack, "/v1/resaw-plan": plan} {
			for _, form := range []string{"", "?width=360", "?width=1100"} {
				var words []string
				asking.Drawn(t, asking.DrawnOf(t, path+form, body)).All(func(s *asking.Shape) {
					if s.XMLName.Local == "text" {
						words = append(words, s.Words)
					}
				})
				assert.Contains(t, strings.Join(words, " "), told, path+form)
			}
		}
	}
}
