package plan_test

import (
	"math"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// The saw mill: it knows wood, pieces and cuts, and nothing of how a plan is
// found. It carries out the steps of a plan one by one and looks at every part
// that comes off. Pieces are boxes in whole nanometres.

type nmBox struct{ x0, x1, y0, y1, z0, z1 int64 }

func nano(l quantity.Length) int64 { return int64(math.Round(float64(l) * 1e9)) }

// mill is one billet on the bench.
type mill struct {
	t      require.TestingT
	b      plan.Billet
	saw    plan.Saw
	parts  []plan.PartKind
	pieces map[int]nmBox // in hand; z from rough face 1, or from planed face 1 once flat
	flat   map[int]int   // piece -> blank
	fresh  map[int]bool  // pieces with a sawn face in front
	blanks int
}

// widthAt and thickAt measure the rough wood, in nanometres, as real numbers.
func (m *mill) widthAt(x float64) float64 {
	w0, w1 := float64(m.b.Width)*1e9, float64(m.b.Width)*1e9
	if m.b.WidthEnd != nil {
		w1 = float64(*m.b.WidthEnd) * 1e9
	}
	return w0 + (w1-w0)*x/(float64(m.b.Length)*1e9)
}

func (m *mill) thickAt(x, y float64) float64 {
	t := float64(m.b.Thickness) * 1e9
	v := t
	if m.b.ThicknessEnd != nil {
		v += (float64(*m.b.ThicknessEnd)*1e9 - t) * x / (float64(m.b.Length) * 1e9)
	}
	if m.b.ThicknessFarEdge != nil {
		v += (float64(*m.b.ThicknessFarEdge)*1e9 - t) * y / (float64(m.b.Width) * 1e9)
	}
	return v
}

// execute carries out one step.
func (m *mill) execute(s plan.Step) {
	piece, ok := m.pieces[s.Piece]
	require.True(m.t, ok, "piece %d is in hand", s.Piece)
	delete(m.pieces, s.Piece)
	if m.fresh[s.Piece] { // the sawn face is planed before the next cut
		piece.z0 += nano(m.saw.Reface)
	}
	from, to := nano(s.At), nano(s.At)+nano(s.Kerf)
	blank, isFlat := m.flat[s.Piece]
	var low, high nmBox
	var kerf int64
	switch s.Action {
	case plan.Crosscut, plan.Trim:
		require.False(m.t, isFlat, "crosscut before flattening")
		kerf = nano(m.saw.Crosscut)
		low, high = piece, piece
		low.x1, high.x0 = from, to
		require.Less(m.t, from, piece.x1)
		require.Greater(m.t, to, piece.x0-1)
	case plan.Rip:
		require.False(m.t, isFlat, "rip before flattening")
		kerf = nano(m.saw.Rip)
		low, high = piece, piece
		low.y1, high.y0 = from, to
		require.Less(m.t, from, piece.y1)
	case plan.Resaw:
		require.True(m.t, isFlat, "flatten before resawing")
		kerf = nano(m.saw.Resaw)
		low, high = piece, piece
		low.z1, high.z0 = from, to
		if s.High >= 0 {
			m.fresh[s.High] = true
		}
		require.GreaterOrEqual(m.t, from, piece.z0)
		require.LessOrEqual(m.t, to, piece.z1+nano(m.saw.Resaw))
		if m.saw.HighestCut > 0 {
			require.LessOrEqual(m.t, piece.y1-piece.y0, nano(m.saw.HighestCut), "height of the cut")
		}
	case plan.Plane:
		require.Equal(m.t, piece.z0, from)
		kerf = to - from
		low, high = piece, piece
		low.z1, high.z0 = from, to
	case plan.FlattenBlank:
		require.False(m.t, isFlat)
		require.Equal(m.t, -1, s.High)
		m.flatten(piece, s)
		return
	}
	require.Equal(m.t, kerf, to-from, "%s kerf", s.Action)
	for _, side := range []struct {
		id int
		b  nmBox
	}{{s.Low, low}, {s.High, high}} {
		empty := side.b.x1 <= side.b.x0 || side.b.y1 <= side.b.y0 || side.b.z1 <= side.b.z0
		if side.id < 0 {
			continue // thrown away, or nothing left
		}
		require.False(m.t, empty, "%s leaves a piece %+v", s.Action, side.b)
		_, taken := m.pieces[side.id]
		require.False(m.t, taken, "piece numbers are new")
		m.pieces[side.id] = side.b
		if isFlat {
			m.flat[side.id] = blank
		}
	}
	// Nothing of any size may vanish without a number; outside the outline there
	// is nothing.
	for _, side := range []struct {
		id int
		b  nmBox
	}{{s.Low, low}, {s.High, high}} {
		if side.id < 0 && side.b.x1 > side.b.x0 {
			widest := max(m.widthAt(float64(side.b.x0)), m.widthAt(float64(side.b.x1)))
			wood := min(float64(side.b.x1-side.b.x0), min(float64(side.b.y1), widest)-float64(side.b.y0), float64(side.b.z1-side.b.z0))
			require.LessOrEqual(m.t, wood, 2.0, "%s lost a piece", s.Action)
		}
	}
}

// flatten planes a blank and checks that there is wood for it.
func (m *mill) flatten(piece nmBox, s plan.Step) {
	from, thick := nano(s.At), nano(s.Kerf)
	l, w := float64(piece.x1-piece.x0), float64(piece.y1-piece.y0)
	share, across := l/(float64(m.b.Length)*1e9), w/(float64(m.b.Width)*1e9)
	twist := float64(m.b.Twist) * 1e9
	if m.b.Packed {
		twist /= 2
	}
	loss := float64(m.b.Bow)*1e9*share*share + float64(m.b.Cup)*1e9*across*across + twist*share*across
	thin := math.Inf(1)
	for _, x := range []int64{piece.x0, piece.x1} {
		require.LessOrEqual(m.t, float64(piece.y1), m.widthAt(float64(x))+0.01, "blank inside the outline")
		for _, y := range []int64{piece.y0, piece.y1} {
			thin = min(thin, m.thickAt(float64(x), float64(y)))
		}
	}
	require.GreaterOrEqual(m.t, piece.y0, int64(0))
	require.GreaterOrEqual(m.t, float64(from), float64(nano(m.b.FacingFace1))-0.01)
	require.LessOrEqual(m.t, float64(thick)+loss+float64(nano(m.b.FacingFace1)+nano(m.b.FacingFar)), thin+4, "wood for the flat blank")
	require.InDelta(m.t, float64(nano(m.b.FacingFace1))+loss/2, float64(from), 2)
	piece.z0, piece.z1 = 0, thick
	m.blanks++
	m.pieces[s.Low] = piece
	m.flat[s.Low] = m.blanks - 1
}

// zoneTouched returns the first zone that a leaf cuts into.
func (m *mill) zoneTouched(leaf nmBox, face, loss int64) int {
	for i, z := range m.b.Zones {
		if nano(z.X0) >= leaf.x1 || leaf.x0 >= nano(z.X1) || nano(z.Y0) >= leaf.y1 || leaf.y0 >= nano(z.Y1) {
			continue
		}
		if z.Z0 == nil {
			return i
		}
		// The figure may lie half the flattening loss either way.
		if 2*nano(*z.Z0)-loss < 2*(leaf.z1+face) && 2*(leaf.z0+face) < 2*nano(*z.Z1)+loss {
			return i
		}
	}
	return -1
}

// checkPlan saws a whole plan and checks every claim it makes.
func checkPlan(t require.TestingT, q plan.Request, p plan.Plan) {
	sets := make([]int, len(q.Parts))
	worth := int64(0)
	seen := map[[2]int]bool{}
	require.Len(t, p.Billets, len(q.Billets))
	for i, bp := range p.Billets {
		b := q.Billets[i]
		widest := nano(b.Width)
		if b.WidthEnd != nil {
			widest = max(widest, nano(*b.WidthEnd))
		}
		m := &mill{t: t, b: b, saw: q.Saws[p.Saw], parts: q.Parts, pieces: map[int]nmBox{}, flat: map[int]int{}, fresh: map[int]bool{}}
		m.pieces[0] = nmBox{0, nano(b.Length), 0, widest, 0, math.MaxInt64 / 4}
		cuts := 0
		for _, s := range bp.Steps {
			m.execute(s)
			if s.Action != plan.FlattenBlank {
				cuts++
			}
		}
		require.Equal(t, cuts, bp.Cuts)
		require.Equal(t, m.blanks, len(bp.Blanks))
		billetWorth := int64(0)
		for j, blank := range bp.Blanks {
			billetWorth += m.checkBlank(j, blank, sets, seen)
		}
		require.Equal(t, billetWorth, bp.Worth)
		worth += billetWorth
		s := bp.Shares
		require.Equal(t, s.Whole, s.Plate.Plus(s.Kerf).Plus(s.Shavings).Plus(s.Offcut).Plus(s.Trim))
	}
	require.Equal(t, p.Worth, worth)
	require.Equal(t, sets, p.Sets)
	for k, part := range q.Parts {
		require.Equal(t, max(0, part.Least-sets[k]), p.Short[k])
		if part.Most != nil {
			require.LessOrEqual(t, sets[k], *part.Most)
		}
	}
	assert.GreaterOrEqual(t, p.Bound, p.Worth)
	if p.Optimal {
		assert.Equal(t, p.Worth, p.Bound)
	}
}

func (m *mill) checkBlank(j int, blank plan.Blank, sets []int, seen map[[2]int]bool) int64 {
	t := m.t
	// The loss of flattening, rounded as far as it can matter.
	loss := 2 * (nano(blank.Face1) - nano(m.b.FacingFace1))
	worth := int64(0)
	last := int64(0)
	for n, leaf := range blank.Leaves {
		require.Equal(t, n+1, leaf.Number)
		x0, y0 := nano(blank.X), nano(blank.Y)
		box := nmBox{x0, x0 + nano(blank.Length), y0, y0 + nano(blank.Width), nano(leaf.From), nano(leaf.To)}
		require.GreaterOrEqual(t, box.z0, last, "leaves do not overlap")
		last = box.z1
		found := false
		for id, piece := range m.pieces {
			if m.flat[id] != j {
				continue
			}
			if _, isFlat := m.flat[id]; !isFlat {
				continue
			}
			if m.fresh[id] {
				piece.z0 += nano(m.saw.Reface)
			}
			if piece == box {
				found = true
			}
			// The last leaf may be a little thick.
			thick := piece
			thick.z1 = box.z1
			if n == len(blank.Leaves)-1 && thick == box && piece.z1-box.z1 <= nano(m.saw.Resaw) && m.saw.FarFaceFinished {
				found = true
			}
		}
		require.True(t, found, "leaf %d of blank %d is among the pieces: %+v", n+1, j, box)
		if leaf.Role == plan.RoleRejected {
			continue
		}
		part := m.parts[leaf.Part]
		thick := nano(part.Final) + nano(part.Flatness) + nano(m.saw.CleanupShow) + nano(m.saw.CleanupBack) + nano(m.saw.Wander)
		if part.Shrinkage > 0 {
			thick = int64(math.Round(float64(thick) / (1 - part.Shrinkage)))
		}
		require.Equal(t, thick, box.z1-box.z0, "sawn thickness")
		require.GreaterOrEqual(t, box.x1-box.x0, nano(part.Length))
		require.GreaterOrEqual(t, box.y1-box.y0, nano(part.Width))
		require.Equal(t, -1, m.zoneTouched(box, nano(blank.Face1), loss), "zone touched")
		m.checkGrain(part, box, nano(blank.Face1))
		if leaf.Role != plan.RoleSet {
			continue
		}
		key := [2]int{leaf.Part, leaf.Set}
		if n > 0 && blank.Leaves[n-1].Role == plan.RoleSet && blank.Leaves[n-1].Part == leaf.Part && blank.Leaves[n-1].Set == leaf.Set {
			continue // counted with its first leaf
		}
		require.False(t, seen[key], "set %v is in one place", key)
		seen[key] = true
		require.LessOrEqual(t, n+part.Pieces, len(blank.Leaves))
		for k := range part.Pieces {
			require.Equal(t, leaf.Set, blank.Leaves[n+k].Set, "a set is of consecutive leaves")
			require.Equal(t, leaf.Part, blank.Leaves[n+k].Part)
			require.Equal(t, plan.RoleSet, blank.Leaves[n+k].Role)
		}
		sets[leaf.Part]++
		worth += part.Worth
	}
	return worth
}

// ringAngle is the ring angle at a place to a face along X.
func ringAngle(at, pith resaw.Point) quantity.Angle {
	return quantity.Angle(math.Atan2(math.Abs(float64(at.X-pith.X)), math.Abs(float64(at.Z-pith.Z))))
}

func (m *mill) checkGrain(part plan.PartKind, box nmBox, face int64) {
	if part.MostRunoutOneIn > 0 {
		require.NotNil(m.t, m.b.RunoutOneIn)
		require.GreaterOrEqual(m.t, *m.b.RunoutOneIn, part.MostRunoutOneIn)
	}
	if part.LeastRingAngle == 0 {
		return
	}
	if m.b.Pith == nil {
		require.NotNil(m.t, m.b.RingAngle)
		require.GreaterOrEqual(m.t, float64(*m.b.RingAngle)+1e-9, float64(part.LeastRingAngle))
		return
	}
	mid := quantity.Length(float64(box.z0+box.z1)/2+float64(face)) / 1e9
	for i := 0; i <= 8; i++ {
		y := quantity.Length(float64(box.y0)+float64(box.y1-box.y0)*float64(i)/8) / 1e9
		at := resaw.Point{X: y, Z: mid}
		if math.Abs(float64(at.X-m.b.Pith.X)) < 1e-9 && math.Abs(float64(at.Z-m.b.Pith.Z)) < 1e-9 {
			continue
		}
		require.GreaterOrEqual(m.t, ringAngle(at, *m.b.Pith).Degrees()+1e-4, part.LeastRingAngle.Degrees(), "ring angle")
	}
}
