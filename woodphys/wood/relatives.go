package wood

import (
	"maps"
	"math"
	"slices"
)

// Relatives tells a figure of a wood from that of other woods of its group, those of its
// genus first: genera lie about the mean of the group with one variance, the woods of a
// genus about theirs with another.
type Relatives struct {
	mean, meanVariance float64
	between, within    float64 // variances
	genera             map[string]sample
}

// sample is a sum over so many woods.
type sample struct{ sum, n float64 }

func (s sample) mean() float64 { return s.sum / s.n }

// RelativesOf returns what figures of woods (any finite values, better their logarithms),
// which stand under their genera, tell of another wood of the group. There have to be more
// woods than genera, and two genera at least; else the spreads that come of it are 0 or NaN.
//
// Accuracy: exact in the figures; the variances are those of the sample, and rough where
// genera are few.
//
// Source: one-way random effects, variances by the analysis of variance of unequal classes
// (Searle, Casella and McCulloch 1992, Variance Components, ch. 3, from memory).
func RelativesOf(byGenus map[string][]float64) Relatives {
	r := Relatives{genera: make(map[string]sample, len(byGenus))}
	all, squares := sample{}, 0.0              // squares: of the number of woods of each genus
	names := slices.Sorted(maps.Keys(byGenus)) // one order, so that sums are the same each time
	for _, genus := range names {
		s := sample{n: float64(len(byGenus[genus]))}
		for _, v := range byGenus[genus] {
			s.sum += v
		}
		if s.n > 0 {
			r.genera[genus] = s
			all.sum, all.n, squares = all.sum+s.sum, all.n+s.n, squares+s.n*s.n
		}
	}
	inside, apart := 0.0, 0.0 // sums of squares
	for _, genus := range names {
		s := r.genera[genus]
		for _, v := range byGenus[genus] {
			inside += math.Pow(v-s.mean(), 2)
		}
		if s.n > 0 {
			apart += s.n * math.Pow(s.mean()-all.mean(), 2)
		}
	}
	genera := float64(len(r.genera))
	r.within = inside / (all.n - genera)
	r.between = math.Max(0, (apart-(genera-1)*r.within)/(all.n-squares/all.n))
	r.weigh(names)
	return r
}

// weigh sets the mean of the group, each genus weighed by how well it is known.
func (r *Relatives) weigh(names []string) {
	sum, weights := 0.0, 0.0
	for _, genus := range names {
		if s := r.genera[genus]; s.n > 0 {
			weight := 1 / (r.between + r.within/s.n)
			sum, weights = sum+weight*s.mean(), weights+weight
		}
	}
	r.mean, r.meanVariance = sum/weights, 1/weights
}

// Of returns the figure of a wood of a genus of which the figure is not known, and its
// standard deviation: the mean of its relatives, drawn to that of the group the more the
// fewer they are and the less genera differ; that of the group, with the spread of genera,
// for a genus that is not among them.
//
// Accuracy: the standard deviation, as far as the variances are known.
//
// Source: best linear unbiased prediction of a random effect (as RelativesOf).
func (r *Relatives) Of(genus string) (middle, sd float64) {
	s, kin := r.genera[genus]
	if !kin {
		return r.mean, math.Sqrt(r.between + r.within + r.meanVariance)
	}
	share := s.n * r.between / (s.n*r.between + r.within)
	return r.mean + share*(s.mean()-r.mean),
		math.Sqrt(r.within + (1-share)*r.between + (1-share)*(1-share)*r.meanVariance)
}

// Has reports whether a wood of the genus is among the relatives.
//
// Accuracy: exact. Source: the figures of RelativesOf.
func (r *Relatives) Has(genus string) bool { return r.genera[genus].n > 0 }
