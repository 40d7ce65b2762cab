package sawlog_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// xy is a place across a log, in metres.
type xy struct{ y, z float64 }

func corners(b *sawlog.Billet) []xy {
	out := make([]xy, 0, 4)
	for _, c := range b.Corners {
		out = append(out, xy{float64(c.Y), float64(c.Z)})
	}
	return out
}

// outside is how far a place lies outside the wood of a log, at the worst of 200 sections;
// ring is what is taken off the wood.
func outside(l *sawlog.Log, p xy, ring float64) float64 {
	worst := math.Inf(-1)
	for i := range 201 {
		t := float64(i) / 200
		radius := (float64(l.Start)+t*float64(l.End-l.Start))/2 - float64(l.Bark) - ring
		worst = math.Max(worst, math.Hypot(p.y-4*t*(1-t)*float64(l.Sweep), p.z)-radius)
	}
	if l.Half {
		worst = math.Max(worst, -p.z)
	}
	return worst
}

// apart is the widest gap between two convex outlines along any normal of their sides: less
// than 0 where they overlap.
func apart(a, b []xy) float64 {
	gap := math.Inf(-1)
	for _, outline := range [][]xy{a, b} {
		for i, p := range outline {
			q := outline[(i+1)%len(outline)]
			n := xy{q.z - p.z, p.y - q.y}
			size := math.Hypot(n.y, n.z)
			if size < 1e-9 { // a wedge that ends in a point
				continue
			}
			span := func(of []xy) (low, high float64) {
				low, high = math.Inf(1), math.Inf(-1)
				for _, c := range of {
					v := (c.y*n.y + c.z*n.z) / size
					low, high = math.Min(low, v), math.Max(high, v)
				}
				return low, high
			}
			lowA, highA := span(a)
			lowB, highB := span(b)
			gap = math.Max(gap, math.Max(lowB-highA, lowA-highB))
		}
	}
	return gap
}

func millimetres(t *rapid.T, name string, low, high float64) quantity.Length {
	return quantity.Length(rapid.Float64Range(low, high).Draw(t, name)) * quantity.Millimetre
}

// drawn is any question of a log.
func drawn(t *rapid.T) sawlog.Question {
	l := sawlog.Log{Length: millimetres(t, "length", 400, 5000), Start: millimetres(t, "start", 120, 900),
		End: millimetres(t, "end", 120, 900), Bark: millimetres(t, "bark", 0, 20), Sapwood: millimetres(t, "sapwood", 0, 30),
		Half: rapid.Bool().Draw(t, "half")}
	if rapid.Bool().Draw(t, "swept") {
		l.Sweep = millimetres(t, "sweep", 0, 60)
	}
	off := func(name string) sawlog.Point {
		return sawlog.Point{Y: millimetres(t, name+" y", -25, 25), Z: millimetres(t, name+" z", -25, 25)}
	}
	l.Pith = off("pith")
	if rapid.Bool().Draw(t, "pith moves") {
		end := off("end pith")
		l.EndPith = &end
	}
	q := sawlog.Question{Log: l, Kerf: millimetres(t, "kerf", 0, 6), Crosscut: millimetres(t, "crosscut", 0, 8),
		Pattern: rapid.SampledFrom([]sawlog.Pattern{sawlog.ThroughAndThrough, sawlog.Quartered, sawlog.Wedges}).Draw(t, "pattern"),
		Turn:    quantity.Angle(rapid.Float64Range(-180, 180).Draw(t, "turn")) * quantity.Degree,
		Wanted: sawlog.Wanted{Thickness: millimetres(t, "thickness", 15, 80), MinWidth: millimetres(t, "min width", 20, 150),
			EndTrim: millimetres(t, "end trim", 0, 30)},
		SapwoodOut: rapid.Bool().Draw(t, "sapwood out")}
	if rapid.Bool().Draw(t, "split") {
		q.Kerf = 0
	}
	if rapid.Bool().Draw(t, "pith out") {
		around := millimetres(t, "clearance", 0, 30)
		q.PithClearance = &around
	}
	if rapid.Bool().Draw(t, "steep") {
		q.Wanted.MinRingAngle = quantity.Angle(rapid.Float64Range(1, 85).Draw(t, "ring angle")) * quantity.Degree
	}
	if rapid.Bool().Draw(t, "bolts") {
		q.Wanted.Length = q.Log.Length * quantity.Length(rapid.Float64Range(0.15, 0.7).Draw(t, "wanted length"))
	}
	if q.Pattern == sawlog.Wedges {
		q.Wanted.ThinEdge = q.Wanted.Thickness * quantity.Length(rapid.Float64Range(0, 0.8).Draw(t, "thin edge"))
	}
	return q
}

