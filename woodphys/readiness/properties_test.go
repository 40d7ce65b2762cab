package readiness

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// quick is a setup whose fits are fast: few members, a year.
func quick(t testing.TB) Setup {
	s := billet(t)
	s.Members, s.Points = 64, 60
	s.Phases = season(t, "madison", 100, 250*quantity.Day, 150*quantity.Day)
	s.Meters = []Meter{{BiasSD: 0.015}}
	return s
}

func TestOrderDoesNotMatter(t *testing.T) {
	s := quick(t)
	list := series(t, s, point{0.03, math.Log(0.6), 0.7}, 1800, 0, 20, 20, 50, 90, 150)
	list = append(list, Observation{Kind: Pin, At: 160 * quantity.Day, MC: 0.2, SD: 0.01}, Observation{Kind: Pin, At: 150 * quantity.Day, MC: 0.21, SD: 0.01, Part: moisture.Core},
		Observation{Kind: Sample, At: 120 * quantity.Day, MC: 0.26, SD: 0.006, Depth: 0.25, DepthKnown: true})
	want, err := Learn(context.Background(), s, list)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(1, 2))
	for range 3 {
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		got, err := Learn(context.Background(), s, list)
		require.NoError(t, err)
		assert.Equal(t, want.Factor, got.Factor)
		assert.Equal(t, want.StartMC, got.StartMC)
		assert.Equal(t, want.Ovendry, got.Ovendry)
		a, err := want.Now(200 * quantity.Day)
		require.NoError(t, err)
		b, err := got.Now(200 * quantity.Day)
		require.NoError(t, err)
		assert.Equal(t, a.Mean, b.Mean)
	}
}

// Fifty readings of one day with one meter, or on one scale, are not fifty times
// as good as one: the meter's error and the day's discrepancy stay.
func TestDuplicatesDoNotAddUpToCertainty(t *testing.T) {
	s := quick(t)
	width := func(n int, o Observation) float64 {
		var list []Observation
		for range n {
			list = append(list, o)
		}
		p, err := Learn(context.Background(), s, list)
		require.NoError(t, err)
		require.Empty(t, p.Contradictions)
		c, err := p.Now(o.At)
		require.NoError(t, err)
		return (c.Mean.High - c.Mean.Low).Percent()
	}
	pin := Observation{Kind: Pin, At: 200 * quantity.Day, MC: 0.19, SD: 0.01}
	one, many := width(1, pin), width(50, pin)
	t.Logf("meter: one reading %.2f %%MC wide, fifty %.2f", one, many)
	assert.Less(t, many, one)
	assert.Greater(t, many, 2*quantity.Z90*1.5*0.5, "no less than about half of what the meter's own error allows; the forecast knows the rest")

	// What a sample says of the drying factor is held back by the discrepancy of the day.
	factor := func(n int) float64 {
		var list []Observation
		for range n {
			list = append(list, Observation{Kind: Sample, At: 100 * quantity.Day, MC: 0.33, SD: 0.006})
		}
		p, err := Learn(context.Background(), s, list)
		require.NoError(t, err)
		return p.Factor.High - p.Factor.Low
	}
	assert.Greater(t, factor(50), 0.75*factor(1))
}

// On average a reading more does not widen the band: over 12 billets the mean width
// with ten readings is below that with five, and so on down.
func TestMoreReadingsNarrowTheBandOnAverage(t *testing.T) {
	var width [4]float64
	for i := range uint64(12) {
		b := simulate(t, 300+i)
		b.setup.Members, b.setup.Points = 64, 60
		list := b.read(10)
		list[1], list[9] = list[9], list[1] // a weight of today among the first
		for k, n := range []int{0, 2, 5, 10} {
			width[k] += b.score(t, list[:n]).widthMC / 12
		}
	}
	t.Logf("%.2f", width)
	for k := 1; k < len(width); k++ {
		assert.Less(t, width[k], width[k-1])
	}
}

// Masses in another unit are the same masses: twice the mass everywhere is the
// same wood.
func TestScaleOfMassDoesNotMatter(t *testing.T) {
	s := quick(t)
	list := series(t, s, point{0.03, math.Log(0.6), 0.7}, 1800, 0, 20, 50, 90, 150)
	a, err := Learn(context.Background(), s, list)
	require.NoError(t, err)
	for i := range list {
		list[i].Weighing.Mass *= 2
		list[i].Weighing.Resolution *= 2
	}
	b, err := Learn(context.Background(), s, list)
	require.NoError(t, err)
	assert.InEpsilon(t, a.Factor.Value, b.Factor.Value, 1e-5)
	assert.InEpsilon(t, 2*float64(a.Ovendry[0].Value), float64(b.Ovendry[0].Value), 1e-5)
}

