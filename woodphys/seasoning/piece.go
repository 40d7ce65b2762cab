package seasoning

import (
	"errors"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/wood"
)

// UsualHorizon is how far a forecast looks ahead from the day of stacking, and
// LongestHorizon the furthest it does.
const (
	UsualHorizon   = 5 * 365 * quantity.Day
	LongestHorizon = 3650 * quantity.Day
)

// aheadOfOld is how far wood that has lain for years is looked at ahead. Own choice.
const aheadOfOld = 730 * quantity.Day

// HorizonAfter returns the usual end of a forecast of wood that has lain for a time (0 or more),
// both from the day of stacking: it grows with the age of the wood, up to LongestHorizon.
//
// Accuracy: exact. Source: own choice.
func HorizonAfter(lain quantity.Duration) quantity.Duration {
	return min(max(UsualHorizon, lain+aheadOfOld), LongestHorizon)
}

// ThickestDried is the thickest stock of a forecast.
const ThickestDried = 300 * quantity.Millimetre

// Wettest is the wettest start the diffusion takes.
const Wettest = 140 * quantity.PercentMC

// Of the start of a piece.
const (
	// widestStart is the most that the start of a billet is unsure of: what the forecast
	// takes.
	widestStart = 50 * quantity.PercentMC
	// readShare and readLeast are the standard deviation of a moisture content that was
	// told without one: 3 % of it, at least 1 %MC. Own choice.
	readShare = 0.03
	readLeast = 1 * quantity.PercentMC
)

// Start is the moisture content on the day of stacking, uniform through the piece.
type Start struct {
	MC quantity.Moisture // 0.01 to 1.5; 0: the piece was green
	SD quantity.Moisture // 0.001 to 0.5; 0: not told
}

// Spread returns its standard deviation, told or read; 0 for a green piece.
//
// Accuracy: as ReadSD.
//
// Source: as told, or that of ReadSD.
func (s *Start) Spread() quantity.Moisture {
	if s.SD != 0 || s.MC == 0 {
		return s.SD
	}
	return ReadSD(s.MC)
}

// ReadSD returns the standard deviation of a moisture content (0.01 to 2.5) that was
// told without one.
//
// Accuracy: a guess.
//
// Source: own choice, no source: 3 % of it, at least 1 %MC.
func ReadSD(mc quantity.Moisture) quantity.Moisture { return max(readShare*mc, readLeast) }

// Piece is what is known of a piece before its forecast.
type Piece struct {
	Wood      wood.Wood
	Thickness quantity.Length // as stacked, both faces open, 1 to 300 mm
	// Taper is the shape of a wedge, which is dried as a board of its equivalent thickness in
	// place of Thickness, with its thin and thick places beside it; nil: a board.
	Taper     *drying.Taper
	RingAngle quantity.Angle // of the rings to the wide face, 0 to 90 degrees
	// Length, 10 mm to 20 m, and Ends, how they are kept, make what it loses through them count; 0
	// or empty: it dries through its faces alone.
	Length quantity.Length
	Ends   drying.EndSeal
	Factor drying.Factor // of this piece, in place of that of the wood; the zero one: none
	Start  Start
	// MayBeDry says that of a piece of which no start is told it is not known that it was
	// green: it may have been part dry or dry already, and readings tell.
	MayBeDry bool
	Phases   []drying.Phase // from the day of stacking to the horizon
	Kilns    []Kiln         // the schedules that are among the phases
	Notes    method.Notes   // of how the wood and the air were come by
	Work     *drying.Work   // bounds all runs; may be nil
}

// Prior is a piece as its forecast starts.
type Prior struct {
	Setup  readiness.Setup
	Factor drying.Factor // with the ring angle and the thickness in it
	Notes  method.Notes
}

// Setup returns the piece as its forecast starts.
//
// Errors: all at once, those of drying.FactorOf ("specific_gravity", "thickness");
// unsupported for "specific_gravity" where it is not known, which the diffusion needs;
// contradictory for "start_mc_sd_points" that goes with no start; missing for "start_mc_pct"
// of a wood whose green moisture is not known.
// Accuracy: that of its parts.
//
// Source: rows drying.factor and drying.thickness; the green moisture of the wood.
func (p *Piece) Setup() (Prior, error) {
	prior := Prior{}
	prior.Notes.Merge(p.Notes)
	thickness, noShape := p.thickness(&prior.Notes)
	factor, noFactor := p.factor(thickness)
	prior.Notes.Merge(factor.Notes)
	start, noStart := p.start(&prior.Notes)
	if err := errors.Join(noShape, noFactor, noStart); err != nil {
		return Prior{}, err
	}
	edges, err := p.edges(&factor, thickness)
	if err != nil {
		return Prior{}, err
	}
	ends, err := p.ends(&factor, &prior.Notes)
	if err != nil {
		return Prior{}, err
	}
	prior.Factor = factor
	prior.Setup = readiness.Setup{
		Wood: p.Wood, Factor: factor.Median, FactorLogSD: factor.SpreadLog, Pace: factor.Wet.Median,
		PaceLogSD: factor.Wet.SpreadLog, Thickness: thickness, Ends: ends, Edges: edges, Phases: p.Phases,
		StartMC: start.MC, StartSD: start.SD, History: historyOf(start.MC), Work: p.Work,
	}
	if p.MayBeDry && p.Start.MC == 0 {
		prior.Setup.Else = otherStarts()
	}
	return prior, nil
}

