package drying

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// endsWith is the ends of a piece with a film of their own, in a stack with another.
func endsWith(tb testing.TB, gravity float64, length quantity.Length, film, own float64) *EndGrain {
	tb.Helper()
	tables, err := newTransport(mediumAt(gravity), alongGrain)
	require.NoError(tb, err)
	return &EndGrain{length: float64(length), resistance: 1/own - 1/film, tables: tables}
}

// shortPiece is what the computation in two dimensions says of a piece.
type shortPiece struct {
	job   Job
	ratio float64 // length over thickness
	bare  bool
	want  map[string][]float64 // by day
	days  map[string]float64   // to a moisture content; NaN: not reached
}

func shortPieces(t *testing.T) []*shortPiece {
	t.Helper()
	var all []*shortPiece
	for _, r := range expect.Named(t, "../../testdata/drying/ends_oracle.csv") {
		num := func(name string) float64 { return expect.Number(t, r[name]) }
		if r["day"] == "2" { // the first of a piece
			cl, err := Station(madison(), 120)
			require.NoError(t, err)
			if r["climate"] != "madison" {
				cl = mustConstant(t, num("temp_c"), num("rh"))
			}
			p := &shortPiece{ratio: num("length_mm") / num("thickness_mm"), bare: r["end_film_m_s"] == r["film_m_s"], want: map[string][]float64{}, days: map[string]float64{}}
			p.job = Job{
				Transport: testTransport(t, num("specific_gravity")), Thickness: quantity.Length(num("thickness_mm")) * quantity.Millimetre,
				Factor: num("factor"), Pace: num("pace"), Initial: quantity.Moisture(num("initial_mc")), History: NoHysteresis,
				Phases:  []Phase{{Length: 365 * quantity.Day, Climate: cl, Exposure: Exposure{FilmCoefficient: num("film_m_s")}}},
				Ends:    endsWith(t, num("specific_gravity"), quantity.Length(num("length_mm"))*quantity.Millimetre, num("film_m_s"), num("end_film_m_s")),
				Setting: Coarse(),
			}
			for _, one := range targets {
				p.days[one.name] = math.NaN()
				if r[one.name] != "" {
					p.days[one.name] = num(one.name)
				}
			}
			all = append(all, p)
		}
		p := all[len(all)-1]
		p.job.Times = append(p.job.Times, quantity.Duration(num("day"))*quantity.Day)
		for _, name := range []string{"mean_mc", "middle_mc", "shell_mc", "core_mc"} {
			p.want[name] = append(p.want[name], num(name))
		}
	}
	return all
}

// dayAt is when a course comes down to a moisture content, looked at every six hours; NaN where it does not.
func dayAt(t *testing.T, job Job, target float64, core bool) float64 {
	t.Helper()
	job.Times = nil
	for d := 0.0; d <= 365; d += 0.25 {
		job.Times = append(job.Times, quantity.Duration(d)*quantity.Day)
	}
	c, err := new(Solver).Run(context.Background(), &job)
	require.NoError(t, err)
	course := c.Mean
	if core {
		course = c.Core
	}
	for i, m := range course {
		if float64(m) <= target {
			return job.Times[i].Days()
		}
	}
	return math.NaN()
}

// targets are the moisture contents to which the days are known.
var targets = []struct {
	name   string
	target float64
	core   bool
}{{"mean_to_30", 0.30, false}, {"mean_to_20", 0.20, false}, {"mean_to_14", 0.14, false}, {"core_to_30", 0.30, true}, {"core_to_20", 0.20, true}, {"core_to_14", 0.14, true}}

