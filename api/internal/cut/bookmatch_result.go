package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// BookmatchResult is how the pairs of a stack match.
type BookmatchResult struct {
	Summary  string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Leaves   []LeafRings        `json:"leaves" required:"true" nullable:"false" description:"from face 1"`
	Pith     *PithFound         `json:"pith,omitempty" description:"given, or found from two readings; left out when the rings are taken as planes"`
	Left     string             `json:"left_edge,omitempty" enum:"bark,heart" description:"as given or told from the pith"`
	Right    string             `json:"right_edge,omitempty" enum:"bark,heart"`
	Pairs    []PairMatch        `json:"pairs" required:"true" nullable:"false" description:"every pair of neighbours without a spoiled leaf"`
	Ranked   []PairRank         `json:"ranked" required:"true" nullable:"false" description:"every pair in every opening with its better edge, the best first"`
	Chosen   []PairRank         `json:"chosen" required:"true" nullable:"false" description:"pairs without a common leaf: as many as there can be, of the least total score"`
	Steps    []string           `json:"steps" required:"true" nullable:"false" description:"what to do at the bench for each chosen pair"`
	StandIns []shelf.Provenance `json:"defaults_used,omitempty" description:"usual losses that stood in for what was not given, with their sources; GET /v1/sawing-losses lists them"`

	drawn interface{ draw() []byte }
}

// PithFound is where the pith lies on the end grain.
type PithFound struct {
	X wire.Quantity `json:"x" required:"true" description:"from the left edge along the face"`
	Z wire.Quantity `json:"z" required:"true" description:"from face 1 into the wood"`
}

// LeafRings is a leaf and its ring angles, at its mid-plane.
type LeafRings struct {
	Leaf   int           `json:"leaf" required:"true"`
	Front  wire.Quantity `json:"front" required:"true" description:"its face nearer face 1, as sawn, below face 1"`
	Back   wire.Quantity `json:"back" required:"true"`
	Left   float64       `json:"left_deg" required:"true" description:"ring angle to the face at the left edge"`
	Middle float64       `json:"middle_deg" required:"true"`
	Right  float64       `json:"right_deg" required:"true"`
}

// PairRank is a pair in one opening with its better edge at the seam.
type PairRank struct {
	First   int     `json:"first" required:"true" description:"number of the first leaf; the other is the next"`
	Second  int     `json:"second" required:"true"`
	Opening string  `json:"opening" required:"true" enum:"bookmatch,slip_match,wrong_way"`
	Edge    string  `json:"edge" required:"true" enum:"left,right" description:"of the first leaf, at the seam"`
	Score   float64 `json:"score" required:"true" description:"less is better; an order of preference and no measurement"`
}

// PairMatch is how one leaf matches the next.
type PairMatch struct {
	First    int            `json:"first" required:"true"`
	Second   int            `json:"second" required:"true"`
	Kerf     wire.Quantity  `json:"kerf" required:"true" description:"wood lost between the two, re-facing included"`
	Openings []OpeningMatch `json:"openings" required:"true" nullable:"false"`
}

// OpeningMatch is a pair opened in one way.
type OpeningMatch struct {
	Opening    string         `json:"opening" required:"true" enum:"bookmatch,slip_match,wrong_way"`
	ShowFirst  wire.Quantity  `json:"show_first" required:"true" description:"depth below face 1 of the face of the first leaf that shows, after clean-up"`
	ShowSecond wire.Quantity  `json:"show_second" required:"true"`
	Distance   wire.Quantity  `json:"distance" required:"true" description:"d, the wood between the two faces that show"`
	Places     []PlaceMatch   `json:"places" required:"true" nullable:"false" description:"left seam edge, middle, right seam edge"`
	Flame      *wire.Quantity `json:"flame_shift,omitempty" description:"along the length"`
	Tips       *wire.Quantity `json:"tip_shift,omitempty" description:"of the tips of cathedrals along the length"`
	Runout     *RunoutMatch   `json:"runout,omitempty"`
	Seams      []SeamMatch    `json:"seams" required:"true" nullable:"false" description:"with the left, then the right edge of the first leaf at the seam"`
	Better     string         `json:"better_edge" required:"true" enum:"left,right"`
	Reasons    []string       `json:"reasons" required:"true" nullable:"false" description:"why that edge"`
}

