package dry

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/timing"
)

// billetTimed is a request in SI, with what it takes to word the answer.
type billetTimed struct {
	req      *TimingRequest
	tables   *shelf.Tables
	wood     *shelf.Wood
	report   wire.Reporter
	usual    *shelf.StandIns
	build    []shelf.LeafPart // of the leaf, but for what drying adds
	stay     *storage         // from today on
	question timing.Question
}

// read is the request in SI; all that is wrong with it is told at once.
func (r *TimingRequest) read(ctx context.Context, t *shelf.Tables, notes *method.Notes) (*billetTimed, error) {
	w, noWood := t.WoodOf(r.Species, r.Wood, notes)
	report := wire.ReportIn(r.ReportIn)
	b := &billetTimed{req: r, tables: t, wood: w, report: report, usual: &shelf.StandIns{Report: report}}
	wrong := errors.Join(noWood, r.check(), wire.Under("billet", r.Billet.Tapers()),
		wire.Under("part", r.Part.Fits(r.Billet)))
	if r.RingAngle == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "ring_angle_deg",
			Detail: "the leaves are taken as quartersawn, whose thickness shrinks most"})
	}
	q := &b.question
	q.Billet = r.Billet.Measured()
	q.RingAngle, q.Horizon = ringsAt(r.RingAngle, timing.UsualRingAngle), horizonOf(r.Horizon)
	q.Ends = drying.EndSeal(r.Ends)
	q.Limits, q.Work = ownLimits(r.Limits), shelf.Simulation(ctx)
	q.Moisture = r.Moisture.si()
	noTarget := b.rests(notes)
	noLeaf := b.leaf(notes)
	noSetup := b.lies()
	if err := errors.Join(wrong, noTarget, noLeaf, noSetup); err != nil {
		return nil, err
	}
	q.Wood = w.Value
	return b, nil
}

func (m *MoistureRead) si() timing.Moisture {
	start := startOf(m.Mean, m.SD)
	out := timing.Moisture{Mean: start.MC, SD: start.SD}
	if m.Shell != nil && m.Core != nil {
		over := wire.FromPercent(*m.Core - *m.Shell)
		out.CoreOverShell = &over
	}
	return out
}

// rests says where the wood comes to rest.
func (b *billetTimed) rests(notes *method.Notes) (err error) {
	q := &b.question
	q.Room, q.Rest, err = rest(b.req.BuildRoom, &q.Moisture.Mean, b.wood)
	notes.Merge(q.Rest.Notes)
	return err
}

// lies says where billet and leaves lie from a time on.
func (b *billetTimed) lies() error {
	r, q := b.req, &b.question
	from := func(at quantity.Duration) (*piece, *storage, seasoning.Piece, error) {
		p := &piece{wood: b.wood, ringAngle: q.RingAngle, stackedOn: r.AsOf, stays: r.Storage,
			horizon: q.Horizon - at, factor: r.Factor}
		if at > 0 {
			p.stackedOn = b.stay.date(at)
			for len(p.stays) > 1 && p.stays[0].Until <= p.stackedOn { // ISO dates sort as text
				p.stays = p.stays[1:]
			}
		}
		in, stay, err := p.read(b.tables, q.Work)
		return p, stay, in, wire.Under("", err, [2]string{"stacked_on", "as_of"})
	}
	whole, stay, today, noStay := from(0)
	b.stay = stay
	q.Lay = func(at quantity.Duration) (seasoning.Piece, error) {
		if at == 0 {
			return today, nil
		}
		_, _, later, err := from(at)
		return later, err
	}
	billet := today
	billet.Thickness, billet.Start = q.Billet.Thickness, seasoning.Start{MC: q.Moisture.Mean, SD: q.Moisture.SD}
	_, noSetup := billet.Setup()
	return errors.Join(noStay, wire.Under("", whole.wrong(noSetup), [2]string{"thickness", "billet/thickness"}))
}

// leaf is the leaf that is wanted, but for what drying adds.
func (b *billetTimed) leaf(notes *method.Notes) error {
	l, r := &b.tables.Losses, b.req
	part := *r.Part
	if part.Allowances != nil { // shrinkage is worked out for each way, not taken from there
		a := *part.Allowances
		a.SawnAtPct, a.DriedToPct = nil, nil
		part.Allowances = &a
	}
	dry, build, err := part.Leaf(l, nil, b.usual, notes)
	if err != nil {
		return wire.Under("part", err)
	}
	for _, p := range build.Parts {
		if p.Name != "oversize" { // which is worked out for each way
			b.build = append(b.build, p)
		}
	}
	if len(b.build) == 0 {
		b.build = []shelf.LeafPart{{Name: "sawn_thickness", Thickness: build.Thickness}}
	}
	q := &b.question
	q.Leaf = timing.Leaf{Dry: dry, Flat: flatness(r.Part.Allowances, l),
		Extra: b.usual.Or(r.ThickAndThin, "thick_and_thin", l.LeafWet)}
	q.Part = resaw.Piece{Length: part.Length.SI, Width: part.Width.SI, PerSet: part.LeavesPerSet()}
	q.Saw = r.Saw.Takes(l, b.usual, &q.SawNotes)
	if r.ThickAndThin == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "thick_and_thin",
			Detail: shelf.Spoken(b.report, l.LeafWet) + " more for a leaf sawn before it is dry (common practice, no source)"})
	}
	return nil
}

// flatness is what a leaf has for flattening; one whose sawn thickness is given
// is taken to have the usual.
func flatness(a *shelf.Allowances, l *shelf.Losses) quantity.Length {
	usual, _ := l.Flatness.Get()
	if a == nil {
		return usual
	}
	return shelf.LengthOr(a.Flatness, usual)
}
