package store

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// On a full disk an order fails and leaves nothing; what was answered stays, and the order
// goes well when there is room again.
func TestFullDisk(t *testing.T) {
	d := newDisk("full")
	defer d.drop()
	d.shm = t.TempDir()
	s, err := openFile(t.Context(), d.path("rack"), way{synchronous: "FULL", journal: "WAL", vfs: played, files: playedFiles{d}})
	require.NoError(t, err)
	orders, answered := season(fewReadings), 0
	d.full = 1_000_000
	for i, o := range orders {
		if _, err = s.Apply(t.Context(), o); err != nil {
			break
		}
		answered = i + 1
	}
	require.Error(t, err)
	var refused *Refusal
	assert.False(t, errors.As(err, &refused), "it is no fault of the order: %v", err)
	require.Greater(t, answered, 5)
	require.NoError(t, s.Check(t.Context()))
	d.mu.Lock()
	d.full = 0
	d.mu.Unlock()
	for i, o := range orders {
		receipt, err := s.Apply(t.Context(), o)
		require.NoError(t, err)
		assert.Equal(t, i < answered, receipt.Repeated)
	}
	require.NoError(t, s.Check(t.Context()))
	require.NoError(t, s.Close())
}
