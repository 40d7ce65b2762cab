package dry

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// TimingRequest asks whether a billet is better sawn into leaves now, or dried
// whole and sawn then.
type TimingRequest struct {
	Species      string           `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood         *shelf.OwnWood   `json:"wood,omitempty"`
	Billet       *shelf.Billet    `json:"billet" validate:"required" description:"as it measures now"`
	RingAngle    *float64         `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" default:"90" description:"of the rings to the face of the leaves: 90 quartersawn, whose thickness moves tangentially"`
	Moisture     *MoistureRead    `json:"moisture" validate:"required" description:"of the billet on the day as_of"`
	AsOf         string           `json:"as_of" validate:"required,datetime=2006-01-02" description:"today; days are counted from here"`
	Storage      []shelf.Stay     `json:"storage" validate:"required,min=1,max=12,dive" description:"where billet or leaves lie from today, in order of time"`
	BuildRoom    *shelf.Air       `json:"build_room" validate:"required" description:"air of the room the wood will be worked in; its equilibrium is the target"`
	Ends         string           `json:"ends,omitempty" validate:"omitempty,oneof=sealed_fresh sealed_late bare" description:"how the ends are kept; gives the end trim to plan for"`
	Saw          *shelf.Saw       `json:"saw" validate:"required"`
	Part         *shelf.PlatePart `json:"part" validate:"required" description:"sizes dry, in the build room; the shrinkage still to come is added here"`
	ThickAndThin *wire.Length     `json:"thick_and_thin,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"extra thickness of a leaf sawn before it is dry, for cup and thick and thin; default 1.5 mm"`
	Limits       []StepLimits     `json:"limits,omitempty" validate:"max=2,dive" description:"for resaw (the billet) and thickness (the leaves), in place of the usual ones"`
	Horizon      *float64         `json:"horizon_days,omitempty" validate:"omitempty,gte=7,lte=3650" default:"1825"`
	Factor       *shelf.OwnFactor `json:"drying_factor,omitempty" description:"in place of that of the tables"`
	ReportIn     string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *TimingRequest) System() string { return r.ReportIn }

// MoistureRead is the moisture content of a billet now.
type MoistureRead struct {
	Mean  *float64 `json:"mean_pct" validate:"required,gte=3,lte=140" description:"over the thickness"`
	SD    *float64 `json:"sd_pct,omitempty" validate:"omitempty,gte=0.1,lte=50" description:"standard deviation of the mean; default 3 % of it, at least 1 point"`
	Shell *float64 `json:"shell_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"outer tenth at each face; with core_pct"`
	Core  *float64 `json:"core_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"middle fifth; with shell_pct. Without them the wood is taken to have dried down in the first place of storage"`
}

// TimingResult lays both ways side by side.
type TimingResult struct {
	Wood           shelf.WoodUsed     `json:"wood" required:"true"`
	Summary        string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Recommendation Advised            `json:"recommendation" required:"true"`
	Target         wire.PercentBand   `json:"target" required:"true" description:"where the wood settles in the build room"`
	Moisture       ProfileNow         `json:"moisture" required:"true"`
	SawNow         TimingWay          `json:"saw_now" required:"true" description:"sawn today; the leaves dry"`
	DryWhole       TimingWay          `json:"dry_whole" required:"true" description:"the billet dries until it is ready to resaw; its leaves then settle"`
	TimeScale      TimeScale          `json:"time_scale" required:"true"`
	StandIns       []shelf.Provenance `json:"stand_ins,omitempty" description:"usual losses that stood in for what was not given, with their sources; GET /v1/saws lists them"`
	chart          func() []byte
}

// Advised is which way to go, and why.
type Advised struct {
	Way     string   `json:"way" required:"true" enum:"saw_now,dry_whole,toss_up,trade_off,neither" description:"toss_up: nothing tells them apart; trade_off: one is sooner, the other gives more or is safer; neither: no way ends within the forecast"`
	Reasons []string `json:"reasons" required:"true" nullable:"false"`
}

// ProfileNow is the moisture content through the thickness today.
type ProfileNow struct {
	Mean     wire.PercentBand `json:"mean" required:"true"`
	ShellPct float64          `json:"shell_pct" required:"true"`
	CorePct  float64          `json:"core_pct" required:"true"`
	How      string           `json:"how" required:"true" enum:"read,dried_down_in_the_first_place,even" description:"where the difference of shell and core comes from"`
}

