package resaw_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// problem is a row of the published and derived worked problems. Lengths are in
// millimetres, or in inches for the calculations that end in _in; angles in
// degrees.
type problem struct {
	id, calc  string
	text      map[string]string
	tolerance float64
	unit      quantity.Length
}

func (p problem) number(name string) float64 {
	v, err := strconv.ParseFloat(p.text[name], 64)
	if err != nil {
		return 0
	}
	return v
}
func (p problem) len(name string) quantity.Length {
	return quantity.Length(p.number(name)) * p.unit
}
func (p problem) deg(name string) quantity.Angle {
	return quantity.Angle(p.number(name)) * quantity.Degree
}
func (p problem) cut() resaw.Cut {
	kerf := "kerf"
	if _, ok := p.text["kerf_resaw"]; ok {
		kerf = "kerf_resaw"
	}
	return resaw.Cut{
		Thickness: p.len("thickness"), Facing: p.len("facing"), Leaf: p.len("leaf"), Kerf: p.len(kerf),
		Reface: p.len("reface"), FarFaceFinished: p.text["far"] == "1",
	}
}

func fields(text string) map[string]string {
	out := map[string]string{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(part, "=")
		out[name] = value
	}
	return out
}

func TestPublishedProblems(t *testing.T) {
	file, err := os.Open("../../testdata/published/resaw_problems.csv")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"id", "calc", "inputs", "expected", "tolerance", "source", "checked"}, rows[0])
	require.Equal(t, 64, len(rows)-1, "rows of the table") //nolint:testifylint // Len would print the table
	for _, row := range rows[1:] {
		t.Run(row[0], func(t *testing.T) {
			tolerance, err := strconv.ParseFloat(row[4], 64)
			require.NoError(t, err)
			require.NotEmpty(t, row[5], "source")
			require.Contains(t, []string{"read", "memory", "derived", "common practice"}, row[6])
			p := problem{row[0], row[1], fields(row[2]), tolerance, quantity.Millimetre}
			if strings.HasSuffix(p.calc, "_in") {
				p.unit = quantity.Inch
				p.calc = strings.TrimSuffix(p.calc, "_in")
			}
			got := solve(t, p)
			for name, value := range fields(row[3]) {
				want, err := strconv.ParseFloat(value, 64)
				require.NoError(t, err)
				v, ok := got[name]
				require.True(t, ok, "the solution lacks %s", name)
				// Tolerance 0 means exact: only the conversion of the result to a
				// decimal number of the unit may round, 1e-12 of it.
				assert.InDelta(t, want, v, tolerance+1e-12*max(1, want), "%s %s", p.id, name)
			}
		})
	}
}

type answers map[string]float64

func solve(t *testing.T, p problem) answers {
	t.Helper()
	in := func(l quantity.Length) float64 { return float64(l / p.unit) }
	switch p.calc {
	case "leaves":
		y, err := resaw.Leaves(p.cut())
		require.NoError(t, err)
		out := answers{
			"usable": in(y.Usable), "leaves": float64(y.Leaves), "cuts": float64(y.Cuts), "left": in(y.LeftOver),
		}
		if y.WidestKerf != nil {
			out["widest_kerf"] = in(*y.WidestKerf)
		}
		return out
	case "billet_for":
		b, err := resaw.BilletFor(int(p.number("leaves")), p.cut())
		require.NoError(t, err)
		return answers{"billet": in(b)}
	case "saving":
		c := p.cut()
		wide, err := resaw.BilletFor(int(p.number("leaves")), c)
		require.NoError(t, err)
		c.Kerf = p.len("thin_kerf")
		thin, err := resaw.BilletFor(int(p.number("leaves")), c)
		require.NoError(t, err)
		return answers{"saving_pct": 100 * float64((wide-thin)/wide)}
	case "across":
		x, err := resaw.Across(p.len("length"), p.len("trim_start"), p.len("trim_end"), p.len("blank"), p.len("kerf"))
		require.NoError(t, err)
		return answers{"blanks": float64(x.Blanks), "ratio": x.Ratio}
	case "sets", "stacks":
		return solveSets(t, p)
	case "wedge":
		thick, _, err := resaw.WedgeThickness(p.len("bark"), p.len("heart"), p.len("across"), p.len("blank"))
		require.NoError(t, err)
		c := p.cut()
		c.Thickness = thick
		y, err := resaw.Leaves(c)
		require.NoError(t, err)
		return answers{"thickness": in(thick), "leaves": float64(y.Leaves)}
	case "taper":
		blanks, _, err := resaw.Tapered(p.len("length"), p.len("blank"), p.len("kerf"), p.len("thin"), p.cut())
		require.NoError(t, err)
		require.Len(t, blanks, 2)
		c := p.cut()
		c.Thickness = p.len("thin")
		y, err := resaw.Leaves(c)
		require.NoError(t, err)
		return answers{
			"thin1": in(blanks[0].Thickness), "leaves1": float64(blanks[0].Yield.Leaves), "leaves_at_end": float64(y.Leaves),
			"thin2": in(blanks[1].Thickness), "leaves2": float64(blanks[1].Yield.Leaves),
		}
	case "volume":
		v, err := resaw.BilletVolume(p.len("length"), p.len("width"), p.len("thickness"))
		require.NoError(t, err)
		feet, _ := v.BoardFeetExact().Float64()
		assert.InEpsilon(t, feet, v.Volume().BoardFeet(), 1e-14)
		return answers{"m3": v.Volume().CubicMetres(), "board_feet": feet}
	case "leaf_thickness":
		l, parts, _, err := resaw.LeafThickness(resaw.Allowances{
			Final: p.len("final"), CleanupShow: p.len("show"), CleanupBack: p.len("back"),
			Wander: p.len("wander"), Flatness: p.len("flatness"),
		})
		require.NoError(t, err)
		require.Len(t, parts, 6)
		return answers{"leaf": in(l)}
	case "flat":
		return solveFlat(t, p)
	}
	return solveSeam(t, p)
}

