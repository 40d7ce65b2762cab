package laminate_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func length(v, low, high float64) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: quantity.Length(v) * mm, Low: quantity.Length(low) * mm, High: quantity.Length(high) * mm}
}

// A drawer front in a frame: how much room does it need?
func ExampleAtBuild() {
	band := func(mm float64) quantity.Band[quantity.Length] {
		return quantity.NormalBand(quantity.Length(mm)*quantity.Millimetre, quantity.Length(0.15*math.Abs(mm))*quantity.Millimetre)
	}
	frame := laminate.Part{ToDriest: band(-0.1), ToWettest: band(0.1)}
	drawer := laminate.Part{ToDriest: band(-1.0), ToWettest: band(1.2)}
	c, err := laminate.AtBuild(frame, drawer, laminate.Play{Least: 0.3 * quantity.Millimetre, Most: 3.5 * quantity.Millimetre}, laminate.Together)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("possible %t, %.2f to %.2f mm\n", c.Possible, c.Least.Millimetres(), c.Greatest.Millimetres())
	// Output: possible true, 1.70 to 2.35 mm
}

// By brute force over the clearance at build and all states, at the ends of the bands
// of exact parts: a build clearance is good if and only if it lies in the answer.
func TestClearanceByBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		part := func(name string) laminate.Part {
			d, w := f(-3, 3, name+" dry"), f(-3, 3, name+" wet")
			return laminate.Part{ToDriest: length(d, d, d), ToWettest: length(w, w, w)}
		}
		outer, inner := part("outer"), part("inner")
		least := f(-1, 1, "least")
		play := laminate.Play{Least: quantity.Length(least) * mm, Most: quantity.Length(least+f(0, 5, "span")) * mm}
		season := laminate.Season(rapid.Bool().Draw(t, "apart"))
		c, err := laminate.AtBuild(outer, inner, play, season)
		require.NoError(t, err)
		steps := []float64{0, 0.25, 0.5, 0.75, 1}
		way := func(p laminate.Part, toWet bool, share float64) float64 {
			if toWet {
				return share * p.ToWettest.Value.Millimetres()
			}
			return share * p.ToDriest.Value.Millimetres()
		}
		found := false
		for build := -10.0; build <= 10; build += 0.05 {
			good := true
			for _, outerWet := range []bool{false, true} {
				for _, innerWet := range []bool{false, true} {
					for _, a := range steps {
						for _, b := range steps {
							if season == laminate.Together && (outerWet != innerWet || a != b) {
								continue
							}
							gap := build + way(outer, outerWet, a) - way(inner, innerWet, b)
							good = good && gap >= play.Least.Millimetres() && gap <= play.Most.Millimetres()
						}
					}
				}
			}
			found = found || good
			edge := math.Min(math.Abs(build-c.Least.Millimetres()), math.Abs(build-c.Greatest.Millimetres()))
			if edge > 1e-9 {
				require.Equal(t, good, build > c.Least.Millimetres() && build < c.Greatest.Millimetres(), build)
			}
		}
		if found {
			require.True(t, c.Possible)
		}
		require.Equal(t, c.Possible, c.Short == 0)
	})
}

// With bands: of 95 in 100 pairs each limit holds in each state.
func TestClearanceCoverage(t *testing.T) {
	outer := laminate.Part{ToDriest: quantity.NormalBand(-0.4*mm, 0.1*mm), ToWettest: quantity.NormalBand(0.5*mm, 0.1*mm)}
	inner := laminate.Part{ToDriest: quantity.NormalBand(-1.2*mm, 0.2*mm), ToWettest: quantity.NormalBand(1.1*mm, 0.25*mm)}
	play := laminate.Play{Least: 0, Most: 3 * mm}
	c, err := laminate.AtBuild(outer, inner, play, laminate.Together)
	require.NoError(t, err)
	require.True(t, c.Possible)
	rng := rand.New(rand.NewPCG(8, 9))
	binds, gaps := 0, 0
	const draws = 20000
	for range draws {
		draw := func(b quantity.Band[quantity.Length]) quantity.Length {
			return b.Value + quantity.Length(rng.NormFloat64())*b.SD()
		}
		if c.Least+draw(outer.ToWettest)-draw(inner.ToWettest) < play.Least {
			binds++
		}
		if c.Greatest+draw(outer.ToDriest)-draw(inner.ToDriest) > play.Most {
			gaps++
		}
	}
	// 3 standard errors are 0.5
	assert.InDelta(t, 5, 100*float64(binds)/draws, 0.5)
	assert.InDelta(t, 5, 100*float64(gaps)/draws, 0.5)
}

func TestClearanceRefused(t *testing.T) {
	still := laminate.Part{}
	c, err := laminate.AtBuild(still, laminate.Part{ToDriest: length(-2, -2, -2), ToWettest: length(2, 2, 2)}, laminate.Play{Most: 1 * mm}, laminate.Together)
	require.NoError(t, err)
	assert.False(t, c.Possible)
	assert.InDelta(t, 3, c.Short.Millimetres(), 1e-9)
	_, err = laminate.AtBuild(still, still, laminate.Play{Least: 2, Most: 1}, laminate.Together)
	expect.Code(t, err, method.Contradictory, "play_most")
	for _, v := range []float64{nan, inf, -inf} {
		_, err = laminate.AtBuild(still, laminate.Part{ToWettest: length(v, v, v)}, laminate.Play{}, laminate.Apart)
		expect.Code(t, err, method.OutOfRange, "inner/to_wettest")
		_, err = laminate.AtBuild(still, still, laminate.Play{Least: quantity.Length(v)}, laminate.Apart)
		expect.Code(t, err, method.OutOfRange, "play_least")
	}
	_, err = laminate.AtBuild(laminate.Part{ToDriest: length(1, 2, 3)}, still, laminate.Play{}, laminate.Apart)
	expect.Code(t, err, method.Contradictory, "outer/to_driest")
}

