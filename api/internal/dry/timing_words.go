package dry

import (
	"math"
	"strconv"
	"strings"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/timing"
)

// result words the answer.
func (b *billetTimed) result(a *timing.Answer) *ResawTimingResult {
	r := &ResawTimingResult{
		Wood:   b.wood.Used(shelf.Beside("specific_gravity_green", "safe_daily_loss")...),
		Target: wire.MoistureBandOf(b.question.Rest.Moisture),
		Moisture: ProfileNow{Mean: wire.MoistureBandOf(a.Now), Shell: wire.MoistureBandOf(a.Shell), Core: wire.MoistureBandOf(a.Core),
			Origin: string(a.How)},
		SawNow: b.way(&a.SawNow), DryWhole: b.way(&a.DryWhole),
		TimeScale: TimeScale{ThicknessRatio: a.Scale.Thickness, Value: a.Scale.Computed, Low: a.Scale.Low, High: a.Scale.High,
			Unit: wire.UnitRatio},
		StandIns: b.bench.Usual.All, Recommendation: b.advised(&a.Advised),
	}
	way := wayWords[a.Advised.Way]
	if a.Advised.Way == timing.NoWay && a.SawNow.NotKept() && a.DryWhole.NotKept() {
		way = "neither way gives leaves that stay ready where they lie"
	}
	if a.SawNow.Cut.Sets == 0 && a.DryWhole.Cut.Sets == 0 {
		way = "neither way gives a set"
	}
	r.Summary = way + "; " + inWords("sawn now", &a.SawNow, &r.SawNow) + "; " +
		inWords("dried whole", &a.DryWhole, &r.DryWhole)
	r.chart = func(width int) []byte { return b.chart(r, a, width).draw() }
	return r
}

// way shows one way.
func (b *billetTimed) way(w *timing.Way) TimingWay {
	out := TimingWay{
		SawOn: b.stay.readyOn(&w.Saw), SawAt: wire.MoistureBandOf(w.SawAt), ReadyOn: b.stay.readyOn(&w.Ready),
		Leaf: b.leafBuild(&w.Cut), Width: b.report.Length(w.Cut.Width),
		Billet: b.report.Length(w.Cut.Billet), BilletWidth: b.report.Length(w.Cut.Broad),
		Leaves: w.Cut.Leaves, Sets: w.Cut.Sets, Unpaired: w.Cut.Odd, Cup: b.cup(&w.Cut),
		Checks: b.stay.checks(w.Checks), Factor: shelf.DescribeFactor(&w.Factor),
		Risks: []string{}, Series: b.stay.course(&w.Billet),
	}
	if w.Reach != nil {
		out.Ends = endsLose(b.req.Billet.EndSeal, w.Reach, b.report)
	}
	for _, risk := range w.Risks {
		out.Risks = append(out.Risks, riskInWords(risk, out.Checks))
	}
	for _, point := range b.stay.from(w.LeafFrom).course(&w.Leaf) {
		if w.LeafFrom != 0 {
			point.Days += w.LeafFrom.Days()
		}
		out.Series = append(out.Series, point)
	}
	return out
}

// from is the storage as it begins on the day of a time.
func (s *storage) from(at quantity.Duration) *storage {
	day, err := time.Parse(time.DateOnly, s.date(at))
	if err != nil { // it is a date
		return s
	}
	return &storage{start: day}
}

// leafBuild is the leaf as sawn and what it is made of.
func (b *billetTimed) leafBuild(c *timing.Cut) shelf.LeafBuild {
	build := shelf.LeafBuild{Thickness: b.report.Length(c.Leaf), Terms: append([]shelf.ThicknessTerm{}, b.build...)}
	if c.Extra > 0 {
		build.Terms = append(build.Terms, shelf.ThicknessTerm{Kind: "thick_and_thin", Thickness: b.report.Length(c.Extra)})
	}
	if c.Oversize > wire.ANanometre {
		build.Terms = append(build.Terms, shelf.ThicknessTerm{Kind: "oversize", Thickness: b.report.Length(c.Oversize)})
	}
	return build
}

