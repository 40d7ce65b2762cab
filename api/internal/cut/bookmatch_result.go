package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// BookmatchResult is how the pairs of a stack match.
type BookmatchResult struct {
	Summary  string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Leaves   []LeafRings        `json:"leaves" required:"true" nullable:"false" description:"every leaf, from face 1"`
	Pith     *PithPlace         `json:"pith,omitempty" description:"given, or found from two readings. Left out where the rings are taken as planes"`
	Edges    *shelf.EdgesInTree `json:"edges_in_tree,omitempty" description:"what the edges faced in the tree, as given or told from the pith. Left out where neither is known"`
	Pairs    []PairMatch        `json:"pairs" required:"true" nullable:"false" description:"every pair of neighbours without a rejected leaf"`
	Ranked   []PairRank         `json:"ranked" required:"true" nullable:"false" description:"every pair in every opening with its better edge, the best first by score_after_cure; with flame_lean_deg slip-matches come after the ways that mirror the figure"`
	Chosen   []PairRank         `json:"chosen" required:"true" nullable:"false" description:"pairs without a common leaf: as many as there can be, of the least total score_after_cure, each in the opening that is ranked first"`
	Advice   []string           `json:"advice" required:"true" nullable:"false" description:"what to do at the bench for each chosen pair"`
	StandIns []shelf.Provenance `json:"defaults_used,omitempty" description:"figures of the tables that stood in for what was not given, with their sources; GET /v1/sawing-losses lists them"`

	drawn matchDrawn
}

// LeafRings is a leaf and its ring angles, at its mid-plane.
type LeafRings struct {
	Leaf   int           `json:"number" required:"true" description:"from face 1, from 1"`
	ZFrom  wire.Quantity `json:"z_from" required:"true" description:"its sawn face nearer face 1, from face 1"`
	ZTo    wire.Quantity `json:"z_to" required:"true" description:"its other sawn face, from face 1"`
	Near   float64       `json:"near_ring_angle_deg" required:"true" description:"angle of the rings to the face at the near edge"`
	Middle float64       `json:"middle_ring_angle_deg" required:"true" description:"the same in the middle of the width"`
	Far    float64       `json:"far_ring_angle_deg" required:"true" description:"the same at the far edge"`
}

// PairRank is a pair in one opening with its better edge at the seam.
type PairRank struct {
	First   int     `json:"first" required:"true" description:"number of the first leaf"`
	Second  int     `json:"second" required:"true" description:"number of the second leaf, the next"`
	Opening string  `json:"opening" required:"true" enum:"bookmatch,slip_match,wrong_way" description:"how the pair is opened"`
	Edge    string  `json:"edge" required:"true" enum:"near,far" description:"of the first leaf, at the seam"`
	Score   float64 `json:"score" required:"true" description:"the sum of the terms of its seam: 0 where nothing misses, less is better, no upper end. By the usual weights 1 is as bad as ring lines that miss by 1 mm at the seam. An order of preference and no measurement"`
	Cured   float64 `json:"score_after_cure" required:"true" resolution:"0.001" description:"once what the cure takes off the edge is off, where the spare wood allows it: a miss of rings at the seam that trimming brings into line counts a twentieth, and of two edges that cure alike the one that gives less wood is the better; else as score. Pairs are ranked by it"`
}

// PairMatch is how one leaf matches the next.
type PairMatch struct {
	First    int            `json:"first" required:"true" description:"number of the first leaf"`
	Second   int            `json:"second" required:"true" description:"number of the second leaf, the next"`
	Kerf     wire.Quantity  `json:"kerf" required:"true" description:"wood lost between the two, re-facing included"`
	Openings []OpeningMatch `json:"openings" required:"true" nullable:"false" description:"the pair opened in each way"`
}

