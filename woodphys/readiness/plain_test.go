package readiness

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// inputOf is the input that an error names, with its code.
func inputOf(t testing.TB, err error) (string, method.Code) {
	t.Helper()
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	return domain.Input, domain.Code
}

// read are readings that say together how wet a piece is.
func read(t testing.TB, mc, sd quantity.Moisture) moisture.Gathered {
	t.Helper()
	e, err := moisture.Stated(mc, sd)
	require.NoError(t, err)
	g, err := moisture.Gather([]moisture.Estimate{e})
	require.NoError(t, err)
	return g
}

// weighings are a kilogram and less, a week apart.
func weighings(grams ...float64) []moisture.Dated {
	var all []moisture.Dated
	for i, g := range grams {
		all = append(all, moisture.Dated{At: quantity.Duration(7*i) * quantity.Day, Weighing: moisture.Weighing{Mass: quantity.Mass(g) * quantity.Gram, Resolution: quantity.Gram}})
	}
	return all
}

func TestOwnLimitsTakeThePlaceOfTheUsualOnes(t *testing.T) {
	points := func(v float64) *quantity.Moisture {
		m := quantity.Moisture(v) * quantity.PercentMC
		return &m
	}
	rate := 0.002
	own := []OwnLimits{{Step: Resaw, Above: points(6), Gradient: points(0)}, {Step: Glue, Below: points(2), Trend: points(1), Rate: &rate}}
	thick := 50 * quantity.Millimetre
	assert.Equal(t, LimitsFor(Thickness, thick), LimitsOf(Thickness, thick, own), "nothing was said of it")
	usual := LimitsFor(Resaw, thick)
	assert.Equal(t, Limits{Above: *points(6), Below: usual.Below}, LimitsOf(Resaw, thick, own))
	usual = LimitsFor(Glue, thick)
	assert.Equal(t, Limits{Above: usual.Above, Below: *points(2), Gradient: usual.Gradient, Trend: *points(1), Rate: rate}, LimitsOf(Glue, thick, own))
	assert.Equal(t, usual, LimitsFor(Glue, thick), "the usual ones stay")
}

// The target has its own spread only beyond that of all woods; a stated one has none.
func TestTargetOfARest(t *testing.T) {
	stated := TargetOf(quantity.NormalBand(0.09, quantity.Moisture(0)))
	assert.Equal(t, Target{Mean: 0.09}, stated)
	shared := sorption.UncertaintySD(0.09, sorption.Desorption, quantity.Celsius(20))
	drying := TargetOf(quantity.NormalBand(0.09, shared))
	assert.InDelta(t, 0, float64(drying.SD), 1e-7)
	assert.InDelta(t, DefaultWoodShare, drying.WoodShare, 0)
	unknown := TargetOf(quantity.NormalBand(0.09, 2*shared))
	assert.InEpsilon(t, 1.7320508*float64(shared), float64(unknown.SD), 1e-6, "sqrt(2^2 - 1)")
}

// What the last weight says: from a known day, else from the size, else nothing.
func TestWhatTheLastWeightSays(t *testing.T) {
	var none Weighed
	require.NoError(t, none.Check())
	_, said, err := none.Last()
	require.NoError(t, err)
	assert.False(t, said)

	w := Weighed{Weights: weighings(1120, 1060), Known: &KnownDay{Weight: 0, MC: quantity.NormalBand(0.12, quantity.Moisture(0.005))}}
	require.NoError(t, w.Check())
	e, said, err := w.Last()
	require.NoError(t, err)
	assert.True(t, said)
	assert.InDelta(t, 6, e.MC.Value.Percent(), 1e-9, "1 kg ovendry")

	w.Known = nil
	_, said, err = w.Last()
	require.NoError(t, err)
	assert.False(t, said, "nothing is known of its size")
	w.Body = &moisture.Body{Mass: w.Weights[1].Mass, Volume: quantity.Volume(0.0017), SpecificGravity: 0.56}
	w.BodyNotes.Warn(method.Warning{Code: method.Recalled, Input: "specific_gravity"})
	e, said, err = w.Last()
	require.NoError(t, err)
	assert.True(t, said)
	assert.Greater(t, e.SD, 10*quantity.PercentMC, "the density of a wood tells little")
	assert.Equal(t, method.Recalled, e.Notes.Warnings[0].Code, "what is told of its figures comes first")
}

func TestWeightsThatContradict(t *testing.T) {
	known := KnownDay{Weight: 0, MC: quantity.NormalBand(0.12, quantity.Moisture(0.005))}
	w := Weighed{Known: &known}
	in, code := inputOf(t, w.Check())
	assert.Equal(t, "weights", in)
	assert.Equal(t, method.Missing, code)

	known.Weight = -1
	w.Weights = weighings(1120)
	in, code = inputOf(t, w.Check())
	assert.Equal(t, "known/date", in)
	assert.Equal(t, method.Contradictory, code)

	w.Body = &moisture.Body{Mass: 50, Volume: quantity.Volume(0.0017), SpecificGravity: 0.56}
	in, code = inputOf(t, w.Check())
	assert.Equal(t, "mass", in, "no piece of this size weighs so much")
	assert.Equal(t, method.Contradictory, code)
}

