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
	"latewood/woodphys/sorption"
	"latewood/woodphys/timing"
)

// billetTimed is a request in SI, with what it takes to word the answer.
type billetTimed struct {
	req      *ResawTimingRequest
	tables   *shelf.Tables
	wood     *shelf.Wood
	report   wire.Reporter
	bench    *shelf.Bench
	build    []shelf.ThicknessTerm // of the leaf, but for what drying adds
	stay     *storage              // from today on
	question timing.Question
}

// read is the request in SI; all that is wrong with it is told at once.
func (r *ResawTimingRequest) read(ctx context.Context, t *shelf.Tables, notes *method.Notes) (*billetTimed, error) {
	w, noWood := woodOf(t, r.Billet, notes)
	report := wire.ReportIn(r.ReportIn)
	b := &billetTimed{req: r, tables: t, wood: w, report: report, bench: shelf.NewBench(t, report, notes)}
	wrong := errors.Join(noWood, r.check())
	rings, noRings := ringAngle(r.Billet, notes)
	if r.Billet.Rings == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "billet/rings",
			Detail: "the leaves are taken as quartersawn, whose thickness shrinks most"})
	}
	q := &b.question
	q.RingAngle, q.Horizon = orUsual(rings, timing.UsualRingAngle), horizonOf(r.Horizon)
	q.Ends = drying.EndSeal(r.Billet.EndSeal)
	q.Limits, q.Work = ownLimits(r.Limits), shelf.Simulation(ctx)
	q.Moisture = profile(r.Moisture)
	if r.Prongs != nil {
		q.Prongs = r.Prongs.Turned()
	}
	noTarget := b.rests(notes)
	q.Billet.Thickness = r.Billet.Thickness.SI // also where the leaf is wrong
	noLeaf := b.leaf()
	noSetup := b.lies(ctx)
	if err := errors.Join(wrong, noRings, noTarget, noLeaf, noSetup); err != nil {
		return nil, inBilletError(err)
	}
	q.Wood = w.Value
	return b, nil
}

// profile is the moisture content in SI.
func profile(m *shelf.MoistureProfile) timing.Moisture {
	out := timing.Moisture{Mean: wire.FromPercent(*m.Mean), SD: spreadOf(m.SD)}
	if m.Shell != nil && m.Core != nil {
		over := wire.FromPercent(*m.Core - *m.Shell)
		out.CoreOverShell, out.Shell = &over, wire.FromPercent(*m.Shell)
	}
	return out
}

// rests says where the wood comes to rest.
func (b *billetTimed) rests(notes *method.Notes) (err error) {
	q := &b.question
	q.Room, q.Rest, err = rest(b.req.Target, &seasoning.Start{MC: q.Moisture.Mean, SD: q.Moisture.SD}, b.wood)
	notes.Merge(q.Rest.Notes)
	if err != nil || b.req.Target.Settled() != nil {
		return err
	}
	if q.Room.RelativeHumidity == 0 {
		_, err := sorption.HumidityFor(usualRoom, q.Rest.Moisture.Value, seasoning.Branch(q.Moisture.Mean), b.wood.Sorption())
		return keptByNoAir(err)
	}
	notes.Warn(method.Warning{Code: method.Assumption, Input: "target_condition/mc_pct", Detail: "the room that keeps " +
		"the wood there is taken at " + usualRoom.Format("C") + " and " +
		quantity.FormatNumber(100*q.Room.RelativeHumidity, 0) + " % RH"})
	return nil
}

// keptByNoAir is why no air keeps wood at a target, at the member that has it.
func keptByNoAir(err error) error {
	domain, is := wire.AsDomain(err)
	if !is {
		return err
	}
	return &method.Error{Code: method.OutOfRange, Input: "target_condition/mc_pct", Limit: domain.Limit,
		Detail: "no air keeps wood so wet that leaves could settle there"}
}

