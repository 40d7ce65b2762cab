package match_test

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

const onemm = quantity.Millimetre

// twoLeaves is a pair of plates 200 wide with one ring angle.
func twoLeaves(angle quantity.Angle) match.Input {
	return match.Input{
		Width: 200 * onemm, Count: 2, Leaf: 4.5 * onemm, Kerf: 1.3 * onemm,
		Rings: match.RingPosition{Readings: []match.RingReading{{Angle: angle}}, Lean: match.LeansFar},
	}
}

func matched(t require.TestingT, in match.Input) match.Result {
	r, err := match.Halves(in)
	require.NoError(t, err)
	return r
}

func layoutOf(t require.TestingT, p match.Pair, o resaw.Opening) match.Layout {
	for _, l := range p.Layouts {
		if l.Opening == o {
			return l
		}
	}
	require.Fail(t, "no layout", string(o))
	return match.Layout{}
}

// crossing finds where the circle about the pith through (x, z) meets the line
// at depth, on its own side of the pith, by bisection: nothing of the formula
// under test.
func crossing(pith resaw.Point, x, z, depth float64) (float64, bool) {
	px, pz := float64(pith.X), float64(pith.Z)
	r := math.Hypot(x-px, z-pz)
	side := 1.0
	if x < px {
		side = -1
	}
	outside := func(u float64) bool { return math.Hypot(u, depth-pz) > r }
	if outside(0) {
		return 0, false
	}
	low, high := 0.0, r+1
	for range 200 {
		if mid := (low + high) / 2; outside(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return px + side*low, true
}

func pithStack(t *rapid.T) match.Input {
	mm := func(name string, low, high float64) quantity.Length {
		return quantity.Length(rapid.Float64Range(low, high).Draw(t, name)) * onemm
	}
	return match.Input{
		Width: mm("width", 60, 300), Count: rapid.IntRange(2, 6).Draw(t, "count"), First: mm("first", 0, 10), Leaf: mm("leaf", 2, 9),
		Kerf: mm("kerf", 0.5, 3), Reface: mm("reface", 0, 0.5), CleanupShow: mm("show", 0, 0.6), SeamEdge: mm("edge", 0, 5),
		Rings: match.RingPosition{Pith: &resaw.Point{X: mm("xp", -200, 400), Z: mm("zp", -150, 200)}},
	}
}

func TestMatchAgainstConstructedCircles(t *testing.T) {
	reached := 0
	rapid.Check(t, func(t *rapid.T) {
		in := pithStack(t)
		for _, pair := range matched(t, in).Pairs {
			for _, l := range pair.Layouts {
				for _, p := range l.Places {
					z := float64(l.ShowA+l.ShowB) / 2
					a, okA := crossing(*in.Rings.Pith, float64(p.X), z, float64(l.ShowA))
					b, okB := crossing(*in.Rings.Pith, float64(p.X), z, float64(l.ShowB))
					assert.Equal(t, okA && okB, p.Circle != nil)
					if p.Circle == nil {
						assert.Nil(t, p.Shift)
						continue
					}
					reached++
					// Near the edge of the circle the root is a square root of
					// rounding: 1e-8 m; elsewhere far better.
					assert.InDelta(t, b-a, float64(*p.Circle), 2e-8)
				}
			}
		}
	})
	assert.Greater(t, reached, 100)
}

func TestStatedAccuracyOfPlaneRings(t *testing.T) {
	for _, c := range []struct{ r, deg, d, within float64 }{
		{69, 60, 2.3, 0.0005}, {103, 75, 2.3, 0.0003}, {153, 85, 2.3, 0.0003}, {89, 26.565, 5, 0.11},
	} {
		theta := c.deg * math.Pi / 180
		p := layoutOf(t, matched(t, throughRing(c.r, theta, c.d)).Pairs[0], resaw.Bookmatch).Places[0]
		assert.InDelta(t, c.deg, p.Angle.Degrees(), 1e-9)
		assert.InDelta(t, p.Circle.Millimetres(), p.Plane.Millimetres(), c.within)
		assert.InDelta(t, acrossTrueRings(c.r, theta, c.d, 0.7), p.Circle.Millimetres(), 1e-9)
		assert.Positive(t, *p.Circle, "beneath the face and to the left: deeper lies farther right")
	}
}

func TestRadialCutCancels(t *testing.T) {
	in := twoLeaves(0)
	// Pith in the plane of the kerf: bookmatch and wrong way are symmetric.
	in.Rings = match.RingPosition{Pith: &resaw.Point{X: -60 * onemm, Z: 5.15 * onemm}}
	pair := matched(t, in).Pairs[0]
	for _, o := range []resaw.Opening{resaw.Bookmatch, resaw.WrongWay} {
		for _, p := range layoutOf(t, pair, o).Places {
			assert.InDelta(t, 0, p.Circle.Millimetres(), 1e-9, o)
			assert.InDelta(t, 90, p.Angle.Degrees(), 1e-9)
			assert.Nil(t, p.Ray, "a ray from the pith passes one face only")
			assert.InDelta(t, p.AngleA.Degrees(), p.AngleB.Degrees(), 1e-9, "and the halves mirror")
		}
	}
	assert.Greater(t, math.Abs(layoutOf(t, pair, resaw.SlipMatch).Places[0].Circle.Millimetres()), 0.1)
}

// ringAngle is the acute angle between the ring tangent and the face at a point, for
// rings that are circles about the pith.
func ringAngle(at, pith resaw.Point) quantity.Angle {
	return quantity.Angle(math.Atan2(math.Abs(float64(at.X-pith.X)), math.Abs(float64(at.Z-pith.Z))))
}

// The match answers as the relations it is built on, written out here.
func TestMatchAgreesWithItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := pithStack(t)
		in.RingWidth, in.Dip, in.Runout = 1.5*onemm, rapid.Float64Range(5, 500).Draw(t, "dip"), rapid.Float64Range(25, 500).Draw(t, "runout")
		pith := *in.Rings.Pith
		r := matched(t, in)
		require.Len(t, r.Leaves, in.Count)
		for i, a := range r.Leaves {
			z := in.First + quantity.Length(i)*(in.Leaf+in.Kerf+in.Reface) + in.Leaf/2
			for j, got := range []quantity.Angle{a.Near, a.Middle, a.Far} {
				want := ringAngle(resaw.Point{X: quantity.Length(j) * in.Width / 2, Z: z}, pith)
				assert.InDelta(t, want.Degrees(), got.Degrees(), 1e-9)
			}
		}
		require.Len(t, r.Pairs, in.Count-1)
		for _, pair := range r.Pairs {
			for _, l := range pair.Layouts {
				// what lies between the faces that show
				k, s := in.Kerf+in.Reface, 2*in.CleanupShow
				between := map[resaw.Opening]quantity.Length{resaw.Bookmatch: k + s, resaw.SlipMatch: in.Leaf + k, resaw.WrongWay: 2*in.Leaf + k - s}
				assert.InDelta(t, between[l.Opening].Millimetres(), l.Distance.Millimetres(), 5e-6, "a few rounded nanometres")
				d := float64(l.Distance)
				assert.InDelta(t, d/in.Runout, float64(*l.BandShift), 1e-12, "bands square to the fibre")
				assert.InDelta(t, d*in.Dip, float64(*l.TipShift), 1e-12)
				for _, p := range l.Places {
					mid := ringAngle(resaw.Point{X: p.X, Z: (l.ShowA + l.ShowB) / 2}, pith)
					assert.InDelta(t, mid.Degrees(), p.Angle.Degrees(), 1e-9)
					if mid < 0.02*quantity.Degree || mid > 89.9*quantity.Degree {
						continue
					}
					assert.InEpsilon(t, d*mid.Cos()/mid.Sin(), math.Abs(float64(*p.Plane)), 1e-9)
					assert.InEpsilon(t, d/math.Hypot(mid.Tan(), 1/in.Dip), float64(*p.Square), 1e-9)
					if p.Ray != nil {
						assert.InEpsilon(t, d*mid.Tan(), math.Abs(float64(*p.Ray)), 1e-9)
						assert.LessOrEqual(t, float64(*p.Ray)*float64(*p.Plane), 0.0, "rays lean the other way")
					}
					for i, z := range []quantity.Length{l.ShowA, l.ShowB} {
						face := ringAngle(resaw.Point{X: p.X, Z: z}, pith)
						assert.InDelta(t, face.Degrees(), []quantity.Angle{p.AngleA, p.AngleB}[i].Degrees(), 1e-9)
						if face < 0.02*quantity.Degree {
							continue
						}
						assert.InEpsilon(t, float64(in.RingWidth)/face.Sin(), float64(*p.Spacing[i]), 1e-9)
					}
				}
			}
		}
	})
}

