package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Opening is how two neighbouring leaves are laid side by side.
type Opening string

// The openings of a pair.
const (
	Bookmatch   Opening = "bookmatch"    // the two faces of one kerf show
	SlipMatch   Opening = "slip_match"   // slid, same side up
	WrongWay    Opening = "wrong_way"    // opened so that the outer faces show
	CarvedPair  Opening = "carved_wedge" // sawn faces underneath, carved to an arch
	NeighbourTo Opening = "next_pair"    // pair 1-2 against pair 3-4, same role
)

// Pair is a pair of neighbouring leaves.
type Pair struct {
	Opening            Opening
	Leaf               quantity.Length // sawn leaf; not used by Bookmatch and CarvedPair
	Kerf               quantity.Length
	Reface             quantity.Length // taken off the billet between the cuts
	CleanupA, CleanupB quantity.Length // off the two faces that show
	Arch               quantity.Length // height of the arch at the seam, CarvedPair only
}

// FaceDistance returns d, the billet thickness between the two faces that end up
// showing on either side of the seam.
//
// p: lengths 0 to 100 m. Errors: method.OutOfRange; method.Unknown for another
// opening; method.Contradictory when the clean-up of a pair opened the wrong way
// is more than the pair is thick. Accuracy: exact.
//
// Source: derived. Bookmatch k + j + s1 + s2; slip-match t + k + j; wrong way
// 2t + k + j - s1 - s2; carved wedge k + 2H at the seam; next pair
// 2(t + k + j). j is 0 unless the billet is re-faced between cuts.
func FaceDistance(p Pair) (quantity.Length, method.Notes, error) {
	var notes method.Notes
	if err := check(&notes, rowFaceDistance, given{"leaf", p.Leaf}, given{"kerf", p.Kerf}, given{"reface", p.Reface},
		given{"cleanup_a", p.CleanupA}, given{"cleanup_b", p.CleanupB}, given{"arch", p.Arch}); err != nil {
		return 0, notes, err
	}
	t, k := whole(p.Leaf), whole(p.Kerf)+whole(p.Reface)
	s := whole(p.CleanupA) + whole(p.CleanupB)
	switch p.Opening {
	case Bookmatch:
		return length(k + s), notes, nil
	case SlipMatch:
		return length(t + k), notes, nil
	case WrongWay:
		if s > 2*t+k {
			return 0, notes, contradictory("cleanup_a", "the clean-up is more than the two leaves and the kerf")
		}
		return length(2*t + k - s), notes, nil
	case CarvedPair:
		return length(k + 2*whole(p.Arch)), notes, nil
	case NeighbourTo:
		return length(2 * (t + k)), notes, nil
	}
	return 0, notes, &method.Error{
		Code: method.Unknown, Input: "opening",
		Detail: "opening must be bookmatch, slip_match, wrong_way, carved_wedge or next_pair",
		Limit:  "bookmatch, slip_match, wrong_way, carved_wedge, next_pair",
	}
}
