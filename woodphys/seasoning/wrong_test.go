package seasoning_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/testdata/truth"
	"latewood/woodphys/readiness"
)

// spoilt are readings of which one weight is wrong: a tenth more, a tenth less, or two
// neighbouring digits swapped that change it by more than 4 %.
func spoilt(readings []truth.Reading, rng *rand.Rand) (list []truth.Reading, which int) {
	list = slices.Clone(readings)
	var weights []int
	for i := range list {
		if list[i].Kind == truth.Weight {
			weights = append(weights, i)
		}
	}
	kind := rng.IntN(3)
	which = weights[rng.IntN(len(weights))]
	grams := math.Round(list[which].Grams)
	wrong := math.Round(grams * 1.1)
	if kind == 1 {
		wrong = math.Round(grams * 0.9)
	}
	if swapped := swapped(grams); kind == 2 && len(swapped) > 0 {
		wrong = swapped[rng.IntN(len(swapped))]
	}
	list[which].Grams = wrong
	return list, which
}

// swapped are the numbers with two neighbouring digits swapped that differ by more than 4 %.
func swapped(grams float64) []float64 {
	var list []float64
	text := strconv.FormatFloat(grams, 'f', 0, 64)
	for i := range len(text) - 1 {
		digits := []byte(text)
		digits[i], digits[i+1] = digits[i+1], digits[i]
		if v, err := strconv.ParseFloat(string(digits), 64); err == nil && v > 0 && math.Abs(math.Log(v/grams)) > 0.04 {
			list = append(list, v)
		}
	}
	return list
}

// wrongCase is what is said of a billet of another law with one weight wrong, and of the same one
// sound.
type wrongCase struct {
	refused, named, alone, told bool
	sound, with                 truthScore
}

func wrongCaseOf(t testing.TB, b *truth.Billet, n int, seed uint64) wrongCase {
	t.Helper()
	score := func(readings []truth.Reading) (*readiness.HistoryAnswer, truthScore) {
		q := askedTruth(t, b, readings)
		q.NoCourse = true
		a, err := readiness.JudgeHistory(t.Context(), &q)
		if err != nil {
			return nil, truthScore{}
		}
		y, band := b.MeanPct[b.Now], a.Now.Mean
		s := truthScore{sentAside: len(a.Posterior.Contradictions) > 0, mc: y >= band.Low.Percent() && y <= band.High.Percent(),
			width: (band.High - band.Low).Percent()}
		due := readyTruth(b, readiness.LimitsFor(truthStep, q.Billet.Thickness))
		for i := range a.Verdicts {
			if a.Verdicts[i].Step == truthStep {
				s.ready = a.Verdicts[i].Outcome == readiness.Ready
				s.wrong = s.ready && due > float64(b.Now)
			}
		}
		return a, s
	}
	var c wrongCase
	_, c.sound = score(b.Some(n))
	list, which := spoilt(b.Some(n), rand.New(rand.NewPCG(seed, uint64(n))))
	a, s := score(list)
	if c.refused = a == nil; c.refused {
		return c
	}
	c.with = s
	said := a.Posterior.Contradictions
	c.named = slices.ContainsFunc(said, func(one readiness.Contradiction) bool { return one.Index == which })
	c.alone = c.named && len(said) == 1
	c.told = c.named || len(said) > 0 || a.Posterior.Cut != nil || a.Posterior.Inflated > 1
	return c
}

// wrongRow sums them up.
type wrongRow struct {
	n, refused, named, alone, alarms, unnamed, told int
	sound, found, missed                            truthRow
}

func (r *wrongRow) add(c *wrongCase) {
	count := func(to *int, is bool) {
		if is {
			*to++
		}
	}
	r.n++
	count(&r.alarms, c.sound.sentAside)
	count(&r.refused, c.refused)
	if c.refused {
		return
	}
	count(&r.named, c.named)
	count(&r.alone, c.alone)
	r.sound.add(c.sound)
	if c.named {
		r.found.add(c.with)
		return
	}
	r.missed.add(c.with)
	r.unnamed++
	count(&r.told, c.told)
}

