package cut_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/drawing"
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
					wide := k.Width
					if k.Turned {
						wide = k.Usable
					}
					pieces := l.Pieces
					if pieces == nil {
						pieces = []cut.LeafPiece{{Role: l.Role, X: k.X, Length: k.Length, Width: wide}}
					}
					for _, p := range pieces {
						piece := k.ID + strconv.Itoa(l.Number)
						if p.Number > 0 {
							piece += "." + strconv.Itoa(p.Number)
						}
						assert.Equal(t, b.ID+piece+p.Role+l.Part, cell("billet")+cell("piece")+cell("role")+cell("part"))
						assert.InDelta(t, l.ZTo.Value-l.ZFrom.Value, asking.NumberIn(t, cell("thickness")), 2e-6)
						assert.InDelta(t, p.Width.Value, asking.NumberIn(t, cell("width")), 1e-9)
						assert.InDelta(t, p.Length.Value, asking.NumberIn(t, cell("length")), 1e-9)
						assert.InDelta(t, p.X.Value, asking.NumberIn(t, cell("x")), 1e-9)
						assert.Equal(t, k.Length.Unit, cell("unit"))
						rows = rows[1:]
					}
				}
			}
			for _, o := range b.Offcuts {
				if isSlab(&b, o.Piece) {
					continue // it has its row among the leaves
				}
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

// isSlab says that a piece is a slab of a blank.
func isSlab(b *cut.BilletAnswer, piece int) bool {
	for i := range b.Steps {
		for _, made := range []*cut.PlanWood{b.Steps[i].Low, b.Steps[i].High} {
			if made != nil && made.Piece == piece {
				return strings.HasPrefix(made.Name, "slab ")
			}
		}
	}
	return false
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
	notes   []asking.Box // as wide as they are high, a letter each; y up
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
			if layer == "NOTE" {
				x, y, high := number("10"), number("20"), number("40")
				out.notes = append(out.notes, asking.Box{Words: values["1"], Box: drawing.Box{Left: x + 0.01*high, Top: y + 0.01*high,
					Right: x + 0.99*high*float64(len(values["1"])), Bottom: y + 0.99*high}})
			}
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
			if s.Position == nil || strings.HasPrefix(s.Name, "leaf ") || s.Low != nil && s.Low.Thickness != nil {
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
		for i, one := range plot.notes {
			for _, other := range plot.notes[:i] {
				assert.False(t, one.Meets(other), "%s: %q lies on %q", name, one.Words, other.Words)
			}
		}
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
				pieces := l.Pieces
				if pieces == nil {
					pieces = []cut.LeafPiece{{Role: l.Role, Set: l.Set}}
				}
				for _, p := range pieces {
					piece := fmt.Sprintf("%s%d", k.ID, l.Number)
					if p.Number > 0 {
						piece += fmt.Sprintf(".%d", p.Number)
					}
					head := fmt.Sprintf("\n%s %s\n", b.ID, piece)
					assert.Equal(t, l.Role != "rejected", strings.Contains(all, head), head)
					if p.Role == "set" {
						sets[fmt.Sprintf("\nSet %d\n%s\n", p.Set, l.Part)] = true
					}
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
			edge := "seam: " + m.Edge + " edge"
			if m.Part == "sides" {
				edge = ""
			}
			piece := ""
			if m.Piece > 0 {
				piece = fmt.Sprintf(".%d", m.Piece)
			}
			label := fmt.Sprintf("set %d\nbook with %s%d%s\n%s shows\n", m.Set, m.Blank, m.Leaves[1-n], piece, shows)
			_, after, found := strings.Cut(all, fmt.Sprintf("\n%s %s%d%s\n", m.Billet, m.Blank, m.Leaves[n], piece))
			require.True(t, found)
			assert.Contains(t, after[:min(len(after), 300)], label+edge)
		}
	}
}

// A label says all of a name however long it is, the sizes as sawn and as they were asked for,
// and of sides, which match and are not glued together, no seam.
func TestLabelsOfSidesAndLongNames(t *testing.T) {
	long := "small head plates, matched with great care, for the instrument that stands by the window and waits"
	id := strings.Repeat("from-the-barn-", 4)
	body := `{"billets": [{"id": "` + id + `", "wood": "walnut-black", "condition": {"mc_pct": 14}, "length": "1100 mm", "width": "240 mm", "thickness": "40 mm", "rings": {"pith": {"y": "400 mm", "z": "20 mm"}}}],
		"saws": [{"kerf": "1.2 mm"}], "parts": [{"id": "a", "part_size": "steel-string-dreadnought-sides", "set_value": 500, "max_sets": 1, "final_condition": {"mc_pct": 8}},
		{"name": "` + long + `", "length": "200 mm", "width": "90 mm", "final_thickness": "3 mm", "set_value": 4}]}`
	words := []string{}
	for _, page := range asking.Printed(t, inForm(t, "labels", body)) {
		words = append(words, page.Words...)
	}
	all := strings.Join(words, " ")
	assert.Contains(t, all, long)
	assert.Contains(t, strings.ReplaceAll(strings.Join(words, ""), " ", ""), id)
	assert.Contains(t, all, "sawn 200 x 90 x 5.6 mm asked for 200 x 90 x 3 mm")
	assert.Contains(t, all, "asked for 840 x 127 x 2.2 mm", "not the width that drying still takes")
	sides, plates := 0, 0
	for i, w := range words {
		if !strings.HasPrefix(w, "book with") {
			continue
		}
		label := strings.Join(words[i:min(len(words), i+6)], " ")
		if before := strings.Join(words[max(0, i-3):i], " "); strings.Contains(before, "840 x 127") {
			sides++
			assert.NotContains(t, label, "seam")
		} else {
			plates++
			assert.Contains(t, label, "seam")
		}
	}
	assert.Positive(t, sides)
	assert.Positive(t, plates)
}

// bench is pieces of wood by their numbers, as long, wide and thick as they come off where fences
// are set to what the sentences say, in inches.
type bench struct {
	t      *testing.T
	report string
	pieces map[int][3]float64
}

// setting is what a sentence sets the fence or the stop to, in inches.
func setting(t *testing.T, detail string) float64 {
	t.Helper()
	said := regexp.MustCompile(`set to (?:(\d+) )?(?:(\d+)/(\d+) )?in`).FindStringSubmatch(detail)
	require.NotNil(t, said, detail)
	inches := 0.0
	if said[1] != "" {
		inches = asking.NumberIn(t, said[1])
	}
	if said[2] != "" {
		inches += asking.NumberIn(t, said[2]) / asking.NumberIn(t, said[3])
	}
	return inches
}

// do carries out a step by its sentence; kerfs are those of the saw.
func (b *bench) do(s *cut.PlanStep, kerfs [3]float64) {
	piece := b.pieces[s.Piece]
	low, high := piece, piece
	axis := map[string]int{"crosscut": 0, "trim": 0, "rip": 1, "resaw": 2}
	switch n, cuts := axis[s.Action]; {
	case s.Action == "flatten":
		low[2] = s.Flat.Value
	case !cuts: // planing and refacing take no more than is told
		high[2] -= s.Removed.Value
	default:
		set := setting(b.t, s.Detail)
		rest := piece[n] - set - kerfs[n]
		if low[n], high[n] = set, rest; s.Against == "end" || s.Against == "far" {
			low[n], high[n] = rest, set
		}
	}
	for made, size := range map[*cut.PlanWood][3]float64{s.Low: low, s.High: high} {
		if made != nil {
			b.pieces[made.Piece] = size
		}
	}
}

// inFractionsAsked is a plan in fractions, drawn at random, with the sizes of its billet, its kerfs
// and the sizes of its parts in inches.
type inFractionsAsked struct {
	body                  string
	billet, kerfs         [3]float64
	final                 map[string][3]float64
	fraction, zone, taper string
}

func askedInFractions(r *rand.Rand, n int) inFractionsAsked {
	size := func(from, to float64) float64 { return math.Round(1e3*(from+(to-from)*r.Float64())) / 1e3 }
	long, wide, thick := size(20, 60), size(6, 18), size(1, 3)
	a := inFractionsAsked{billet: [3]float64{long, wide, thick}, kerfs: [3]float64{size(0.05, 0.15), size(0.05, 0.15), size(0.03, 0.07)},
		final: map[string][3]float64{}, fraction: []string{"1/32", "1/64"}[n%2]}
	if n%3 > 0 {
		x, y, z := size(2, long-4), size(1, wide-2), size(0.1, 0.8)
		a.zone = fmt.Sprintf(`, "zones": [{"kind": "knot", "x_from": "%v in", "x_to": "%v in", "y_from": "%v in", "y_to": "%v in", "z_from": "%v in", "z_to": "%v in"}]`, x, x+1, y, y+0.5, z, z+0.2)
	}
	switch n % 5 {
	case 1:
		a.taper = `, "cup": "0.07 in", "bow": "0.11 in"`
	case 2:
		a.taper = fmt.Sprintf(`, "far_thickness": "%v in"`, size(0.6, 1))
	}
	var parts []string
	for i := range 3 {
		p := [3]float64{size(6, 24), size(2, 6), size(0.08, 0.3)}
		a.final[strconv.Itoa(i+1)] = p
		parts = append(parts, fmt.Sprintf(`{"length": "%v in", "width": "%v in", "sawn_thickness": "%v in", "set_value": %d}`, p[0], p[1], p[2], int(1e3*p[0]*p[1]*(p[2]+0.1))))
	}
	a.body = fmt.Sprintf(`{"report_in": "inch", "inch_fraction": %q, "max_search_steps": 300000, "billets": [{"length": "%v in", "width": "%v in", "thickness": "%v in", "trim": {"start": "%v in"}%s%s}],
			"saws": [{"kerf": "%v in", "rip_kerf": "%v in", "crosscut_kerf": "%v in"}], "parts": [%s]}`,
		a.fraction, long, wide, thick, size(0.2, 2), a.zone, a.taper, a.kerfs[2], a.kerfs[1], a.kerfs[0], strings.Join(parts, ","))
	return a
}

// Set as the sentences say, in fractions that the scale has, no leaf comes out thinner, narrower
// or shorter than it has to be, whatever the kerfs and the sizes asked for.
func TestLeavesInFractionsAreLargeEnough(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 3))
	leaves, zoned := 0, 0
	for n := range 60 {
		asked := askedInFractions(r, n)
		if asked.zone != "" {
			zoned++
		}
		a := planOf(t, asked.body)
		b := &a.Result.Billets[0]
		at := &bench{t, "", map[int][3]float64{0: asked.billet}}
		for i := range b.Steps {
			at.do(&b.Steps[i], asked.kerfs)
		}
		for _, k := range b.Blanks {
			for _, l := range k.Leaves {
				if l.Role == "rejected" {
					continue
				}
				leaves++
				came := at.pieces[pieceOf(b, k.ID, l.Number)]
				if l.Pieces != nil {
					came = at.pieces[l.Pieces[len(l.Pieces)-1].Piece]
				}
				want := asked.final[l.Part]
				if k.Turned {
					came[1], came[2] = k.Usable.Value, came[1]
				}
				for side := range 3 {
					assert.GreaterOrEqual(t, came[side], want[side]-2e-8, "side %d of %s%d in %s", side, k.ID, l.Number, asked.body)
				}
			}
		}
	}
	assert.Greater(t, leaves, 1000)
	assert.Positive(t, zoned)
}

