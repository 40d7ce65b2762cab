package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ResawRequest asks for the best plan to cut billets into sets. X runs along the
// length from the start, y across the width from the near edge, which is straight,
// and z into the wood from face 1, where sawing starts.
type ResawRequest struct {
	Billets  []PlanBillet     `json:"billets" validate:"required,min=1,max=50,dive" nullable:"false"`
	Saws     []PlanSaw        `json:"saws" validate:"required,min=1,max=6,dive" nullable:"false" description:"compared; a plan uses one"`
	Parts    []PlanPart       `json:"parts" validate:"required,min=1,max=20,dive" nullable:"false"`
	Wood     *shelf.WoodAsked `json:"wood,omitempty" description:"of every billet that names none: for mass, cautions and the shrinkage still to come"`
	Chance   *PlanVaries      `json:"chance,omitempty" description:"what varies; with it the answer tells the chance of at least n sets"`
	Work     *int             `json:"max_search_steps,omitempty" validate:"omitempty,gte=1000,lte=20000000" default:"20000000" description:"steps of the search, so that the same request has the same answer on every machine; a million takes about 0.03 s"`
	Template *int             `json:"template_billet,omitempty" validate:"omitempty,gte=1,lte=50" default:"1" description:"with ?as=template: number of the billet whose end is drawn"`
	Date     string           `json:"date,omitempty" validate:"omitempty,datetime=2006-01-02" description:"for the title block of the drawing"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *ResawRequest) System() string { return r.ReportIn }

// PlanBillet is one rough piece of wood as measured.
type PlanBillet struct {
	Name        string           `json:"name,omitempty" validate:"max=40"`
	Wood        *shelf.WoodAsked `json:"wood,omitempty" description:"of every billet that names none: for mass, cautions and the shrinkage still to come"`
	MC          *float64         `json:"mc_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"moisture content at the saw; with a species it gives the mass"`
	MCSD        *float64         `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0,lte=50" default:"0" description:"its standard deviation"`
	Length      *wire.Length     `json:"length" validate:"required,gte=0.01,lte=20"`
	Width       *wire.Length     `json:"width" validate:"required,gte=0.005,lte=5" description:"at the start"`
	Thickness   *wire.Length     `json:"thickness" validate:"required,gte=0.0005,lte=2" description:"at the start and the near edge"`
	WidthEnd    *wire.Length     `json:"end_width,omitempty" validate:"omitempty,gte=0,lte=5" description:"at the end; default: as at the start"`
	ThickEnd    *wire.Length     `json:"end_thickness,omitempty" validate:"omitempty,gte=0,lte=2" description:"at the end and the near edge; default: as at the start"`
	ThickFar    *wire.Length     `json:"far_thickness,omitempty" validate:"omitempty,gte=0,lte=2" description:"of a wedge, at the start and the far edge; default: as at the near edge"`
	FacingFace1 *wire.Length     `json:"facing_face_1,omitempty" validate:"omitempty,gte=0,lte=0.1" description:"taken off face 1 of every blank beyond flattening; default 1 mm"`
	FacingFar   *wire.Length     `json:"facing_face_2,omitempty" validate:"omitempty,gte=0,lte=0.1" description:"taken off the far face; default 1 mm"`
	TrimStart   *wire.Length     `json:"end_trim_start,omitempty" validate:"omitempty,gte=0,lte=5" description:"lost at the start to checks, the cut included"`
	TrimEnd     *wire.Length     `json:"end_trim_end,omitempty" validate:"omitempty,gte=0,lte=5"`
	Ends        string           `json:"ends,omitempty" validate:"max=40" enum:"growth-stress,hair-checks,inner-checks,sealed-fresh,sealed-late,squares-fast,stickers-at-ends" description:"how the ends were sealed and dried, by the id of an end trim of GET /v1/sawing-losses?kind=end_trim; its high end is taken at each end. A trim given for one end, end_trim_start or end_trim_end, replaces it for that end; not together with both. Not the same choices as ends of /v1/seasoning and /v1/resaw-timing, which are of wood still to dry"`
	Zones       []PlanZone       `json:"zones,omitempty" validate:"max=60,dive" description:"boxes to keep out of; touching one is allowed"`
	Cup         *wire.Length     `json:"cup,omitempty" validate:"omitempty,gte=0,lte=0.1" description:"over the whole width, as measured"`
	Bow         *wire.Length     `json:"bow,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"over the whole length"`
	Twist       *wire.Length     `json:"twist,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"rock of one corner over the whole length and width"`
	Packed      bool             `json:"twist_packed,omitempty" description:"the rock is shared between two corners by packing, which halves its cost"`
	Rings       *PlanRings       `json:"rings,omitempty" description:"how the rings lie; needed for parts with a ring angle and for the match"`
	Runout      *float64         `json:"runout_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the fibre leaves the face 1 in this; needed for parts that limit runout"`
}

// PlanZone is a box of a billet that no part may hold.
type PlanZone struct {
	Kind  string       `json:"kind" validate:"required,oneof=knot check shake sapwood pith wane other"`
	XFrom *wire.Length `json:"x_from" validate:"required,gte=-1,lte=20"`
	XTo   *wire.Length `json:"x_to" validate:"required,gte=-1,lte=20"`
	YFrom *wire.Length `json:"y_from" validate:"required,gte=-1,lte=5"`
	YTo   *wire.Length `json:"y_to" validate:"required,gte=-1,lte=5"`
	ZFrom *wire.Length `json:"z_from,omitempty" validate:"omitempty,gte=-1,lte=2" description:"below face 1; without z_from and z_to the zone goes from face to face"`
	ZTo   *wire.Length `json:"z_to,omitempty" validate:"omitempty,gte=-1,lte=2"`
}

