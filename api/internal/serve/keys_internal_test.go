package serve

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A right token takes as long wherever it stands in the list, and a wrong one
// as long as a right one. A comparison that stopped early would be hundreds of
// times faster for the first of a thousand. The fastest of many rounds is taken,
// which other work on the machine does not touch.
func TestTokensAreComparedInConstantTime(t *testing.T) {
	var lines strings.Builder
	for i := range mostKeys {
		fmt.Fprintf(&lines, "k%d %s\n", i, sha256Hex(fmt.Sprint(i)))
	}
	keys, err := ParseKeys(lines.String())
	require.NoError(t, err)
	least := map[string]time.Duration{"0": time.Hour, "999": time.Hour, "none": time.Hour}
	for range 400 {
		for token := range least {
			start := time.Now()
			for range 5 {
				_, ok := keys.find(token)
				require.Equal(t, token != "none", ok)
			}
			least[token] = min(least[token], time.Since(start))
		}
	}
	fastest, slowest := min(least["0"], least["999"], least["none"]), max(least["0"], least["999"], least["none"])
	assert.Less(t, float64(slowest), 1.5*float64(fastest), "%v", least)
	for i := range mostKeys {
		at, ok := keys.find(fmt.Sprint(i))
		assert.True(t, ok)
		assert.Equal(t, i, at)
	}
}

func sha256Hex(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}
