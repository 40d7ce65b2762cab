package cut_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/wire"
)

// inForm asks for a plan in a form.
func inForm(t testing.TB, form, body string) []byte {
	t.Helper()
	r := asking.Posting("/v1/resaw-plan?as="+form, body).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return r.Body.Bytes()
}

// with puts members before the first of a request.
func with(members, body string) string { return "{" + members + ", " + strings.TrimSpace(body)[1:] }

// The cut list holds every leaf as the JSON answer does, and every offcut worth keeping.
func TestCutList(t *testing.T) {
	for name, body := range map[string]string{"demo": demoPlank(t), "two parts": twoParts,
		"inches": asking.ExampleText(t, "resaw-plan.two-billets-and-an-order.json")} {
		rows, err := csv.NewReader(strings.NewReader(string(inForm(t, "csv", body)))).ReadAll()
		require.NoError(t, err)
		column := map[string]int{}
		for i, head := range rows[0] {
			column[head] = i
		}
		rows = rows[1:]
		cell := func(head string) string { return rows[0][column[head]] }
		for _, b := range planOf(t, body).Result.Billets {
			for _, k := range b.Blanks {
				for _, l := range k.Leaves {
					require.NotEmpty(t, rows, name)
					assert.Equal(t, b.ID+k.ID+strconv.Itoa(l.Number)+l.Role+l.Part,
						cell("billet")+cell("piece")+cell("role")+cell("part"))
					wide := k.Width
					if k.Turned {
						wide = k.Usable
					}
					assert.InDelta(t, l.ZTo.Value-l.ZFrom.Value, asking.NumberIn(t, cell("thickness")), 2e-6)
					assert.InDelta(t, wide.Value, asking.NumberIn(t, cell("width")), 1e-9)
					assert.InDelta(t, k.Length.Value, asking.NumberIn(t, cell("length")), 1e-9)
					assert.InDelta(t, k.X.Value, asking.NumberIn(t, cell("x")), 1e-9)
					assert.Equal(t, k.Length.Unit, cell("unit"))
					rows = rows[1:]
				}
			}
			for _, o := range b.Offcuts {
				require.NotEmpty(t, rows, name)
				assert.Equal(t, "offcut", cell("role"))
				assert.Equal(t, strconv.Itoa(o.Piece), cell("piece"))
				assert.InDelta(t, lengthIn(o.Billet.Length), asking.NumberIn(t, cell("length")), 1e-9)
				rows = rows[1:]
			}
		}
		assert.Empty(t, rows, name)
	}
}

// A name that a spreadsheet would take for a formula is refused in the cut list, at the name; one
// with a quotation mark and a comma comes back as it was.
func TestCutListTakesNoNameForAFormula(t *testing.T) {
	named := func(name string) string {
		quoted, err := json.Marshal(name)
		require.NoError(t, err)
		return strings.Replace(demoPlank(t), `"id": "back"`, `"id": "back", "name": `+string(quoted), 1)
	}
	for _, name := range []string{`=1+1`, `+1`, `-1`, `@SUM(A1)`, ` =1`} {
		p := asking.ProblemOf(t, asking.Posting("/v1/resaw-plan?as=csv", named(name)).Of(t, asking.SharedService()), http.StatusUnprocessableEntity)
		assert.Regexp(t, `^/parts/\d+/name$`, p.Errors[0].Pointer, name)
	}
	rows, err := csv.NewReader(strings.NewReader(string(inForm(t, "csv", named(`a "b", c`))))).ReadAll()
	require.NoError(t, err)
	found := false
	for _, row := range rows[1:] {
		found = found || slices.Contains(row, `a "b", c`)
	}
	assert.True(t, found)
}

// dxf is what a reader of our own finds in a plot: lines by layer, and what else there is.
type dxf struct {
	unit    string
	lines   map[string][][4]float64
	words   map[string][]string
	circles int
}

