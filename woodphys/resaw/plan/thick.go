package plan

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// How thick the wood of a billet is.

// thinnest returns the thickness at the thinnest corner of a rectangle
// (oriented), rounded down.
func (w *offer) thinnest(x0, x1, y0, y1 nm) nm {
	x0, x1 = w.turnX(x0, x1)
	y0, y1 = w.turnY(y0, y1)
	x, y := x0, y0 // the thin corner
	if w.tx < w.t {
		x = x1
	}
	if w.ty < w.t {
		y = y1
	}
	return w.t + exact.BothShares(w.tx-w.t, x, w.l, w.ty-w.t, y, w.w0)
}

// thickest returns the thickness at the thickest corner of a rectangle (oriented), rounded down.
func (w *offer) thickest(x0, x1, y0, y1 nm) nm {
	return max(w.thinnest(x0, x0, y0, y0), w.thinnest(x1, x1, y0, y0), w.thinnest(x0, x0, y1, y1), w.thinnest(x1, x1, y1, y1))
}

// deepest returns the largest usable thickness there can be.
func (w *offer) deepest() nm {
	return max(w.t, w.tx) + max(w.t, w.ty, exact.Between(w.t, w.ty, w.ref, w.w0)) - w.t - w.f1 - w.f2
}

// edgesThick are the thicknesses of a rectangle (oriented) at its thick edge and at its thin
// one, once both faces are flat, rounded down.
func (w *offer) edgesThick(x, l, y, width, loss nm) (thick, thin nm) {
	return w.leftFlat(w.thinnest(x, x+l, y, y), loss), w.leftFlat(w.thinnest(x, x+l, y+width, y+width), loss)
}

// kerfAcross is how much of the thickness a kerf takes that runs along the middle of a
// wedge, rounded up.
func (w *offer) kerfAcross(kerf nm) nm {
	lean := float64(w.t-w.ty) / float64(2*w.w0)
	return nm(math.Ceil(float64(kerf)*math.Sqrt(1+lean*lean) - 1e-6))
}

// wedgeAngle is the angle between both faces.
func (w *offer) wedgeAngle() quantity.Angle {
	return quantity.Angle(math.Atan2(math.Abs(float64(w.t-w.ty)), float64(w.w0)))
}