func TestGuessedBody(t *testing.T) {
	w := wood.Wood{SpecificGravity: wood.Published(0.56), Volumetric: wood.Published(0.14), FibreSaturation: 0.3}
	green, err := GuessedBody("billet", 0.01, &w, 0.3)
	require.NoError(t, err)
	assert.InDelta(t, 5.6, float64(green.Ovendry), 0.01, "basic density over green volume")
	dry, err := GuessedBody("billet", 0.01, &w, 0)
	require.NoError(t, err)
	assert.InDelta(t, 5.6/(1-0.14), float64(dry.Ovendry), 0.01, "the same volume, shrunk, holds more")
	assert.InDelta(t, 0.105, dry.OvendrySD, 0)
	assert.Equal(t, 1*quantity.PercentMC, SampleBoard().Differs)
	_, err = GuessedBody("billet", 0.01, &wood.Wood{}, 0.1)
	in, _ := inputOf(t, err)
	assert.Equal(t, "specific_gravity", in)
}

// The trend is that of the last five weights; fewer than three have none.
func TestSee(t *testing.T) {
	few, err := See(read(t, 0.12, 0.01), weighings(1120, 1110))
	require.NoError(t, err)
	assert.Nil(t, few.Trend)
	assert.Equal(t, 2, few.Weights)

	falling := weighings(1500, 1400, 1300, 1100, 1100, 1100, 1100, 1100)
	rest, err := See(read(t, 0.10, 0.01), falling)
	require.NoError(t, err)
	require.NotNil(t, rest.Trend)
	assert.InDelta(t, 0, rest.Trend.MassPerDay.Value, 1e-12, "what fell before is not looked at")
	assert.InDelta(t, 28, rest.Trend.Span.Days(), 1e-9)

	falling[5].Mass = 0
	_, err = See(read(t, 0.10, 0.01), falling)
	in, _ := inputOf(t, err)
	assert.Equal(t, "weights/5/mass", in, "counted in the list given")

	_, err = See(moisture.Gathered{}, nil)
	in, code := inputOf(t, err)
	assert.Equal(t, "estimates", in)
	assert.Equal(t, method.Missing, code)
}

// kindsOf are the kinds of wants.
func kindsOf(list []Want) (kinds []WantKind) {
	for _, w := range list {
		kinds = append(kinds, w.Kind)
	}
	return kinds
}

// What is wanted follows from the criterion that is not met, and each is told once.
func TestWants(t *testing.T) {
	maple := wood.Wood{Radial: wood.Published(0.048), Tangential: wood.Published(0.099), FibreSaturation: 0.3}
	gradient := func(points, sd float64) *moisture.Gradient {
		return &moisture.Gradient{CoreMinusShell: quantity.NormalBand(quantity.Moisture(points)*quantity.PercentMC, 0), SD: quantity.Moisture(sd) * quantity.PercentMC}
	}
	for name, c := range map[string]struct {
		mc, sd   quantity.Moisture
		gradient *moisture.Gradient
		weights  []moisture.Dated
		want     []WantKind
	}{
		"wet, nothing else known": {0.20, 0.005, nil, nil, []WantKind{WantTime, WantTwoDepths, WantWeights}},
		"drier than the room":     {0.02, 0.002, gradient(0, 0.1), weighings(1020, 1020, 1020), []WantKind{WantMoisture}},
		"hardly known":            {0.09, 0.02, gradient(0, 0.1), weighings(1090, 1090, 1090), []WantKind{WantSample}},
		"wet inside":              {0.09, 0.001, gradient(6, 0.1), weighings(1090, 1090, 1090), []WantKind{WantEven}},
		"wet inside, perhaps":     {0.09, 0.001, gradient(2, 2), weighings(1090, 1090, 1090), []WantKind{WantSplitSample}},
		"losing weight":           {0.09, 0.001, gradient(0, 0.1), weighings(1140, 1115, 1090), []WantKind{WantMoreWeighing}},
		"at rest":                 {0.09, 0.001, gradient(0, 0.1), weighings(1090, 1090, 1090), nil},
	} {
		seen, err := See(read(t, c.mc, c.sd), c.weights)
		require.NoError(t, err, name)
		seen.Gradient = c.gradient
		a, err := JudgePlain(&PlainQuestion{Billet: Billet{Wood: maple, Width: 0.2, Thickness: 0.05}, Seen: seen, Target: quantity.NormalBand(0.09, quantity.Moisture(0.001))})
		require.NoError(t, err, name)
		assert.Equal(t, c.want, kindsOf(a.Wants), name)
		require.Len(t, a.Verdicts, len(Steps()), name)
		for i, step := range Steps() {
			assert.Equal(t, step, a.Verdicts[i].Step)
			assert.Equal(t, c.want == nil, a.Verdicts[len(Steps())-1].Outcome == Ready, name)
		}
		for _, w := range a.Wants {
			switch w.Kind {
			case WantSample:
				assert.Equal(t, c.sd, w.SD)
				assert.Equal(t, 300*quantity.Millimetre, w.FromEnd)
			case WantWeights:
				assert.Equal(t, max(1, 3-len(c.weights)), w.More)
			case WantTarget, WantTime, WantRoom, WantMoisture, WantTwoDepths, WantSplitSample, WantEven, WantAgain, WantMoreWeighing:
			}
		}
	}
}