func readDXF(t testing.TB, text string) dxf {
	t.Helper()
	out := dxf{lines: map[string][][4]float64{}, words: map[string][]string{}}
	lines := strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n")
	require.Zero(t, len(lines)%2, "groups are pairs of lines")
	require.Equal(t, []string{"0", "EOF"}, lines[len(lines)-2:])
	declared := map[string]bool{}
	section, kind, values := "", "", map[string]string{}
	end := func() {
		number := func(code string) float64 { return asking.NumberIn(t, values[code]) }
		layer := values["8"]
		if section == "ENTITIES" && kind != "SECTION" {
			assert.True(t, declared[layer], "layer %q is in the table", layer)
		}
		switch kind {
		case "LAYER":
			declared[values["2"]] = true
		case "LINE":
			out.lines[layer] = append(out.lines[layer], [4]float64{number("10"), number("20"), number("11"), number("21")})
		case "TEXT":
			out.words[layer] = append(out.words[layer], values["1"])
		case "CIRCLE":
			out.circles++
		}
	}
	for i := 0; i < len(lines); i += 2 {
		code, value := strings.TrimSpace(lines[i]), lines[i+1]
		switch {
		case code == "999":
			out.unit = strings.TrimPrefix(value, "unit: ")
		case code == "0":
			end()
			if value == "ENDSEC" {
				section = ""
			}
			kind, values = value, map[string]string{}
		case code == "2" && kind == "SECTION":
			section, kind = value, "SECTION"
		default:
			values[code] = value
		}
	}
	return out
}

// The plot of the face has every crosscut and rip of the steps, both sides of its kerf,
// where the answer says, and no other.
func TestPlotOfTheFace(t *testing.T) {
	for name, body := range map[string]string{"demo": demoPlank(t), "two parts": twoParts,
		"second billet": with(`"template_billet": "2"`, tooLarge(3, 3, "60 mm")),
		"inches":        with(`"report_in": "inch"`, twoParts)} {
		var asked struct {
			Template string `json:"template_billet"`
		}
		require.NoError(t, json.Unmarshal([]byte(body), &asked))
		r := planOf(t, body).Result
		plot := readDXF(t, string(inForm(t, "dxf", body)))
		b := &r.Billets[0]
		for i := range r.Billets {
			if r.Billets[i].ID == asked.Template {
				b = &r.Billets[i]
			}
		}
		require.Equal(t, b.Remainder.Unit, plot.unit, name)
		top := -math.MaxFloat64 // the near edge
		for _, l := range plot.lines["WOOD"] {
			top = math.Max(top, math.Max(l[1], l[3]))
		}
		crosscuts, rips := 0, 0
		for _, s := range b.Steps {
			if s.Position == nil {
				continue
			}
			for _, at := range []float64{s.Position.Value, s.Position.Value + s.Removed.Value} {
				switch s.Action {
				case "crosscut", "trim":
					l := plot.lines["CROSSCUT"][crosscuts]
					crosscuts++
					assert.InDelta(t, at, l[0], 2e-6, "%s step %d", name, s.Number)
					assert.InDelta(t, l[0], l[2], 1e-9)
				case "rip":
					l := plot.lines["RIP"][rips]
					rips++
					assert.InDelta(t, at, top-l[1], 2e-6, "%s step %d", name, s.Number)
					assert.InDelta(t, l[1], l[3], 1e-9)
				}
			}
		}
		assert.Len(t, plot.lines["CROSSCUT"], crosscuts, name)
		assert.Len(t, plot.lines["RIP"], rips, name)
		assert.Positive(t, crosscuts+rips, name)
		assert.Len(t, plot.words["NAME"], len(b.Blanks), name)
		assert.Equal(t, 1, plot.circles)
		assert.Contains(t, strings.Join(plot.words["NOTE"], "\n"), "unit "+plot.unit)
	}
}

// lengthIn is a length of the next request in its unit.
func lengthIn(l *wire.Length) float64 {
	v, _ := l.SI.In(l.Unit)
	return v
}

// points are millimetres in points of type.
func points(mm float64) float64 { return mm / 25.4 * 72 }

// Prints of every kind have the size of the paper asked for; those at true scale a bar of
// its length on every page.
func TestPrintsOfAPlan(t *testing.T) {
	for _, row := range []struct {
		members       string
		width, height float64
		bar           float64
	}{
		{`"report_in": "metric"`, 210, 297, 100},
		{`"report_in": "inch"`, 215.9, 279.4, 101.6},
		{`"paper": "letter"`, 215.9, 279.4, 100},
		{`"report_in": "inch", "paper": "a4"`, 210, 297, 101.6},
	} {
		body := strings.Replace(demoPlank(t), `"report_in": "metric"`, `"as_of": "2026-03-14"`, 1)
		body = with(row.members, body)
		for _, form := range []string{"pdf", "template_pdf", "labels"} {
			pages := asking.Printed(t, inForm(t, form, body))
			require.NotEmpty(t, pages)
			for i, page := range pages {
				assert.InDelta(t, points(row.width), page.Width, 0.01, form)
				assert.InDelta(t, points(row.height), page.Height, 0.01, form)
				if form != "template_pdf" {
					continue
				}
				bars := 0
				for _, box := range page.Filled {
					if math.Abs(box[2]-points(row.bar)) < 0.02 {
						bars++
					}
				}
				assert.Positive(t, bars, "page %d of %d", i+1, len(pages))
			}
		}
	}
}

