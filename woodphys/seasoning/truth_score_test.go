package seasoning_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/testdata/truth"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// crps is the continuous ranked probability score of a distribution, of which below is the
// probability of values up to x, against what came: the integral of (below - [x >= came])^2
// over the range of the grid, which rises (Gneiting and Raftery 2007, J. Am. Stat. Assoc.
// 102, 359, from memory). Of a single value it is the absolute error.
func crps(below func(x float64) float64, came float64, grid []float64) float64 {
	at := append(slices.Clone(grid), came)
	slices.Sort(at)
	sum, last := 0.0, below(at[0])
	for i := 1; i < len(at); i++ {
		next := below(at[i])
		a, b := last, next
		if at[i] > came {
			a, b = 1-last, 1-next
		}
		sum += (at[i] - at[i-1]) * (a*a + a*b + b*b) / 3 // straight between the two
		last = next
	}
	return sum
}

// levelScore is the score of the moisture content foretold of a day, in %MC.
func levelScore(t testing.TB, p *readiness.Posterior, day, came float64) float64 {
	t.Helper()
	at := quantity.Duration(day) * quantity.Day
	now, err := p.Now(at)
	require.NoError(t, err)
	const least = 0.5 // %MC, the driest target that is judged by
	below := func(x float64) float64 {
		// within what is below the driest target by anything, and above it by up to x
		limits := readiness.Limits{Above: quantity.Moisture(min(max(x-least, 0)/100, 1)), Below: 1}
		v, _, err := p.Judge(readiness.Resaw, limits, readiness.Target{Mean: least * quantity.PercentMC}, at)
		require.NoError(t, err)
		return v.Probability
	}
	middle := now.Mean.Value.Percent()
	reach := max(2.5*(now.Mean.High-now.Mean.Low).Percent(), 1.2*math.Abs(came-middle), 1)
	var grid []float64
	const steps = 70
	for i := range steps + 1 {
		grid = append(grid, max(middle+reach*(2*float64(i)/steps-1), least))
	}
	return crps(below, came, slices.Compact(grid))
}

// dateScore is the score of the days until a step is ready, up to the horizon of the
// forecast, which stands for never.
func dateScore(t testing.TB, p *readiness.Posterior, q *readiness.HistoryQuestion, limits readiness.Limits, came float64) float64 {
	t.Helper()
	target := q.Setup.TargetIn(q.Target, q.Room)
	span := (p.Horizon() - q.Today).Days()
	below := func(x float64) float64 {
		if x >= span {
			return 1
		}
		d, err := p.ReadyDate(limits, target, q.Today, q.Today+quantity.Duration(max(x, 0.01))*quantity.Day)
		require.NoError(t, err)
		return 1 - d.Never
	}
	var grid []float64
	const steps = 32
	for i := range steps + 1 {
		share := float64(i) / steps
		grid = append(grid, span*share*share)
	}
	return crps(below, min(came, span), grid)
}

// exponential is what a maker with a pencil foretells: an exponential through the
// weighings of a billet down to where it rests, by least squares.
type exponential struct{ rest, start, perDay, from float64 }

func (e *exponential) at(day float64) float64 {
	return e.rest + e.start*math.Exp(-e.perDay*(day-e.from))
}

// throughWeights fits it to two weighings or more, of an ovendry mass.
func throughWeights(readings []truth.Reading, ovendry, rest float64) (best exponential, ok bool) {
	var days, above []float64
	for _, r := range readings {
		if r.Kind == truth.Weight {
			days, above = append(days, r.Day), append(above, 100*(r.Grams/ovendry-1)-rest)
		}
	}
	if len(days) < 2 {
		return best, false
	}
	least := math.Inf(1)
	for time := 3.0; time < 3000; time *= 1.04 {
		var num, den, miss float64
		for i, day := range days {
			f := math.Exp(-(day - days[0]) / time)
			num, den = num+f*above[i], den+f*f
		}
		for i, day := range days {
			gap := above[i] - num/den*math.Exp(-(day-days[0])/time)
			miss += gap * gap
		}
		if miss < least {
			least, best = miss, exponential{rest, num / den, 1 / time, days[0]}
		}
	}
	return best, true
}

// skill sums up scores of a group and of the plain forecasts of the same billets.
type skill struct {
	n                int
	now, later, due  float64
	prior            [3]float64 // of the same billets without a reading: now, later, due
	laterOf, laterBy [2]float64 // own and other score where the weight stays, and by the exponential
	dueOf, dueBy     [2]float64
}

