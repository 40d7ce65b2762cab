package asking

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

func NumberIn(t testing.TB, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