// Pieces of one to forty thicknesses, bare and sealed, green and part dry, through the seasons and in
// a room, against finite volumes in two dimensions (testdata/drying/ends_oracle.py), as
// coarse as forecasts run.
//
// Allowed of the mean: 1.5 %MC, 0.7 from 8 thicknesses on, twice that of a piece as long as thick; without its
// ends it would be off by up to 29. Of its days to a target: 8 % or a day; 17 % of a piece as long as thick. Of the
// days of the core, which the ends reach as a front: 10 %, or two days. Where the mean of the seasons turns about
// within a point of the target the day is not looked at.
func TestEndGrainAgainstTwoDimensions(t *testing.T) {
	pieces := shortPieces(t)
	require.Len(t, pieces, 36)
	var s Solver
	compared, worst, without := 0, map[string]float64{}, 0.0
	for _, p := range pieces {
		name := fmt.Sprintf("G %g, %g thicknesses, bare %v, from %g, %g", p.job.Transport.SpecificGravity(), p.ratio, p.bare, p.job.Initial, float64(p.job.Times[0]))
		c, err := s.Run(context.Background(), &p.job)
		require.NoError(t, err)
		allowed, days := 1.5, 0.08
		switch {
		case p.ratio >= 8:
			allowed = 0.7
		case p.ratio < 2:
			allowed, days = 3.3, 0.17
		}
		for i, m := range c.Mean {
			off := 100 * math.Abs(float64(m)-p.want["mean_mc"][i])
			assert.LessOrEqual(t, off, allowed, "%s: mean at %g d", name, p.job.Times[i].Days())
			worst[fmt.Sprintf("mean %2g", p.ratio)] = math.Max(worst[fmt.Sprintf("mean %2g", p.ratio)], off)
		}
		for _, one := range targets {
			want := p.days[one.name]
			if math.IsNaN(want) || seasonal(p, one.target) {
				continue
			}
			got, share, least := dayAt(t, p.job, one.target, one.core), days, 1.0
			if one.core {
				share, least = 0.1, 2
				if p.ratio < 2 {
					share = 0.17
				}
			}
			assert.InDelta(t, want, got, math.Max(share*want, least), "%s: %s", name, one.name)
			compared++
		}
		bare := p.job
		bare.Ends = nil
		c, err = s.Run(context.Background(), &bare)
		require.NoError(t, err)
		for i, m := range c.Mean {
			if p.ratio >= 2 {
				without = math.Max(without, 100*(float64(m)-p.want["mean_mc"][i]))
			}
		}
	}
	t.Logf("%d days compared; worst mean in %%MC: %v; without ends %.1f", compared, worst, without)
	assert.GreaterOrEqual(t, compared, 80)
	assert.Greater(t, without, 25.0)
}

// seasonal says whether outdoor air may hold the wood within a point of a target.
func seasonal(p *shortPiece, target float64) bool {
	return p.job.Phases[0].Climate.changes() && target < 0.15
}

// With constant D the whole is the product of the two series, at any ratio of the two directions: the
// mean as the product of the means, the middle as that of a mean and a middle. Allowed: 1.5 and 2 % of the start,
// what the line's own steps in time and place leave.
func TestEndGrainMeetsTheProductOfSeries(t *testing.T) {
	const half, d = 0.0125, 1e-10
	worst := 0.0
	for _, along := range []float64{2, 10, 40} {
		for _, ratio := range []float64{1, 2, 4, 10, 40} {
			for _, bi := range []float64{1, 20} {
				for _, fo := range []float64{0.05, 0.2, 0.5, 1, 2} {
					film := bi * d / half
					s := Solver{linear: &linearLaw{d: d, along: along * d, coefficient: film}}
					seconds := quantity.Duration(fo * half * half / d)
					c, err := s.Run(context.Background(), &Job{
						Transport: testTransport(t, 0.5), Thickness: 2 * half, Factor: 1, Initial: 1, History: NoHysteresis,
						Phases: []Phase{{Length: seconds, Climate: mustConstant(t, 20, 0.5), Exposure: OpenStack()}},
						Ends:   endsWith(t, 0.5, quantity.Length(2*half*ratio), 0.004, 0.004), Times: []quantity.Duration{seconds}, Setting: Coarse(),
					})
					require.NoError(t, err)
					biAlong, foAlong := bi*ratio/along, fo*along/(ratio*ratio)
					want := seriesMean(bi, fo) * seriesMean(biAlong, foAlong)
					middle := seriesMean(bi, fo) * seriesLocal(biAlong, foAlong, 0)
					got := float64(c.Mean[0])
					assert.InDelta(t, want, got, 0.015, "mean: along %g, ratio %g, Bi %g, Fo %g", along, ratio, bi, fo)
					assert.InDelta(t, middle, got+s.line.behind, 0.02, "middle: along %g, ratio %g, Bi %g, Fo %g", along, ratio, bi, fo)
					worst = math.Max(worst, math.Abs(got-want))
				}
			}
		}
	}
	t.Logf("worst mean %.4f of the start", worst)
}