// PlanRings is how the rings lie in a billet; exactly one of pith, readings and
// ring_angle_deg.
type PlanRings struct {
	Pith            *PlanPoint        `json:"pith,omitempty" description:"measured on the end grain; often outside the billet"`
	Readings        []PlanRingReading `json:"readings,omitempty" validate:"max=2,dive" description:"ring angle at two places of face 1; they give the pith"`
	RingAngle       *float64          `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0.01,lte=90" description:"one angle for the whole billet, to the face: 90 quartersawn"`
	PithBeforeFace1 bool              `json:"pith_before_face_1,omitempty" description:"with readings: the pith lies outside face 1 and not on the side of the wood"`
}

// PlanPoint is a place on the end grain. Either may be negative.
type PlanPoint struct {
	Y *wire.Length `json:"y" validate:"required,gte=-50,lte=50" description:"from the near edge along the face"`
	Z *wire.Length `json:"z" validate:"required,gte=-50,lte=50" description:"from face 1 into the wood"`
}

// PlanRingReading is a ring angle read at a place of face 1.
type PlanRingReading struct {
	Y     *wire.Length `json:"y" validate:"required,gte=-5,lte=5" description:"from the near edge along the face"`
	Angle *float64     `json:"ring_angle_deg" validate:"required,gte=0.01,lte=90"`
}

// PlanSaw is one saw with the habits that go with it.
type PlanSaw struct {
	Name        string       `json:"name,omitempty" validate:"max=60"`
	ID          string       `json:"saw,omitempty" validate:"max=40" description:"id of a kerf of GET /v1/sawing-losses?kind=kerf; its usual kerf stands in for kerf"`
	Kerf        *wire.Length `json:"kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"of the resaw cut; make one cut in scrap and measure it"`
	RipKerf     *wire.Length `json:"rip_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"default: the resaw kerf"`
	Crosscut    *wire.Length `json:"crosscut_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"default: the resaw kerf"`
	Wander      *wire.Length `json:"wander,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"allowed for in every leaf; default 0.5 mm"`
	CleanupShow *wire.Length `json:"cleanup_show,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"off the show face of every leaf; default 0.8 mm, of a face split with a froe 4.5 mm"`
	CleanupBack *wire.Length `json:"cleanup_back,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"off its back; default as cleanup_show"`
	Reface      *wire.Length `json:"reface,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"off the blank after every cut; default none"`
	RoughFar    bool         `json:"face_2_rough,omitempty" description:"the far face is not finished, so every leaf needs a cut of its own"`
	HighestCut  *wire.Length `json:"max_cut_height,omitempty" validate:"omitempty,gt=0,lte=2" description:"widest blank it can resaw; default: any"`
}

// PlanPart is one kind of part that is wanted: from the table by plate, every
// value of which may be changed, or with sizes of its own.
type PlanPart struct {
	Name       string       `json:"name,omitempty" validate:"max=60"`
	Plate      string       `json:"plate,omitempty" validate:"max=60" description:"id of a part of GET /v1/part-sizes"`
	Length     *wire.Length `json:"length,omitempty" validate:"omitempty,gte=0.01,lte=20" description:"of one piece along the grain, its allowances included"`
	Width      *wire.Length `json:"width,omitempty" validate:"omitempty,gte=0.003,lte=5" description:"of one piece, its allowances included"`
	Final      *wire.Length `json:"final_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1" description:"clean-up and wander of the saw, flatness and the shrinkage still to come are added"`
	Flatness   *wire.Length `json:"flatness,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"lost to flattening a leaf; default 0.5 mm"`
	Pieces     *int         `json:"pieces_per_set,omitempty" validate:"omitempty,gte=1,lte=100" description:"neighbouring leaves that make one set; default: the plate's, or 2 for a matched part and 1 for one that is not"`
	Match      string       `json:"match,omitempty" validate:"omitempty,oneof=bookmatch slip_match none" description:"default: the plate's, or bookmatch for sets of two or more"`
	RingAngle  *float64     `json:"min_ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=89.99" default:"0" description:"least angle of the rings to the face over the whole width; 0: any"`
	Runout     *float64     `json:"max_runout_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the fibre may leave the face 1 in this at most"`
	Least      *int         `json:"least,omitempty" validate:"omitempty,gte=0,lte=10000" default:"0" description:"sets wanted at least"`
	Most       *int         `json:"most,omitempty" validate:"omitempty,gte=0,lte=10000" description:"sets of any worth at most; default: no limit"`
	Worth      *int         `json:"worth,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"of one set, in whole units of anything; needed where there are several parts"`
	SawnAtPct  *float64     `json:"sawn_at_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"moisture content when sawn; with dried_to_pct and a species it adds the shrinkage still to come to thickness and width"`
	DriedToPct *float64     `json:"dried_to_pct,omitempty" validate:"omitempty,gte=0,lte=30"`
	DriesAtDeg *float64     `json:"shrinkage_ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"ring angle for that shrinkage; default: the ring angle of the billets where all state the same, else the least ring angle if given, else 90"`
}

// PlanVaries is what varies between the plan and the bench.
type PlanVaries struct {
	KerfSD   *wire.Length `json:"kerf_sd,omitempty" validate:"omitempty,gte=0,lte=0.01" description:"standard deviation of the resaw kerf, one for the whole job; default 0"`
	WanderSD *wire.Length `json:"wander_sd,omitempty" validate:"omitempty,gte=0,lte=0.01" description:"standard deviation of wander, each leaf on its own; one that strays by more than wander allows is lost; default 0"`
	Hidden   *float64     `json:"hidden_fault_pct,omitempty" validate:"omitempty,gte=0,lte=100" default:"0" description:"chance that a leaf which looks clear on the billet is not when it is opened"`
}