// thickness is that of the board which the piece is dried as; the thin edge of a wedge may be
// a knife's.
func (p *Piece) thickness(notes *method.Notes) (quantity.Length, error) {
	if p.Taper == nil {
		return p.Thickness, nil
	}
	equivalent, err := p.Taper.Equivalent(notes)
	return max(equivalent, thinnestDried), err
}

// ends are those of the piece, where it is told how long it is and how they are kept.
func (p *Piece) ends(factor *drying.Factor, notes *method.Notes) (*drying.EndGrain, error) {
	if p.Length == 0 || p.Ends == "" {
		return nil, nil //nolint:nilnil // not told
	}
	return drying.NewEndGrain(p.Wood, p.Length, p.Ends, factor.Median, factor.Wet.Median, notes)
}

// edges are the thin and the thick places of a wedge, with their factor beside that of the
// thickness it is dried as.
func (p *Piece) edges(factor *drying.Factor, thickness quantity.Length) (*readiness.Edges, error) {
	if p.Taper == nil || p.Taper.Even() {
		return nil, nil //nolint:nilnil // a board
	}
	thinnest, thickest := p.Taper.Extremes()
	at := func(there quantity.Length) (readiness.Edge, error) {
		there = max(there, thinnestDried)
		median, err := factor.AtThickness(thickness, there)
		return readiness.Edge{Thickness: there, Faster: median / factor.Median}, err
	}
	thin, noThin := at(thinnest)
	thick, noThick := at(thickest)
	return &readiness.Edges{Thin: thin, Thick: thick}, errors.Join(noThin, noThick)
}

// otherStarts are those of a piece of which nobody has told that it was green: part dry,
// and dry already. Own choice, no source: one in twenty-five and one in thirty.
func otherStarts() []readiness.Start {
	return []readiness.Start{
		{Probability: 0.04, MC: 0.30, SD: 0.08, History: drying.FromGreen},
		{Probability: 0.03, MC: 0.12, SD: 0.04, History: drying.Unknown},
	}
}

// factor is that of the piece, or of its wood.
func (p *Piece) factor(thickness quantity.Length) (drying.Factor, error) {
	if !p.Wood.SpecificGravity.Known {
		return drying.Factor{}, &method.Error{Code: method.MissingData, Input: "specific_gravity",
			Detail: "the specific gravity of the wood is not known"}
	}
	return drying.FactorOf(&p.Wood, thickness, p.RingAngle, p.Factor)
}

// start is that of the piece, or green.
func (p *Piece) start(notes *method.Notes) (Start, error) {
	start := p.Start
	switch {
	case start.MC != 0:
		start.SD = start.Spread()
		return start, nil
	case start.SD != 0:
		return start, &method.Error{Code: method.Contradictory, Input: "start_mc_sd_points",
			Detail: "the spread of the start goes with its moisture content; give both"}
	case p.Wood.Green == 0:
		return start, &method.Error{Code: method.Missing, Input: "start_mc_pct",
			Detail: "the green moisture of the wood is not known; say the moisture content on the day of stacking"}
	}
	start, _ = Green(&p.Wood)
	unless := ""
	if p.MayBeDry {
		unless = ". Readings may tell that it was drier"
	}
	if p.Wood.GreenHow != "" {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "start_mc_pct",
			Detail: "the wood is taken to have been green when stacked, at " + quantity.FormatNumber(start.MC.Percent(),
				0) + " %, " + p.Wood.GreenHow + unless})
		return start, nil
	}
	notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "start_mc_pct",
		Detail: "the wood is taken to have been green when stacked, at " + quantity.FormatNumber(start.MC.Percent(),
			0) + " %, the published figure of its stem, or the mean of those of heartwood and sapwood" + unless})
	return start, nil
}

// Green returns the start of a green piece of a wood; known is false where its green moisture
// is not known.
//
// Accuracy: as moisture.Green; no wetter than the diffusion takes.
//
// Source: moisture.Green.
func Green(w *wood.Wood) (start Start, known bool) {
	mc, sd, known := moisture.Green(w)
	if !known {
		return Start{}, false
	}
	start.MC = min(mc, Wettest)
	start.SD = min(sd*start.MC/mc, widestStart)
	return start, true
}
