package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Shape is a section after the change. Lower, upper, left and right are meant as
// drawn: x along the width, y through the thickness upwards.
type Shape struct {
	Cup       Sides                          // sagitta of each side; positive: hollow towards the bark
	Width     Across                         // from edge to edge
	Thickness Through                        // from face to face
	Diagonals Diagonals                      // from corner to corner
	Corners   Corners                        // angles between the straight lines from corner to corner
	Flat      quantity.Band[quantity.Length] // thickness left when both faces are planed flat over the full width
	Ripped    quantity.Band[quantity.Length] // the same for the worse half after ripping down the middle, kerf not counted
}

// Sides holds a figure of each side. A side with the pith beyond it counts from
// the other way round, so that "towards the bark" is always away from the pith.
type Sides struct {
	Lower, Upper, Left, Right quantity.Band[quantity.Length]
}

// Across holds widths: along the lower face, at mid-thickness, along the upper.
type Across struct {
	Lower, Middle, Upper quantity.Band[quantity.Length]
}

// Through holds thicknesses: at the left edge, at mid-width, at the right edge.
type Through struct {
	Left, Middle, Right quantity.Band[quantity.Length]
}

// Diagonals holds both: Rising from lower left to upper right, Falling from upper
// left to lower right. They are equal when the section stays square.
type Diagonals struct {
	Rising, Falling quantity.Band[quantity.Length]
}

// Corners are the four angles, 90 degrees before the change.
type Corners struct{ LowerLeft, LowerRight, UpperRight, UpperLeft quantity.Band[quantity.Angle] }

// Result is what becomes of a section.
type Result struct {
	Radial, Tangential quantity.Band[float64] // relative change, positive when it swells
	Shape              *Shape                 // nil when the pith is inside: there is no stress-free shape
	Heart              *Heart                 // nil unless the pith is inside
	Notes              method.Notes
}

// Change returns the shape of a section of wood that comes from the moisture
// content from to the moisture content to (bands in 0 to 2.5, uniform over the
// section). A section that holds the pith has no stress-free shape; it gets a
// Heart instead of a Shape.
//
// Errors: out_of_range for width, thickness, pith_x, pith_y, from_mc_pct,
// to_mc_pct, radial_pct, tangential_pct, fibre_saturation_pct; contradictory for
// a broken band; unsupported when the wood has no figure for radial or
// tangential movement.
// Accuracy: exact for uniform moisture and circular rings; bands see the package
// comment. Boards held flat by stickers and load cup less.
// Source: package comment; Wood Handbook ch. 13 and ch. 4 for the strains.
func Change(s Section, from, to quantity.Band[quantity.Moisture], w wood.Wood) (Result, error) {
	var out Result
	out.Notes.Basis = make([]string, 0, 4)
	if err := s.check(&out.Notes); err != nil {
		return Result{}, err
	}
	var e Strains
	if err := e.between(&out.Notes, from, to, &w); err != nil {
		return Result{}, err
	}
	out.fill(&s, &e)
	return out, nil
}

func (r *Result) fill(s *Section, e *Strains) {
	r.Radial, r.Tangential = e.Radial.Band(), e.Tangential.Band()
	if s.holdsPith() {
		r.Notes.Rest(&heartRow)
		h := heart(s, e)
		r.Heart = &h
		r.Notes.Warn(h.warning())
		return
	}
	shape := shapeOf(s, e)
	r.Shape = &shape
}

// leastBend is how far k must be from 1 to find where a side stands out most;
// nearer to it the place is taken for this bend, and is off by about as much.
const leastBend = 1e-6

