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
	loose  []map[int]int // of every part that needs no neighbours the pieces so far of each set
	turned []bool        // of every blank: it lies on its side, seen from its near edge
	far    []int64       // thickness at the far edge of the wedges so far
}

// front is where the wood in hand of a blank begins.
func (b nmBox) front(turned bool) int64 {
	if turned {
		return b.y0
	}
	return b.z0
}

// partedAt is what a kerf through a blank leaves before and behind it.
func (b nmBox) partedAt(from, to int64, turned bool) (low, high nmBox) {
	low, high = b, b
	if turned {
		low.y1, high.y0 = from, to
	} else {
		low.z1, high.z0 = from, to
	}
	return low, high
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
	blank, isFlat := m.flat[s.Piece]
	from := m.set(s, piece, isFlat && m.turned[blank])
	to := from + nano(s.Kerf)
	var low, high nmBox
	var kerf int64
	switch s.Action {
	case plan.Crosscut, plan.Trim:
		require.False(m.t, isFlat && s.Action == plan.Trim, "a leaf is crosscut")
		kerf = nano(m.saw.Crosscut)
		low, high = piece, piece
		low.x1, high.x0 = from, to
		require.Less(m.t, from, piece.x1)
		require.Greater(m.t, to, piece.x0-1)
	case plan.Rip:
		kerf = nano(m.saw.Rip)
		low, high = piece, piece
		low.y1, high.y0 = from, to
		require.Less(m.t, from, piece.y1)
	case plan.Resaw:
		if !isFlat {
			m.sawTaper(piece, s)
			return
		}
		require.False(m.t, m.fresh[s.Piece] && m.saw.Reface > 0, "reface before the next cut")
		kerf = nano(m.saw.Resaw)
		if s.Far != nil {
			m.split(piece, s)
			return
		}
		low, high = piece.partedAt(from, to, m.turned[blank])
		if s.High >= 0 {
			m.fresh[s.High] = true
		}
		front, back, high0, high1 := piece.z0, piece.z1, piece.y0, piece.y1
		if m.turned[blank] {
			front, back, high0, high1 = high0, high1, front, back
		}
		require.GreaterOrEqual(m.t, from, front)
		require.LessOrEqual(m.t, to, back+nano(m.saw.Resaw))
		if m.saw.HighestCut > 0 {
			require.LessOrEqual(m.t, high1-high0, nano(m.saw.HighestCut), "height of the cut")
		}
	case plan.Plane, plan.Reface:
		require.Equal(m.t, m.fresh[s.Piece] && m.saw.Reface > 0, s.Action == plan.Reface, "the sawn face is planed before the next cut")
		require.Equal(m.t, piece.front(m.turned[blank]), from)
		kerf = to - from
		if s.Action == plan.Reface {
			require.Equal(m.t, nano(m.saw.Reface), kerf)
		}
		low, high = piece.partedAt(from, to, m.turned[blank])
	case plan.FlattenBlank:
		require.False(m.t, isFlat)
		require.Equal(m.t, -1, s.High)
		if s.Far != nil {
			m.planeWedge(piece, s)
			return
		}
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
		if side.id < 0 && side.b.x1 > side.b.x0 && s.Action != plan.Plane && s.Action != plan.Reface {
			widest := max(m.widthAt(float64(side.b.x0)), m.widthAt(float64(side.b.x1)))
			wood := min(float64(side.b.x1-side.b.x0), min(float64(side.b.y1), widest)-float64(side.b.y0), float64(side.b.z1-side.b.z0))
			require.LessOrEqual(m.t, wood, 2.0, "%s lost a piece", s.Action)
		}
	}
}

// sawTaper saws off what is behind a blank as thick as its thinnest corner.
func (m *mill) sawTaper(piece nmBox, s plan.Step) {
	require.Equal(m.t, plan.Face1, s.Against)
	require.Equal(m.t, nano(m.saw.Resaw), nano(s.Kerf))
	if m.saw.HighestCut > 0 {
		require.LessOrEqual(m.t, piece.y1-piece.y0, nano(m.saw.HighestCut), "height of the cut")
	}
	thin, thick := math.Inf(1), 0.0
	for _, x := range []int64{piece.x0, piece.x1} {
		for _, y := range []int64{piece.y0, piece.y1} {
			thin, thick = min(thin, m.thickAt(float64(x), float64(y))), max(thick, m.thickAt(float64(x), float64(y)))
		}
	}
	require.InDelta(m.t, thin, float64(nano(s.Fence)), 3, "as thick as the thinnest corner")
	require.Greater(m.t, thick, float64(nano(s.Fence)+nano(s.Kerf)), "something comes off")
	low, high := piece, piece
	low.z1, high.z0 = nano(s.Fence), nano(s.Fence)+nano(s.Kerf)
	m.pieces[s.Low], m.pieces[s.High] = low, high
}