func (r *wrongRow) line(seed uint64, readings int) string {
	of := func(n, all int) string { return fmt.Sprintf("%.1f", 100*float64(n)/float64(max(all, 1))) }
	held := func(t *truthRow) string {
		return fmt.Sprintf("%.0f (%d) | %d of %d", 100*float64(t.mc)/float64(max(t.n, 1)), t.n, t.wrong, t.ready)
	}
	return fmt.Sprintf("| %d | %d | %d | %d | %s | %s | %s | %s | %s | %s | %d of %d |\n", seed, readings, r.n, r.refused, of(r.named, r.n), of(r.alone, r.n), of(r.alarms, r.n),
		held(&r.sound), held(&r.found), held(&r.missed), r.told, r.unnamed)
}

// wrongWeights judges so many billets of each family.
func wrongWeights(t testing.TB, billets int, seed uint64, readings int) *wrongRow {
	t.Helper()
	var r wrongRow
	var made []*truth.Billet
	for k, f := range truth.Families() {
		made = append(made, truth.Make(f, billets, seed+uint64(k))...)
	}
	cases := ofEach(made, func(i int, b *truth.Billet) wrongCase { return wrongCaseOf(t, b, readings, seed+uint64(i)) })
	for i := range cases {
		r.add(&cases[i])
	}
	return &r
}

// Of other laws wrong weights are named, and hardly a sound one is.
func TestWrongWeightsOfOtherTruths(t *testing.T) {
	if testing.Short() {
		t.Skip("dries many billets")
	}
	r := wrongWeights(t, 6, 640, 8)
	t.Logf("%s", r.line(640, 8))
	assert.GreaterOrEqual(t, float64(r.named), 0.8*float64(r.n))
	assert.LessOrEqual(t, r.alarms, 2)
}

// wrongSeeds are those of billets that nobody had seen when that was settled, each the first of four.
var wrongSeeds = []uint64{8810, 9120}

// Writes WRONG.md:
//
//	LATEWOOD_SWEEP=1 go test ./woodphys/seasoning -run TestWrongWeightsSweep -timeout 90m
func TestWrongWeightsSweep(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") != "1" {
		t.Skip("LATEWOOD_SWEEP=1 runs it; a quarter of an hour")
	}
	var out strings.Builder
	out.WriteString(wrongHead)
	for _, seed := range wrongSeeds {
		for _, n := range []int{4, 8, 15} {
			r := wrongWeights(t, 40, seed, n)
			out.WriteString(r.line(seed, n))
			assert.LessOrEqual(t, float64(r.alarms), 0.04*float64(r.n))
		}
	}
	require.NoError(t, os.WriteFile("WRONG.md", []byte(out.String()), 0o600))
}

const wrongHead = `# What is said of a wrong weight

Written by ` + "`LATEWOOD_SWEEP=1 go test ./woodphys/seasoning -run TestWrongWeightsSweep -timeout 90m`" + `.

Billets of the four families of TRUTHS.md, 40 of each for each row, with one weight changed: a tenth more, a tenth less, or two neighbouring digits swapped that change it by more than 4 %. Nobody had seen them when the odds from which a weight is set aside were chosen; that was done by billets of the model's own (seeds 31000 to 31239) and by 160 of the families with the seeds 500 to 503 and 600 to 603 each. "Named" counts series in which that weight is named, alone or as one of two that nothing tells apart, "alone" those in which no other is; "alarms" are series of which one is named before it was changed. "Refused" are series that no course of drying agrees with.

Then what the answer is worth, of all series before one was changed, of those in which it is named, and of those in which it is not: how often the moisture content of today is held, and verdicts "ready" (to thickness) before the limits are met. Of those in which it is not named: in how many something else is said of the weights (another is named, a step, or that the readings disagree with the forecast).

All 320 together: 62, 87 and 97 % are named at 4, 8 and 15 readings, with alarms in 3.1, 2.8 and 2.8 %. By the limits before, of deviations and gaps, 59, 83 and 94 % were, with alarms in 2.2, 2.5 and 2.2 % (measured once).

A word at a lower bar that sets nothing aside was tried and not added (seeds 500 to 503 and 600 to 603): told of one sound series in twenty, it would reach 4 more of 100 wrong weights at 4 readings, and 2 at 8. What is not named at 4 readings is hidden by what nobody knows of the piece: at 3 % alarms no bar names more than 71 % there, and 95 % at 8.

| seed | readings | cases | refused | named, % | alone, % | alarms, % | sound: MC held, % (of) | wrong ready | named: MC held, % (of) | wrong ready | not named: MC held, % (of) | wrong ready | something said |
|---|---|---|---|---|---|---|---|---|---|---|---|---|---|
`