// OpeningMatch is a pair opened in one way.
type OpeningMatch struct {
	Opening    string         `json:"opening" required:"true" enum:"bookmatch,slip_match,wrong_way" description:"the way; wrong_way turns the pair so that the outer faces show"`
	ShowFirst  wire.Quantity  `json:"first_show_z" required:"true" description:"where the face of the first leaf that shows lay, from face 1, after clean-up"`
	ShowSecond wire.Quantity  `json:"second_show_z" required:"true" description:"where the face of the second leaf that shows lay, from face 1, after clean-up"`
	Distance   wire.Quantity  `json:"distance" required:"true" description:"wood of the billet between the two faces that show"`
	Places     []PlaceMatch   `json:"places" required:"true" nullable:"false" description:"the near edge at the seam, the middle, the far edge at the seam"`
	Largest    *LargestShift  `json:"largest_ring_shift,omitempty" description:"where over the whole width of the faces as sawn ring lines miss most, line by line. Left out where none has a partner"`
	Flame      *wire.Quantity `json:"flame_shift,omitempty" description:"of bands of figure, along the length"`
	Tips       *wire.Quantity `json:"tip_shift,omitempty" description:"of the tips of cathedrals, along the length"`
	Runout     *RunoutMatch   `json:"runout,omitempty" description:"where the runout is known"`
	Seams      []SeamMatch    `json:"seams" required:"true" nullable:"false" description:"with the near, then the far edge of the first leaf at the seam"`
	Better     string         `json:"better_edge" required:"true" enum:"near,far" description:"which of the two"`
	Reasons    []string       `json:"reasons" required:"true" nullable:"false" description:"why that edge"`
}

// LargestShift is the largest miss of ring lines over the whole width of a pair.
type LargestShift struct {
	Shift    wire.Quantity `json:"ring_shift" required:"true" description:"of that ring line across the width, signed as at the places; plane rings miss by as much everywhere"`
	Y        wire.Quantity `json:"y" required:"true" description:"where that line crosses the face of the first leaf that shows, from the near edge"`
	Unpaired wire.Quantity `json:"unpaired_width" required:"true" description:"width about the pith over which ring lines of one face do not reach the other; 0 mm where the pith lies apart"`
}

// PlaceMatch is the match at one place of the width. Shifts across the width are
// positive when the feature lies at larger y on the second leaf, or without sign
// when the lean of the rings is not known.
type PlaceMatch struct {
	At            string         `json:"at" required:"true" enum:"near,middle,far" description:"the place"`
	Y             wire.Quantity  `json:"y" required:"true" description:"from the near edge"`
	Angle         float64        `json:"ring_angle_deg" required:"true" description:"midway between the two faces that show"`
	AngleFirst    float64        `json:"first_ring_angle_deg" required:"true" description:"at the face of the first leaf that shows"`
	AngleSecond   float64        `json:"second_ring_angle_deg" required:"true" description:"at the face of the second leaf that shows"`
	Shift         *wire.Quantity `json:"ring_shift,omitempty" description:"of ring lines across the width; of circular rings where the pith is known, else of plane ones. Left out where ring lines have no partner"`
	Plane         *wire.Quantity `json:"ring_shift_plane,omitempty" description:"of plane rings, distance / tan(ring angle)"`
	Circle        *wire.Quantity `json:"ring_shift_circle,omitempty" description:"of circular rings about the pith"`
	Band          *wire.Band     `json:"ring_shift_band,omitempty" description:"of the ring shift, with angle_sd_deg"`
	Square        *wire.Quantity `json:"ring_shift_square,omitempty" description:"of plane rings square to the line on the face; with a dip less than ring_shift_plane"`
	Ray           *wire.Quantity `json:"ray_shift,omitempty" description:"of marks that follow the rays, such as bird's-eye"`
	SpacingFirst  *wire.Quantity `json:"first_ring_spacing,omitempty" description:"of ring lines seen on the face of the first leaf, with ring_width"`
	SpacingSecond *wire.Quantity `json:"second_ring_spacing,omitempty" description:"of ring lines seen on the face of the second leaf, with ring_width"`
}

// RunoutMatch is how the runout of the two halves differs. Mirrored runout makes
// one half look lighter, and the light swaps when the piece is turned round.
type RunoutMatch struct {
	Angle      float64 `json:"runout_deg" required:"true" description:"angle of the fibre to the face, of each half"`
	Mirrored   bool    `json:"mirrored" required:"true" description:"one half will look lighter; a slip-match is not mirrored"`
	Difference float64 `json:"difference_deg" required:"true" description:"between the fibre of the halves"`
}