// A sample is wanted of wood that is known worse than its target, and never of wood that is known
// better: no sample tells where wood comes to rest.
func TestNoSampleIsWantedForTheTarget(t *testing.T) {
	for _, sd := range []quantity.Moisture{0.002, 0.004, 0.008, 0.02} {
		seen, err := See(read(t, 0.1, sd), weighings(1090, 1090, 1090))
		require.NoError(t, err)
		a, err := JudgePlain(&PlainQuestion{Billet: Billet{Wood: wood.Wood{Radial: wood.Published(0.048), Tangential: wood.Published(0.099), FibreSaturation: 0.3},
			Width: 0.2, Thickness: 0.05}, Seen: seen, Target: quantity.NormalBand(0.09, quantity.Moisture(0.006))})
		require.NoError(t, err)
		want := map[bool]WantKind{true: WantSample, false: WantTarget}[sd > 0.006]
		assert.Contains(t, kindsOf(a.Wants), want, "%g", sd)
		assert.NotContains(t, kindsOf(a.Wants), map[WantKind]WantKind{WantSample: WantTarget, WantTarget: WantSample}[want], "%g", sd)
	}
}

// A billet of unknown rings is shown quartersawn and flatsawn; what the wood lacks is left
// out and said to be lacking.
func TestSettle(t *testing.T) {
	maple := wood.Wood{Radial: wood.Published(0.048), Tangential: wood.Published(0.099), FibreSaturation: 0.3}
	b := Billet{Wood: maple, Width: 0.2, Thickness: 0.05, Weighing: &moisture.Weighing{Mass: 1.12, Resolution: 0.001}}
	now, target := quantity.NormalBand(0.12, quantity.Moisture(0.01)), quantity.NormalBand(0.08, quantity.Moisture(0.005))
	s, err := b.Settle(now, 0.01, target)
	require.NoError(t, err)
	require.Len(t, s.Moves, 4)
	byName := map[string]Move{}
	for _, m := range s.Moves {
		byName[string(m.Rings)+" "+m.Dimension] = m
		assert.False(t, m.Lacking)
		assert.Negative(t, float64(m.Change.Value), "it dries")
	}
	quarter, flat := byName["if_quartersawn width"], byName["if_flatsawn width"]
	assert.InEpsilon(t, 0.099/0.048, float64(flat.Change.Value/quarter.Change.Value), 0.05, "tangential over radial; shares of the size, which shrinks")
	assert.InEpsilon(t, 0.099/0.048, float64(byName["if_quartersawn thickness"].Change.Value/byName["if_flatsawn thickness"].Change.Value), 0.05)
	require.NotNil(t, s.Weight)
	assert.InDelta(t, 1.08, float64(s.Weight.Mass.Value), 1e-9)
	assert.InDelta(t, 1, float64(s.Weight.Ovendry), 1e-9)

	angle := quantity.Angle(0)
	b.RingAngle, b.Weighing = &angle, nil
	b.Wood = wood.Wood{Tangential: wood.Published(0.099), FibreSaturation: 0.3}
	s, err = b.Settle(now, 0.01, target)
	require.NoError(t, err)
	require.Len(t, s.Moves, 2)
	assert.Equal(t, RingsAsGiven, s.Moves[0].Rings)
	assert.Equal(t, flat.Change.Value, s.Moves[0].Change.Value)
	assert.True(t, s.Moves[1].Lacking, "nothing is known of its radial shrinkage")
	assert.Nil(t, s.Weight)

	b.Weighing = &moisture.Weighing{Mass: 0}
	_, err = b.Settle(now, 0.01, target)
	in, _ := inputOf(t, err)
	assert.Equal(t, "weight/mass", in)
	b.Width = 0
	_, err = b.Settle(now, 0.01, target)
	in, _ = inputOf(t, err)
	assert.Equal(t, "dimension", in)
}
