package seasoning

import (
	"context"
	"math"
	"slices"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// DefectKind is a kind of harm that drying does.
type DefectKind string

// Kinds of harm.
const (
	Mould         DefectKind = "mould"
	Stain         DefectKind = "stain"
	Decay         DefectKind = "decay"
	Insects       DefectKind = "insects"
	Honeycomb     DefectKind = "honeycomb"
	Collapse      DefectKind = "collapse"
	Casehardening DefectKind = "casehardening"
)

// Defect is a harm to be looked out for.
type Defect struct {
	Kind   DefectKind
	From   quantity.Duration // since stacking, when its conditions first hold
	Span   quantity.Duration // for how long in all
	Detail string
	Advice []string
	Fast   bool // it comes of drying too fast, and not of heat
}

// Conditions of the harms. Fungi stain wood that is above fibre saturation inside while its
// faces stay above about 20 % (Air Drying of Lumber, AH-402, from memory), and need fibre
// saturation to rot it (Wood Handbook ch. 5, 13 and 14, from memory). Spans and the other
// temperatures are common practice, no source. The face is taken as the shell: thick stock, of
// which that is deeper and wet for longer, is the more liable to stain.
const (
	stainShell    = 20 * quantity.PercentMC
	stainCore     = 30 * quantity.PercentMC
	decayMean     = 30 * quantity.PercentMC
	freshMean     = 40 * quantity.PercentMC
	decayWarm     = 10.0 // degC
	insectsWarm   = 15.0
	fungiHot      = 42.0 // above which neither fungi nor beetles live long
	setWarm       = 35.0 // above which a dry skin sets
	decayAfter    = 180 * quantity.Day
	insectsAfter  = 21 * quantity.Day
	hotAfter      = 1 * quantity.Day
	dryFaceAfter  = 7 * quantity.Day
	dryFace       = 0.45 // relative humidity in balance with a face that is kept dry, as in heated rooms
	setGradient   = 8 * quantity.PercentMC
	setShell      = 20 * quantity.PercentMC
	collapseCore  = 50 * quantity.PercentMC
	honeycombCore = 28 * quantity.PercentMC
)

// hotFrom is from which temperature on, in degC, a wet core opens inside or caves in, by how the
// wood takes drying: some degrees above what the mild and the usual schedules start with (110 to
// 120 F for oaks, 120 to 130 F for maple, walnut and cherry; Simpson, ed., 1991, Dry Kiln
// Operator's Manual, USDA AH 188, ch. 7, from memory). Woods that dry easily stand what a shop
// can heat to, softwoods too.
var hotFrom = map[wood.Ease]float64{wood.Refractory: 46, wood.Moderate: 57, "": 57}

// heatedFrom is the warmest air of a room that nobody heats for the wood, in degC. Own choice.
const heatedFrom = 40.0

// Heated reports air that wood is heated in, at a temperature (-60 to 150 C).
//
// Accuracy: a rule of thumb. Source: own choice, no source.
func Heated(t quantity.Temperature) bool { return t.Celsius() > heatedFrom }

// thickFrom is from which thickness on schedules start milder, and by how many degrees.
const (
	thickFrom  = 38 * quantity.Millimetre
	thickCools = 4.0
)

// watched is the course of the middle forecast, looked at closely while the wood is wet and in
// a kiln, with where it lies.
type watched struct {
	drying.Course
	phases []drying.Phase
	wood   *drying.Transport
}

// Of how closely it is looked at, in steps of a day, of a week later, and of a share of a schedule.
const (
	watchedDaily  = 730 * quantity.Day
	watchedInKiln = 96
)

// watch runs the middle forecast.
func (o *Outlook) watch(ctx context.Context, p *Piece) (*watched, error) {
	job, err := o.Middle()
	if err != nil {
		return nil, err
	}
	job.Ends = nil // harm is that of the middle of the length
	total := quantity.Duration(0)
	for i := range job.Phases {
		total += job.Phases[i].Length
	}
	for at := quantity.Duration(0); at <= total; {
		job.Times = append(job.Times, at)
		if at < watchedDaily {
			at += quantity.Day
		} else {
			at += 7 * quantity.Day
		}
	}
	for i := range p.Kilns {
		k := &p.Kilns[i]
		for j := range watchedInKiln + 1 {
			if at := k.Begin + (k.End()-k.Begin)*quantity.Duration(float64(j)/watchedInKiln); at <= total {
				job.Times = append(job.Times, at)
			}
		}
	}
	slices.Sort(job.Times)
	course, err := o.solver.Run(ctx, &job)
	if err != nil {
		return nil, ofRun(err)
	}
	seen := &watched{Course: course, phases: job.Phases, wood: job.Transport}
	for _, list := range []*[]quantity.Moisture{&seen.Mean, &seen.Shell, &seen.Core, &seen.Surface} {
		*list = slices.Clone(*list) // the solver will use its own again
	}
	return seen, nil
}

// meanAt is the mean moisture content at a time.
func (c *watched) meanAt(at quantity.Duration) quantity.Moisture {
	i, _ := slices.BinarySearch(c.Times, at)
	return c.Mean[min(i, len(c.Mean)-1)]
}

// set says whether the skin sets in a span: dry outside, wet inside and warm.
func (c *watched) set(begin, end quantity.Duration) bool {
	span := quantity.Duration(0)
	for k := range len(c.Times) - 1 {
		if at := c.Times[k]; at >= begin && at < end {
			if s := c.at(k); sets(&s) {
				span += c.Times[k+1] - at
			}
		}
	}
	return span > hotAfter/2
}

// sets says whether the skin sets at a time.
func sets(s *stateOfDrying) bool {
	return s.core-s.shell > setGradient && s.shell < setShell && s.celsius > setWarm && s.piling != drying.WidePile
}

// defects returns the harms whose conditions hold on the course of the middle forecast, in the
// order of the kinds. Of wood that starts below 25 %MC those of wet wood do not hold.
//
// They are rules of the trade, no more: whether harm comes of it hangs on the log, its
// sapwood, the season and the care taken.
func (p *Piece) defects(course *watched, stress *CaseStress) []Defect {
	list := make([]Defect, 0, len(defectRules))
	hot, hottest := hotFrom[p.Wood.Ease]
	if !broadleaved(&p.Wood) || !hottest {
		hot = math.Inf(1)
	}
	if p.Thickness > thickFrom {
		hot -= thickCools
	}
	for i := range defectRules {
		rule := &defectRules[i]
		if rule.thick && p.Thickness <= thickFrom || rule.fast && slices.ContainsFunc(list, rule.same) {
			continue // told already, of heat
		}
		if rule.of != nil && !rule.of(&p.Wood) || rule.kind == Casehardening && stress != nil && !stress.left() {
			continue
		}
		dose := 0.0
		d := Defect{Kind: rule.kind, From: -1, Detail: rule.detail, Advice: rule.advice, Fast: rule.fast}
		for k, at := range course.Times {
			s := course.at(k)
			s.hot = hot
			if !rule.holds(&s) {
				continue
			}
			if d.From < 0 {
				d.From = at
			}
			if k+1 < len(course.Times) {
				span := course.Times[k+1] - at
				d.Span += span
				if rule.perDay != nil {
					dose += rule.perDay(&s) * span.Days()
				}
			}
		}
		if d.Span > rule.after && (rule.perDay == nil || dose > 1) {
			list = append(list, d)
		}
	}
	return list
}

// left says that stress is left in the skin.
func (c *CaseStress) left() bool { return c.State == CaseLikely || c.State == CasePartly }

// stateOfDrying is the wood and its air at a time.
type stateOfDrying struct {
	mean, shell, core quantity.Moisture
	damp              float64 // relative humidity in balance with the face, a fraction
	celsius, hot      float64 // hot: from which temperature on a wet core is harmed
	piling            drying.Piling
}

func (c *watched) at(k int) stateOfDrying {
	s := stateOfDrying{mean: c.Mean[k], shell: c.Shell[k], core: c.Core[k], celsius: math.NaN()}
	end := quantity.Duration(0)
	for i := range c.phases {
		end += c.phases[i].Length
		if c.Times[k] < end || i == len(c.phases)-1 {
			t, _ := c.phases[i].Climate.At(c.Times[k])
			s.celsius, s.piling = t.Celsius(), c.phases[i].Exposure.Piling
			isotherm := c.wood.Isotherm(t)
			s.damp = isotherm.Inverse(c.Surface[k])
			break
		}
	}
	return s
}

// from is the course from a day on.
func (c *watched) from(day quantity.Duration) *watched {
	later := *c
	first, _ := slices.BinarySearch(c.Times, day)
	later.Times, later.Mean, later.Shell = c.Times[first:], c.Mean[first:], c.Shell[first:]
	later.Core, later.Surface = c.Core[first:], c.Surface[first:]
	return &later
}

// living says that it is warm enough for what lives in wood from a temperature on, and not too hot.
func (s *stateOfDrying) living(from float64) bool { return s.celsius > from && s.celsius < fungiHot }

// mouldPerDay is the share of the way to mould that can be seen that a day at the face goes:
// 1/(7 t_v) with t_v in weeks, where the air at the face is damper than what mould needs; 0 where
// it is not, in frost and in heat.
//
// Source: Hukka and Viitanen 1999, Wood Science and Technology 33, 475-485 (read in
// transcriptions), for pine on a resawn face; other woods mould sooner or later by several times.
func mouldPerDay(celsius, rh float64) float64 {
	if !(celsius > 0.5) || celsius > fungiHot {
		return 0
	}
	t, least := celsius, 80.0
	if t < 20 {
		least = ((-0.00267*t+0.160)*t-3.13)*t + 100
	}
	percent := 100 * math.Min(rh, 0.97) // it was measured to there
	if percent < least {
		return 0
	}
	return math.Exp(0.74*math.Log(t)+12.72*math.Log(percent)-61.50) / 7
}

// Of the fungi that stain: they grow between stainCold and stainHot, fastest between stainBest and
// stainTooWarm, in degC (Air Drying of Lumber, AH-402, from memory).
const (
	stainCold, stainBest   = 5.0, 24.0
	stainTooWarm, stainHot = 29.0, 35.0
)

// stainPerDay is the share of the way to a stain that a day at a wet face goes: ten days at 15 C,
// half of that for every 10 K more up to where fungi grow fastest, so that it takes hold within the
// first days of a damp summer; less in heat, and none where they do not grow. The days are common
// practice, no source.
func stainPerDay(celsius float64) float64 {
	if !(celsius > stainCold && celsius < stainHot) {
		return 0
	}
	share := math.Exp2((math.Min(celsius, stainBest)-15)/10) / 10
	return share * math.Min(1, (stainHot-celsius)/(stainHot-stainTooWarm))
}

// defectRule says when a harm is to be looked out for, and what to do.
type defectRule struct {
	kind  DefectKind
	of    func(*wood.Wood) bool // nil: any wood
	holds func(*stateOfDrying) bool
	after quantity.Duration
	// perDay, where it is set, is the share of what it takes that a day adds; all of it has to
	// come together while it holds.
	perDay func(*stateOfDrying) float64
	thick  bool // of thick stock alone
	fast   bool // it comes of drying too fast, and is told where heat does not bring the same
	detail string
	advice []string
}

// same reports that a harm is of the kind of the rule.
func (r *defectRule) same(d Defect) bool { return d.Kind == r.kind }

// checksEasily reports woods that dry slowly and whose checks run deep.
func checksEasily(w *wood.Wood) bool { return broadleaved(w) && w.Ease == wood.Refractory }

func broadleaved(w *wood.Wood) bool { return !w.Conifer() }

var defectRules = []defectRule{
	{kind: Mould, perDay: func(s *stateOfDrying) float64 { return mouldPerDay(s.celsius, s.damp) },
		holds:  func(s *stateOfDrying) bool { return mouldPerDay(s.celsius, s.damp) > 0 },
		detail: "the surface stays damp and warm for long enough for mould to be seen",
		advice: []string{"let air reach every face: stickers of even thickness, no film, a fan where the air stands", "brush mould off outdoors with a fitted mask; it harms lungs"}},
	{kind: Stain, perDay: func(s *stateOfDrying) float64 { return stainPerDay(s.celsius) }, holds: func(s *stateOfDrying) bool {
		return s.shell > stainShell && s.core > stainCore && stainPerDay(s.celsius) > 0
	},
		detail: "sapwood stays wet and warm enough for fungi and its own juices to stain it, pale woods most",
		advice: []string{"saw in the cold months and stack on dry stickers the day it is sawn", "dry the surface fast at first, as far as checks allow"}},
	{kind: Decay, after: decayAfter, holds: func(s *stateOfDrying) bool { return s.mean > decayMean && s.living(decayWarm) },
		detail: "the wood stays above fibre saturation for half a year of warm weather, long enough to rot",
		advice: []string{"open the stack or move it to drier air"}},
	{kind: Insects, of: broadleaved, after: insectsAfter, holds: func(s *stateOfDrying) bool {
		return s.mean > freshMean && s.living(insectsWarm) && s.piling != drying.MovingAir
	},
		detail: "fresh wood in warm weather draws beetles that bore into it, bark and sapwood first",
		advice: []string{"take the bark off and stack away from logs", "look for fine dust under the stack; heat through and through, as a kiln gives, ends them"}},
	{kind: Honeycomb, after: hotAfter, holds: func(s *stateOfDrying) bool { return s.core > honeycombCore && s.celsius > s.hot },
		detail: "this wood may open inside when it is hot while its core is wet, and nothing shows on the face",
		advice: []string{"keep it no warmer than a hot summer day until the core is under 25 %; thick stock of such woods is air-dried first", "cut a test piece across before the whole stack is used"}},
	// Checks that deepen and close at the face again: Simpson, ed., 1991, Dry Kiln Operator's Manual,
	// USDA AH 188, ch. 8, from memory. How dry and how long: own choice.
	{kind: Honeycomb, of: checksEasily, thick: true, fast: true, after: dryFaceAfter,
		holds: func(s *stateOfDrying) bool { return s.core > honeycombCore && s.damp < dryFace },
		detail: "in air so dry the checks of thick stock of this wood may run deep while its core is wet, close at the face again and " +
			"leave it open inside, where nothing shows",
		advice: []string{"air-dry it first where the air is cool, damp and still, and bring it into dry air once its core is under 25 %",
			"cut a test piece across before the whole stack is used"}},
	{kind: Collapse, after: hotAfter, holds: func(s *stateOfDrying) bool { return s.core > collapseCore && s.celsius > s.hot },
		detail: "cells full of water may cave in when the wood is hot",
		advice: []string{"begin cool; what has caved in is often brought back by steam, which is work for a kiln"}},
	{kind: Casehardening, after: hotAfter, holds: sets,
		detail: "the skin sets while the core is wet: resawn leaves cup though the moisture is even",
		advice: []string{"before it is resawn cut a prong test: prongs that bend inward tell of it", "condition it at the end: warm damp air, some 4 points above the target, until the prongs stay straight"}},
}
