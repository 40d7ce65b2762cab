package serve

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A right token takes as long wherever it stands in the list, and a wrong one
// as long as a right one. A comparison that stopped early would be hundreds of
// times faster for the first of a thousand. The fastest of many rounds is taken,
// which other work on the machine does not touch.
// mostTokens are as many keys as a list may have; the tokens are the numbers from 0.
func mostTokens(t testing.TB) *Keys {
	var lines strings.Builder
	for i := range mostKeys {
		fmt.Fprintf(&lines, "k%d %s\n", i, sha256Hex(fmt.Sprint(i)))
	}
	keys, err := ParseKeys(lines.String())
	require.NoError(t, err)
	return keys
}

func TestEveryTokenIsFoundInItsPlace(t *testing.T) {
	keys := mostTokens(t)
	for i := range mostKeys {
		at, ok := keys.find(fmt.Sprint(i))
		assert.True(t, ok)
		assert.Equal(t, i, at)
	}
	for _, wrong := range []string{"", "none", "00", "0 ", fmt.Sprint(mostKeys)} {
		_, ok := keys.find(wrong)
		assert.False(t, ok, "%q", wrong)
	}
}

// The first, the last and a token that is not there should take the same time.
func BenchmarkFindToken(b *testing.B) {
	keys := mostTokens(b)
	for _, token := range []string{"0", fmt.Sprint(mostKeys - 1), "none"} {
		b.Run(token, func(b *testing.B) {
			for b.Loop() {
				keys.find(token)
			}
		})
	}
}

func sha256Hex(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}