// Taking the stated width off the stated half brings the ring through mid-kerf
// to the same distance from the seam on both halves.
func TestCureBringsTheLinesTogether(t *testing.T) {
	cured := 0
	rapid.Check(t, func(t *rapid.T) {
		in := pithStack(t)
		for _, pair := range matched(t, in).Pairs {
			for _, o := range []resaw.Opening{resaw.Bookmatch, resaw.WrongWay} {
				l := layoutOf(t, pair, o)
				for i, s := range l.Seams {
					if s.Shift == nil {
						assert.Contains(t, s.Cure.NotCurable, "ring")
						continue
					}
					place := l.Places[2*i]
					z := float64(l.ShowA+l.ShowB) / 2
					a, _ := crossing(*in.Rings.Pith, float64(place.X), z, float64(l.ShowA))
					b, _ := crossing(*in.Rings.Pith, float64(place.X), z, float64(l.ShowB))
					fromSeam := func(x float64) float64 {
						if s.Edge == match.NearEdge {
							return x - float64(place.X)
						}
						return float64(place.X) - x
					}
					first, second := fromSeam(a), fromSeam(b)
					switch s.Cure.Half {
					case match.FirstHalf:
						first -= float64(s.Cure.Width)
					case match.SecondHalf:
						second -= float64(s.Cure.Width)
					case match.NoHalf, match.EitherHalf:
						assert.Zero(t, s.Cure.Width)
					}
					assert.InDelta(t, first, second, 4e-8)
					assert.Equal(t, s.Cure.Width > match.UsualSpare, len(s.Cure.NotCurable) == 1)
					cured++
				}
			}
		}
	})
	assert.Greater(t, cured, 100)
}

func TestScaleAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := pithStack(t)
		base := matched(t, in)
		same := func(want, got *quantity.Length, factor float64) {
			require.Equal(t, want == nil, got == nil)
			if want != nil {
				assert.InDelta(t, factor*float64(*want), float64(*got), 1e-7*math.Max(1, factor))
			}
		}
		// The same billet in another unit of length.
		f := quantity.Length(rapid.SampledFrom([]float64{0.5, 2, 25.4}).Draw(t, "factor"))
		big := in
		big.Width, big.First, big.Leaf, big.Kerf, big.Reface = f*in.Width, f*in.First, f*in.Leaf, f*in.Kerf, f*in.Reface
		big.CleanupShow, big.SeamEdge = f*in.CleanupShow, f*in.SeamEdge
		big.Rings.Pith = &resaw.Point{X: f * in.Rings.Pith.X, Z: f * in.Rings.Pith.Z}
		scaled := matched(t, big)
		// Near and far exchanged.
		turned := in
		turned.Rings.Pith = &resaw.Point{X: in.Width - in.Rings.Pith.X, Z: in.Rings.Pith.Z}
		mirrored := matched(t, turned)
		for i, pair := range base.Pairs {
			for j, l := range pair.Layouts {
				other := mirrored.Pairs[i].Layouts[j]
				for k, p := range l.Places {
					if p.Angle > quantity.Degree { // below it a touch of rounding may lose the crossing
						same(p.Plane, scaled.Pairs[i].Layouts[j].Places[k].Plane, float64(f))
						same(p.Plane, other.Places[2-k].Plane, -1)
					}
					if p.Angle > 20*quantity.Degree && p.Circle != nil {
						same(p.Circle, scaled.Pairs[i].Layouts[j].Places[k].Circle, float64(f))
						same(p.Circle, other.Places[2-k].Circle, -1)
					}
					assert.InDelta(t, p.Angle.Degrees(), other.Places[2-k].Angle.Degrees(), 1e-6)
					assert.InDelta(t, p.Angle.Degrees(), scaled.Pairs[i].Layouts[j].Places[k].Angle.Degrees(), 1e-6)
				}
			}
		}
	})
}

func TestMatchIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shift := func(angle, kerf float64) float64 {
			in := twoLeaves(quantity.Angle(angle) * quantity.Degree)
			in.Kerf = quantity.Length(kerf) * onemm
			return layoutOf(t, matched(t, in).Pairs[0], resaw.Bookmatch).Places[1].Shift.Millimetres()
		}
		a := rapid.Float64Range(1, 88).Draw(t, "angle")
		k := rapid.Float64Range(0.1, 4).Draw(t, "kerf")
		assert.Greater(t, shift(a, k), shift(a+1, k), "less towards quarter")
		assert.Less(t, shift(a, k), shift(a, k+0.1), "more with more kerf")
		assert.InEpsilon(t, 2*shift(a, k), shift(a, 2*k), 1e-4, "in proportion, to the rounded nanometre")
	})
}