// Every setting of a plan in fractions is a whole one, or a depth that was given, and the sentence
// says the same number.
func TestSettingsInFractionsAreWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 3))
	var bodies []string
	for n := range 120 {
		bodies = append(bodies, askedInFractions(r, n).body)
	}
	for _, body := range append(asking.ExampleBodies(t)["/v1/resaw-plan"], []byte(twoParts)) {
		inch := inInches(t, string(body))
		if !strings.Contains(inch, "inch_fraction") {
			inch = with(`"inch_fraction": "1/32"`, inch)
		}
		bodies = append(bodies, inch)
	}
	seen := map[string]int{}
	for _, body := range bodies {
		var asked struct {
			Fraction string `json:"inch_fraction"`
			Billets  []struct {
				Facing *wire.Length `json:"facing_face_1"`
			} `json:"billets"`
		}
		require.NoError(t, json.Unmarshal([]byte(body), &asked))
		steps := asking.NumberIn(t, strings.TrimPrefix(asked.Fraction, "1/"))
		whole := func(q wire.Quantity) bool { return math.Abs(steps*q.Value-math.Round(steps*q.Value)) < 1e-5 }
		for i, b := range planOf(t, body).Result.Billets {
			for _, s := range b.Steps {
				seen[s.Action]++
				told := []wire.Quantity{s.Setting}
				switch s.Action {
				case "flatten":
					given := asked.Billets[i].Facing
					if given != nil && math.Abs(float64(given.SI)-s.Setting.Value*0.0254) < 1e-9 {
						told = nil
					}
					told = append(told, *s.Flat)
					if s.FarFlat != nil {
						told = append(told, *s.FarFlat)
					}
				case "plane":
					told = []wire.Quantity{*s.Removed}
				case "reface": // as deep as was given
					continue
				default:
					if s.FarSetting != nil {
						told = append(told, *s.FarSetting)
					}
				}
				for _, q := range told {
					assert.True(t, whole(q), "%v in: %s, of %s", q.Value, s.Detail, body)
					assert.Contains(t, s.Detail, inWords(q.Value, int(steps))+" in", body)
				}
			}
		}
	}
	for _, action := range []string{"flatten", "plane", "crosscut", "rip", "trim", "resaw"} {
		assert.Positive(t, seen[action], action)
	}
}

