package store

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// History is only added to, whoever asks: the database itself refuses all else. It also
// refuses what belongs to nothing, or to another shop.
func TestTheFileItselfRefuses(t *testing.T) {
	f, err := OpenFile(t.Context(), filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, err)
	defer f.Close() //nolint:errcheck // looked at
	create := Change{Deed: Create, Entry: Entry{Key: Key{Billet, "a"}, Body: []byte(`{}`)}}
	_, err = f.Apply(t.Context(), &Order{Changes: []Change{create}})
	require.NoError(t, err)
	for _, statement := range []string{
		`UPDATE history SET body = '{"a": 1}'`, `DELETE FROM history`, `DELETE FROM entry`,
		`INSERT INTO entry VALUES ('shop', 'reading', 'r', 1, 0, 'billet', 'a', '', '', '', '')`,
		`UPDATE entry SET of_kind = 'billet', of_id = 'nothing'`, `UPDATE entry SET version = 7`,
		`INSERT INTO shop VALUES ('other', 0, 0); INSERT INTO history SELECT 'other', kind, 'r', 1, 1, -1, 0, 'billet', 'a', '', '', '', '', '{}', 0, '' FROM history;
		 INSERT INTO entry VALUES ('other', 'billet', 'r', 1, 0, 'billet', 'a', '', '', '', '')`,
	} {
		_, err := f.writer.ExecContext(t.Context(), statement)
		assert.Error(t, err, statement)
	}
	now, err := f.Get(t.Context(), Key{Billet, "a"})
	require.NoError(t, err)
	assert.Equal(t, `{}`, string(now.Body))
	// Check finds what no constraint can.
	_, err = f.writer.ExecContext(t.Context(), `UPDATE shop SET entries = 7`)
	require.NoError(t, err)
	assert.ErrorContains(t, f.Check(t.Context()), "count of entries")
}
