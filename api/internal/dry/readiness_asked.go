package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ReadinessRequest describes a billet, what was read and weighed on it, and the
// room it will be built in.
type ReadinessRequest struct {
	Billet   *shelf.Billet        `json:"billet" validate:"required" needs:"length width thickness" description:"the piece; with stays also when it was stacked, and where it is known how wet it was then"`
	Target   *shelf.Condition     `json:"target_condition" validate:"required" description:"what the wood is to come to: the air of the room it will be worked in, in which it settles, or a moisture content of 3 to 30 %"`
	AsOf     string               `json:"as_of,omitempty" validate:"omitempty,datetime=2006-01-02" description:"today, with stays: the verdicts are for this day. Left out, as are stays: the readings speak of now"`
	Stays    []shelf.Stay         `json:"stays,omitempty" validate:"omitempty,min=1,max=12,dive" description:"where the billet has lain since it was stacked and will go on lying, in order of time: the readings are then fused with the drying forecast, and dates come with the verdicts. Left out: the billet is judged by its readings alone"`
	Horizon  *float64             `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" description:"end of the forecast, counted from stacking; with stays. Left out: 1825, and for wood that has lain longer two years from as_of on, 3650 at most; wood that has lain so long is taken to be at rest where it lies, and its forecast begins later"`
	Readings []shelf.Reading      `json:"readings,omitempty" validate:"max=500,dive" description:"weights of the billet, meters and samples. Without stays, all but weights, and stated ones of the day of a weight, are taken as of now"`
	Scale    *wire.Mass           `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step of the scale that weights were read on. Left out: a thousandth of the mass"`
	Limits   []StepLimit          `json:"step_limits,omitempty" validate:"max=3,dive" description:"what a step of the work asks, in place of the usual limits; one for each step at most"`
	Saw      *shelf.Saw           `json:"saw,omitempty" needs:"kerf|usual_kerf" description:"with part: what the billet yields"`
	Part     *shelf.Part          `json:"part,omitempty" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size" description:"with saw: what is to be had from the billet"`
	Rejected []shelf.RejectedLeaf `json:"rejected_leaves,omitempty" validate:"max=1000,dive" description:"with saw and part: leaves that turned out to be faulty, which make no set. Left out: none"`
	aside    map[int]bool         // readings, by their number, that do not count
	ReportIn string               `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (req *ReadinessRequest) System() string { return req.ReportIn }

// Joins says which members go together.
func (*ReadinessRequest) Joins() wire.Joined {
	return wire.Joined{Needs: map[string][]string{"as_of": {"stays"}, "stays": {"as_of"}, "horizon_days": {"stays"},
		"saw": {"part"}, "part": {"saw"}}}
}

// Light reports a request without stays, for which nothing is simulated.
func (req *ReadinessRequest) Light() bool { return len(req.Stays) == 0 }
