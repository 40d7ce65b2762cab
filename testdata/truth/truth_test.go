package truth

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The truths are dried within what is published and are always the same.
func TestMake(t *testing.T) {
	for _, f := range Families() {
		all := Make(f, 20, 1)
		again := Make(f, 20, 1)
		for i, b := range all {
			assert.Equal(t, b.MeanPct, again[i].MeanPct)
			assert.Len(t, b.Readings, mostReadings)
			last := b.MeanPct[len(b.MeanPct)-1]
			t.Logf("%s %s %.0f mm start %.0f now(%d) %.1f end %.1f rest %.1f", f, b.Wood.ID, b.ThicknessMM, b.StartPct, b.Now, b.MeanPct[b.Now], last, b.RestPct)
			assert.Greater(t, last, 3.0)
			assert.Less(t, last, 45.0)
		}
	}
}

// The boards of two pools dry at the pace that is published: from green to 20 % in a yard
// within twice the span, and to rest in the end.
func TestMakeLayers(t *testing.T) {
	again := Make(Layers, 20, 1)
	for i, b := range Make(Layers, 20, 1) {
		assert.Equal(t, b.MeanPct, again[i].MeanPct)
		assert.Len(t, b.Readings, mostReadings)
		assert.InDelta(t, b.StartPct, b.MeanPct[0], 0.1*b.StartPct)
		assert.InDelta(t, b.RestPct, b.MeanPct[len(b.MeanPct)-1], 8, "thick oak is not dry yet")
		dry := 0
		for dry < len(b.MeanPct)-1 && b.MeanPct[dry] > 20 {
			dry++
		}
		t.Logf("%s %.0f mm start %.0f: 20 %% on day %d, end %.1f rest %.1f", b.Wood.ID, b.ThicknessMM, b.StartPct, dry, b.MeanPct[len(b.MeanPct)-1], b.RestPct)
		assert.Less(t, float64(dry), 2*b.Wood.Most*max(b.ThicknessMM/25, 1)*1.6)
	}
}

// A board of two pools of 25 mm takes the kiln days that are published, and from green to 20 %
// in a yard, stacked in April and in September, times within the span.
func TestLayersMeetWhatIsPublished(t *testing.T) {
	cold := Places()[0]
	for _, w := range Woods() {
		k, kiln := newBoard(&w, 25.4, 20, 1), 0.0
		for ; k.mean() > 6 && kiln < 200; kiln += 0.01 {
			k.step(0.01, 65, 30, 1.5)
		}
		assert.InEpsilon(t, w.KilnDays, kiln, 0.05, w.ID)
		for _, day := range []float64{100, 270} {
			g, yard := newBoard(&w, 25.4, w.GreenPct, 1), 0.0
			for ; g.mean() > 20 && yard < 900; yard += 0.125 {
				g.step(0.125, yearly(&cold.C, day+yard), yearly(&cold.RH, day+yard), 1)
			}
			assert.Greater(t, yard, w.Least*0.8, w.ID)
			assert.Less(t, yard, w.Most*1.2, w.ID)
		}
	}
}
