package sawlog_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/sawlog"
	"latewood/woodphys/wood"
)

const mm = quantity.Millimetre

// straight is a round log of 400 mm without taper.
func straight() sawlog.Log {
	return sawlog.Log{Length: 2 * quantity.Metre, Start: 400 * mm, End: 400 * mm}
}

func saw(t *testing.T, q sawlog.Question) sawlog.Plan {
	t.Helper()
	plan, err := sawlog.Saw(q)
	require.NoError(t, err)
	return plan
}

// A board between z and z + t of a round log is 2 sqrt(r^2 - max(z, z + t)^2) wide.
func TestThroughAndThroughAgainstClosedForm(t *testing.T) {
	q := sawlog.Question{Log: straight(), Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm,
		Wanted: sawlog.Wanted{Thickness: 27 * mm, MinWidth: 60 * mm}}
	q.Log.Bark = 10 * mm
	plan := saw(t, q)
	const r, pitch = 190.0, 30.0
	require.NotEmpty(t, plan.Billets)
	assert.InDelta(t, pitch, plan.Pitch.Millimetres(), 1e-9)
	first := plan.Bolts[0].First.Millimetres()
	for i := range plan.Billets {
		b := &plan.Billets[i]
		z := first + pitch*float64(i)
		deep := math.Max(math.Abs(z), math.Abs(z+27))
		assert.InDelta(t, 2*math.Sqrt(r*r-deep*deep), b.Width.Millimetres(), 1e-9, "board %d", i)
		assert.InDelta(t, z, b.Corners[0].Z.Millimetres(), 1e-9)
		assert.InDelta(t, -z, b.Pith.Z.Millimetres(), 1e-9)
		assert.InDelta(t, b.Width.Millimetres()/2, b.Pith.Y.Millimetres(), 1e-9)
	}
	// No position of the first cut, of a thousand, gives more than one part in a hundred more wood.
	best := 0.0
	for i := range 1000 {
		sum := 0.0
		for z := -210.0 + pitch*float64(i)/1000; z < 200; z += pitch {
			if deep := math.Max(math.Abs(z), math.Abs(z+27)); deep < r && 2*math.Sqrt(r*r-deep*deep) >= 60 {
				sum += 2 * math.Sqrt(r*r-deep*deep) * 27 * 2000 / 1e9
			}
		}
		best = math.Max(best, sum)
	}
	assert.Greater(t, plan.BilletVolume.CubicMetres(), 0.99*best)
	assert.LessOrEqual(t, plan.BilletVolume.CubicMetres(), best*(1+1e-4))
	// The volume of the wood is that of a cylinder.
	assert.InDelta(t, math.Pi*0.19*0.19*2, plan.Volume.CubicMetres(), 1e-12)
}

// With the pith kept out the board that would hold it gives one to either side, and 60
// degrees keep only what stands steep.
func TestPithAndFlatRingsAreKeptOut(t *testing.T) {
	around := 12 * mm
	q := sawlog.Question{Log: straight(), Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm, PithClearance: &around,
		Wanted: sawlog.Wanted{Thickness: 50 * mm, MinWidth: 80 * mm}}
	plan := saw(t, q)
	split := 0
	for i := range plan.Billets {
		b := &plan.Billets[i]
		assert.False(t, b.HoldsPith)
		if b.Near != b.Far {
			split++
			deep := math.Max(math.Abs(b.Corners[0].Z.Millimetres()), math.Abs(b.Corners[2].Z.Millimetres()))
			assert.InDelta(t, math.Sqrt(200*200-deep*deep)-12, b.Width.Millimetres(), 1e-9)
		}
	}
	assert.Equal(t, 2, split)
	q.Wanted.MinRingAngle = 60 * quantity.Degree
	steep := saw(t, q)
	require.NotEmpty(t, steep.Billets)
	for i := range steep.Billets {
		assert.GreaterOrEqual(t, steep.Billets[i].LeastAngle.Degrees(), 60-1e-9)
	}
	assert.Less(t, steep.BilletVolume, plan.BilletVolume)
}

