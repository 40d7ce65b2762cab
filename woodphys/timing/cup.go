package timing

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// profileDoubt is the standard deviation of the moisture content at one depth of
// the profile. Own estimate.
const profileDoubt = 0.3 * quantity.PercentMC

// mostCupped is how many leaves of a stack are bent.
const mostCupped = 200

// flatBelow is a cup below which a leaf is flat.
const flatBelow = 1 * quantity.Micrometre

// leafLevels are the levels through a leaf at which its moisture content is looked at.
const leafLevels = 9

// slice is where a leaf lies in the billet, in shares of its thickness.
type slice struct{ front, thick float64 }

// leaves are those of a stack; half of the facing is taken off either face.
func (w *work) leaves(c *Cut) []slice {
	saw, t := &w.q.Saw, float64(c.Billet)
	step := c.Leaf + saw.Kerf + saw.Reface
	var list []slice
	for i := range mostCupped {
		front := float64(saw.Facing/2) + float64(i)*float64(step)
		if front+float64(c.Leaf) > t*(1+1e-9)-float64(saw.Facing/2) {
			break
		}
		list = append(list, slice{front / t, float64(c.Leaf) / t})
	}
	return list
}

// cup finds how much the leaf that bends most cups when it becomes even: over the profiles
// that the billet may have, of each its worst leaf.
func (w *work) cup(c *Cut) (*Cup, error) {
	leaves := w.leaves(c)
	if c.Leaves == 0 || len(leaves) == 0 || len(w.cases) == 0 {
		return nil, nil //nolint:nilnil // no leaf, or nothing known of its bending
	}
	found := &Cup{Room: w.q.Leaf.Flat + c.Extra}
	var all mixture
	hollows, steep := map[Side]float64{}, make([]float64, len(leaves))
	for i := range w.cases {
		one := &w.cases[i]
		cup, sd, err := w.bend(c, one, &leaves[w.steepest(one, leaves, steep)])
		if err != nil {
			return nil, err
		}
		all = append(all, part{mean: math.Abs(cup), sd: sd, share: one.share})
		hollows[map[bool]Side{true: TowardsCore, false: TowardsShell}[cup >= 0]] += one.share * math.Abs(cup)
	}
	value, low, high := all.band()
	found.Cup = quantity.Band[quantity.Length]{Value: quantity.Length(value), Low: quantity.Length(low), High: quantity.Length(high)}
	found.Leaf, found.Over = 1+greatest(steep), 1-all.below(float64(found.Room))
	if hollows[TowardsCore]+hollows[TowardsShell] > 0 && found.Cup.Value >= flatBelow {
		found.Hollow = map[bool]Side{true: TowardsCore, false: TowardsShell}[hollows[TowardsCore] >= hollows[TowardsShell]]
	}
	found.Exceeds = found.Cup.Value > found.Room
	return found, nil
}

// bend is the cup of a leaf in a case, with its side, and its standard deviation.
func (w *work) bend(c *Cut, one *likely, leaf *slice) (cup, sd float64, err error) {
	stress, stressSD, told, err := w.released(c.Width)
	switch {
	case err != nil:
		return 0, 0, err
	case told && w.q.Prongs.Settled && !w.dried: // what the prongs did is what the leaf does
		return stress, stressSD, nil
	}
	bent, err := section.Gradient(c.Leaf, c.Width, w.q.RingAngle, w.levels(one.profile, leaf), w.q.Wood)
	if err != nil {
		return 0, 0, method.Renamed(err, leafNames...)
	}
	w.notes.Merge(bent.Notes.Renamed(leafNames...))
	cup, sd = side(bent.Cup.Value, leaf.front+leaf.thick/2 < 0.5), float64(bent.Cup.SD())
	if told && !w.q.Prongs.Settled {
		cup, sd = cup+stress, math.Hypot(sd, stressSD)
	}
	return cup, sd, nil
}

// bent are the leaves of a stack, by number, whose mean cup over the cases is more than is
// planned for it.
func (w *work) bent(c *Cut) ([]int, error) {
	leaves := w.leaves(c)
	var list []int
	for k := range leaves {
		mean := 0.0
		for i := range w.cases {
			cup, _, err := w.bend(c, &w.cases[i], &leaves[k])
			if err != nil {
				return nil, err
			}
			mean += w.cases[i].share * math.Abs(cup)
		}
		if mean > float64(c.Cup.Room) {
			list = append(list, k+1)
		}
	}
	return list, nil
}

// steepest is the leaf that bends most in a case; how steep each leaf is, by its share, is
// added to what the cases before had. The movement of wood is near enough in proportion to
// its moisture content below fibre saturation to choose by that.
func (w *work) steepest(one *likely, leaves []slice, steep []float64) int {
	most, at, saturated := -1.0, 0, w.saturation()
	for i := range leaves {
		moment := 0.0
		for k := range leafLevels {
			y := float64(k)/(leafLevels-1) - 0.5
			weight := y
			if k == 0 || k == leafLevels-1 {
				weight /= 2
			}
			moment += weight * float64(min(one.at(leaves[i].front+(0.5+y)*leaves[i].thick), saturated))
		}
		moment = math.Abs(moment)
		steep[i] += one.share * moment
		if moment > most*(1+1e-9) {
			most, at = moment, i
		}
	}
	return at
}

// greatest is the place of the greatest, the first of those alike.
func greatest(list []float64) int {
	at := 0
	for i, v := range list {
		if v > list[at]*(1+1e-9) {
			at = i
		}
	}
	return at
}

// leafNames are the sizes of a leaf that is bent.
var leafNames = [][2]string{{"thickness", "leaf"}, {"width", "leaf_width"}}

// hollow is the side of a leaf that becomes hollow; a positive cup is hollow towards face
// 1 of the billet, near says whether the leaf lies in that half.
func hollow(cup quantity.Length, near bool) Side {
	switch {
	case math.Abs(float64(cup)) < float64(flatBelow):
		return Neither
	case near == (cup > 0):
		return TowardsShell
	}
	return TowardsCore
}

// levels are the moisture contents through a leaf, and that it settles at.
func (w *work) levels(p profile, leaf *slice) []section.Level {
	levels := make([]section.Level, leafLevels)
	for i := range levels {
		share := float64(i) / (leafLevels - 1)
		from := quantity.NormalBand(p.at(leaf.front+share*leaf.thick), profileDoubt)
		from.Low = max(from.Low, 0)
		levels[i] = section.Level{Depth: share, From: from, To: quantity.NormalBand(w.q.Rest.Moisture.Value, 0)}
	}
	return levels
}