func (k *skill) add(prior, s *truthScore) {
	k.n++
	k.now, k.later, k.due = k.now+s.now.score, k.later+s.later.score, k.due+s.due.score
	for i, v := range []float64{prior.now.score, prior.later.score, prior.due.score} {
		k.prior[i] += v
	}
	for i, v := range []float64{s.later.stays, s.later.exponential} {
		if !math.IsNaN(v) {
			k.laterOf[i], k.laterBy[i] = k.laterOf[i]+s.later.score, k.laterBy[i]+v
		}
	}
	for i, v := range []float64{s.due.stays, s.due.exponential} {
		if !math.IsNaN(v) {
			k.dueOf[i], k.dueBy[i] = k.dueOf[i]+s.due.score, k.dueBy[i]+v
		}
	}
}

// gain is the skill of a score over another, in percent.
func gain(of, over float64) string {
	if !(over > 0) {
		return "-"
	}
	return fmt.Sprintf("%.0f", 100*(1-of/over))
}

func (k *skill) line(group string) string {
	n := float64(k.n)
	return fmt.Sprintf("| %s | %d | %.2f | %s | %.2f | %s | %s | %s | %.1f | %s | %s | %s |\n", group, k.n, k.now/n, gain(k.now, k.prior[0]),
		k.later/n, gain(k.later, k.prior[1]), gain(k.laterOf[0], k.laterBy[0]), gain(k.laterOf[1], k.laterBy[1]),
		k.due/n, gain(k.due, k.prior[2]), gain(k.dueOf[0], k.dueBy[0]), gain(k.dueOf[1], k.dueBy[1]))
}

// skills are those of groups: by readings, and with readings by season and thickness.
type skills struct {
	names  []string
	groups map[string]*skill
}

func (k *skills) add(b *truth.Billet, n int, prior, s *truthScore) {
	groups := []string{fmt.Sprintf("%d readings", n)}
	if n > 0 {
		season := []string{"winter", "spring", "summer", "autumn"}[(b.Season+1)%12/3]
		thick := "up to 35 mm"
		switch {
		case b.ThicknessMM > 55:
			thick = "above 55 mm"
		case b.ThicknessMM > 35:
			thick = "35 to 55 mm"
		}
		groups = append(groups, season, thick)
	}
	if k.groups == nil {
		k.groups = map[string]*skill{}
	}
	for _, g := range groups {
		if k.groups[g] == nil {
			k.groups[g] = new(skill)
			k.names = append(k.names, g)
		}
		k.groups[g].add(prior, s)
	}
}

// table is written by readings first, then by season and by thickness.
func (k *skills) table() string {
	place := func(g string) int {
		for i, w := range []string{"readings", "winter", "spring", "summer", "autumn", "up to", "35 to", "above"} {
			if strings.Contains(g, w) {
				return i
			}
		}
		return -1
	}
	slices.SortStableFunc(k.names, func(a, b string) int { return place(a) - place(b) })
	text := ""
	for _, g := range k.names {
		text += k.groups[g].line(g)
	}
	return text
}

// A score is the absolute error of a single value, and that of a normal forecast is what
// its closed form says.
func TestScoreOfAForecast(t *testing.T) {
	var grid []float64
	for x := -6.0; x <= 6; x += 0.05 {
		grid = append(grid, x)
	}
	for _, came := range []float64{-2, 0, 0.7} {
		sure := crps(func(x float64) float64 {
			if x < 1 {
				return 0
			}
			return 1
		}, came, grid)
		require.InDelta(t, math.Abs(1-came), sure, 0.05)
		normal := crps(func(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }, came, grid)
		density, below := math.Exp(-came*came/2)/math.Sqrt(2*math.Pi), 0.5*math.Erfc(-came/math.Sqrt2)
		require.InDelta(t, came*(2*below-1)+2*density-1/math.Sqrt(math.Pi), normal, 1e-3)
	}
}

// The pencil finds the exponential that it was given.
func TestExponentialThroughWeights(t *testing.T) {
	var readings []truth.Reading
	for day := 0.0; day <= 100; day += 20 {
		readings = append(readings, truth.Reading{Kind: truth.Weight, Day: day, Grams: 1000 * (1.09 + 0.5*math.Exp(-day/40))})
	}
	line, ok := throughWeights(readings, 1000, 9)
	require.True(t, ok)
	require.InDelta(t, 9+50*math.Exp(-150.0/40), line.at(150), 0.3)
	_, ok = throughWeights(readings[:1], 1000, 9)
	require.False(t, ok, "one weight has no course")
}