func TestRunoutOfTheHalves(t *testing.T) {
	in := twoLeaves(85 * quantity.Degree)
	in.Runout = 24
	r := matched(t, in)
	for o, want := range map[resaw.Opening]float64{resaw.Bookmatch: 2 * 2.3859, resaw.WrongWay: 2 * 2.3859, resaw.SlipMatch: 0} {
		l := layoutOf(t, r.Pairs[0], o)
		assert.InDelta(t, want, l.Runout.Difference.Degrees(), 1e-4, o)
		assert.Equal(t, o != resaw.SlipMatch, l.Runout.Mirrored)
		assert.InDelta(t, l.Distance.Millimetres()/24, l.BandShift.Millimetres(), 1e-9, "1 in 24 gives d/24")
	}
	warned := func(r match.Result, input string) bool {
		for _, w := range r.Notes.Warnings {
			if w.Input == input {
				return true
			}
		}
		return false
	}
	assert.True(t, warned(r, "band_lean"), "the lean was taken from the runout")
	assert.False(t, warned(r, "runout_one_in"))
	in.Runout = 12
	assert.True(t, warned(matched(t, in), "runout_one_in"))
	in = twoLeaves(3 * quantity.Degree)
	assert.True(t, warned(matched(t, in), "ring_angle"))
	in.Rings = match.RingPosition{Pith: &resaw.Point{X: 100 * onemm, Z: 5 * onemm}}
	r = matched(t, in)
	assert.True(t, warned(r, "pith"))
	assert.Equal(t, match.UnknownEdge, r.Near, "a pith between the edges does not tell them")
}

// The band holds 90 % of the shifts of ring angles drawn from the same normal
// distribution, 5 % on either side: counted over its quantiles.
func TestBandHoldsNinetyPercent(t *testing.T) {
	for _, c := range []struct{ angle, sd float64 }{{85, 3}, {75, 5}, {45, 8}, {90, 4}} {
		in := twoLeaves(quantity.Angle(c.angle) * quantity.Degree)
		in.AngleSD = quantity.Angle(c.sd) * quantity.Degree
		l := layoutOf(t, matched(t, in).Pairs[0], resaw.Bookmatch)
		b := l.Places[0].Band
		require.NotNil(t, b)
		assert.LessOrEqual(t, b.Low, b.Value)
		assert.LessOrEqual(t, b.Value, b.High)
		below, above := 0, 0
		const n = 20000
		for i := range n {
			q := math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/n-1)
			shift := 1.3 / math.Tan((c.angle+q*c.sd)*math.Pi/180)
			if shift < b.Low.Millimetres() {
				below++
			}
			if shift > b.High.Millimetres() {
				above++
			}
		}
		assert.InDelta(t, 0.05, float64(below)/n, 0.0005)
		assert.InDelta(t, 0.05, float64(above)/n, 0.0005)
		in.Rings.Lean = match.LeansNear
		left := layoutOf(t, matched(t, in).Pairs[0], resaw.Bookmatch).Places[0].Band
		assert.InDelta(t, -float64(b.High), float64(left.Low), 1e-12, "the other lean mirrors the band")
	}
	in := twoLeaves(5 * quantity.Degree)
	in.AngleSD = 5 * quantity.Degree
	r := matched(t, in)
	assert.Contains(t, fmt.Sprint(r.Notes.Warnings), "reaches 0 degrees")
}

func TestBetterEdge(t *testing.T) {
	in := twoLeaves(0)
	in.Rings = match.RingPosition{Pith: &resaw.Point{X: -40 * onemm, Z: 60 * onemm}}
	r := matched(t, in)
	assert.Equal(t, match.PithEdge, r.Near)
	assert.Equal(t, match.BarkEdge, r.Far)
	l := layoutOf(t, r.Pairs[0], resaw.Bookmatch)
	assert.Equal(t, 1, l.Better)
	assert.Less(t, math.Abs(float64(*l.Seams[1].Shift)), math.Abs(float64(*l.Seams[0].Shift)))
	assert.Contains(t, l.Reasons, "bark edge at the seam, the usual practice because rings are closest there")
	assert.Contains(t, l.Reasons, "smaller ring shift at the seam, so a wider half once it is cured")
	// Weights decide: with the heart edge wanted and nothing else, the near edge.
	in.Near, in.Far = match.BarkEdge, match.PithEdge
	in.Weights = &match.Weights{PithEdge: 1, Most: 10}
	r = matched(t, in)
	assert.Contains(t, fmt.Sprint(r.Notes.Warnings), "does not go with the position of the pith")
	assert.Equal(t, match.BarkEdge, r.Near, "what was said is kept")
	l = layoutOf(t, r.Pairs[0], resaw.Bookmatch)
	assert.Equal(t, 0, l.Better)
	assert.InDelta(t, 0, l.Seams[0].Score, 0)
	assert.InDelta(t, 1, l.Seams[1].Score, 0)
	assert.InDelta(t, 0.5, layoutOf(t, r.Pairs[0], resaw.SlipMatch).Seams[0].Score, 0, "one half of two")
}

