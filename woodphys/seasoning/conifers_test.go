package seasoning_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/wood"
)

// conifersOf are the ids of the conifers of the tables that the test takes.
func conifersOf(t *testing.T, take func(*species.Wood) bool) []string {
	t.Helper()
	tables, err := species.Default()
	require.NoError(t, err)
	var ids []string
	for _, w := range tables.Woods() {
		if w.Botany() == species.Softwood && take(w) {
			ids = append(ids, w.ID)
		}
	}
	return ids
}

// harmsOf are the kinds of harm of a fresh board of a wood in one place.
func harmsOf(t *testing.T, w wood.Wood, mm float64, climate *drying.Climate, e drying.Exposure) map[seasoning.DefectKind]bool {
	t.Helper()
	p := seasoning.Piece{Wood: w, Thickness: quantity.Length(mm) * quantity.Millimetre, RingAngle: drying.UsualRingAngle,
		Start:  seasoning.Start{MC: w.Green, SD: 0.05},
		Phases: []drying.Phase{{Length: 400 * quantity.Day, Climate: climate, Exposure: e}}}
	list, err := seasoning.Harms(t.Context(), &p)
	require.NoError(t, err)
	kinds := map[seasoning.DefectKind]bool{}
	for _, d := range list {
		kinds[d.Kind] = true
	}
	return kinds
}

// Whether a wood is a conifer does not hang on where it grows: an imported conifer draws no
// beetles of broadleaved woods, stands heat, is conditioned as a softwood and dries by its
// factor and its pace; it is no better known than other imported woods. The same wood, were
// it broadleaved, is harmed.
func TestImportedConifersAreConifers(t *testing.T) {
	imported := conifersOf(t, func(w *species.Wood) bool { return w.Group == species.Imported })
	require.Len(t, imported, 25)
	home, err := drying.FactorFor(&wood.Wood{Listing: wood.ListedSoftwood})
	require.NoError(t, err)
	hot, err := drying.Constant(quantity.Celsius(70), 0.6)
	require.NoError(t, err)
	for _, id := range imported {
		w := woodOf(t, id)
		require.True(t, w.Conifer(), id)
		f, err := drying.FactorFor(&w)
		require.NoError(t, err)
		assert.InDelta(t, home.Median, f.Median, 0, id)
		assert.InDelta(t, home.Wet.Median, f.Wet.Median, 0, id)
		assert.Greater(t, f.SpreadLog, home.SpreadLog, id)
		w.Green, w.Ease = 0.75, wood.Moderate
		other := w
		other.Group = wood.Hardwood
		film, broadleaved := harmsOf(t, w, 25.4, shop(t, 0.7), drying.Wrapped()), harmsOf(t, other, 25.4, shop(t, 0.7), drying.Wrapped())
		assert.False(t, film[seasoning.Insects], id)
		assert.True(t, broadleaved[seasoning.Insects], id)
		assert.True(t, film[seasoning.Stain] && film[seasoning.Decay], id)
		kiln, broadleaved := harmsOf(t, w, 50, hot, drying.Kiln()), harmsOf(t, other, 50, hot, drying.Kiln())
		assert.False(t, kiln[seasoning.Honeycomb] || kiln[seasoning.Collapse], id)
		assert.True(t, broadleaved[seasoning.Honeycomb] && broadleaved[seasoning.Collapse], id)
	}
}

// Fresh softwoods that are stacked in a warm damp summer stain: all of 50 mm, and of 25 mm nine
// in ten, the pines of that place among them whose green moisture is printed. In the dry air
// of the south-west less than one in ten of 25 mm does.
func TestSoftwoodsStainInWarmDampAir(t *testing.T) {
	const june, july = 151, 196
	fresh := conifersOf(t, func(w *species.Wood) bool { return w.BestGreen().Or(0) >= 60 })
	require.Greater(t, len(fresh), 40)
	stained := func(id, place string, day, mm float64) bool {
		return harmsOf(t, woodOf(t, id), mm, station(t, place, day), drying.OpenStack())[seasoning.Stain]
	}
	damp, dry, thin := 0, 0, 0
	for _, id := range fresh {
		for _, day := range []float64{june, july} {
			for _, place := range []string{"houston-tx", "mobile-al", "new-orleans-la", "savannah-ga"} {
				assert.True(t, stained(id, place, day, 50), "50 mm %s at %s", id, place)
				if thin++; stained(id, place, day, 25.4) {
					damp++
				}
			}
			for _, place := range []string{"phoenix-az", "albuquerque-nm"} {
				if stained(id, place, day, 25.4) {
					dry++
				}
			}
		}
	}
	t.Logf("25 mm: %d of %d in damp places, %d of %d in dry ones", damp, thin, dry, thin/2)
	assert.Greater(t, float64(damp)/float64(thin), 0.9)
	assert.Less(t, float64(dry)/float64(thin/2), 0.1)
	for _, id := range []string{"pine-loblolly", "pine-longleaf", "pine-shortleaf"} {
		for _, day := range []float64{june, july} {
			assert.True(t, stained(id, "houston-tx", day, 25.4), id)
		}
	}
}

// Where the fungi do not grow nothing stains: in heat, near freezing, and in wood that has no
// free water left.
func TestWhereNothingStains(t *testing.T) {
	pine := woodOf(t, "pine-loblolly")
	air := func(celsius, rh float64) *drying.Climate {
		climate, err := drying.Constant(quantity.Celsius(celsius), rh)
		require.NoError(t, err)
		return climate
	}
	assert.True(t, harmsOf(t, pine, 25.4, air(27, 0.75), drying.Shed())[seasoning.Stain])
	assert.False(t, harmsOf(t, pine, 25.4, air(27, 0.35), drying.Kiln())[seasoning.Stain], "dry moving air")
	assert.False(t, harmsOf(t, pine, 25.4, air(36, 0.85), drying.Wrapped())[seasoning.Stain], "too hot")
	assert.False(t, harmsOf(t, pine, 25.4, air(4, 0.85), drying.Wrapped())[seasoning.Stain], "too cold")
	dry := pine
	dry.Green = 0.24
	assert.False(t, harmsOf(t, dry, 25.4, air(20, 0.7), drying.Wrapped())[seasoning.Stain], "no free water")
}

// Five and a half days at the warmth in which fungi grow fastest, ten at 15 C, none below 5 and
// from 35 on; it only rises up to there and only falls from there on.
func TestStainByWarmth(t *testing.T) {
	assert.InDelta(t, 10, 1/seasoning.StainPerDay(15), 1e-9)
	for _, c := range []float64{24, 26, 29} {
		assert.InDelta(t, 5.36, 1/seasoning.StainPerDay(c), 0.01, "%v", c)
	}
	for _, c := range []float64{-10, 5, 35, 60} {
		assert.Zero(t, seasoning.StainPerDay(c), "%v", c)
	}
	for c := 5.5; c < 24; c++ {
		assert.Less(t, seasoning.StainPerDay(c), seasoning.StainPerDay(c+0.5), "%v", c)
	}
	for c := 29.5; c < 34.5; c += 0.5 {
		assert.Greater(t, seasoning.StainPerDay(c), seasoning.StainPerDay(c+0.5), "%v", c)
	}
}
