package resaw_test

import (
	"encoding/csv"
	"os"
	"slices"
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
	require.Equal(t, 58, len(rows)-1, "rows of the table") //nolint:testifylint // Len would print the table
	solved := 0
	for _, row := range rows[1:] {
		if slices.Contains(ofTheSeam, row[1]) {
			continue
		}
		solved++
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
	assert.Equal(t, 37, solved)
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
		return answers{"billet": in(billetFor(t, int(p.number("leaves")), p.cut()))}
	case "saving":
		c := p.cut()
		wide := billetFor(t, int(p.number("leaves")), c)
		c.Kerf = p.len("thin_kerf")
		thin := billetFor(t, int(p.number("leaves")), c)
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
	case "volume":
		v, err := resaw.BilletVolume(p.len("length"), p.len("width"), p.len("thickness"))
		require.NoError(t, err)
		return answers{"m3": v.Volume().CubicMetres(), "board_feet": v.Volume().BoardFeet()}
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
	require.Equal(t, "pith", p.calc, "no such calculation")
	f, err := resaw.PithFromAngles(p.len("x1"), p.deg("a1"), p.len("x2"), p.deg("a2"))
	require.NoError(t, err)
	return answers{"h": f.Depth.Millimetres(), "xp": f.X.Millimetres()}
}

// ofTheSeam are the calculations that the match of the halves answers; its own tests
// solve them.
var ofTheSeam = []string{"ring_shift", "ray_shift", "band_shift", "tip_shift", "skew_shift", "cures", "ring_spacing", "runout", "face_distance", "seam"}

// billetFor is the thickness of a billet that gives n leaves, 2 or more: what one that
// gives a leaf less is told to be short of.
func billetFor(t *testing.T, n int, c resaw.Cut) quantity.Length {
	t.Helper()
	c.Thickness = c.Facing + quantity.Length(n-1)*(c.Leaf+c.Kerf+c.Reface)
	y, err := resaw.Leaves(c)
	require.NoError(t, err)
	require.Equal(t, n, y.OneMore.Leaves)
	return y.OneMore.Billet
}

func solveSets(t *testing.T, p problem) answers {
	t.Helper()
	var spoiled []int
	for _, s := range strings.Fields(p.text["spoiled"]) {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		spoiled = append(spoiled, n)
	}
	stacks, leaves := max(1, p.number("rows")*p.number("columns")), int(p.number("leaves"))
	s, err := resaw.Sets(leaves, spoiled, int(p.number("per_set")))
	require.NoError(t, err)
	each := float64(len(s.Sets)) // a match needs neighbours, so that sets do not reach over stacks
	out := answers{"sets": stacks * each, "sets_per_stack": each, "leaves": stacks * float64(leaves), "odd": stacks * float64(len(s.Odd))}
	for i, r := range s.Runs {
		out["run"+strconv.Itoa(i+1)] = float64(r.Len())
	}
	return out
}

func solveFlat(t *testing.T, p problem) answers {
	t.Helper()
	share := func(piece, whole string) float64 {
		if p.text[piece] == "" {
			return 1
		}
		return float64(p.len(piece) / p.len(whole))
	}
	along, across := share("piece_length", "length"), share("piece_width", "width")
	bow, cup, rock := p.len("bow").Millimetres(), p.len("cup").Millimetres(), p.len("twist").Millimetres()
	if p.text["packed"] == "1" {
		rock /= 2
	}
	return answers{
		"left":      p.len("thickness").Millimetres() - resaw.FlatteningLoss(bow, cup, rock, along, across),
		"piece_cup": resaw.FlatteningLoss(0, cup, 0, 0, across), "piece_bow": resaw.FlatteningLoss(bow, 0, 0, along, 0),
	}
}
