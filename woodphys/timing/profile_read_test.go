package timing

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
)

// A profile that was read holds all three figures wherever they can be of one board, and the limits
// of the mean are those of what it can hold. Beyond, a face would be drier than wood gets.
func TestThroughHoldsWhatWasRead(t *testing.T) {
	for _, read := range [][2]quantity.Moisture{{0.08, 0.30}, {0.10, 0.12}, {0.20, 0.09}} {
		shell, core := read[0], read[1]
		least, most := MeanBetween(shell, core)
		assert.Less(t, least, most)
		for _, share := range []quantity.Moisture{0.02, 0.3, 0.6} {
			mean := least + share*(most-least)
			p := through(mean, shell, core-shell)
			assert.InDelta(t, shell.Percent(), p.shell().Percent(), 0.2, "%v", read)
			assert.InDelta(t, core.Percent(), p.core().Percent(), 0.2, "%v", read)
			assert.InDelta(t, mean.Percent(), p.mean(0, 0.5).Percent(), 0.2, "%v", read)
		}
	}
	assert.Equal(t, parabola(0.12, 0), through(0.12, 0.12, 0))
}
