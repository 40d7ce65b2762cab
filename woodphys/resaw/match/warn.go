package match

import (
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/resaw"
)

// apartWarning tells of plane rings that depart from circular ones; see oddities.note.
var apartWarning = method.Warning{
	Code: method.Disagreement, Method: rowMatch.ID, Input: "pith",
	Detail: "somewhere the shift of plane rings is more than 0.1 mm and 5 % off that of circular rings; the " +
		"circular one counts",
}.Saying("somewhere the shift of plane rings is more than %s and 5 %% off that of circular rings; the circular one "+
	"counts", method.Amount{Value: 0.1, Unit: "mm"})

// inStackWarning tells of a pith among the leaves. What is discarded round it is a rule
// of thumb (common practice, no source): where it is said in inches it is 1 to 2 of them.
var inStackWarning = method.Warning{
	Code: method.Assumption, Method: rowMatch.ID, Input: "pith",
	Detail: "the pith lies in the stack; it and 25 to 50 mm round it are usually discarded, so the leaves there " +
		"make no parts",
}.Saying("the pith lies in the stack; it and %s to %s round it are usually discarded, so the leaves there make no "+
	"parts",
	method.Amount{Value: 25.4, Unit: "mm"}, method.Amount{Value: 50.8, Unit: "mm"})

// elsewhereWarning tells of ring lines that miss by more near the pith than at the three
// places; see oddities.noteFace.
var elsewhereWarning = method.Warning{
	Code: method.Assumption, Method: rowCircleShift.ID, Input: "pith",
	Detail: "somewhere on the faces, nearer the pith, ring lines miss by over 1 mm more than at the edges and in the " +
		"middle; the largest miss of each pair and where it lies are told beside them",
}.Saying("somewhere on the faces, nearer the pith, ring lines miss by over %s more than at the edges and in the middle; "+
	"the largest miss of each pair and where it lies are told beside them", method.Amount{Value: 1, Unit: "mm"})

func (m *matcher) warn() {
	notes := &m.out.Notes
	say := func(input, detail string) {
		notes.Warn(method.Warning{Code: method.Assumption, Method: rowMatch.ID, Input: input, Detail: detail})
	}
	if m.in.AngleSD > 0 {
		notes.Rest(rowMatchBand)
	}
	for i := range m.out.Pairs {
		for j := range m.out.Pairs[i].Layouts {
			for k := range m.out.Pairs[i].Layouts[j].Places {
				m.seen.unreached = m.seen.unreached || m.rings.circular &&
					m.out.Pairs[i].Layouts[j].Places[k].Circle == nil
			}
		}
	}
	if m.seen.flat {
		say("ring_angle",
			"somewhere the ring angle is below 5 degrees: ring lines nearly lie in the face and their shift grows "+
				"without limit; expect cathedrals that look unlike")
	}
	if m.seen.unreached {
		say("pith", "somewhere the ring does not reach both show faces, and ring lines there "+
			"have no partner")
	}
	if m.seen.apart {
		notes.Warn(apartWarning)
	}
	if m.in.BandLean != nil && len(m.in.Openings) != 1 && (len(m.in.Openings) == 0 || slices.Contains(m.in.Openings, resaw.SlipMatch)) {
		say("band_lean", "figure is opened as a mirror: a slip-match, which repeats it, comes after the "+
			"ways that mirror it; ask for slip_match alone to have it chosen")
	}
	if m.seen.elsewhere {
		notes.Warn(elsewhereWarning)
	}
	if m.seen.openBand {
		say("ring_angle_sd",
			"somewhere the band of the ring angle reaches 0 degrees, where the shift has no limit; the upper end "+
				"of its band is that of 0.01 degrees")
	}
	last := m.leaves[len(m.leaves)-1].Back
	if r := &m.rings; r.circular && r.x >= 0 && r.x <= float64(m.in.Width) && r.z >= float64(m.leaves[0].Front) &&
		r.z <= float64(last) {
		notes.Warn(inStackWarning)
	}
}
