package timing

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/wood"
)

// ready is a date with its band, in days; a late end of 0 lies beyond the forecast.
func ready(early, middle, late float64) readiness.ReadyDate {
	on := func(days float64) readiness.Date {
		return readiness.Date{At: quantity.Duration(days) * quantity.Day, Within: days > 0}
	}
	d := readiness.ReadyDate{Low: on(early), Median: on(middle), High: on(late), Kept: 1}
	if middle == 0 {
		d.Never, d.Kept = 1, 0
	}
	return d
}

// unkept is a date that has no day because most cases are ready now and then only.
var unkept = readiness.ReadyDate{Never: 0.1, Kept: 0.25, Likeliest: readiness.Likeliest{Share: 0.6, After: 0.1}}

// way is a way with what is weighed.
func way(r readiness.ReadyDate, sets int, cups bool, severity drying.Severity) *Way {
	w := &Way{Ready: r, Cut: Cut{Sets: sets, Flat: sets, Finished: 5 * quantity.Millimetre, Cup: &Cup{Leaf: 3, Exceeds: cups}}}
	w.Cut.Cup.Cup.Value, w.Cut.Cup.Room, w.Cut.Leaf = 0.5*quantity.Millimetre, 1*quantity.Millimetre, 5*quantity.Millimetre
	if cups {
		w.Cut.Cup.Cup.Value = 2 * quantity.Millimetre
	}
	if severity != "" {
		w.Checks = &drying.CheckRisk{Severity: severity}
	}
	return w
}

func kinds(a Advised) (list []ReasonKind) {
	for _, r := range a.Reasons {
		list = append(list, r.Kind)
	}
	return list
}

// Each reason counts for a way or for none, and all are told.
func TestWeigh(t *testing.T) {
	soon, late, wide, never := ready(20, 30, 40), ready(100, 120, 150), ready(25, 130, 0), ready(0, 0, 0)
	for name, c := range map[string]struct {
		now, whole *Way
		way        WayName
		reasons    []ReasonKind
	}{
		"sooner, as many":           {way(soon, 2, false, ""), way(late, 2, false, ""), SawNow, []ReasonKind{ReasonSooner, ReasonSameSets}},
		"later, as many":            {way(late, 2, false, ""), way(soon, 2, false, ""), DryWhole, []ReasonKind{ReasonSooner, ReasonSameSets}},
		"sooner, but none":          {way(soon, 0, false, ""), way(late, 3, false, ""), DryWhole, []ReasonKind{ReasonSooner, ReasonOnly}},
		"later, and none whole":     {way(late, 1, false, ""), way(soon, 0, false, ""), SawNow, []ReasonKind{ReasonSooner, ReasonOnly}},
		"none either way":           {way(soon, 0, false, ""), way(late, 0, false, ""), NoWay, []ReasonKind{ReasonNoSet}},
		"sooner, but fewer":         {way(soon, 2, false, ""), way(late, 3, false, ""), TradeOff, []ReasonKind{ReasonSooner, ReasonMoreSets}},
		"alike, and more":           {way(soon, 3, false, ""), way(wide, 2, false, ""), SawNow, []ReasonKind{ReasonOverlap, ReasonMoreSets}},
		"alike in all":              {way(soon, 2, false, ""), way(wide, 2, false, ""), TossUp, []ReasonKind{ReasonOverlap, ReasonSameSets}},
		"never now":                 {way(never, 2, false, ""), way(late, 2, false, ""), DryWhole, []ReasonKind{ReasonNotReady, ReasonSameSets}},
		"never whole":               {way(soon, 2, false, ""), way(never, 2, false, ""), SawNow, []ReasonKind{ReasonNotReady, ReasonSameSets}},
		"never at all":              {way(never, 3, true, ""), way(never, 2, false, ""), NoWay, []ReasonKind{ReasonNeither}},
		"not kept now":              {way(unkept, 2, false, ""), way(late, 2, false, ""), DryWhole, []ReasonKind{ReasonNotKept, ReasonSameSets}},
		"not kept whole":            {way(soon, 2, false, ""), way(unkept, 2, false, ""), SawNow, []ReasonKind{ReasonNotKept, ReasonSameSets}},
		"not kept at all":           {way(unkept, 3, true, ""), way(unkept, 2, false, ""), NoWay, []ReasonKind{ReasonNotKept, ReasonNotKept}},
		"cups now":                  {way(soon, 2, true, ""), way(wide, 2, false, ""), DryWhole, []ReasonKind{ReasonOverlap, ReasonSameSets, ReasonCup}},
		"cups either way":           {way(soon, 2, true, ""), way(wide, 2, true, ""), TossUp, []ReasonKind{ReasonOverlap, ReasonSameSets, ReasonCup, ReasonCup}},
		"checks now":                {way(soon, 2, false, drying.RiskHigh), way(wide, 2, false, drying.RiskLow), DryWhole, []ReasonKind{ReasonOverlap, ReasonSameSets, ReasonChecks}},
		"checks whole":              {way(soon, 2, false, drying.RiskModerate), way(wide, 2, false, drying.RiskHigh), SawNow, []ReasonKind{ReasonOverlap, ReasonSameSets, ReasonChecks}},
		"checks either way":         {way(soon, 2, false, drying.RiskHigh), way(wide, 2, false, drying.RiskHigh), TossUp, []ReasonKind{ReasonOverlap, ReasonSameSets}},
		"sooner, but cups and less": {way(soon, 1, true, drying.RiskHigh), way(late, 3, false, ""), TradeOff, []ReasonKind{ReasonSooner, ReasonMoreSets, ReasonCup, ReasonChecks}},
	} {
		a := weigh(false, c.now, c.whole)
		assert.Equal(t, c.way, a.Way, name)
		assert.Equal(t, c.reasons, kinds(a), name)
		sawn := weigh(true, c.now, c.whole)
		if c.now.Cut.Sets+c.whole.Cut.Sets == 0 {
			assert.Equal(t, a, sawn, "what gives no set is not sawn, however dry: %s", name)
			continue
		}
		assert.Equal(t, SawNow, sawn.Way, "a billet that is ready is not weighed")
		assert.Equal(t, Reason{Kind: ReasonReady}, sawn.Reasons[0])
		assert.Equal(t, c.now.NotKept(), len(sawn.Reasons) == 2, "but that its leaves do not stay ready is told: %s", name)
	}
	a := weigh(false, way(soon, 1, true, ""), way(late, 3, false, ""))
	assert.Equal(t, []Reason{
		{Kind: ReasonSooner, Way: SawNow, Days: 90},
		{Kind: ReasonMoreSets, Way: DryWhole, Sets: 3, Others: 1},
		{Kind: ReasonCup, Way: SawNow, Leaf: 3, Cup: 2 * quantity.Millimetre, Room: 1 * quantity.Millimetre},
	}, a.Reasons)
}

