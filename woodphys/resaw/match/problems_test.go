package match_test

import (
	"encoding/csv"
	"math"
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

// problem is a row of the derived worked problems of the seam. Lengths are in
// millimetres, angles in degrees.
type problem struct {
	id, calc  string
	text      map[string]string
	tolerance float64
}

func (p problem) number(name string) float64 {
	v, err := strconv.ParseFloat(p.text[name], 64)
	if err != nil {
		return 0
	}
	return v
}
func (p problem) len(name string) quantity.Length {
	return quantity.Length(p.number(name)) * onemm
}
func (p problem) deg(name string) quantity.Angle {
	return quantity.Angle(p.number(name)) * quantity.Degree
}
func fields(text string) map[string]string {
	out := map[string]string{}
	for _, part := range strings.Split(text, ";") {
		name, value, _ := strings.Cut(part, "=")
		out[name] = value
	}
	return out
}

// seamCalculations are those of the table that the match of two leaves answers; the
// others are solved by the tests of resaw.
var seamCalculations = []string{"ring_shift", "ray_shift", "band_shift", "tip_shift", "skew_shift", "cures", "ring_spacing", "runout", "face_distance", "seam"}

func TestWorkedProblemsOfTheSeam(t *testing.T) {
	file, err := os.Open("../../../testdata/published/resaw_problems.csv")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	solved := 0
	for _, row := range rows[1:] {
		if !slices.Contains(seamCalculations, row[1]) {
			continue
		}
		solved++
		t.Run(row[0], func(t *testing.T) {
			tolerance, err := strconv.ParseFloat(row[4], 64)
			require.NoError(t, err)
			require.NotEmpty(t, row[5], "source")
			p := problem{row[0], row[1], fields(row[2]), tolerance}
			got := solveSeam(t, p)
			for name, value := range fields(row[3]) {
				want, err := strconv.ParseFloat(value, 64)
				require.NoError(t, err)
				v, ok := got[name]
				require.True(t, ok, "the solution lacks %s", name)
				assert.InDelta(t, want, v, tolerance+1e-12*max(1, want), "%s %s", p.id, name)
			}
		})
	}
	assert.Equal(t, 21, solved)
}

type answers map[string]float64

// solveSeam answers the problems of the seam by the whole match of two leaves.
func solveSeam(t *testing.T, p problem) answers {
	t.Helper()
	in := twoLeaves(75 * quantity.Degree)
	in.Kerf = p.len("d")
	opening := resaw.Bookmatch
	if p.calc == "face_distance" || p.calc == "seam" {
		opening = resaw.Opening(p.text["opening"])
		in.Kerf, in.CleanupShow = p.len("kerf"), p.len("cleanup_a")
	}
	lean := p.deg("lean")
	in.BandLean, in.Dip, in.RingWidth = &lean, p.number("one_in"), p.len("ring")
	switch p.calc {
	case "band_shift":
		lean = p.deg("angle")
	case "skew_shift":
		in.Rings.Readings[0].Angle, in.Dip = p.deg("end"), 1/p.deg("edge").Tan()
	case "runout":
		in.Runout, in.Dip = p.number("one_in"), 0
	default:
		if p.text["angle"] != "" {
			in.Rings.Readings[0].Angle = p.deg("angle")
		}
	}
	l := layoutOf(t, matched(t, in).Pairs[0], opening)
	place := l.Places[0]
	switch p.calc {
	case "ray_shift":
		return answers{"shift": math.Abs(place.Ray.Millimetres())}
	case "band_shift":
		return answers{"shift": l.BandShift.Millimetres()}
	case "tip_shift":
		return answers{"shift": l.TipShift.Millimetres()}
	case "skew_shift":
		return answers{"square": place.Square.Millimetres(), "across": place.Plane.Millimetres(), "along": l.TipShift.Millimetres()}
	case "cures":
		return answers{"width": l.Seams[0].Cure.Width.Millimetres(), "length": l.Seams[0].Cure.Slide.Millimetres()}
	case "ring_spacing":
		return answers{"spacing": place.Spacing[0].Millimetres()}
	case "runout":
		return answers{"angle": l.Runout.Angle.Degrees()}
	case "face_distance", "seam", "ring_shift":
		return answers{"d": l.Distance.Millimetres(), "shift": place.Shift.Millimetres()}
	}
	require.Fail(t, "no such calculation", p.calc)
	return nil
}
