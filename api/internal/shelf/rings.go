package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Rings is how the annual rings lie on the end grain, seen from the start: exactly one of
// pith, readings, chord and angle_deg. A ring angle lies between the ring line and face 1: 0 is
// flatsawn, 90 quartersawn.
type Rings struct {
	Pith      *Pith         `json:"pith,omitempty" description:"measured on the end grain; often outside the wood"`
	Readings  []RingReading `json:"readings,omitempty" validate:"omitempty,min=1,max=2,dive" description:"ring angle at one or two places; two give the pith, one is taken for the whole piece"`
	Chord     *RingChord    `json:"chord,omitempty" description:"one ring by the straight line between two of its places and its height over that line, with pith_side; it gives the pith"`
	Angle     *float64      `json:"angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"one ring angle for the whole piece: 0 flatsawn, 90 quartersawn"`
	AngleSD   *float64      `json:"angle_sd_deg,omitempty" validate:"omitempty,gte=0,lte=30" default:"0" description:"standard deviation of the ring angle as read, which gives what rests on it a band; a bevel read on a planed end is good to about 2 degrees (own estimate)"`
	Radius    *wire.Length  `json:"radius,omitempty" validate:"omitempty,gte=0.001,lte=1000" description:"with angle_deg: radius of the ring through the middle of the piece; with it the cup of a section can be told. Left out: the rings are taken as straight"`
	Lean      string        `json:"lean,omitempty" validate:"omitempty,oneof=near far" description:"with one ring angle: the edge that a ring line nears as it goes from face 1 into the wood. Left out: not known, so that it cannot be told which half of a match must give wood"`
	PithSide  string        `json:"pith_side,omitempty" validate:"omitempty,oneof=face_1 face_2 near far" description:"with two readings, a chord or a radius: the side that the pith lies towards; of readings face_1, in front of them, or face_2, on the side of the wood. Left out: face_2; a chord needs it"`
	RingWidth *wire.Length  `json:"ring_width,omitempty" validate:"omitempty,gte=0.00001,lte=0.05" description:"of one annual ring; it gives the spacing of ring lines on a face. Left out: not known"`
}

// Pith is where the pith lies on the end grain. Either may be negative.
type Pith struct {
	Y *wire.Length `json:"y,omitempty" validate:"omitempty,gte=-100,lte=100" description:"from the near edge along the face. Left out: half of the width"`
	Z *wire.Length `json:"z" validate:"required,gte=-100,lte=100" description:"from face 1 into the wood; negative in front of face 1, more than the thickness behind face 2"`
}

// RingReading is a ring angle read at a place of the end grain.
type RingReading struct {
	Y     *wire.Length `json:"y" validate:"required,gte=-5,lte=5" description:"from the near edge along the face"`
	Z     *wire.Length `json:"z,omitempty" validate:"omitempty,gte=-5,lte=5" description:"from face 1 into the wood, the same for both readings. Left out: 0, on face 1"`
	Angle *float64     `json:"angle_deg" validate:"required,gte=0,lte=90" description:"of the ring line there to face 1"`
}

// RingChord is one ring by two of its places.
type RingChord struct {
	From   *Pith        `json:"from" validate:"required" description:"one place of the ring"`
	To     *Pith        `json:"to" validate:"required" description:"another place of the same ring"`
	Height *wire.Length `json:"height" validate:"required,gt=0,lte=10" description:"how far the ring stands out from the straight line between both places, at most"`
}

// Joins says which members go together.
func (*Rings) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"pith"}, {"readings"}, {"chord"}, {"angle_deg"}},
		Needs:    map[string][]string{"radius": {"angle_deg"}, "chord": {"pith_side"}},
		NeedsAny: map[string][]string{"lean": {"angle_deg", "readings"}, "pith_side": {"readings", "chord", "radius"}}}
}

