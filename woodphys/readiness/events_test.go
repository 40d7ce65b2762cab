package readiness

import (
	"cmp"
	"context"
	"slices"
	"testing"

	"latewood/testdata/events"
	"latewood/woodphys/quantity"
)

// seriesOf are the weights of a simulated billet with readings.
func (b *simulated) seriesOf(list []Observation) *events.Series {
	var which []int
	for i := range list {
		if list[i].Kind == Weight {
			which = append(which, i)
		}
	}
	slices.SortStableFunc(which, func(x, y int) int { return cmp.Compare(list[x].At, list[y].At) })
	s := &events.Series{}
	for _, i := range which {
		s.Grams = append(s.Grams, list[i].Weighing.Mass.Grams())
	}
	s.Judge = func(grams []float64) (events.Said, error) {
		asked := slices.Clone(list)
		for k, i := range which {
			asked[i].Weighing.Mass = quantity.Mass(grams[k]) * quantity.Gram
		}
		said := events.Said{Step: -1}
		p, err := Learn(context.Background(), b.setup, asked)
		if err != nil {
			return said, err
		}
		if p.Cut != nil {
			said.Step, said.Share, said.Apart = slices.Index(which, p.Cut.Index), p.Cut.Share.Value, p.Cut.Apart
		}
		for _, c := range p.Contradictions {
			if k := slices.Index(which, c.Index); k >= 0 {
				said.Aside = append(said.Aside, k)
			}
		}
		return said, nil
	}
	return s
}

var _ = testing.Short
