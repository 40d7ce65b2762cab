package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ResawResult is the best plan found.
type ResawResult struct {
	Summary  string             `json:"summary" required:"true"`
	Proof    PlanProof          `json:"proof" required:"true"`
	Saw      string             `json:"saw" required:"true" description:"id of the one the plan uses"`
	Parts    []PlanYield        `json:"parts" required:"true" nullable:"false"`
	Billets  []BilletAnswer     `json:"billets" required:"true" nullable:"false"`
	Saws     []SawAnswer        `json:"saws" required:"true" nullable:"false" description:"what every saw offered would give"`
	Matches  []PlannedMatch     `json:"matches,omitempty" description:"every matched pair of the plan where the rings are known, the best first"`
	Chance   *PlanChance        `json:"chance,omitempty"`
	Volume   shelf.BilletVolume `json:"volume" required:"true" description:"of all billets"`
	Mass     *wire.Band         `json:"mass,omitempty" description:"of all billets at the saw, where all have a species and a moisture content; their densities are taken to stray together"`
	Species  []shelf.WoodUsed   `json:"species,omitempty"`
	StandIns []shelf.Provenance `json:"defaults_used,omitempty" description:"figures of the tables that stood in for what was not given, with their sources"`

	drawing planDrawn
}

// PlanProof says how good the plan is.
type PlanProof struct {
	Optimal    bool    `json:"optimal" required:"true" description:"proven: no plan on any of the saws misses fewer sets, nor misses as few and is worth more"`
	Worth      int64   `json:"worth" required:"true" description:"of all sets that count"`
	Bound      int64   `json:"bound" required:"true" description:"no plan on any of the saws is worth more"`
	Gap        int64   `json:"gap" required:"true" description:"bound less worth"`
	GapPct     float64 `json:"gap_pct" required:"true" description:"of the bound"`
	Missing    int     `json:"sets_missing" required:"true" description:"from the least numbers wanted"`
	Work       int64   `json:"work" required:"true" description:"steps done"`
	Budget     int64   `json:"max_search_steps" required:"true"`
	EndedEarly bool    `json:"ended_early" required:"true" description:"the budget was used up before the proof was done"`
}

// PlanYield is what the plan gives of one part.
type PlanYield struct {
	ID       string          `json:"id" required:"true" description:"of the part: yours, or its position in the request"`
	PartSize string          `json:"part_size,omitempty" description:"the one that the request names"`
	Length   wire.Quantity   `json:"length" required:"true" description:"as sawn"`
	Width    wire.Quantity   `json:"width" required:"true" description:"as sawn, shrinkage still to come included"`
	Leaf     shelf.LeafBuild `json:"leaf" required:"true" description:"thickness as sawn on this saw, line by line"`
	Pieces   int             `json:"pieces_per_set" required:"true"`
	Match    string          `json:"match" required:"true" enum:"bookmatch,slip_match,none"`
	Sets     int             `json:"sets" required:"true" description:"that count: those beyond most do not"`
	Least    int             `json:"least" required:"true"`
	Most     *int            `json:"most,omitempty"`
	Missing  int             `json:"missing" required:"true"`
	Worth    int64           `json:"worth" required:"true" description:"of one set"`
}

// BilletAnswer is how one billet is cut.
type BilletAnswer struct {
	ID        string             `json:"id" required:"true" description:"of the billet: yours, or its position in the request"`
	Worth     int64              `json:"worth" required:"true"`
	Cuts      int                `json:"cuts" required:"true"`
	Steps     []PlanStep         `json:"steps" required:"true" nullable:"false" description:"in the order of the work"`
	Blanks    []PlanBlank        `json:"blanks" required:"true" nullable:"false"`
	Remainder wire.Quantity      `json:"remainder_length" required:"true" description:"length left whole beyond the last crosscut"`
	Shares    PlanShares         `json:"shares" required:"true"`
	Volume    shelf.BilletVolume `json:"volume" required:"true"`
	Mass      *wire.Band         `json:"mass,omitempty" description:"at the saw, before the first cut"`
	Pith      *PlanPlace         `json:"pith,omitempty" description:"given, or found from two readings"`
}

