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

// The sawyer at the log: he knows its wood, the kerf and the cuts of a plan in their order, and
// nothing of how they were found. Each cut goes through one piece from side to side. Pieces are
// convex outlines on the start end.
type sawyer struct {
	t      require.TestingT
	kerf   float64
	pieces [][]xy
}

// tight is how close two places must lie to be the same, m.
const tight = 1e-6

// hair is what a cut without a kerf is taken to be wide, m.
const hair = 1e-9

// onTheMill is the start end of a length before its first cut: a polygon about the round wood.
func onTheMill(t require.TestingT, l *sawlog.Log, kerf quantity.Length) *sawyer {
	const corners = 3600
	radius := float64(l.WoodRadius(0)) / math.Cos(math.Pi/corners)
	var end []xy
	for i := range corners {
		a := 2 * math.Pi * float64(i) / corners
		end = append(end, xy{radius * math.Cos(a), radius * math.Sin(a)})
	}
	if l.Half {
		end = kept(end, xy{0, -1}, 0)
	}
	return &sawyer{t: t, kerf: float64(kerf), pieces: [][]xy{end}}
}

// kept is what of an outline lies on the side of a line to which n points less than at along it.
func kept(outline []xy, n xy, at float64) []xy {
	var out []xy
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		a, b := p.y*n.y+p.z*n.z-at, q.y*n.y+q.z*n.z-at
		if a <= 0 {
			out = append(out, p)
		}
		if (a < 0) != (b < 0) && a != b {
			s := a / (a - b)
			out = append(out, xy{p.y + s*(q.y-p.y), p.z + s*(q.z-p.z)})
		}
	}
	return out
}

// between is what of an outline lies no farther than half from a line.
func between(outline []xy, n xy, at, half float64) []xy {
	return kept(kept(outline, n, at+half), xy{-n.y, -n.z}, half-at)
}

// reach is how far an outline reaches along a direction.
func reach(outline []xy, n xy) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		v := p.y*n.y + p.z*n.z
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

// cut carries one cut out.
func (s *sawyer) cut(c sawlog.Cut) {
	from, to := xy{float64(c.From.Y), float64(c.From.Z)}, xy{float64(c.To.Y), float64(c.To.Z)}
	long := math.Hypot(to.y-from.y, to.z-from.z)
	require.Greater(s.t, long, 1e-9, "a cut has a direction")
	u := xy{(to.y - from.y) / long, (to.z - from.z) / long}
	n := xy{-u.z, u.y}
	at := from.y*n.y + from.z*n.z
	begin, end := from.y*u.y+from.z*u.z, to.y*u.y+to.z*u.z
	found := -1
	for i, piece := range s.pieces {
		strip := between(piece, n, at, s.kerf/2+hair)
		low, high := reach(strip, u)
		if math.Min(high, end)-math.Max(low, begin) < 100*hair {
			continue
		}
		if a, b := reach(strip, n); b-a < 1.5*hair {
			continue // it only touches
		}
		require.Negative(s.t, found, "a cut goes through one piece")
		found = i
		if middles := between(piece, n, at, 0); len(middles) > 1 { // the middle of the kerf lies in wood: it is told from side to side
			low, high = reach(middles, u)
			require.LessOrEqual(s.t, begin, low+s.kerf+1e-4, "begins at the side of its piece")
			require.GreaterOrEqual(s.t, end, high-1e-4, "ends at the side of its piece")
		}
	}
	require.GreaterOrEqual(s.t, found, 0, "a cut goes through wood: %v", c)
	piece := s.pieces[found]
	s.pieces = append(s.pieces[:found], s.pieces[found+1:]...)
	for _, part := range [][]xy{kept(piece, n, at-s.kerf/2), kept(piece, xy{-n.y, -n.z}, -at-s.kerf/2)} {
		if len(part) > 2 {
			s.pieces = append(s.pieces, part)
		}
	}
}

// hold holds a billet against the pieces: it lies in one of them, whose sawn faces are its two
// faces, so that only its edges are left to rip.
func (s *sawyer) hold(b *sawlog.Billet) {
	outline := corners(b)
	in := 0
	for _, piece := range s.pieces {
		if holds(piece, outline) {
			in++
			for _, face := range [][2]xy{{outline[0], outline[1]}, {outline[2], outline[3]}} {
				u := xy{face[1].y - face[0].y, face[1].z - face[0].z}
				long := math.Hypot(u.y, u.z)
				n := xy{u.z / long, -u.y / long} // out of the billet
				_, high := reach(piece, n)
				require.InDelta(s.t, face[0].y*n.y+face[0].z*n.z, high, 1e-5, "a face is sawn")
			}
		}
	}
	require.Equal(s.t, 1, in, "a billet lies in one piece")
}

// holds reports whether places lie in a convex outline, which turns from right to down.
func holds(outline, places []xy) bool {
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		long := math.Hypot(q.y-p.y, q.z-p.z)
		if long < 1e-9 {
			continue
		}
		for _, at := range places {
			if ((q.y-p.y)*(at.z-p.z)-(q.z-p.z)*(at.y-p.y))/long < -tight {
				return false
			}
		}
	}
	return true
}

// follow carries out the cuts of every length and holds its billets against what is there.
func follow(t require.TestingT, q *sawlog.Question, plan *sawlog.Plan) {
	for i := range plan.Bolts {
		bolt := &plan.Bolts[i]
		s := onTheMill(t, &bolt.Log, q.Kerf)
		for _, c := range bolt.Cuts {
			s.cut(c)
		}
		for j := range plan.Billets {
			if b := &plan.Billets[j]; b.Bolt == i {
				s.hold(b)
			}
		}
	}
}

// Who makes the cuts of any plan one after the other has every billet of it with both faces sawn.
func TestCutsLeadToTheBillets(t *testing.T) {
	billets := 0
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		if q.Kerf > 0 {
			q.Kerf = max(q.Kerf, mm/10) // no blade is thinner
		}
		plan, err := sawlog.Saw(q)
		require.NoError(t, err)
		billets += len(plan.Billets)
		follow(t, &q, &plan)
	})
	assert.Positive(t, billets)
}
