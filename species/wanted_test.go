package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The woods that makers asked for are found first by each of their names.
func TestWantedWoodsAreFound(t *testing.T) {
	woods := map[string]bool{}
	for _, r := range listed(t, "wanted.csv") {
		found := tables(t).Find(r["name"], 3)
		require.NotEmpty(t, found, r["name"])
		assert.Equal(t, r["id"], found[0].Wood.ID, r["name"])
		woods[r["wood"]] = true
	}
	assert.Len(t, woods, 64)
}