// Every billet of any log lies in its wood over its whole length, none overlaps another or
// lies nearer to it than the saw cuts, and what was wished is kept.
func TestBilletsLieInTheWoodAndApart(t *testing.T) {
	const tiny = 1e-8
	billets := 0
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		plan, err := sawlog.Saw(q)
		require.NoError(t, err)
		ring := 0.0
		if q.SapwoodOut {
			ring = float64(q.Log.Sapwood)
		}
		billets += len(plan.Billets)
		for i := range plan.Billets {
			b := &plan.Billets[i]
			outline, log := corners(b), &plan.Bolts[b.Bolt].Log
			for _, c := range outline {
				require.LessOrEqual(t, outside(log, c, ring), tiny, "billet %d", i)
			}
			require.GreaterOrEqual(t, float64(b.Width), float64(q.Wanted.MinWidth)-tiny)
			require.GreaterOrEqual(t, float64(b.Thickness), float64(q.Wanted.Thickness)-tiny)
			require.GreaterOrEqual(t, float64(b.FarThickness), float64(q.Wanted.ThinEdge)-tiny)
			require.GreaterOrEqual(t, b.LeastAngle.Degrees(), q.Wanted.MinRingAngle.Degrees()-1e-5)
			pithClear(t, &q, b, log)
			for j := range plan.Billets[:i] {
				if other := &plan.Billets[j]; other.Bolt == b.Bolt {
					require.GreaterOrEqual(t, apart(outline, corners(other)), float64(q.Kerf)-tiny, "%d and %d", j, i)
				}
			}
		}
	})
	assert.Positive(t, billets)
	t.Logf("%d billets", billets)
}

// pithClear holds a billet against the pith at 100 places of its length, in the frame of the log
// and in its own.
func pithClear(t *rapid.T, q *sawlog.Question, b *sawlog.Billet, l *sawlog.Log) {
	strays := float64(l.Sweep)/4096 + 1e-6 // of a path between the places it was taken at
	outline := corners(b)
	end := l.Pith
	if l.EndPith != nil {
		end = *l.EndPith
	}
	for i := range 101 {
		s := float64(i) / 100
		p := xy{float64(l.Pith.Y) + s*float64(end.Y-l.Pith.Y) + 4*s*(1-s)*float64(l.Sweep),
			float64(l.Pith.Z) + s*float64(end.Z-l.Pith.Z)}
		gap := apart(outline, []xy{p, {p.y + 1e-7, p.z}, {p.y, p.z + 1e-7}})
		if q.PithClearance != nil {
			require.GreaterOrEqual(t, gap, float64(*q.PithClearance)/math.Sqrt2-strays)
			require.False(t, b.HoldsPith)
		}
		if gap < -strays-2e-7 {
			require.True(t, b.HoldsPith)
		}
	}
	// The pith at the start in the frame of the billet.
	u := xy{outline[1].y - outline[0].y, outline[1].z - outline[0].z}
	size := math.Hypot(u.y, u.z)
	off := xy{float64(l.Pith.Y) - outline[0].y, float64(l.Pith.Z) - outline[0].z}
	require.InDelta(t, (off.y*u.y+off.z*u.z)/size, float64(b.Pith.Y), 1e-9)
	require.InDelta(t, (off.z*u.y-off.y*u.z)/size, float64(b.Pith.Z), 1e-9)
}
