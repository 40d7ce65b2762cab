package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ResawPlanResult is the best plan found. Positions are those of the rough billet: x from
// its start, y from its near edge, z from its face 1.
type ResawPlanResult struct {
	Summary  string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Proof    PlanProof          `json:"proof" required:"true" description:"how good the plan is"`
	Saw      string             `json:"saw" required:"true" description:"id of the one the plan uses"`
	Parts    []PlanYield        `json:"parts" required:"true" nullable:"false" description:"what the plan gives of each part, in the order of the request"`
	Billets  []BilletAnswer     `json:"billets" required:"true" nullable:"false" description:"how each billet is cut, in the order of the request"`
	Saws     []SawAnswer        `json:"saws" required:"true" nullable:"false" description:"what each saw offered would give, in the order of the request"`
	Matches  []PlannedMatch     `json:"matches,omitempty" description:"every matched pair of the plan where the rings are known, the best first; pairs split from a wedge are not among them"`
	Chance   *SetProbabilities  `json:"set_probabilities,omitempty" description:"how sure the sets are, with variation. Left out where it was not asked for, or the plan has too many leaves"`
	MaxKerf  *wire.Quantity     `json:"max_kerf,omitempty" description:"the widest resaw kerf at which every leaf of the plan is still had, with rips and crosscuts as wide as they are counted: measure yours on a test cut. Left out where no leaf hangs on it"`
	Buy      []WoodToBuy        `json:"wood_to_buy,omitempty" description:"what would give the sets that are missing from min_sets"`
	Volume   shelf.BilletVolume `json:"volume" required:"true" description:"of all billets"`
	Mass     *wire.Band         `json:"mass,omitempty" description:"of all billets at the saw, where wood and condition of all are known; their densities are taken to stray together"`
	Woods    []shelf.WoodUsed   `json:"woods,omitempty" description:"the woods whose figures the answer used"`
	StandIns []shelf.Provenance `json:"defaults_used,omitempty" description:"figures of the tables that stood in for what was not given, with their sources"`

	drawing planDrawn
}

// WoodToBuy is wood that would give what is missing of one part.
type WoodToBuy struct {
	Part      string        `json:"part" required:"true" description:"id of the part"`
	Count     int           `json:"count" required:"true" description:"how many such pieces"`
	Length    wire.Quantity `json:"length" required:"true" description:"with a kerf at both ends"`
	Width     wire.Quantity `json:"width" required:"true" description:"with a kerf at both edges"`
	Thickness wire.Quantity `json:"thickness" required:"true" description:"rough, faced as the first billet is"`
}

// PlanProof says how good the plan is.
type PlanProof struct {
	Optimal    bool    `json:"optimal" required:"true" description:"proven: no way to cut these billets by cuts from edge to edge of their faces, crosscut and ripped in any order and to any depth, misses fewer sets, nor misses as few and is worth more; a blank is as long as one part and as wide as one, and is resawn flat or, where the grain allows it, on its side, or as a wedge along its middle; its leaves are used whole or parted into as many of one smaller part as they hold; sets are of neighbours"`
	Worth      int64   `json:"total_value" required:"true" description:"what all sets that count are worth, in the unit of set_value"`
	Bound      int64   `json:"bound" required:"true" description:"no plan on any of the saws is worth more"`
	Gap        int64   `json:"gap" required:"true" description:"bound less total_value"`
	GapPct     float64 `json:"gap_share_pct" required:"true" description:"gap in percent of the bound"`
	Missing    int     `json:"missing_sets" required:"true" description:"from min_sets, of all parts"`
	Work       int64   `json:"search_steps" required:"true" description:"steps of the search that were done"`
	Budget     int64   `json:"max_search_steps" required:"true" description:"steps that were allowed"`
	UsedPct    float64 `json:"search_used_pct" required:"true" description:"how much of what the search may use was used, in percent: of steps or memory, whichever was used more; 100 where the processor time was used up"`
	EndedEarly bool    `json:"ended_early" required:"true" description:"steps, memory or time were used up before the proof was done"`
}