// set returns where the kerf of a step starts by what lies against the fence or the stop
// and what that is set to, and nothing else; the coordinate of the billet is the same.
func (m *mill) set(s plan.Step, piece nmBox, turned bool) int64 {
	from := nano(s.At)
	if s.Action == plan.FlattenBlank || s.Action == plan.Plane || s.Action == plan.Reface {
		return from
	}
	fence, kerf := nano(s.Fence), nano(s.Kerf)
	require.GreaterOrEqual(m.t, fence, int64(0), "a fence can be set to it")
	at, known := map[plan.Edge]int64{plan.Start: piece.x0 + fence, plan.End: piece.x1 - fence - kerf,
		plan.NearEdge: piece.y0 + fence, plan.FarEdge: piece.y1 - fence - kerf, plan.Face1: piece.front(turned) + fence}[s.Against]
	require.True(m.t, known, "%s against %s", s.Action, s.Against)
	require.InDelta(m.t, from, at, 2, "%s set to %v against the %s", s.Action, s.Fence, s.Against)
	return from
}

// flatten planes a blank and checks that there is wood for it.
func (m *mill) flatten(piece nmBox, s plan.Step) {
	from, thick := nano(s.At), nano(s.Kerf)
	loss := m.lossOf(piece)
	thin := math.Inf(1)
	for _, x := range []int64{piece.x0, piece.x1} {
		require.LessOrEqual(m.t, float64(piece.y1), m.widthAt(float64(x))+0.01, "blank inside the outline")
		for _, y := range []int64{piece.y0, piece.y1} {
			thin = min(thin, m.thickAt(float64(x), float64(y)), float64(piece.z1))
		}
	}
	require.GreaterOrEqual(m.t, piece.y0, int64(0))
	require.GreaterOrEqual(m.t, float64(from), float64(nano(m.b.FacingFace1))-0.01)
	require.LessOrEqual(m.t, float64(thick)+loss+float64(nano(m.b.FacingFace1)+nano(m.b.FacingFar)), thin+4, "wood for the flat blank")
	require.InDelta(m.t, float64(nano(m.b.FacingFace1))+loss/2, float64(from), 2)
	piece.z0, piece.z1 = 0, thick
	if m.turned[m.blanks] {
		piece.y0, piece.y1 = 0, piece.y1-piece.y0
	}
	m.blanks++
	m.pieces[s.Low] = piece
	m.flat[s.Low] = m.blanks - 1
}

// planeWedge planes both faces of a wedge and checks that there is wood for it, at each of
// its four corners.
func (m *mill) planeWedge(piece nmBox, s plan.Step) {
	loss := m.lossOf(piece)
	thick := map[int64]int64{piece.y0: nano(s.Kerf), piece.y1: nano(*s.Far)}
	off := float64(nano(m.b.FacingFace1) + nano(m.b.FacingFar))
	for _, x := range []int64{piece.x0, piece.x1} {
		require.LessOrEqual(m.t, float64(piece.y1), m.widthAt(float64(x))+0.01, "blank inside the outline")
		for y, left := range thick {
			require.Positive(m.t, left)
			require.LessOrEqual(m.t, float64(left)+loss+off, m.thickAt(float64(x), float64(y))+4, "wood for the wedge")
		}
	}
	piece.z0, piece.z1 = 0, thick[piece.y0]
	m.far = append(m.far, thick[piece.y1])
	m.blanks++
	m.pieces[s.Low] = piece
	m.flat[s.Low] = m.blanks - 1
}

// lossOf is what flattening a piece costs.
func (m *mill) lossOf(piece nmBox) float64 {
	l, w := float64(piece.x1-piece.x0), float64(piece.y1-piece.y0)
	share, across := l/(float64(m.b.Length)*1e9), w/(float64(m.b.Width)*1e9)
	twist := float64(m.b.Twist) * 1e9
	if m.b.Packed {
		twist /= 2
	}
	return float64(m.b.Bow)*1e9*share*share + float64(m.b.Cup)*1e9*across*across + twist*share*across
}