// A coat divides the loss of the first week as the chapter says, in the line as in the slab laid along the grain; allowed 30 %, as there.
func TestCoatOfEndGrain(t *testing.T) {
	job := seasonJob(t)
	var err error
	job.Transport, err = newTransport(mediumAt(0.5), alongGrain)
	require.NoError(t, err)
	job.Thickness, job.Initial, job.History, job.Times, job.Factor, job.Pace = 1, 0.6, NoHysteresis, nil, 1.1, 0.5
	w := wood.Wood{SpecificGravity: wood.Published(0.5)}
	for _, seal := range []EndSeal{SealedLate, SealedFresh} {
		want, err := endResistance(context.Background(), nil, &job, seal)
		require.NoError(t, err)
		var notes method.Notes
		g, err := NewEndGrain(w, 300*quantity.Millimetre, seal, 1.1, 0.5, &notes)
		require.NoError(t, err)
		t.Logf("%s: %.0f s/m, the slab along the grain %.0f", seal, g.resistance, want)
		assert.InEpsilon(t, want, g.resistance, 0.1)
	}
}

// Ends through which nothing passes change nothing; in air that dries and wets by turns, on the sorption loop, the
// whole is never wetter than start or air make it, and what it lost is what it held.
func TestEndsThatAreClosedChangeNothing(t *testing.T) {
	job := seasonJob(t)
	job.Thickness, job.Factor, job.Pace = 50*quantity.Millimetre, 1, 0.5
	var s, closed, open Solver
	none, err := s.Run(context.Background(), &job)
	require.NoError(t, err)
	job.Ends = endsWith(t, 0.56, 0.3, 0.004, 1e-12)
	shut, err := closed.Run(context.Background(), &job)
	require.NoError(t, err)
	job.Ends = endsWith(t, 0.56, 0.1, 0.004, 0.004)
	bare, err := open.Run(context.Background(), &job)
	require.NoError(t, err)
	assert.Less(t, bare.Imbalance, 1e-9)
	assert.InDelta(t, 0.72, float64(bare.Final+bare.Lost), 1e-9)
	for i := range none.Mean {
		assert.InDelta(t, float64(none.Mean[i]), float64(shut.Mean[i]), 1e-6)
		assert.Less(t, float64(bare.Mean[i]), 0.72)
		assert.Greater(t, float64(bare.Mean[i]), 0.05)
	}
}

func TestEndGrainRefusals(t *testing.T) {
	w := wood.Wood{SpecificGravity: wood.Published(0.5)}
	var notes method.Notes
	_, err := NewEndGrain(w, 5*quantity.Millimetre, BareEnds, 1, 1, &notes)
	_, in := input(t, err)
	assert.Equal(t, "length", in)
	_, err = NewEndGrain(w, 1, "paint", 1, 1, &notes)
	_, in = input(t, err)
	assert.Equal(t, "end_seal", in)
	_, err = NewEndGrain(wood.Wood{SpecificGravity: wood.Published(9)}, 1, BareEnds, 1, 1, &notes)
	_, in = input(t, err)
	assert.Equal(t, "specific_gravity", in)
}

// BenchmarkEndGrain runs the same board without its ends and with them.
func BenchmarkEndGrain(b *testing.B) {
	job := seasonJob(b)
	job.Setting, job.Thickness, job.Pace = Coarse(), 50*quantity.Millimetre, 0.5
	for _, one := range []struct {
		name string
		ends *EndGrain
	}{{"left-out", nil}, {"of-200-mm", endsWith(b, 0.56, 0.2, 0.004, 0.004)}, {"of-1-m", endsWith(b, 0.56, 1, 0.004, 0.004)}} {
		b.Run(one.name, func(b *testing.B) {
			job.Ends = one.ends
			var s Solver
			for b.Loop() {
				_, err := s.Run(context.Background(), &job)
				require.NoError(b, err)
			}
			b.ReportMetric(float64(s.course.Steps+s.course.Rejected), "steps")
		})
	}
}
