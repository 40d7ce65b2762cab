package match

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Result is how the pairs of a stack match.
type Result struct {
	Faces  []resaw.LeafFaces // of every leaf
	Leaves []LeafAngles      // ring angle of every leaf at near edge, middle and far edge, at its mid-plane
	Pith   *resaw.Point      // used or found; nil when the rings are taken as planes
	Near   EdgeKind          // as given or told from the pith
	Far    EdgeKind
	Pairs  []Pair       // neighbours in order from face 1, those with a spoiled leaf left out
	Ranked []RankedPair // the best first, by Cured; of figured wood (BandLean) slip-matches after the ways that mirror it
	Chosen []RankedPair // pairs without a common leaf: as many as there can be, of the least total of Cured, each in the layout that stands first in Ranked
	Notes  method.Notes
}

// RankedPair is a pair in one layout, with its better edge at the seam.
type RankedPair struct {
	First   int // number of the first leaf; the other is the next
	Opening resaw.Opening
	Edge    Edge
	Score   float64
	Cured   float64 // the score once the cure is done
}

// Pair is how one leaf matches the next.
type Pair struct {
	First   int // number of the first leaf from face 1
	Kerf    quantity.Length
	Layouts []Layout // in the order of the openings asked for
}

// Edge is a side edge of the billet.
type Edge string

// Edges, and the middle of the width between them.
const (
	NearEdge Edge = "near" // X = 0
	FarEdge  Edge = "far"  // X = Width
	MidWidth Edge = "middle"
)

// Layout is a pair opened in one way.
type Layout struct {
	Opening      resaw.Opening
	ShowA, ShowB quantity.Length // depth of the two show faces below face 1, after clean-up
	Distance     quantity.Length // d
	Places       [3]Place        // left seam edge, middle, right seam edge
	Largest      *FaceShift      // over the whole width; nil where ring lines have no partner
	// Shifts along the length; nil when nothing is known of the feature.
	BandShift *quantity.Length // flame
	TipShift  *quantity.Length // tips of cathedrals, which is also the ring shift along the seam
	Runout    *Runout
	Seams     [2]Seam  // near edge at the seam, far edge at the seam
	Better    int      // of the two seams
	Reasons   []string // why, for people
}

// Place is the match at one place of the width. Shifts across the width are
// positive when the feature lies at larger X on the second show face, or, with
// UnknownLean, without sign.
type Place struct {
	At      Edge
	X       quantity.Length
	Angle   quantity.Angle // at mid-distance between the show faces
	AngleA  quantity.Angle // on the show face of the first leaf
	AngleB  quantity.Angle
	Shift   *quantity.Length                // ring shift that counts: Circle with a pith, else Plane; nil where ring lines have no partner
	Plane   *quantity.Length                // ring shift of plane rings, d cot(theta); nil below 0.01 degrees
	Circle  *quantity.Length                // of the circular ring through the mid-distance point; nil without a pith, or where it does not reach both faces
	Band    *quantity.Band[quantity.Length] // 90 % band of the ring shift; nil without AngleSD
	Square  *quantity.Length                // plane ring shift square to the line on the face, with the dip
	Ray     *quantity.Length                // marks that follow the rays; nil where no ray passes both faces
	Spacing [2]*quantity.Length             // of ring lines seen on the show faces; nil without RingWidth or below 0.01 degrees
}

// Runout is how the runout of the two halves differs. Booking turns one
// half over and mirrors the runout, so that one half looks lighter, and the light
// swaps when the piece is turned round; a slip-match keeps the sense.
type Runout struct {
	Angle      quantity.Angle // of each half
	Mirrored   bool
	Difference quantity.Angle // between the fibre of the halves
}

// Seam is the match with one edge of the first leaf at the seam. In a
// slip-match the other edge of the second leaf meets it.
type Seam struct {
	Edge    Edge     // of the first leaf
	Kind    EdgeKind // of that edge
	Shift   *quantity.Length
	AtEdge  *quantity.Length // of the ring lines that meet the seam itself, the larger of the first and of the second leaf; nil where neither reaches the other face
	AngleA  quantity.Angle   // ring angles that meet at the seam
	AngleB  quantity.Angle
	Spacing *quantity.Length // difference of the ring spacing that meets; nil when not known
	Carved  []CarvedPlace    // at the seam, the middle and the other edge; nil without an arch
	Cure    Cure
	Terms   ScoreTerms
	Score   float64 // sum of the terms; less is better
	Cured   float64 // the same once the cure is done, where the spare wood allows it: the ring term counts TrimShare of itself; else Score
}

// Half names a half of a pair.
type Half string

// Halves.
const (
	NoHalf     Half = ""
	FirstHalf  Half = "first"
	SecondHalf Half = "second"
	EitherHalf Half = "either" // the one whose line lies farther from the seam; see the wood
)

// Cure is what it takes to bring the halves into line.
type Cure struct {
	Half     Half            // that gives more wood at its seam edge
	Width    quantity.Length // given by it; the half becomes that much narrower
	Residual quantity.Length // largest miss of ring lines that stays at the middle or the outer edge, of the carved outside where there is one
	Slide    quantity.Length // one half along the other for the flame; length lost. With a dip it moves the ring lines too: slide first, then joint
	SlideTip quantity.Length // for the cathedral tips instead; one slide serves both only when they are equal
	// NotCurable tells what cannot be brought into line within the spare wood:
	// "ring", "flame", "tip".
	NotCurable []string
}

// ScoreTerms are the parts of a score.
type ScoreTerms struct {
	Ring, Residual, Ray, Band, Tip, Spacing, Runout, PithEdge, NoMirror float64
}

// Sum returns the score.
func (s ScoreTerms) Sum() float64 {
	return s.Ring + s.Residual + s.Ray + s.Band + s.Tip + s.Spacing + s.Runout + s.PithEdge + s.NoMirror
}

// LeafAngles is the ring angle of one leaf at its two edges and its middle.
type LeafAngles struct {
	Leaf              int // from face 1
	Near, Middle, Far quantity.Angle
}