// What stays after the cure, and what meets at the seam: a booked pair has one
// edge there, a slip-matched pair both.
func TestWhatMeetsAtTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := pithStack(t)
		in.RingWidth = 2 * onemm
		for _, pair := range matched(t, in).Pairs {
			for _, l := range pair.Layouts {
				for i, s := range l.Seams {
					own, other := l.Places[2*i], l.Places[2*i]
					if l.Opening == resaw.SlipMatch {
						other = l.Places[2-2*i]
					}
					assert.InDelta(t, float64(own.AngleA), float64(s.AngleA), 0)
					assert.InDelta(t, float64(other.AngleB), float64(s.AngleB), 0)
					if s.Spacing != nil {
						assert.InDelta(t, 2/math.Sin(float64(s.AngleA))-2/math.Sin(float64(s.AngleB)),
							math.Copysign(s.Spacing.Millimetres(), float64(s.AngleB-s.AngleA)), 1e-6*s.Spacing.Millimetres()+1e-9)
					}
					a, b, c := l.Places[0].Shift, l.Places[1].Shift, l.Places[2].Shift
					if a == nil || b == nil || c == nil {
						continue
					}
					want := math.Max(math.Abs(float64(*a-*own.Shift)), math.Max(math.Abs(float64(*b-*own.Shift)), math.Abs(float64(*c-*own.Shift))))
					if l.Opening == resaw.SlipMatch {
						want = float64(max(*a, *b, *c) - min(*a, *b, *c))
						assert.Zero(t, s.Cure.Width, "an equal shift only changes the period")
					}
					assert.InDelta(t, want, float64(s.Cure.Residual), 1e-15)
				}
			}
		}
	})
}

// The score is the stated sum, by hand: d = 2.3, ring angle 75, flame leaning 10
// degrees, dip 1 in 20, runout 1 in 24, heart edge.
func TestScoreByHand(t *testing.T) {
	in := twoLeaves(75 * quantity.Degree)
	lean := 10 * quantity.Degree
	in.CleanupShow, in.BandLean, in.Dip, in.Runout, in.Near = 0.5*onemm, &lean, 20, 24, match.PithEdge
	s := layoutOf(t, matched(t, in).Pairs[0], resaw.Bookmatch).Seams[0]
	assert.InDelta(t, 0.6163+0.4056+0.05*46+0.5*2*2.3859+0.5, s.Score, 2e-4)
	assert.InDelta(t, s.Terms.Sum(), s.Score, 0)
	in.Weights = &match.Weights{Tip: 1, Most: 25}
	assert.InDelta(t, 25, layoutOf(t, matched(t, in).Pairs[0], resaw.Bookmatch).Seams[0].Score, 0, "46 mm are held at 25")
	assert.Equal(t, []string{"tip"}, s.Cure.NotCurable)
	in.SpareLength = 50 * onemm
	assert.Empty(t, layoutOf(t, matched(t, in).Pairs[0], resaw.Bookmatch).Seams[0].Cure.NotCurable)
}

// A bookmatch that trimming cures is chosen over a slip-match; one that is beyond the spare wood is
// not.
func TestABookmatchIsJudgedByWhatTrimmingLeaves(t *testing.T) {
	in := twoLeaves(45 * quantity.Degree) // a bookmatch misses by the distance of its faces, a slip-match counts 3
	for _, row := range []struct {
		show, spare float64
		want        resaw.Opening
	}{{1, 10, resaw.Bookmatch}, {1, 2, resaw.SlipMatch}, {2, 10, resaw.Bookmatch}} {
		in.CleanupShow, in.SpareWidth = quantity.Length(row.show)*onemm, quantity.Length(row.spare)*onemm
		r := matched(t, in)
		book := layoutOf(t, r.Pairs[0], resaw.Bookmatch)
		seam := book.Seams[book.Better]
		require.Greater(t, seam.Score, 3.0)
		if row.want == resaw.Bookmatch {
			assert.InDelta(t, match.TrimShare*seam.Score, seam.Cured, 1e-9, "rings are planes: nothing is left elsewhere")
		} else {
			assert.InDelta(t, seam.Score, seam.Cured, 0)
		}
		require.Len(t, r.Chosen, 1)
		assert.Equal(t, row.want, r.Chosen[0].Opening, "%+v", row)
		assert.Equal(t, r.Ranked[0], r.Chosen[0])
	}
}

