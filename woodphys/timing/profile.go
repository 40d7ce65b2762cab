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

// parabola is the profile with a mean and a difference of core and shell, M = c - a u^2
// with u from 0 in the middle to 1 at the face.
func parabola(mean, coreOverShell quantity.Moisture) profile {
	// The mean of u^2 is (1 - 0.8^3)/0.6 over the outer tenth, 0.2^3/0.6 over the middle
	// fifth, 1/3 in all.
	const outer, inner = (1 - 0.512) / 0.6, 0.008 / 0.6
	a := coreOverShell / (outer - inner)
	c := mean + a/3
	p := make(profile, profileSteps)
	for i := range p {
		u := quantity.Moisture(1 - float64(i)/(profileSteps-1))
		p[i] = min(max(c-a*u*u, driestWood), seasoning.Wettest)
	}
	return p
}
