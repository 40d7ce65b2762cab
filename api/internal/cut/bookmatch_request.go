package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// BookmatchRequest asks how neighbouring leaves of a stack match across a seam.
// On the end grain x runs from the left edge along the face, z from face 1 into
// the wood.
type BookmatchRequest struct {
	Wood      *shelf.WoodAsked `json:"wood,omitempty" description:"for cautions"`
	Width     *wire.Length     `json:"width" validate:"required,gte=0.005,lte=5" description:"of the leaves"`
	Leaves    *LeafStack       `json:"leaves,omitempty" description:"a regular stack: how many leaves, how thick, how far apart; or give faces"`
	Faces     []LeafFaces      `json:"faces,omitempty" validate:"max=200,dive" description:"the sawn faces of every leaf in order from face 1, in place of leaves"`
	Spoiled   []int            `json:"spoiled,omitempty" validate:"max=200,dive,gte=1,lte=200" description:"numbers of leaves, from 1 at face 1, that make no pair"`
	Cleanup   *FaceCleanup     `json:"cleanup,omitempty" description:"taken off the leaves by plane or sander"`
	SeamEdge  *wire.Length     `json:"seam_edge,omitempty" validate:"omitempty,gte=0,lte=0.5" description:"jointed off the edge before the seam; default none, 3 mm is usual (common practice)"`
	Rings     *RingsRead       `json:"rings" validate:"required" description:"how the rings lie: pith, readings, or one angle"`
	AngleSD   *float64         `json:"ring_angle_sd_deg,omitempty" validate:"omitempty,gt=0,lte=30" description:"standard deviation of the ring angle as read; gives the ring shift its band. A bevel read on a planed end is good to about 2 degrees (own estimate)"`
	RingWidth *wire.Length     `json:"ring_width,omitempty" validate:"omitempty,gte=0.00001,lte=0.05" description:"of one annual ring"`
	Grain     *GrainRead       `json:"grain,omitempty" description:"dip, runout and flame, for the shifts along the length"`
	Edges     *EdgesRead       `json:"edges,omitempty" description:"what the two edges faced in the tree; both bark where the pith lies between them, as in leaves through a whole flitch; default: told from the pith, where that is known"`
	Openings  []string         `json:"openings,omitempty" validate:"max=3,dive,oneof=bookmatch slip_match wrong_way" description:"ways of opening to compare; default all three. wrong_way is a pair turned so that the outer faces show"`
	Spare     *SpareWood       `json:"spare,omitempty" description:"the most that may be given up for a better match; default 10 mm each (own choice)"`
	Weights   *MatchWeights    `json:"weights,omitempty" description:"of the score, in place of the usual ones"`
	ReportIn  string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *BookmatchRequest) System() string { return r.ReportIn }

// Bytes of an answer, at most: those that any has, and those of a leaf and of one way to
// open a pair. Measured on 200 leaves with all that can be asked, and rounded up; held by
// TestAnswersAreNoLongerThanTold.
const (
	matchBytes   = 6 << 10
	leafBytes    = 1000
	openingBytes = 4700
)

// Bulk is how many bytes the answer holds at most.
func (r *BookmatchRequest) Bulk() int {
	leaves, ways := len(r.Faces), len(r.Openings)
	if r.Leaves != nil && r.Leaves.Count != nil {
		leaves = *r.Leaves.Count
	}
	if ways == 0 {
		ways = 3
	}
	return matchBytes + leaves*(leafBytes+ways*openingBytes)
}

// LeafStack is a regular stack of leaves.
type LeafStack struct {
	Count     *int         `json:"count" validate:"required,gte=2,lte=200" description:"2 for one pair"`
	Thickness *wire.Length `json:"thickness" validate:"required,gte=0.0002,lte=0.5" description:"of a leaf as sawn"`
	Kerf      *wire.Length `json:"kerf" validate:"required,gte=0,lte=0.02"`
	Reface    *wire.Length `json:"reface,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"taken off the billet after every cut; default none"`
	First     *wire.Length `json:"first,omitempty" validate:"omitempty,gte=0,lte=2" description:"of the first leaf below face 1, where the rings were read; default 0"`
}

// LeafFaces is where the two sawn faces of a leaf lay in the billet.
type LeafFaces struct {
	Front *wire.Length `json:"front" validate:"required,gte=0,lte=5" description:"below face 1"`
	Back  *wire.Length `json:"back" validate:"required,gt=0,lte=5" description:"below face 1, deeper than front"`
}