// SeamMatch is the match with one edge of the first leaf at the seam.
type SeamMatch struct {
	Edge        string         `json:"edge" required:"true" enum:"near,far" description:"of the first leaf, at the seam"`
	Faced       string         `json:"faced,omitempty" enum:"bark,pith" description:"what that edge faced in the tree"`
	Shift       *wire.Quantity `json:"ring_shift,omitempty" description:"of ring lines at the seam. Left out where they have no partner"`
	AtEdge      *wire.Quantity `json:"seam_line_shift,omitempty" description:"of the ring lines that meet the seam itself, the larger of the two halves; near the pith more than ring_shift, which is of the line that crosses midway between both faces. Left out where they have no partner"`
	AngleFirst  float64        `json:"first_ring_angle_deg" required:"true" description:"of the first leaf at the seam"`
	AngleSecond float64        `json:"second_ring_angle_deg" required:"true" description:"of the second leaf at the seam"`
	Spacing     *wire.Quantity `json:"spacing_difference,omitempty" description:"of the ring lines that meet, with ring_width"`
	Carved      []CarvedPlace  `json:"carved,omitempty" description:"the carved outside at the seam, in the middle and at the other edge. Left out without arch_height"`
	Cure        SeamCure       `json:"cure" required:"true" description:"what it takes to bring the halves into line"`
	Terms       []ScoreTerm    `json:"terms" required:"true" nullable:"false" description:"parts of the score that are not 0"`
	Score       float64        `json:"score" required:"true" description:"the sum of terms: 0 where nothing misses, less is better. By the usual weights 1 is as bad as ring lines that miss by 1 mm at the seam"`
	Cured       float64        `json:"score_after_cure" required:"true" resolution:"0.001" description:"once what the cure takes off the edge is off, where the spare wood allows it: a miss of rings at the seam that trimming brings into line counts a twentieth, and of two edges that cure alike the one that gives less wood is the better; else as score. The better edge is told by it"`
}

// CarvedPlace is the match at one place of the carved outside.
type CarvedPlace struct {
	At          string         `json:"at" required:"true" enum:"near,middle,far" description:"the place, by the edges of the first leaf"`
	Y           wire.Quantity  `json:"y" required:"true" description:"from the near edge"`
	DepthFirst  wire.Quantity  `json:"first_depth" required:"true" description:"of the outside of the first leaf below its face that shows as sawn"`
	DepthSecond wire.Quantity  `json:"second_depth" required:"true" description:"the same of the second leaf; another than that of the first in a slip-match"`
	AngleFirst  float64        `json:"first_ring_angle_deg" required:"true" description:"between ring lines and the carved outside of the first leaf"`
	AngleSecond float64        `json:"second_ring_angle_deg" required:"true" description:"the same of the second leaf"`
	Shift       *wire.Quantity `json:"ring_shift,omitempty" description:"of the line of one ring on the two outsides, across the width. Left out where the ring does not come through both"`
}

// SeamCure is what it takes to bring the halves into line.
type SeamCure struct {
	Half       string         `json:"half,omitempty" enum:"first,second,either" description:"that gives wood at its seam edge; either: the one whose line lies farther from the seam. Left out when the lines meet"`
	Width      wire.Quantity  `json:"width" required:"true" description:"given by it; the half becomes that much narrower"`
	Residual   wire.Quantity  `json:"residual" required:"true" description:"largest miss of ring lines that stays at the middle or the outer edge; with arch_height on the carved outside"`
	Slide      *wire.Quantity `json:"slide,omitempty" description:"of one half along the other for the flame; length lost. With a dip it moves the ring lines too: slide first, then joint"`
	SlideTips  *wire.Quantity `json:"slide_for_tips,omitempty" description:"for the cathedral tips instead; one slide serves both only when they are equal"`
	NotMatched []string       `json:"not_matched,omitempty" description:"what cannot be brought into line within the spare wood: ring, flame, tip"`
}

// ScoreTerm is one part of a score.
type ScoreTerm struct {
	Kind  string  `json:"kind" required:"true" enum:"ring,residual,ray,flame,tip,spacing,runout,pith_edge,no_mirror" description:"what is wrong; the weights have the same names"`
	Score float64 `json:"score" required:"true" description:"what it counts for in the sum, at most max_term"`
}

// matchDrawn is the match drawn, on paper and for a screen.
type matchDrawn interface {
	draw() []byte
	drawShown(width int) []byte
}

// Render draws the stack and its pairs.
func (r *BookmatchResult) Render(string) ([]byte, error) {
	return r.drawn.draw(), nil
}

// RenderShown draws it for a screen that has so many px for it.
func (r *BookmatchResult) RenderShown(width int) ([]byte, error) {
	return r.drawn.drawShown(width), nil
}
