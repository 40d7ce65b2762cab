package timing

import (
	"context"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/resaw"
	"latewood/woodphys/seasoning"
)

// leastSD is how well the moisture content of the leaves of a dried billet is known at
// best.
const leastSD = 0.1 * quantity.PercentMC

// leastSettling is the time that is left for the leaves of a dried billet to settle, or
// they are not looked at.
const leastSettling = 2 * quantity.Day

// strain is the change of a dimension between two moisture contents, as a share.
func (w *work) strain(d movement.Direction, from, to quantity.Moisture) (float64, error) {
	m, err := movement.Change(quantity.Metre, d, quantity.NormalBand(from, 0), quantity.NormalBand(to, 0), w.q.Wood)
	if err != nil {
		return 0, method.Renamed(err, betweenNames...)
	}
	w.notes.Merge(m.Notes.Renamed(betweenNames...))
	return m.Strain.Value, nil
}

// betweenNames are the ends of a movement by what they are of the billet.
var betweenNames = [][2]string{{"from_mc_pct", "mean_pct"}, {"to_mc_pct", "room"}}

// cut is what comes off the saw at a moisture content, with an extra thickness for the
// leaf.
func (w *work) cut(at quantity.Moisture, extra quantity.Length) (Cut, error) {
	var toCome, past [2]float64 // thickness, width
	var err error
	for i, d := range []movement.Direction{movement.ThicknessAt(w.q.RingAngle, 0), movement.WidthAt(w.q.RingAngle, 0)} {
		if toCome[i], err = w.strain(d, at, w.q.Rest.Moisture.Value); err != nil {
			return Cut{}, err
		}
		if past[i], err = w.strain(d, w.now.Value, at); err != nil {
			return Cut{}, err
		}
	}
	l := &w.q.Leaf
	// What will still swell is not sawn thinner for it.
	c := Cut{Extra: extra, Finished: l.finished(), Leaf: (l.Dry + extra) / quantity.Length(1+math.Min(toCome[0], 0)),
		Width: w.q.Part.Width * quantity.Length(1/(1+math.Min(toCome[1], 0)))}
	billet := Shrunk{Thickness: 1 + past[0], Width: 1 + past[1]}.of(w.q.Billet)
	c.Billet, c.Broad = billet.Thickness, billet.Width
	c.Oversize = c.Leaf - l.Dry - extra
	y, err := w.count(&c, billet)
	if err != nil {
		return Cut{}, err
	}
	if c.Cup, err = w.cup(&c); err != nil {
		return Cut{}, err
	}
	if err := w.countFlat(&c, billet, y); err != nil {
		return Cut{}, err
	}
	return c, w.thicker(&c, billet)
}

// count counts what the billet yields in leaves as they come off the saw.
func (w *work) count(c *Cut, billet resaw.Billet) (resaw.BilletYield, error) {
	y, err := resaw.YieldOf(billet, w.q.Saw, w.sawn(c), nil)
	if err != nil {
		return y, method.Below(err, "yield")
	}
	w.notes.Merge(y.Notes.Below("yield"))
	c.Leaves, c.Sets, c.Odd, c.Flat = y.Leaves, y.Sets, y.OddLeaves, y.Sets
	return y, nil
}

// sawn is the part as it comes off the saw.
func (w *work) sawn(c *Cut) resaw.Piece {
	part := w.q.Part
	part.Leaf, part.Width = c.Leaf, c.Width
	return part
}

// countFlat counts the sets again without the leaves that are expected to cup by more than is
// planned for it.
func (w *work) countFlat(c *Cut, billet resaw.Billet, y resaw.BilletYield) error {
	if c.Cup == nil || !c.Cup.Exceeds {
		return nil
	}
	bent, err := w.bent(c)
	if err != nil {
		return err
	}
	var lost []resaw.Spoiled
	for i := range y.Stacks {
		s := &y.Stacks[i]
		for _, leaf := range bent {
			if leaf <= s.Yield.Leaves {
				lost = append(lost, resaw.Spoiled{Row: s.Row, Column: s.Column, Leaf: leaf})
			}
		}
	}
	flat, err := resaw.YieldOf(billet, w.q.Saw, w.sawn(c), lost)
	c.Flat = flat.Sets
	return method.Below(err, "yield")
}

// thicker counts the sets of leaves that are sawn so much thicker that their cup can be planed off.
func (w *work) thicker(c *Cut, billet resaw.Billet) error {
	more := *c
	more.Leaf += c.missing()
	c.FlatLeaf, c.FlatSets = more.Leaf, c.Flat
	if more.Leaf == c.Leaf {
		return nil
	}
	y, err := resaw.YieldOf(billet, w.q.Saw, w.sawn(&more), nil)
	c.FlatSets = y.Sets
	return method.Below(err, "yield")
}

