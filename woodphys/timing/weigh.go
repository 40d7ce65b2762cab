package timing

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// scales weigh the reasons for the two ways.
type scales struct {
	Advised
	forNow, forWhole int
	cupForbids       bool // the leaves of today would be lost by their cup
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
	if ready {
		return Advised{SawNow, []Reason{{Kind: ReasonReady}}}
	}
	if !now.Ready.Median.Within && !whole.Ready.Median.Within {
		return Advised{NoWay, []Reason{{Kind: ReasonNeither}}}
	}
	var s scales
	s.dates(&now.Ready, &whole.Ready)
	s.sets(now.Cut.Sets, whole.Cut.Sets)
	s.cups(now, whole)
	s.checks(now, whole)
	switch {
	case s.cupForbids && whole.Ready.Median.Within:
		s.Way = DryWhole
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

// dates weighs when the leaves are ready.
func (s *scales) dates(now, whole *readiness.ReadyDate) {
	sooner := func(a, b *readiness.ReadyDate) float64 { return b.Median.At.Days() - a.Median.At.Days() }
	switch {
	case !whole.Median.Within:
		s.say(Reason{Kind: ReasonNotReady, Way: DryWhole}, SawNow)
	case !now.Median.Within:
		s.say(Reason{Kind: ReasonNotReady, Way: SawNow}, DryWhole)
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

// sets weighs how much each way gives.
func (s *scales) sets(now, whole int) {
	switch {
	case now == whole:
		s.say(Reason{Kind: ReasonSameSets, Sets: now}, TossUp)
	case now > whole:
		s.say(Reason{Kind: ReasonMoreSets, Way: SawNow, Sets: now, Others: whole}, SawNow)
	default:
		s.say(Reason{Kind: ReasonMoreSets, Way: DryWhole, Sets: whole, Others: now}, DryWhole)
	}
}

// muchMore is how many times the cup over its room of one way is that of the other before
// it counts, where it exceeds the room in either. Own choice.
const muchMore = 1.5

// cups counts a cup that the planned thickness does not hold against a way, by how far it
// exceeds it: a cup of four times its room is not weighed up by one that just exceeds it.
func (s *scales) cups(now, whole *Way) {
	exceeds := func(w *Way) bool { return w.Cut.Cup != nil && w.Cut.Cup.Exceeds }
	for _, one := range []struct {
		name WayName
		way  *Way
	}{{SawNow, now}, {DryWhole, whole}} {
		if exceeds(one.way) {
			c := one.way.Cut.Cup
			s.say(Reason{Kind: ReasonCup, Way: one.name, Leaf: c.Leaf, Cup: c.Cup.Value, Room: c.Room}, TossUp)
		}
	}
	over := func(w *Way) float64 {
		if w.Cut.Cup == nil {
			return 0
		}
		return float64(w.Cut.Cup.Cup.Value / max(w.Cut.Cup.Room, leastRoom))
	}
	a, b := over(now), over(whole)
	switch {
	case exceeds(now) && (!exceeds(whole) || a > muchMore*b):
		s.count(DryWhole)
		if a > cupForbids && !exceeds(whole) {
			s.count(DryWhole)
			s.cupForbids = true
		}
	case exceeds(whole) && (!exceeds(now) || b > muchMore*a):
		s.count(SawNow)
	}
}

// leastRoom keeps the share of a cup finite.
const leastRoom = 0.1 * quantity.Millimetre

// cupForbids is the cup of leaves over its room from which they are lost as sawn: no date
// makes up for it. Own choice.
const cupForbids = 3.0

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