// PlanPlace is a place on the end grain.
type PlanPlace struct {
	Y wire.Quantity `json:"y" required:"true"`
	Z wire.Quantity `json:"z" required:"true"`
}

// PlanStep is one action on one piece. Piece 0 is the billet.
type PlanStep struct {
	Number int           `json:"number" required:"true"`
	Action string        `json:"action" required:"true" enum:"crosscut,rip,trim,flatten,resaw,plane"`
	Piece  int           `json:"piece" required:"true" description:"it is done to"`
	At     wire.Quantity `json:"at" required:"true" description:"where the kerf starts: from the start of the billet, from its near edge or, resawing, from the planed face 1; for flatten the depth of that face below the rough face 1"`
	Width  wire.Quantity `json:"width" required:"true" description:"of what is taken: the kerf; for flatten the thickness that is left"`
	Low    *PlanWood     `json:"low,omitempty" description:"the piece before the kerf; left out when nothing is left there"`
	High   *PlanWood     `json:"high,omitempty" description:"the piece beyond it"`
	Do     string        `json:"do" required:"true" description:"the same in words"`
}

// PlanWood is a piece that a step makes.
type PlanWood struct {
	Piece int    `json:"piece" required:"true"`
	Is    string `json:"is" required:"true" description:"to be cut further, blank A, leaf A3, slab A2 or offcut"`
}

// PlanBlank is one stack of leaves.
type PlanBlank struct {
	Label   string        `json:"label" required:"true" description:"A, B, ... within the billet"`
	X       wire.Quantity `json:"x" required:"true" description:"from the start of the rough billet"`
	Y       wire.Quantity `json:"y" required:"true" description:"from its near edge"`
	Length  wire.Quantity `json:"length" required:"true"`
	Width   wire.Quantity `json:"width" required:"true"`
	Face1   wire.Quantity `json:"face_1_depth" required:"true" description:"of the planed face 1 below the rough one"`
	Usable  wire.Quantity `json:"usable_thickness" required:"true" description:"once flat"`
	Leaves  []PlanLeaf    `json:"leaves" required:"true" nullable:"false"`
	Left    wire.Quantity `json:"thickness_left" required:"true" description:"behind the last leaf and its cut"`
	OneMore *MoreWood     `json:"one_more_leaf,omitempty" description:"what one more leaf of the last leaf's kind would need"`
	NextSet *MoreWood     `json:"one_more_set,omitempty" description:"the same for a whole set of it"`
}

// PlanLeaf is one leaf, numbered from face 1 of its blank.
type PlanLeaf struct {
	Number  int           `json:"number" required:"true"`
	Role    string        `json:"role" required:"true" enum:"set,odd,spoiled"`
	Part    string        `json:"part,omitempty"`
	Set     int           `json:"set,omitempty" description:"number among the sets of this part over all billets"`
	From    wire.Quantity `json:"from" required:"true" description:"below the planed face 1"`
	To      wire.Quantity `json:"to" required:"true"`
	GoodFor []string      `json:"good_for,omitempty" description:"of odd and spoiled leaves"`
}

// MoreWood is what further leaves would need; each cure alone.
type MoreWood struct {
	Leaves     int            `json:"leaves" required:"true" description:"how many more"`
	ShortBy    wire.Quantity  `json:"short_by" required:"true" description:"of the usable thickness; 0: they would fit"`
	KerfAtMost *wire.Quantity `json:"kerf_at_most,omitempty" description:"left out where no kerf would do or a zone holds leaves in their place"`
	ThinnerBy  *wire.Quantity `json:"thinner_by,omitempty" description:"off every leaf of the blank"`
}