// Chosen pairs against every way to pair up.
func TestChosenPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := pithStack(t)
		in.Count = rapid.IntRange(2, 9).Draw(t, "leaves")
		in.Spoiled = rapid.SliceOfNDistinct(rapid.IntRange(1, in.Count), 0, 2, rapid.ID[int]).Draw(t, "spoiled")
		r := matched(t, in)
		best := map[int]float64{}
		for i, ranked := range r.Ranked {
			if i > 0 {
				assert.LessOrEqual(t, r.Ranked[i-1].Cured, ranked.Cured)
			}
			if _, ok := best[ranked.First]; !ok {
				best[ranked.First] = ranked.Cured
			}
		}
		var count func(leaf int) (int, float64)
		count = func(leaf int) (int, float64) {
			if leaf >= in.Count {
				return 0, 0
			}
			n, s := count(leaf + 1)
			if score, ok := best[leaf]; ok {
				if m, more := count(leaf + 2); m+1 > n || m+1 == n && more+score < s {
					n, s = m+1, more+score
				}
			}
			return n, s
		}
		n, s := count(1)
		require.Len(t, r.Chosen, n)
		total, last := 0.0, -1
		for _, c := range r.Chosen {
			total += c.Cured
			assert.Greater(t, c.First, last+1)
			last = c.First
		}
		assert.InDelta(t, s, total, 1e-9)
		sets, err := resaw.Sets(in.Count, in.Spoiled, 2)
		require.NoError(t, err)
		assert.Len(t, r.Chosen, len(sets.Sets), "as many as the runs give")
	})
}

func TestReadingsAndLeaves(t *testing.T) {
	in := twoLeaves(0)
	// Worked problem R02: pith 45.6942 below the face, 39.1447 left of 0.
	in.Width = 260 * onemm
	in.Rings = match.RingPosition{Readings: []match.RingReading{{X: 40 * onemm, Angle: 60 * quantity.Degree}, {X: 220 * onemm, Angle: 80 * quantity.Degree}}}
	r := matched(t, in)
	require.NotNil(t, r.Pith)
	assert.InDelta(t, -39.1447, r.Pith.X.Millimetres(), 1e-4)
	assert.InDelta(t, 45.6942, r.Pith.Z.Millimetres(), 1e-4)
	in.Rings.PithBeforeFace1 = true
	assert.InDelta(t, -45.6942, matched(t, in).Pith.Z.Millimetres(), 1e-4)
	in.Rings.Readings[1].Angle = 60 * quantity.Degree
	assert.Nil(t, matched(t, in).Pith, "equal angles are planes")
	in.Rings.Readings = []match.RingReading{{Angle: 90 * quantity.Degree}, {X: 220 * onemm, Angle: 89.8 * quantity.Degree}}
	assert.Nil(t, matched(t, in).Pith, "on quarter")

	// Leaves given one by one answer as the regular stack.
	in = twoLeaves(70 * quantity.Degree)
	in.First = 3 * onemm
	one := matched(t, in)
	in.Leaves, in.Count = []resaw.LeafFaces{{Front: 3 * onemm, Back: 7.5 * onemm}, {Front: 8.8 * onemm, Back: 13.3 * onemm}}, 0
	two := matched(t, in)
	for i := range one.Pairs[0].Layouts {
		assert.InDelta(t, float64(one.Pairs[0].Layouts[i].Distance), float64(two.Pairs[0].Layouts[i].Distance), 2e-9)
		assert.InDelta(t, one.Pairs[0].Layouts[i].Seams[0].Score, two.Pairs[0].Layouts[i].Seams[0].Score, 1e-5)
	}
	in.Rings.Lean = match.UnknownLean
	assert.Equal(t, match.EitherHalf, matched(t, in).Pairs[0].Layouts[0].Seams[0].Cure.Half)
}

// Ring lines that run along the face have no partner; all else is told.
func TestFlatRingsAreAnswered(t *testing.T) {
	in := twoLeaves(0)
	in.RingWidth, in.Dip, in.AngleSD = 2*onemm, 60, 2*quantity.Degree
	l := matched(t, in).Pairs[0].Layouts[0]
	for i := range l.Places {
		assert.Zero(t, l.Places[i].Angle)
		assert.Nil(t, l.Places[i].Shift)
		assert.Nil(t, l.Places[i].Spacing[0])
	}
	assert.Equal(t, []string{"ring"}, l.Seams[0].Cure.NotCurable[:1])
	assert.NotNil(t, l.TipShift)
}

// Readings below face 1 put the pith as much deeper.
func TestReadingsBelowFace1(t *testing.T) {
	in := twoLeaves(0)
	in.Rings = match.RingPosition{Readings: []match.RingReading{{X: 40 * onemm, Angle: 60 * quantity.Degree}, {X: 220 * onemm, Angle: 80 * quantity.Degree}}}
	onFace := matched(t, in).Pith
	for i := range in.Rings.Readings {
		in.Rings.Readings[i].Z = 12 * onemm
	}
	below := matched(t, in).Pith
	assert.InDelta(t, float64(onFace.X), float64(below.X), 1e-12)
	assert.InDelta(t, float64(onFace.Z)+0.012, float64(below.Z), 1e-12)
}