// Points thrown at the end of the log tell how much of a sector a wedge takes, by another
// way than the chords it was found by.
func TestWedgesAgainstThrownPoints(t *testing.T) {
	q := sawlog.Question{Log: straight(), Pattern: sawlog.Wedges,
		Wanted: sawlog.Wanted{Thickness: 60 * mm, ThinEdge: 10 * mm, MinWidth: 100 * mm}}
	plan := saw(t, q)
	assert.Equal(t, 16, plan.Bolts[0].Sectors)
	require.Len(t, plan.Billets, 16)
	tan := math.Tan(2 * math.Pi / 16)
	for i := range plan.Billets {
		b := &plan.Billets[i]
		// The far corner of the thick edge lies on the bark: hypot(a, a tan v) = 200.
		assert.InDelta(t, 200*math.Cos(2*math.Pi/16)*tan, b.Thickness.Millimetres(), 1e-9)
		assert.InDelta(t, 10, b.FarThickness.Millimetres(), 1e-9)
		assert.InDelta(t, 200*math.Cos(2*math.Pi/16)-10/tan, b.Width.Millimetres(), 1e-9)
		assert.InDelta(t, 90-22.5, b.LeastAngle.Degrees(), 1e-9, "face 2 lies along the next ray")
		assert.InDelta(t, 0, b.Pith.Z.Millimetres(), 1e-9, "the pith lies in the plane of face 1")
	}
	dice := rand.New(rand.NewPCG(1, 2))
	const throws = 400_000
	in := 0
	for range throws {
		y, z := 400*dice.Float64()-200, 400*dice.Float64()-200
		if y*y+z*z > 200*200 {
			continue
		}
		// The sector it falls in, and where in it: along the second ray, and off that.
		angle := math.Mod(math.Atan2(z, y)+2*math.Pi, 2*math.Pi/16)
		radius := math.Hypot(y, z)
		along := radius * math.Cos(2*math.Pi/16-angle)
		if along >= 10/tan && along <= 200*math.Cos(2*math.Pi/16) {
			in++
		}
	}
	area := float64(in) / throws * 0.4 * 0.4
	assert.InDelta(t, area, plan.BilletVolume.CubicMetres()/2, 4*0.16*math.Sqrt(0.25/throws))
	// A saw with a kerf makes them thinner, and need not halve.
	q.Kerf = 4 * mm
	sawn := saw(t, q)
	assert.GreaterOrEqual(t, len(sawn.Billets), 16)
	for i := range sawn.Billets {
		assert.GreaterOrEqual(t, sawn.Billets[i].Thickness.Millimetres(), 60-1e-9)
	}
}

// Quarters by another way: what of each board pushed outwards by a hair still lies in the
// wood is nothing, and the boards of a quarter stand in turns.
func TestQuartersReachTheBark(t *testing.T) {
	q := sawlog.Question{Log: straight(), Pattern: sawlog.Quartered, Kerf: 3 * mm,
		Wanted: sawlog.Wanted{Thickness: 27 * mm, MinWidth: 50 * mm}}
	plan := saw(t, q)
	require.NotEmpty(t, plan.Billets)
	assert.Zero(t, len(plan.Billets)%4, "the four quarters of a round log are alike")
	for i := range plan.Billets {
		b := &plan.Billets[i]
		outline := corners(b)
		u := xy{outline[0].y - outline[1].y, outline[0].z - outline[1].z} // to the bark
		size := math.Hypot(u.y, u.z)
		out := math.Inf(-1)
		for _, c := range []xy{outline[0], outline[3]} {
			out = math.Max(out, outside(&q.Log, xy{c.y + 1e-5*u.y/size, c.z + 1e-5*u.z/size}, 0))
		}
		assert.Positive(t, out)
		assert.Equal(t, sawlog.Bark, b.Near)
		assert.Equal(t, sawlog.Pith, b.Far)
		assert.GreaterOrEqual(t, b.MiddleAngle.Degrees(), 45.0)
	}
	// The first board of a quarter begins half a kerf from the pith in both directions.
	reach := math.Sqrt(200*200 - 28.5*28.5)
	assert.InDelta(t, reach-1.5, plan.Billets[0].Width.Millimetres(), 1e-9)
	// The next stands across it, so that it is one board and kerf shorter.
	assert.InDelta(t, reach-28.5-3, plan.Billets[1].Width.Millimetres(), 1e-9)
	// A half log has two quarters.
	q.Log.Half = true
	half := saw(t, q)
	assert.Len(t, half.Billets, len(plan.Billets)/2)
	assert.InDelta(t, plan.Volume.CubicMetres()/2, half.Volume.CubicMetres(), 1e-12)
	assert.Nil(t, half.Scales)
}

// Green sizes shrink to those wanted: 8 % along the rings and 4 % across them, from green
// to ovendry.
func TestGreenSizesShrinkToTheDryOnes(t *testing.T) {
	own := wood.Wood{Radial: wood.Figure{Value: 0.04, Known: true}, Tangential: wood.Figure{Value: 0.08, Known: true}}
	q := sawlog.Question{Log: straight(), Pattern: sawlog.Quartered, Kerf: 3 * mm,
		Wanted: sawlog.Wanted{Thickness: 46 * mm, MinWidth: 96 * mm}, Drying: &resaw.Drying{From: 0.6, To: 0, Wood: own}}
	plan := saw(t, q)
	assert.InDelta(t, 50, plan.GreenThickness.Millimetres(), 1e-9)
	require.NotEmpty(t, plan.Billets)
	for i := range plan.Billets {
		b := &plan.Billets[i]
		assert.InDelta(t, 46, b.DryThickness.Millimetres(), 1e-9)
		sin := b.MiddleAngle.Sin()
		shrunk := 0.08 - 0.04*sin*sin
		assert.InDelta(t, b.Width.Millimetres()*(1-shrunk), b.DryWidth.Millimetres(), 1e-6)
		assert.GreaterOrEqual(t, b.DryWidth.Millimetres(), 96-1e-9)
	}
}