// PlanYield is what the plan gives of one part.
type PlanYield struct {
	ID       string          `json:"id" required:"true" description:"of the part: yours, or its position in the request"`
	Name     string          `json:"name,omitempty" description:"as it was sent"`
	PartSize string          `json:"part_size,omitempty" description:"the one that the request names"`
	Length   wire.Quantity   `json:"length" required:"true" description:"of one piece as sawn"`
	Width    wire.Quantity   `json:"width" required:"true" description:"of one piece as sawn, the shrinkage still to come included"`
	Leaf     shelf.LeafBuild `json:"sawn_leaf" required:"true" description:"thickness as sawn on this saw, line by line"`
	Pieces   int             `json:"pieces_per_set" required:"true" description:"leaves that make one set"`
	Match    string          `json:"match" required:"true" enum:"bookmatch,slip_match,none" description:"how they belong together"`
	Sets     int             `json:"sets" required:"true" description:"that count: those beyond max_sets do not"`
	Least    int             `json:"min_sets" required:"true" description:"wanted before all else"`
	Most     *int            `json:"max_sets,omitempty" description:"that count. Left out: no limit"`
	Missing  int             `json:"missing_sets" required:"true" description:"from min_sets"`
	Worth    int64           `json:"set_value" required:"true" description:"what one set is worth"`
}

// BilletAnswer is how one billet is cut.
type BilletAnswer struct {
	ID        string             `json:"id" required:"true" description:"of the billet: yours, or its position in the request"`
	Name      string             `json:"name,omitempty" description:"as it was sent"`
	Worth     int64              `json:"total_value" required:"true" description:"what the sets of this billet are worth"`
	Cuts      int                `json:"cuts" required:"true" description:"steps that are cuts"`
	Steps     []PlanStep         `json:"steps" required:"true" nullable:"false" description:"in the order of the work"`
	Settings  []PlanSetting      `json:"settings,omitempty" description:"the same steps, those joined that need no new setting of fence or stop. Left out of plans of more than 1500 steps"`
	Offcuts   []PlanOffcut       `json:"offcuts,omitempty" description:"what is left and worth keeping, in the order of the cuts, slabs with a fault among them: one of the parts, or a small part of the tables, finds a place clear of trims and zones"`
	Blanks    []PlanBlank        `json:"blanks" required:"true" nullable:"false" description:"the stacks of leaves that it is cut into"`
	Remainder wire.Quantity      `json:"remainder_length" required:"true" description:"length left whole beyond the last crosscut"`
	Shares    PlanShares         `json:"shares" required:"true" description:"what becomes of the wood"`
	Volume    shelf.BilletVolume `json:"volume" required:"true" description:"of the rough billet"`
	Mass      *wire.Band         `json:"mass,omitempty" description:"at the saw, before the first cut, where wood and condition are known"`
	Pith      *PithPlace         `json:"pith,omitempty" description:"given, or found from two readings"`
}

// PithPlace is where the pith lies on the end grain.
type PithPlace struct {
	Y wire.Quantity `json:"y" required:"true" description:"from the near edge along the face"`
	Z wire.Quantity `json:"z" required:"true" description:"from face 1 into the wood"`
}

// PlanStep is one action on one piece. Piece 0 is the billet.
type PlanStep struct {
	Number     int            `json:"number" required:"true" description:"in the order of the work, from 1"`
	Action     string         `json:"action" required:"true" enum:"crosscut,rip,trim,flatten,resaw,plane,reface" description:"what is done; reface planes the sawn face before the next cut"`
	Piece      int            `json:"piece" required:"true" description:"on the table; 0 is the billet"`
	Name       string         `json:"name" required:"true" description:"what that piece is called"`
	Against    string         `json:"against,omitempty" enum:"start,end,near,far,face_1" description:"which end, edge or face of the piece lies against the fence or the stop: start, the near edge and face_1 are those nearest to that of the billet. Left out for flatten"`
	Setting    wire.Quantity  `json:"setting" required:"true" description:"of the fence or the stop: from what lies against it to the near side of the kerf; for flatten how deep face 1 is planed, for plane and reface 0"`
	FarSetting *wire.Quantity `json:"far_setting,omitempty" description:"of a wedge that is sawn along its middle: as setting, at its far edge; the line to saw along runs from one to the other. Left out: the cut is parallel to what lies against the fence"`
	Position   *wire.Quantity `json:"position,omitempty" description:"where the kerf starts in the billet: from its start, from its near edge or, resawing, from the planed face 1, from the rough one where a taper is sawn off; of a blank on its side from the edge that it is sawn from. Left out for flatten"`
	Removed    *wire.Quantity `json:"removed_thickness,omitempty" description:"the kerf, or what is planed off. Left out for flatten"`
	Flat       *wire.Quantity `json:"flat_thickness,omitempty" description:"for flatten: the thickness that is left"`
	FarFlat    *wire.Quantity `json:"far_flat_thickness,omitempty" description:"for flatten of a wedge: the thickness that is left at its far edge, flat_thickness being at the near one. Left out: both faces are parallel"`
	Low        *PlanWood      `json:"before_kerf,omitempty" description:"the piece before the kerf. Left out where nothing is left there"`
	High       *PlanWood      `json:"beyond_kerf,omitempty" description:"the piece beyond the kerf. Left out where nothing is left there"`
	Detail     string         `json:"detail" required:"true" description:"the same for people"`
}

