package movement_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// tangentialStrain is the strain of a flatsawn board.
func tangentialStrain(t *testing.T, from, to band, w wood.Wood) movement.Strain {
	t.Helper()
	s, err := movement.StrainsBetween(&method.Notes{}, from, to, &w)
	require.NoError(t, err)
	return s.Tangential
}

// variance of the 90 % band.
func variance(s movement.Strain) float64 {
	return s.Piece*s.Piece + s.Form*s.Form + s.From*s.From + s.To*s.To
}

// What the total shrinkage is unsure of widens the band by as much as the answer moves when
// the figure does, whatever else is known of the wood.
func TestAnUnsureFigureWidensAsItMoves(t *testing.T) {
	const s, share, step = 0.08, 0.03, 1e-5
	for name, also := range map[string]func(w *wood.Wood){
		"alone":        func(*wood.Wood) {},
		"coefficient":  func(w *wood.Wood) { w.CoefficientTangential = wood.Published(0.0030) },
		"differential": func(w *wood.Wood) { w.DifferentialTangential = wood.Published(0.0036) },
		"all": func(w *wood.Wood) {
			w.CoefficientTangential, w.DifferentialTangential = wood.Published(0.0030), wood.Published(0.0036)
		},
	} {
		of := func(s, sd float64) wood.Wood {
			w := wood.Wood{Radial: wood.Published(0.04), Tangential: wood.Figure{Value: s, Known: true, SD: sd}, FibreSaturation: 0.30}
			also(&w)
			return w
		}
		for _, mc := range []float64{2, 8, 14, 18, 27} {
			from, to := exact(40), exact(mc)
			sure, unsure := tangentialStrain(t, from, to, of(s, 0)), tangentialStrain(t, from, to, of(s, s*share))
			slope := (tangentialStrain(t, from, to, of(s*(1+step), 0)).Value - sure.Value) / step
			assert.InDelta(t, math.Abs(slope)*share, math.Sqrt(variance(unsure)-variance(sure)), 0.06*s*share, "%s, to %v", name, mc)
		}
	}
}

// Coefficients were made from the total shrinkage of the same pieces, C = 1/(100 F/S - F + 10)
// with F 30: such a coefficient says nothing new, however the wood shrinks by other tables.
func TestASecondWordOfTheSamePiecesCountsOnce(t *testing.T) {
	const s = 0.08
	w := wood.Wood{Radial: wood.Published(s), Tangential: wood.Published(s), DifferentialTangential: wood.Published(0.0038), FibreSaturation: 0.30}
	alone := tangentialStrain(t, exact(14), exact(7), w)
	w.CoefficientTangential = wood.Published(1 / (100*30/(100*s) - 30 + 10))
	both := tangentialStrain(t, exact(14), exact(7), w)
	assert.InDelta(t, alone.Value, both.Value, 1e-12)
	assert.InDelta(t, alone.Form, both.Form, 1e-12)
}

// Of two figures that differ the better known one counts for more, each by the inverse of
// its variance, and 90 % of the error of the forms reaches to the one that lies further off.
func TestFormsCountByWhatTheyAreSureOf(t *testing.T) {
	const s, q = 0.08, 0.0040
	line := math.Hypot(0.21, 5.0/30/quantity.Z90)
	atStart := s / 30                      // of the green dimension, for a point
	inUse := q * (1 - s) / (1 - 100*q*.12) // q counts on the dimension at 12 %MC
	rate := (atStart/(line*line) + inUse/(0.12*0.12)) / (1/(line*line) + 1/(0.12*0.12))
	w := wood.Wood{Radial: wood.Published(s), Tangential: wood.Published(s), DifferentialTangential: wood.Published(q), FibreSaturation: 0.30}
	got := tangentialStrain(t, exact(12), exact(11), w)
	present := 1 - s + 12*rate // the size at 12 %MC
	assert.InDelta(t, -rate/present, got.Value, 1e-12)
	furthest := math.Max(math.Abs(atStart/rate-1), inUse/rate-1)
	assert.InEpsilon(t, rate/present*furthest/quantity.Z90, math.Abs(got.Form), 0.1)
}