// TimingWay is one way to the finished leaves.
type TimingWay struct {
	SawOn       ReachedOn        `json:"saw_on" required:"true" description:"when it is sawn; days from as_of"`
	SawAt       wire.PercentBand `json:"saw_at" required:"true" description:"mean moisture content of the billet then"`
	ReadyOn     ReachedOn        `json:"ready_on" required:"true" description:"when the leaves are ready to be thicknessed; days from as_of"`
	Leaf        shelf.LeafBuild  `json:"leaf" required:"true" description:"the leaf as sawn"`
	Width       wire.Quantity    `json:"width" required:"true" description:"of the leaf as sawn, its shrinkage included"`
	Billet      wire.Quantity    `json:"billet_thickness" required:"true" description:"when it is sawn"`
	BilletWidth wire.Quantity    `json:"billet_width" required:"true"`
	Leaves      int              `json:"leaves" required:"true"`
	Sets        int              `json:"sets" required:"true"`
	OddLeaves   int              `json:"odd_leaves" required:"true"`
	Cup         *LeafCup         `json:"cup,omitempty" description:"of the leaf that bends most once it is even through; left out when not one leaf is had"`
	Ends        *EndAdvice       `json:"ends,omitempty"`
	Checks      *SurfaceChecks   `json:"surface_checks,omitempty" description:"where a safe daily loss of the wood is known and it is wet now"`
	Factor      shelf.FactorUsed `json:"drying_factor" required:"true" description:"of what dries first: the leaf, or the billet"`
	Risks       []string         `json:"risks" required:"true" nullable:"false"`
	Series      []CoursePoint    `json:"series" required:"true" nullable:"false" description:"of the leaf; dried whole, of the billet and from the middle saw date of its leaf"`
}

// LeafCup is the cup that the gradient at sawing puts into a leaf.
type LeafCup struct {
	Leaf    int               `json:"leaf" required:"true" description:"from face 1"`
	Cup     wire.QuantityBand `json:"cup" required:"true" description:"sagitta over the width of the leaf; elastic, so that set and creep make the real one smaller. The cup of flatsawn rings comes on top"`
	Hollow  string            `json:"hollow,omitempty" enum:"outside,inside" description:"the side that becomes hollow: towards the outside or the middle of the billet"`
	Room    wire.Quantity     `json:"room" required:"true" description:"thickness planned for flattening: flatness, and thick and thin"`
	Exceeds bool              `json:"exceeds_room" required:"true"`
}

// TimeScale is how much faster a leaf settles than the billet.
type TimeScale struct {
	ThicknessRatio float64 `json:"thickness_ratio" required:"true" description:"billet over leaf"`
	Low            float64 `json:"low" required:"true" description:"time as thickness to the power 1.5"`
	High           float64 `json:"high" required:"true" description:"to the power 2, pure diffusion"`
	Computed       float64 `json:"computed" required:"true" description:"of the drying model: time to lose half of the distance to the target in the build room"`
}

func ComputeTiming(ctx context.Context, t *shelf.Tables, req *TimingRequest) (*TimingResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.WoodOf(req.Species, req.Wood, &notes)
	report := wire.ReportIn(req.ReportIn)
	g := &timing{ctx: ctx, req: req, tables: t, wood: w, notes: &notes, report: report, usual: &shelf.StandIns{Report: report}, solver: drying.Solver{Work: shelf.Simulation(ctx)}}
	if err := g.prepare(noWood); err != nil {
		return nil, notes, err
	}
	r := &TimingResult{
		Wood:   w.Used("radial", "tangential", "coefficient_radial", "coefficient_tangential", "specific_gravity_green", "fibre_saturation", "safe_daily_loss"),
		Target: wire.MoistureBandOf(g.target), Moisture: g.profileNow(),
	}
	if err := g.sawNow(&r.SawNow); err != nil {
		return nil, notes, err
	}
	if err := g.dryWhole(&r.DryWhole); err != nil {
		return nil, notes, err
	}
	if err := g.timeScale(&r.TimeScale); err != nil {
		return nil, notes, err
	}
	r.StandIns = g.usual.All
	g.recommend(r)
	r.chart = func() []byte { return g.chart(r).draw() }
	t.Cautions(w, &notes)
	notes.Warn(shelf.ResawCaution)
	return r, notes, nil
}

// timing is the work on one request.
type timing struct {
	ctx    context.Context //nolint:containedctx // of one request, as long as its work
	req    *TimingRequest
	tables *shelf.Tables
	wood   *shelf.Wood
	notes  *method.Notes
	report wire.Reporter
	usual  *shelf.StandIns
	solver drying.Solver

	angle   quantity.Angle
	target  quantity.Band[quantity.Moisture]
	now     quantity.Band[quantity.Moisture]
	sd      quantity.Moisture
	horizon quantity.Duration
	dry     quantity.Length // leaf without shrinkage and without thick and thin
	build   []shelf.LeafPart
	flat    quantity.Length // of it, for flattening
	extra   quantity.Length // thick and thin
	profile profile
	how     string

	isReady bool            // within the limits to resaw, today
	leafNow quantity.Length // sawn now
	stay    *storage        // from today on
	way     [2]wayCourse    // for the drawing: sawn now, dried whole
}

