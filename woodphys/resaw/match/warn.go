package match

import (
	"latewood/woodphys/method"
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

func (m *matcher) warn() {
	notes := &m.out.Notes
	say := func(code method.Code, input, detail string) {
		notes.Warn(method.Warning{Code: code, Method: rowMatch.ID, Input: input, Detail: detail})
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
		say(method.Assumption, "ring_angle",
			"somewhere the ring angle is below 5 degrees: ring lines nearly lie in the face and their shift grows "+
				"without limit; expect cathedrals that look unlike")
	}
	if m.seen.unreached {
		say(method.Assumption, "pith", "somewhere the ring does not reach both show faces, and ring lines there "+
			"have no partner")
	}
	if m.seen.apart {
		notes.Warn(apartWarning)
	}
	if m.seen.openBand {
		say(method.Assumption, "ring_angle_sd",
			"somewhere the band of the ring angle reaches 0 degrees, where the shift has no limit; the upper end "+
				"of its band is that of 0.01 degrees")
	}
	last := m.leaves[len(m.leaves)-1].Back
	if r := &m.rings; r.circular && r.x >= 0 && r.x <= float64(m.in.Width) && r.z >= float64(m.leaves[0].Front) &&
		r.z <= float64(last) {
		notes.Warn(inStackWarning)
	}
}
