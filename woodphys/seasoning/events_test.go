package seasoning_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/testdata/events"
	"latewood/testdata/truth"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// weightsOf are the weights of a billet of other laws with some of its readings.
func weightsOf(t testing.TB, b *truth.Billet, n int) *events.Series {
	t.Helper()
	_, q := judgedTruth(t, b, b.Some(n))
	q.Setup.Members = 32 // the search does not use the ensemble
	s := &events.Series{}
	var which []int
	for i := range q.Observations {
		if q.Observations[i].Kind == readiness.Weight {
			which = append(which, i)
			s.Grams = append(s.Grams, q.Observations[i].Weighing.Mass.Grams())
		}
	}
	s.Judge = func(grams []float64) (events.Said, error) {
		asked := slices.Clone(q.Observations)
		for k, i := range which {
			asked[i].Weighing.Mass = quantity.Mass(grams[k]) * quantity.Gram
		}
		said := events.Said{Step: -1}
		p, err := readiness.Learn(t.Context(), q.Setup, asked)
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

// Sound weights of other laws are hardly taken for a step.
func TestSoundWeightsAreNoStep(t *testing.T) {
	if testing.Short() {
		t.Skip("dries many billets")
	}
	cases, told, apart := 0, 0, 0
	for k, f := range truth.Families() {
		for _, b := range truth.Make(f, 10, 600+uint64(k)) {
			for _, n := range []int{4, 8, 15} {
				s := weightsOf(t, b, n)
				said, err := s.Judge(s.Grams)
				require.NoError(t, err)
				cases++
				if said.Step >= 0 {
					told++
				}
				if said.Apart {
					apart++
				}
			}
		}
	}
	t.Logf("of %d series a step is told of %d, %d read apart", cases, told, apart)
	assert.LessOrEqual(t, float64(told), 0.05*float64(cases))
	assert.LessOrEqual(t, float64(apart), 0.03*float64(cases))
}
