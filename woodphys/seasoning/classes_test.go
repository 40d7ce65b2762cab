package seasoning_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// listed is a wood of the tables, as far as drying asks for it.
func listed(t *testing.T, id string) wood.Wood {
	t.Helper()
	tables, err := species.Default()
	require.NoError(t, err)
	row, ok := tables.Wood(id)
	require.True(t, ok, id)
	figure := func(v species.Value, scale float64) wood.Figure {
		number, known := v.Get()
		return wood.Figure{Value: number * scale, Known: known}
	}
	factor, _ := row.DryingFactor.Factor.Get()
	return wood.Wood{
		SpecificGravity: figure(row.SpecificGravityGreen, 1), Radial: figure(row.Radial, 0.01), Tangential: figure(row.Tangential, 0.01),
		FibreSaturation: quantity.Moisture(row.FibreSaturation.Or(0) / 100), SafeDailyLoss: quantity.Moisture(row.SafeLoss.Or(0) / 100),
		Pace: wood.Pace{Factor: factor, Misfit: row.DryingFactor.Misfit}, Green: 0.75,
	}
}

// In the open at Madison oaks check in July and not in January, thick ones sooner than thin
// ones; woods that dry fast without harm are not warned of as oaks are.
func TestChecksByWoodSeasonAndThickness(t *testing.T) {
	if testing.Short() {
		t.Skip("dries many boards")
	}
	risk := func(id string, mm, day float64) drying.CheckRisk {
		p := seasoning.Piece{Wood: listed(t, id), Thickness: quantity.Length(mm) * quantity.Millimetre, RingAngle: drying.UsualRingAngle,
			Phases: []drying.Phase{{Length: 400 * quantity.Day, Climate: station(t, "madison-wi", day), Exposure: drying.OpenStack()}}}
		r, known, err := foresee(t, p).SurfaceChecks(t.Context())
		require.NoError(t, err)
		require.True(t, known, id)
		t.Logf("%s %v mm, day %v: %.2f of the safe loss, fast %.2f, %s", id, mm, day, r.Ratio, r.Fast, r.Severity)
		return r
	}
	const january, july = 0, 181
	for _, oak := range []string{"oak-northern-red", "oak-white"} {
		assert.Equal(t, drying.RiskHigh, risk(oak, 25, july).Severity, oak)
		assert.Equal(t, drying.RiskLow, risk(oak, 25, january).Severity, oak)
		assert.Greater(t, risk(oak, 50, july).Ratio, risk(oak, 25, july).Ratio)
	}
	for _, easy := range []string{"basswood-american", "yellow-poplar", "walnut-black", "maple-red", "ash-white"} {
		assert.NotEqual(t, drying.RiskHigh, risk(easy, 25, july).Severity, easy)
		assert.Equal(t, drying.RiskLow, risk(easy, 25, january).Severity, easy)
	}
	assert.Less(t, risk("basswood-american", 25, july).Ratio, 0.75*risk("oak-northern-red", 25, july).Ratio)
}

// dried is the forecast of a piece in some phases.
func dried(t *testing.T, p *seasoning.Piece) *seasoning.Answer {
	t.Helper()
	rest, err := (&seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.45}).For(p.Start.MC, 0, sorption.CurvesOf(&p.Wood))
	require.NoError(t, err)
	a, err := seasoning.Forecast(t.Context(), &seasoning.Question{Piece: *p, Rest: rest})
	require.NoError(t, err)
	return a
}