// A cup counts by what is missing of the finished leaf: much of it forbids a way, however
// soon; one that is not to be expected is told with how likely it is.
func TestCupsAreWeighedByWhatIsMissing(t *testing.T) {
	soon, late := ready(20, 30, 40), ready(100, 120, 150)
	cupped := func(r readiness.ReadyDate, cup, room float64) *Way {
		w := way(r, 2, cup > room, "")
		w.Cut.Cup.Cup.Value, w.Cut.Cup.Room = quantity.Length(cup)*quantity.Millimetre, quantity.Length(room)*quantity.Millimetre
		return w
	}
	for _, c := range []struct {
		now, nowRoom, whole, wholeRoom float64
		way                            WayName
	}{
		{3, 2, 0.4, 0.5, TradeOff},   // one millimetre is missing, of leaves of five
		{7.4, 2, 2.3, 0.5, DryWhole}, // more than half of the leaf is, now; of either, more than what is planned by as many times
		{2, 0.5, 1.9, 0.5, SawNow},   // alike
		{5, 2, 5, 0.5, SawNow},       // lost either way
		{0.6, 0.5, 3, 0.5, SawNow},
		{0.6, 0.5, 8, 0.5, SawNow}, // lost dried whole
	} {
		a := weigh(false, cupped(soon, c.now, c.nowRoom), cupped(late, c.whole, c.wholeRoom))
		assert.Equal(t, c.way, a.Way, "%v", c)
	}
	may := way(soon, 2, false, "")
	may.Cut.Cup.Over, may.Cut.Cup.Cup.High = 0.16, 9*quantity.Millimetre
	assert.Contains(t, weigh(false, may, way(late, 2, false, "")).Reasons,
		Reason{Kind: ReasonMayCup, Way: SawNow, Leaf: 3, Cup: 9 * quantity.Millimetre, Room: 1 * quantity.Millimetre, Probability: 0.16})
}