func solveSets(t *testing.T, p problem) answers {
	t.Helper()
	stack := resaw.StackLeaves{Leaves: int(p.number("leaves"))}
	for _, s := range strings.Fields(p.text["spoiled"]) {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		stack.Spoiled = append(stack.Spoiled, n)
	}
	n := max(1, int(p.number("rows")*p.number("columns")))
	stacks := make([]resaw.StackLeaves, n)
	for i := range stacks {
		stacks[i] = stack
	}
	sets, each, err := resaw.SetsOfStacks(stacks, int(p.number("per_set")))
	require.NoError(t, err)
	out := answers{"sets": float64(sets), "sets_per_stack": float64(len(each[0].Sets)), "leaves": float64(n * stack.Leaves)}
	for i, r := range each[0].Runs {
		out["run"+strconv.Itoa(i+1)] = float64(r.Len())
	}
	for _, s := range each {
		out["odd"] += float64(len(s.Odd))
	}
	return out
}

func solveFlat(t *testing.T, p problem) answers {
	t.Helper()
	w := resaw.Warp{
		Thickness: p.len("thickness"), Length: p.len("length"), Width: p.len("width"), Cup: p.len("cup"), Bow: p.len("bow"),
		Twist: p.len("twist"), Packed: p.text["packed"] == "1", PieceLength: p.len("piece_length"), PieceWidth: p.len("piece_width"),
	}
	w.Length, w.Width = max(w.Length, quantity.Metre), max(w.Width, quantity.Millimetre)
	if p.text["length"] != "" {
		w.Length = p.len("length")
	}
	f, err := resaw.Flatten(w)
	require.NoError(t, err)
	out := answers{"left": f.Thickness.Millimetres(), "piece_cup": f.Cup.Millimetres(), "piece_bow": f.Bow.Millimetres()}
	if w.Cup > 0 {
		r, err := resaw.ArcRadius(w.Width, w.Cup)
		require.NoError(t, err)
		arc, err := resaw.FlatArc(w.Thickness, w.Width, w.Cup)
		require.NoError(t, err)
		out["radius"], out["arc"] = r.Millimetres(), arc.Millimetres()
	}
	return out
}

func solveSeam(t *testing.T, p problem) answers {
	t.Helper()
	shift := func(l quantity.Length, err error) answers {
		require.NoError(t, err)
		return answers{"shift": l.Millimetres()}
	}
	switch p.calc {
	case "face_distance", "seam":
		d, _, err := resaw.FaceDistance(resaw.Pair{
			Opening: resaw.Opening(p.text["opening"]), Leaf: p.len("leaf"), Kerf: p.len("kerf"),
			CleanupA: p.len("cleanup_a"), CleanupB: p.len("cleanup_b"),
		})
		require.NoError(t, err)
		out := answers{"d": d.Millimetres()}
		if p.calc == "seam" {
			s, err := resaw.RingShift(d, p.deg("angle"))
			require.NoError(t, err)
			out["shift"] = s.Millimetres()
		}
		return out
	case "ring_shift":
		return shift(resaw.RingShift(p.len("d"), p.deg("angle")))
	case "ray_shift":
		return shift(resaw.RayShift(p.len("d"), p.deg("angle")))
	case "band_shift":
		return shift(resaw.BandShift(p.len("d"), p.deg("angle")))
	case "tip_shift":
		return shift(resaw.TipShift(p.len("d"), p.number("one_in")))
	case "skew_shift":
		s, err := resaw.SkewShift(p.len("d"), p.deg("end"), p.deg("edge"))
		require.NoError(t, err)
		return answers{
			"dihedral": s.Dihedral.Degrees(), "square": s.Square.Millimetres(),
			"across": s.Across.Millimetres(), "along": s.Along.Millimetres(),
		}
	case "largest_distance":
		d, err := resaw.LargestDistance(p.len("shift"), p.deg("angle"))
		require.NoError(t, err)
		return answers{"d": d.Millimetres()}
	case "least_ring_angle":
		a, err := resaw.LeastRingAngle(p.len("shift"), p.len("d"))
		require.NoError(t, err)
		return answers{"angle": a.Degrees()}
	case "cures":
		c, err := resaw.Cures(p.len("d"), p.deg("angle"), p.deg("lean"))
		require.NoError(t, err)
		return answers{"width": c.Width.Millimetres(), "length": c.Length.Millimetres()}
	case "runout":
		a, err := resaw.RunoutAngle(p.number("one_in"))
		require.NoError(t, err)
		return answers{"angle": a.Degrees()}
	case "pith":
		f, err := resaw.PithFromAngles(p.len("x1"), p.deg("a1"), p.len("x2"), p.deg("a2"))
		require.NoError(t, err)
		return answers{"h": f.Depth.Millimetres(), "xp": f.X.Millimetres()}
	case "band":
		half, err := resaw.PlaneBand(p.len("from"), p.deg("angle"))
		require.NoError(t, err)
		n, err := resaw.LeavesInBand(2*half, p.len("leaf"), p.len("kerf"))
		require.NoError(t, err)
		return answers{"half": half.Millimetres(), "total": 2 * half.Millimetres(), "leaves": float64(n)}
	case "ring_spacing":
		s, err := resaw.RingSpacing(p.len("ring"), p.deg("angle"))
		require.NoError(t, err)
		return answers{"spacing": s.Millimetres()}
	}
	require.Fail(t, "no such calculation", p.calc)
	return nil
}