// Harms by the class of the wood and by where it dries: a rack that is aired in spring grows no
// mould, film does; heat harms woods the sooner the slower they dry, and softwoods not.
func TestHarmsByClassAndExposure(t *testing.T) {
	harms := func(ease wood.Ease, listing wood.Listing, mm float64, phases ...drying.Phase) map[seasoning.DefectKind]bool {
		p := board(t)
		p.Wood.Ease, p.Wood.Listing, p.Thickness = ease, listing, quantity.Length(mm)*quantity.Millimetre
		p.Start, p.Phases = seasoning.Start{MC: 0.75, SD: 0.08}, phases
		list := map[seasoning.DefectKind]bool{}
		for _, d := range dried(t, &p).Defects {
			list[d.Kind] = true
		}
		return list
	}
	outdoors := func(day float64, e drying.Exposure) drying.Phase {
		return drying.Phase{Length: 400 * quantity.Day, Climate: station(t, "madison-wi", day), Exposure: e}
	}
	air := func(celsius, rh float64, e drying.Exposure) drying.Phase {
		climate, err := drying.Constant(quantity.Celsius(celsius), rh)
		require.NoError(t, err)
		return drying.Phase{Length: 400 * quantity.Day, Climate: climate, Exposure: e}
	}
	const april = 90
	aired := harms(wood.Moderate, wood.ListedHardwood, 25, outdoors(april, drying.Shed()))
	for _, kind := range []seasoning.DefectKind{seasoning.Mould, seasoning.Decay, seasoning.Honeycomb, seasoning.Collapse, seasoning.Casehardening} {
		assert.False(t, aired[kind], "25 mm on stickers in a shed: %s", kind)
	}
	film := harms(wood.Moderate, wood.ListedHardwood, 25, outdoors(april, drying.Wrapped()))
	assert.True(t, film[seasoning.Mould] && film[seasoning.Stain] && film[seasoning.Decay] && film[seasoning.Insects], "in film: %v", film)
	room := harms(wood.Refractory, wood.ListedHardwood, 50, air(20, 0.45, drying.ClosedRoom()))
	assert.False(t, room[seasoning.Honeycomb] || room[seasoning.Collapse] || room[seasoning.Mould], "thick oak in a room: %v", room)
	for _, c := range []struct {
		ease    wood.Ease
		listing wood.Listing
		mm      float64
		celsius float64
		harmed  bool
	}{
		{wood.Refractory, wood.ListedHardwood, 27, 43, false}, {wood.Refractory, wood.ListedHardwood, 27, 50, true},
		{wood.Refractory, wood.ListedHardwood, 52, 44, true}, {wood.Moderate, wood.ListedHardwood, 27, 54, false},
		{wood.Moderate, wood.ListedHardwood, 27, 60, true}, {wood.Easy, wood.ListedHardwood, 27, 70, false},
		{wood.Moderate, wood.ListedSoftwood, 27, 70, false},
	} {
		hot := harms(c.ease, c.listing, c.mm, air(c.celsius, 0.6, drying.Kiln()))
		assert.Equal(t, c.harmed, hot[seasoning.Honeycomb], "%v", c)
		assert.False(t, hot[seasoning.Mould] || hot[seasoning.Insects], "hot: %v", c)
	}
}

// The days until mould is seen, as the model of 1999 has them for pine: none below 80 % and in
// frost, about eight weeks at 20 C and 90 %, sooner where it is damper or warmer.
func TestMouldAsPublished(t *testing.T) {
	for _, c := range []struct{ celsius, rh, days float64 }{{20, 0.90, 58}, {20, 0.97, 22}, {10, 0.90, 96}} {
		// ln t_v = -0.74 ln T - 12.72 ln RH + 61.50, in weeks
		want := 7 * math.Exp(-0.74*math.Log(c.celsius)-12.72*math.Log(100*c.rh)+61.50)
		assert.InDelta(t, want, 1/seasoning.MouldPerDay(c.celsius, c.rh), 1e-6*want)
		assert.InDelta(t, c.days, want, 0.2*c.days, "%v", c)
	}
	for _, c := range [][2]float64{{20, 0.79}, {10, 0.81}, {-1, 0.97}, {50, 0.97}} {
		assert.Zero(t, seasoning.MouldPerDay(c[0], c[1]), "%v", c)
	}
	assert.Greater(t, seasoning.MouldPerDay(20, 0.95), seasoning.MouldPerDay(20, 0.90))
	assert.Greater(t, seasoning.MouldPerDay(25, 0.90), seasoning.MouldPerDay(15, 0.90))
}