// Where trees were measured, pieces vary as the trees do. From the moisture contents alone
// the spread is that of the straight line, and the piece adds its share of the product.
func TestPiecesVaryAsTheTrees(t *testing.T) {
	const s, trees = 0.09, 0.5
	w := wood.Wood{
		Radial: wood.Published(0.06), Tangential: wood.Published(s), FibreSaturation: 0.30,
		SwellingVolumetric: wood.Figure{Value: 0.15 / 30, Known: true, SD: trees * 0.15 / 30}, // as the line from 30 %MC
	}
	u := 1.75 / 30
	sure, unsure := tangentialStrain(t, exact(9), exact(9), w), tangentialStrain(t, about(9, 1.75), about(9, 1.75), w)
	r := 1 - s*21/30
	assert.InEpsilon(t, 2*u*u*(s*s/(r*r)+trees*trees*s*s/(r*r*r*r)), variance(unsure)-variance(sure), 0.01, "no change")
	sure, unsure = tangentialStrain(t, exact(60), exact(9), w), tangentialStrain(t, exact(60), about(9, 1.75), w)
	assert.InEpsilon(t, u*u*s*s*(1+trees*trees), variance(unsure)-variance(sure), 0.01, "from green")
}

// A ring angle that is not known well shrinks in the mean as the mean of its squared cosine.
func TestMeanOfAnUncertainRingAngle(t *testing.T) {
	w := wood.Wood{Tangential: wood.Published(0.10), Radial: wood.Published(0.04), FibreSaturation: 0.30}
	middle := func(d movement.Direction) float64 {
		m, err := movement.Change(1, d, exact(14), exact(6), w)
		require.NoError(t, err)
		return float64(m.Strain.Low+m.Strain.High) / 2
	}
	for _, c := range []struct{ angle, sd float64 }{{0, 10}, {0, 25}, {20, 15}, {70, 20}, {90, 20}} {
		a, sd := quantity.Angle(c.angle)*quantity.Degree, quantity.Angle(c.sd)*quantity.Degree
		cos2 := (1 + math.Cos(2*float64(a))*math.Exp(-2*float64(sd)*float64(sd))) / 2
		same := quantity.Angle(math.Acos(math.Sqrt(cos2)))
		assert.InDelta(t, middle(movement.WidthAt(same, 0)), middle(movement.WidthAt(a, sd)), 2e-5, "%v +/- %v", c.angle, c.sd)
	}
}

// A board that is flatsawn or quartersawn for certain needs one figure, and what was
// published of rings at an angle is not used for it; one that is so about needs both.
func TestWhichFiguresADirectionNeeds(t *testing.T) {
	flat := wood.Wood{Tangential: wood.Published(0.08), FibreSaturation: 0.30}
	quarter := wood.Wood{Radial: wood.Published(0.04), FibreSaturation: 0.30}
	const tilt = 10 * quantity.Degree
	for _, c := range []struct {
		direction movement.Direction
		w         wood.Wood
		known     bool
	}{
		{movement.WidthAt(0, 0), flat, true},
		{movement.WidthAt(90*quantity.Degree, 0), quarter, true},
		{movement.WidthAt(0, tilt), flat, false},
		{movement.WidthAt(90*quantity.Degree, tilt), quarter, false},
		{movement.WidthAt(0, 0), quarter, false},
		{movement.WidthAt(90*quantity.Degree, 0), flat, false},
		{movement.WidthAt(tilt, 0), flat, false},
	} {
		m, err := movement.Change(1, c.direction, exact(14), exact(6), c.w)
		if !c.known {
			expect.Code(t, err, method.MissingData, "wood")
			continue
		}
		require.NoError(t, err)
		assert.NotContains(t, m.Notes.Basis, "movement.ring-angle")
	}
	m, err := movement.Change(1, movement.WidthAt(tilt, 0), exact(14), exact(6), redOak())
	require.NoError(t, err)
	assert.Contains(t, m.Notes.Basis, "movement.ring-angle")
	m, err = movement.Change(1, movement.Longitudinal(), exact(14), exact(6), redOak())
	require.NoError(t, err)
	assert.NotContains(t, m.Notes.Basis, "movement.ring-angle")
	assert.Equal(t, movement.Ring{Angle: 45 * quantity.Degree, SD: 26 * quantity.Degree}, movement.UnknownRing("it", &method.Notes{}))
}