func TestMatchRefusesNonsense(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		change func(*match.Input)
		code   method.Code
		input  string
	}{
		{func(in *match.Input) { in.Width = quantity.Length(nan) }, method.OutOfRange, "width"},
		{func(in *match.Input) { in.Width = 0 }, method.OutOfRange, "width"},
		{func(in *match.Input) { in.Kerf = -onemm }, method.OutOfRange, "kerf"},
		{func(in *match.Input) { in.Leaf = 0 }, method.OutOfRange, "leaf"},
		{func(in *match.Input) { in.Count = 1 }, method.OutOfRange, "count"},
		{func(in *match.Input) { in.Count = 1001 }, method.TooMuchWork, "count"},
		{func(in *match.Input) { in.CleanupShow = 4.5 * onemm }, method.Contradictory, "cleanup_show"},
		{func(in *match.Input) { in.SeamEdge = 100 * onemm }, method.Contradictory, "seam_edge"},
		{func(in *match.Input) { in.Dip = nan }, method.OutOfRange, "dip_one_in"},
		{func(in *match.Input) { in.Runout = nan }, method.OutOfRange, "runout_one_in"},
		{func(in *match.Input) { in.Runout = 0.5 }, method.OutOfRange, "runout_one_in"},
		{func(in *match.Input) { in.AngleSD = 1 }, method.OutOfRange, "ring_angle_sd"},
		{func(in *match.Input) { in.AngleSD = quantity.Angle(nan) }, method.OutOfRange, "ring_angle_sd"},
		{func(in *match.Input) { a := quantity.Angle(math.Pi / 2); in.BandLean = &a }, method.OutOfRange, "band_lean"},
		{func(in *match.Input) { in.RingWidth = quantity.Length(math.Inf(1)) }, method.OutOfRange, "ring_width"},
		{func(in *match.Input) { in.SpareWidth = -1 }, method.OutOfRange, "spare_width"},
		{func(in *match.Input) { in.Rings.Readings = nil }, method.Missing, "rings"},
		{func(in *match.Input) { in.Rings.Pith = &resaw.Point{} }, method.Contradictory, "rings"},
		{func(in *match.Input) { in.Rings = match.RingPosition{Pith: &resaw.Point{X: quantity.Length(nan)}} }, method.OutOfRange, "pith_x"},
		{func(in *match.Input) { in.Rings.Readings[0].Angle = -0.001 }, method.OutOfRange, "ring_angle"},
		{func(in *match.Input) { in.Rings.Readings[0].Angle = quantity.Angle(nan) }, method.OutOfRange, "ring_angle"},
		{func(in *match.Input) {
			in.Rings.Readings = []match.RingReading{{Angle: 1}, {X: onemm, Z: onemm, Angle: 0.5}}
		}, method.Contradictory, "z2"},
		{func(in *match.Input) { in.Rings.Readings = make([]match.RingReading, 3) }, method.OutOfRange, "rings"},
		{func(in *match.Input) { in.Rings.Lean = "up" }, method.Unknown, "lean"},
		{func(in *match.Input) { in.Near = "top" }, method.Unknown, "near"},
		{func(in *match.Input) { in.Openings = []resaw.Opening{"carved_wedge"} }, method.Unknown, "openings/0"},
		{func(in *match.Input) { in.Openings = []resaw.Opening{resaw.Bookmatch, resaw.Bookmatch} }, method.Contradictory, "openings/1"},
		{func(in *match.Input) { in.Spoiled = []int{3} }, method.OutOfRange, "spoiled"},
		{func(in *match.Input) { in.Weights = &match.Weights{Tip: nan} }, method.OutOfRange, "weights/tip"},
		{func(in *match.Input) { in.Leaves = []resaw.LeafFaces{{Front: 0, Back: 1}, {Front: 1, Back: 1}} }, method.Contradictory, "leaves/1/back"},
		{func(in *match.Input) { in.Leaves = []resaw.LeafFaces{{Front: 0, Back: 1}, {Front: 0.5, Back: 2}} }, method.Contradictory, "leaves/1/front"},
		{func(in *match.Input) { in.Leaves = []resaw.LeafFaces{{Front: -1, Back: 1}, {Front: 2, Back: 3}} }, method.OutOfRange, "leaves/0/front"},
		{func(in *match.Input) {
			in.Count, in.Leaves = 3, []resaw.LeafFaces{{Front: 0, Back: 1}, {Front: 1, Back: 2}}
		}, method.Contradictory, "count"},
	} {
		in := twoLeaves(75 * quantity.Degree)
		c.change(&in)
		_, err := match.Halves(in)
		assertError(t, err, c.code, c.input)
	}
}

