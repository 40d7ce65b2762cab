package mill

import (
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/sawlog"
)

// milling is the work on one request.
type milling struct {
	t      *shelf.Tables
	req    *LogPlanRequest
	report wire.Reporter
	bench  *shelf.Bench
	notes  *method.Notes

	wood   *shelf.Wood
	saw    shelf.SawRead
	mc, sd quantity.Moisture
	trim   quantity.Length
}

// read is the log in SI.
func (l *Log) read() sawlog.Log {
	out := sawlog.Log{Length: l.Length.SI, Start: l.Start.SI, End: l.End.SI, Bark: shelf.LengthOrNone(l.Bark),
		Sapwood: shelf.LengthOrNone(l.Sapwood), Sweep: shelf.LengthOrNone(l.Sweep), Half: l.Half, Pith: l.Pith.read()}
	if l.EndPith != nil {
		end := l.EndPith.read()
		out.EndPith = &end
	}
	return out
}

func (p *LogPoint) read() sawlog.Point {
	if p == nil {
		return sawlog.Point{}
	}
	return sawlog.Point{Y: shelf.LengthOrNone(p.Y), Z: shelf.LengthOrNone(p.Z)}
}

// read is what is wanted in SI, but for what comes from tables.
func (w *WantedBillet) read() sawlog.Wanted {
	out := sawlog.Wanted{Thickness: w.Thickness.SI, ThinEdge: shelf.LengthOrNone(w.ThinEdge), MinWidth: shelf.LengthOrNone(w.MinWidth),
		MaxWidth: shelf.LengthOrNone(w.MaxWidth),
		Length:   shelf.LengthOrNone(w.Length), EndTrim: shelf.LengthOrNone(w.EndTrim)}
	if w.MinRingAngle != nil {
		out.MinRingAngle = quantity.Angle(*w.MinRingAngle) * quantity.Degree
	}
	return out
}

// usualTrim is the row of the table that stands in for an end trim: ends of a fresh log are
// sealed at once.
const usualTrim = "sealed_fresh"

// question turns the request into that of the chapter. What is wrong is told at once.
func (m *milling) question() (sawlog.Question, error) {
	req := m.req
	q := sawlog.Question{Log: req.Log.read(), Pattern: sawlog.Pattern(req.Pattern), Wanted: req.Wanted.read(),
		SapwoodOut: req.SapwoodOut}
	if req.Turn != nil {
		q.Turn = quantity.Angle(*req.Turn) * quantity.Degree
	}
	m.endTrim(&q)
	wood, noWood := m.t.OptionalWood(req.Log.Wood, m.notes)
	m.wood = wood
	noSaw := m.kerfs(&q)
	noClearance := m.pith(&q)
	noCondition := m.condition(&q)
	noDrying := m.drying(&q, noWood)
	return q, errors.Join(wire.Under("log", noWood), wire.Under("saw", noSaw), noClearance, noCondition, noDrying, m.fits(&q))
}

// endTrim is that of each billet, given or usual.
func (m *milling) endTrim(q *sawlog.Question) {
	if m.req.Wanted.EndTrim == nil {
		if row, known := m.t.Species.EndTrim(usualTrim); known {
			usual, _ := row.Each.High.Get()
			q.Wanted.EndTrim = usual
			name := "end trim, " + shelf.NameIn(m.report, row.Name)
			m.bench.Usual.Note(name, row.Each.High)
			m.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "wanted/end_trim",
				Detail: m.said(usual) + " is counted as lost at each end of a billet, as of ends that are sealed while fresh; defaults_used has the source"})
		}
	}
	m.trim = q.Wanted.EndTrim
}

// kerfs takes what the cuts take. Errors point below the saw.
func (m *milling) kerfs(q *sawlog.Question) error {
	read, err := m.req.Saw.Kerfs(m.bench)
	m.saw = read
	q.Kerf, q.Crosscut = read.Kerf, read.Crosscut
	if err == nil {
		m.req.Saw.TellOtherCuts(m.bench, "saw", &read, false, m.req.Wanted.Length != nil)
	}
	if loss := m.bench.Tables.Losses.Split; read.Splits() {
		m.bench.Usual.Note("flattening of a split face", loss)
		m.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "wanted/thickness",
			Detail: "split faces are rough: each billet is handed on with a facing of " + shelf.Spoken(m.report, loss) +
				" on both faces; thickness is counted before that"})
	}
	if read.Splits() && m.req.Pattern != string(sawlog.Wedges) {
		return errors.Join(err, wire.Contradictory("usual_kerf", "a froe splits along the rays: it goes with the pattern wedges; name a saw for boards"))
	}
	return err
}

// pith keeps the pith out where that is wished.
func (m *milling) pith(q *sawlog.Question) error {
	switch {
	case m.req.PithOut:
	case m.req.PithClearance != nil:
		return wire.Contradictory("pith_clearance", "pith_clearance goes with pith_out")
	default:
		return nil
	}
	around := shelf.LengthOr(m.req.PithClearance, sawlog.UsualPithClearance)
	q.PithClearance = &around
	if m.req.PithClearance == nil {
		m.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "pith_clearance",
			Detail: m.said(around) + " around the pith are kept out of the billets (common practice, no source)"})
	}
	return nil
}

// condition is what the log is sawn in: green unless it is said.
func (m *milling) condition(q *sawlog.Question) error {
	asked := m.req.Log.Condition
	if asked == nil {
		asked = shelf.InLog()
		m.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "log/condition", Detail: "the log is taken as green"})
	}
	var err error
	if m.mc, m.sd, err = asked.ValueAndSD("log/condition", m.wood, m.notes); err != nil {
		return err
	}
	if m.wood == nil {
		return nil
	}
	var weighed method.Notes
	if _, err := m.wood.BasicGravity(&weighed); err == nil { // without it the mass is not told
		m.wood.VolumetricShrinkage(&weighed)
		m.notes.Merge(weighed)
		q.Weight = &sawlog.Weight{Wood: m.wood.Value, MC: m.mc, SD: m.sd}
	}
	return nil
}

// drying is what the billets still go through.
func (m *milling) drying(q *sawlog.Question, noWood error) error {
	final := m.req.Wanted.FinalCondition
	if final == nil {
		m.notes.Warn(method.Warning{Code: method.Assumption, Input: "wanted/final_condition",
			Detail: "sizes are those of the wood as it is sawn; with final_condition they are told dry, and shrinkage is added"})
		return nil
	}
	switch {
	case noWood != nil:
		return nil //nolint:nilerr // that it was not found is told where it was looked for
	case m.wood == nil:
		return wire.Missing("log/wood", "the shrinkage to final_condition needs the wood")
	}
	to, err := final.Value("wanted/final_condition", m.wood, m.notes)
	if err == nil && to > m.mc {
		return wire.TooWet("wanted/final_condition", "final_condition is wetter than the log; leave it out for sizes as sawn", m.mc)
	}
	q.Drying = &resaw.Drying{From: m.mc, To: to, Wood: m.wood.Value}
	return err
}
