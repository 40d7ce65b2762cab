package timing

import (
	"cmp"
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// likely is a profile that the billet may have, and how likely that is.
type likely struct {
	profile
	share float64
}

// cases are the profiles that the billet may have; their shares add up to 1. None: nothing
// is known of it.
type cases []likely

// certain is the one case of a profile that is known.
func certain(p profile) cases { return cases{{p, 1}} }

// even is the profile of a billet that is even through its thickness.
func even(mc quantity.Moisture) profile {
	p := make(profile, profileSteps)
	for i := range p {
		p[i] = mc
	}
	return p
}

// middle is the mean of the profiles.
func (c cases) middle() profile {
	p := make(profile, profileSteps)
	for _, one := range c {
		for i := range p {
			p[i] += quantity.Moisture(one.share) * one.profile[i]
		}
	}
	return p
}

// band is the mean over the cases of what is read of a profile, and what nine of ten of
// them hold; no narrower than a standard deviation says that all have in common.
func (c cases) band(read func(profile) quantity.Moisture, sd quantity.Moisture) quantity.Band[quantity.Moisture] {
	if len(c) == 0 {
		return quantity.Band[quantity.Moisture]{}
	}
	var m mixture
	for _, one := range c {
		m = append(m, part{mean: float64(read(one.profile)), sd: float64(sd), share: one.share})
	}
	value, low, high := m.band()
	return quantity.Band[quantity.Moisture]{Value: quantity.Moisture(value), Low: quantity.Moisture(low), High: quantity.Moisture(high)}
}

// part is a normal distribution in a mixture of some.
type part struct{ mean, sd, share float64 }

// mixture is a mixture of normal distributions of what is never below 0; its shares add up to 1.
type mixture []part

// below is the probability of less than x.
func (m mixture) below(x float64) float64 {
	sum := 0.0
	for _, p := range m {
		switch {
		case p.sd > 0:
			sum += p.share * 0.5 * math.Erfc((p.mean-x)/(p.sd*math.Sqrt2))
		case p.mean <= x:
			sum += p.share
		}
	}
	return sum
}

// band is the mean and the ends of the 90 % band, which holds the mean also where less than
// one in twenty carries it.
func (m mixture) band() (mean, low, high float64) {
	for _, p := range m {
		mean += p.share * p.mean
	}
	const tail = (1 - quantity.Coverage) / 2
	return mean, math.Min(m.quantile(tail), mean), math.Max(m.quantile(1-tail), mean)
}

// quantile is the x below which a share lies.
func (m mixture) quantile(share float64) float64 {
	reach := func(p part) float64 { return p.mean + 8*p.sd }
	most := slices.MaxFunc(m, func(a, b part) int { return cmp.Compare(reach(a), reach(b)) })
	low, high := 0.0, math.Max(reach(most), 0)
	for range 60 {
		mid := (low + high) / 2
		if m.below(mid) < share {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