// The printed plan holds its steps in words, those of one setting together, and all on its
// pages in order.
func TestPrintedPlanHoldsTheSteps(t *testing.T) {
	said := ""
	for _, page := range asking.Printed(t, inForm(t, "pdf", demoPlank(t))) {
		said += " " + strings.Join(page.Words, " ")
	}
	drawn := ""
	asking.Drawn(t, string(inForm(t, "svg", demoPlank(t)))).All(func(s *asking.Shape) {
		if s.XMLName.Local == "text" {
			drawn += " " + s.Words
		}
	})
	for _, b := range planOf(t, demoPlank(t)).Result.Billets {
		require.NotEmpty(t, b.Settings)
		for _, s := range b.Settings {
			assert.Contains(t, said, s.Detail)
			assert.Contains(t, drawn, s.Detail)
		}
	}
}

// Every good leaf has its label, with its set, the face that shows and the edge at the seam
// as the match tells it; so has every set.
func TestLabels(t *testing.T) {
	r := planOf(t, demoPlank(t)).Result
	var words []string
	for _, page := range asking.Printed(t, inForm(t, "labels", demoPlank(t))) {
		words = append(words, page.Words...)
	}
	all := "\n" + strings.Join(words, "\n") + "\n"
	sets := map[string]bool{}
	for _, b := range r.Billets {
		for _, k := range b.Blanks {
			for _, l := range k.Leaves {
				head := fmt.Sprintf("\n%s %s%d\n", b.ID, k.ID, l.Number)
				assert.Equal(t, l.Role != "rejected", strings.Contains(all, head), head)
				if l.Role == "set" {
					sets[fmt.Sprintf("\nSet %d of %s\n", l.Set, l.Part)] = true
				}
			}
		}
	}
	for head := range sets {
		assert.Contains(t, all, head)
	}
	require.NotEmpty(t, r.Matches)
	for _, m := range r.Matches {
		for n, shows := range []string{"face 2", "face 1"} {
			label := fmt.Sprintf("\n%s %s%d\n%s, set %d\nbook with %s%d\n%s shows\nseam: %s edge\n", m.Billet, m.Blank,
				m.Leaves[n], m.Part, m.Set, m.Blank, m.Leaves[1-n], shows, m.Edge)
			assert.Contains(t, all, label)
		}
	}
}

// With fractions, sentences and lists are told in them, and the numbers stay.
func TestPlanInFractionsOfAnInch(t *testing.T) {
	plain := with(`"report_in": "inch"`, twoParts)
	asked := with(`"inch_fraction": "1/64"`, plain)
	before, after := planOf(t, plain), planOf(t, asked)
	assert.Equal(t, before.Result.Billets[0].Blanks[0].Leaves, after.Result.Billets[0].Blanks[0].Leaves)
	told := 0
	for i, s := range after.Result.Billets[0].Steps {
		assert.NotRegexp(t, `\d\.\d+ in`, s.Detail)
		assert.Equal(t, before.Result.Billets[0].Steps[i].Setting, s.Setting)
		if strings.Contains(s.Detail, "/64 in") || strings.Contains(s.Detail, "/32 in") {
			told++
		}
	}
	assert.Positive(t, told)
	found := false
	for _, w := range after.Warnings {
		found = found || strings.Contains(w.Detail, "to the nearest 1/64 in")
	}
	assert.True(t, found, "the rounding is told")
	rows, err := csv.NewReader(strings.NewReader(string(inForm(t, "csv", asked)))).ReadAll()
	require.NoError(t, err)
	for i, l := range after.Result.Billets[0].Blanks[0].Leaves {
		assert.Equal(t, "1/64 in", rows[i+1][10])
		whole, part, _ := strings.Cut(rows[i+1][13], " ")
		over, under, _ := strings.Cut(part, "/")
		inches := asking.NumberIn(t, whole) + asking.NumberIn(t, over)/asking.NumberIn(t, under)
		assert.InDelta(t, l.ZTo.Value-l.ZFrom.Value, inches, 1.0/128+1e-9)
	}
}
