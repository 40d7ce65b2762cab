package readiness

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func TestLearnRefuses(t *testing.T) {
	nan := quantity.Moisture(math.NaN())
	sound := Observation{Kind: Sample, At: 10 * quantity.Day, MC: 0.6, SD: 0.02}
	for input, spoil := range map[string]func(*Setup, *Observation){
		"drying_factor":          func(s *Setup, _ *Observation) { s.Factor = math.NaN() },
		"drying_factor_log_sd":   func(s *Setup, _ *Observation) { s.FactorLogSD = -0.1 },
		"start_mc_pct":           func(s *Setup, _ *Observation) { s.StartMC = nan },
		"start_sd_pct":           func(s *Setup, _ *Observation) { s.StartSD = 0.6 },
		"emc_factor":             func(s *Setup, _ *Observation) { s.Wood.EMCFactor = 3 },
		"emc_log_sd":             func(s *Setup, _ *Observation) { s.EMCLogSD = math.Inf(1) },
		"members":                func(s *Setup, _ *Observation) { s.Members = 5000 },
		"points":                 func(s *Setup, _ *Observation) { s.Points = 5 },
		"discrepancy_sd_pct":     func(s *Setup, _ *Observation) { s.Discrepancy.SD = nan },
		"discrepancy_days":       func(s *Setup, _ *Observation) { s.Discrepancy.Time = -1 },
		"thickness":              func(s *Setup, _ *Observation) { s.Thickness = 0 },
		"specific_gravity":       func(s *Setup, _ *Observation) { s.Wood.SpecificGravity.Value = 0 },
		"phases":                 func(s *Setup, _ *Observation) { s.Phases = nil },
		"phases/0/climate":       func(s *Setup, _ *Observation) { s.Phases[0].Climate = nil },
		"exact/0":                func(s *Setup, _ *Observation) { s.Exact = []quantity.Duration{quantity.Duration(math.NaN())} },
		"bodies":                 func(s *Setup, _ *Observation) { s.Bodies = make([]Body, 30) },
		"bodies/0/ovendry_mass":  func(s *Setup, _ *Observation) { s.Bodies = []Body{{Ovendry: -1}} },
		"meters/1/bias_sd_pct":   func(s *Setup, _ *Observation) { s.Meters = []Meter{{}, {BiasSD: nan}} },
		"observations/0/at_days": func(_ *Setup, o *Observation) { o.At = quantity.Duration(math.NaN()) },
		"observations/0/mc_pct":  func(_ *Setup, o *Observation) { o.MC = nan },
		"observations/0/sd_pct":  func(_ *Setup, o *Observation) { o.SD = 0 },
		"observations/0/kind":    func(_ *Setup, o *Observation) { o.Kind = "guess" },
		"observations/0/part":    func(_ *Setup, o *Observation) { o.Part = "bark" },
		"observations/0/body":    func(_ *Setup, o *Observation) { o.Body = 1 },
		"observations/0/meter":   func(_ *Setup, o *Observation) { o.Kind, o.Meter = Pin, 2 },
		"observations/0/depth":   func(_ *Setup, o *Observation) { o.DepthKnown, o.Depth = true, math.NaN() },
		"observations/0/mass":    func(_ *Setup, o *Observation) { o.Kind = Weight },
		"observations/0/mass_resolution": func(_ *Setup, o *Observation) {
			o.Kind, o.Weighing = Weight, moisture.Weighing{Mass: 1, Resolution: 2}
		},
	} {
		s, o := quick(t), sound
		spoil(&s, &o)
		_, err := Learn(context.Background(), s, []Observation{o})
		var domain *method.Error
		require.ErrorAs(t, err, &domain, input)
		assert.Equal(t, input, domain.Input)
		assert.NotEmpty(t, domain.Detail)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := Learn(ctx, quick(t), nil)
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, method.Stopped, domain.Code)
	_, err = Learn(context.Background(), quick(t), make([]Observation, mostGiven+1))
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, method.TooMuchWork, domain.Code)
}

func TestQuestionsRefused(t *testing.T) {
	p, err := Learn(context.Background(), quick(t), nil)
	require.NoError(t, err)
	limits := DefaultLimits(Resaw)
	day := quantity.Day
	nan := quantity.Duration(math.NaN())
	for input, ask := range map[string]func() error{
		"at_days":      func() error { _, err := p.Now(nan); return err },
		"times/1":      func() error { _, err := p.Course([]quantity.Duration{0, 9999 * day}); return err },
		"times":        func() error { _, err := p.Course(make([]quantity.Duration, 500)); return err },
		"target_pct":   func() error { _, _, err := p.Judge(Resaw, limits, Target{}, 0); return err },
		"wood_share":   func() error { _, err := p.ReadyDate(limits, Target{Mean: 0.08, WoodShare: 2}, 0, 0); return err },
		"above_pct":    func() error { _, err := p.ReadyDate(Limits{Above: -1}, room(), 0, 0); return err },
		"horizon_days": func() error { _, err := p.ReadyDate(limits, room(), 0, nan); return err },
		"candidates/0/after_days": func() error {
			_, err := p.NextReading(limits, room(), 0, Candidate{Kind: Sample, SD: 0.01, After: nan})
			return err
		},
		"candidates/0/sd_pct": func() error { _, err := p.NextReading(limits, room(), 0, Candidate{Kind: Sample}); return err },
		"candidates/0/kind":   func() error { _, err := p.NextReading(limits, room(), 0, Candidate{SD: 0.01}); return err },
		"candidates/1/body": func() error {
			_, err := p.NextReading(limits, room(), 0, Candidate{Kind: Sample, SD: 0.01}, Candidate{Kind: Weight})
			return err
		},
	} {
		var domain *method.Error
		require.ErrorAs(t, ask(), &domain, input)
		assert.Equal(t, input, domain.Input)
	}
}