// prepare checks the request, tells all that is wrong at once, and works out what
// both ways share.
func (g *timing) prepare(noWood error) error {
	req := g.req
	wrong := errors.Join(noWood, g.checkRequest(), wire.Under("billet", req.Billet.Tapers()), wire.Under("part", req.Part.Fits(req.Billet)))
	degrees := 90.0
	if req.RingAngle != nil {
		degrees = *req.RingAngle
	} else {
		g.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "ring_angle_deg", Detail: "the leaves are taken as quartersawn, whose thickness shrinks most"})
	}
	g.angle = quantity.Angle(degrees) * quantity.Degree
	g.horizon = horizonOf(req.Horizon)
	mean := wire.FromPercent(*req.Moisture.Mean)
	g.sd = max(0.03*mean, 1*quantity.PercentMC)
	if req.Moisture.SD != nil {
		g.sd = wire.FromPercent(*req.Moisture.SD)
	}
	g.now = quantity.NormalBand(mean, g.sd)
	g.now.Low = max(g.now.Low, 0)
	var noTarget error
	g.target, noTarget = roomTarget(req.BuildRoom, nil, historyBranch(req.Moisture.Mean), g.wood, g.notes)
	if wrong := errors.Join(wrong, noTarget, g.leaf()); wrong != nil {
		_, noSetup := g.setupOf(req.Billet.Thickness.SI)
		return errors.Join(wrong, noSetup)
	}
	if err := g.findProfile(); err != nil {
		return err
	}
	g.isReady = g.readyNow()
	return nil
}

// checkRequest refuses what contradicts itself.
func (g *timing) checkRequest() error {
	req, m := g.req, g.req.Moisture
	var wrong []error
	if a := req.Part.Allowances; a != nil {
		for _, own := range []struct {
			given bool
			name  string
		}{{a.SawnAtPct != nil, "sawn_at_pct"}, {a.DriedToPct != nil, "dried_to_pct"}, {a.RingAngle != nil, "ring_angle_deg"}} {
			if own.given {
				wrong = append(wrong, wire.Contradictory("part/allowances/"+own.name, "the shrinkage still to come is worked out here from moisture, build_room and ring_angle_deg; leave "+own.name+" out"))
			}
		}
	}
	switch {
	case (m.Shell == nil) != (m.Core == nil):
		wrong = append(wrong, wire.Missing("moisture/"+map[bool]string{true: "shell_pct", false: "core_pct"}[m.Shell == nil], "shell_pct and core_pct go together"))
	case m.Shell != nil && (*m.Mean < min(*m.Shell, *m.Core)-1 || *m.Mean > max(*m.Shell, *m.Core)+1):
		wrong = append(wrong, wire.Contradictory("moisture/mean_pct", "the mean does not lie between shell and core"))
	}
	if req.Billet.Thickness.SI > thickestDried {
		wrong = append(wrong, &method.Error{Code: method.OutOfRange, Input: "billet/thickness", Limit: "at most " + thickestDried.AtMost(req.Billet.Thickness.Unit),
			Detail: "the drying model goes to " + thickestDried.AtMost(req.Billet.Thickness.Unit)})
	}
	seen := map[string]bool{}
	for i := range req.Limits {
		place := "limits/" + strconv.Itoa(i) + "/step"
		switch step := req.Limits[i].Step; {
		case step == string(readiness.Glue):
			wrong = append(wrong, &method.Error{Code: method.OutOfRange, Input: place, Limit: "resaw or thickness", Detail: "only the limits of resaw and thickness count here"})
		case seen[step]:
			wrong = append(wrong, wire.Contradictory(place, "the limits of "+step+" are given twice"))
		default:
			seen[step] = true
		}
	}
	return errors.Join(wrong...)
}

// thickestDried is the thickest stock of a forecast.
const thickestDried = 300 * quantity.Millimetre

// limits are the usual ones with the caller's in their place.
func (g *timing) limits(step readiness.Step, thickness quantity.Length) readiness.Limits {
	own := &ReadinessRequest{Billet: &shelf.Billet{Thickness: &wire.Length{SI: thickness}}, Limits: g.req.Limits}
	return own.limits(step)
}

// class is the drying class of the wood, if the tables know it.
func (g *timing) class() species.DryingClass {
	if g.wood.Row == nil {
		return ""
	}
	return g.wood.Row.Drying.Class
}

// Render draws the two courses.
func (r *TimingResult) Render(string) ([]byte, error) { //nolint:unparam // other results have forms they cannot give
	return r.chart(), nil
}
