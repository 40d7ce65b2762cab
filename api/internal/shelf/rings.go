package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/section"
)

// Rings is how the growth rings lie on the end grain: exactly one of pith, readings, chord
// and angle_deg.
type Rings struct {
	Pith      *RingPoint    `json:"pith,omitempty" description:"where the pith lies on the end grain, often outside the wood. The best there is: it gives the ring angle at every place"`
	Readings  []RingReading `json:"readings,omitempty" validate:"omitempty,min=1,max=2,dive" description:"ring angles read at one or two places of the end grain. Two of them give the pith"`
	Chord     *RingChord    `json:"chord,omitempty" description:"one ring measured by the straight line between two of its places and its height over that line. Goes with pith_side"`
	Angle     *float64      `json:"angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"one angle between the rings and face 1 for the whole piece, read in its middle: 0 flatsawn, 90 quartersawn"`
	Radius    *wire.Length  `json:"radius,omitempty" validate:"omitempty,gte=0.001,lte=1000" description:"radius of the ring through the middle of the piece, with angle_deg. Left out: the rings are taken as straight"`
	Lean      string        `json:"lean,omitempty" validate:"omitempty,oneof=near far" description:"with one angle: the edge that a ring line nears as it goes from face 1 into the wood. Left out: far, where it matters"`
	PithSide  string        `json:"pith_side,omitempty" validate:"omitempty,oneof=face_1 face_2 near far" description:"the side of the piece that the pith lies towards, with two readings, a chord or a radius. Left out: face_2"`
	AngleSD   *float64      `json:"angle_sd_deg,omitempty" validate:"omitempty,gte=0,lte=30" default:"0" description:"standard deviation of the ring angle"`
	RingWidth *wire.Length  `json:"ring_width,omitempty" validate:"omitempty,gt=0,lte=0.05" description:"mean width of a ring"`
}

// RingPoint is a place on the end grain. Both may be negative or lie outside the wood.
type RingPoint struct {
	Y *wire.Length `json:"y,omitempty" validate:"omitempty,gte=-100,lte=100" description:"from the near edge across. Left out: half the width"`
	Z *wire.Length `json:"z" validate:"required,gte=-100,lte=100" description:"from face 1 into the wood; beyond the thickness it lies behind face 2"`
}

// RingReading is a ring angle read at a place of the end grain.
type RingReading struct {
	Y     *wire.Length `json:"y" validate:"required,gte=-5,lte=5" description:"from the near edge across"`
	Angle *float64     `json:"angle_deg" validate:"required,gte=0,lte=90" description:"between the rings and face 1: 0 flatsawn, 90 quartersawn"`
	Z     *wire.Length `json:"z,omitempty" validate:"omitempty,gte=-5,lte=5" description:"from face 1 into the wood. Left out: at face 1"`
}

// RingChord is one ring by two of its places.
type RingChord struct {
	From   *RingPoint   `json:"from" validate:"required" description:"one place of the ring"`
	To     *RingPoint   `json:"to" validate:"required" description:"another place of the same ring"`
	Height *wire.Length `json:"height" validate:"required,gt=0,lte=10" description:"how far the ring stands out from the straight line between both places, at most"`
}

// one refuses rings that are told in no way, or in two.
func (r *Rings) one() error {
	given := 0
	for _, is := range []bool{r.Pith != nil, len(r.Readings) > 0, r.Chord != nil, r.Angle != nil} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return wire.Missing("", "give pith, readings, chord or angle_deg")
	case given > 1:
		return wire.Contradictory("", "give only one of pith, readings, chord and angle_deg")
	case r.Radius != nil && r.Angle == nil:
		return wire.Contradictory("radius", "radius goes with angle_deg")
	case r.Lean != "" && r.Angle == nil && len(r.Readings) != 1:
		return wire.Contradictory("lean", "lean goes with one angle; two readings, a chord or a pith tell it")
	case r.Chord != nil && r.PithSide == "":
		return wire.Missing("pith_side", "chord goes with pith_side, the side that the pith lies towards")
	case r.PithSide != "" && len(r.Readings) == 0 && r.Chord == nil && r.Radius == nil:
		return wire.Contradictory("pith_side", "pith_side goes with readings, chord or radius")
	}
	return nil
}

