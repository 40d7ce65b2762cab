package seasoning

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
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
}

// Conditions of the harms. The moisture contents are those of the trade (Wood Handbook
// ch. 5, 13 and 14, from memory): fungi need 20 % at the surface to grow mould, about 25 %
// in sapwood to stain and fibre saturation to rot; temperatures and spans are common
// practice, no source.
const (
	mouldShell    = 20 * quantity.PercentMC
	stainMean     = 25 * quantity.PercentMC
	decayMean     = 30 * quantity.PercentMC
	freshMean     = 40 * quantity.PercentMC
	mouldWarm     = 5.0 // degC
	stainWarm     = 10.0
	hot           = 45.0 // above which wet hardwood caves in or opens inside
	warm          = 35.0 // above which a dry skin sets
	mouldAfter    = 21 * quantity.Day
	stainAfter    = 14 * quantity.Day
	decayAfter    = 180 * quantity.Day
	insectsAfter  = 7 * quantity.Day
	hotAfter      = 1 * quantity.Day
	setGradient   = 8 * quantity.PercentMC
	collapseCore  = 50 * quantity.PercentMC
	honeycombCore = 28 * quantity.PercentMC
)

// DefectsOf returns the harms whose conditions hold on the course of a wood in its stays,
// in the order of the kinds. Of wood that starts below 25 %MC those of wet wood do not hold.
//
// Accuracy: rules of the trade, no more: whether harm comes of it hangs on the log, its
// sapwood, the season and the care taken.
//
// Source: common practice; moisture contents from memory, see the constants.
func DefectsOf(w *wood.Wood, phases []drying.Phase, course *readiness.Course) []Defect {
	if len(course.Times) == 0 {
		return nil
	}
	list := make([]Defect, 0, len(defectRules))
	for i := range defectRules {
		rule := &defectRules[i]
		if rule.of != nil && !rule.of(w) {
			continue
		}
		d := Defect{Kind: rule.kind, From: -1, Detail: rule.detail, Advice: rule.advice}
		for k, at := range course.Times {
			s := stateAt(phases, course, k)
			if !rule.holds(&s) {
				continue
			}
			if d.From < 0 {
				d.From = at
			}
			if k+1 < len(course.Times) {
				d.Span += course.Times[k+1] - at
			}
		}
		if d.Span > rule.after {
			list = append(list, d)
		}
	}
	return list
}

// stateOfDrying is the wood and its air at a time.
type stateOfDrying struct {
	mean, shell, core quantity.Moisture
	celsius           float64
	piling            drying.Piling
}

func stateAt(phases []drying.Phase, course *readiness.Course, k int) stateOfDrying {
	s := stateOfDrying{mean: course.Mean[k].Value, shell: course.Shell[k].Value, core: course.Core[k].Value, celsius: math.NaN()}
	end := quantity.Duration(0)
	for i := range phases {
		end += phases[i].Length
		if course.Times[k] < end || i == len(phases)-1 {
			t, _ := phases[i].Climate.At(course.Times[k])
			s.celsius, s.piling = t.Celsius(), phases[i].Exposure.Piling
			break
		}
	}
	return s
}

// defectRule says when a harm is to be looked out for, and what to do.
type defectRule struct {
	kind   DefectKind
	of     func(*wood.Wood) bool // nil: any wood
	holds  func(*stateOfDrying) bool
	after  quantity.Duration
	detail string
	advice []string
}

func broadleaved(w *wood.Wood) bool { return w.Listing != wood.ListedSoftwood }

func refractory(w *wood.Wood) bool { return broadleaved(w) && w.Ease != wood.Easy }

var defectRules = []defectRule{
	{kind: Mould, after: mouldAfter, holds: func(s *stateOfDrying) bool { return s.shell > mouldShell && s.celsius > mouldWarm },
		detail: "the surface stays wet and warm enough for mould",
		advice: []string{"let air reach every face: stickers of even thickness, no film, a fan where the air stands", "brush mould off outdoors with a fitted mask; it harms lungs"}},
	{kind: Stain, after: stainAfter, holds: func(s *stateOfDrying) bool { return s.mean > stainMean && s.celsius > stainWarm },
		detail: "sapwood stays wet and warm enough for fungi and its own juices to stain it, pale woods most",
		advice: []string{"saw in the cold months and stack on dry stickers the day it is sawn", "dry the surface fast at first, as far as checks allow"}},
	{kind: Decay, after: decayAfter, holds: func(s *stateOfDrying) bool { return s.mean > decayMean && s.celsius > stainWarm },
		detail: "the wood stays above fibre saturation for half a year of warm weather, long enough to rot",
		advice: []string{"open the stack or move it to drier air"}},
	{kind: Insects, of: broadleaved, after: insectsAfter, holds: func(s *stateOfDrying) bool { return s.mean > freshMean && s.celsius > 15 },
		detail: "fresh wood in warm weather draws beetles that bore into it, bark and sapwood first",
		advice: []string{"take the bark off and stack away from logs", "look for fine dust under the stack; heat through and through, as a kiln gives, ends them"}},
	{kind: Honeycomb, of: refractory, after: hotAfter, holds: func(s *stateOfDrying) bool { return s.core > honeycombCore && s.celsius > hot },
		detail: "this wood may open inside when it is hot while its core is wet, and nothing shows on the face",
		advice: []string{"keep it no warmer than a hot summer day until the core is under 25 %; thick stock of such woods is air-dried first", "cut a test piece across before the whole stack is used"}},
	{kind: Collapse, of: refractory, after: hotAfter, holds: func(s *stateOfDrying) bool { return s.core > collapseCore && s.celsius > hot },
		detail: "cells full of water may cave in when the wood is hot",
		advice: []string{"begin cool; what has caved in is often brought back by steam, which is work for a kiln"}},
	{kind: Casehardening, after: hotAfter, holds: func(s *stateOfDrying) bool {
		return s.core-s.shell > setGradient && s.shell < mouldShell && s.celsius > warm && s.piling != drying.WidePile
	},
		detail: "the skin sets while the core is wet: resawn leaves cup though the moisture is even",
		advice: []string{"before it is resawn cut a prong test: prongs that bend inward tell of it", "condition it at the end: warm damp air, some 4 points above the target, until the prongs stay straight"}},
}