// How to fit two parts follows from when their gap is widest.
func TestFit(t *testing.T) {
	band := func(v float64) quantity.Band[quantity.Length] { return quantity.NormalBand(quantity.Length(v), 0) }
	play := laminate.Play{Least: 0, Most: 0.002}
	for fit, outer := range map[laminate.Fit]laminate.Part{
		laminate.AnyFit: {}, laminate.Snug: {ToDriest: band(0.001), ToWettest: band(-0.001)}, laminate.Loose: {ToDriest: band(-0.0005), ToWettest: band(0.0005)},
		laminate.NoFit: {ToDriest: band(0.003), ToWettest: band(-0.003)},
	} {
		c, err := laminate.AtBuild(outer, laminate.Part{}, play, laminate.Together)
		require.NoError(t, err)
		assert.Equal(t, fit, c.Fit)
	}
}

// The usual clearance is the least and 0.2 mm for the bench, never more than the middle: a
// pocket that needs 0.49 mm is not built at 3.45.
func TestUsualClearance(t *testing.T) {
	moved := func(mm float64) quantity.Band[quantity.Length] {
		return quantity.NormalBand(quantity.Length(mm)*quantity.Millimetre, 0)
	}
	c, err := laminate.AtBuild(laminate.Part{ToDriest: moved(-0.49), ToWettest: moved(0.1)}, laminate.Part{}, laminate.Play{Most: 6.5 * quantity.Millimetre}, laminate.Together)
	require.NoError(t, err)
	assert.InDelta(t, 0.49, c.Least.Millimetres(), 1e-9)
	assert.InDelta(t, 3.445, c.Middle.Millimetres(), 1e-9)
	assert.InDelta(t, 0.69, c.Usual.Millimetres(), 1e-9)
	c, err = laminate.AtBuild(laminate.Part{ToDriest: moved(-0.49), ToWettest: moved(0.1)}, laminate.Part{}, laminate.Play{Most: 0.7 * quantity.Millimetre}, laminate.Together)
	require.NoError(t, err)
	assert.InDelta(t, c.Middle.Millimetres(), c.Usual.Millimetres(), 1e-9)
}

// What two parts do with the clearance they were made with: the drawer of 200 mm in openings of
// every size, held against what AtBuild says of the same clearance.
func TestAsMade(t *testing.T) {
	outer := laminate.Part{ToDriest: length(-0.1, -0.2, 0), ToWettest: length(0.1, 0, 0.2)}
	inner := laminate.Part{ToDriest: length(-2, -2.8, -1.2), ToWettest: length(2.4, 1.4, 3.5)}
	seen := map[laminate.Verdict]int{}
	for _, season := range []laminate.Season{laminate.Together, laminate.Apart} {
		for _, play := range []laminate.Play{{Least: 0.5 * mm, Most: 8 * mm}, {Most: 12 * mm}, {Least: -1 * mm, Most: 6 * mm}} {
			c, err := laminate.AtBuild(outer, inner, play, season)
			require.NoError(t, err)
			for gap := -50.0; gap <= 20; gap += 0.1 {
				made := c.AsMade(quantity.Length(gap)*mm, play)
				within := c.Least <= made.Gap && made.Gap <= c.Greatest
				require.Equal(t, within, made.Verdict == laminate.Fits, "%v at %v", made, c)
				if made.Verdict == laminate.TooLarge {
					require.Less(t, made.Gap, min(0, play.Least))
				}
				if made.Verdict == laminate.Binds {
					require.LessOrEqual(t, made.Narrowest.Value, min(0, play.Least))
				}
				seen[made.Verdict]++
			}
			made := c.AsMade(3*mm, play)
			assert.Equal(t, map[laminate.Season]laminate.State{laminate.Together: laminate.InWettest, laminate.Apart: laminate.Lagging}[season], made.NarrowestIn)
			assert.InDelta(t, 3-2.3, made.Wettest.Value.Millimetres(), 1e-9)
			assert.InDelta(t, 3+1.9, made.Driest.Value.Millimetres(), 1e-9)
		}
	}
	assert.Len(t, seen, 5, "%v", seen)
}

// Where nothing is possible, what is told to build is what never binds.
func TestUsualOfNone(t *testing.T) {
	c, err := laminate.AtBuild(laminate.Part{}, laminate.Part{ToDriest: length(-14, -21, -6), ToWettest: length(-9, -16, -2)},
		laminate.Play{Least: 0.5 * mm, Most: 8 * mm}, laminate.Together)
	require.NoError(t, err)
	assert.False(t, c.Possible)
	assert.Equal(t, c.Least, c.Usual)
	assert.Positive(t, c.Usual)
}

// Wood that is too wet is not glued without a word, whatever layer it is.
func TestNoteGlued(t *testing.T) {
	for pct, says := range map[float64]string{8: "", 15: "", 16: "wet to be glued", 20: "wet to be glued", 21: "do not hold", 60: "do not hold"} {
		var n method.Notes
		laminate.NoteGlued(quantity.Moisture(pct)*quantity.PercentMC, "made_mc_pct", &n)
		if says == "" {
			assert.Empty(t, n.Warnings)
			continue
		}
		require.Len(t, n.Warnings, 1)
		assert.Equal(t, method.Caution, n.Warnings[0].Code)
		assert.Contains(t, n.Warnings[0].Detail, says)
	}
}