func (b *billetTimed) cup(of *timing.Cut) *LeafCup {
	c := of.Cup
	if c == nil {
		return nil
	}
	return &LeafCup{Leaf: c.Leaf, Cup: b.report.LengthBand(c.Cup), Hollow: string(c.Hollow),
		Allowance: b.report.Length(c.Room), Exceeds: c.Exceeds, Over: c.Over,
		FlatLeaf: b.report.Length(of.FlatLeaf), FlatSets: of.FlatSets}
}

// wayWords say what the weighing comes to.
var wayWords = map[timing.WayName]string{
	timing.SawNow: "saw now", timing.DryWhole: "dry it whole", timing.TossUp: "a toss-up", timing.TradeOff: "a trade-off",
	timing.NoWay: "neither way ends within the forecast",
}

func inWords(name string, of *timing.Way, w *TimingWay) string {
	text := name + ": " + wire.CountOf(w.Sets, "set")
	switch bent := of.Cut.Sets - of.Cut.Flat; {
	case bent > 0 && of.Cut.Flat == 0:
		text += " that will not come flat"
	case bent > 0:
		text += ", of which " + strconv.Itoa(bent) + " will not come flat"
	}
	switch of.Ready.Undated() {
	case readiness.UndatedPassing:
		return text + ", leaves ready in passing, if at all, and not for long"
	case readiness.UndatedUnsure, readiness.UndatedLater:
		return text + ", leaves more likely not ready within the forecast than ready"
	case readiness.UndatedNever:
		return text + ", leaves not ready within the forecast"
	}
	return text + ", leaves ready about " + wire.PlainDate(w.ReadyOn.Value)
}

// advised words the weighing.
func (b *billetTimed) advised(a *timing.Advised) Recommendation {
	out := Recommendation{Way: string(a.Way), Reasons: []string{}}
	for i := range a.Reasons {
		out.Reasons = append(out.Reasons, b.reason(&a.Reasons[i]))
	}
	return out
}

// wayNames say which way a reason speaks of.
var wayNames = map[timing.WayName]string{timing.SawNow: "sawn now", timing.DryWhole: "dried whole"}

// reason is a reason in words.
func (b *billetTimed) reason(r *timing.Reason) string {
	sets := func(n int) string {
		switch {
		case r.Bent && n == 1:
			return "1 set that comes flat"
		case r.Bent:
			return wire.CountOf(n, "set") + " that come flat"
		}
		return wire.CountOf(n, "set")
	}
	switch name := wayNames[r.Way]; r.Kind {
	case timing.ReasonReady:
		return "the billet is within the limits to resaw today"
	case timing.ReasonNoSet:
		return "neither way gives a set: the billet gives fewer leaves than one needs, " +
			"sawn as thick as is told; see what one more leaf takes by its yield"
	case timing.ReasonNeither:
		return "neither leaves nor billet come to rest near the target where they lie, within the forecast: " +
			"finish them in a drier room, or look further ahead with horizon_days"
	case timing.ReasonOnly:
		return name + " it gives " + wire.CountOf(r.Sets, "set") + ", and the other way none, which decides"
	case timing.ReasonNotReady:
		return name + ", the leaves are not ready within the forecast"
	case timing.ReasonNotKept:
		return name + ", no date is given for the leaves, because they are ready in passing, if at all: " +
			percent(r.Probability) + " of the cases that are ready on their best days still are four weeks later; " +
			"bring the wood into the room it will be worked in"
	case timing.ReasonOverlap:
		return "the dates of the two ways overlap within their bands"
	case timing.ReasonSooner:
		return name + ", the leaves are ready " + spanInWords(r.Days) + " sooner, more than the bands of the dates"
	case timing.ReasonSameSets:
		return "both ways give " + sets(r.Sets)
	case timing.ReasonMoreSets:
		text := name + " it gives " + sets(r.Sets) + " and not " + strconv.Itoa(r.Others)
		if r.Way == timing.DryWhole && !r.Bent {
			text += ", because leaves need less over their final thickness"
		}
		return text
	case timing.ReasonCup:
		return name + ", leaf " + strconv.Itoa(r.Leaf) + " may cup by " + b.small(r.Cup) + ", more than the " +
			b.small(r.Room) + " planned for flattening"
	case timing.ReasonMayCup:
		return name + ", a leaf may cup by more than the " + b.small(r.Room) + " planned for flattening, in about " +
			quantity.FormatNumber(math.Ceil(10*r.Probability), 0) + " of 10 cases and by up to " + b.small(r.Cup)
	case timing.ReasonAllowance:
		other := wayNames[map[timing.WayName]timing.WayName{timing.SawNow: timing.DryWhole, timing.DryWhole: timing.SawNow}[r.Way]]
		return "the thickness planned for flattening decides that: sawn so thick that all leaves come flat, it gives " + wire.CountOf(r.Sets, "set") + " " +
			name + " (" + b.small(r.Cup) + ") and " + strconv.Itoa(r.Others) + " " + other + " (" + b.small(r.Room) + "); flattening of the part says how much is planned"
	case timing.ReasonLost:
		return name + ", the leaves would be lost: to get them flat takes " + b.small(r.Cup) + " off a finished thickness of " +
			b.small(r.Room) + "; that decides, whatever speaks for it"
	case timing.ReasonChecks:
		if r.Way == timing.SawNow {
			return "leaves sawn now dry faster at their faces than this wood safely takes"
		}
		return "the billet dries faster at its faces than this wood safely takes at that thickness"
	}
	return ""
}

// small is a small length in words.
func (b *billetTimed) small(l quantity.Length) string {
	q := b.report.Length(l)
	return quantity.FormatNumber(q.Value, b.report.Places()) + " " + q.Unit
}

// aMonth is the mean length of one in days; spans of two and more are told in months.
const aMonth = 30.44

// spanInWords is a span of days.
func spanInWords(days float64) string {
	if days >= 60 {
		return "about " + quantity.FormatNumber(days/aMonth, 0) + " months"
	}
	return "about " + quantity.FormatNumber(days, 0) + " days"
}

// riskInWords is a risk of a way, whose surface checks are those.
func riskInWords(r timing.Risk, checks *SurfaceChecks) string {
	switch r.Kind {
	case timing.RiskSurfaceChecks:
		return "surface checks, " + checks.Risk + ": " + strings.Join(checks.Advice, "; ")
	case timing.RiskDefect:
		return harm(r.Defect)
	case timing.RiskApart:
		return "shell and core are " + quantity.FormatNumber(r.Points, 1) +
			" points apart: the cut can pinch the blade and the leaves curl at once"
	default:
		return riskWords[r.Kind]
	}
}

// riskWords are the risks that need no figure.
var riskWords = map[timing.RiskKind]string{
	timing.RiskSettle: "let the leaves settle on stickers, both faces open and weight on top",
	timing.RiskThinLeaves: "thin leaves can cup, twist and check on their own: sticker them under weight and " +
		"cover them for the first days",
	timing.RiskCommitted: "figure and defects are not known yet, and the wood is committed to one use",
	timing.RiskThickChecks: "this wood dries slowly and checks easily: a thick billet can check at its face and " +
		"inside; slow its first months, seal the ends",
	timing.RiskLeavesCheck: "this wood checks easily: leaves want slow air at first, sealed ends and a cover",
	timing.RiskEasyWood:    "this wood dries without much trouble, whole or sawn",
	timing.RiskUnknownWood: "the tables hold no drying class of this wood; ask those who dry it",
	timing.RiskStress: "a billet dried too fast keeps stress that springs when it is sawn, and no wait " +
		"removes it: try a prong test first",
	timing.RiskCasehardened: "the billet is casehardened: its leaves cup as they leave the saw, hollow towards the middle; " +
		"condition it first in hot damp air, and feed slowly, for the cut may close on the blade",
	timing.RiskReversed: "its stress is reversed: leaves cup hollow towards the outside as they leave the saw",
	timing.RiskEnds:     "seal the ends today; how they are kept (end_seal) gives the trim to plan for",
}