// PlaceMatch is the match at one place of the width. Shifts across the width are
// positive when the feature lies at larger x on the second leaf, or without sign
// when the lean of the rings is not known.
type PlaceMatch struct {
	At            string         `json:"at" required:"true" enum:"left,middle,right"`
	X             wire.Quantity  `json:"x" required:"true"`
	Angle         float64        `json:"ring_angle_deg" required:"true" description:"midway between the two faces that show"`
	AngleFirst    float64        `json:"ring_angle_first_deg" required:"true" description:"at the face of the first leaf that shows"`
	AngleSecond   float64        `json:"ring_angle_second_deg" required:"true"`
	Shift         *wire.Quantity `json:"ring_shift,omitempty" description:"of ring lines across the width; of circular rings where the pith is known, else of plane ones. Left out where ring lines have no partner"`
	Plane         *wire.Quantity `json:"ring_shift_plane,omitempty" description:"of plane rings, d / tan(ring angle)"`
	Circle        *wire.Quantity `json:"ring_shift_circle,omitempty" description:"of circular rings about the pith"`
	Band          *wire.Band     `json:"ring_shift_band,omitempty" description:"90 % band, with ring_angle_sd_deg"`
	Square        *wire.Quantity `json:"ring_shift_square,omitempty" description:"of plane rings square to the line on the face; with a dip less than ring_shift_plane"`
	Ray           *wire.Quantity `json:"ray_shift,omitempty" description:"of marks that follow the rays, such as bird's-eye"`
	SpacingFirst  *wire.Quantity `json:"ring_spacing_first,omitempty" description:"of ring lines seen on the face, with ring_width"`
	SpacingSecond *wire.Quantity `json:"ring_spacing_second,omitempty"`
}

// RunoutMatch is how the runout of the two halves differs. Mirrored runout makes
// one half look lighter, and the light swaps when the piece is turned round.
type RunoutMatch struct {
	Angle      float64 `json:"angle_deg" required:"true" description:"of each half"`
	Mirrored   bool    `json:"mirrored" required:"true" description:"one half will look lighter; a slip-match is not mirrored"`
	Difference float64 `json:"difference_deg" required:"true" description:"between the fibre of the halves"`
}

// SeamMatch is the match with one edge of the first leaf at the seam.
type SeamMatch struct {
	Edge        string         `json:"edge" required:"true" enum:"left,right"`
	Faced       string         `json:"faced,omitempty" enum:"bark,heart" description:"what that edge faced in the tree"`
	Shift       *wire.Quantity `json:"ring_shift,omitempty"`
	AngleFirst  float64        `json:"ring_angle_first_deg" required:"true" description:"ring angles that meet at the seam"`
	AngleSecond float64        `json:"ring_angle_second_deg" required:"true"`
	Spacing     *wire.Quantity `json:"spacing_difference,omitempty" description:"of the ring lines that meet"`
	Cure        SeamCure       `json:"cure" required:"true"`
	Terms       []ScoreTerm    `json:"terms" required:"true" nullable:"false" description:"parts of the score that are not 0"`
	Score       float64        `json:"score" required:"true"`
}

// SeamCure is what it takes to bring the halves into line.
type SeamCure struct {
	Half       string         `json:"half,omitempty" enum:"first,second,either" description:"that gives wood at its seam edge; either: the one whose line lies farther from the seam. Left out when the lines meet"`
	Width      wire.Quantity  `json:"width" required:"true" description:"given by it; the half becomes that much narrower"`
	Residual   wire.Quantity  `json:"residual" required:"true" description:"largest miss of ring lines that stays at the middle or the outer edge"`
	Slide      *wire.Quantity `json:"slide,omitempty" description:"of one half along the other for the flame; length lost. With a dip it moves the ring lines too: slide first, then joint"`
	SlideTips  *wire.Quantity `json:"slide_for_tips,omitempty" description:"for the cathedral tips instead; one slide serves both only when they are equal"`
	NotCurable []string       `json:"not_curable,omitempty" description:"what cannot be brought into line within the spare wood: ring, flame, tip"`
}

// ScoreTerm is one part of a score.
type ScoreTerm struct {
	Name  string  `json:"name" required:"true" enum:"ring,residual,ray,flame,tip,spacing,runout,heart,no_mirror"`
	Score float64 `json:"score" required:"true"`
}

// Render draws the stack and its pairs.
func (r *BookmatchResult) Render(string) ([]byte, error) {
	return r.drawn.draw(), nil
}
