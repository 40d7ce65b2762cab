package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ReadinessRequest describes a billet, what was read and weighed on it, and the
// room it will be built in.
type ReadinessRequest struct {
	Wood      *shelf.WoodAsked     `json:"wood,omitempty" description:"its name, or figures of your own"`
	Billet    *shelf.Billet        `json:"billet" validate:"required" needs:"length width thickness"`
	RingAngle *float64             `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"of the rings to the wide face: 90 quartersawn, 0 flatsawn; without it both are shown"`
	BuildRoom *shelf.Air           `json:"build_room" validate:"required" description:"air of the room the wood will be worked in; its equilibrium is the target"`
	Readings  []shelf.Reading      `json:"readings,omitempty" validate:"max=200,dive" description:"without history all are taken as of now"`
	Weights   []DatedWeight        `json:"weights,omitempty" validate:"max=500,dive" description:"of the whole billet, in order of date"`
	Scale     *wire.Mass           `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step the scale shows"`
	Board     []DatedWeight        `json:"sample_board_weights,omitempty" validate:"max=500,dive" description:"with history: of a board that dries beside the billet, in order of date"`
	KnownMC   *KnownMC             `json:"known_mc,omitempty" description:"the moisture content on one of the days it was weighed"`
	History   *History             `json:"history,omitempty" description:"where the billet has lain and will lie: the readings are then fused with the drying forecast, and dates come with the verdicts"`
	Limits    []StepLimits         `json:"limits,omitempty" validate:"max=3,dive" description:"in place of the usual ones"`
	Saw       *shelf.Saw           `json:"saw,omitempty" needs:"kerf|usual_kerf" description:"with part: what the billet yields"`
	Part      *shelf.Part          `json:"part,omitempty" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size"`
	Rejected  []shelf.RejectedLeaf `json:"rejected_leaves,omitempty" validate:"max=1000,dive"`
	ReportIn  string               `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *ReadinessRequest) System() string { return req.ReportIn }

// History is the past and the future of a billet.
type History struct {
	AsOf      string       `json:"as_of" validate:"required,datetime=2006-01-02" description:"today: the verdicts are for this day"`
	StackedOn string       `json:"stacked_on" validate:"required,datetime=2006-01-02"`
	StartPct  *float64     `json:"start_mc_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"moisture content on the day of stacking; default: the published green moisture of the wood"`
	StartSD   *float64     `json:"start_mc_sd_points,omitempty" validate:"omitempty,gte=0.1,lte=50"`
	Storage   []shelf.Stay `json:"stays" validate:"required,min=1,max=12,dive" description:"in order of time; the last stay is where it will go on lying"`
	Horizon   *float64     `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" default:"1825" description:"end of the forecast, counted from stacking"`
}

// DatedWeight is the billet weighed on a day.
type DatedWeight struct {
	Date string     `json:"date" validate:"required,datetime=2006-01-02"`
	Mass *wire.Mass `json:"mass" validate:"required,gt=0,lte=5000"`
}

// KnownMC is a moisture content known on a day of the weights.
type KnownMC struct {
	Date string   `json:"date" validate:"required,datetime=2006-01-02" description:"one of the dates in weights"`
	MC   *float64 `json:"mc_pct" validate:"required,gte=0,lte=250"`
	SD   *float64 `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3"`
}

// Light reports a request without a history, for which nothing is simulated.
func (req *ReadinessRequest) Light() bool { return req.History == nil }