// sawNow is the way of the leaves.
func (w *work) sawNow(ctx context.Context, a *Answer) (err error) {
	way := &a.SawNow
	extra := w.q.Leaf.Extra
	if w.ready {
		extra = 0 // the billet is ready to resaw, and its leaves need only settle
	}
	if way.Cut, err = w.cut(w.now.Value, extra); err != nil {
		return err
	}
	leaf, err := w.piece(ctx, theLeaf, way.Cut.Leaf, 0, starting(max(w.profile.wettest(), w.now.Value), w.sd))
	if err != nil {
		return err
	}
	today := readiness.Date{Within: true}
	way.Saw, way.SawAt = readiness.ReadyDate{Low: today, Median: today, High: today, Already: 1, Kept: 1}, w.now
	if way.Ready, err = w.readyFor(readiness.Thickness, leaf); err != nil {
		return err
	}
	if way.Leaf, err = leaf.Posterior.Whole(); err != nil {
		return err
	}
	way.Factor = leaf.Factor
	return w.dangers(ctx, theLeaf, way, leaf)
}

// dryWhole is the way of the billet.
func (w *work) dryWhole(ctx context.Context, a *Answer) error {
	way := &a.DryWhole
	whole, err := w.piece(ctx, theBillet, w.q.Billet.Thickness, 0, starting(w.now.Value, w.sd))
	if err != nil {
		return err
	}
	if way.Saw, err = w.readyFor(readiness.Resaw, whole); err != nil {
		return err
	}
	if err := w.waitForGradient(ctx, whole, &way.Saw); err != nil {
		return err
	}
	if way.Billet, err = whole.Posterior.Whole(); err != nil {
		return err
	}
	way.Factor = whole.Factor
	if err := w.dangers(ctx, theBillet, way, whole); err != nil {
		return err
	}
	w.dried = true
	if way.SawAt, err = w.sawnAt(ctx, whole, way.Saw); err != nil {
		return err
	}
	if way.Cut, err = w.cut(way.SawAt.Value, 0); err != nil {
		return err
	}
	if !way.Saw.Median.Within {
		way.Ready = readiness.ReadyDate{Never: 1}
		if way.Saw.Undated() == readiness.UndatedPassing {
			way.Ready = way.Saw
		}
		return nil
	}
	way.Ready = readiness.ReadyDate{Never: 1}
	return w.settle(ctx, way)
}

// sawnAt is the moisture content of the billet on the day it is sawn; its profiles are
// kept. If it never comes so far it is that of the limit, with no profile.
func (w *work) sawnAt(ctx context.Context, whole *seasoning.Outlook,
	saw readiness.ReadyDate) (quantity.Band[quantity.Moisture], error) {
	on := saw.Median
	if !on.Within {
		w.cases, w.profile = nil, nil
		limit := w.limits(readiness.Resaw, w.q.Billet.Thickness).Above
		return quantity.NormalBand(min(w.now.Value, w.q.Rest.Moisture.Value+limit), 0), nil
	}
	course, err := whole.Posterior.Course([]quantity.Duration{on.At})
	if err != nil {
		return quantity.Band[quantity.Moisture]{}, err
	}
	return course.Mean[0], w.profilesAt(ctx, whole, &saw)
}

// settle adds the time the leaves of the dried billet take. Wood that dries
// slowly does so as billet and as leaf, so that early goes with early and late
// with late.
func (w *work) settle(ctx context.Context, way *Way) error {
	at, horizon := way.Saw.Median.At, w.q.Horizon
	way.Billet, way.LeafFrom = until(way.Billet, at), at
	if horizon-at < leastSettling {
		return nil
	}
	start := starting(max(way.SawAt.Value, w.profile.wettest()), max(way.SawAt.SD(), leastSD))
	leaf, err := w.piece(ctx, theLeaf, way.Cut.Leaf, at, start)
	if err != nil {
		return err
	}
	date, err := w.readyFor(readiness.Thickness, leaf)
	if err != nil {
		return err
	}
	likeliest := date.Likeliest
	likeliest.From, likeliest.To = likeliest.From+at, likeliest.To+at
	way.Ready = readiness.ReadyDate{Never: math.Max(way.Saw.Never, date.Never), Kept: date.Kept, Likeliest: likeliest}
	for _, one := range []struct {
		to        *readiness.Date
		saw, leaf readiness.Date
	}{{&way.Ready.Low, way.Saw.Low, date.Low}, {&way.Ready.Median, way.Saw.Median, date.Median}, {&way.Ready.High,
		way.Saw.High, date.High}} {
		total := one.saw.At + one.leaf.At
		*one.to = readiness.Date{At: min(total, horizon), Within: one.saw.Within && one.leaf.Within && total <= horizon}
	}
	way.Leaf, err = leaf.Posterior.Whole()
	return err
}

// until is the part of a course before a time.
func until(c readiness.Course, end quantity.Duration) readiness.Course {
	for i, at := range c.Times {
		if at.Days() >= end.Days() {
			return readiness.Course{Times: c.Times[:i:i], Mean: c.Mean[:i:i], Shell: c.Shell[:i:i], Core: c.Core[:i:i],
				Notes: c.Notes}
		}
	}
	return c
}
