package timing

import (
	"cmp"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// scales weigh the reasons for the two ways.
type scales struct {
	Advised
	forNow, forWhole int
	only             WayName // that gives sets, where the other gives none; empty: none
	lost             WayName // whose leaves would be lost by their cup, and those of the other not; empty: neither
}

// say tells a reason, which counts for a way, or for none.
func (s *scales) say(r Reason, counts WayName) {
	s.Reasons = append(s.Reasons, r)
	s.count(counts)
}

func (s *scales) count(way WayName) {
	switch way {
	case SawNow:
		s.forNow++
	case DryWhole:
		s.forWhole++
	case TossUp, TradeOff, NoWay:
	}
}

// weigh compares two ways; ready says that the billet may be resawn today.
func weigh(ready bool, now, whole *Way) Advised {
	if now.Cut.Sets == 0 && whole.Cut.Sets == 0 {
		return Advised{NoWay, []Reason{{Kind: ReasonNoSet}}}
	}
	if ready {
		a := Advised{SawNow, []Reason{{Kind: ReasonReady}}}
		if now.NotKept() {
			a.Reasons = append(a.Reasons, now.undated(SawNow))
		}
		return a
	}
	if !now.Ready.Median.Within && !whole.Ready.Median.Within {
		if now.NotKept() && whole.NotKept() { // and no longer forecast helps
			return Advised{NoWay, []Reason{now.undated(SawNow), whole.undated(DryWhole)}}
		}
		return Advised{NoWay, []Reason{{Kind: ReasonNeither}}}
	}
	var s scales
	s.dates(now, whole)
	s.sets(now, whole)
	s.allowance(&now.Cut, &whole.Cut)
	s.cups(now, whole)
	s.checks(now, whole)
	switch {
	case s.only != "":
		s.Way = s.only
	case s.lost == SawNow && whole.Ready.Median.Within:
		s.decide(DryWhole, s.forNow, &now.Cut)
	case s.lost == DryWhole && now.Ready.Median.Within:
		s.decide(SawNow, s.forWhole, &whole.Cut)
	case s.forNow > 0 && s.forWhole > 0:
		s.Way = TradeOff
	case s.forNow > 0:
		s.Way = SawNow
	case s.forWhole > 0:
		s.Way = DryWhole
	default:
		s.Way = TossUp
	}
	return s.Advised
}

// decide goes one way because the leaves of the other, as they are cut, would be lost. What
// speaks for that other does not count then, and where there is something that is said.
func (s *scales) decide(way WayName, others int, lost *Cut) {
	s.Way = way
	if others > 0 {
		s.Reasons = append(s.Reasons, Reason{Kind: ReasonLost, Way: s.lost, Leaf: lost.Cup.Leaf, Cup: lost.missing(), Room: lost.Finished})
	}
}

// NotKept reports leaves that are ready in passing where they lie, and do not stay so.
//
// Accuracy: that of the forecast.
//
// Source: own choice, as readiness.ReadyDate.Undated.
func (w *Way) NotKept() bool { return w.Ready.Undated() == readiness.UndatedPassing }

// undated is why there is no day on which the leaves of a way are ready.
func (w *Way) undated(name WayName) Reason {
	if w.NotKept() {
		return Reason{Kind: ReasonNotKept, Way: name, Probability: w.Ready.Kept}
	}
	return Reason{Kind: ReasonNotReady, Way: name}
}

// dates weighs when the leaves are ready.
func (s *scales) dates(sawn, dried *Way) {
	now, whole := &sawn.Ready, &dried.Ready
	sooner := func(a, b *readiness.ReadyDate) float64 { return b.Median.At.Days() - a.Median.At.Days() }
	switch {
	case !whole.Median.Within:
		s.say(dried.undated(DryWhole), SawNow)
	case !now.Median.Within:
		s.say(sawn.undated(SawNow), DryWhole)
	case overlap(now, whole):
		s.say(Reason{Kind: ReasonOverlap}, TossUp)
	case now.Median.At.Days() < whole.Median.At.Days():
		s.say(Reason{Kind: ReasonSooner, Way: SawNow, Days: sooner(now, whole)}, SawNow)
	default:
		s.say(Reason{Kind: ReasonSooner, Way: DryWhole, Days: sooner(whole, now)}, DryWhole)
	}
}

// overlap says whether the bands of two dates have days in common.
func overlap(a, b *readiness.ReadyDate) bool {
	end := func(d readiness.Date) float64 {
		if !d.Within {
			return math.Inf(1)
		}
		return d.At.Days()
	}
	return a.Low.At.Days() <= end(b.High) && b.Low.At.Days() <= end(a.High)
}

// sets weighs how many sets each way gives that come flat. Where one gives none at all, and the
// other ends, that decides.
func (s *scales) sets(sawn, dried *Way) {
	now, whole := sawn.Cut.Flat, dried.Cut.Flat
	bent := now < sawn.Cut.Sets || whole < dried.Cut.Sets
	switch {
	case sawn.Cut.Sets == 0 && dried.Ready.Median.Within:
		s.only = DryWhole
		s.say(Reason{Kind: ReasonOnly, Way: DryWhole, Sets: dried.Cut.Sets}, DryWhole)
	case dried.Cut.Sets == 0 && sawn.Ready.Median.Within:
		s.only = SawNow
		s.say(Reason{Kind: ReasonOnly, Way: SawNow, Sets: sawn.Cut.Sets}, SawNow)
	case now == whole:
		s.say(Reason{Kind: ReasonSameSets, Sets: now, Bent: bent}, TossUp)
	case now > whole:
		s.say(Reason{Kind: ReasonMoreSets, Way: SawNow, Sets: now, Others: whole, Bent: bent}, SawNow)
	default:
		s.say(Reason{Kind: ReasonMoreSets, Way: DryWhole, Sets: whole, Others: now, Bent: bent}, DryWhole)
	}
}

// allowance tells that what is planned for flattening decides about the sets: that leaves sawn so
// thick that all of them come flat would give more sets the other way, or as many both ways.
func (s *scales) allowance(now, whole *Cut) {
	if now.FlatLeaf == 0 || whole.FlatLeaf == 0 || cmp.Compare(now.Flat, whole.Flat) == cmp.Compare(now.FlatSets, whole.FlatSets) {
		return
	}
	way, more, fewer := SawNow, now, whole
	if whole.FlatSets > now.FlatSets {
		way, more, fewer = DryWhole, whole, now
	}
	s.say(Reason{Kind: ReasonAllowance, Way: way, Sets: more.FlatSets, Others: fewer.FlatSets, Cup: more.FlatLeaf, Room: fewer.FlatLeaf}, TossUp)
}

// muchMore is how many times what the cup of one way exceeds its room by is that of the other
// before it counts. Own choice.
const muchMore = 1.5

// cups counts a cup that the planned thickness does not hold against a way, by how far it
// exceeds it: what is missing has to be planed off the finished leaf, so that ten
// millimetres too many are not weighed up by one, whatever was planned.
func (s *scales) cups(now, whole *Way) {
	for _, one := range []struct {
		name WayName
		way  *Way
	}{{SawNow, now}, {DryWhole, whole}} {
		c := one.way.Cut.Cup
		switch {
		case c == nil:
		case c.Exceeds:
			s.say(Reason{Kind: ReasonCup, Way: one.name, Leaf: c.Leaf, Cup: c.Cup.Value, Room: c.Room}, TossUp)
		case c.Over >= mayCup:
			s.say(Reason{Kind: ReasonMayCup, Way: one.name, Leaf: c.Leaf, Cup: c.Cup.High, Room: c.Room, Probability: c.Over}, TossUp)
		}
	}
	a, b := now.Cut.missing(), whole.Cut.missing()
	switch {
	case a > muchMore*b:
		s.count(DryWhole)
		s.loses(SawNow, &now.Cut, &whole.Cut)
	case b > muchMore*a:
		s.count(SawNow)
		s.loses(DryWhole, &whole.Cut, &now.Cut)
	}
}

// loses notes the way whose leaves would be lost, where those of the other would not: not where
// it still gives more sets that come flat, for it is the worst leaf that is looked at.
func (s *scales) loses(way WayName, of, other *Cut) {
	if of.lost() && !other.lost() && of.Flat <= other.Flat {
		s.lost = way
	}
}

// mayCup is the least probability of a cup over its room that is told. Own choice.
const mayCup = 0.05

// missing is by how much the cup exceeds what is planned for it.
func (c *Cut) missing() quantity.Length {
	if c.Cup == nil {
		return 0
	}
	return max(c.Cup.Cup.Value-c.Cup.Room, 0)
}

// lostFrom is the share of the finished thickness from which on leaves are lost by what is
// missing: no date makes up for it. Own choice.
const lostFrom = 0.5

func (c *Cut) lost() bool { return c.missing() > lostFrom*c.Finished }

// checks counts a high risk of surface checks against a way.
func (s *scales) checks(now, whole *Way) {
	high := func(w *Way) bool { return w.Checks != nil && w.Checks.Severity == drying.RiskHigh }
	switch {
	case high(now) && !high(whole):
		s.say(Reason{Kind: ReasonChecks, Way: SawNow}, DryWhole)
	case high(whole) && !high(now):
		s.say(Reason{Kind: ReasonChecks, Way: DryWhole}, SawNow)
	}
}
