package plan

import (
	"math"
	"slices"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// The model.
//
// A billet is parted by crosscuts and rips, in any order and to any depth; a piece that is
// not parted further is a blank, which is flattened and resawn from face 1, or on its side
// from its near edge, or as a wedge along its middle (wedge.go). The staged search knows one order: crosscut into sections, rip into
// strips, trim a strip to its blank. All cuts go from edge to edge of the piece being cut.
// A blank is
// as long as a kind of part that is no wider than it and as wide as a kind that is
// no longer, and holds any kinds that are neither longer nor wider; its usable thickness is that of the wood at its thinnest corner, less both facings
// and less what flattening a blank of that size costs: cup (w/W)^2 + bow (l/L)^2
// + twist (l/L)(w/W), resaw.FlatteningLoss. A set is made of consecutive leaves
// of one stack; of a part that is smaller than the blank as many sets side by side as its leaves
// hold, crosscut and ripped once they are sawn (gang.go). A leaf is spoiled where a zone overlaps its blank in length and
// width and its own thickness in depth; because flattening takes half the loss
// off either face and the figure may lie half the loss either way, zones are
// widened by half the loss. The ring angle of a leaf is the least over both
// faces of its finished plate, which lies within the leaf less the smaller clean-up. The
// pith spoils every leaf that it runs through.
//
// Why normal patterns lose nothing.
//
// Take a plan of most worth, and of those one with the least sum of blank starts
// x, then with the least sum of y, then with the least sum of set starts z
// (the set of plans is closed, so there is one). Let the wood be oriented with
// its thick end at x = 0, its outline not growing wider with x, its thick edge at
// y = 0, and the ring angle not falling towards y = 0.
//
// x: moving one blank towards x = 0 never makes it thinner or outside the wood
// and never changes its rings. So no blank can be moved, and each starts at the
// first place of its section or against the end x1 of a zone. A section starts a
// kerf after the longest-reaching blank of the section before it. Hence all
// starts lie in the closure of {trimmed end, zone ends} under + length + kerf.
//
// y: moving a strip towards y = 0 never makes its stack worse, so each starts at
// the edge of the wood beside its own blank, against the far side y1 of a zone,
// or a kerf after the strip before it: closure of {edges, zone sides} under
// + width + kerf. If the pith lies within the width the strips wholly beyond it
// are better further out: these are pushed the other way in the same manner, from
// the far edge and the near sides y0 of zones, and the two groups meet in one gap.
//
// z: the wood and the zones of a blank do not depend on where its sets lie. A set
// moved towards face 1 stays clear until it meets the set before it, one of its
// leaves meets the far side of a zone, or its first leaf comes to the depth where
// it would fall below the ring angle wanted (the angle falls only when moving
// away from the pith's depth). Hence closure of {face 1, zone ends less the depth
// of every leaf in a set, those depths} under + set height.
//
// A move never adds a cut: the gap in front of the piece moved costs a cut and a
// gap behind it costs one. So the tie-break on cuts loses nothing either.
//
// Where the orientations contradict each other (thicker towards the narrow end;
// thicker towards the pith), the same patterns are searched, and only a relaxed grid
// (refine.go), which needs no such argument, may prove the plan.
//
// Over all cuts from edge to edge, to any depth, the same moves hold within every piece:
// its blank is moved to the start of the piece or against a zone, and a piece begins a kerf
// behind the longest-reaching blank of the one before it. So the same closures hold all
// starts. A blank on its side is one more size across the face.

// nm is a length in whole nanometres.
type nm = exact.NM

// zone is a Zone in nanometres; z1 is math.MaxInt64 from face to face.
type zone struct {
	x0, x1, y0, y1, z0, z1 nm
	through                bool
}

// offer is a billet in nanometres, oriented as the model asks: what it offers. The
// trims of its cost are at oriented x = 0 and x = l.
type offer struct {
	cost
	l, w0, w1, ref nm // length, widths at the two ends as given, wider of the two
	t, tx, ty      nm // thickness at the corner, at the end, at the far edge
	zones          []zone
	cup, bow, rock float64
	flipX, flipY   bool
	pith           bool
	yp, zp         nm
	both           bool // the pith lies within the width: strips are pushed both ways
	conflictX      bool
	conflictY      bool

	pithKnown bool
	angle     *quantity.Angle // of the rings, one for all of it
	runout    *float64        // 1 in this; nil: not measured
	barred    uint32          // the kinds that may not come from it
}

// newOffer is a billet on a saw; ringed says that a part asks for a ring angle.
func newOffer(b *Billet, c *cost, ringed bool) *offer {
	w := &offer{
		cost: c.with(b), l: exact.Whole(b.Length), w0: exact.Whole(b.Width), t: exact.Whole(b.Thickness),
		cup: float64(exact.Whole(b.Cup)), bow: float64(exact.Whole(b.Bow)), rock: float64(exact.Whole(b.Twist)),
	}
	w.pithKnown, w.angle, w.runout = b.Pith != nil, b.RingAngle, b.RunoutOneIn
	w.w1, w.tx, w.ty = w.w0, w.t, w.t
	if b.WidthEnd != nil {
		w.w1 = exact.Whole(*b.WidthEnd)
	}
	if b.ThicknessEnd != nil {
		w.tx = exact.Whole(*b.ThicknessEnd)
	}
	if b.ThicknessFarEdge != nil {
		w.ty = exact.Whole(*b.ThicknessFarEdge)
	}
	if b.Packed {
		w.rock /= 2
	}
	w.ref = max(w.w0, w.w1)
	w.flipX = w.tx > w.t || w.tx == w.t && w.w1 > w.w0
	w.conflictX = w.tx != w.t && w.w1 != w.w0 && (w.tx > w.t) != (w.w1 > w.w0)
	if b.Pith != nil && ringed {
		w.pith, w.yp, w.zp = true, exact.Whole(b.Pith.X), exact.Whole(b.Pith.Z)
	}
	w.flipY = w.ty > w.t || w.ty == w.t && w.pith && w.yp <= 0
	w.orientZones(w.withPith(b))
	if w.flipX {
		w.trim0, w.trim1 = w.trim1, w.trim0
	}
	w.onSteps()
	if w.pith {
		if w.flipY {
			w.yp = w.ref - w.yp
		}
		// Pushing towards y = 0 is away from a pith beyond the far edge.
		w.both = w.yp < w.ref
		w.conflictY = w.both && w.ty != w.t
	}
	return w
}

// withPith are the zones of a billet with its pith, where that lies in the wood: it spoils
// every leaf that it runs through, of whatever part.
func (w *offer) withPith(b *Billet) []Zone {
	if b.Pith == nil || b.Pith.X <= 0 || exact.Whole(b.Pith.X) >= w.ref || b.Pith.Z <= 0 {
		return b.Zones
	}
	z := b.Pith.Z
	return append(slices.Clone(b.Zones), Zone{Kind: "pith", X1: b.Length, Y0: b.Pith.X, Y1: b.Pith.X, Z0: &z, Z1: &z})
}

func (w *offer) orientZones(zones []Zone) {
	for _, z := range zones {
		o := zone{x0: exact.Whole(z.X0) - w.step, x1: exact.Whole(z.X1) + w.step, y0: exact.Whole(z.Y0) - w.step,
			y1: exact.Whole(z.Y1) + w.step, z1: math.MaxInt64, through: z.Z0 == nil}
		if !o.through {
			o.z0, o.z1 = exact.Whole(*z.Z0)-w.step, exact.Whole(*z.Z1)+w.step
		}
		o.x0, o.x1 = w.turnX(o.x0, o.x1)
		o.y0, o.y1 = w.turnY(o.y0, o.y1)
		w.zones = append(w.zones, o)
	}
}

// onSteps puts what pieces begin behind at whole steps from where the fence is set, so that every
// setting is one.
func (w *offer) onSteps() {
	w.trim0 = upToSteps(w.trim0, w.step)
	for i := range w.zones {
		z := &w.zones[i]
		z.x0, z.x1 = downToSteps(z.x0, w.step), upToSteps(z.x1, w.step)
		z.y0, z.y1 = downToSteps(z.y0, w.step), upToSteps(z.y1, w.step)
	}
}

// turnX turns an interval of x from the billet's axis to the oriented one or
// back.
func (w *offer) turnX(a, b nm) (low, high nm) {
	if w.flipX {
		return w.l - b, w.l - a
	}
	return a, b
}

func (w *offer) turnY(a, b nm) (low, high nm) {
	if w.flipY {
		return w.ref - b, w.ref - a
	}
	return a, b
}

// edges returns the outline over [x0, x1] (oriented): a strip between low and
// high is inside the wood at every x of it.
func (w *offer) edges(x0, x1 nm) (low, high nm) {
	a, b := w.turnX(x0, x1)
	width := min(exact.Between(w.w0, w.w1, a, w.l), exact.Between(w.w0, w.w1, b, w.l))
	if w.flipY {
		return w.ref - width, w.ref
	}
	return 0, width
}

// straight reports whether the outline is a rectangle.
func (w *offer) straight() bool { return w.w0 == w.w1 }

// nearStraight and farStraight report whether an edge of the outline runs along
// the billet, so that a strip against it needs no cut there.
func (w *offer) nearStraight() bool { return w.straight() || !w.flipY }
func (w *offer) farStraight() bool  { return w.straight() || w.flipY }

// uniformX reports whether sections of one length are alike wherever they lie,
// zones aside.
func (w *offer) uniformX() bool { return w.straight() && w.t == w.tx }

// loss returns what flattening a blank of this size costs, rounded up; a
// thousandth of a nanometre of floating point is forgiven.
func (w *offer) loss(l, width nm) nm {
	a, b := float64(l)/float64(w.l), float64(width)/float64(w.w0)
	return nm(math.Ceil(resaw.FlatteningLoss(w.bow, w.cup, w.rock, a, b) - 1e-3))
}

// depthOfFace1 returns how deep the planed face 1 lies, in steps where these are asked for
// unless it is a facing as it was given; and by how much zones are widened.
func (w *offer) depthOfFace1(loss nm) (face, widen nm) {
	face, widen = w.f1, (loss+1)/2
	if loss > 0 {
		face = upToSteps(w.f1+loss/2, w.step)
	}
	return face, widen
}

// leftFlat is what is left of a thickness once both its faces are flat.
func (w *offer) leftFlat(thick, loss nm) nm {
	face, widen := w.depthOfFace1(loss)
	return downToSteps(thick-face-widen-w.f2, w.step)
}

// touching returns the zones that overlap a rectangle as a mask, and false when
// one of them goes from face to face.
func (w *offer) touching(x0, x1, y0, y1 nm) (mask uint64, free bool) {
	for i, z := range w.zones {
		if z.x0 < x1 && x0 < z.x1 && z.y0 < y1 && y0 < z.y1 {
			if z.through {
				return 0, false
			}
			mask |= 1 << i
		}
	}
	return mask, true
}

// interval is a stretch of depth that no leaf may overlap.
type interval struct{ from, to nm }

// spoiled returns the depths below the planed face 1 that the zones of mask
// spoil in a blank of a given loss, merged and sorted.
func (w *offer) spoiled(mask uint64, loss nm) []interval {
	var out []interval
	face, widen := w.depthOfFace1(loss)
	for i, z := range w.zones {
		if mask&(1<<i) != 0 {
			out = append(out, interval{z.z0 - widen - face, z.z1 + widen - face})
		}
	}
	slices.SortFunc(out, func(a, b interval) int { return int(max(-1, min(1, a.from-b.from))) })
	merged := out[:0]
	for _, v := range out {
		if n := len(merged); n > 0 && v.from < merged[n-1].to {
			merged[n-1].to = max(merged[n-1].to, v.to)
			continue
		}
		merged = append(merged, v)
	}
	return merged
}

// off returns how far a strip lies from the pith sideways: 0 when it straddles it.
func (w *offer) off(y0, y1 nm) nm { return max(0, y0-w.yp, w.yp-y1) }

// angleMet reports whether the ring angle that a kind asks for may be met: where the
// pith is known that is a matter of the place.
func (w *offer) angleMet(k *want) bool {
	const tiny = 1e-9 * quantity.Degree
	return !k.ringed || w.pithKnown || w.angle != nil && *w.angle >= k.angle-tiny
}

// runoutMet reports whether the fibre is known to leave the face as little as a kind
// asks for.
func (w *offer) runoutMet(k *want) bool {
	return k.runout <= 0 || w.runout != nil && *w.runout >= k.runout
}

// spot is what a billet offers at one place.
type spot struct {
	usable nm     // thickness once flat
	loss   nm     // that flattening costs
	face   nm     // depth of the planed face 1
	off    nm     // from the pith, sideways
	zones  uint64 // that reach into it
}

// at returns what the wood offers over a rectangle (oriented), and whether a blank can
// be had there at all: within the outline, clear of zones from face to face.
func (w *offer) at(x, l, y, width nm) (spot, bool) {
	low, high := w.edges(x, x+l)
	if y < low || y+width > high {
		return spot{}, false
	}
	zones, free := w.touching(x, x+l, y, y+width)
	if !free {
		return spot{}, false
	}
	s := w.flat(x, l, y, width)
	s.zones = zones
	return s, s.usable > 0
}

// flat returns what is left over a rectangle (oriented) once a blank of it is flat.
func (w *offer) flat(x, l, y, width nm) spot {
	s := spot{loss: w.loss(l, width), off: w.off(y, y+width)}
	s.face, _ = w.depthOfFace1(s.loss)
	s.usable = w.leftFlat(w.thinnest(x, x+l, y, y+width), s.loss)
	return s
}
