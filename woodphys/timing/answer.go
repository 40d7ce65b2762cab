package timing

import (
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Answer lays both ways side by side.
type Answer struct {
	Now         quantity.Band[quantity.Moisture] // mean moisture content today
	Shell, Core quantity.Band[quantity.Moisture] // today
	How         ProfileOrigin
	SawNow      Way
	DryWhole    Way
	Scale       Scale
	Advised     Advised
	Notes       method.Notes
}

// Way is one way to the finished leaves.
type Way struct {
	Saw   readiness.ReadyDate // when it is sawn
	SawAt quantity.Band[quantity.Moisture]
	Ready readiness.ReadyDate // when the leaves are ready to be thicknessed
	Cut   Cut
	// Billet is the course until it is sawn, empty sawn now; Leaf that of its wettest leaf,
	// counted from LeafFrom.
	Billet, Leaf readiness.Course
	LeafFrom     quantity.Duration
	Factor       drying.Factor      // of what dries first: the leaf, or the billet
	Reach        *drying.CheckReach // of the ends; nil where it is not told how they are kept
	Checks       *drying.CheckRisk  // nil where no safe loss is known or the wood is dry
	Risks        []Risk
}

// Cut is what comes off the saw.
type Cut struct {
	Leaf, Width       quantity.Length // of the leaf as sawn
	Extra             quantity.Length // of Leaf, for thick and thin
	Oversize          quantity.Length // of Leaf, for the shrinkage still to come
	Billet, Broad     quantity.Length // thickness and width of the billet when it is sawn
	Leaves, Sets, Odd int             // odd: good leaves in no set
	Flat              int             // of Sets, those of which no leaf cups by more than is planned for it
	// FlatLeaf is the leaf as sawn at which the cup is no more than is planned for it, and FlatSets the
	// sets at that; the leaf and its sets where none is more; 0: not looked at.
	FlatLeaf quantity.Length
	FlatSets int
	Finished quantity.Length // thickness of the leaf once it is worked
	Cup      *Cup            // nil when not one leaf is had, or the profile is not known
}

// ProfileOrigin says where the difference of shell and core comes from.
type ProfileOrigin string

// How the profile of today is known.
const (
	ProfileRead  ProfileOrigin = "read"
	ProfileDried ProfileOrigin = "dried_down_in_the_first_place"
	ProfileEven  ProfileOrigin = "even"
)

// Side is a side of a leaf in the billet.
type Side string

// The side that becomes hollow.
const (
	TowardsShell Side = "shell" // the face of the billet
	TowardsCore  Side = "core"  // its middle
	Neither      Side = ""      // it stays flat
)

// Cup is the cup that the gradient at sawing puts into the leaf that bends most.
type Cup struct {
	Leaf    int                            // from face 1, the likeliest
	Cup     quantity.Band[quantity.Length] // over the profiles that the billet may have: their mean, and nine of ten
	Hollow  Side                           // the likelier
	Room    quantity.Length                // thickness planned for flattening
	Exceeds bool                           // the cup is more than that
	Over    float64                        // probability that it is
}

// Scale is how much faster a leaf settles than the billet.
type Scale struct {
	Thickness float64 // billet over leaf
	Low, High float64 // time as thickness to the powers leastPower and mostPower, or Computed where it lies beyond
	Computed  float64 // of the drying model: time to lose half of the distance to rest in the room
}
