package plan

import (
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// AngleFrom says where the ring angle comes from that leaves are taken to dry at.
type AngleFrom int

// Where it comes from.
const (
	AngleOfBillets AngleFrom = iota // that all billets state
	AngleOfPart                     // the least that the part asks for: a guess
	AngleQuarter                    // quartersawn, whose thickness shrinks most: a guess
)

// quarterDegrees is quartersawn.
var quarterDegrees = 90.0

// DriesAt returns the ring angle that the leaves of a part are taken to dry at where
// it is not said: that of the billets where all state the same, else the least angle
// that the part asks for (0 to 90 degrees; 0: any), else the quarter.
//
// Accuracy: exact, to twelve digits of a degree. Source: the part and its billets; the
// quarter is our own choice on the safe side.
func DriesAt(least quantity.Angle, billets []Billet) (quantity.Angle, AngleFrom) {
	if angle, known := angleOfAll(billets); known {
		return quantity.Angle(quantity.Tidy(angle.Degrees())) * quantity.Degree, AngleOfBillets
	}
	if least > 0 {
		return least, AngleOfPart
	}
	return quantity.Angle(quarterDegrees) * quantity.Degree, AngleQuarter
}

// angleOfAll is the ring angle that all billets state alike.
func angleOfAll(billets []Billet) (quantity.Angle, bool) {
	first := billets[0].RingAngle
	for i := range billets {
		if angle := billets[i].RingAngle; first == nil || angle == nil || *angle != *first {
			return 0, false
		}
	}
	return *first, true
}

// AllowForDrying lets a part have the shrinkage and the sawn width that its leaves need
// in one more drying, where they need more than it has.
//
// d: the drying of one billet; dry: width of the dry piece, 1 micrometre to 100 m.
// Errors: those of movement.Change. Accuracy: that of the strain, 15 % between pieces of
// a wood.
//
// Source: as movement.SizeBefore.
func (p *PartKind) AllowForDrying(d resaw.Drying, dry quantity.Length) (method.Notes, error) {
	thick, notes, err := movement.SizeBefore(quantity.Metre, movement.ThicknessAt(d.RingAngle, 0), d.From, d.To, d.Wood)
	if err != nil {
		return notes, err
	}
	more := thick - quantity.Metre
	p.Shrinkage = max(p.Shrinkage, float64(more/(quantity.Metre+more)))
	wide, n, err := movement.SizeBefore(dry, movement.WidthAt(d.RingAngle, 0), d.From, d.To, d.Wood)
	notes.Merge(n)
	p.Width = max(p.Width, wide)
	return notes, err
}
