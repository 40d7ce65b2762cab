package readiness

import (
	"context"
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// spoil changes one weight by a slip: a tenth more or less, or two neighbouring
// digits swapped that change it by more than 4 %. ok is false when no swap of the
// weight does.
func (b *simulated) spoil(list []Observation, which int, kind string) (ok bool) {
	w := &list[which].Weighing
	grams := math.Round(w.Mass.Grams())
	switch kind {
	case "more":
		w.Mass = quantity.Mass(math.Round(grams*1.1)) * quantity.Gram
	case "less":
		w.Mass = quantity.Mass(math.Round(grams*0.9)) * quantity.Gram
	default:
		var fit []float64
		for _, text := range swaps(strconv.FormatFloat(grams, 'f', 0, 64)) {
			v, err := strconv.ParseFloat(text, 64)
			if err == nil && v > 0 && math.Abs(math.Log(v/grams)) > 0.04 {
				fit = append(fit, v)
			}
		}
		if len(fit) == 0 {
			return false
		}
		w.Mass = quantity.Mass(fit[b.rng.IntN(len(fit))]) * quantity.Gram
	}
	return true
}

// spoilAny spoils one of the weights, and tells which and how.
func (b *simulated) spoilAny(list []Observation) (which int, kind string) {
	var weights []int
	for i := range list {
		if list[i].Kind == Weight {
			weights = append(weights, i)
		}
	}
	kind = []string{"more", "less", "swap"}[b.rng.IntN(3)]
	which = weights[b.rng.IntN(len(weights))]
	if !b.spoil(list, which, kind) {
		kind = "more"
		b.spoil(list, which, kind)
	}
	return which, kind
}

// found counts what the search for a wrong reading gave.
type found struct {
	cases, named, alone, alarms, slips, swapped int
}

func (f *found) percent(n int) float64 { return 100 * float64(n) / float64(f.cases) }

func (f *found) try(t testing.TB, seed uint64, n int) {
	t.Helper()
	b := simulate(t, seed)
	b.setup.Members = 32 // the search does not use the ensemble
	list := b.read(n)
	p, err := Learn(context.Background(), b.setup, list)
	require.NoError(t, err)
	f.cases++
	if len(p.Contradictions) > 0 {
		f.alarms++
	}
	which, kind := b.spoilAny(list)
	p, err = Learn(context.Background(), b.setup, list)
	require.NoError(t, err)
	at := slices.IndexFunc(p.Contradictions, func(c Contradiction) bool { return c.Index == which })
	if kind == "swap" {
		f.swapped++
	}
	if at < 0 {
		return
	}
	f.named++
	if len(p.Contradictions) == 1 {
		f.alone++
	}
	if kind == "swap" && p.Contradictions[at].Slip != "" {
		f.slips++
	}
}

// One weight wrong by a tenth or by two swapped digits is named, and sound series
// raise no alarm, as far as 24 series tell.
func TestWrongWeightIsNamed(t *testing.T) {
	var f found
	for i := range uint64(24) {
		f.try(t, 7000+i, []int{5, 7, 10}[i%3])
	}
	t.Logf("%+v", f)
	assert.GreaterOrEqual(t, f.percent(f.named), 85.0)
	assert.LessOrEqual(t, f.percent(f.alarms), 2.0+100*tolerance(0.01, 24))
}

func TestWrongWeightIsNamedWithWhatIsExpected(t *testing.T) {
	s := billet(t)
	list := series(t, s, point{0, math.Log(0.5), 0.68}, 2511, 0, 30, 60, 100, 150, 200)
	right := list[3].Weighing.Mass
	clean, err := Learn(context.Background(), s, list)
	require.NoError(t, err)
	require.Empty(t, clean.Contradictions)

	for name, c := range map[string]struct {
		mass quantity.Mass
		slip string
	}{
		"pounds as kilograms": {right / quantity.Mass(0.45359237), "pounds were read as kilograms"},
		"decimal point":       {right * 10, "decimal point"},
		"a tenth more":        {right * 1.1, ""},
	} {
		t.Run(name, func(t *testing.T) {
			list[3].Weighing.Mass = c.mass
			p, err := Learn(context.Background(), s, list)
			require.NoError(t, err)
			require.Len(t, p.Contradictions, 1)
			got := p.Contradictions[0]
			assert.Equal(t, 3, got.Index)
			assert.Equal(t, -1, got.With)
			assert.False(t, got.Undecided)
			assert.InEpsilon(t, float64(c.mass), float64(got.GivenMass), 1e-9)
			assert.Less(t, got.ExpectedMass.Low, right)
			assert.Greater(t, got.ExpectedMass.High, right)
			assert.Contains(t, got.Slip, c.slip)
			if c.slip == "" {
				assert.Empty(t, got.Slip)
			}
			// left out and not averaged: the answer is that of the sound readings alone
			list := slices.Delete(slices.Clone(list), 3, 4)
			without, err := Learn(context.Background(), s, list)
			require.NoError(t, err)
			assert.InDelta(t, without.Factor.Value, p.Factor.Value, 0.1*(without.Factor.High-without.Factor.Low))
		})
	}
}

// A wrong weight next to the first is hard to tell from a step of all that follow: it is set aside,
// and the step is told beside it.
func TestStepOrWrongWeightAreBothTold(t *testing.T) {
	for seed, n := range map[uint64]int{31016: 8, 31100: 6} {
		b := simulate(t, seed)
		b.setup.Members = 32
		list := b.read(n)
		which, _ := b.spoilAny(list)
		p, err := Learn(t.Context(), b.setup, list)
		require.NoError(t, err)
		require.Len(t, p.Contradictions, 1)
		assert.Equal(t, which, p.Contradictions[0].Index)
		require.NotNil(t, p.Cut)
		assert.False(t, p.Cut.Apart)
	}
}

// What speaks for it that a weight is wrong: how far it is off against how sure the others are, and
// whether a slip explains it. What is off by less than weather makes is no slip.
func TestOddsOfAWrongWeight(t *testing.T) {
	odds := func(grams, expected, sd float64) float64 {
		r := reading{kind: Weight, y: math.Log(grams / 1000)}
		s := surprised{gap: math.Log(grams / expected), sd: sd}
		return s.wrong(&r) - s.sound()
	}
	assert.Greater(t, odds(2750, 2500, 0.02), math.Log(50), "a tenth, and the others are sure")
	assert.Less(t, odds(2750, 2500, 0.06), math.Log(4), "a tenth, and the others are not")
	assert.Less(t, odds(2500, 2500, 0.02), 0.0, "as expected")
	assert.Greater(t, odds(2345, 2435, 0.007), math.Log(50), "two digits swapped")
	assert.Less(t, odds(2355, 2445, 0.007), 0.0, "as far off, and no slip")
	assert.Less(t, odds(2450, 2500, 0.005), 0.0, "too little for anything but weather")
}

// Two samples of one day that exclude each other, and nothing to tell which is wrong:
// the forecast alone would allow either, so none is set aside. The answer says that they
// disagree, and its band reaches from one to the other.
func TestUndecidedPairIsKeptWhole(t *testing.T) {
	s := billet(t)
	prior, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	c, err := prior.Now(90 * quantity.Day)
	require.NoError(t, err)
	pair := []Observation{
		{Kind: Sample, At: 90 * quantity.Day, MC: c.Mean.Value - 0.05, SD: 0.006}, {Kind: Sample, At: 91 * quantity.Day, MC: c.Mean.Value + 0.05, SD: 0.006},
	}
	p, err := Learn(context.Background(), s, pair)
	require.NoError(t, err)
	assert.Empty(t, p.Contradictions)
	assert.Equal(t, 2, p.Used)
	assert.Greater(t, p.Inflated, 1.5)
	said := false
	for _, w := range p.Notes.Warnings {
		said = said || w.Code == method.Disagreement
	}
	assert.True(t, said)

	// a third reading settles it
	p, err = Learn(context.Background(), s, append(pair, Observation{Kind: Sample, At: 93 * quantity.Day, MC: c.Mean.Value + 0.045, SD: 0.006}))
	require.NoError(t, err)
	require.Len(t, p.Contradictions, 1)
	assert.Zero(t, p.Contradictions[0].Index)
	assert.False(t, p.Contradictions[0].Undecided)
}

// A sample outranks what others expect of a piece: it is not set aside, the piece is
// taken to have it, and the answer says that they disagree.
func TestOnlyReadingAgainstTheForecast(t *testing.T) {
	p, err := Learn(context.Background(), billet(t), []Observation{{Kind: Sample, At: 10 * quantity.Day, MC: 0.09, SD: 0.006}})
	require.NoError(t, err)
	require.Empty(t, p.Contradictions)
	assert.Greater(t, p.Inflated, 1.0)
	now, err := p.Now(10 * quantity.Day)
	require.NoError(t, err)
	assert.InDelta(t, 9, now.Mean.Value.Percent(), 4)
}

func TestSwapsAndSlips(t *testing.T) {
	assert.Equal(t, []string{"4132", "1342", "1423"}, swaps("1432"))
	assert.Equal(t, []string{"2.13"}, swaps("1.23")[:1])
	assert.Empty(t, swaps("555"))
	assert.Equal(t, []string{"21e3"}, swaps("12e3"))
	band := func(low, high float64) quantity.Band[float64] {
		return quantity.Band[float64]{Value: math.Log((low + high) / 2), Low: math.Log(low), High: math.Log(high)}
	}
	assert.Contains(t, slipOf("1342", math.Log(1.342), 1342, band(1.425, 1.438), true), "1432 for 1342")
	assert.Empty(t, slipOf("1342", math.Log(1.342), 1342, band(1.30, 1.60), true), "too wide to tell")
	assert.Empty(t, slipOf("1342", math.Log(1.342), 1342, band(1.46, 1.47), true), "nothing explains it")
	assert.Empty(t, slipOf("nonsense", math.Log(1.342), 1342, band(1.46, 1.47), true))
}
