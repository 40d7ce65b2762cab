package dry

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// SeasoningRequest asks how a piece dries where it lies, and when it is dry.
type SeasoningRequest struct {
	Species   string           `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood      *shelf.OwnWood   `json:"wood,omitempty"`
	Thickness *wire.Length     `json:"thickness" validate:"required,gte=0.001,lte=0.3" description:"as stacked, both faces open"`
	Width     *wire.Length     `json:"width,omitempty" validate:"omitempty,gte=0.001,lte=0.6" description:"of the wide face; with it the answer tells how much sooner a narrow piece dries through its edges"`
	Length    *wire.Length     `json:"length,omitempty" validate:"omitempty,gte=0.05,lte=12" description:"along the grain; with ends it tells how far the ends run ahead"`
	Ends      string           `json:"ends,omitempty" validate:"omitempty,oneof=sealed_fresh sealed_late bare" description:"how the ends are kept; gives the end trim to plan for"`
	RingAngle *float64         `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"of the rings to the wide face: 90 quartersawn, 0 flatsawn; default 45"`
	StackedOn string           `json:"stacked_on" validate:"required,datetime=2006-01-02"`
	StartPct  *float64         `json:"start_mc_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"moisture content on the day of stacking; default: the published green moisture of the wood"`
	StartSD   *float64         `json:"start_sd_pct,omitempty" validate:"omitempty,gte=0.1,lte=50" description:"its standard deviation"`
	Storage   []shelf.Stay     `json:"storage" validate:"required,min=1,max=12,dive" description:"where it lies, in order of time"`
	BuildRoom *shelf.Air       `json:"build_room,omitempty" description:"air of the room the wood will be worked in; its equilibrium is the target"`
	Target    *float64         `json:"target_pct,omitempty" validate:"omitempty,gte=3,lte=30" description:"the target, in place of build_room"`
	Within    *float64         `json:"within_pct,omitempty" validate:"omitempty,gte=0.1,lte=5" default:"1" description:"the wood counts as dry when it is this close above the target"`
	Horizon   *float64         `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" default:"1825"`
	Factor    *shelf.OwnFactor `json:"drying_factor,omitempty" description:"in place of that of the tables"`
	ReportIn  string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *SeasoningRequest) System() string { return req.ReportIn }

// SeasoningResult is the forecast.
type SeasoningResult struct {
	Wood        shelf.WoodUsed   `json:"wood" required:"true"`
	Summary     string           `json:"summary" required:"true" description:"the answer in a sentence"`
	Target      wire.PercentBand `json:"target" required:"true" description:"where this piece settles in the build room; one that dries from green settles on the drying side of the sorption loop"`
	DryAtPct    float64          `json:"dry_at_pct" required:"true" description:"the target and what it may be missed by"`
	MeanDry     ReachedOn        `json:"mean_dry" required:"true" description:"when the mean over the thickness is dry"`
	CoreDry     ReachedOn        `json:"core_dry" required:"true" description:"when the middle fifth of the thickness is dry"`
	Lowest      LowestEver       `json:"lowest" required:"true"`
	Factor      shelf.FactorUsed `json:"drying_factor" required:"true"`
	Series      []CoursePoint    `json:"series" required:"true" nullable:"false" description:"at most 400 points, closer where the curve bends"`
	ByMonth     []MonthRow       `json:"by_stacking_month" required:"true" nullable:"false" description:"the same piece stacked on the first of each month; single runs of the middle forecast, so the same case may differ by some days from mean_dry"`
	ByThickness []ThicknessRow   `json:"by_thickness" required:"true" nullable:"false" description:"single runs of the middle forecast"`
	Checks      *SurfaceChecks   `json:"surface_checks,omitempty" description:"where a safe daily loss of the wood is known and it starts wet; an index that runs high, because the air of a station is drier than that inside a pile"`
	Edges       *EdgeDrying      `json:"edges,omitempty" description:"with width"`
	Ends        *EndAdvice       `json:"ends,omitempty"`
	Advice      []string         `json:"advice" required:"true" nullable:"false"`
	chart       func() []byte    // the drawing
	points      []CoursePoint    // what the table shows
}

