package dry

import (
	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// SeasoningRequest asks how a piece dries where it lies, and when it is dry.
type SeasoningRequest struct {
	Billet   *shelf.Billet    `json:"billet" validate:"required" needs:"thickness stacked_on" description:"the piece as stacked, both faces open; a wedge by its far_thickness or end_thickness; with width the answer tells how much sooner a narrow piece dries through its edges, with end_seal what the ends lose, and with length how far they run ahead"`
	Stays    []shelf.Stay     `json:"stays" validate:"required,min=1,max=12,dive" description:"where it lies from the day of stacking on, in order of time"`
	Target   *shelf.Condition `json:"target_condition" validate:"required" description:"what the wood is to come to: the air of the room it will be worked in, in which it settles, or a moisture content of 3 to 30 %"`
	Within   *float64         `json:"tolerance_mc_points,omitempty" validate:"omitempty,gte=0.1,lte=5" default:"1" description:"the wood counts as dry when it is this close above the target"`
	Horizon  *float64         `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" default:"1825" description:"how far the forecast looks ahead, from stacking"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (req *SeasoningRequest) System() string { return req.ReportIn }

// SeasoningResult is the forecast.
type SeasoningResult struct {
	Wood        shelf.WoodUsed         `json:"wood" required:"true" description:"the wood with the figures that were used"`
	Summary     string                 `json:"summary" required:"true" description:"the answer in a sentence"`
	Target      wire.Band              `json:"target_mc" required:"true" description:"where this piece settles; one that dries from green settles on the drying side of the sorption loop"`
	DryAtPct    float64                `json:"dry_mc_pct" required:"true" description:"the target and what it may be missed by"`
	UpTo        *float64               `json:"min_mc_pct,omitempty" description:"of a piece that starts drier than its target: what it has to come up to, the target less what it may be missed by; the dates are of that"`
	Passes      *float64               `json:"end_mc_pct,omitempty" description:"of a piece that is dry on a day and no longer at the end of the forecast: its mean then"`
	MeanDry     wire.DateBand          `json:"mean_dry" required:"true" description:"when the mean over the thickness is dry, or has come up to min_mc_pct"`
	CoreDry     wire.DateBand          `json:"core_dry" required:"true" description:"when the middle fifth of the thickness is dry"`
	ThickDry    *wire.DateBand         `json:"thickest_dry,omitempty" description:"of a wedge or a taper: when the mean over the thickness is dry where it is thickest; mean_dry, core_dry and by_thickness are of a board as thick as its wood lies in on average"`
	Lowest      LowestEver             `json:"lowest" required:"true" description:"how dry the last place makes the wood at all"`
	Factor      shelf.FactorUsed       `json:"drying_factor" required:"true" description:"speed of drying below fibre saturation"`
	Pace        shelf.FactorUsed       `json:"pace" required:"true" description:"of the wet stage in a wide pile, over that in moving air"`
	Series      []CoursePoint          `json:"series" nullable:"false" detail:"full" description:"at most 400 points, closer where the curve bends. Left out with ?detail=summary"`
	ByMonth     []MonthRow             `json:"by_stacking_month" required:"true" nullable:"false" description:"the same piece stacked on the first of each month; single runs of the middle forecast, so the same case may differ by some days from mean_dry"`
	ByThickness []ThicknessRow         `json:"by_thickness" required:"true" nullable:"false" description:"single runs of the middle forecast"`
	Checks      *SurfaceChecks         `json:"surface_checks,omitempty" description:"where a safe daily loss of the wood is known and it starts wet; an index: the air of a station is drier than that inside a pile, and hours of sun and wind are not in it"`
	Defects     []DryingDefect         `json:"drying_defects" required:"true" nullable:"false" description:"harm to be looked out for, by the wood, its moisture and the air it lies in; rules of the trade"`
	Stress      *CaseStress            `json:"case_stress,omitempty" description:"with a stay that has phases: the stress of drying that the last schedule leaves"`
	Edges       *EdgeDrying            `json:"edge_drying,omitempty" description:"with the width of the billet"`
	Ends        *EndAdvice             `json:"ends,omitempty" description:"with end_seal of the billet: what its ends usually lose"`
	Advice      []string               `json:"advice" required:"true" nullable:"false" description:"what to do, one thing in each sentence"`
	chart       func(width int) []byte // the drawing
	points      []CoursePoint          // what the table shows
}

// LowestEver is how dry the last place makes the wood.
type LowestEver struct {
	MCPct  float64 `json:"mc_pct" required:"true" description:"the lowest mean of the middle forecast in ten years"`
	Enough bool    `json:"reaches_target" required:"true" description:"that is dry"`
}

// MonthRow is the middle forecast for another stacking month.
type MonthRow struct {
	Month int      `json:"month" required:"true" description:"1 to 12"`
	Days  *float64 `json:"days,omitempty" description:"until the mean is dry; left out if not within the forecast"`
}

// ThicknessRow is the middle forecast for another thickness.
type ThicknessRow struct {
	Thickness wire.Quantity `json:"thickness" required:"true" description:"as stacked"`
	Days      *float64      `json:"days,omitempty" description:"until the mean is dry; left out if not within the forecast"`
}

// DryingDefect is a harm that comes with drying.
type DryingDefect struct {
	Kind   string   `json:"kind" required:"true" enum:"mould,stain,decay,insects,honeycomb,collapse,casehardening" description:"of the harm"`
	Date   string   `json:"date" required:"true" format:"date" description:"when its conditions first hold in the middle forecast"`
	Days   float64  `json:"days" required:"true" description:"for how long they hold in all"`
	Detail string   `json:"detail" required:"true" description:"what speaks for it"`
	Advice []string `json:"advice" required:"true" nullable:"false" description:"what to do, one thing in each sentence"`
}

// EdgeDrying compares the piece with a board so wide that its edges do not count.
// Both are single runs of the middle forecast without the sorption loop.
type EdgeDrying struct {
	DaysWide *float64 `json:"wide_days,omitempty" description:"until the mean of a wide board is dry; left out if not within the forecast"`
	Days     *float64 `json:"days,omitempty" description:"until the mean is dry, with the edges"`
	Share    *float64 `json:"time_share_pct,omitempty" description:"days in percent of wide_days"`
}

// Render draws the forecast or lists its series.
func (r *SeasoningResult) Render(name string) ([]byte, error) {
	if name == wire.TableForm.Name {
		return courseTable(r.points), nil
	}
	return r.chart(0), nil
}

// RenderShown draws the forecast for a screen that has so many px for it.
func (r *SeasoningResult) RenderShown(width int) ([]byte, error) {
	return drawing.OnScreen(r.chart(width)), nil
}