// split saws a wedge along the line from the setting at its near edge to that at its far
// one: as square to that line as the kerf is, the halves are what is left on both sides.
func (m *mill) split(piece nmBox, s plan.Step) {
	near, far, width := piece.z1, m.far[len(m.far)-1], float64(piece.y1-piece.y0)
	lean := (float64(near) - float64(far)) / 2 / width // of the middle
	kerf := float64(nano(m.saw.Resaw)) * math.Sqrt(1+lean*lean)
	for _, edge := range [][2]int64{{near, nano(s.Fence)}, {far, nano(*s.Far)}} {
		require.InDelta(m.t, (float64(edge[0])-kerf)/2, float64(edge[1]), 3, "the kerf runs along the middle")
	}
	blank := m.flat[s.Piece]
	for _, half := range []int{s.Low, s.High} {
		m.pieces[half] = piece
		m.flat[half] = blank
	}
}

// checkWedge checks the pair of a wedge.
func (m *mill) checkWedge(blank plan.Blank, sets []int) int64 {
	require.Len(m.t, blank.Leaves, 2)
	part := m.parts[blank.Leaves[0].Part]
	over := nano(part.Flatness) + nano(m.saw.CleanupShow) + nano(m.saw.CleanupBack) + nano(m.saw.Wander)
	require.GreaterOrEqual(m.t, nano(blank.Length), nano(part.Length))
	require.GreaterOrEqual(m.t, nano(blank.Width), nano(part.Width))
	require.Equal(m.t, 2, part.Pieces)
	for _, l := range blank.Leaves {
		near, far := nano(l.To)-nano(l.From), nano(*l.FarTo)-nano(*l.FarFrom)
		require.GreaterOrEqual(m.t, max(near, far), over+nano(part.Final), "thick edge")
		require.GreaterOrEqual(m.t, min(near, far), over+nano(part.ThinEdge), "thin edge")
		require.GreaterOrEqual(m.t, nano(l.From), int64(0))
		require.LessOrEqual(m.t, nano(l.To), nano(blank.Usable))
		require.LessOrEqual(m.t, nano(*l.FarTo), nano(*blank.FarUsable))
	}
	for _, z := range m.b.Zones {
		beside := z.X1 <= blank.X || z.X0 >= blank.X+blank.Length || z.Y1 <= blank.Y || z.Y0 >= blank.Y+blank.Width
		require.True(m.t, beside, "zone in a wedge")
	}
	m.checkRingsOfWedge(part, blank)
	if blank.Leaves[0].Role != plan.RoleSet {
		return 0
	}
	sets[blank.Leaves[0].Part]++
	return part.Worth
}

