package cut_test

import (
	"fmt"
	"math"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

func angled(degrees float64) string { return fmt.Sprintf(`"angle_deg": %g`, degrees) }

// openingOf asks for one pair and returns how it opens in one way.
func openingOf(t *testing.T, body, way string) cut.OpeningMatch {
	t.Helper()
	a := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", body)
	require.Len(t, a.Result.Pairs, 1)
	for _, o := range a.Result.Pairs[0].Openings {
		if o.Opening == way {
			return o
		}
	}
	t.Fatal("no opening " + way)
	return cut.OpeningMatch{}
}

func mm(t *testing.T, want float64, q *wire.Quantity, tolerance float64, what string) {
	t.Helper()
	require.NotNil(t, q, what)
	assert.Equal(t, "mm", q.Unit)
	assert.InDelta(t, want, q.Value, tolerance, what)
}

// Worked problems S01 to S23 of the trade collection, computed there with exact
// fractions and trigonometry to four places; the tolerance is half a unit of the
// last place.
func TestWorkedProblemsOfTheSeam(t *testing.T) {
	const four = 5e-5
	for _, row := range []struct{ angle, shift float64 }{ // S01 to S10
		{90, 0}, {85, 0.2012}, {75, 0.6163}, {60, 1.3279}, {45, 2.3}, {15, 8.5837}, {5, 26.2891},
	} {
		o := openingOf(t, pairAsked("1.3 mm", "0.5 mm", angled(row.angle), ""), "bookmatch")
		mm(t, 2.3, &o.Distance, 1e-9, "d = k + s1 + s2")
		for _, p := range o.Places {
			mm(t, row.shift, p.Shift, four, fmt.Sprint(row.angle))
		}
	}
	o := openingOf(t, pairAsked("1.3 mm", "0 mm", angled(75), ""), "bookmatch")
	mm(t, 0.3483, o.Places[1].Shift, four, "S11")
	o = openingOf(t, pairAsked("1.3 mm", "0 mm", angled(75), ""), "slip_match")
	mm(t, 5.8, &o.Distance, 1e-9, "S13: t + k")
	mm(t, 1.5541, o.Places[1].Shift, four, "S13")
	o = openingOf(t, pairAsked("1.3 mm", "0 mm", angled(75), ""), "wrong_way")
	mm(t, 10.3, &o.Distance, 1e-9, "S14: 2t + k")
	mm(t, 2.7599, o.Places[1].Shift, four, "S14")
	for angle, want := range map[float64]float64{10: 0.4056, 80: 13.0439} { // S15
		o = openingOf(t, pairAsked("1.3 mm", "0.5 mm", angled(angle), ""), "bookmatch")
		require.NotNil(t, o.Places[1].Ray)
		assert.InDelta(t, want, math.Abs(o.Places[1].Ray.Value), four, "S15")
	}
	o = openingOf(t, pairAsked("1.3 mm", "0.5 mm", grained(75, `"flame_lean_deg": 10, "dip_one_in": 60`), ""), "bookmatch")
	mm(t, 0.4056, o.Flame, four, "S17")
	mm(t, 138, o.Tips, 1e-9, "S18")
	for _, s := range o.Seams { // S23
		mm(t, 0.6163, &s.Cure.Width, four, "S23 width")
		mm(t, 0.4056, s.Cure.Slide, four, "S23 length")
	}
	// 1 degree on the edge is a dip of 1 in 57.29 along the length.
	o = openingOf(t, pairAsked("1.3 mm", "0.5 mm", grained(5, fmt.Sprintf(`"dip_one_in": %.9f`, 1/math.Tan(math.Pi/180))), ""), "bookmatch")
	mm(t, 25.781, o.Places[1].Square, 5e-4, "S19 square to the line")
	mm(t, 26.2891, o.Places[1].Shift, four, "S19 along the width")
	mm(t, 131.7669, o.Tips, four, "S19 along the length")
	// S21 and S22 are inverses: what they give brings a shift of 0.5.
	o = openingOf(t, pairAsked("2.8356 mm", "0 mm", angled(80), ""), "bookmatch")
	mm(t, 0.5, o.Places[1].Shift, four, "S21")
	o = openingOf(t, pairAsked("1.3 mm", "0.5 mm", angled(77.7352), ""), "bookmatch")
	mm(t, 0.5, o.Places[1].Shift, four, "S22")
}

// R02: ring angles 60 at x = 40 and 80 at x = 220 put the pith 45.6942 mm below
// the face line at x = -39.1447. R06: rings 2.0 apart are seen 2, 2.3094 and 4
// apart at 90, 60 and 30 degrees.
func TestWorkedProblemsOfTheRings(t *testing.T) {
	body := `{"billet": {"width": "220 mm", "rings": {"readings": [{"y": "40 mm", "angle_deg": 60}, {"y": "220 mm", "angle_deg": 80}]}}, "stack": {"leaves": 2, "sawn_thickness": "4.5 mm"}, "saw": {"cleanup_show": "0 mm", "kerf": "1.5 mm"}}`
	a := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", body)
	require.NotNil(t, a.Result.Pith)
	assert.InDelta(t, -39.1447, a.Result.Pith.Y.Value, 5e-5)
	assert.InDelta(t, 45.6942, a.Result.Pith.Z.Value, 5e-5)
	assert.Equal(t, "pith", a.Result.Edges.Near)
	assert.Equal(t, "bark", a.Result.Edges.Far)
	assert.Less(t, a.Result.Leaves[0].Near, a.Result.Leaves[0].Far, "steeper towards the bark")
	for angle, want := range map[float64]float64{90: 2, 60: 2.3094, 30: 4} {
		o := openingOf(t, pairAsked("1.3 mm", "0.5 mm", angled(angle)+`, "ring_width": "2 mm"`, ""), "bookmatch")
		mm(t, want, o.Places[1].SpacingFirst, 5e-5, "R06")
	}
}

// Runout 1 in 24, which one large maker accepts, is 2.39 degrees; booking mirrors
// it and slipping does not.
func TestRunoutShading(t *testing.T) {
	body := pairAsked("1.3 mm", "0.5 mm", grained(80, `"runout_one_in": 24`), "")
	book, slip := openingOf(t, body, "bookmatch"), openingOf(t, body, "slip_match")
	assert.InDelta(t, 2.39, book.Runout.Angle, 0.005)
	assert.True(t, book.Runout.Mirrored)
	assert.InDelta(t, 2*book.Runout.Angle, book.Runout.Difference, 1e-9)
	assert.False(t, slip.Runout.Mirrored)
	assert.Zero(t, slip.Runout.Difference)
	mm(t, 2.3/24, book.Flame, 1e-9, "bands square to the fibre lean as the runout")
}

// The band holds the shifts of the ring angle 1.645 standard deviations either
// way.
func TestBandOfTheShift(t *testing.T) {
	o := openingOf(t, pairAsked("1.3 mm", "0.5 mm", angled(75)+`, "angle_sd_deg": 3`, ""), "bookmatch")
	b := o.Places[1].Band
	require.NotNil(t, b)
	cot := func(degrees float64) float64 { return 2.3 / math.Tan(degrees*math.Pi/180) }
	assert.InDelta(t, cot(75+1.6449*3), b.Low, 1e-3)
	assert.InDelta(t, cot(75-1.6449*3), b.High, 1e-3)
}

// 9 leaves, leaf 5 spoiled: runs of 4 and 4, four pairs, as worked problem Y25.
func TestPairsOfAStack(t *testing.T) {
	stack := `{"billet": {"width": "210 mm", "rings": {"pith": {"y": "-60 mm", "z": "40 mm"}}}, "stack": {"leaves": 9, "sawn_thickness": "4.5 mm"}, "rejected_leaves": [5], "saw": {"cleanup_show": "0.5 mm", "kerf": "1.5 mm"}}`
	r := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", stack).Result
	require.Len(t, r.Chosen, 4)
	taken := map[int]bool{}
	for _, c := range r.Chosen {
		for _, leaf := range []int{c.First, c.Second} {
			assert.NotEqual(t, 5, leaf)
			assert.False(t, taken[leaf], "a leaf is in one pair only")
			taken[leaf] = true
		}
	}
	assert.Len(t, r.Pairs, 6, "1-2 2-3 3-4 6-7 7-8 8-9")
	assert.Len(t, r.Ranked, 18)
	for i := 1; i < len(r.Ranked); i++ {
		assert.LessOrEqual(t, r.Ranked[i-1].Cured, r.Ranked[i].Cured)
	}
	assert.Len(t, r.Advice, 4)

	// The same stack leaf by leaf.
	var faces []string
	for i := range 9 {
		faces = append(faces, fmt.Sprintf(`{"z_from": "%g mm", "z_to": "%g mm"}`, 6*float64(i), 6*float64(i)+4.5))
	}
	one := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", strings.Replace(stack, `"stack": {"leaves": 9, "sawn_thickness": "4.5 mm"}`, `"leaves": [`+strings.Join(faces, ",")+`]`, 1)).Result
	assert.Equal(t, r.Chosen, one.Chosen)
	assert.Equal(t, r.Advice, one.Advice)
}

// A truly radial cut, the pith in the plane of the kerf: ring lines meet however
// far apart the faces are.
func TestPithInThePlaneOfTheKerf(t *testing.T) {
	o := openingOf(t, `{"billet": {"width": "210 mm", "rings": {"pith": {"y": "-50 mm", "z": "11.5 mm"}}}, "stack": {"leaves": 2, "sawn_thickness": "10 mm"}, "saw": {"cleanup_show": "1 mm", "kerf": "3 mm"}}`, "wrong_way")
	for _, p := range o.Places {
		mm(t, 0, p.Shift, 1e-9, p.At)
	}
}

// A leaf through a whole flitch has bark at both edges: that is answered, and said.
func TestBothEdgesMayFaceTheBark(t *testing.T) {
	a := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", `{"billet": {"width": "210 mm", "rings": {"angle_deg": 80}, "edges_in_tree": {"near": "bark", "far": "bark"}}, "stack": {"leaves": 2, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "1.5 mm"}}`)
	assert.NotEmpty(t, a.Result.Pairs)
	said := ""
	for _, w := range a.Warnings {
		if w.Input == "/billet/edges_in_tree" {
			said += w.Detail
		}
	}
	assert.Contains(t, said, "both edges are said to face the bark; then the pith lies between them")
}

func TestNoSoundPair(t *testing.T) {
	r := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", pairAsked("1 mm", "0 mm", angled(60), `, "rejected_leaves": [1]`)).Result
	assert.Empty(t, r.Chosen)
	assert.Contains(t, r.Summary, "no pair")
	drawn := asking.Posting("/v1/bookmatch?as=svg", pairAsked("1 mm", "0 mm", angled(60), `, "rejected_leaves": [1]`)).Of(t, asking.SharedService())
	assert.Equal(t, http.StatusOK, drawn.Code)
}

// A carved pair: at the seam nothing changes, at the outer edge the outsides lie two arches
// further apart, and what is left once the seam meets is told of the outside.
func TestCarvedPair(t *testing.T) {
	body := asking.ExampleText(t, "bookmatch.pair-carved-to-an-arch.json")
	carved := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", body).Result
	flat := asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", strings.Replace(body, `"arch_height": "15 mm",`, ``, 1)).Result
	s, plain := carved.Pairs[0].Openings[0].Seams[0], flat.Pairs[0].Openings[0].Seams[0]
	require.Len(t, s.Carved, 3)
	assert.Empty(t, plain.Carved)
	assert.Equal(t, plain.Shift, s.Shift, "the seam is as sawn")
	mm(t, 0, &s.Carved[0].DepthFirst, 1e-9, "at the seam")
	mm(t, 15, &s.Carved[2].DepthFirst, 1e-6, "at the other edge")
	mm(t, 187, &s.Carved[2].Y, 1e-9, "the other edge")
	assert.Greater(t, s.Cure.Residual.Value, plain.Cure.Residual.Value+1)
	assert.Contains(t, carved.Summary, "elsewhere on the carved outside")
	assert.Contains(t, asking.TextsOf(t, asking.Drawn(t, asking.DrawnOf(t, "/v1/bookmatch?as=svg", body))), "carved")
}

func TestDrawingOfTheMatch(t *testing.T) {
	for path, bodies := range asking.ExampleBodies(t) {
		if path == "/v1/bookmatch" {
			for _, body := range bodies {
				asking.DrawnOf(t, path, string(body))
			}
		}
	}
	for name, rest := range map[string]string{
		"pith inside":      `"rings": {"pith": {"y": "90 mm", "z": "70 mm"}}`,
		"pith far away":    `"rings": {"pith": {"y": "-50 m", "z": "40 m"}}`,
		"pith on an edge":  `"rings": {"pith": {"y": "0 mm", "z": "0 mm"}}`,
		"flat":             `"rings": {"angle_deg": 0}`,
		"on quarter":       `"rings": {"angle_deg": 90}`,
		"very fine rings":  `"rings": {"pith": {"y": "-90 mm", "z": "70 mm"}, "ring_width": "0.01 mm"}`,
		"very broad rings": `"rings": {"pith": {"y": "-90 mm", "z": "70 mm"}, "ring_width": "50 mm"}`,
	} {
		text := asking.DrawnOf(t, "/v1/bookmatch", `{"billet": {"width": "200 mm", `+rest+`}, "stack": {"leaves": 40, "sawn_thickness": "3 mm", "z_from": "5 mm"}, "saw": {"kerf": "1 mm"}}`)
		assert.Less(t, len(text), 2_000_000, name)
	}
	// A pair on quarter needs no jointing: one strip; at 60 degrees two.
	assert.NotContains(t, asking.DrawnOf(t, "/v1/bookmatch", pairAsked("1 mm", "0 mm", angled(90), `, "openings": ["bookmatch"]`)), ">jointed<")
	assert.Contains(t, asking.DrawnOf(t, "/v1/bookmatch", pairAsked("1 mm", "0 mm", angled(60), `, "openings": ["bookmatch"]`)), ">jointed<")
}

// BenchmarkBookmatch is a stack of 40 leaves in three openings. Limit: 5 ms.
func BenchmarkBookmatch(b *testing.B) {
	s, err := api.New(serve.Config{Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/bookmatch", []byte(`{"billet": {"width": "210 mm", "rings": {"pith": {"y": "-60 mm", "z": "70 mm"}, "angle_sd_deg": 2, "ring_width": "2 mm"}}, "stack": {"leaves": 40, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "1.5 mm"}}`))
}

// grained are rings with what was read of the grain beside them.
func grained(degrees float64, grain string) string {
	return angled(degrees) + `}, "grain": {` + grain
}

// pairAsked is a request for one pair of 4.5 mm leaves.
func pairAsked(kerf, cleanup, rings, rest string) string {
	return `{"billet": {"width": "210 mm", "rings": {` + rings + `}}, "stack": {"leaves": 2, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "` + kerf + `", "cleanup_show": "` + cleanup + `"}` + rest + `}`
}

// The pith that the chord of a ring gives is a pith; a radius has no bearing on a match.
func TestMatchByAChord(t *testing.T) {
	of := func(rings string) serve.Answer[cut.BookmatchResult] {
		return asking.InFull[cut.BookmatchResult](t, "/v1/bookmatch", `{"billet": {"width": "210 mm", "rings": `+rings+`}, "stack": {"leaves": 4, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "1.5 mm", "cleanup_show": "0 mm", "cleanup_back": "0 mm"}}`)
	}
	pith := of(`{"pith": {"y": "300 mm", "z": "150 mm"}}`)
	// a ring of 100 mm: 80 mm to either side of the pith its chord lies 60 mm off, and it stands 40 mm over that
	chord := of(`{"chord": {"from": {"y": "220 mm", "z": "90 mm"}, "to": {"y": "380 mm", "z": "90 mm"}, "height": "40 mm"}, "pith_side": "face_2"}`)
	assert.Equal(t, pith.Result.Summary, chord.Result.Summary)
	assert.Len(t, chord.Warnings, len(pith.Warnings))
	angle, round := of(`{"angle_deg": 70}`), of(`{"angle_deg": 70, "radius": "100 mm"}`)
	assert.Equal(t, angle.Result, round.Result)
	assert.Contains(t, fmt.Sprint(round.Warnings), "billet.rings.radius has no bearing on this answer")
}
