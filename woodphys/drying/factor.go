package drying

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/wood"
)

// Origin says how a drying factor or a pace was come by.
type Origin string

// Origins.
const (
	Grouped   Origin = "grouped"   // what woods of its group were measured at
	Fitted    Origin = "fitted"    // to the published air-drying times of the wood
	Regressed Origin = "regressed" // over the woods of its group, for want of such times
	Given     Origin = "given"     // by the caller, who knows the piece
)

// Factor is how fast a wood dries: its drying factor k, what Siau's diffusivity is
// multiplied by below fibre saturation, and its wet-stage pace. The logarithm of each is
// taken as normally distributed with median ln Median and standard deviation SpreadLog.
type Factor struct {
	Median    float64
	SpreadLog float64
	How       Origin
	Wet       WetPace
	Notes     method.Notes
}

// WetPace is the pace w of the wet stage in a wide pile of a yard: what the diffusivity
// is multiplied by while the middle is above fibre saturation. The exposure makes of it
// what it is elsewhere (Exposure.WetPace).
type WetPace struct {
	Median    float64
	SpreadLog float64
	How       Origin
	Pace      wood.Pace // what a fitted one rests on
	// Of is of how many woods one that was not fitted is the middle, and Conifers whether
	// those are conifers or broadleaved.
	Of       int
	Conifers bool
}

// Of the drying factor by group: what was measured of dry wood. 32 values of the dry
// stage (vapour resistance halved for unsteady diffusion, sorption of spruce, the kiln
// rule for red oak, kiln days from 20 to 6 %) lie about these with a standard deviation
// of 0.30, what the measurements err by among it.
const (
	hardFactor     = 0.95
	softFactor     = 1.20
	groupSpread    = 0.30
	importedSpread = 0.45
)

// Of the wet-stage pace: the least spread of one that was fitted (pile, place and
// piece), and of one that was not. Red and white oak of known date and place (five) lie
// within the first; the second is the spread between woods.
const (
	paceSpread    = 0.40
	strangeSpread = 0.50
)

// regression is ln w = level + softwood (1 for softwoods), with the root mean squares of
// its leave-one-out errors: over all woods, and over broadleaved woods and conifers alone.
// Specific gravity was tried and foretells nothing, nor does the genus: AGREEMENT.md.
type regression struct {
	level, softwood, leaveOneOut, hardError, softError float64
	hards, softs                                       int // woods
}

var rowFactor = method.Method{
	ID: "drying.factor", Chapter: "drying",
	Summary:  "Drying factor of a wood below fibre saturation, by its group",
	Equation: "k = 0.95 (hardwoods), 1.20 (softwoods); ln k has SD 0.30, 0.45 for imported woods",
	Inputs: []method.Input{
		{Name: "specific_gravity", Fitted: method.Range{Low: 0.31, High: 0.66}, Limit: method.Range{Low: 0.1, High: 1.2}},
	},
	Accuracy: "a ratio of 1.35 (1 SD): in sample, that of 32 values of the dry stage; twelve of them are one rule",
	Source:   "sorption of spruce, Sanchez-Ferrer and Engelhardt 2026 (read, abstract); EN ISO 10456 vapour resistances (from memory), halved for unsteady diffusion by Sonderegger and others 2011 (read, abstract); Tschernitz and Simpson 1979, red oak in kilns (from memory); kiln days from 20 to 6 % (from memory)", Checked: method.Memory,
}

var rowPace = method.Method{
	ID: "drying.pace", Chapter: "drying",
	Summary:  "Wet-stage pace of a wood in a wide pile, fitted to published air-drying times or the middle of its group; of a small stack and of moving air",
	Equation: "fitted: least squares of ln(days) at the fastest and slowest of 12 stacking months; else ln w = a + b [softwood]; small stack 1.4 w, at most 1; moving air 1",
	Inputs: []method.Input{
		{Name: "pace", Fitted: method.Range{Low: 0.1, High: 1.2}, Limit: method.Range{Low: 0.005, High: 20}},
	},
	Accuracy: "a ratio of 1.5 (1 SD) at least; where it was not fitted 1.65, of conifers 1.8; the fit is in sample and rests on recalled national spans without a place",
	Source:   "Air Drying of Lumber, AH-402 (1971)/FPL-GTR-117, table of air-drying times (from memory); Peck 1957, FPL 2086, sugar maple in Upper Michigan (read); small stack: Peck 1957 against the span (one pair); the fit is this project's", Checked: method.Memory,
}

// FactorFor returns the drying factor of a wood by what it is, a conifer or broadleaved
// (wood.Conifer), and by its Listing (imported and unknown ones are less sure), and its
// wet-stage pace: that of its Pace, or, for a wood without one, the middle of its group.
//
// Errors: *method.Error with input "specific_gravity", 0.1 to 1.2 where it is known.
// Accuracy: the spreads that come with it.
//
// Source: rows drying.factor and drying.pace.
func FactorFor(w *wood.Wood) (Factor, error) {
	answer := Factor{How: Grouped, Median: hardFactor, SpreadLog: groupSpread}
	answer.Notes.Rest(&rowFactor)
	if w.SpecificGravity.Known {
		if err := answer.Notes.Use(&rowFactor, "specific_gravity", w.SpecificGravity.Value); err != nil {
			return Factor{}, err
		}
	}
	group := "hardwood"
	if w.Conifer() {
		group, answer.Median = "softwood", softFactor
	}
	if w.Listing != wood.ListedHardwood && w.Listing != wood.ListedSoftwood {
		answer.SpreadLog = importedSpread
		answer.Notes.Warn(method.Warning{Code: method.Assumption, Method: rowFactor.ID, Input: "group",
			Detail: "the drying factor was taken as for a " + group + " of temperate climates; no imported wood was in the fit"})
	}
	answer.Wet = wetPaceOf(w, &answer.Notes)
	return answer, nil
}

// wetPaceOf is the fitted pace of a wood or that of its group.
func wetPaceOf(w *wood.Wood, notes *method.Notes) WetPace {
	notes.Rest(&rowPace)
	if w.Pace.Known() {
		if w.Pace.Recalled {
			notes.Warn(method.Warning{Code: method.Recalled, Method: rowPace.ID,
				Detail: "the published air-drying times the pace was fitted to are recalled, not re-read"})
		}
		return WetPace{Median: w.Pace.Factor, SpreadLog: math.Max(paceSpread, w.Pace.Misfit), How: Fitted, Pace: w.Pace}
	}
	r := paceRegression()
	if w.Conifer() {
		return WetPace{Median: math.Exp(r.level + r.softwood), SpreadLog: math.Max(strangeSpread, r.softError), How: Regressed, Of: r.softs, Conifers: true}
	}
	return WetPace{Median: math.Exp(r.level), SpreadLog: math.Max(strangeSpread, r.hardError), How: Regressed, Of: r.hards}
}