// PlanSetting is steps that follow each other with the fence or the stop set alike.
type PlanSetting struct {
	First  int    `json:"first_step" required:"true" description:"number of the first step"`
	Last   int    `json:"last_step" required:"true" description:"number of the last step"`
	Times  int    `json:"times" required:"true" description:"how many steps are done with this setting"`
	Detail string `json:"detail" required:"true" description:"what is set, and what comes off"`
}

// PlanWood is a piece that a step makes.
type PlanWood struct {
	Piece     int            `json:"piece" required:"true" description:"its number in the steps that follow"`
	Name      string         `json:"name" required:"true" description:"what it is: to be cut further, blank A, leaf A3, slab A2 or offcut"`
	Length    *wire.Quantity `json:"length,omitempty" description:"as it comes off, along the grain. Left out of plans of more than 1500 steps, as width and thickness"`
	Width     *wire.Quantity `json:"width,omitempty" description:"as it comes off, across the face of the billet. Left out as length"`
	Thickness *wire.Quantity `json:"thickness,omitempty" description:"as it comes off. Left out of rough wood, which is as thick as the billet is there; of a wedge at its thick edge"`
}

// PlanOffcut is a piece that is left.
type PlanOffcut struct {
	Piece  int          `json:"piece" required:"true" description:"its number in the steps"`
	Billet shelf.Billet `json:"billet" required:"true" needs:"length width thickness" description:"in the form that billets of the next request take, in its own coordinates: wood, condition, grain and facings of the billet, what of its end trims lies in the piece, its share of the warp, where the pith lies from it or the ring angle, and the zones that reach into it"`
}

// PlanBlank is one stack of leaves.
type PlanBlank struct {
	ID        string         `json:"id" required:"true" description:"A, B and so on within the billet"`
	X         wire.Quantity  `json:"x" required:"true" description:"where it begins, from the start of the rough billet"`
	Y         wire.Quantity  `json:"y" required:"true" description:"where it begins, from the near edge of the rough billet"`
	Z         wire.Quantity  `json:"z" required:"true" description:"of its planed face 1, from face 1 of the rough billet"`
	Length    wire.Quantity  `json:"length" required:"true" description:"along the grain"`
	Width     wire.Quantity  `json:"width" required:"true" description:"across the face"`
	Turned    bool           `json:"on_its_side,omitempty" description:"it lies on its side on the saw: leaves follow each other across its face and are as wide as it is thick. Left out: it lies flat"`
	Usable    wire.Quantity  `json:"usable_thickness" required:"true" description:"once it is flat; of a wedge at its near edge"`
	FarUsable *wire.Quantity `json:"far_usable_thickness,omitempty" description:"of a wedge that is sawn along its middle into a pair: at its far edge. Left out: both faces are parallel"`
	Leaves    []PlanLeaf     `json:"leaves" required:"true" nullable:"false" description:"from face 1 on"`
	Remaining wire.Quantity  `json:"remaining_thickness" required:"true" description:"behind the last leaf and its cut"`
	OneMore   *MoreWood      `json:"one_more_leaf,omitempty" description:"what one more leaf like the last one would need"`
	NextSet   *MoreWood      `json:"one_more_set,omitempty" description:"what one more set like the last one would need"`
}