// shapeOf computes every figure with its derivatives at the middle of e.
func shapeOf(s *Section, e *Strains) Shape {
	m := newPolar(s, e.Radial.Value, e.Tangential.Value)
	bent := &m
	if math.Abs(m.k-1) < leastBend {
		bent = bend(s, m.k-1)
	}
	w, t := float64(s.Width), float64(s.Thickness)
	lower := face{x: -w / 2, y: -t / 2, dx: 1, length: w}
	right := face{x: w / 2, y: -t / 2, dy: 1, length: t}
	upper := face{x: w / 2, y: t / 2, dx: -1, length: w}
	left := face{x: -w / 2, y: t / 2, dy: -1, length: t}
	ll, lr, ur, ul := m.at(-w/2, -t/2), m.at(w/2, -t/2), m.at(w/2, t/2), m.at(-w/2, t/2)
	ml, mr, mu, md := m.at(-w/2, 0), m.at(w/2, 0), m.at(0, t/2), m.at(0, -t/2)
	cup := func(f *face, start, end *mapped) quantity.Band[quantity.Length] {
		n := f.sagitta(&m, bent, start, end)
		if f.height(&m) > 0 { // hollow is towards the bark when the pith is on this side
			n = n.scaled(-1)
		}
		return length(e.band(n))
	}
	return Shape{
		Cup: Sides{Lower: cup(&lower, &ll, &lr), Upper: cup(&upper, &ur, &ul), Left: cup(&left, &ul, &ll), Right: cup(&right, &lr, &ur)},
		Width: Across{
			Lower: length(e.band(distance(&ll, &lr))), Middle: length(e.band(distance(&ml, &mr))), Upper: length(e.band(distance(&ul, &ur))),
		},
		Thickness: Through{
			Left: length(e.band(distance(&ll, &ul))), Middle: length(e.band(distance(&md, &mu))), Right: length(e.band(distance(&lr, &ur))),
		},
		Diagonals: Diagonals{Rising: length(e.band(distance(&ll, &ur))), Falling: length(e.band(distance(&ul, &lr)))},
		Corners: Corners{
			LowerLeft: angle(e.band(corner(&ll, &lr, &ul))), LowerRight: angle(e.band(corner(&lr, &ur, &ll))),
			UpperRight: angle(e.band(corner(&ur, &ul, &lr))), UpperLeft: angle(e.band(corner(&ul, &ll, &ur))),
		},
		Flat:   flat(s, e, &m, bent, func(m, bent *polar) number { return slab(m, bent, &lower, &upper) }),
		Ripped: flat(s, e, &m, bent, func(m, bent *polar) number { return worseHalf(m, bent, &lower, &upper) }),
	}
}

// bend returns the map with the least bend to the same side.
func bend(s *Section, side float64) *polar {
	b := newPolar(s, 0, math.Copysign(leastBend, side))
	return &b
}

func worseHalf(m, bent *polar, lower, upper *face) number {
	w := lower.length
	l0, l1, u0, u1 := lower.part(0, w/2), lower.part(w/2, w), upper.part(w/2, w), upper.part(0, w/2)
	first, second := slab(m, bent, &l0, &u0), slab(m, bent, &l1, &u1)
	if second.v < first.v {
		return second
	}
	return first
}

// flat returns the band of a slab. Cup of either sign takes thickness away, so
// where the sign of the cup is not sure the lesser of both ways holds: each end of
// the band is the lesser end.
func flat(s *Section, e *Strains, m, bent *polar, of func(m, bent *polar) number) quantity.Band[quantity.Length] {
	b := e.band(of(m, bent))
	// k = b/a: dk/da = -k/a, dk/db = 1/a
	k := e.band(number{v: m.k, a: -m.k / m.a, b: 1 / m.a})
	if (k.Low-1)*(k.High-1) <= 0 {
		c := e.band(of(m, bend(s, 1-bent.k)))
		b.Low, b.High = math.Min(b.Low, c.Low), math.Min(b.High, c.High)
		b.High = math.Max(b.High, b.Value)
	}
	return length(b.Clamp(0, math.Inf(1)))
}

// together is the correlation of radial and tangential shrinkage between pieces of one wood:
// that of the logarithms of both between places where the same wood was sampled is 0.67 of 36
// woods in testdata/section/same_wood_other_place.csv, and 0.61 with the same woods of other
// tables. The ratio of the two is better known than each: with 15 % for either it varies by
// 13 %, where those woods vary by 12.
const together = 0.6

// band is the 90 % band of a figure with derivatives by a = 1 + e_R and
// b = 1 + e_T. Radial and tangential shrinkage of a piece go together fully, or only as far as
// is known: the wider one.
func (s *Strains) band(n number) quantity.Band[float64] {
	r, t := n.a*s.Radial.Piece, n.b*s.Tangential.Piece
	piece := r*r + t*t + 2*together*r*t
	if r*t > 0 {
		piece = (r + t) * (r + t)
	}
	from := n.a*s.Radial.From + n.b*s.Tangential.From
	to := n.a*s.Radial.To + n.b*s.Tangential.To
	mean := n.v + n.a*(s.Radial.Mean-s.Radial.Value) + n.b*(s.Tangential.Mean-s.Tangential.Value)
	form := n.a*s.Radial.Form + n.b*s.Tangential.Form // the forms err alike in both
	b := quantity.NormalBand(mean, math.Sqrt(piece+form*form+from*from+to*to))
	b.Value = n.v
	b.Low, b.High = math.Min(b.Low, b.Value), math.Max(b.High, b.Value)
	return b
}

func length(b quantity.Band[float64]) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: quantity.Length(b.Value), Low: quantity.Length(b.Low), High: quantity.Length(b.High)}
}

func angle(b quantity.Band[float64]) quantity.Band[quantity.Angle] {
	return quantity.Band[quantity.Angle]{Value: quantity.Angle(b.Value), Low: quantity.Angle(b.Low), High: quantity.Angle(b.High)}
}
