package timing

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// profile is the moisture content at even steps from the face (first) to the
// middle (last) of the billet, alike from both faces. Empty: not known.
type profile []quantity.Moisture

const profileSteps = 41

// driestWood is the driest that a profile is taken to be.
const driestWood = 0.005

// at is the moisture content at a depth, a share of the thickness.
func (p profile) at(depth float64) quantity.Moisture {
	if depth > 0.5 {
		depth = 1 - depth
	}
	place := math.Max(0, depth) * 2 * float64(len(p)-1)
	i := min(int(place), len(p)-2)
	share := quantity.Moisture(place - float64(i))
	return p[i]*(1-share) + p[i+1]*share
}

// mean over a part of the thickness.
func (p profile) mean(from, to float64) quantity.Moisture {
	const parts = 40
	sum := quantity.Moisture(0)
	for i := range parts {
		sum += p.at(from + (to-from)*(float64(i)+0.5)/parts)
	}
	return sum / parts
}

// shell is the mean over the outer tenth, core that over the middle fifth.
func (p profile) shell() quantity.Moisture { return p.mean(0, 0.1) }
func (p profile) core() quantity.Moisture  { return p.mean(0.4, 0.5) }

// gap is how far core and shell are apart.
func (p profile) gap() quantity.Moisture {
	return quantity.Moisture(math.Abs(float64(p.core() - p.shell())))
}

// wettest is the moisture content of the wettest leaf; 0 when it is not known.
func (p profile) wettest() quantity.Moisture {
	wettest := quantity.Moisture(0)
	for _, m := range p {
		wettest = max(wettest, m)
	}
	return wettest
}

// MeanBetween returns the least and the most mean (both 0.005 to 1.4) that a board has whose outer tenths
// and middle fifth hold so much (0.005 to 1.4 each): of a profile that is straight from the middle to
// the face, and of one that is flat up to the outer tenth. That of a board that dries or takes up
// moisture lies between.
//
// Accuracy: exact for a board alike from both faces; of one whose air changes soon before, not.
//
// Source: moisture profiles are hollow to no side they are not driven to; derived.
func MeanBetween(shell, core quantity.Moisture) (least, most quantity.Moisture) {
	straight, flat := (shell+core)/2, 0.2*shell+0.8*core
	return min(straight, flat), max(straight, flat)
}

// flattestPower is the highest power of a profile that was read: nearly flat up to the outer tenth.
const flattestPower = 12.0

// parabola is the profile with a mean and a difference of core and shell, M = c - a u^2
// with u from 0 in the middle to 1 at the face.
func parabola(mean, coreOverShell quantity.Moisture) profile {
	return power(mean, coreOverShell, 2)
}

// power is that of M = c - a u^p.
func power(mean, coreOverShell quantity.Moisture, p float64) profile {
	outer, inner, all := partsOfPower(p)
	a := coreOverShell / quantity.Moisture(outer-inner)
	c := mean + a*quantity.Moisture(all)
	list := make(profile, profileSteps)
	for i := range list {
		u := quantity.Moisture(math.Pow(1-float64(i)/(profileSteps-1), p))
		list[i] = min(max(c-a*u, driestWood), seasoning.Wettest)
	}
	return list
}

// partsOfPower are the means of u^p over the outer tenth (u from 0.8), over the middle fifth (u to
// 0.2), and over all.
func partsOfPower(p float64) (outer, inner, all float64) {
	all = 1 / (p + 1)
	return (1 - math.Pow(0.8, p+1)) / 0.2 * all, math.Pow(0.2, p) * all, all
}

// through is the profile of a mean, a shell and a core that were read: of the power that has all three,
// or the nearest one.
func through(mean, shell, coreOverShell quantity.Moisture) profile {
	if coreOverShell == 0 {
		return parabola(mean, 0)
	}
	read := float64((mean - shell) / coreOverShell)
	low, high := 1.0, flattestPower
	for range 50 {
		mid := (low + high) / 2
		if outer, inner, all := partsOfPower(mid); (outer-all)/(outer-inner) < read {
			low = mid
		} else {
			high = mid
		}
	}
	return power(mean, coreOverShell, high)
}
