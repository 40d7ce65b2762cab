package readiness

import (
	"cmp"
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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

// cutsOf counts steps in simulated billets.
func cutsOf(t testing.TB, seed uint64, billets, readings int, shares ...float64) *events.Cuts {
	t.Helper()
	c := &events.Cuts{Shares: shares}
	for i := range uint64(billets) {
		b := simulate(t, seed+i)
		b.setup.Members = 32 // the search does not use the ensemble
		require.NoError(t, c.Add(b.seriesOf(b.read(readings))))
	}
	return c
}

// A step of a fifth is told, and no weight is set aside for it where two lie on either side;
// sound series tell none.
func TestLargeCutExplainsTheWeights(t *testing.T) {
	if testing.Short() {
		t.Skip("spoils many series")
	}
	c := cutsOf(t, 31000, 12, 8, 0.20)
	sound, apart, _ := c.Sound()
	assert.LessOrEqual(t, sound, 10.0)
	assert.Zero(t, apart)
	for _, date := range []string{"early", "middle", "late"} {
		told, aside := c.Of(0.20, date)
		assert.GreaterOrEqual(t, told, 80.0, date)
		assert.LessOrEqual(t, aside, 0.2, date)
	}
}

// Writes EVENTS.md:
//
//	LATEWOOD_SWEEP=1 go test ./woodphys/readiness -run TestEventSweep -timeout 60m
func TestEventSweep(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") != "1" {
		t.Skip("LATEWOOD_SWEEP=1 runs it; some minutes")
	}
	var out strings.Builder
	out.WriteString(eventsHead + events.CutsHead)
	for _, n := range []int{4, 8, 15} {
		cutsOf(t, 32000, sweptBillets, n).Rows("own", n, &out)
	}
	require.NoError(t, os.WriteFile("EVENTS.md", []byte(out.String()), 0o600))
}

const sweptBillets = 40

const eventsHead = `# What is said of a cut that nobody told of

Written by ` + "`LATEWOOD_SWEEP=1 go test ./woodphys/readiness -run TestEventSweep -timeout 60m`" + `.

Simulated billets of the model's own (as in COVERAGE.md, other seeds). From a weight on all are lighter by a share, or heavier where it is below 0. "After the first" and "before the last" leave one weight alone on a side: that one may be wrong as well, so it is set aside as before, and the step is told beside it; so it is where two lie on either side and nothing tells a step from a wrong weight. "Weights set aside" are a mean of each series. "Refused" are series that no course of drying agrees with: they get an error and no answer, and are not among the cases. What the share is off by counts those told at the right weight.

`
