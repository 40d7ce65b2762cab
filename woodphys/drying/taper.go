package drying

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var rowTaper = method.Method{
	ID: "drying.taper", Chapter: "drying",
	Summary:  "A wedge or taper dried as a board of one thickness, and its thin and thick places beside it",
	Equation: "V = integral of t dA; L = (integral of t^2 dA)/V, the thickness that the wood lies in on average; both exact by Simpson's rule, since t and the width are linear along the length; thin and thick places as boards of their own thickness",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 4, High: 102}, Limit: method.Range{Low: 0, High: 2000}},
	},
	Accuracy: "against a dozen strips of their own thickness in this project's solver the mean of the whole is off by up to 0.5 %MC in a room and 1.6 in a pile for a wedge of 20 to 60 mm, by 1 and 3.4 for one of 5 to 45 mm, the more the wetter; strips against a computation in two dimensions: 1.2 % of the water that it held. What flows from the thick side to the thin one is left out, and so are ends and edges",
	Source:   "derived; the checks are this project's own computations",
	Checked:  method.Derived,
}

// Taper is a piece between two planes that is not of one thickness, or not of one width: X
// runs along its length from the start, Y across from the near edge, which is straight.
type Taper struct {
	Length, Width, Thickness quantity.Length // at the start and the near edge, above 0
	EndWidth, EndThickness   quantity.Length // at the end, 0 and more
	FarThickness             quantity.Length // at the start and the far edge, 0 and more
}

// Corners returns the thickness at the four corners: at the start near and far, at the end
// near and far. One below 0 is no piece: its faces meet within it.
//
// Accuracy: exact. Source: derived; the faces are planes.
func (t *Taper) Corners() [4]quantity.Length {
	endFar := t.EndThickness
	if t.Width > 0 {
		endFar += (t.FarThickness - t.Thickness) * t.EndWidth / t.Width
	}
	return [4]quantity.Length{t.Thickness, t.FarThickness, t.EndThickness, endFar}
}

// Even reports that it is as thick in every place.
//
// Accuracy: exact. Source: derived; of a plane the extremes lie at corners.
func (t *Taper) Even() bool {
	thinnest, thickest := t.Extremes()
	return thinnest == thickest
}

// Extremes returns the thickness at the thinnest and at the thickest corner.
//
// Accuracy: exact. Source: derived; of a plane the extremes lie at corners.
func (t *Taper) Extremes() (thinnest, thickest quantity.Length) {
	c := t.Corners()
	return min(c[0], c[1], c[2], c[3]), max(c[0], c[1], c[2], c[3])
}

// Volume returns the volume between the two planes, in m3.
//
// Accuracy: exact. Source: derived; Simpson's rule is exact for the cubic that the section
// is at most.
func (t *Taper) Volume() quantity.Volume {
	return quantity.Volume(t.along(func(near, far, width float64) float64 { return width * (near + far) / 2 }))
}

// Equivalent returns the thickness of a board that loses its water as the whole of the
// piece does: the mean over the wood of the thickness that it lies in. Early each face loses the same and the plain mean would do; later thick places
// hold what is left, which weighs by their mass.
//
// Errors: *method.Error with input "thickness" of a piece whose faces meet within it, or
// thicker than 2 m.
// Accuracy: that of row drying.taper.
//
// Source: row drying.taper.
func (t *Taper) Equivalent(notes *method.Notes) (quantity.Length, error) {
	thinnest, thickest := t.Extremes()
	for _, corner := range []quantity.Length{thinnest, thickest} {
		if _, err := rowTaper.Check("thickness", corner.Millimetres()); err != nil {
			return 0, err
		}
	}
	if t.Even() {
		return t.Thickness, nil
	}
	notes.Rest(&rowTaper)
	squares := t.along(func(near, far, width float64) float64 { return width * (near*near + near*far + far*far) / 3 })
	return quantity.Length(squares / float64(t.Volume())), nil
}

// along integrates what a section holds over the length; a section is at most a cubic of x.
func (t *Taper) along(section func(near, far, width float64) float64) float64 {
	c := t.Corners()
	at := func(x float64) float64 {
		between := func(a, b quantity.Length) float64 { return float64(a) + x*float64(b-a) }
		return section(between(c[0], c[2]), between(c[1], c[3]), between(t.Width, t.EndWidth))
	}
	return float64(t.Length) / 6 * (at(0) + 4*at(0.5) + at(1))
}
