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
