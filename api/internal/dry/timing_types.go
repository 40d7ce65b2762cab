package dry

import (
	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ResawTimingRequest asks whether a billet is better sawn into leaves now, or dried
// whole and sawn then.
type ResawTimingRequest struct {
	Billet       *shelf.Billet          `json:"billet" validate:"required" needs:"length width thickness" description:"as it measures now; end_seal gives the end trim to plan for. Rings left out: the leaves are taken as quartersawn, whose thickness shrinks most"`
	Moisture     *shelf.MoistureProfile `json:"moisture_profile" validate:"required" description:"of the billet on the day as_of"`
	Prongs       *shelf.ProngTest       `json:"prong_test,omitempty" description:"of the billet, cut on the day as_of: what stress adds to the cup of its leaves. Left out: none was cut, and stress is not counted"`
	AsOf         string                 `json:"as_of" validate:"required,datetime=2006-01-02" description:"today; days are counted from here"`
	Stays        []shelf.Stay           `json:"stays" validate:"required,min=1,max=12,dive" description:"where the billet lies from today, in order of time, and its leaves where leaf_stays is left out"`
	LeafStays    []shelf.Stay           `json:"leaf_stays,omitempty" validate:"omitempty,min=1,max=12,dive" description:"where the leaves lie once they are sawn, today or later: thin leaves may be brought in while a billet has to stay outdoors; in order of time from today. Left out: where the billet would lie"`
	Target       *shelf.Condition       `json:"target_condition" validate:"required" description:"what the leaves are to come to: the air of the room they will be worked in, in which they settle, or a moisture content of 3 to 30 %, for which a room at 20 C is taken that keeps it"`
	Saw          *shelf.Saw             `json:"saw" validate:"required" needs:"kerf|usual_kerf" description:"what a cut takes"`
	Part         *shelf.Part            `json:"part" validate:"required" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size" description:"its sizes dry, once it has settled; the shrinkage still to come is added here"`
	ThickAndThin *wire.Length           `json:"thick_and_thin,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"extra thickness of a leaf sawn before it is dry, for cup and thick and thin. Left out: 1.5 mm"`
	Limits       []StepLimit            `json:"step_limits,omitempty" validate:"max=2,dive" description:"for resaw (the billet) and thickness (the leaves), in place of the usual limits; one for each step at most"`
	Horizon      *float64               `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" default:"1825" description:"how far the forecast looks ahead, from as_of"`
	ReportIn     string                 `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (r *ResawTimingRequest) System() string { return r.ReportIn }

// ResawTimingResult lays both ways side by side.
type ResawTimingResult struct {
	Wood           shelf.WoodUsed     `json:"wood" required:"true" description:"the wood with the figures that were used"`
	Summary        string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Recommendation Recommendation     `json:"recommendation" required:"true" description:"which way to go"`
	Target         wire.Band          `json:"target_mc" required:"true" description:"where the wood settles"`
	Moisture       ProfileNow         `json:"moisture" required:"true" description:"of the billet today, as the forecast took it"`
	SawNow         TimingWay          `json:"saw_now" required:"true" description:"sawn today; the leaves dry"`
	DryWhole       TimingWay          `json:"dry_whole" required:"true" description:"the billet dries until it is ready to resaw; its leaves then settle"`
	TimeScale      TimeScale          `json:"time_scale" required:"true" description:"how much faster a leaf settles than the billet"`
	StandIns       []shelf.Provenance `json:"defaults_used,omitempty" description:"usual losses that stood in for what was not given, with their sources; GET /v1/sawing-losses lists them"`
	chart          func(width int) []byte
}

// Recommendation is which way to go, and why.
type Recommendation struct {
	Way     string   `json:"way" required:"true" enum:"saw_now,dry_whole,equivalent,trade_off,neither" description:"equivalent: nothing tells them apart; trade_off: one is sooner, the other gives more or is safer; dry_whole in spite of a reason against it only where another says that it decides; neither: no way ends within the forecast, or its leaves would not stay ready where they lie, or neither gives a set"`
	Reasons []string `json:"reasons" required:"true" nullable:"false" description:"why, one thing in each sentence"`
}

// ProfileNow is the moisture content through the thickness today.
type ProfileNow struct {
	Mean   wire.Band `json:"mean_mc" required:"true" description:"over the thickness"`
	Shell  wire.Band `json:"shell_mc" required:"true" description:"of the outer tenth at each face; where shell and core were not read, over the pasts that the billet may have"`
	Core   wire.Band `json:"core_mc" required:"true" description:"of the middle fifth"`
	Origin string    `json:"origin" required:"true" enum:"read,dried_down_in_the_first_place,even" description:"where the difference of shell and core comes from"`
}

// TimingWay is one way to the finished leaves.
type TimingWay struct {
	SawOn       wire.DateBand    `json:"saw_on" required:"true" description:"when it is sawn; days from as_of"`
	SawAt       wire.Band        `json:"saw_mc" required:"true" description:"mean moisture content of the billet then"`
	ReadyOn     wire.DateBand    `json:"ready_on" required:"true" description:"when the leaves are ready to be thicknessed; days from as_of. No date where most cases that are ready then no longer are four weeks later"`
	Leaf        shelf.LeafBuild  `json:"sawn_leaf" required:"true" description:"the leaf as sawn"`
	Width       wire.Quantity    `json:"width" required:"true" description:"of the leaf as sawn, its shrinkage included"`
	Billet      wire.Quantity    `json:"billet_thickness" required:"true" description:"when it is sawn"`
	BilletWidth wire.Quantity    `json:"billet_width" required:"true" description:"when it is sawn"`
	Leaves      int              `json:"leaves" required:"true" description:"that the billet gives this way"`
	Sets        int              `json:"sets" required:"true" description:"of neighbouring leaves of one stack"`
	Unpaired    int              `json:"unpaired_leaves" required:"true" description:"good leaves in no set"`
	Cup         *LeafCup         `json:"cup,omitempty" description:"of the leaf that bends most once it is even through; left out when not one leaf is had"`
	Ends        *EndAdvice       `json:"ends,omitempty" description:"with end_seal of the billet: what its ends usually lose"`
	Checks      *SurfaceChecks   `json:"surface_checks,omitempty" description:"where a safe daily loss of the wood is known and it is wet now"`
	Factor      shelf.FactorUsed `json:"drying_factor" required:"true" description:"of what dries first: the leaf, or the billet"`
	Risks       []string         `json:"risks" required:"true" nullable:"false" description:"what may go wrong this way, and what to do about it"`
	Series      []CoursePoint    `json:"series" nullable:"false" detail:"full" description:"of the leaf; dried whole, of the billet and from the middle saw date of its leaf. Left out with ?detail=summary"`
}

// LeafCup is the cup that the gradient at sawing puts into a leaf.
type LeafCup struct {
	Leaf      int           `json:"leaf" required:"true" description:"which leaf, the likeliest: its number from face 1, from 1"`
	Cup       wire.Band     `json:"cup" required:"true" description:"mean over the profiles that the billet may have, and nine of ten of them: sagitta over the width of the leaf; elastic, so that set and creep make the real one smaller. The cup of flatsawn rings comes on top"`
	Hollow    string        `json:"hollow_towards,omitempty" enum:"shell,core" description:"where in the billet the side lay that becomes hollow: towards its face or its middle"`
	Allowance wire.Quantity `json:"flattening_allowance" required:"true" description:"thickness planned for flattening: flatness, and thick and thin"`
	Exceeds   bool          `json:"exceeds_allowance" required:"true" description:"the cup is more than the thickness planned for flattening"`
	FlatLeaf  wire.Quantity `json:"flat_sawn_thickness" required:"true" description:"of a leaf as sawn at which the cup is no more than is planned for flattening; that of sawn_leaf where it is none as it is"`
	FlatSets  int           `json:"flat_sets" required:"true" description:"sets of leaves of that thickness, all of which come flat; where the cup is within what is planned, those that come flat as they are"`
	Over      float64       `json:"exceeds_probability" required:"true" description:"that it is more than that"`
}

// TimeScale is how much faster a leaf settles than the billet.
type TimeScale struct {
	ThicknessRatio float64 `json:"thickness_ratio" required:"true" description:"billet over leaf"`
	Value          float64 `json:"value" required:"true" description:"of the drying model: time to lose half of the distance to the target in the room of the target; low and high are no 90 % band"`
	Low            float64 `json:"low" required:"true" description:"time as thickness to the power 1.5, or value where that is less"`
	High           float64 `json:"high" required:"true" description:"to the power 2, pure diffusion, or value where that is more"`
	Unit           string  `json:"unit" required:"true" enum:"1" description:"of all three: a ratio"`
}

// Render draws the two courses.
func (r *ResawTimingResult) Render(string) ([]byte, error) {
	return r.chart(0), nil
}

// RenderShown draws them for a screen that has so many px for them.
func (r *ResawTimingResult) RenderShown(width int) ([]byte, error) {
	return drawing.OnScreen(r.chart(width)), nil
}
