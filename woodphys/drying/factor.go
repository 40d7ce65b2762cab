package drying

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/wood"
)

// Origin says how a drying factor was come by.
type Origin string

// Origins of a drying factor.
const (
	Fitted    Origin = "fitted"    // to the published air-drying times of the wood
	Regressed Origin = "regressed" // from specific gravity and group, for want of such times
	Given     Origin = "given"     // by the caller, who knows the piece
)

// Factor is the drying factor k of a wood: what Siau's diffusivity is multiplied
// by to give the drying of stacked boards. Its logarithm is taken as normally
// distributed with median ln Median and standard deviation SpreadLog.
type Factor struct {
	Median    float64
	SpreadLog float64
	How       Origin
	// Pace is what a fitted factor rests on, SpecificGravity what a regressed one does.
	Pace            wood.Pace
	SpecificGravity float64
	Notes           method.Notes
}

// siteSpread is the least spread of ln k: pile, place and piece, a ratio of 1.4.
// Assumed from the prototype fits; it is meant to be narrowed by weighings.
var siteSpread = math.Log(1.4)

// regression is ln k = level + softwood (1 for softwoods) + gravity ln G, with
// the root mean square of its leave-one-out errors.
type regression struct{ level, softwood, gravity, leaveOneOut float64 }

var rowFactor = method.Method{
	ID: "drying.factor", Chapter: "drying",
	Summary:  "Drying factor of a wood, fitted to published air-drying times or estimated from specific gravity and group",
	Equation: "fitted: least squares of ln(days) at the fastest and slowest of 12 stacking months; else ln k = a + b [softwood] + c ln G",
	Inputs: []method.Input{
		{Name: "specific_gravity", Fitted: method.Range{Low: 0.31, High: 0.66}, Limit: method.Range{Low: 0.1, High: 1.2}},
	},
	Accuracy: "a ratio of 1.4 (1 SD) at least; estimated factors by the leave-one-out error; the fit is in-sample and rests on recalled national spans without a place",
	Source:   "Air Drying of Lumber, AH-402 (1971)/FPL-GTR-117, table of air-drying times (from memory); Peck 1957, FPL 2086, sugar maple in Upper Michigan (read); the fit is this project's", Checked: method.Memory,
}

// FactorFor returns the drying factor of a wood: that of its Pace, or, for a wood
// without one, an estimate from its basic specific gravity (0.1 to 1.2) and its Listing
// (imported and unknown ones are taken as hardwoods).
//
// Errors: *method.Error with input "specific_gravity"; it is only looked at when
// the wood has no pace.
// Accuracy: the spread that comes with it.
//
// Source: row drying.factor.
func FactorFor(w *wood.Wood) (Factor, error) {
	answer := Factor{How: Fitted}
	answer.Notes.Rest(&rowFactor)
	if w.Pace.Known() {
		answer.Pace = w.Pace
		answer.Median, answer.SpreadLog = w.Pace.Factor, math.Max(siteSpread, w.Pace.Misfit)
		if w.Pace.Recalled {
			answer.Notes.Warn(method.Warning{Code: method.Recalled, Method: rowFactor.ID,
				Detail: "the published air-drying times the factor was fitted to are recalled, not re-read"})
		}
		return answer, nil
	}
	gravity := w.SpecificGravity.Value
	if err := answer.Notes.Use(&rowFactor, "specific_gravity", gravity); err != nil {
		return Factor{}, err
	}
	r := factorRegression()
	softwood := 0.0
	switch w.Listing {
	case wood.ListedSoftwood:
		softwood = 1
	case wood.ListedHardwood:
	case wood.ListedImported:
		fallthrough
	default:
		answer.Notes.Warn(method.Warning{Code: method.Assumption, Method: rowFactor.ID, Input: "group",
			Detail: "the drying factor was estimated as for a hardwood of temperate climates; no imported wood was in the fit"})
	}
	answer.How, answer.SpecificGravity = Regressed, gravity
	answer.Median = math.Exp(r.level + r.softwood*softwood + r.gravity*math.Log(gravity))
	answer.SpreadLog = math.Hypot(math.Max(siteSpread, r.leaveOneOut), r.gravity*w.SpecificGravity.Share())
	if w.SpecificGravity.Estimated {
		w.Told(w.SpecificGravity, "specific_gravity", &answer.Notes)
	}
	return answer, nil
}