// The ready date answers the same question as the verdict: the probability of being
// ready already is that of the verdict, within the sampling of 192 members.
func TestDateAndVerdictAgree(t *testing.T) {
	s := billet(t)
	p, err := Learn(context.Background(), s, series(t, s, point{-0.05, math.Log(0.6), 0.7}, 1800, 0, 100, 300, 700, 800))
	require.NoError(t, err)
	for _, step := range Steps() {
		for _, at := range []float64{750, 850, 900, 1000} {
			limits := LimitsFor(step, s.Thickness)
			v, _, err := p.Judge(step, limits, room(), quantity.Duration(at)*quantity.Day)
			require.NoError(t, err)
			d, err := p.ReadyDate(limits, room(), quantity.Duration(at)*quantity.Day, 0)
			require.NoError(t, err)
			assert.InDelta(t, v.Probability, d.Already, 0.08, "%s at %g", step, at)
			product := 1.0
			least := 1.0
			for _, c := range v.Criteria {
				product *= c.Probability
				least = min(least, c.Probability)
			}
			assert.LessOrEqual(t, v.Probability, least+1e-9)
			assert.True(t, d.Low.At <= d.Median.At && d.Median.At <= d.High.At)
		}
	}
	never, err := p.ReadyDate(LimitsFor(Glue, s.Thickness), Target{Mean: 0.05, SD: 0.001}, 0, 400*quantity.Day)
	require.NoError(t, err)
	assert.InDelta(t, 1, never.Never, 1e-6, "a shed never reaches 5 %MC")
	assert.False(t, never.Low.Within)
	assert.Equal(t, 400*quantity.Day, never.Median.At)
}

// The gain of a sample with a linear forecast is known in closed form: the variance
// v of the moisture content falls to v s^2/(v + s^2). Within 0.08: the reading is
// imagined in 96 members.
func TestGainOfASampleAgainstClosedForm(t *testing.T) {
	s := Setup{Factor: 1, FactorLogSD: 0.3, Thickness: 0.05, StartMC: 0.3, StartSD: 0.03, EMCLogSD: 0.1, Members: 1024, normal: true,
		Wood: wood.Wood{SpecificGravity: wood.Published(0.5)}, Discrepancy: Discrepancy{None: true, Strays: Strays{SD: 0.005, Share: -1}}, Phases: season(t, "madison", 0, 400*quantity.Day, 0)}
	full, err := s.complete(new(method.Notes))
	require.NoError(t, err)
	p, err := learn(context.Background(), &Posterior{setup: full}, straight{400}, nil)
	require.NoError(t, err)
	// at 100 days M = 0.75 start + 0.0125 ln k + 0.1 ln s + discrepancy
	v := 0.75*0.75*0.03*0.03 + 0.0125*0.0125*0.3*0.3 + 0.1*0.1*0.1*0.1 + 0.005*0.005
	for _, sd := range []float64{0.003, 0.01, 0.03} {
		a, err := p.NextReading(LimitsFor(Glue, s.Thickness), Target{Mean: 0.01}, 100*quantity.Day, Candidate{Kind: Sample, SD: quantity.Moisture(sd)})
		require.NoError(t, err)
		assert.Equal(t, ByMoisture, a.By)
		want := 1 - sd/math.Sqrt(v+sd*sd)
		t.Logf("sd %g: gain %.3f (exact %.3f)", sd, a.Options[0].Gain, want)
		assert.InDelta(t, want, a.Options[0].Gain, 0.08)
		assert.InDelta(t, 0.225, float64(a.Options[0].MC.Value), 0.002)
		assert.InDelta(t, 2*quantity.Z90*math.Sqrt(v+sd*sd), float64(a.Options[0].MC.High-a.Options[0].MC.Low), 0.06*2*quantity.Z90*math.Sqrt(v+sd*sd))
	}
}

func TestSobolFillsItsStrata(t *testing.T) {
	s := newSobol(7)
	const n = 256
	var seen [dimensions][n]int
	pairs := make(map[[4]int]int)
	for range n {
		u := s.point()
		for d, x := range u {
			require.True(t, x > 0 && x < 1)
			seen[d][int(x*n)]++
			for e := range d {
				pairs[[4]int{d, e, int(x * 4), int(u[e] * 4)}]++
			}
		}
	}
	for d := range seen {
		for _, k := range seen[d] {
			require.Equal(t, 1, k, "dimension %d", d)
		}
	}
	for at, k := range pairs { // 16 cells of 16 points in every pair
		assert.InDelta(t, 16, k, 0, at)
	}
	assert.NotEqual(t, newSobol(1).point(), newSobol(2).point())
}

// Quantiles of Student's t with 4 degrees of freedom, Abramowitz and Stegun 1964,
// table 26.10 (from memory): 0.95 at 2.132, 0.99 at 3.747; and their inverse.
func TestStudent(t *testing.T) {
	assert.InDelta(t, 2.132, studentQuantile(0.95), 5e-4)
	assert.InDelta(t, 3.747, studentQuantile(0.99), 5e-4)
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.Float64Range(1e-6, 1-1e-6).Draw(t, "u")
		assert.InDelta(t, u, studentBelow(studentQuantile(u)), 1e-9)
		x := rapid.Float64Range(-20, 20).Draw(t, "x")
		const h = 1e-4
		assert.InDelta(t, math.Exp(studentLog(x)), (studentBelow(x+h)-studentBelow(x-h))/(2*h), 1e-6)
	})
}

func TestQuantiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "n")
		var s []sample
		for range n {
			s = append(s, sample{rapid.Float64Range(-5, 5).Draw(t, "value"), rapid.Float64Range(0.01, 1).Draw(t, "weight")})
		}
		var q [3]float64
		quantiles(s, []float64{0.05, 0.5, 0.95}, q[:])
		assert.LessOrEqual(t, q[0], q[1])
		assert.LessOrEqual(t, q[1], q[2])
		// sorted now: what lies below the median, but for the value next to it, is at
		// most half, and so is what lies above
		below, above, total := 0.0, 0.0, 0.0
		for i, x := range s {
			total += x.weight
			if i+1 < n && s[i+1].value < q[1] {
				below += x.weight
			}
			if i > 0 && s[i-1].value > q[1] {
				above += x.weight
			}
		}
		assert.LessOrEqual(t, below/total, 0.5+1e-9)
		assert.LessOrEqual(t, above/total, 0.5+1e-9)
	})
	var q [1]float64
	quantiles(nil, []float64{0.5}, q[:])
	assert.True(t, math.IsNaN(q[0]))
	quantiles([]sample{{3, 1}, {1, 0}}, []float64{0.5}, q[:])
	assert.Equal(t, 3.0, q[0])
}

// The probabilities of the chi-square table, Abramowitz and Stegun 1964, table 26.8
// (from memory): 5 % beyond 18.307 at 10 and 1 % beyond 6.635 at 1.
func TestChiSquareTail(t *testing.T) {
	assert.InDelta(t, 0.05, chiSquareTail(18.307, 10), 1e-3)
	assert.InDelta(t, 0.01, chiSquareTail(6.635, 1), 2e-3)
}

func TestLimitsForThickness(t *testing.T) {
	assert.Equal(t, DefaultLimits(Glue), LimitsFor(Glue, 4*quantity.Millimetre))
	thick := LimitsFor(Glue, 40*quantity.Millimetre)
	assert.Zero(t, thick.Rate)
	perDay, asked := thick.rest(0.1)
	assert.True(t, asked)
	assert.InDelta(t, 0.005/14, perDay, 1e-12)
	small, _ := DefaultLimits(Glue).rest(0.1)
	assert.InDelta(t, 0.0011, small, 1e-12)
	both, _ := Limits{Rate: 0.001, Trend: 0.005}.rest(0.1)
	assert.InDelta(t, 0.005/14, both, 1e-12)
	_, asked = LimitsFor(Resaw, 0.05).rest(0.1)
	assert.False(t, asked)
	assert.Equal(t, Limits{}, LimitsFor("varnish", 0.05))
	// thick stock that loses 1 %MC in two weeks is not at rest for gluing, though it
	// passes the limit for small stock
	state := State{MC: known(0.084, 0.001), Target: known(0.084, 0.001), Gradient: known(0, 0.002), Rate: known(-0.01/14/1.084, 1e-5)}
	v, _, err := Judge(Glue, thick, state)
	require.NoError(t, err)
	assert.Equal(t, NotReady, v.Outcome)
	assert.Equal(t, 1, v.Failed)
	v, _, err = Judge(Glue, DefaultLimits(Glue), state)
	require.NoError(t, err)
	assert.Equal(t, Ready, v.Outcome)
}

// The quick discrepancy is a mistake of the air: it is larger where damp wood follows the
// air closely, in a wet winter, than in a dry summer, least in a room, and never beyond
// its bounds. For comparisons it is what it is told to be.
func TestQuickDiscrepancyFollowsTheAir(t *testing.T) {
	s := quick(t)
	s.Phases = season(t, "portland", 0, 400*quantity.Day, 800*quantity.Day)
	s, err := s.complete(new(method.Notes))
	require.NoError(t, err)
	at := func(day float64) float64 { return s.quick(day*float64(quantity.Day), 0.12) / s.Discrepancy.sd(0.12) }
	winter, summer, indoors := at(360), at(200), at(700)
	assert.Greater(t, winter, 1.3*summer)
	assert.InDelta(t, roomCalm, indoors, 1e-12)
	for day := 0.0; day < 1200; day += 7 {
		assert.GreaterOrEqual(t, at(day), roomCalm)
		assert.LessOrEqual(t, at(day), mostBreath)
	}
	s.Discrepancy.None = true
	assert.InDelta(t, 1, at(360), 1e-12)

	s.Discrepancy.None = false
	s.Phases[1].Length = quantity.Duration(math.Inf(1)) // refused later; it must not run for ever
	s.breathe()
	assert.Len(t, s.breath, mostBreaths)
}