// Whatever is taken is answered with finite numbers.
func TestMatchIsFinite(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		wild := rapid.Bool().Draw(t, "wild")
		number := func(name string) float64 {
			if wild && rapid.IntRange(0, 9).Draw(t, "wild "+name) == 0 {
				return rapid.OneOf(rapid.Float64Range(-1, 300), rapid.Float64()).Draw(t, name)
			}
			return rapid.OneOf(rapid.SampledFrom([]float64{1, 4.5, 25, 30}), rapid.Float64Range(1, 30)).Draw(t, name)
		}
		mm := func(name string) quantity.Length { return quantity.Length(number(name)) * onemm }
		in := match.Input{
			Width: mm("width"), Count: rapid.IntRange(1, 5).Draw(t, "count"), First: mm("first"), Leaf: mm("leaf"), Kerf: mm("kerf"),
			CleanupShow: quantity.Length(rapid.Float64Range(0, 1e-3).Draw(t, "show")), RingWidth: mm("ring"), Dip: number("dip"), Runout: number("runout"),
			AngleSD: quantity.Angle(number("sd")) * quantity.Degree,
		}
		if rapid.Bool().Draw(t, "pith") {
			in.Rings.Pith = &resaw.Point{X: mm("xp"), Z: mm("zp")}
		} else {
			in.Rings.Readings = []match.RingReading{{X: mm("x"), Angle: quantity.Angle(number("angle")) * quantity.Degree}}
		}
		r, err := match.Halves(in)
		if err != nil {
			var e *method.Error
			require.ErrorAs(t, err, &e)
			return
		}
		answered++
		finite(t, reflect.ValueOf(r), "result")
	})
	assert.Greater(t, answered, 20)
}

func finite(t *rapid.T, v reflect.Value, path string) {
	switch v.Kind() { //nolint:exhaustive // other kinds hold no numbers
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			t.Fatalf("%s is %g", path, f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			finite(t, v.Elem(), path)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			finite(t, v.Index(i), path+"/"+strconv.Itoa(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i), path+"/"+v.Type().Field(i).Name)
		}
	}
}

func BenchmarkHalves(b *testing.B) {
	lean := 5 * quantity.Degree
	in := match.Input{
		Width: 200 * onemm, Count: 101, Leaf: 4.5 * onemm, Kerf: 1.3 * onemm, CleanupShow: 0.5 * onemm,
		Rings:   match.RingPosition{Pith: &resaw.Point{X: -60 * onemm, Z: 290 * onemm}},
		AngleSD: 3 * quantity.Degree, RingWidth: 1.5 * onemm, Dip: 60, Runout: 50, BandLean: &lean,
	}
	for b.Loop() {
		if _, err := match.Halves(in); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/100, "ns/pair")
}

func ExampleHalves() {
	const mm = quantity.Millimetre
	r, err := match.Halves(match.Input{
		Width: 210 * mm, Count: 4, Leaf: 4.5 * mm, Kerf: 1.3 * mm, CleanupShow: 0.5 * mm,
		Rings:    match.RingPosition{Pith: &resaw.Point{X: -60 * mm, Z: 30 * mm}},
		Openings: []resaw.Opening{resaw.Bookmatch},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range r.Pairs {
		l := p.Layouts[0]
		for _, s := range l.Seams {
			fmt.Printf("leaves %d and %d, %s edge (%s): rings miss by %.2f mm, the %s half gives\n",
				p.First, p.First+1, s.Edge, s.Kind, s.Shift.Millimetres(), s.Cure.Half)
		}
	}
	best := r.Ranked[0]
	fmt.Printf("best: %d and %d with the %s edge at the seam\n", best.First, best.First+1, best.Edge)
	// Output:
	// leaves 1 and 2, near edge (pith): rings miss by 0.95 mm, the second half gives
	// leaves 1 and 2, far edge (bark): rings miss by 0.21 mm, the first half gives
	// leaves 2 and 3, near edge (pith): rings miss by 0.73 mm, the second half gives
	// leaves 2 and 3, far edge (bark): rings miss by 0.16 mm, the first half gives
	// leaves 3 and 4, near edge (pith): rings miss by 0.51 mm, the second half gives
	// leaves 3 and 4, far edge (bark): rings miss by 0.11 mm, the first half gives
	// best: 3 and 4 with the far edge at the seam
}

func assertError(t require.TestingT, err error, code method.Code, input string) {
	var e *method.Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, code, e.Code, e.Detail)
	assert.Equal(t, input, e.Input, e.Detail)
}