// A log crosscut first gives wider billets than the whole one where it tapers and bends.
func TestBoltsOfACrookedLog(t *testing.T) {
	l := sawlog.Log{Length: 3 * quantity.Metre, Start: 420 * mm, End: 300 * mm, Sweep: 80 * mm}
	q := sawlog.Question{Log: l, Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm, Crosscut: 10 * mm,
		Wanted: sawlog.Wanted{Thickness: 30 * mm, MinWidth: 80 * mm, EndTrim: 25 * mm}}
	whole := saw(t, q)
	q.Wanted.Length = 600 * mm
	short := saw(t, q)
	require.Len(t, short.Bolts, 4)
	assert.InDelta(t, 660, short.Bolts[1].From.Millimetres(), 1e-9)
	assert.InDelta(t, 650, short.Bolts[1].Length.Millimetres(), 1e-9)
	assert.Greater(t, short.BilletVolume, whole.BilletVolume)
	share := 650.0 / 3000
	assert.InDelta(t, 80*share*share, short.Bolts[1].Log.Sweep.Millimetres(), 1e-9)
	sum := quantity.Volume(0)
	for i := range short.Bolts {
		sum += short.Bolts[i].Log.Volume()
	}
	assert.Less(t, sum, short.Volume)
}

// Sapwood and pith kept out leave less; a log too thin gives none and no error.
func TestNothingIsAnAnswer(t *testing.T) {
	q := sawlog.Question{Log: straight(), Pattern: sawlog.Wedges, Wanted: sawlog.Wanted{Thickness: 150 * mm, ThinEdge: 100 * mm,
		MinWidth: 180 * mm}}
	assert.Empty(t, saw(t, q).Billets)
	q = sawlog.Question{Log: straight(), Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm, Wanted: sawlog.Wanted{Thickness: 27 * mm,
		MinWidth: 60 * mm}}
	all := saw(t, q)
	q.Log.Sapwood, q.SapwoodOut = 40*mm, true
	assert.Less(t, saw(t, q).BilletVolume, all.BilletVolume)
}

func TestWrongLogsAreRefused(t *testing.T) {
	ok := sawlog.Question{Log: straight(), Pattern: sawlog.Wedges, Wanted: sawlog.Wanted{Thickness: 60 * mm, MinWidth: 100 * mm}}
	for name, spoil := range map[string]func(q *sawlog.Question){
		"bark_thickness":     func(q *sawlog.Question) { q.Log.Bark = 200 * mm },
		"pith":               func(q *sawlog.Question) { q.Log.Pith.Y = 200 * mm },
		"end_pith":           func(q *sawlog.Question) { q.Log.EndPith = &sawlog.Point{Z: -300 * mm} },
		"sapwood_thickness":  func(q *sawlog.Question) { q.Log.Sapwood, q.SapwoodOut = 200*mm, true },
		"thin_edge":          func(q *sawlog.Question) { q.Wanted.ThinEdge = 61 * mm },
		"billet_length":      func(q *sawlog.Question) { q.Wanted.Length = 3 * quantity.Metre },
		"end_trim":           func(q *sawlog.Question) { q.Wanted.EndTrim = quantity.Metre },
		"pattern":            func(q *sawlog.Question) { q.Pattern = "spiral" },
		"min_ring_angle_deg": func(q *sawlog.Question) { q.Wanted.MinRingAngle = 90 * quantity.Degree },
		"start_diameter":     func(q *sawlog.Question) { q.Log.Start = 4 * quantity.Metre },
		"thickness": func(q *sawlog.Question) {
			q.Pattern, q.Wanted.Thickness, q.Wanted.Length = sawlog.ThroughAndThrough, mm, 50*mm
		},
	} {
		q := ok
		spoil(&q)
		_, err := sawlog.Saw(q)
		assert.Equal(t, name, inputOf(err), "%v", err)
	}
}

// BenchmarkSaw is a crooked log in four lengths. Limit: 20 ms.
func BenchmarkSaw(b *testing.B) {
	q := sawlog.Question{Log: sawlog.Log{Length: 3 * quantity.Metre, Start: 420 * mm, End: 300 * mm, Sweep: 80 * mm},
		Pattern: sawlog.ThroughAndThrough, Kerf: 3 * mm, Wanted: sawlog.Wanted{Thickness: 30 * mm, MinWidth: 80 * mm, Length: 600 * mm}}
	for b.Loop() {
		if _, err := sawlog.Saw(q); err != nil {
			b.Fatal(err)
		}
	}
}