// FaceCleanup is what is taken off the two faces of a leaf.
type FaceCleanup struct {
	Show *wire.Length `json:"show,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the face that shows; default 0.8 mm. It moves the halves apart, so take what you can from the back"`
	Back *wire.Length `json:"back,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the other face, where it costs no match; default none"`
}

// RingsRead is how the rings lie in the billet; exactly one of pith, readings
// and ring_angle_deg.
type RingsRead struct {
	Pith            *PithPoint    `json:"pith,omitempty" description:"measured on the end grain; often outside the billet"`
	Readings        []RingReading `json:"readings,omitempty" validate:"max=2,dive" description:"ring angle at one or two places of face 1; two give the pith"`
	RingAngle       *float64      `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0.01,lte=90" description:"one angle for the whole billet, to the face: 90 quartersawn"`
	PithBeforeFace1 bool          `json:"pith_before_face_1,omitempty" description:"with two readings: the pith lies outside face 1 and not on the side of the wood"`
	Lean            string        `json:"lean,omitempty" validate:"omitempty,oneof=left right" description:"with one angle: which way a ring line goes on the end grain, from face 1 into the wood; without it the half that must give wood is not told"`
}

// PithPoint is where the pith lies on the end grain. Either may be negative.
type PithPoint struct {
	X *wire.Length `json:"x" validate:"required,gte=-50,lte=50" description:"from the left edge along the face"`
	Z *wire.Length `json:"z" validate:"required,gte=-50,lte=50" description:"from face 1 into the wood"`
}

// RingReading is a ring angle read at a place of face 1.
type RingReading struct {
	X     *wire.Length `json:"x" validate:"required,gte=-5,lte=5" description:"from the left edge along the face"`
	Angle *float64     `json:"ring_angle_deg" validate:"required,gte=0.01,lte=90"`
}

// GrainRead is what was read of the grain along the billet.
type GrainRead struct {
	Dip       *float64 `json:"dip_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the ring surface dips 1 in this to the face along the length; it moves the tips of cathedrals"`
	Runout    *float64 `json:"runout_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the fibre leaves the face 1 in this"`
	FlameLean *float64 `json:"flame_lean_deg,omitempty" validate:"omitempty,gte=0,lte=89" description:"lean of bands of figure from square to the face, read on the billet's edge; default: the runout"`
}

// EdgesRead is what the edges faced in the tree.
type EdgesRead struct {
	Left  string `json:"left,omitempty" validate:"omitempty,oneof=bark heart"`
	Right string `json:"right,omitempty" validate:"omitempty,oneof=bark heart"`
}

// SpareWood is what may be given up.
type SpareWood struct {
	Width  *wire.Length `json:"width,omitempty" validate:"omitempty,gt=0,lte=5" description:"of one half at its seam edge"`
	Length *wire.Length `json:"length,omitempty" validate:"omitempty,gt=0,lte=20" description:"of the pair, for sliding one half along the other"`
}

// MatchWeights turn what is wrong with a match into the score; less is better.
type MatchWeights struct {
	Ring     *float64 `json:"ring,omitempty" validate:"omitempty,gte=0,lte=1000" default:"1" description:"per mm of ring shift at the seam"`
	Residual *float64 `json:"residual,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per mm that ring lines still miss elsewhere once they meet at the seam"`
	Ray      *float64 `json:"ray,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0" description:"per mm of shift of marks that follow the rays, such as bird's-eye; for wood that has them"`
	Flame    *float64 `json:"flame,omitempty" validate:"omitempty,gte=0,lte=1000" default:"1" description:"per mm of shift of flame along the length"`
	Tip      *float64 `json:"tip,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.05" description:"per mm of shift of cathedral tips along the length"`
	Spacing  *float64 `json:"spacing,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per mm by which the ring spacing differs at the seam"`
	Runout   *float64 `json:"runout,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per degree by which the runout of the halves differs"`
	Heart    *float64 `json:"heart,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"for the heart edge at the seam"`
	NoMirror *float64 `json:"no_mirror,omitempty" validate:"omitempty,gte=0,lte=1000" default:"3" description:"for a slip-match, which repeats and does not mirror"`
	Most     *float64 `json:"most,omitempty" validate:"omitempty,gte=0,lte=1000" default:"25" description:"no term counts for more"`
}