// PlanLeaf is one leaf.
type PlanLeaf struct {
	Number  int            `json:"number" required:"true" description:"from face 1 of its blank, from 1"`
	Role    string         `json:"role" required:"true" enum:"set,unpaired,rejected" description:"unpaired: good, but in no set; rejected: it holds a zone, or its ring angle is not the one asked for"`
	Part    string         `json:"part,omitempty" description:"id of the part it is for. Left out for a rejected leaf"`
	Set     int            `json:"set,omitempty" description:"number among the sets of this part over all billets, from 1; of a leaf that is parted that of its first piece"`
	ZFrom   wire.Quantity  `json:"z_from" required:"true" description:"where it begins, from the planed face 1 of the blank, or from the near edge of one on its side"`
	ZTo     wire.Quantity  `json:"z_to" required:"true" description:"where it ends, from the planed face 1 of the blank, or from the near edge of one on its side"`
	FarFrom *wire.Quantity `json:"far_z_from,omitempty" description:"the same as z_from at the far edge, of a half of a wedge. Left out: the leaf is parallel"`
	FarTo   *wire.Quantity `json:"far_z_to,omitempty" description:"the same as z_to at the far edge, of a half of a wedge. Left out: the leaf is parallel"`
	Pieces  []LeafPiece    `json:"pieces,omitempty" description:"what it is crosscut and ripped into once it is sawn, all of its part, in order along it and across: those of one number of neighbouring leaves are a set. Left out: it is used whole"`
	GoodFor []string       `json:"good_for,omitempty" description:"what a leaf in no set may be kept for"`
}

// LeafPiece is one piece of a leaf that is parted after resawing.
type LeafPiece struct {
	Number int           `json:"number" required:"true" description:"in its leaf, from 1: the second of leaf A3 is called A3.2"`
	Piece  int           `json:"piece" required:"true" description:"its number in the steps"`
	Role   string        `json:"role" required:"true" enum:"set,unpaired" description:"unpaired: good, but in no set"`
	Set    int           `json:"set,omitempty" description:"number among the sets of its part over all billets, from 1. Left out: it is in none"`
	X      wire.Quantity `json:"x" required:"true" description:"where it begins, from the start of the rough billet"`
	Y      wire.Quantity `json:"y" required:"true" description:"where it begins, from the near edge of the rough billet"`
	Length wire.Quantity `json:"length" required:"true" description:"along the grain"`
	Width  wire.Quantity `json:"width" required:"true" description:"across the face"`
}

// MoreWood is what further leaves would need; each cure alone.
type MoreWood struct {
	Leaves    int            `json:"more_leaves" required:"true" description:"how many more than there are"`
	ShortBy   wire.Quantity  `json:"short_by" required:"true" description:"of the usable thickness; 0: they would fit"`
	MaxKerf   *wire.Quantity `json:"max_kerf,omitempty" description:"widest kerf of the resaw cut that would do. Left out where none would, or a zone holds leaves in their place"`
	ThinnerBy *wire.Quantity `json:"thinner_by,omitempty" description:"off every leaf of the blank. Left out where that would not do"`
}

// PlanShares is what becomes of a billet, in percent of its volume.
type PlanShares struct {
	Leaf      float64 `json:"leaf_share_pct" required:"true" description:"sawn leaves, in percent of the volume of the billet, as all of these"`
	Kerf      float64 `json:"kerf_share_pct" required:"true" description:"turned to dust"`
	Shavings  float64 `json:"shavings_share_pct" required:"true" description:"flattening, facing and re-facing"`
	Remainder float64 `json:"remainder_share_pct" required:"true" description:"trims, offcuts and what stays whole"`
}