// The dust of a conversion does not take an angle out of its range; a millionth of a degree does.
func TestDustOfAnAngle(t *testing.T) {
	for _, past := range []float64{-1e-6, -1e-12, 90 + 1e-12, 90 + 1e-6} {
		_, err := movement.Change(1, movement.WidthAt(quantity.Angle(past)*quantity.Degree, 0), exact(14), exact(6), redOak())
		if past < -1e-9 || past > 90+1e-9 {
			expect.Code(t, err, method.OutOfRange, "ring_angle_deg")
			continue
		}
		assert.NoError(t, err)
	}
}

// Along the grain the shrinkage lies on a straight line from fibre saturation: with a normal
// moisture content near it, as much is lost as the part below it loses.
func TestAlongTheGrainIsAStraightLine(t *testing.T) {
	w := wood.Wood{Longitudinal: wood.Published(0.003), Tangential: wood.Published(0.08), Radial: wood.Published(0.04), FibreSaturation: 0.30}
	m, err := movement.Change(1, movement.Longitudinal(), exact(40), exact(12), w)
	require.NoError(t, err)
	assert.InDelta(t, -0.003*18/30, float64(m.Change.Value), 1e-12)
	for _, mc := range []float64{25, 29, 31, 35} {
		s, err := movement.StrainsBetween(&method.Notes{}, exact(60), about(mc, 3), &w)
		require.NoError(t, err)
		sum, squares, z := 0.0, 0.0, evenly(2000)
		for _, z := range z {
			lost := 0.003 * math.Max(0, 30-mc-3*z) / 30
			sum, squares = sum+lost/2000, squares+lost*lost/2000
		}
		assert.InEpsilon(t, -sum, s.Longitudinal.Mean, 0.01)
		assert.InEpsilon(t, math.Sqrt(squares-sum*sum), math.Abs(s.Longitudinal.To), 0.01)
	}
}

// Words about fibre saturation and about figures that differ are said where they matter.
func TestWhatIsSaidOfAMovement(t *testing.T) {
	above := func(from, to float64) bool {
		m, err := movement.Change(1, movement.Tangential(), exact(from), exact(to), only(0.08))
		require.NoError(t, err)
		return expect.Warned(m.Notes, method.Assumption)
	}
	assert.False(t, above(30, 8), "it starts to shrink at once")
	assert.False(t, above(8, 30))
	assert.True(t, above(8, 40))
	assert.True(t, above(40, 8))
	at := func(from, to float64) movement.Movement {
		m, err := movement.Change(1, movement.Tangential(), exact(from), exact(to), mahogany())
		require.NoError(t, err)
		return m
	}
	assert.True(t, expect.Warned(at(12, 8).Notes, method.Disagreement))
	rest := at(12, 12)
	assert.False(t, expect.Warned(rest.Notes, method.Disagreement), "nothing moves")
	assert.True(t, rest.Disagree)
	assert.False(t, at(12, 8).Volume.Known, "no swelling of trees is known")
	w := wood.Wood{CoefficientTangential: wood.Published(0.003), FibreSaturation: 0.30}
	m, err := movement.Change(1, movement.Tangential(), exact(12), exact(3), w)
	require.NoError(t, err)
	assert.True(t, expect.Warned(m.Notes, method.OutsideFitted), "the coefficient is printed for 6 to 14 %MC")
	w = only(0.08)
	w.SwellingVolumetric = wood.Published(0.5)
	_, err = movement.Change(1, movement.Tangential(), exact(12), exact(8), w)
	expect.Code(t, err, method.OutOfRange, "swelling_volumetric")
	_, err = movement.Change(1, movement.Tangential(), band{Value: 0.12, Low: -10, High: 10}, exact(8), only(0.08))
	assert.NoError(t, err, "1000 %MC either way is the limit")
}
