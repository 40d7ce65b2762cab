package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/woodphys/method"
)

// Where the kerf of resawing stands in for that of other cuts, each question that makes them
// says so once, of those that it was not told.
func TestTheKerfOfOtherCutsIsSaidWhereItIsTaken(t *testing.T) {
	const part = `"length": "420 mm", "width": "140 mm", "sawn_thickness": "6 mm", "match": "none"`
	const billet = `"length": "1262 mm", "width": "281 mm", "thickness": "50 mm"`
	bodies := map[string][2]string{
		"/v1/resaw-plan": {`{"billets": [{` + billet + `}], "parts": [{` + part + `}], "saws": [{SAW}]}`, "/saws/0"},
		"/v1/leaf-yield": {`{"billet": {` + billet + `}, "part": {` + part + `}, "saw": {SAW}}`, "/saw"},
		"/v1/log-plan": {`{"log": {"length": "2 m", "start_diameter": "400 mm", "end_diameter": "380 mm"}, "pattern": "quartered",
			"wanted": {"thickness": "50 mm", "min_width": "100 mm", "length": "600 mm"}, "saw": {SAW}}`, "/saw"},
	}
	for path, asked := range bodies {
		told := func(saw string) (all []string) {
			type result map[string]any
			for _, w := range asking.AnswerTo[result](t, path, strings.Replace(asked[0], "SAW", saw, 1)).Warnings {
				if w.Code == method.DefaultUsed && strings.HasSuffix(w.Input, "_kerf") && w.Input != asked[1]+"/usual_kerf" {
					all = append(all, strings.TrimPrefix(w.Input, asked[1])+": "+w.Detail)
				}
			}
			return all
		}
		assert.Empty(t, told(`"kerf": "1 mm", "rip_kerf": "3 mm", "crosscut_kerf": "3 mm"`), path)
		crosscuts := "/crosscut_kerf: crosscuts take the kerf of the resaw cut, 1 mm; give crosscut_kerf of the saw that makes them"
		if path == "/v1/log-plan" {
			assert.Equal(t, []string{crosscuts}, told(`"kerf": "1 mm"`), path)
			continue
		}
		held := "; a max_kerf told is that of the resaw cut, with these as they are"
		assert.Equal(t, []string{"/rip_kerf: rips and crosscuts take the kerf of the resaw cut, 1 mm; give rip_kerf and " +
			"crosscut_kerf of the saw that makes them" + held}, told(`"kerf": "1 mm"`), path)
		assert.Equal(t, []string{"/rip_kerf: rips take the kerf of the resaw cut, 1 mm; give rip_kerf of the saw that makes them" + held},
			told(`"kerf": "1 mm", "crosscut_kerf": "3 mm"`), path)
		assert.Equal(t, []string{crosscuts + held}, told(`"kerf": "1 mm", "rip_kerf": "3 mm"`), path)
	}
}
