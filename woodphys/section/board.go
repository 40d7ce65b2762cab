package section

import (
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Board is a board whose section changes. Its moisture content is even over the section,
// From and To, or that of a profile.
type Board struct {
	Wood     wood.Wood
	Section  Section
	From, To quantity.Band[quantity.Moisture] // in 0 to 2.5
	// TwoAirs says that From and To are those of airs, so that their errors go together.
	TwoAirs bool
	Profile []ProfilePoint // in place of From and To; nil for even moisture
	Along   *Along         // nil where nothing is asked of its length
}

// ProfilePoint is the moisture content at a depth below the upper face.
type ProfilePoint struct {
	Depth    float64           // share of the thickness, 0 at the upper face to 1 at the lower
	From, To quantity.Moisture // 0 to 2.5
	SD       quantity.Moisture // standard deviation of each of both, 0 to 0.2
}

// DepthOf returns the depth of a level that lies z below the upper face of a section, as a
// share of its thickness (more than 0): 0 to 1 where it lies in the wood. What is within a
// nanometre of the lower face lies on it.
//
// Accuracy: a nanometre.
// Source: geometry, a share of the thickness.
func DepthOf(z, thickness quantity.Length) float64 {
	if math.Abs(float64(z-thickness)) < 1e-9 {
		return 1
	}
	return float64(z / thickness)
}

// CheckProfile tells whether a profile runs from the upper face to the lower.
//
// Errors: contradictory for levels/i/depth that is not 0 at first, 1 at last, and more
// than the one before.
// Accuracy: exact.
// Source: the meaning of a profile.
func CheckProfile(points []ProfilePoint) error {
	last := len(points) - 1
	for i := range points {
		var detail string
		switch d := points[i].Depth; {
		case i == 0 && d != 0:
			detail = "the first level of a profile is face 1: z 0"
		case i > 0 && d <= points[i-1].Depth:
			detail = "the levels of a profile go from face 1 to face 2: each z is more than the one before"
		case i == last && d != 1:
			detail = "the last level of a profile is face 2: z the thickness"
		default:
			continue
		}
		return &method.Error{Code: method.Contradictory, Input: "levels/" + strconv.Itoa(i) + "/depth", Detail: detail}
	}
	return nil
}

// moisture returns the moisture contents as told, those to compute with, and the levels
// of a profile.
func (b *Board) moisture() (told, computed [2]quantity.Band[quantity.Moisture], levels []Level) {
	told = [2]quantity.Band[quantity.Moisture]{b.From, b.To}
	if b.Profile != nil {
		told, levels = b.mean()
		return told, told, levels
	}
	computed = told
	if b.TwoAirs {
		computed[0], computed[1] = sorption.SamePiece(b.From, b.To)
	}
	return told, computed, nil
}

// mean is that of the levels, each joined to the next by a straight line. Above fibre
// saturation nothing moves, so no level counts for more.
func (b *Board) mean() (mean [2]quantity.Band[quantity.Moisture], levels []Level) {
	onset := b.Wood.Onset()
	if onset == 0 {
		onset = movement.UsualOnset
	}
	last := len(b.Profile) - 1
	var from, to, variance quantity.Moisture
	for i, p := range b.Profile {
		levels = append(levels, Level{Depth: p.Depth, From: quantity.NormalBand(p.From, p.SD),
			To: quantity.NormalBand(p.To, p.SD)})
		share := 0.0
		if i > 0 {
			share += (p.Depth - b.Profile[i-1].Depth) / 2
		}
		if i < last {
			share += (b.Profile[i+1].Depth - p.Depth) / 2
		}
		s := quantity.Moisture(share)
		from += s * min(p.From, onset)
		to += s * min(p.To, onset)
		variance += s * s * p.SD * p.SD
	}
	sd := quantity.Moisture(math.Sqrt(float64(variance)))
	return [2]quantity.Band[quantity.Moisture]{quantity.NormalBand(from, sd), quantity.NormalBand(to, sd)}, levels
}