func TestPriorAloneIsSaid(t *testing.T) {
	p, err := Learn(context.Background(), quick(t), nil)
	require.NoError(t, err)
	assert.Equal(t, FromPriorOnly, p.Method)
	said := false
	for _, w := range p.Notes.Warnings {
		said = said || strings.Contains(w.Detail, "no reading of this piece")
	}
	assert.True(t, said)
	assert.InEpsilon(t, 0.5, p.Factor.Value, 0.03)
	assert.InEpsilon(t, 0.5*math.Exp(quantity.Z90*wholeFactor*DefaultFactorLogSD), p.Factor.High, 0.06)
	assert.False(t, p.OvendryKnown[0])
	// the whole prior: the band of the factor is that of the setup
	a, err := p.NextReading(DefaultLimits(Resaw), room(), 100*quantity.Day)
	require.NoError(t, err)
	for _, o := range a.Options {
		assert.NotEqual(t, Weight, o.Kind, "a first weight without an ovendry mass tells nothing")
	}
}

func TestMeterAboveFibreSaturationIsLeftOut(t *testing.T) {
	s := quick(t)
	p, err := Learn(context.Background(), s, []Observation{{Kind: Pin, At: 5 * quantity.Day, MC: 0.4, SD: 0.03}})
	require.NoError(t, err)
	assert.Equal(t, []int{0}, p.Ignored)
	assert.Zero(t, p.Used)
	found := false
	for _, w := range p.Notes.Warnings {
		found = found || w.Code == method.OutsideFitted && w.Input == "observations/0/mc_pct"
	}
	assert.True(t, found)
}

func TestManyReadingsAreThinned(t *testing.T) {
	s := quick(t)
	s.Members = 32
	var days []float64
	for i := range 260 {
		days = append(days, float64(i))
	}
	p, err := Learn(context.Background(), s, series(t, s, point{0, math.Log(0.55), 0.7}, 900, days...))
	require.NoError(t, err)
	assert.Equal(t, mostReadings, p.Used)
	assert.Equal(t, 60, p.Thinned)
	assert.InEpsilon(t, 0.55, p.Factor.Value, 0.3)
}

// A piece that is far from what was said of it: the answer follows the readings and warns.
func TestStrainIsSaid(t *testing.T) {
	s := quick(t)
	p, err := Learn(context.Background(), s, series(t, s, point{0, math.Log(0.5) - 6*DefaultFactorLogSD, 0.7}, 900, 0, 20, 40, 60, 90, 120, 150, 200))
	require.NoError(t, err)
	assert.Less(t, p.Factor.Value, 0.4, "the middle of the prior is 0.5, and the pace takes its part")
	assert.Less(t, p.Pace.Value, 0.95, "that of the prior is 1")

	s.StartSD = 0.01
	p, err = Learn(context.Background(), s, []Observation{{Kind: Sample, At: 0, MC: 0.3, SD: 0.006}, {Kind: Sample, At: 5 * quantity.Day, MC: 0.27, SD: 0.006}})
	require.NoError(t, err)
	said := false
	for _, w := range p.Notes.Warnings {
		said = said || w.Code == method.Disagreement
	}
	assert.True(t, said, "%v %v", p.StartMC, p.Contradictions)
	assert.Empty(t, p.Contradictions)
	now, err := p.Now(0)
	require.NoError(t, err)
	assert.InDelta(t, 30, now.Mean.Value.Percent(), 6)
}

func TestEveryRowIsListed(t *testing.T) {
	ids := map[string]bool{}
	for _, row := range Methods() {
		assert.False(t, ids[row.ID], row.ID)
		ids[row.ID] = true
		assert.Equal(t, "readiness", row.Chapter)
		for _, text := range []string{row.Summary, row.Equation, row.Accuracy, row.Source, string(row.Checked)} {
			assert.NotEmpty(t, text, row.ID)
		}
		for _, in := range row.Inputs {
			assert.LessOrEqual(t, in.Limit.Low, in.Fitted.Low, "%s %s", row.ID, in.Name)
			assert.GreaterOrEqual(t, in.Limit.High, in.Fitted.High, "%s %s", row.ID, in.Name)
		}
	}
}

func TestObservationOfEstimate(t *testing.T) {
	e := moisture.Estimate{MC: quantity.NormalBand[quantity.Moisture](0.12, 0.0175), SD: 0.0175, Place: moisture.Core}
	o := ObservationOf(e, 5*quantity.Day, 1)
	assert.Equal(t, Pin, o.Kind)
	assert.Equal(t, 1, o.Meter)
	assert.Equal(t, moisture.Core, o.Part)
	bias, single := MeterBias(0.0175)
	assert.InDelta(t, 0.0175, math.Hypot(float64(bias), float64(single)), 1e-12)
	assert.Equal(t, single, o.SD)
	assert.Equal(t, Sample, ObservationOf(e, 0, -1).Kind)
}