// Section is a section of that width and thickness with its pith.
func (r *Rings) Section(width, thickness quantity.Length, notes *method.Notes) (section.Section, error) {
	if err := r.one(); err != nil {
		return section.Section{}, err
	}
	switch {
	case r.Pith != nil:
		return section.FromPith(width, thickness, LengthOr(r.Pith.Y, width/2), r.Pith.Z.SI), nil
	case r.Chord != nil:
		place := func(p *RingPoint) section.Point {
			return section.OnEndGrain(width, thickness, LengthOr(p.Y, width/2), p.Z.SI)
		}
		s, err := section.FromChord(width, thickness, place(r.Chord.From), place(r.Chord.To), r.Chord.Height.SI, r.pithSide())
		return s, method.Renamed(err, [2]string{"height", "chord/height"}, [2]string{"to", "chord/to"})
	case len(r.Readings) == 2:
		return r.fromReadings(width, thickness, notes)
	}
	angle, radius := r.Angle, section.StraightRings
	if angle == nil {
		angle = r.Readings[0].Angle
	}
	if r.Radius != nil {
		radius = r.Radius.SI
	} else {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "rings",
			Detail: "the rings are taken as straight, all at one angle; give radius or pith for a cup by their curve"})
	}
	s, err := section.FromRings(width, thickness, quantity.Angle(*angle)*quantity.Degree, radius)
	return s.Turned(r.lean(), r.pithSide()), method.Renamed(err, [2]string{"ring_angle_deg", "angle_deg"}, [2]string{"ring_radius", "radius"})
}

func (r *Rings) lean() section.Lean {
	if r.Lean == "" {
		return section.LeansFar
	}
	return section.Lean(r.Lean)
}

func (r *Rings) pithSide() section.PithSide {
	if r.PithSide == "" {
		return section.TowardsFace2
	}
	return section.PithSide(r.PithSide)
}

// fromReadings finds the pith from two readings at one depth.
func (r *Rings) fromReadings(width, thickness quantity.Length, notes *method.Notes) (section.Section, error) {
	one, two := &r.Readings[0], &r.Readings[1]
	z := LengthOrNone(one.Z)
	if LengthOrNone(two.Z) != z {
		return section.Section{}, wire.Contradictory("readings/1/z", "both readings are taken at one z")
	}
	degrees := func(deg float64) quantity.Angle { return quantity.Angle(deg) * quantity.Degree }
	fix, err := resaw.PithFromAngles(one.Y.SI, degrees(*one.Angle), two.Y.SI, degrees(*two.Angle))
	if err != nil {
		return section.Section{}, method.Renamed(err, [2]string{"x1", "readings/0/y"}, [2]string{"x2", "readings/1/y"},
			[2]string{"ring_angle_1", "readings/0/angle_deg"}, [2]string{"ring_angle_2", "readings/1/angle_deg"})
	}
	if fix.OnQuarter {
		return section.Section{}, wire.Contradictory("readings", "both readings are on quarter, where they do not tell how far the pith is; give angle_deg with a radius")
	}
	notes.Merge(fix.Notes)
	if r.pithSide() == section.TowardsFace1 {
		fix.Depth = -fix.Depth
	}
	return section.FromPith(width, thickness, fix.X, z+fix.Depth), nil
}

// Ring is the ring angle in the middle of a piece of that thickness, with its standard
// deviation; width is nil where it is not known.
func (r *Rings) Ring(width *quantity.Length, thickness quantity.Length, notes *method.Notes) (movement.Ring, error) {
	if err := r.one(); err != nil {
		return movement.Ring{}, err
	}
	var ring movement.Ring
	if r.AngleSD != nil {
		ring.SD = quantity.Angle(*r.AngleSD) * quantity.Degree
	}
	switch {
	case r.Angle != nil:
		ring.Angle = quantity.Angle(*r.Angle) * quantity.Degree
		return ring, nil
	case len(r.Readings) == 1:
		ring.Angle = quantity.Angle(*r.Readings[0].Angle) * quantity.Degree
		return ring, nil
	case width == nil && (r.Pith == nil || r.Pith.Y != nil):
		return ring, wire.Missing("angle_deg", "without the width of the piece its ring angle is told by angle_deg")
	}
	wide := quantity.Length(0)
	if width != nil {
		wide = *width
	}
	s, err := r.Section(wide, thickness, notes)
	if err != nil {
		return ring, err
	}
	there, err := section.RingAt(s, section.Point{})
	ring.Angle = there.Angle
	return ring, method.Named(err, "pith")
}

// Names are what a request calls the pith of a section, by the names that the chapter
// gives it; at is the place of the rings.
func (r *Rings) Names(at string) [][2]string {
	switch {
	case r.Pith != nil:
		at += "/pith"
	case r.Radius != nil:
		at += "/radius"
	}
	return [][2]string{{"pith_x", at}, {"pith_y", at}, {"pith_distance", at}, {"pith", at}, {"x", at}}
}
