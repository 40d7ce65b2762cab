package species

import (
	"math"

	physics "latewood/woodphys/wood"
)

// kinTell says of which group the woods of a genus are more alike than others, in how full
// of water they are when green. Found by leaving out one wood after another: broadleaved
// woods with relatives stray by 0.17 of ln with the genus and by 0.23 without it; conifers,
// of which it is the share of sapwood that tells, by 0.38 with it and by 0.35 without.
// TestKinTellOfBroadleavedWoods holds it.
var kinTell = map[Group]bool{Hardwood: true}

// kinShare is a base times the share of it that the woods of the genus have, drawn to that
// of the group as far as their number and the likeness of genera say. It serves where the
// group has such likeness, and the genus another wood of which the figure is printed.
func (e *estimator) kinShare(known func(*Wood) Optional[float64], base func(*Wood) float64, named way) way {
	others := map[Group]physics.Relatives{} // of a wood of which the figure is not printed
	named.of = func(w *Wood) (float64, bool) {
		group := w.Botany()
		if !kinTell[group] {
			return 0, false
		}
		kin, made := others[group]
		if own := known(w).Known(); own || !made {
			if kin = physics.RelativesOf(e.sharesWithout(w, known, base)); !own {
				others[group] = kin
			}
		}
		middle, _ := kin.Of(genusOf(w))
		return base(w) * math.Exp(middle), kin.Has(genusOf(w)) && base(w) > 0
	}
	return named
}

// sharesWithout are the logarithms of a figure over its base of the woods of the group of w,
// by genus, without what w itself has. A figure that is the same for several woods of a genus
// is one row of a publication, and counts once.
func (e *estimator) sharesWithout(w *Wood, known func(*Wood) Optional[float64], base func(*Wood) float64) map[string][]float64 {
	type row struct {
		genus  string
		figure float64
	}
	shares, counted := map[string][]float64{}, map[row]bool{}
	if own, is := known(w).Get(); is {
		counted[row{genusOf(w), own}] = true
	}
	for _, one := range e.woods {
		figure, is := known(one).Get()
		here := row{genusOf(one), figure}
		if !is || one == w || one.Botany() != w.Botany() || base(one) <= 0 || counted[here] {
			continue
		}
		counted[here] = true
		shares[here.genus] = append(shares[here.genus], math.Log(figure/base(one)))
	}
	return shares
}
