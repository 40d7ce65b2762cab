package readiness

import (
	"math"
	"math/bits"
)

// dimensions of a draw: the parameters, discrepancy, target.
const dimensions = maxDims + 2

// sobol gives the points of Sobol's sequence one after another, its bits
// flipped by a shift that follows from the seed.
//
// Source: Sobol' 1967 in the order of Antonov and Saleev 1979; direction numbers
// of Joe and Kuo 2008, dimensions 1 to 12 (from memory; the tests check that every
// dimension and pair fills its strata).
type sobol struct {
	next  uint32
	state [dimensions]uint32
	way   [dimensions][32]uint32
}

func newSobol(seed uint64) *sobol {
	var s sobol
	for b := range 32 {
		s.way[0][b] = 1 << (31 - b)
	}
	for d, p := range [dimensions - 1]struct {
		degree int
		poly   uint32
		start  []uint32
	}{{1, 0, []uint32{1}}, {2, 1, []uint32{1, 3}}, {3, 1, []uint32{1, 3, 1}}, {3, 2, []uint32{1, 1, 1}},
		{4, 1, []uint32{1, 1, 3, 3}}, {4, 4, []uint32{1, 3, 5, 13}}, {5, 2, []uint32{1, 1, 5, 5, 17}}, {5, 4, []uint32{1, 1, 5, 5, 5}},
		{5, 7, []uint32{1, 1, 7, 11, 19}}, {5, 11, []uint32{1, 1, 5, 1, 1}}, {5, 13, []uint32{1, 1, 1, 3, 11}}} {
		v := &s.way[d+1]
		for b := range 32 {
			if b < p.degree {
				v[b] = p.start[b] << (31 - b)
				continue
			}
			v[b] = v[b-p.degree] ^ v[b-p.degree]>>p.degree
			for k := 1; k < p.degree; k++ {
				if p.poly>>(p.degree-1-k)&1 == 1 {
					v[b] ^= v[b-k]
				}
			}
		}
	}
	for d := range s.state {
		s.state[d] = uint32(mix(seed+uint64(d)) >> 32) // the shift is the first point
	}
	return &s
}

// point returns the next point; every coordinate lies inside 0 and 1.
func (s *sobol) point() [dimensions]float64 {
	var u [dimensions]float64
	for d := range u {
		u[d] = (float64(s.state[d]) + 0.5) / (1 << 32)
	}
	b := bits.TrailingZeros32(^s.next) & 31
	s.next++
	for d := range s.state {
		s.state[d] ^= s.way[d][b]
	}
	return u
}

// mix is the finaliser of SplitMix64 (Steele, Lea and Flood 2014, from memory).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// normalQuantile returns the value below which a standard normal variable lies
// with probability u, inside 0 and 1.
func normalQuantile(u float64) float64 { return math.Sqrt2 * math.Erfinv(2*u-1) }

// Student's t with four degrees of freedom: heavy tails and closed forms.
//
// Source: Shaw 2006, Journal of Computational Finance 9 (4), 37-73, for the
// quantile (from memory; tested against the distribution).

func studentQuantile(u float64) float64 {
	a := 4 * u * (1 - u)
	if a >= 1 {
		return 0
	}
	root := math.Sqrt(a)
	return math.Copysign(2*math.Sqrt(max(math.Cos(math.Acos(root)/3)/root-1, 0)), u-0.5)
}

func studentBelow(t float64) float64 {
	s := 1 + t*t/4
	return 0.5 + 0.375*t/math.Sqrt(s)*(1-t*t/(12*s))
}

// studentLog is the logarithm of the density.
func studentLog(t float64) float64 { return math.Log(0.375) - 2.5*math.Log1p(t*t/4) }

func normalLog(z float64) float64 { return -0.5*z*z - 0.5*math.Log(2*math.Pi) }
