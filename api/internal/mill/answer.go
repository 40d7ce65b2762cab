package mill

import (
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// answer is the whole answer in the caller's units.
func (m *milling) answer(q *sawlog.Question, plan *sawlog.Plan) *LogPlanResult {
	one := &plan.Bolts[0]
	r := &LogPlanResult{Billets: make([]LogBillet, 0, len(plan.Billets)), Bolts: make([]LogBolt, 0, len(plan.Bolts)),
		Cuts: m.cuts(one), Setting: m.setting(q, plan, one), Thickness: m.report.Length(plan.GreenThickness), Sectors: one.Sectors,
		StandIns: m.bench.Usual.All, Volume: LogVolume{Log: volumeOf(plan.Volume), Billets: volumeOf(plan.BilletVolume),
			Share: 100 * float64(plan.BilletVolume/plan.Volume)}}
	for i := range plan.Bolts {
		r.Bolts = append(r.Bolts, m.bolt(q, plan, &plan.Bolts[i]))
	}
	for i := range plan.Billets {
		r.Billets = append(r.Billets, m.billet(q, plan, i))
	}
	if s := plan.Scales; s != nil {
		r.Scales = &LogScales{s.Doyle, s.International, s.Scribner}
	}
	if plan.Mass != nil {
		band := m.report.MassBand(*plan.Mass)
		r.Mass = &band
	}
	r.Summary = m.summary(q, plan)
	r.Advice = m.advice(q, plan)
	r.drawn = &logDrawing{report: m.report, asked: q, plan: plan, summary: r.Summary, name: m.req.Log.Name}
	return r
}

// bolt is one length of the log.
func (m *milling) bolt(q *sawlog.Question, plan *sawlog.Plan, b *sawlog.Bolt) LogBolt {
	length := m.report.Length
	return LogBolt{XFrom: length(b.From), Length: length(b.Length), Start: length(2 * b.Log.WoodRadius(0)), End: length(2 * b.Log.WoodRadius(1)),
		Setting: m.setting(q, plan, b), Sectors: b.Sectors, Cuts: m.cuts(b)}
}

// cuts are those along a length of the log.
func (m *milling) cuts(b *sawlog.Bolt) []LogCut {
	out := make([]LogCut, 0, len(b.Cuts))
	for _, c := range b.Cuts {
		out = append(out, LogCut{m.place(c.From), m.place(c.To)})
	}
	return out
}

// setting is that of the saw for boards through and through; nil for other patterns, and where a
// length gives none.
func (m *milling) setting(q *sawlog.Question, plan *sawlog.Plan, b *sawlog.Bolt) *LogSetting {
	if q.Pattern != sawlog.ThroughAndThrough || len(b.Cuts) == 0 {
		return nil
	}
	return &LogSetting{m.report.Length(b.First + 0), m.report.Length(plan.Pitch)}
}

func volumeOf(v quantity.Volume) shelf.BilletVolume {
	return shelf.BilletVolume{CubicMetres: v.CubicMetres(), BoardFeet: v.BoardFeet()}
}

func (m *milling) place(p sawlog.Point) LogPlace {
	return LogPlace{m.report.Length(p.Y + 0), m.report.Length(p.Z + 0)} // no -0
}

// billet is the i-th billet.
func (m *milling) billet(q *sawlog.Question, plan *sawlog.Plan, i int) LogBillet {
	b := &plan.Billets[i]
	out := LogBillet{Billet: m.handedOn(q, plan, i), Bolt: b.Bolt + 1, DryWidth: m.report.Length(b.DryWidth),
		DryThick: m.report.Length(b.DryThickness), LeastAngle: b.LeastAngle.Degrees(),
		MiddleAngle: b.MiddleAngle.Degrees()}
	for _, c := range b.Corners {
		out.Corners = append(out.Corners, m.place(c))
	}
	return out
}

// handedOn is the i-th billet in the form that the next request takes. Sizes are rounded
// down, so that it lies in the wood; those that follow from what is wanted by a nanometre, so
// that it still gives what was wanted.
func (m *milling) handedOn(q *sawlog.Question, plan *sawlog.Plan, i int) shelf.Billet {
	b, log := &plan.Billets[i], m.req.Log
	down, near, found := m.report.SizeAgain, m.report.PlaceAgain, m.report.FoundAgain
	out := shelf.Billet{ID: m.idOf(i), Wood: log.Wood.Again(m.report), Length: down(b.Length), Width: found(b.Width),
		Thickness: down(b.Thickness), Rings: &shelf.Rings{Pith: &shelf.Pith{Y: m.report.FoundPlaceAgain(b.Pith.Y), Z: m.report.FoundPlaceAgain(b.Pith.Z)}},
		EdgesInTree: &shelf.EdgesInTree{Near: string(b.Near), Far: string(b.Far)}, EndSeal: log.SealedEnds,
		Condition: shelf.InLog()}
	if q.Pattern == sawlog.Wedges {
		out.FarThickness = found(b.FarThickness)
	}
	if m.trim > 0 {
		out.Trim = &shelf.Trim{Start: near(m.trim), End: near(m.trim)}
	}
	if log.Condition != nil && !log.Condition.IsGreen() {
		out.Condition = shelf.ConditionOf(m.mc, m.sd)
	}
	if m.saw.Splits() { // split faces are rough
		loss, _ := m.bench.Tables.Losses.Split.Get()
		out.FacingFace1, out.FacingFace2 = near(loss), near(loss)
	}
	if b.HoldsPith {
		out.Zones = []shelf.Zone{m.pithZone(b)}
	}
	return out
}

// pithZone is the heart of a billet that holds the pith.
func (m *milling) pithZone(b *sawlog.Billet) shelf.Zone {
	near, around := m.report.FoundPlaceAgain, sawlog.UsualPithClearance
	return shelf.Zone{Kind: "pith", XFrom: m.report.PlaceAgain(0), XTo: m.report.PlaceAgain(b.Length),
		YFrom: near(b.PithFrom.Y - around), YTo: near(b.PithTo.Y + around),
		ZFrom: near(max(0, b.PithFrom.Z-around)), ZTo: m.report.FoundAgain(min(max(b.Thickness, b.FarThickness), b.PithTo.Z+around))}
}

// idOf is the id of the i-th billet: that of the log, if it has one, and a number.
func (m *milling) idOf(i int) string {
	id := strconv.Itoa(i + 1)
	const longest = 58 // so that the whole is an id
	if log := m.req.Log.ID; log != "" && len(log) <= longest {
		return log + "-" + id
	}
	return id
}
