package seasoning

import (
	"context"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Of the end zone: how long after stacking it is looked at, and from how much on an end
// counts as ahead. Own choice.
const (
	endsWithin    = 120 * quantity.Day
	endsAheadFrom = 1 * quantity.PercentMC
)

// Ends is what the ends of a piece usually lose, and how far they run ahead of the
// middle in the first months, when checks form.
type Ends struct {
	Reach drying.CheckReach
	Ahead quantity.Length   // over this length the wood is drier than the middle; 0 where the length is not known
	After quantity.Duration // for how long after stacking that is said
	Notes method.Notes
}

// Ends returns what the ends lose, and, for a piece of a length (50 mm to 12 m; 0: not
// known), how far they run ahead of the middle by a point after the first months.
//
// Errors: "end_seal"; those of drying.Solver.EndZone ("length").
// Accuracy: planning figures of the trade; a factor of 2 for the length ahead.
//
// Source: row drying.ends.
func (o *Outlook) Ends(ctx context.Context, seal drying.EndSeal, length quantity.Length) (Ends, error) {
	e := Ends{}
	var err error
	if e.Reach, err = drying.UsualCheckReach(seal); err != nil || length == 0 {
		return e, err
	}
	job, err := o.Middle()
	if err != nil {
		return e, err
	}
	first := job.Phases[0]
	first.Length = min(first.Length, endsWithin)
	job.Phases = []drying.Phase{first}
	zone, err := o.solver.EndZone(ctx, &job, length, seal, endsAheadFrom)
	if err != nil {
		return e, ofRun(err)
	}
	e.Ahead, e.After, e.Notes = zone.Depth, first.Length, zone.Notes
	return e, nil
}
