package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// BookmatchRequest asks how neighbouring leaves of a stack match across a seam.
type BookmatchRequest struct {
	Billet   *shelf.Billet `json:"billet" validate:"required" needs:"width rings" description:"what the leaves are sawn from; as wide as they are"`
	Saw      *shelf.Saw    `json:"saw,omitempty" description:"its kerf is needed with stack; its clean-up is taken off the leaves. Left out, with leaves: the usual clean-up"`
	Stack    *LeafStack    `json:"stack,omitempty" description:"a regular stack: how many leaves and how thick; or give leaves"`
	Leaves   []LeafFaces   `json:"leaves,omitempty" validate:"omitempty,min=2,max=200,dive" description:"the sawn faces of every leaf in order from face 1, in place of stack"`
	Rejected []int         `json:"rejected_leaves,omitempty" validate:"max=200,dive,gte=1,lte=200" description:"numbers of leaves, from 1 at face 1, that make no pair. Left out: none"`
	SeamEdge *wire.Length  `json:"seam_edge,omitempty" validate:"omitempty,gte=0,lte=0.5" description:"jointed off the edge before the seam; 3 mm is usual (common practice). Left out: nothing"`
	Arch     *wire.Length  `json:"arch_height,omitempty" validate:"omitempty,gte=0,lte=0.5" description:"how far the outside falls from the seam to the other edge when the joined pair is carved to an arch, the arc of a circle that is level at the seam; the halves are then matched on that outside. Left out: the faces stay flat, as sawn"`
	Openings []string      `json:"openings,omitempty" validate:"max=3,dive,oneof=bookmatch slip_match wrong_way" description:"ways of opening to compare; wrong_way is a pair turned so that the outer faces show. Of wood with flame_lean_deg a slip_match is chosen only where it is asked for alone. Left out: all three"`
	Spare    *SpareWood    `json:"spare,omitempty" description:"the most that may be given up for a better match. Left out: 10 mm each (own choice)"`
	Weights  *ScoreWeights `json:"score_weights,omitempty" description:"of the score, in place of the usual ones. Left out: the usual ones"`
	ReportIn string        `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer"`
}

// System is the one that the request asks its answer in.
func (r *BookmatchRequest) System() string { return r.ReportIn }

// Bytes of an answer, at most: those that any has, and those of a leaf and of one way to
// open a pair. Measured on 200 leaves with all that can be asked, and rounded up; held by
// TestAnswersAreNoLongerThanTold.
const (
	matchBytes   = 6 << 10
	leafBytes    = 1000
	openingBytes = 4850
	carvedBytes  = 1700 // of a way to open a pair that is carved to an arch
)

// Bulk is how many bytes the answer holds at most.
func (r *BookmatchRequest) Bulk() int {
	leaves, ways := len(r.Leaves), len(r.Openings)
	if r.Stack != nil && r.Stack.Leaves != nil {
		leaves = *r.Stack.Leaves
	}
	if ways == 0 {
		ways = 3
	}
	opening := openingBytes
	if r.Arch != nil {
		opening += carvedBytes
	}
	return matchBytes + leaves*(leafBytes+ways*opening)
}

// LeafStack is a regular stack of leaves, one kerf apart.
type LeafStack struct {
	Leaves *int         `json:"leaves" validate:"required,gte=2,lte=200" description:"how many; 2 for one pair"`
	Sawn   *wire.Length `json:"sawn_thickness" validate:"required,gte=0.0002,lte=0.5" description:"of a leaf as it leaves the saw"`
	ZFrom  *wire.Length `json:"z_from,omitempty" validate:"omitempty,gte=0,lte=2" description:"where the first leaf begins, from face 1. Left out: 0, on face 1"`
}

// LeafFaces is where the two sawn faces of a leaf lay in the billet.
type LeafFaces struct {
	ZFrom *wire.Length `json:"z_from" validate:"required,gte=0,lte=5" description:"its face nearer face 1, from face 1"`
	ZTo   *wire.Length `json:"z_to" validate:"required,gt=0,lte=5" description:"its other face, from face 1, more than z_from"`
}

// SpareWood is what may be given up.
type SpareWood struct {
	Width  *wire.Length `json:"width,omitempty" validate:"omitempty,gt=0,lte=5" description:"of one half at its seam edge. Left out: 10 mm"`
	Length *wire.Length `json:"length,omitempty" validate:"omitempty,gt=0,lte=20" description:"of the pair, for sliding one half along the other. Left out: 10 mm"`
}

// ScoreWeights turn what is wrong with a match into the score; less is better.
type ScoreWeights struct {
	Ring     *float64 `json:"ring,omitempty" validate:"omitempty,gte=0,lte=1000" default:"1" description:"per mm of ring shift at the seam"`
	Residual *float64 `json:"residual,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per mm that ring lines still miss elsewhere once they meet at the seam"`
	Ray      *float64 `json:"ray,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0" description:"per mm of shift of marks that follow the rays, such as bird's-eye; for wood that has them"`
	Flame    *float64 `json:"flame,omitempty" validate:"omitempty,gte=0,lte=1000" default:"1" description:"per mm of shift of flame along the length"`
	Tip      *float64 `json:"tip,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.05" description:"per mm of shift of cathedral tips along the length"`
	Spacing  *float64 `json:"spacing,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per mm by which the ring spacing differs at the seam"`
	Runout   *float64 `json:"runout,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per degree by which the runout of the halves differs"`
	PithEdge *float64 `json:"pith_edge,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"for the edge that faced the pith, at the seam"`
	NoMirror *float64 `json:"no_mirror,omitempty" validate:"omitempty,gte=0,lte=1000" default:"3" description:"for a slip-match, which repeats and does not mirror"`
	MaxTerm  *float64 `json:"max_term,omitempty" validate:"omitempty,gte=0,lte=1000" default:"25" description:"no term counts for more than this"`
}

// Joins says which members go together.
func (*BookmatchRequest) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"stack"}, {"leaves"}}, Needs: map[string][]string{"stack": {"saw"}}}
}
