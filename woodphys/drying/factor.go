package drying

import (
	"fmt"
	"math"
	"sort"

	"latewood/woodphys/method"
)

// Origin says how a drying factor was come by.
type Origin string

// Origins of a drying factor.
const (
	Fitted    Origin = "fitted"    // to the published air-drying times of the wood
	Regressed Origin = "regressed" // from specific gravity and group, for want of such times
)

// Factor is the drying factor k of a wood: what Siau's diffusivity is multiplied
// by to give the drying of stacked boards. Its logarithm is taken as normally
// distributed with median ln Median and standard deviation SpreadLog.
type Factor struct {
	Median    float64
	SpreadLog float64
	How       Origin
	Note      string // for people: what it was fitted to or estimated from
	Notes     method.Notes
}

// siteSpread is the least spread of ln k: pile, place and piece, a ratio of 1.4.
// Assumed from the prototype fits; it is meant to be narrowed by weighings.
var siteSpread = math.Log(1.4)

// fittedFactor is a row of the table made by TestFitFactors.
type fittedFactor struct {
	wood   string
	factor float64
	misfit float64 // root mean square of the two ln(days/published days)
	place  string
	span   string
	read   bool // the published span was read, not recalled
	note   string
}

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

// tableRow names the row of the air-drying table that stands for a wood which
// has none of its own.
func tableRow(w string) string {
	switch w {
	case "pine-sugar":
		return "pine-sugar-light"
	case "redwood-old-growth", "redwood-young-growth":
		return "redwood-light"
	case "hickory-mockernut", "hickory-pignut", "hickory-shagbark", "hickory-shellbark":
		return "hickory-true"
	case "oak-red-commercial":
		return "oak-northern-red"
	case "oak-white", "oak-white-commercial":
		return "oak-northern-white"
	case "sweetgum":
		return "sweetgum-heartwood"
	}
	return w
}

// FactorFor returns the drying factor of a wood by its id, or, for a wood
// without published air-drying times, from specificGravity (basic, 0.1 to 1.2) and
// group ("hardwood", "softwood" or "imported"; imported and unknown groups are taken
// as hardwoods).
//
// Errors: *method.Error with input "specific_gravity"; it is only looked at when
// the wood has no fitted factor.
// Accuracy: the spread that comes with it.
//
// Source: row drying.factor.
func FactorFor(woodID string, specificGravity float64, group string) (Factor, error) {
	answer := Factor{How: Fitted}
	answer.Notes.Rest(&rowFactor)
	name := tableRow(woodID)
	table := factorTable()
	if i := sort.Search(len(table), func(i int) bool { return table[i].wood >= name }); i < len(table) && table[i].wood == name {
		row := table[i]
		answer.Median, answer.SpreadLog = row.factor, math.Max(siteSpread, row.misfit)
		support := "recalled, without a place; "
		if row.read {
			support = ""
		} else {
			answer.Notes.Warn(method.Warning{Code: method.Recalled, Method: rowFactor.ID,
				Detail: "the published air-drying times the factor was fitted to are recalled, not re-read"})
		}
		answer.Note = fmt.Sprintf("fitted to %s days to 20 %%MC for 25 mm boards (%staken at %s)", row.span, support, row.place)
		if row.note != "" {
			answer.Note += "; " + row.note
		}
		if name != woodID {
			answer.Note += "; row " + name + " of the table"
		}
		return answer, nil
	}
	if err := answer.Notes.Use(&rowFactor, "specific_gravity", specificGravity); err != nil {
		return Factor{}, err
	}
	r := factorRegression()
	softwood := 0.0
	switch group {
	case "softwood":
		softwood = 1
	case "hardwood":
	default:
		answer.Notes.Warn(method.Warning{Code: method.Assumption, Method: rowFactor.ID, Input: "group",
			Detail: "the drying factor was estimated as for a hardwood of temperate climates; no imported wood was in the fit"})
	}
	answer.How = Regressed
	answer.Median = math.Exp(r.level + r.softwood*softwood + r.gravity*math.Log(specificGravity))
	answer.SpreadLog = math.Max(siteSpread, r.leaveOneOut)
	answer.Note = fmt.Sprintf("estimated from specific gravity %.2f; no air-drying times of this wood are at hand", specificGravity)
	return answer, nil
}

// RadialFactor is D_R over D_T: rays make radial drying 1.1 to 2 times faster
// (from memory); 1.2 is used.
const RadialFactor = 1.2

// DirectionFactor returns what the factor of a board is multiplied by when its
// rings stand at ringAngle (rad, 0 flatsawn to pi/2 quartersawn; the sign and
// whole turns do not matter) to the wide face: moisture leaves a flatsawn board
// along the rays (radially) and a quartersawn one across them (tangentially,
// slower). It is 1 at 45 degrees, about what the factors were fitted on.
//
// Accuracy: D_R/D_T between 1.1 and 2.
//
// Source: rotation of the diffusion tensor; D_R = 1.2 D_T (from memory).
func DirectionFactor(ringAngle float64) float64 {
	s := math.Sin(ringAngle)
	along := RadialFactor*(1-s*s) + s*s // thickness direction, over D_T
	return along / ((RadialFactor + 1) / 2)
}
