package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The table holds a factor for each published span of air drying, and was fitted to
// that span, or to one that was read of the same wood.
func TestDryingFactorsBelongToAirDryingTimes(t *testing.T) {
	type span struct{ low, high string }
	spans := map[string]span{}
	l := &loader{files: embedded, tables: tables(t)}
	l.each("air_drying_times", func(r record) { spans[r.text("row")] = span{r.text("min_days"), r.text("max_days")} })
	others := 0
	l.each("drying_factors", func(r record) {
		row := r.text("row")
		of, known := spans[row]
		assert.True(t, known, row)
		delete(spans, row)
		if r.text("span_source") == "ah402" {
			assert.Equal(t, of, span{r.text("min_days"), r.text("max_days")}, row)
			return
		}
		others++
		assert.True(t, r.mark("span_checked").SeenInPrint(), row)
	})
	require.Empty(t, l.problems)
	assert.Empty(t, spans, "a published span without a factor")
	assert.Equal(t, 1, others, "sugar maple in Upper Michigan")
}

// Woods with published air-drying times have a factor and no others, with all that
// belongs to it. The fit starts at 0.02 and its misfit stays well below a ratio of 2.
func TestDryingFactorsOfWoods(t *testing.T) {
	known := 0
	for _, w := range tables(t).Woods() {
		f := &w.DryingFactor
		assert.Equal(t, len(w.AirDrying) > 0, f.Factor.Known(), w.ID)
		if !f.Factor.Known() {
			assert.Equal(t, DryingFactor{}, *f, w.ID)
			continue
		}
		known++
		k := figure(t, f.Factor)
		assert.True(t, k > 0.02 && k < 4, w.ID)
		assert.Equal(t, UnitRatio, f.Factor.Unit)
		assert.Equal(t, Computed, f.Factor.Checked, w.ID)
		assert.NotEmpty(t, f.Factor.Source, w.ID)
		assert.True(t, f.Misfit > 0 && f.Misfit < 0.5, w.ID)
		assert.Less(t, f.MinDays, f.MaxDays, w.ID)
		assert.NotEmpty(t, f.SpanSource, w.ID)
		assert.NotEmpty(t, f.SpanChecked.Meaning(), w.ID)
		_, is := tables(t).Station(f.Place)
		assert.True(t, is, "%s: %s", w.ID, f.Place)
		assert.NotEqual(t, w.ID, f.Row)
	}
	assert.Equal(t, 67, known)
}

// The rows that stand in for woods without one of their own.
func TestStandInRowsOfDryingFactors(t *testing.T) {
	rows := map[string]string{
		"pine-sugar": "pine-sugar-light", "redwood-old-growth": "redwood-light", "redwood-young-growth": "redwood-light",
		"hickory-mockernut": "hickory-true", "hickory-pignut": "hickory-true", "hickory-shagbark": "hickory-true", "hickory-shellbark": "hickory-true",
		"oak-red-commercial": "oak-northern-red", "oak-white": "oak-northern-white", "oak-white-commercial": "oak-northern-white", "sweetgum": "sweetgum-heartwood",
	}
	for _, w := range tables(t).Woods() {
		assert.Equal(t, rows[w.ID], w.DryingFactor.Row, w.ID)
	}
	assert.InDelta(t, 0.519, figure(t, wood(t, "maple-sugar").DryingFactor.Factor), 0)
	assert.Equal(t, Read, wood(t, "maple-sugar").DryingFactor.SpanChecked)
	assert.InDelta(t, 0.813, figure(t, wood(t, "pine-sugar").DryingFactor.Factor), 0)
	assert.Contains(t, wood(t, "pine-sugar").DryingFactor.Factor.Note, "green moisture of pine-sugar")
	assert.False(t, wood(t, "rosewood-indian").DryingFactor.Factor.Known())
}

// Green wood is as wet as the whole stem; else as heartwood and sapwood together, or as the
// one that is known.
func TestGreenMoisture(t *testing.T) {
	for id, want := range map[string]float64{"maple-sugar": 57.4, "alder-red": 99.2, "aspen-quaking": (95 + 113) / 2.0} {
		green, known := wood(t, id).GreenMoisture().Get()
		assert.True(t, known, id)
		assert.InDelta(t, want, green, 1e-12, id)
	}
	_, known := wood(t, "rosewood-indian").GreenMoisture().Get()
	assert.False(t, known)
}

// Where the stem is told drier than its heartwood and its sapwood, one of the tables is
// wrong, and which is not known.
func TestGreenStemOutsideHeartwoodAndSapwood(t *testing.T) {
	assert.InDelta(t, 28.5, wood(t, "hemlock-western").greenApart(), 1e-9, "56.5 %, heartwood 85 and sapwood 170")
	assert.InDelta(t, 4.1, wood(t, "sycamore-american").greenApart()-28.7, 1e-9, "81.2 %, 114 and 130")
	assert.Zero(t, wood(t, "oak-white").greenApart(), "68.3 %, 64 and 78")
	assert.Zero(t, wood(t, "rosewood-indian").greenApart())
	apart := 0
	for _, w := range tables(t).Woods() {
		if w.greenApart() > 0 {
			apart++
		}
	}
	assert.Equal(t, 20, apart, "of 58 woods that have all three")
	spread, known := wood(t, "hemlock-western").BestGreen().Spread.Get()
	assert.True(t, known)
	assert.InDelta(t, 28.5, spread, 1e-9)
	white := wood(t, "oak-white").BestGreen()
	assert.False(t, white.Spread.Known())
	assert.Empty(t, white.Note)
}
