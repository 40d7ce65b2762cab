package mill_test

import (
	"encoding/json"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/drawing"
)

// logs are plans whose pictures are looked at: few billets and many, every pattern, half logs,
// bent logs, several lengths, both systems.
func logs() map[string]string {
	log := func(sizes, rest string) string {
		return `{"log": {` + sizes + `}, "saw": {"kerf": "3 mm"}, ` + rest + `}`
	}
	usual := `"length": "2.4 m", "start_diameter": "450 mm", "end_diameter": "400 mm"`
	large := `"length": "2.4 m", "start_diameter": "700 mm", "end_diameter": "640 mm", "bark_thickness": "12 mm", "sapwood_thickness": "30 mm"`
	through := func(thick, least, rest string) string {
		return `"pattern": "through_and_through", "wanted": {"thickness": "` + thick + `", "min_width": "` + least + `"` + rest + `}`
	}
	return map[string]string{
		"whole":     log(usual, through("50 mm", "120 mm", "")),
		"half":      log(usual+`, "half": true`, through("50 mm", "120 mm", "")),
		"one":       log(usual, through("300 mm", "200 mm", "")),
		"thin":      log(strings.ReplaceAll(large, "700", "900"), through("12 mm", "60 mm", "")),
		"inches":    log(large, `"report_in": "inch", `+through("1 3/8 in", "4 in", "")),
		"bent":      log(usual+`, "sweep": "60 mm"`, `"turn_deg": 30, "pith_out": true, `+through("50 mm", "80 mm", "")),
		"too bent":  log(usual+`, "sweep": "350 mm"`, through("50 mm", "120 mm", "")),
		"lengths":   log(usual+`, "sweep": "40 mm"`, through("50 mm", "120 mm", `, "length": "560 mm"`)),
		"quartered": log(large+`, "sweep": "30 mm"`, `"pattern": "quartered", "wanted": {"thickness": "30 mm", "min_width": "80 mm"}`),
		"wedges":    log(large, `"pattern": "wedges", "wanted": {"thickness": "20 mm", "min_width": "100 mm"}`),
	}
}

var (
	listed = regexp.MustCompile(`^([0-9, to]+): (.+) thick, (.+) wide, rings from \d+ degrees$`)
	number = regexp.MustCompile(`^\d+$`)
)

// No number of a billet meets another or touches it, none stands out of the sheet, and where
// one is left out the picture says so.
func TestNumbersOfBilletsAreReadOneByOne(t *testing.T) {
	for name, body := range logs() {
		first := 0
		for _, b := range answer(t, body).Result.Billets {
			if b.Bolt == 1 {
				first++
			}
		}
		for _, form := range []string{"", "?width=360", "?width=1100"} {
			about := name + form
			text := asking.DrawnOf(t, "/v1/log-plan"+form, body)
			root := asking.Drawn(t, text)
			var boxes []drawing.Box
			seen := map[string]bool{}
			root.All(func(s *asking.Shape) {
				if s.XMLName.Local != "text" || !number.MatchString(s.Words) {
					return
				}
				assert.False(t, seen[s.Words], "%s: %s twice", about, s.Words)
				seen[s.Words] = true
				size := s.Number(t, "font-size")
				box := drawing.TextBox(s.Number(t, "x"), s.Number(t, "y"), size, drawing.Centred, s.Words)
				box.Left, box.Right = box.Left-0.14*size, box.Right+0.14*size
				for _, other := range boxes {
					assert.False(t, box.Meets(other), "%s: %s", about, s.Words)
				}
				boxes = append(boxes, box)
			})
			assert.Equal(t, len(seen) < first, strings.Contains(text, "Not every billet"), about)
			assert.GreaterOrEqual(t, len(seen), min(first, 20), about)
		}
	}
}