// Check refuses rings that contradict themselves. Errors point below the rings.
func (r *Rings) Check() error {
	given := 0
	for _, has := range []bool{r.Pith != nil, len(r.Readings) > 0, r.Chord != nil, r.Angle != nil} {
		if has {
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
	case r.Chord != nil && r.PithSide == "":
		return wire.Missing("pith_side", "chord goes with pith_side, the side that the pith lies towards")
	case r.PithSide != "" && len(r.Readings) != 2 && r.Chord == nil && r.Radius == nil:
		return wire.Contradictory("pith_side", "pith_side goes with two readings, chord or radius")
	case len(r.Readings) == 2 && (r.PithSide == "near" || r.PithSide == "far"):
		return wire.Contradictory("pith_side", "readings are taken along a face: the pith lies towards face_1 or face_2")
	case r.Lean != "" && r.Angle == nil && len(r.Readings) != 1:
		return wire.Contradictory("lean", "lean goes with one ring angle; a pith tells it")
	case len(r.Readings) == 2 && LengthOrNone(r.Readings[0].Z) != LengthOrNone(r.Readings[1].Z):
		return wire.Contradictory("readings/1/z", "both readings must be at the same depth below face 1")
	}
	return nil
}

// TellDefaults tells what is taken for members of the rings that were left out and matter.
func (r *Rings) TellDefaults(notes *method.Notes) {
	tell := func(what string) {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Detail: what})
	}
	if r.Pith != nil && r.Pith.Y == nil {
		tell("rings.pith.y is not given: the pith is taken to lie in the middle of the width")
	}
	if len(r.Readings) == 2 && r.PithSide == "" {
		tell("rings.pith_side is not given: the pith of two readings is taken to lie towards face 2, on the side of the wood")
	}
	if r.Chord != nil && (r.Chord.From.Y == nil || r.Chord.To.Y == nil) {
		tell("a y of rings.chord is not given and is taken as half of the width")
	}
}

// PithIn is the pith that is given, in a piece of that width; nil where none is.
func (r *Rings) PithIn(width quantity.Length) *resaw.Point {
	if r.Pith == nil {
		return nil
	}
	return &resaw.Point{X: LengthOr(r.Pith.Y, width/2), Z: r.Pith.Z.SI}
}

// OneAngle is the one ring angle that is given or read; nil where there is none.
func (r *Rings) OneAngle() *quantity.Angle {
	degrees := r.Angle
	if len(r.Readings) == 1 {
		degrees = r.Readings[0].Angle
	}
	if degrees == nil {
		return nil
	}
	angle := quantity.Angle(*degrees) * quantity.Degree
	return &angle
}

// Found is where the pith lies in a piece of that width, or the one ring angle: just one of
// the two is not nil. Errors and warnings point below the rings.
func (r *Rings) Found(width quantity.Length, notes *method.Notes) (*resaw.Point, *quantity.Angle, error) {
	if err := r.Check(); err != nil {
		return nil, nil, err
	}
	r.TellDefaults(notes)
	if pith, angle := r.PithIn(width), r.OneAngle(); pith != nil || angle != nil {
		return pith, angle, nil
	}
	if r.Chord != nil {
		pith, err := r.PithOfChord(width)
		return pith, nil, err
	}
	one, two := &r.Readings[0], &r.Readings[1]
	first, second := quantity.Angle(*one.Angle)*quantity.Degree, quantity.Angle(*two.Angle)*quantity.Degree
	if one.Y.SI != two.Y.SI && first == second {
		return nil, &first, nil
	}
	fix, err := resaw.PithFromAngles(one.Y.SI, first, two.Y.SI, second)
	if err != nil {
		return nil, nil, method.Renamed(err, ReadingNames...)
	}
	notes.Merge(fix.Notes.Renamed(ReadingNames...))
	if fix.OnQuarter {
		angle := min(first, second)
		return nil, &angle, nil
	}
	if r.PithSide == "face_1" {
		fix.Depth = -fix.Depth
	}
	return &resaw.Point{X: fix.X, Z: LengthOrNone(one.Z) + fix.Depth}, nil, nil
}

// ReadingNames are what the rings call the inputs of a pith that is found from readings.
var ReadingNames = [][2]string{{"x1", "readings/0/y"}, {"x2", "readings/1/y"},
	{"ring_angle_1", "readings/0/angle_deg"}, {"ring_angle_2", "readings/1/angle_deg"}}
