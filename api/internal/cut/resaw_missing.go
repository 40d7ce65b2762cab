package cut

import (
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// tellWhatIsMissing warns of the parts of which no billet can give a set on any saw,
// and of those that are wanted and do not come to their least, with the reasons.
func (a *answering) tellWhatIsMissing() {
	for i := range a.told.Lacks {
		lack := &a.told.Lacks[i]
		part := &a.asked.Parts[lack.Part]
		missing := wire.CountOf(lack.Missing, "set") + " of " + part.Name + " are missing: "
		none := "no billet gives a set of " + part.Name + ": "
		var detail string
		switch lack.Cause {
		case plan.NoBillet:
			detail = none + a.misfitInWords(&lack.Misfit, part)
		case plan.NoPlace:
			detail = none + "zones, taper, warp or the rings round the pith leave no clear place that is large enough"
		case plan.NoWood:
			detail = missing + "with no other part the wood would give " + wire.CountOf(lack.Alone, "set")
		case plan.Competes:
			gives := ""
			if lack.Alone > 0 { // else the work ended first
				gives = ", which would give at least " + wire.CountOf(lack.Alone, "set") + " of this one alone"
			}
			detail = missing + "the parts compete for the same wood" + gives +
				"; the plan misses as few sets in all as it can, one as good as another, and only then looks at " +
				"their worth"
		}
		a.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Input: place("parts", lack.Part),
			Subject: part.Name, Detail: detail})
	}
}

// tellRounding says what the fractions that saws are set to cost, and to what other lengths for
// people are rounded.
func (a *answering) tellRounding() {
	to := a.report.RoundedTo()
	if to == "" {
		return
	}
	var thicker []string
	for i := range a.asked.Parts {
		if more := a.asked.Parts[i].On(&a.asked.Saws[a.told.Saw]).Rounding; more > 0 {
			thicker = append(thicker, a.asked.Parts[i].Name+" by "+more.Format(a.report.LengthUnit))
		}
	}
	detail := "parts are planned as long, wide and thick as whole " + to + ", rounded up, crosscuts and rips as wide"
	if len(thicker) > 0 {
		detail += "; leaves are thicker for it: " + strings.Join(thicker, ", ")
	}
	if without := a.told.Exact; without != nil {
		detail += "; without, the same wood is worth " + strconv.FormatInt(without.Worth, 10) + ", here " +
			strconv.FormatInt(a.told.Worth, 10)
	}
	a.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Input: "inch_fraction", Detail: detail +
		". Settings are told so that no leaf comes out smaller; other lengths to the nearest " + to + ", each for itself"})
}

// misfitInWords says why no billet gives a set of a part on any saw.
func (a *answering) misfitInWords(m *plan.Misfit, part *plan.PartKind) string {
	if len(m.Everywhere) > 0 {
		var said []string
		for _, f := range m.Everywhere {
			said = append(said, a.faultInWords(f, m, part))
		}
		return strings.Join(said, "; ")
	}
	var said []string
	for _, f := range m.Somewhere {
		said = append(said, faultNames[f])
	}
	return "none offers all that it needs at once, which each fails by its " + strings.Join(said, " or ")
}

var faultNames = map[plan.Fault]string{plan.TooHigh: "highest cut", plan.TooLong: "length", plan.TooWide: "width",
	plan.TooThick: "thickness",
	plan.TooFlat:  "ring angle", plan.TooSteep: "runout", plan.Barred: "wood"}

// faultInWords words a fault of every billet on every saw.
func (a *answering) faultInWords(f plan.Fault, m *plan.Misfit, part *plan.PartKind) string {
	say := a.report.SaidLength
	switch f {
	case plan.Barred:
		return "it may come from none of them by its wood and billets"
	case plan.TooHigh:
		return "at " + say(m.Width) + " it is wider than the highest cut of every saw, at most " + say(m.HighestCut)
	case plan.TooLong:
		return "at " + say(m.Length) + " it is longer than every billet between its end trims, at most " +
			say(m.Longest)
	case plan.TooWide:
		return "at " + say(m.Width) + " it is wider than every billet, at most " + say(m.Widest)
	case plan.TooThick:
		return "a set of " + wire.CountOf(part.Pieces, "piece") + " takes " + say(m.Thickness) +
			" of thickness with its cuts, and no billet has more than " + say(m.Thick) +
			" left after facing and flattening"
	case plan.TooFlat:
		return "of no billet is it known that its rings stand at " +
			quantity.FormatNumber(part.LeastRingAngle.Degrees(), 2) + " degrees or more"
	default:
		return "of no billet is it known that its fibre leaves the face by 1 in " +
			quantity.FormatNumber(part.MostRunoutOneIn, 0) + " at most"
	}
}
