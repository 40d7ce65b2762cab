package plan

import (
	"math"

	"latewood/woodphys/quantity"
)

// Wedges. A carved pair has halves that are thick at one edge and thin at the other. Two of
// them come from one blank of a wedge-sawn or split billet: both its faces are planed as
// they lie, and it is sawn along the middle of both its edges. Opened, the thick edges meet
// at the seam. Such a blank holds one pair and nothing else, and is clear of zones over its
// whole depth: the saw runs through all of it. It may also be a flat pair, as thick
// everywhere as at the thick edge, where the wood is thick enough.

// wedgeAt reports whether a pair may be had where a blank begins within a stretch: exactly,
// where that is one place, else whether there may be one.
func (w *offer) wedgeAt(k *want, s stretch, kerf nm) bool {
	at, ok := w.within(s, k.l, k.w)
	if !ok || at.zones != 0 {
		return false
	}
	thick, thin := nm(math.MinInt64), nm(math.MinInt64)
	for _, x := range []nm{s.x0, s.x1} {
		for _, y := range []nm{s.y0, s.y1} {
			a, b := w.edgesThick(x, k.l, y, k.w, at.loss)
			thick, thin = max(thick, a), max(thin, b)
		}
	}
	kerf = w.kerfAcross(kerf)
	if downToSteps((thick-kerf)/2, w.step) < k.t || downToSteps((thin-kerf)/2, w.step) < k.thin {
		return false
	}
	if k.ringed && w.pith && s.x0 == s.x1 && s.y0 == s.y1 {
		return w.ringsOfWedge(k, s.x0, s.y0)
	}
	return true
}

// angleMetSplit reports whether the ring angle that a kind asks for may be met by halves of
// a wedge: the rings may lean either way, so that to one of the faces of a half they lie
// flatter by the whole angle of the wedge.
func (w *offer) angleMetSplit(k *want) bool {
	const tiny = 1e-9 * quantity.Degree
	return !k.ringed || w.pithKnown || w.angle != nil && *w.angle-w.wedgeAngle() >= k.angle-tiny
}

// ringsOfWedge reports whether the rings stand steep enough to both faces of both halves of
// a blank at a place: to face 1, to the middle and to face 2. On each of these planes the
// angle of the rings is least at an edge.
func (w *offer) ringsOfWedge(k *want, x, y nm) bool {
	const tiny = 1e-9 * quantity.Degree
	loss := w.loss(k.l, k.w)
	thick, thin := w.edgesThick(x, k.l, y, k.w, loss)
	face, _ := w.depthOfFace1(loss)
	for plane := range 3 {
		z0, z1 := float64(face)+float64(thick)*float64(plane)/2, float64(face)+float64(thin)*float64(plane)/2
		along := math.Atan2(z1-z0, float64(k.w))
		for _, p := range [][2]float64{{float64(y), z0}, {float64(y + k.w), z1}} {
			ray := math.Atan2(p[1]-float64(w.zp), p[0]-float64(w.yp))
			// Rings are square to the ray from the pith.
			if angle := math.Acos(math.Abs(math.Sin(ray - along))); quantity.Angle(angle) < k.angle-tiny {
				return false
			}
		}
	}
	return true
}

// splitsByRings reports whether some kind may be split from a wedge with its rings held by the
// pith: then the best place need not be against the near edge.
func (r *rig) splitsByRings() bool {
	for i := range r.kinds {
		if r.kinds[i].thin > 0 && r.kinds[i].ringed {
			return true
		}
	}
	return false
}