// SawAnswer is what one of the saws would give.
type SawAnswer struct {
	ID      string        `json:"id" required:"true" description:"of the saw: yours, or its position in the request"`
	Name    string        `json:"name,omitempty" description:"as it was sent"`
	Kerf    wire.Quantity `json:"kerf" required:"true" description:"of its resaw cut"`
	Worth   int64         `json:"total_value" required:"true" description:"what the sets of its best plan are worth"`
	Bound   int64         `json:"bound" required:"true" description:"no plan on this saw is worth more"`
	Optimal bool          `json:"optimal" required:"true" description:"proven for this saw"`
	Sets    []int         `json:"sets" required:"true" nullable:"false" description:"of each part, in the order of the request"`
	Missing int           `json:"missing_sets" required:"true" description:"from min_sets, of all parts"`
	Leaves  int           `json:"leaves" required:"true" description:"in sets or unpaired"`
	Cuts    int           `json:"cuts" required:"true" description:"of all billets"`
}

// PlannedMatch is how a planned pair matches.
type PlannedMatch struct {
	Rank     int            `json:"rank" required:"true" description:"1 is the best"`
	Billet   string         `json:"billet" required:"true" description:"id of the billet"`
	Blank    string         `json:"blank" required:"true" description:"id of the blank"`
	Leaves   []int          `json:"leaves" required:"true" nullable:"false" description:"numbers of the two leaves"`
	Piece    int            `json:"piece,omitempty" description:"number of the two pieces in their leaves, where these are parted. Left out: the leaves are whole"`
	Part     string         `json:"part" required:"true" description:"id of the part"`
	Set      int            `json:"set" required:"true" description:"number of the set"`
	Opening  string         `json:"opening" required:"true" enum:"bookmatch,slip_match" description:"how the pair is opened"`
	Distance wire.Quantity  `json:"distance" required:"true" description:"wood of the billet between the faces that show"`
	Edge     string         `json:"better_edge" required:"true" enum:"near,far" description:"of the first leaf, at the seam; of a wedge its thick edge"`
	Faced    string         `json:"faced,omitempty" enum:"bark,pith" description:"what that edge faced in the tree"`
	Shift    *wire.Quantity `json:"ring_shift,omitempty" description:"of ring lines across the seam at that edge. Left out where a ring line has no partner"`
	AngleDeg float64        `json:"ring_angle_deg" required:"true" description:"at that edge, on the first leaf"`
	Score    float64        `json:"score" required:"true" description:"by the usual weights: 0 where nothing misses, less is better, 1 as bad as ring lines that miss by 1 mm at the seam; POST /v1/bookmatch explains and changes it"`
	Cured    float64        `json:"score_after_cure" required:"true" resolution:"0.001" description:"once what the cure takes off the edge is off, where the spare wood allows it: a miss of rings at the seam that trimming brings into line counts a twentieth, and of two edges that cure alike the one that gives less wood is the better; else as score. Matches are ordered by it"`
}

// SetProbabilities is how sure the sets of the plan are.
type SetProbabilities struct {
	LeafLost float64           `json:"leaf_lost_probability" required:"true" description:"that a leaf is lost to a hidden fault or to wander, 0 to 1"`
	Parts    []PartProbability `json:"parts" required:"true" nullable:"false" description:"each part, in the order of the request"`
	Note     string            `json:"note" required:"true" description:"what is taken for granted"`
}

// PartProbability is how sure the sets of one part are.
type PartProbability struct {
	ID      string    `json:"id" required:"true" description:"of the part"`
	Planned int       `json:"planned_sets" required:"true" description:"sets of the plan"`
	Mean    float64   `json:"mean_sets" required:"true" resolution:"0.01" description:"sets to be expected; more than planned are not counted"`
	AtLeast []float64 `json:"at_least_probability" required:"true" nullable:"false" description:"of at least 1, 2 and so on sets, 0 to 1"`
	Safe    int       `json:"safe_sets" required:"true" description:"sets to count on: had with a probability of 0.9 or more"`
}

// Steps are the steps of the search.
func (r *ResawPlanResult) Steps() int64 { return r.Proof.Work }

// planDrawn is the plan in its other forms.
type planDrawn interface {
	render(name string) ([]byte, error)
	renderShown(width int) ([]byte, error)
}

// Render gives the plan in another form.
func (r *ResawPlanResult) Render(name string) ([]byte, error) { return r.drawing.render(name) }

// RenderShown draws it for a screen that has so many px for it.
func (r *ResawPlanResult) RenderShown(width int) ([]byte, error) { return r.drawing.renderShown(width) }