// ReachedOn is when something is reached. Dates beyond the forecast are left out.
type ReachedOn struct {
	Early      string   `json:"early,omitempty" description:"5 % of cases are earlier"`
	Middle     string   `json:"middle,omitempty" description:"half of the cases are earlier"`
	Late       string   `json:"late,omitempty" description:"95 % of cases are earlier"`
	EarlyDays  *float64 `json:"early_days,omitempty" description:"since stacking; in the answer to timing since as_of"`
	MiddleDays *float64 `json:"middle_days,omitempty"`
	LateDays   *float64 `json:"late_days,omitempty"`
	Never      float64  `json:"probability_not_within_forecast" required:"true"`
}

// LowestEver is how dry the last place makes the wood.
type LowestEver struct {
	MCPct  float64 `json:"mc_pct" required:"true" description:"the lowest mean of the middle forecast in ten years"`
	Enough bool    `json:"reaches_target" required:"true"`
}

// CoursePoint is the forecast on a day.
type CoursePoint struct {
	Date     string           `json:"date" required:"true"`
	Days     float64          `json:"days" required:"true"`
	Mean     wire.PercentBand `json:"mean" required:"true"`
	ShellPct float64          `json:"shell_pct" required:"true" description:"outer tenth at each face"`
	CorePct  float64          `json:"core_pct" required:"true" description:"middle fifth"`
}

// MonthRow is the middle forecast for another stacking month.
type MonthRow struct {
	Month int      `json:"month" required:"true"`
	Days  *float64 `json:"days,omitempty" description:"until the mean is dry; left out if not within the forecast"`
}

// ThicknessRow is the middle forecast for another thickness.
type ThicknessRow struct {
	Thickness wire.Quantity `json:"thickness" required:"true"`
	Days      *float64      `json:"days,omitempty" description:"until the mean is dry; left out if not within the forecast"`
}

// SurfaceChecks is how the fastest drying stands to what the wood takes.
type SurfaceChecks struct {
	FastestPctPerDay float64 `json:"fastest_pct_per_day" required:"true"`
	Date             string  `json:"date" required:"true" description:"when that is"`
	SafePctPerDay    float64 `json:"safe_pct_per_day" required:"true" description:"published for 25 mm stock, scaled to the thickness"`
	Ratio            float64 `json:"ratio" required:"true"`
	Risk             string  `json:"risk" required:"true" enum:"low,moderate,high"`
	WhatToDo         string  `json:"what_to_do" required:"true"`
}

// EdgeDrying compares the piece with a board so wide that its edges do not count.
// Both are single runs of the middle forecast without the sorption loop.
type EdgeDrying struct {
	DaysWide *float64 `json:"days_if_wide,omitempty" description:"until the mean is dry; left out if not within the forecast"`
	Days     *float64 `json:"days,omitempty" description:"until the mean is dry, with the edges"`
	Share    *float64 `json:"share_of_time,omitempty" description:"of the time of a wide board"`
}

// EndAdvice is what the ends usually lose, and how far they run ahead.
type EndAdvice struct {
	TrimLow   wire.Quantity  `json:"trim_low" required:"true" description:"length each end usually loses to checks"`
	TrimHigh  wire.Quantity  `json:"trim_high" required:"true"`
	Remark    string         `json:"remark" required:"true"`
	Ahead     *wire.Quantity `json:"ahead,omitempty" description:"with length: over this length from each end the wood is at least a point drier than the middle"`
	AheadDays *float64       `json:"ahead_after_days,omitempty" description:"for how long after stacking that is said"`
}