// Nothing of the picture stands out of the sheet, however far the log is bent, and the middle
// of a bent one is drawn.
func TestBentLogsAreDrawnWithTheirMiddle(t *testing.T) {
	for name, body := range logs() {
		for _, form := range []string{"", "?width=360"} {
			text := asking.DrawnOf(t, "/v1/log-plan"+form, body)
			root := asking.Drawn(t, text)
			width, broken := root.Number(t, "width"), 0
			root.All(func(s *asking.Shape) {
				if s.XMLName.Local != "polygon" {
					return
				}
				if s.Attr("stroke-dasharray") == "7 3" {
					broken++
				}
				for _, p := range strings.Fields(s.Attr("points")) {
					x, _, found := strings.Cut(p, ",")
					require.True(t, found, p)
					at := asking.NumberIn(t, x)
					assert.True(t, at >= 0 && at <= width, "%s%s: %s of %g", name, form, x, width)
				}
			})
			bent := name == "bent" || name == "too bent" || name == "quartered"
			assert.Equal(t, map[bool]int{false: 1, true: 2}[bent], broken, name)
			assert.Equal(t, bent, strings.Contains(text, "Broken circles"), name)
		}
	}
}

// The list tells every billet once, by the sizes of the answer or a little less, as a tape
// reads them.
func TestListOfBilletsIsThatOfTheAnswer(t *testing.T) {
	for name, body := range logs() {
		billets := answer(t, body).Result.Billets
		told, lines := map[int]string{}, 0
		asking.Drawn(t, asking.DrawnOf(t, "/v1/log-plan?width=1100", body)).All(func(s *asking.Shape) {
			parts := listed.FindStringSubmatch(s.Words)
			if parts == nil {
				return
			}
			lines++
			for _, some := range strings.Split(parts[1], ", ") {
				from, to, several := strings.Cut(some, " to ")
				a, err := strconv.Atoi(from)
				require.NoError(t, err)
				z := a
				if several {
					z, err = strconv.Atoi(to)
					require.NoError(t, err)
				}
				for n := a; n <= z; n++ {
					assert.Empty(t, told[n], "%s: %d twice", name, n)
					told[n] = parts[3]
				}
			}
		})
		if lines < 40 {
			assert.Len(t, told, len(billets), name)
		}
		for n, said := range told {
			var b struct{ Width struct{ Value float64 } }
			require.NoError(t, json.Unmarshal(billets[n-1].Billet, &b))
			read, step := taped(t, said)
			assert.LessOrEqual(t, read, b.Width.Value+1e-6, "%s: %d", name, n)
			assert.Greater(t, read, b.Width.Value-step-1e-6, "%s: %d", name, n)
		}
	}
}

// taped is a length as a tape tells it, and the step of the tape.
func taped(t *testing.T, said string) (value, step float64) {
	t.Helper()
	if mm, found := strings.CutSuffix(said, " mm"); found {
		v, err := strconv.Atoi(mm)
		require.NoError(t, err, said)
		return float64(v), 1
	}
	in, found := strings.CutSuffix(said, " in")
	require.True(t, found, said)
	for _, part := range strings.Fields(in) {
		over, under, fraction := strings.Cut(part, "/")
		a, err := strconv.Atoi(over)
		require.NoError(t, err, said)
		b := 1
		if fraction {
			b, err = strconv.Atoi(under)
			require.NoError(t, err, said)
			require.LessOrEqual(t, b, 16, said)
		}
		value += float64(a) / float64(b)
	}
	return value, 1.0 / 16
}

// No sentence of an answer in inches tells a size with digits that no rule has.
func TestSentencesOfALogAreThoseOfATape(t *testing.T) {
	long := regexp.MustCompile(`\d+\.\d{3,} (?:mm|in)\b`)
	for name, body := range logs() {
		for _, system := range []string{"metric", "inch"} {
			asked := strings.Replace(body, `"report_in": "inch", `, "", 1)
			asked = strings.Replace(asked, `{`, `{"report_in": "`+system+`", `, 1)
			a := answer(t, asked)
			assert.NotRegexp(t, long, a.Result.Summary, name)
			for _, w := range a.Result.Advice {
				step := strings.Contains(w, "step ") || strings.Contains(w, "each cut ")
				assert.True(t, step || !long.MatchString(w), "%s: %s", name, w) // a step adds up over many boards
			}
		}
	}
}
