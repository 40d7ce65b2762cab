package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
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
	Factor      shelf.FactorUsed `json:"drying_factor" required:"true" description:"below fibre saturation"`
	Pace        shelf.FactorUsed `json:"pace" required:"true" description:"of the wet stage in a wide pile, over that in moving air"`
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

// LowestEver is how dry the last place makes the wood.
type LowestEver struct {
	MCPct  float64 `json:"mc_pct" required:"true" description:"the lowest mean of the middle forecast in ten years"`
	Enough bool    `json:"reaches_target" required:"true"`
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

// EdgeDrying compares the piece with a board so wide that its edges do not count.
// Both are single runs of the middle forecast without the sorption loop.
type EdgeDrying struct {
	DaysWide *float64 `json:"days_if_wide,omitempty" description:"until the mean is dry; left out if not within the forecast"`
	Days     *float64 `json:"days,omitempty" description:"until the mean is dry, with the edges"`
	Share    *float64 `json:"share_of_time,omitempty" description:"of the time of a wide board"`
}

// Render draws the forecast or lists its series.
func (r *SeasoningResult) Render(name string) ([]byte, error) {
	if name == wire.TableForm.Name {
		return courseTable(r.points), nil
	}
	return r.chart(), nil
}
