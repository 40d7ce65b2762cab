package api

import (
	"testing"
	"os"

	"github.com/stretchr/testify/require"
)

func TestContractBuilds(t *testing.T) {
	text, err := Contract()
	require.NoError(t, err)
	os.WriteFile("/tmp/c.json", text, 0o644)
	t.Log(len(text))
}