// inWords is a number of inches as a scale shows it: 2 1/16.
func inWords(inches float64, under int) string {
	over := int(math.Round(inches * float64(under)))
	whole := over / under
	over %= under
	for over > 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	switch {
	case over == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", over, under)
	}
	return fmt.Sprintf("%d %d/%d", whole, over, under)
}

// pieceOf is the number of the piece that a leaf is.
func pieceOf(b *cut.BilletAnswer, blank string, leaf int) int {
	for i := range b.Steps {
		for _, made := range []*cut.PlanWood{b.Steps[i].Low, b.Steps[i].High} {
			if made != nil && made.Name == "leaf "+blank+strconv.Itoa(leaf) {
				return made.Piece
			}
		}
	}
	return -1
}

// With fractions the plan is made for them: sizes as sawn are whole ones, what that costs is told,
// and a kerf is told as it is.
func TestPlanInFractionsOfAnInch(t *testing.T) {
	plain := with(`"report_in": "inch"`, twoParts)
	asked := with(`"inch_fraction": "1/32"`, plain)
	before, after := planOf(t, plain), planOf(t, asked)
	assert.GreaterOrEqual(t, before.Result.Proof.Worth, after.Result.Proof.Worth)
	for i, p := range after.Result.Parts {
		for _, q := range []wire.Quantity{p.Length, p.Width, p.Leaf.Thickness} {
			assert.InDelta(t, math.Round(32*q.Value), 32*q.Value, 1e-5)
		}
		assert.GreaterOrEqual(t, p.Leaf.Thickness.Value, before.Result.Parts[i].Leaf.Thickness.Value)
	}
	for _, s := range after.Result.Billets[0].Steps {
		if s.Action == "resaw" || s.Action == "rip" || s.Action == "crosscut" {
			assert.NotRegexp(t, `set to \d+\.\d+ in`, s.Detail)
		}
	}
	found := ""
	for _, w := range after.Warnings {
		if w.Input == "/inch_fraction" {
			found = w.Detail
		}
	}
	assert.Contains(t, found, fmt.Sprintf("without, the same wood is worth %d, here %d", before.Result.Proof.Worth, after.Result.Proof.Worth))
	rows, err := csv.NewReader(strings.NewReader(string(inForm(t, "csv", asked)))).ReadAll()
	require.NoError(t, err)
	for i, l := range after.Result.Billets[0].Blanks[0].Leaves {
		assert.Equal(t, "1/32 in", rows[i+1][10])
		whole, part, _ := strings.Cut(rows[i+1][13], " ")
		inches := asking.NumberIn(t, whole)
		if over, under, is := strings.Cut(part, "/"); is {
			inches += asking.NumberIn(t, over) / asking.NumberIn(t, under)
		}
		if l.Role != "rejected" { // a slab is as thick as zones leave it
			assert.InDelta(t, l.ZTo.Value-l.ZFrom.Value, inches, 1e-6)
		}
	}
	kerf := strings.Replace(asked, `"usual_kerf": "bandsaw_thin"`, `"kerf": "3/64 in"`, 1)
	drawn := ""
	asking.Drawn(t, string(inForm(t, "svg", kerf))).All(func(s *asking.Shape) { drawn += " " + s.Words })
	assert.Contains(t, drawn, "kerf 3/64 in")
}
