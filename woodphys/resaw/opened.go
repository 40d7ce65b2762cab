package resaw

import "latewood/woodphys/quantity"

// Opening is how two neighbouring leaves are laid side by side.
type Opening string

// The openings of a pair.
const (
	Bookmatch Opening = "bookmatch"  // the two faces of one kerf show
	SlipMatch Opening = "slip_match" // slid, same side up
	WrongWay  Opening = "wrong_way"  // opened so that the outer faces show
)

// LeafFaces is where the two sawn faces of a leaf lie, below face 1.
type LeafFaces struct{ Front, Back quantity.Length }

// Opened is a stack of which some leaves are opened in pairs, all in one way: what the
// match of the halves is asked about sets that are planned.
type Opened struct {
	Opening                  Opening
	Pairs                    []OpenedPair
	Width                    quantity.Length
	CleanupShow, CleanupBack quantity.Length
	Pith                     *Point          // X from the near edge of the stack, Z from its face 1
	RingAngle                *quantity.Angle // one for all of it, where no pith is known
	RunoutOneIn              float64         // 0 when not known
	Seam                     SeamEdge
}

// SeamEdge is the edge of the first leaf that lies at the seam.
type SeamEdge int

// Edges at the seam.
const (
	BetterEdge SeamEdge = iota // whichever matches better
	NearEdge
	FarEdge
)

// OpenedPair is a pair of neighbouring leaves. Tag is the caller's own: it comes back
// with the answer.
type OpenedPair struct {
	Tag           int
	First, Second LeafFaces
}