// The word is what the reasons say: whoever reads them alone, each for a way, comes to it. Where
// they pull apart it is a trade-off, but where one of them says that it decides.
func TestTheWordFollowsTheReasons(t *testing.T) {
	dates := []readiness.ReadyDate{ready(20, 30, 40), ready(100, 120, 150), ready(25, 130, 0), ready(0, 0, 0), unkept}
	words := map[WayName]int{}
	for _, first := range dates {
		for _, second := range dates {
			for sets := range 3 {
				for _, cups := range [][2]float64{{0.5, 0.5}, {2, 0.5}, {0.5, 2}, {7, 0.5}, {7, 6.8}, {7, 2}} {
					for _, severity := range [][2]drying.Severity{{"", ""}, {drying.RiskHigh, ""}, {"", drying.RiskHigh}} {
						now, whole := way(first, 1, cups[0] > 1, severity[0]), way(second, sets, cups[1] > 1, severity[1])
						now.Cut.Cup.Cup.Value, whole.Cut.Cup.Cup.Value = quantity.Length(cups[0])*quantity.Millimetre, quantity.Length(cups[1])*quantity.Millimetre
						a := weigh(false, now, whole)
						assert.Equal(t, read(a.Reasons), a.Way, "%v", a.Reasons)
						words[a.Way]++
					}
				}
			}
		}
	}
	assert.Len(t, words, 5, "%v", words)
}

// read is what a reader makes of reasons.
func read(list []Reason) WayName {
	speaks := map[WayName]bool{}
	other := map[WayName]WayName{SawNow: DryWhole, DryWhole: SawNow}
	cup, open := map[WayName]quantity.Length{}, 0
	for _, r := range list {
		switch r.Kind {
		case ReasonNeither, ReasonNoSet:
			return NoWay
		case ReasonOnly:
			return r.Way
		case ReasonLost:
			return other[r.Way]
		case ReasonSooner, ReasonMoreSets:
			speaks[r.Way] = true
		case ReasonNotKept:
			open++
			speaks[other[r.Way]] = true
		case ReasonNotReady, ReasonChecks:
			speaks[other[r.Way]] = true
		case ReasonCup:
			cup[r.Way] = r.Cup - r.Room
		case ReasonReady, ReasonOverlap, ReasonSameSets, ReasonMayCup, ReasonAllowance:
		}
	}
	for name, missing := range cup {
		if missing > muchMore*cup[other[name]] {
			speaks[other[name]] = true
		}
	}
	switch {
	case open == 2:
		return NoWay
	case speaks[SawNow] && speaks[DryWhole]:
		return TradeOff
	case speaks[SawNow]:
		return SawNow
	case speaks[DryWhole]:
		return DryWhole
	}
	return TossUp
}

// What may go wrong follows from the wood, how wet it is, and what was told.
func TestRisks(t *testing.T) {
	has := func(list []Risk, kind RiskKind) bool {
		for _, r := range list {
			if r.Kind == kind {
				return true
			}
		}
		return false
	}
	risksOf := func(ease wood.Ease, mean quantity.Moisture, seal drying.EndSeal) (now, whole []Risk) {
		q := asked(t)
		q.Wood.Ease, q.Moisture, q.Ends = ease, Moisture{Mean: mean, CoreOverShell: over(0)}, seal
		w := &work{q: q, now: quantity.NormalBand(mean, quantity.Moisture(0)), profile: parabola(mean, 0)}
		w.ready = w.readyNow()
		a := &Answer{}
		w.risks(a)
		return a.SawNow.Risks, a.DryWhole.Risks
	}
	now, whole := risksOf(wood.Refractory, 0.40, "")
	assert.True(t, has(whole, RiskThickChecks))
	assert.True(t, has(now, RiskLeavesCheck))
	assert.True(t, has(now, RiskEnds) && has(whole, RiskEnds), "nothing was told of them")
	assert.True(t, has(now, RiskThinLeaves) && has(now, RiskCommitted))
	assert.True(t, has(whole, RiskStress))
	now, whole = risksOf(wood.Refractory, 0.15, drying.SealedFresh)
	assert.False(t, has(whole, RiskThickChecks), "the time when it checks has passed")
	assert.False(t, has(now, RiskLeavesCheck))
	assert.False(t, has(now, RiskEnds) || has(whole, RiskEnds))
	_, whole = risksOf(wood.Easy, 0.40, "")
	assert.True(t, has(whole, RiskEasyWood))
	_, whole = risksOf(wood.Moderate, 0.40, "")
	assert.False(t, has(whole, RiskEasyWood) || has(whole, RiskUnknownWood))
	_, whole = risksOf("", 0.40, "")
	assert.True(t, has(whole, RiskUnknownWood))
	now, _ = risksOf(wood.Moderate, 0.10, "")
	assert.True(t, has(now, RiskSettle))
	assert.False(t, has(now, RiskThinLeaves))
}
