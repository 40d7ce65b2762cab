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

// cup finds the leaf that bends most when it becomes even.
func (w *work) cup(c *Cut) (*Cup, error) {
	if c.Leaves == 0 || len(w.profile) == 0 {
		return nil, nil //nolint:nilnil // no leaf, or nothing known of its bending
	}
	saw := &w.q.Saw
	step := c.Leaf + saw.Kerf + saw.Reface
	t := float64(c.Billet)
	found := &Cup{Room: w.q.Leaf.Flat + c.Extra}
	worst := -1.0
	for i := range mostCupped {
		front := float64(saw.Facing/2) + float64(i)*float64(step)
		if front+float64(c.Leaf) > t*(1+1e-9) {
			break
		}
		bent, err := section.Gradient(c.Leaf, c.Width, w.q.RingAngle, w.levels(front/t, float64(c.Leaf)/t), w.q.Wood)
		if err != nil {
			return nil, method.Renamed(err, leafNames...)
		}
		w.notes.Merge(bent.Notes.Renamed(leafNames...))
		if size := math.Abs(float64(bent.Cup.Value)); size > worst {
			worst = size
			found.Leaf, found.Cup = i+1, sized(bent.Cup)
			found.Hollow = hollow(bent.Cup.Value, front+float64(c.Leaf)/2 < t/2)
		}
	}
	found.Exceeds = worst > float64(found.Room)
	return found, nil
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
		return Outside
	}
	return Inside
}

// sized is a cup without its side.
func sized(c quantity.Band[quantity.Length]) quantity.Band[quantity.Length] {
	if c.Value < 0 {
		c.Value, c.Low, c.High = -c.Value, -c.High, -c.Low
	}
	c.Low = max(c.Low, 0)
	return c
}

// levels are the moisture contents through a leaf, and that it settles at.
func (w *work) levels(front, thick float64) []section.Level {
	const n = 9
	levels := make([]section.Level, n)
	for i := range levels {
		share := float64(i) / (n - 1)
		from := quantity.NormalBand(w.profile.at(front+share*thick), profileDoubt)
		from.Low = max(from.Low, 0)
		levels[i] = section.Level{Depth: share, From: from, To: quantity.NormalBand(w.q.Rest.Moisture.Value, 0)}
	}
	return levels
}
