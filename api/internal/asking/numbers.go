package asking

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// NumberIn reads a number.
func NumberIn(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
