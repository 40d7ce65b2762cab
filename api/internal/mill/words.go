package mill

import (
	"math"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// said is a length for people as it is, tape one that is there, at least.
func (m *milling) said(l quantity.Length) string { return asSet(m.report, l) }
func (m *milling) tape(l quantity.Length) string { return onTape(m.report, l) }

// kindOf is what billets of a pattern are called.
func kindOf(p sawlog.Pattern) string {
	switch p {
	case sawlog.Wedges:
		return "wedge"
	case sawlog.Quartered:
		return "quartered board"
	default:
		return "board"
	}
}

// summary is the answer in a sentence.
func (m *milling) summary(q *sawlog.Question, plan *sawlog.Plan) string {
	if len(plan.Billets) == 0 {
		return m.none(q, plan)
	}
	narrow, wide, thick := plan.Billets[0].Width, plan.Billets[0].Width, plan.Billets[0].Thickness
	for i := range plan.Billets {
		b := &plan.Billets[i]
		narrow, wide, thick = min(narrow, b.Width), max(wide, b.Width), min(thick, b.Thickness)
	}
	text := wire.CountOf(len(plan.Billets), kindOf(q.Pattern))
	if q.Pattern == sawlog.Wedges {
		text += " of " + wire.CountOf(plan.Bolts[0].Sectors, "sector") + ", at least " + m.tape(thick) + " at the thick edge"
	} else {
		text += ", " + asSawn(m.report, plan.GreenThickness) + " thick green"
	}
	text += ", " + m.tape(narrow)
	if m.tape(wide) != m.tape(narrow) {
		text += " to " + m.tape(wide)
	}
	text += " wide"
	if len(plan.Bolts) > 1 {
		text += ", from " + wire.CountOf(len(plan.Bolts), "length") + " of " + m.tape(plan.Bolts[0].Length)
	}
	return text + "; " + quantity.FormatNumber(100*float64(plan.BilletVolume/plan.Volume), 0) + " % of the log"
}

// none says why no billet fits.
func (m *milling) none(q *sawlog.Question, plan *sawlog.Plan) string {
	kind := kindOf(q.Pattern)
	if l := plan.Lower; l != nil {
		angle := func(a quantity.Angle) string { return quantity.FormatNumber(a.Degrees(), 0) + " degrees" }
		return "no billet fits: in no " + kind + " as thick and wide as wanted do the rings stand at " + angle(q.Wanted.MinRingAngle) +
			" or more throughout; without min_ring_angle_deg there are " + strconv.Itoa(l.Billets) + ", and the most it can be for one is " +
			angle(l.Best)
	}
	text := "no billet fits: the log has no " + kind + " " + asSawn(m.report, plan.GreenThickness) + " thick and as wide as wanted"
	if short := plan.Shorter; short != nil {
		text += " over the whole length; crosscut into " + wire.CountOf(short.Lengths, "length") + " it has"
	}
	return text
}

// advice is what to do, in order.
func (m *milling) advice(q *sawlog.Question, plan *sawlog.Plan) []string {
	out := []string{"paint the ends with a sealer on the day the log is cut, and every new end at once: checks begin within hours"}
	if n := len(plan.Bolts); n > 1 {
		out = append(out, "crosscut "+wire.CountOf(n, "length")+" of "+m.tape(plan.Bolts[0].Length)+" from the start of the log")
	}
	if len(plan.Billets) == 0 {
		if plan.Lower != nil {
			return append(out, "ask for a lower min_ring_angle_deg, or for thinner or narrower billets")
		}
		if short := plan.Shorter; short != nil {
			out = append(out, "crosscut it shorter, a short piece bends and tapers less: with a wanted length of "+m.tape(short.Length)+
				" at most there are billets")
		}
		return append(out, "ask for thinner or narrower billets, or for another pattern")
	}
	out = append(out, m.rolled(q)...)
	one, others := &plan.Bolts[0], ""
	if len(plan.Bolts) > 1 {
		others = "; bolts tells where each further length is opened"
	}
	switch q.Pattern {
	case sawlog.Wedges:
		out = append(out, m.wedgeAdvice(q, one)...)
	case sawlog.Quartered:
		first := "saw the log through the pith, and both halves through the pith again at right angles"
		if q.Log.Half {
			first = "saw the half log through the pith as cuts tells"
		}
		out = append(out, first,
			"from each quarter take a board off one sawn face, then off the other, in turns; each cut "+m.said(plan.Pitch)+" after the last on that face, kerf and all")
	default:
		out = append(out, "open the first length "+m.fromMiddle(one.First)+", then step "+m.said(plan.Pitch)+" from board to board, kerf and all"+others,
			"rip both edges of each board inside the "+m.outside())
		if one.Empty > 0 {
			out = append(out, "of the slabs between them "+wire.CountOf(one.Empty, "slab")+" gives no billet as wide as wanted: saw it all the same, and put it aside")
		}
		if q.PithClearance != nil {
			out = append(out, "rip the boards that hold the pith on both sides of it")
		}
	}
	return append(out, "stack the billets on stickers in the shade on the day they are sawn")
}

func (m *milling) fromMiddle(at quantity.Length) string {
	switch {
	case at < 0:
		return asMarked(m.report, -at) + " above the middle of its start end"
	case at > 0:
		return asMarked(m.report, at) + " below the middle of its start end"
	}
	return "level with the middle of its start end"
}

// rolled is how the log is laid so that its first cut is level; what is above and below is told of
// it lying so.
func (m *milling) rolled(q *sawlog.Question) []string {
	turn := q.Turn.Degrees()
	if turn == 0 {
		return nil
	}
	way := " to the left"
	if turn < 0 {
		way = " to the right"
	}
	return []string{"roll the log " + quantity.FormatNumber(math.Abs(turn), 1) + " degrees" + way + ", seen from its start, so that the first cut is level"}
}

// outside is what billets leave outside.
func (m *milling) outside() string {
	if m.req.SapwoodOut {
		return "sapwood"
	}
	return "bark"
}

func (m *milling) wedgeAdvice(q *sawlog.Question, one *sawlog.Bolt) []string {
	log, n := "the log", one.Sectors
	if q.Log.Half {
		log, n = "the half log", n/2
	}
	pieces := strconv.Itoa(n)
	dress := "dress the edge to the " + m.outside() + " and the edge to the pith square to one face, to the width told"
	if m.saw.Splits() {
		return []string{"split " + log + " through the pith into halves, and each piece into halves again until there are " + pieces,
			"start each split in the middle of the piece; where it runs off, pull the thicker side down", dress}
	}
	return []string{"saw " + log + " through the pith into " + pieces + " equal sectors, the first cut from side to side, each other from the pith to the bark", dress}
}

// cautions are the usual ones of logs; local rules and the manuals decide.
func (m *milling) cautions(q *sawlog.Question, plan *sawlog.Plan) {
	heavy := "a log rolls and crushes: chock it on both sides, move it with hooks, levers or a winch, never stand on the lower side"
	if plan.Mass != nil {
		heavy = "this log weighs about " + m.weighs(q, plan) + "; " + heavy
	}
	m.warn("log", heavy)
	if m.saw.Splits() {
		m.warn("saw", "splitting throws chips and wedges: wear eye protection, strike a froe with a wooden club only, and keep hands and feet out of the way of the split")
	} else {
		m.warn("saw", "wood under stress pinches the blade and springs when it is freed: follow the manual of the machine, guard the blade, and use wedges in a long cut; "+
			shelf.ResawCaution.Detail)
	}
	if !m.req.SapwoodOut {
		m.warn("sapwood_out", "sapwood of many woods stains blue or is taken by insects and fungi within days of warm weather: saw soon after felling, stack with air around every face, and keep it from finished work that must last outdoors")
	}
	m.t.CautionsAt("log/wood", m.wood, m.notes)
}

func (m *milling) warn(at, detail string) {
	m.notes.Warn(method.Warning{Code: method.Caution, Input: at, Detail: detail})
}

// weighs is the mass of the log, at what moisture, and what of it is not counted.
func (m *milling) weighs(q *sawlog.Question, plan *sawlog.Plan) string {
	low, high := m.report.Mass(plan.Mass.Low), m.report.Mass(plan.Mass.High)
	whole := func(v float64) string { return quantity.FormatNumber(v, 0) }
	text := m.wholeMass(plan.Mass.Value) + " (" + whole(low.Value) + " to " + whole(high.Value) + "), "
	if c := m.req.Log.Condition; c == nil || c.IsGreen() {
		text += "green "
	}
	text += "at " + whole(m.mc.Percent()) + " %"
	if share := q.Log.BarkShare(); share > 0 {
		text += ", without its bark, which is " + whole(100*share) + " % of its volume and is lifted too"
	}
	return text
}

// wholeMass is a mass of which only the size matters.
func (m *milling) wholeMass(mass quantity.Mass) string {
	q := m.report.Mass(mass)
	return quantity.FormatNumber(q.Value, 0) + " " + q.Unit
}
