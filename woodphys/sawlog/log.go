package sawlog

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Point is a place on an end of a log: Y to the right, Z down, from the middle of that end.
type Point struct{ Y, Z quantity.Length }

// Log is a log, or a half log split or sawn through its middle.
type Log struct {
	Length     quantity.Length // 50 mm to 20 m
	Start, End quantity.Length // diameters at both ends, over the bark where there is any; 30 mm to 3 m
	Bark       quantity.Length // its thickness; 0 where it is off, or the diameters are those of the wood
	Sapwood    quantity.Length // width of the ring of sapwood; 0 for none or not told apart
	Pith       Point           // at the start, from the middle of that end
	EndPith    *Point          // at the end; nil for as at the start
	Sweep      quantity.Length // how far the middle of the length stands out to the right; 0 for straight
	Half       bool            // only what lies below the middle of the ends
}

// radius of the wood at a share of the length, m.
func (l *Log) radius(t float64) float64 {
	return (float64(l.Start)+t*float64(l.End-l.Start))/2 - float64(l.Bark)
}

// small is the diameter of the wood at the thinner end.
func (l *Log) small() quantity.Length { return min(l.Start, l.End) - 2*l.Bark }

func (l *Log) endPith() Point {
	if l.EndPith == nil {
		return l.Pith
	}
	return *l.EndPith
}

// pithAt is the pith at a share of the length, from the straight line between the middles
// of both ends: it goes with the sweep.
func (l *Log) pithAt(t float64) Point {
	end, share := l.endPith(), quantity.Length(t)
	return Point{l.Pith.Y + share*(end.Y-l.Pith.Y) + quantity.Length(4*t*(1-t))*l.Sweep, l.Pith.Z + share*(end.Z-l.Pith.Z)}
}

// part is the log between two shares of its length, as a log of its own: a part of a
// parabola is a parabola.
func (l *Log) part(from, to float64) Log {
	out := *l
	share := to - from
	out.Length = quantity.Length(share) * l.Length
	out.Start = l.Start + quantity.Length(from)*(l.End-l.Start)
	out.End = l.Start + quantity.Length(to)*(l.End-l.Start)
	out.Sweep = quantity.Length(share*share) * l.Sweep
	across := func(t float64) Point { // from the middle of the section
		p := l.pithAt(t)
		return Point{p.Y - quantity.Length(4*t*(1-t))*l.Sweep, p.Z}
	}
	end := across(to)
	out.Pith, out.EndPith = across(from), &end
	return out
}

// WoodRadius returns the radius of the wood, without the bark, at a share of the length, 0
// at the start to 1 at the end.
//
// Accuracy: exact for a straight taper. Source: derived by geometry; share is a plain
// number.
func (l *Log) WoodRadius(share float64) quantity.Length { return quantity.Length(l.radius(share)) }

// Volume returns the volume of the wood, without the bark.
//
// Accuracy: exact for a round log of straight taper. Source: volume of the frustum of a
// cone.
func (l *Log) Volume() quantity.Volume {
	a, b := l.radius(0), l.radius(1)
	v := math.Pi * float64(l.Length) / 3 * (a*a + a*b + b*b)
	if l.Half {
		v /= 2
	}
	return quantity.Volume(v)
}

// BarkShare returns the share of the volume of the log, bark and all, that its bark takes up, 0
// to 1.
//
// Accuracy: exact for a round log of straight taper with bark of one thickness. Source: as
// Volume.
func (l *Log) BarkShare() float64 {
	outside := *l
	outside.Bark = 0
	return 1 - float64(l.Volume()/outside.Volume())
}

// Of a log that was measured well. Common practice, no source: usual logs lose 5 to 20 mm of
// their diameter on a metre, a flared butt more.
const (
	usualSlip = 10 * quantity.Millimetre // by which a rule strays over bark
	fastTaper = 0.06                     // of the length
	leastFast = 40 * quantity.Millimetre // what a short log may lose
)

// noteTaper asks about diameters that look like a slip: a butt that is the smaller end, and a
// log that loses more of its diameter than logs do.
func (l *Log) noteTaper(notes *method.Notes) {
	loses := l.Start - l.End
	switch {
	case -loses > usualSlip:
		notes.Warn(method.Warning{Code: method.CheckInput, Method: rowPlan.ID, Input: "end_diameter",
			Detail: "the end is larger than the start, which is the butt, the thick end of a log: are the two exchanged, or is one of them misread?"})
	case loses > max(leastFast, fastTaper*l.Length):
		notes.Warn(method.Warning{Code: method.CheckInput, Method: rowPlan.ID, Input: "end_diameter",
			Detail: "the log loses more of its diameter along its length than logs do: is one of the diameters misread, or measured on a flared butt? A flare is cut off, or measured above"})
	}
}

// check refuses a log that cannot be.
func (l *Log) check(notes *method.Notes) error {
	mm := func(name string, v quantity.Length) error { return notes.Use(rowPlan, name, tidy(v.Millimetres())) }
	if err := firstOf(notes.Use(rowPlan, "length", tidy(l.Length.Metres())), mm("start_diameter", l.Start), mm("end_diameter", l.End),
		mm("bark_thickness", l.Bark), mm("sapwood_thickness", l.Sapwood), mm("sweep", l.Sweep)); err != nil {
		return err
	}
	if 2*l.Bark >= min(l.Start, l.End) {
		return conflict("bark_thickness", "the bark leaves no wood: twice its thickness must be less than the smaller diameter")
	}
	for _, end := range []struct {
		name string
		at   Point
		t    float64
	}{{"pith", l.Pith, 0}, {"end_pith", l.endPith(), 1}} {
		if math.Hypot(float64(end.at.Y), float64(end.at.Z)) >= l.radius(end.t) {
			return conflict(end.name, "the pith lies outside the wood of that end")
		}
	}
	l.noteTaper(notes)
	return nil
}

func conflict(name, detail string) error {
	return &method.Error{Code: method.Contradictory, Input: name, Detail: detail}
}

func firstOf(all ...error) error {
	for _, err := range all {
		if err != nil {
			return err
		}
	}
	return nil
}

// tidy takes the dust off a number in the unit of a row.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }
