package match

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// MostLeaves is the largest number of leaves MatchHalves answers for.
const MostLeaves = 1000

// EdgeKind says which way in the tree an edge of the billet faced.
type EdgeKind string

// Kinds of edge.
const (
	UnknownEdge EdgeKind = "" // told from the pith, where that is known
	BarkEdge    EdgeKind = "bark"
	PithEdge    EdgeKind = "pith"
)

// LineLean says which way a ring line on the end grain goes, from face 1 into
// the wood, with X to the right.
type LineLean string

// Leans of ring lines.
const (
	UnknownLean LineLean = ""
	LeansFar    LineLean = "far" // deeper lies at larger X
	LeansNear   LineLean = "near"
)

// RingReading is a ring angle read at a place of the end grain.
type RingReading struct {
	X     quantity.Length
	Z     quantity.Length // from face 1 into the wood; of two readings the same
	Angle quantity.Angle  // 0 to 90 degrees
}

// RingPosition says how the rings lie: the pith, or one reading, or two readings
// from which the pith is found. Exactly one of Pith and Readings is given.
type RingPosition struct {
	Pith     *resaw.Point  // X from the near edge along the face, Z from face 1 into the wood; often outside the billet
	Readings []RingReading // one or two
	// PithBeforeFace1 says, for two readings, that the pith lies on the outer
	// side of face 1 and not on the side of the wood.
	PithBeforeFace1 bool
	Lean            LineLean // for one reading; without it the half that must give wood is not told
}

// Input is a stack of leaves and what is known of the grain in it. The end
// grain has X from the near edge along the face, Z from face 1 into the wood.
type Input struct {
	Width quantity.Length // of the leaves, X from 0 to Width; 1 micrometre to 100 m

	// Leaves in order from face 1, two or more, none overlapping. Without them
	// the stack is regular: Count leaves, the first First below face 1, each
	// Leaf thick and Kerf plus Reface apart.
	Leaves             []resaw.LeafFaces
	Count              int // 2 to MostMatchLeaves
	First              quantity.Length
	Leaf, Kerf, Reface quantity.Length
	Spoiled            []int // numbers of leaves that make no pair, from 1

	CleanupShow quantity.Length // off the face that shows
	CleanupBack quantity.Length // off the other face; takes no part in the match
	// Arch is how far the carved outside falls from the seam to the other edge; 0 for leaves
	// that stay flat. See CarvedPlace.
	Arch     quantity.Length
	SeamEdge quantity.Length // jointed off the edge before the seam, less than half of Width

	Rings     RingPosition
	AngleSD   quantity.Angle  // standard deviation of the ring angle, 0 to 30 degrees; 0 gives no band
	RingWidth quantity.Length // 0 when not known
	Dip       float64         // the ring surface dips 1 in Dip to the face along the length; 0 for no dip
	Runout    float64         // 1 in Runout; 0 when not known
	BandLean  *quantity.Angle // of flame from square to the face, read on the edge; nil when there is none or not read
	Near, Far EdgeKind

	Openings    []resaw.Opening // Bookmatch, SlipMatch, WrongWay in any order; all three when empty
	SpareWidth  quantity.Length // most that may be given up at one edge; 0 for UsualSpare
	SpareLength quantity.Length // most that may be given up along the length; 0 for UsualSpare
	Weights     *Weights        // nil for UsualWeights
}

// UsualSpare is the most a half is thought to give up for a better match, unless
// said otherwise. It is our own starting value: a plate usually has 5 to 8 mm
// outside the outline and 2 to 4 mm at the seam.
const UsualSpare = 10 * quantity.Millimetre

// Weights turns what is wrong with a match into one number, the score;
// less is better. They are our own starting values without a source, meant to be
// changed.
type Weights struct {
	Ring     float64 // per mm of ring shift at the seam (slip-match: not used, see Residual)
	Residual float64 // per mm that ring lines still miss at middle and outer edge once they meet at the seam
	Ray      float64 // per mm of shift of marks that follow the rays; 0 unless the wood has such marks
	Band     float64 // per mm of shift of flame along the length
	Tip      float64 // per mm of shift of cathedral tips along the length
	Spacing  float64 // per mm by which the ring spacing differs at the seam
	Runout   float64 // per degree by which the runout of the halves differs
	PithEdge float64 // for the edge that faced the pith in the seam, half of it when only one half has it there
	NoMirror float64 // for a slip-match, which repeats and does not mirror
	Most     float64 // no term counts for more than this
}

// UsualWeights returns the weights used unless others are given: 1 for a
// millimetre of ring or flame shift, 0.5 for a residual millimetre, 0.05 for a
// millimetre of tip shift, 0.5 for a millimetre of spacing, 0.5 for a degree of
// runout, 0.5 for the edge that faced the pith, 3 for the lost mirror, 25 at most for each.
// Accuracy: weights order pairs and measure nothing.
//
// Source: none; our own choice.
func UsualWeights() Weights {
	return Weights{Ring: 1, Residual: 0.5, Band: 1, Tip: 0.05, Spacing: 0.5, Runout: 0.5, PithEdge: 0.5, NoMirror: 3,
		Most: 25}
}
