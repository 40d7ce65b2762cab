package inservice

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// roomFilm is the film coefficient of the air at a part that stands free in a
// room (m/s): h_c about 3.3 W/m2K, between the still and the moving air of
// drying.Exposure; filmSpread lets it vary by a factor of 2 (90 %), as published
// there.
const roomFilm = 0.003

var filmSpread = math.Log(2) / quantity.Z90

// least half of a slab that the drying model runs.
const leastSide = 0.25 * quantity.Millimetre

// side is the wood on one side of the plane that nothing crosses.
type side struct {
	face     int
	depth    quantity.Length
	exposure drying.Exposure
	factor   float64
}

// resist is what stands in the way of the moisture of a part, in s/m of moisture
// content: the drive of the vapour turned into one of MC at the mean state.
type resist struct {
	perVapour float64 // MC resistance per s/m of vapour resistance
	d         float64 // k D of the wood, m2/s
}

// speed multiplies the drying factor, the film coefficient and the resistance of
// the finish, to make a part faster or slower.
type speed struct{ factor, film, finish float64 }

var asKnown = speed{1, 1, 1}

// sides cuts the slab at the plane that nothing crosses; one side alone when
// both faces are alike or the other is closed.
func (p *Part) sides(r resist, v speed) []side {
	length := float64(p.Thickness)
	if p.Faces[0] == p.Faces[1] {
		return []side{p.side(0, p.Thickness/2, v)}
	}
	inside := length / (3 * r.d * v.factor)
	r1, r2 := r.face(p.Faces[0], v), r.face(p.Faces[1], v)
	a := length * (r2 + inside) / (r1 + r2 + 2*inside)
	switch {
	case p.Faces[1].Resistance >= closed || quantity.Length(length-a) < leastSide:
		a = length
	case p.Faces[0].Resistance >= closed || quantity.Length(a) < leastSide:
		a = 0
	}
	var sides []side
	if a > 0 {
		sides = append(sides, p.side(0, quantity.Length(a), v))
	}
	if a < length {
		sides = append(sides, p.side(1, quantity.Length(length-a), v))
	}
	return sides
}

func (p *Part) side(face int, depth quantity.Length, v speed) side {
	coat := math.Min(p.Faces[face].Resistance*v.finish, 1e9)
	return side{face: face, depth: depth, factor: p.Factor * v.factor,
		exposure: drying.Exposure{Name: "room", FilmCoefficient: roomFilm * v.film, CoatResistance: coat}}
}

func (r resist) face(f Finish, v speed) float64 {
	return (1/(roomFilm*v.film) + f.Resistance*v.finish) * r.perVapour
}

// timeConstant is R a + a^2/3D of the side that is cut off, in s.
func (r resist) timeConstant(p *Part, v speed) float64 {
	s := p.sides(r, v)[0]
	a := float64(s.depth)
	return a*(1/s.exposure.FilmCoefficient+s.exposure.CoatResistance)*r.perVapour + a*a/(3*r.d*v.factor)
}

// extremes of speed returns the fast and the slow point: the likeliest
// combination of drying factor, film and finish at the 5 and 95 % quantile of the
// time constant, each shifted by its share in it (first-order reliability, as for
// any product of lognormals).
func (p *Part) extremes(r resist) (fast, slow speed) {
	s := p.sides(r, asKnown)[0]
	coatSpread := p.Faces[s.face].SpreadLog
	a := float64(s.depth)
	film, coat, inside := a/s.exposure.FilmCoefficient*r.perVapour, a*s.exposure.CoatResistance*r.perVapour, a*a/(3*r.d)
	total := film + coat + inside
	g := [3]float64{inside / total * p.FactorSpread, film / total * filmSpread, coat / total * coatSpread}
	norm := math.Sqrt(g[0]*g[0] + g[1]*g[1] + g[2]*g[2])
	if !(norm > 0) {
		return asKnown, asKnown
	}
	at := func(sign float64) speed {
		shift := func(i int, sd float64) float64 { return math.Exp(sign * quantity.Z90 * g[i] / norm * sd) }
		return speed{factor: shift(0, p.FactorSpread), film: shift(1, filmSpread), finish: 1 / shift(2, coatSpread)}
	}
	return at(1), at(-1)
}

func (p *Part) check(notes *method.Notes) error {
	if p.Transport == nil {
		return &method.Error{Code: method.Missing, Input: "wood", Detail: "the wood is missing"}
	}
	for _, in := range [...]struct {
		name  string
		value float64
	}{{"thickness", p.Thickness.Millimetres()}, {"drying_factor", p.Factor}, {"drying_factor_spread", p.FactorSpread}} {
		if err := notes.Use(&yearRow, in.name, in.value); err != nil {
			return err
		}
	}
	if err := checkFaces(p.Faces, notes); err != nil {
		return err
	}
	if p.Faces[0] == p.Faces[1] {
		return nil
	}
	return notes.Use(&facesRow, "thickness", p.Thickness.Millimetres())
}

// checkFaces refuses finishes out of range, and two faces that let nothing pass.
func checkFaces(faces [2]Finish, notes *method.Notes) error {
	for i, name := range [...]string{"outside", "inside"} {
		f := &faces[i]
		first := len(notes.Warnings)
		err := notes.Use(&finishRow, "finish_resistance", f.Resistance)
		notes.RenameFrom(first, [2]string{"finish_resistance", "finish/" + name})
		if f.Resistance >= closed { // which is no extrapolation: nothing passes
			notes.Warnings = notes.Warnings[:first]
		}
		if err != nil && f.Resistance < closed {
			return method.Named(err, "finish/"+name)
		} else if err != nil || !(f.SpreadLog >= 0 && f.SpreadLog <= 3) {
			return &method.Error{Code: method.OutOfRange, Input: "finish/" + name, Limit: method.Between(0, 1e9, "s/m"), Detail: "the finish is out of range"}
		}
	}
	if faces[0].Resistance >= closed && faces[1].Resistance >= closed {
		return &method.Error{Code: method.Contradictory, Input: "finish", Detail: "both faces are closed; nothing would ever reach the wood"}
	}
	return nil
}
