package dry

import (
	"math"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// about fills in what may go wrong while a piece dries.
func (g *timing) about(way *TimingWay, f *forecast) error {
	way.Risks = []string{}
	if g.req.Ends != "" {
		reach, err := drying.UsualCheckReach(drying.EndSeal(g.req.Ends))
		if err != nil {
			return wire.Under("", err, [2]string{"end_seal", "ends"})
		}
		way.Ends = &EndAdvice{TrimLow: g.report.Length(reach.Low), TrimHigh: g.report.Length(reach.High), Remark: reach.Source}
	}
	var found SeasoningResult
	if err := f.surfaceChecks(g.ctx, &found); err != nil {
		return err
	}
	way.Checks = found.Checks
	if c := found.Checks; c != nil && c.Risk != string(drying.RiskLow) {
		way.Risks = append(way.Risks, "surface checks, "+c.Risk+": "+c.WhatToDo)
	}
	return nil
}

// risks are those of the way itself, all common practice.
func (g *timing) risks(r *TimingResult) {
	now, whole := &r.SawNow, &r.DryWhole
	wet := g.now.Value >= driedBefore
	if g.isReady {
		now.Risks = append(now.Risks, "let the leaves settle on stickers, both faces open and weight on top")
	} else {
		now.Risks = append(now.Risks, "thin leaves can cup, twist and check on their own: sticker them under weight and cover them for the first days",
			"figure and defects are not known yet, and the wood is committed to one use")
	}
	if limit := g.limits(readiness.Resaw, g.req.Billet.Thickness.SI).Gradient; limit > 0 && math.Abs(r.Moisture.CorePct-r.Moisture.ShellPct) > limit.Percent() {
		now.Risks = append(now.Risks, "shell and core are "+quantity.FormatNumber(math.Abs(r.Moisture.CorePct-r.Moisture.ShellPct), 1)+" points apart: the cut can pinch the blade and the leaves curl at once")
	}
	switch class := g.class(); {
	case class == species.Refractory && wet:
		whole.Risks = append(whole.Risks, "this wood dries slowly and checks easily: a thick billet can check at its face and inside; slow its first months, seal the ends")
		now.Risks = append(now.Risks, "this wood checks easily: leaves want slow air at first, sealed ends and a cover")
	case class == species.Easy:
		whole.Risks = append(whole.Risks, "this wood dries without much trouble, whole or sawn")
	case class == "":
		whole.Risks = append(whole.Risks, "the tables hold no drying class of this wood; ask those who dry it")
	}
	whole.Risks = append(whole.Risks, "a billet dried too fast keeps stress that springs when it is sawn, and no wait removes it: try a prong test first")
	if g.req.Ends == "" {
		const ends = "seal the ends today; how they are kept (ends) gives the trim to plan for"
		now.Risks, whole.Risks = append(now.Risks, ends), append(whole.Risks, ends)
	}
}

// recommend weighs the two ways: date, sets and cup.
func (g *timing) recommend(r *TimingResult) {
	g.risks(r)
	r.Recommendation = g.weigh(&r.SawNow, &r.DryWhole)
	words := map[string]string{
		"saw_now": "saw now", "dry_whole": "dry it whole", "toss_up": "a toss-up", "trade_off": "a trade-off", "neither": "neither way ends within the forecast",
	}
	r.Summary = words[r.Recommendation.Way] + "; " + g.wayInWords("sawn now", &r.SawNow) + "; " + g.wayInWords("dried whole", &r.DryWhole)
}

func (g *timing) wayInWords(name string, w *TimingWay) string {
	text := name + ": " + sets(w.Sets)
	if w.ReadyOn.Middle == "" {
		return text + ", leaves not ready within the forecast"
	}
	return text + ", leaves ready about " + wire.PlainDate(w.ReadyOn.Middle)
}

func sets(n int) string {
	if n == 1 {
		return "1 set"
	}
	return strconv.Itoa(n) + " sets"
}

// weigh compares two ways; every reason is said, also those against.
func (g *timing) weigh(now, whole *TimingWay) Advised {
	a := Advised{Reasons: []string{}}
	say := func(reason string) { a.Reasons = append(a.Reasons, reason) }
	if g.isReady {
		say("the billet is within the limits to resaw today")
		a.Way = "saw_now"
		return a
	}
	forNow, forWhole := 0, 0
	switch n, w := &now.ReadyOn, &whole.ReadyOn; {
	case n.Middle == "" && w.Middle == "":
		say("neither leaves nor billet come to rest near the target where they lie, within the forecast: " +
			"finish them in a drier room, or look further ahead with horizon_days")
		a.Way = "neither"
		return a
	case w.Middle == "":
		say("dried whole, the leaves are not ready within the forecast")
		forNow++
	case n.Middle == "":
		say("sawn now, the leaves are not ready within the forecast")
		forWhole++
	case overlap(n, w):
		say("the dates of the two ways overlap within their bands")
	case *n.MiddleDays < *w.MiddleDays:
		say("sawn now, the leaves are ready " + days(*w.MiddleDays-*n.MiddleDays) + " sooner, more than the bands of the dates")
		forNow++
	default:
		say("dried whole, the leaves are ready " + days(*n.MiddleDays-*w.MiddleDays) + " sooner, more than the bands of the dates")
		forWhole++
	}
	switch {
	case now.Sets == whole.Sets:
		say("both ways give " + sets(now.Sets))
	case now.Sets > whole.Sets:
		say("sawn now it gives " + sets(now.Sets) + " and not " + sets(whole.Sets))
		forNow++
	default:
		say("dried whole it gives " + sets(whole.Sets) + " and not " + sets(now.Sets) + ", because leaves need less over their final thickness")
		forWhole++
	}
	forNow, forWhole = g.weighCup(now, whole, say, forNow, forWhole)
	switch {
	case forNow > 0 && forWhole > 0:
		a.Way = "trade_off"
	case forNow > 0:
		a.Way = "saw_now"
	case forWhole > 0:
		a.Way = "dry_whole"
	default:
		a.Way = "toss_up"
	}
	return a
}

// weighCup counts a cup that the planned thickness does not hold, and a high
// risk of checks, against a way.
func (g *timing) weighCup(now, whole *TimingWay, say func(string), forNow, forWhole int) (int, int) {
	show := func(q wire.Quantity) string { return quantity.FormatNumber(q.Value, g.report.Places()) + " " + q.Unit }
	exceeds := func(w *TimingWay) bool { return w.Cup != nil && w.Cup.Exceeds }
	for _, one := range []struct {
		name string
		w    *TimingWay
	}{{"sawn now", now}, {"dried whole", whole}} {
		if exceeds(one.w) {
			say(one.name + ", leaf " + strconv.Itoa(one.w.Cup.Leaf) + " may cup by " + show(wire.Quantity{Value: one.w.Cup.Cup.Value, Unit: one.w.Cup.Cup.Unit}) + ", more than the " + show(one.w.Cup.Room) + " planned for flattening")
		}
	}
	switch {
	case exceeds(now) && !exceeds(whole):
		forWhole++
	case exceeds(whole) && !exceeds(now):
		forNow++
	}
	high := func(w *TimingWay) bool { return w.Checks != nil && w.Checks.Risk == string(drying.RiskHigh) }
	switch {
	case high(now) && !high(whole):
		say("leaves sawn now dry faster at their faces than this wood safely takes")
		forWhole++
	case high(whole) && !high(now):
		say("the billet dries faster at its faces than this wood safely takes at that thickness")
		forNow++
	}
	return forNow, forWhole
}

// overlap says whether the bands of two dates have days in common.
func overlap(a, b *ReachedOn) bool {
	end := func(d *float64) float64 {
		if d == nil {
			return math.Inf(1)
		}
		return *d
	}
	return *a.EarlyDays <= end(b.LateDays) && *b.EarlyDays <= end(a.LateDays)
}

// days words a span of time.
func days(n float64) string {
	if n >= 60 {
		return "about " + quantity.FormatNumber(n/30.44, 0) + " months"
	}
	return "about " + quantity.FormatNumber(n, 0) + " days"
}