// A schedule is laid out by the middle forecast, and what it leaves in the skin follows from
// its end: nothing, too little, enough, or too much conditioning.
func TestSchedules(t *testing.T) {
	p := board(t)
	p.Thickness, p.Start = 25.4*quantity.Millimetre, seasoning.Start{MC: 0.70, SD: 0.05}
	step := func(kind seasoning.StepKind, celsius, rh, days float64) seasoning.Step {
		return seasoning.Step{Kind: kind, Temperature: quantity.Celsius(celsius), RH: rh, Length: quantity.Duration(days) * quantity.Day}
	}
	wet := step(seasoning.DryingStep, 45, 0.75, 0)
	wet.Until = 0.35
	dry := step(seasoning.DryingStep, 65, 0.25, 0)
	dry.Until = 0.08
	equalizing := step(seasoning.Equalizing, 65, 0.35, 1)
	run := func(steps ...seasoning.Step) *seasoning.Answer {
		before := []drying.Phase{{Length: 10 * quantity.Day, Climate: shop(t, 0.6), Exposure: drying.ClosedRoom()}}
		k, err := p.Run(t.Context(), before, steps, drying.Kiln())
		require.NoError(t, err)
		assert.InDelta(t, 10, k.Begin.Days(), 1e-9)
		piece := p
		piece.Kilns = []seasoning.Kiln{*k}
		piece.Phases = []drying.Phase{before[0], {Length: k.End() - k.Begin, Climate: k.Air, Exposure: drying.Kiln()},
			{Length: 300 * quantity.Day, Climate: shop(t, 0.45), Exposure: drying.ClosedRoom()}}
		return dried(t, &piece)
	}
	conditioning := func(hours float64) seasoning.Step { return step(seasoning.Conditioning, 65, 0.80, hours/24) }
	for name, c := range map[string]struct {
		state seasoning.CaseState
		steps []seasoning.Step
	}{
		"none":     {seasoning.CaseLikely, []seasoning.Step{wet, dry, equalizing}},
		"short":    {seasoning.CasePartly, []seasoning.Step{wet, dry, equalizing, conditioning(6)}},
		"enough":   {seasoning.CaseRelieved, []seasoning.Step{wet, dry, equalizing, conditioning(20)}},
		"too long": {seasoning.CaseReversed, []seasoning.Step{wet, dry, equalizing, conditioning(90)}},
		"too dry":  {seasoning.CaseLikely, []seasoning.Step{wet, dry, equalizing, step(seasoning.Conditioning, 65, 0.45, 1)}},
		"too cool": {seasoning.CaseLikely, []seasoning.Step{wet, dry, equalizing, step(seasoning.Conditioning, 30, 0.85, 1)}},
		"undone":   {seasoning.CaseLikely, []seasoning.Step{wet, conditioning(20), dry}},
		"mild":     {seasoning.CaseFree, []seasoning.Step{step(seasoning.DryingStep, 25, 0.6, 60)}},
	} {
		a := run(c.steps...)
		require.NotNil(t, a.Stress, name)
		assert.Equal(t, c.state, a.Stress.State, "%s: %+v", name, a.Stress)
		told := false
		for _, d := range a.Defects {
			told = told || d.Kind == seasoning.Casehardening
		}
		assert.Equal(t, c.state == seasoning.CaseLikely || c.state == seasoning.CasePartly, told, name)
		assert.InDelta(t, 20, a.Stress.Hours, 0.5, name)
	}
	k, err := p.Run(t.Context(), nil, []seasoning.Step{wet, dry}, drying.Kiln())
	require.NoError(t, err)
	t.Logf("70 to 35 %% in %.1f days, on to 8 %% in %.1f", k.Steps[0].Length.Days(), k.Steps[1].Length.Days())
	assert.Positive(t, float64(k.Steps[0].Length))
	assert.InDelta(t, k.End().Days(), (k.Steps[0].Length + k.Steps[1].Length).Days(), 1e-9)

	damp := step(seasoning.DryingStep, 45, 0.75, 0)
	damp.Until = 0.05
	_, err = p.Run(t.Context(), nil, []seasoning.Step{wet, damp}, drying.Kiln())
	require.ErrorContains(t, err, "does not come down to 5 %")
}