func ComputeSeasoning(ctx context.Context, t *shelf.Tables, req *SeasoningRequest) (*SeasoningResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.WoodOf(req.Species, req.Wood, &notes)
	f := &forecast{tables: t, notes: &notes, report: wire.ReportIn(req.ReportIn), in: seasoned{
		wood: w, thickness: req.Thickness.SI, shown: req.Thickness.SI.Format(req.Thickness.Unit), ringAngle: req.RingAngle, stackedOn: req.StackedOn, storage: req.Storage,
		startPct: req.StartPct, startSD: req.StartSD, horizon: horizonOf(req.Horizon), factor: req.Factor,
	}}
	target, noTarget := roomTarget(req.BuildRoom, req.Target, historyBranch(req.StartPct), w, &notes)
	if err := errors.Join(noWood, noTarget, f.prepare(), req.sizes()); err != nil {
		return nil, notes, err
	}
	if err := f.learn(ctx, nil); err != nil {
		return nil, notes, err
	}
	result := &SeasoningResult{Wood: w.Used("specific_gravity_green", "green_heartwood", "green_sapwood", "fibre_saturation", "safe_daily_loss"),
		Target: wire.MoistureBandOf(target), Factor: f.used, Advice: []string{}}
	within := 1.0
	if req.Within != nil {
		within = *req.Within
	}
	dry := target.Value + wire.FromPercent(within)
	result.DryAtPct = dry.Percent()
	if err := f.answer(ctx, result, target, dry); err != nil {
		return nil, notes, err
	}
	if err := f.surfaceChecks(ctx, result); err != nil {
		return nil, notes, err
	}
	if err := f.edges(ctx, req.Width, result, dry); err != nil {
		return nil, notes, err
	}
	if err := f.ends(ctx, req, result); err != nil {
		return nil, notes, err
	}
	f.conclude(result)
	t.Cautions(w, &notes)
	return result, notes, nil
}

// sizes refuses sizes that contradict or say nothing.
func (req *SeasoningRequest) sizes() error {
	var narrow, loose error
	if req.Width != nil && req.Width.SI < req.Thickness.SI {
		narrow = &method.Error{Code: method.Contradictory, Input: "width", Limit: "at least " + req.Thickness.SI.AtLeast(req.Thickness.Unit), Detail: "width is less than thickness; the wide face is the wider one"}
	}
	if req.Ends == "" && req.Length != nil {
		loose = wire.Missing("ends", "length is of use only with ends: sealed_fresh, sealed_late or bare")
	}
	return errors.Join(narrow, loose)
}

// driedBefore is the moisture content below which a piece is taken to have been
// dry before, so that its place in the sorption loop is not known.
const driedBefore = 25 * quantity.PercentMC

// historyBranch is the side of the sorption loop on which a piece comes to rest
// in the build room: one that dries from green stays on the drying side.
func historyBranch(startPct *float64) sorption.Branch {
	if startPct != nil && wire.FromPercent(*startPct) < driedBefore {
		return sorption.Middle
	}
	return sorption.Desorption
}

// roomTarget is the equilibrium of the build room for the wood, or the target
// the caller states.
func roomTarget(room *shelf.Air, stated *float64, branch sorption.Branch, w *shelf.Wood, notes *method.Notes) (quantity.Band[quantity.Moisture], error) {
	var none quantity.Band[quantity.Moisture]
	switch {
	case room != nil && stated != nil:
		return none, wire.Contradictory("target_pct", "give build_room or target_pct, not both")
	case stated != nil:
		return quantity.NormalBand(wire.FromPercent(*stated), 0), nil
	case room == nil:
		return none, wire.Missing("build_room", "give build_room, the air of the room the wood will be worked in, or target_pct")
	}
	state, err := room.State("build_room", notes)
	if err != nil {
		return none, err
	}
	emc, err := sorption.EquilibriumBand(state.DryBulb, state.RelativeHumidity, branch, w.SettlesLower())
	if err != nil {
		return none, wire.Under("build_room", err, [2]string{"temperature", "dry_bulb"})
	}
	notes.Merge(emc.Notes)
	if emc.Moisture.Value < driestTarget {
		return none, &method.Error{Code: method.OutOfRange, Input: "build_room/rh_pct", Limit: "air that keeps wood above 0.5 %",
			Detail: "wood would be ovendry in such a room; humidity is in percent, 45 and not 0.45"}
	}
	return emc.Moisture, nil
}

// driestTarget is the driest target that is judged by.
const driestTarget = 0.5 * quantity.PercentMC