// checkRingsOfWedge looks along face 1, the middle and face 2 from edge to edge.
func (m *mill) checkRingsOfWedge(part plan.PartKind, blank plan.Blank) {
	if part.LeastRingAngle == 0 {
		return
	}
	if m.b.Pith == nil {
		require.NotNil(m.t, m.b.RingAngle)
		require.GreaterOrEqual(m.t, float64(*m.b.RingAngle)+1e-9, float64(part.LeastRingAngle))
		return
	}
	for plane := range 3 {
		z0, z1 := float64(blank.Face1)+float64(blank.Usable)*float64(plane)/2, float64(blank.Face1)+float64(*blank.FarUsable)*float64(plane)/2
		for i := range 9 {
			share := float64(i) / 8
			y, z := float64(blank.Y)+share*float64(blank.Width), z0+share*(z1-z0)
			// The ring is square to the ray from the pith.
			ry, rz := -(z - float64(m.b.Pith.Z)), y-float64(m.b.Pith.X)
			dy, dz := float64(blank.Width), z1-z0
			cos := math.Abs(ry*dy+rz*dz) / math.Hypot(ry, rz) / math.Hypot(dy, dz)
			require.GreaterOrEqual(m.t, quantity.Angle(math.Acos(math.Min(1, cos))).Degrees()+1e-4, part.LeastRingAngle.Degrees(), "rings of a wedge")
		}
	}
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
	loose := make([]map[int]int, len(q.Parts))
	for k := range loose {
		loose[k] = map[int]int{}
	}
	for i, bp := range p.Billets {
		b := q.Billets[i]
		widest := nano(b.Width)
		if b.WidthEnd != nil {
			widest = max(widest, nano(*b.WidthEnd))
		}
		m := &mill{t: t, b: b, saw: q.Saws[p.Saw], parts: q.Parts, pieces: map[int]nmBox{}, flat: map[int]int{}, fresh: map[int]bool{}, loose: loose}
		for _, blank := range bp.Blanks {
			m.turned = append(m.turned, blank.Turned)
		}
		m.pieces[0] = nmBox{0, nano(b.Length), 0, widest, 0, math.MaxInt64 / 4}
		cuts := 0
		for _, s := range bp.Steps {
			m.execute(s)
			if s.Action != plan.FlattenBlank && s.Action != plan.Reface {
				cuts++
			}
		}
		require.Equal(t, cuts, bp.Cuts)
		require.Equal(t, m.blanks, len(bp.Blanks))
		billetWorth := int64(0)
		for j, blank := range bp.Blanks {
			if blank.Split {
				billetWorth += m.checkWedge(blank, sets)
				continue
			}
			billetWorth += m.checkBlank(j, blank, sets, seen)
		}
		require.Equal(t, billetWorth, bp.Worth)
		worth += billetWorth
		s := bp.Shares
		require.Equal(t, s.Whole, s.Plate.Plus(s.Kerf).Plus(s.Shavings).Plus(s.Offcut).Plus(s.Trim))
	}
	require.Equal(t, p.Worth, worth)
	require.Equal(t, sets, p.Sets)
	for k, pieces := range loose {
		if q.Parts[k].Match != plan.MatchNone || q.Parts[k].Pieces == 1 {
			continue
		}
		for set := range sets[k] { // numbered from 1 on, none left out
			require.Equal(t, q.Parts[k].Pieces, pieces[set+1], "pieces of set %d of part %d", set+1, k)
			delete(pieces, set+1)
		}
		require.Empty(t, pieces, "whole sets of part %d", k)
	}
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
		require.GreaterOrEqual(t, nano(leaf.From), last, "leaves do not overlap")
		last = nano(leaf.To)
		if blank.Turned {
			box.y0, box.y1, box.z0, box.z1 = nano(leaf.From), nano(leaf.To), 0, nano(blank.Usable)
		}
		found := len(leaf.Strips) > 0
		for id, piece := range m.pieces {
			if m.flat[id] != j || found {
				continue
			}
			if _, isFlat := m.flat[id]; !isFlat {
				continue
			}
			if piece == box {
				found = true
			}
			// The last leaf may be a little thick.
			thick, over := piece, piece.z1-box.z1
			thick.z1 = box.z1
			if blank.Turned {
				thick, over = piece, piece.y1-box.y1
				thick.y1 = box.y1
			}
			if n == len(blank.Leaves)-1 && thick == box && over <= nano(m.saw.Resaw) && m.saw.FarFaceFinished {
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
		require.Equal(t, thick, nano(leaf.To)-nano(leaf.From), "sawn thickness")
		require.GreaterOrEqual(t, box.x1-box.x0, nano(part.Length))
		if blank.Turned {
			require.GreaterOrEqual(t, box.z1-box.z0, nano(part.Width))
			box.y0, box.y1 = box.y0+y0, box.y1+y0
		} else {
			require.GreaterOrEqual(t, box.y1-box.y0, nano(part.Width))
		}
		require.Equal(t, -1, m.zoneTouched(box, nano(blank.Face1), loss), "zone touched")
		m.checkGrain(part, box, nano(blank.Face1), blank.Turned)
		m.checkStrips(leaf, box, part)
		for i, strip := range leaf.All() {
			if strip.Role != plan.RoleSet {
				continue
			}
			if part.Match == plan.MatchNone && part.Pieces > 1 { // pieces from anywhere
				m.loose[leaf.Part][strip.Set]++
				if m.loose[leaf.Part][strip.Set] == part.Pieces {
					sets[leaf.Part]++
					worth += part.Worth
				}
				continue
			}
			key := [2]int{leaf.Part, strip.Set}
			at := func(k int) plan.Strip { return blank.Leaves[k].All()[i] }
			if n > 0 && blank.Leaves[n-1].Part == leaf.Part && at(n-1).Role == plan.RoleSet && at(n-1).Set == strip.Set {
				continue // counted with its first leaf
			}
			require.False(t, seen[key], "set %v is in one place", key)
			seen[key] = true
			require.LessOrEqual(t, n+part.Pieces, len(blank.Leaves))
			for k := range part.Pieces {
				require.Equal(t, leaf.Part, blank.Leaves[n+k].Part)
				require.Equal(t, strip.Set, at(n+k).Set, "a set is of consecutive leaves")
				require.Equal(t, plan.RoleSet, at(n+k).Role)
				require.Equal(t, [2]quantity.Length{strip.X, strip.Y}, [2]quantity.Length{at(n + k).X, at(n + k).Y}, "of the same place")
			}
			sets[leaf.Part]++
			worth += part.Worth
		}
	}
	return worth
}

// checkStrips looks that what a leaf is parted into lies in it, does not overlap, is large enough
// and is in hand.
func (m *mill) checkStrips(leaf plan.Leaf, box nmBox, part plan.PartKind) {
	var all []nmBox
	for _, s := range leaf.Strips {
		piece, inHand := m.pieces[s.Piece]
		require.True(m.t, inHand, "strip %d is among the pieces", s.Piece)
		require.Equal(m.t, [4]int64{nano(s.X), nano(s.X + s.Length), nano(s.Y), nano(s.Y + s.Width)}, [4]int64{piece.x0, piece.x1, piece.y0, piece.y1})
		require.GreaterOrEqual(m.t, piece.x1-piece.x0, nano(part.Length))
		require.GreaterOrEqual(m.t, piece.y1-piece.y0, nano(part.Width))
		require.GreaterOrEqual(m.t, piece.z1-piece.z0, box.z1-box.z0)
		require.True(m.t, piece.x0 >= box.x0 && piece.x1 <= box.x1 && piece.y0 >= box.y0 && piece.y1 <= box.y1, "inside its leaf")
		for _, o := range all {
			require.True(m.t, piece.x1 <= o.x0 || o.x1 <= piece.x0 || piece.y1 <= o.y0 || o.y1 <= piece.y0, "strips do not overlap")
		}
		all = append(all, piece)
	}
}

// ringAngle is the ring angle at a place to a face along X.
func ringAngle(at, pith resaw.Point) quantity.Angle {
	return quantity.Angle(math.Atan2(math.Abs(float64(at.X-pith.X)), math.Abs(float64(at.Z-pith.Z))))
}

func (m *mill) checkGrain(part plan.PartKind, box nmBox, face int64, turned bool) {
	m.checkPith(box, face)
	if part.MostRunoutOneIn > 0 {
		require.NotNil(m.t, m.b.RunoutOneIn)
		require.GreaterOrEqual(m.t, *m.b.RunoutOneIn, part.MostRunoutOneIn)
	}
	if part.LeastRingAngle == 0 {
		return
	}
	if m.b.Pith == nil {
		require.NotNil(m.t, m.b.RingAngle)
		angle := *m.b.RingAngle
		if turned {
			angle = 90*quantity.Degree - angle
		}
		require.GreaterOrEqual(m.t, float64(angle)+1e-9, float64(part.LeastRingAngle))
		return
	}
	require.False(m.t, turned, "no part that asks for a ring angle is turned where the pith is known")
	pith := *m.b.Pith
	front, back := quantity.Length(float64(box.z0+face))/1e9, quantity.Length(float64(box.z1+face))/1e9
	skin := min(m.saw.CleanupShow, m.saw.CleanupBack)
	for _, z := range []quantity.Length{front + skin, back - skin} {
		for i := 0; i <= 8; i++ {
			y := quantity.Length(float64(box.y0)+float64(box.y1-box.y0)*float64(i)/8) / 1e9
			at := resaw.Point{X: y, Z: z}
			if math.Abs(float64(at.X-pith.X)) < 1e-9 && math.Abs(float64(at.Z-pith.Z)) < 1e-9 {
				continue
			}
			require.GreaterOrEqual(m.t, ringAngle(at, pith).Degrees()+1e-4, part.LeastRingAngle.Degrees(), "ring angle")
		}
	}
}

// checkPith looks that the pith runs through no leaf, as far as flattening may move it.
func (m *mill) checkPith(box nmBox, face int64) {
	if m.b.Pith == nil {
		return
	}
	inside := nano(m.b.Pith.X) > box.y0 && nano(m.b.Pith.X) < box.y1 && nano(m.b.Pith.Z) > box.z0+face && nano(m.b.Pith.Z) < box.z1+face
	require.False(m.t, inside, "pith in a leaf")
}
