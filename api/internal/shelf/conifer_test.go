package shelf

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/wood"
)

// Every wood of the service is the conifer or the broadleaved wood that it is by botany,
// wherever it grows; a caller may say it of a wood of his own; and of woods of both kinds the
// one that is harmed by more stands for them.
func TestWoodsAreWhatTheyAreByBotany(t *testing.T) {
	all, err := LoadTables()
	require.NoError(t, err)
	imported := 0
	for _, row := range all.Species.Woods() {
		w := all.Woods[row.ID]
		assert.Equal(t, row.Botany() == species.Softwood, w.Value.Conifer(), row.ID)
		if w.Value.Conifer() && w.Value.Listing == wood.ListedImported {
			imported++
			f, err := drying.FactorFor(&w.Value)
			require.NoError(t, err)
			assert.Contains(t, paceFrom(&f.Wet, wire.Reporter{}), "26 conifers", row.ID)
		}
	}
	assert.Equal(t, 25, imported)
	var notes method.Notes
	own, err := all.WoodOf(&WoodAsked{Group: "softwood"}, &notes)
	require.NoError(t, err)
	assert.True(t, own.Value.Conifer())
	mixed := wood.AnyOf("cedar", []wood.Wood{all.Woods["cedar-western-redcedar"].Value, all.Woods["spanish-cedar"].Value})
	assert.False(t, mixed.Conifer())
}