// lies says where billet and leaves lie from a time on.
func (b *billetTimed) lies(ctx context.Context) error {
	r, q := b.req, &b.question
	from := func(at quantity.Duration, stays []shelf.Stay, thick quantity.Length) (*piece, *storage, seasoning.Piece, error) {
		p := &piece{wood: b.wood, ringAngle: q.RingAngle, stackedOn: r.AsOf, stays: stays, thickness: thick,
			length: shelf.LengthOrNone(r.Billet.Length), ends: drying.EndSeal(r.Billet.EndSeal),
			start:   seasoning.Start{MC: q.Moisture.Mean, SD: q.Moisture.SD},
			horizon: q.Horizon - at, factor: r.Billet.Wood.DryingFactor()}
		if at > 0 {
			p.stackedOn = b.stay.date(at)
		}
		in, stay, err := p.read(ctx, b.tables, q.Work)
		return p, stay, in, wire.Under("", err, [2]string{"billet/stacked_on", "as_of"})
	}
	whole, stay, today, noStay := from(0, r.Stays, q.Billet.Thickness)
	b.stay = stay
	q.Lay = func(at quantity.Duration) (seasoning.Piece, error) {
		if at == 0 {
			return today, nil
		}
		_, _, later, err := from(at, stay.left(r.Stays, at), q.Billet.Thickness)
		return later, err
	}
	var noLeaves error
	if len(r.LeafStays) > 0 && noStay == nil {
		thick := q.Leaf.Dry + q.Leaf.Extra
		of := func(err error) error {
			return wire.EachError(err, func(one error) error { return method.Renamed(one, [2]string{"stays/", "leaf_stays/"}) })
		}
		_, laid, now, err := from(0, r.LeafStays, thick)
		noLeaves = of(err)
		q.LayLeaf = func(at quantity.Duration) (seasoning.Piece, error) {
			if at == 0 {
				return now, nil
			}
			_, _, later, err := from(at, laid.left(r.LeafStays, at), thick)
			return later, of(err)
		}
	}
	billet := today
	billet.Thickness, billet.Start = q.Billet.Thickness, seasoning.Start{MC: q.Moisture.Mean, SD: q.Moisture.SD}
	_, noSetup := billet.Setup()
	return errors.Join(noStay, noLeaves, wire.Under("", whole.wrong(noSetup), [2]string{"thickness", "billet/thickness"}))
}

// leaf is the billet, and the leaf that is wanted of it, but for what drying adds.
func (b *billetTimed) leaf() error {
	l, r := &b.tables.Losses, b.req
	cutting := &shelf.Cutting{Billet: r.Billet, Saw: r.Saw, Part: r.Part, Report: b.report}
	read, err := cutting.Read(b.bench)
	if err != nil {
		return err
	}
	if err := read.Fits(cutting); err != nil {
		return err
	}
	leaf, err := read.Part.Leaf(&read.Saw, nil)
	if err != nil {
		return wire.Under("part", err, shelf.LeafNames("billet")...)
	}
	b.bench.Notes.Merge(wire.AtMembers(leaf.Notes, func(err error) error { return wire.Under("part", err, shelf.LeafNames("billet")...) }))
	build := shelf.LeafBuildOf(&leaf, b.report.Length)
	for _, p := range build.Terms {
		if p.Kind != "oversize" { // which is worked out for each way
			b.build = append(b.build, p)
		}
	}
	if len(b.build) == 0 {
		b.build = []shelf.ThicknessTerm{{Kind: "sawn_thickness", Thickness: build.Thickness}}
	}
	q := &b.question
	flat := read.Part.Flattening
	if read.Part.Sawn > 0 { // is taken to have the usual
		flat, _ = l.Flatness.Get()
	}
	q.Billet, q.Saw = read.Billet.ThickFirst(), read.Takes()
	q.Leaf = timing.Leaf{Dry: leaf.Thickness, Finished: read.Part.Final, Flat: flat, Extra: b.bench.Usual.Or(r.ThickAndThin, "thick_and_thin", l.LeafWet)}
	q.Part = resaw.Piece{Length: read.Part.Length, Width: read.Part.Width, PerSet: read.Part.Pieces}
	return nil
}