// PlanShares is what becomes of the wood, in percent of the billet's volume.
type PlanShares struct {
	PlatePct     float64 `json:"plate_pct" required:"true" description:"leaves as sawn, odd ones included"`
	KerfPct      float64 `json:"kerf_pct" required:"true"`
	ShavingsPct  float64 `json:"shavings_pct" required:"true" description:"flattening, facing, re-facing"`
	RemainderPct float64 `json:"remainder_pct" required:"true" description:"trims, slabs, strips and lengths left"`
}

// SawAnswer is what one saw would give.
type SawAnswer struct {
	ID      string        `json:"id" required:"true" description:"of the saw: yours, or its position in the request"`
	Kerf    wire.Quantity `json:"kerf" required:"true"`
	Worth   int64         `json:"worth" required:"true"`
	Bound   int64         `json:"bound" required:"true"`
	Optimal bool          `json:"optimal" required:"true"`
	Sets    []int         `json:"sets" required:"true" nullable:"false" description:"of each part, in the order of the request"`
	Missing int           `json:"sets_missing" required:"true"`
	Leaves  int           `json:"leaves" required:"true"`
	Cuts    int           `json:"cuts" required:"true"`
}

// PlannedMatch is how a planned pair matches.
type PlannedMatch struct {
	Rank     int            `json:"rank" required:"true"`
	Billet   string         `json:"billet" required:"true"`
	Blank    string         `json:"blank" required:"true"`
	Leaves   []int          `json:"leaves" required:"true" nullable:"false"`
	Part     string         `json:"part" required:"true"`
	Set      int            `json:"set" required:"true"`
	Opening  string         `json:"opening" required:"true" enum:"bookmatch,slip_match"`
	Distance wire.Quantity  `json:"distance" required:"true" description:"d: wood of the billet between the faces that show"`
	Edge     string         `json:"better_edge" required:"true" enum:"near,far" description:"of the first leaf, at the seam"`
	Faced    string         `json:"edge_faced,omitempty" enum:"bark,heart" description:"in the tree"`
	Shift    *wire.Quantity `json:"ring_shift,omitempty" description:"of ring lines across the seam at that edge; left out where a ring line has no partner"`
	AngleDeg float64        `json:"ring_angle_deg" required:"true" description:"at that edge, on the first leaf"`
	Score    float64        `json:"score" required:"true" description:"less is better; POST /v1/bookmatch explains and changes it"`
}

// PlanChance is how sure the sets of the plan are.
type PlanChance struct {
	LeafLostPct float64        `json:"leaf_lost_pct" required:"true" description:"chance that a leaf is lost to a hidden fault or to wander"`
	Parts       []ChanceOfPart `json:"parts" required:"true" nullable:"false"`
	Assumes     string         `json:"assumes" required:"true"`
}

// ChanceOfPart is how sure the sets of one part are.
type ChanceOfPart struct {
	ID      string    `json:"id" required:"true" description:"of the part"`
	Planned int       `json:"planned" required:"true"`
	Mean    float64   `json:"mean" required:"true" description:"sets to be expected; more than planned are not counted"`
	AtLeast []float64 `json:"at_least_pct" required:"true" nullable:"false" description:"chance of at least 1, 2, ... sets, in percent"`
	Likely  int       `json:"at_least_90_pct" required:"true" description:"sets to count on: had with a chance of 90 % or more"`
}

// Steps are the steps of the search.
func (r *ResawResult) Steps() int64 { return r.Proof.Work }

// planDrawn draws a plan: a sheet for the bench, and a template at true scale.
type planDrawn interface {
	sheet() []byte
	template() []byte
}

// Render draws the plan.
func (r *ResawResult) Render(name string) ([]byte, error) {
	if name == wire.TemplateForm.Name {
		return r.drawing.template(), nil
	}
	return r.drawing.sheet(), nil
}
