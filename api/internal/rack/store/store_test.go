package store_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/rack/store/storetest"
)

// openFile is an empty rack in a file.
func openFile(t *testing.T) store.Store {
	s, err := store.OpenFile(t.Context(), filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

func TestModel(t *testing.T) {
	storetest.Contract(t, func(*testing.T) store.Store { return storetest.NewModel() })
}

func TestFile(t *testing.T) { storetest.Contract(t, openFile) }

func TestFileAgainstModel(t *testing.T) {
	folder := t.TempDir()
	storetest.Random(t, func(r *rapid.T) store.Store {
		own, err := os.MkdirTemp(folder, "")
		require.NoError(r, err)
		s, err := store.OpenFile(t.Context(), filepath.Join(own, "rack"))
		require.NoError(r, err)
		return s
	})
}

func TestLoadIntoAFile(t *testing.T) {
	from := openFile(t)
	for i := range 30 {
		id := string(rune('a' + i%26))
		_, _ = from.Apply(t.Context(), storetest.Sent("k"+id, storetest.Made(store.Billet, id, store.Key{}, `{"a": 1}`)))
	}
	_, err := from.PutPhoto(t.Context(), &store.Photo{Key: store.Key{Kind: store.Billet, ID: "a"}, Media: "image/png", Body: []byte("photo")}, &store.Seen{None: true})
	require.NoError(t, err)
	storetest.Loaded(t, from, openFile(t))
}

// A backup is taken while the rack is in use, and holds what it held then.
func TestBackup(t *testing.T) {
	s, is := openFile(t).(*store.File)
	require.True(t, is)
	_, err := s.Apply(t.Context(), storetest.Sent("k1", storetest.Made(store.Billet, "a", store.Key{}, `{"a": 1}`)))
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "backup")
	require.NoError(t, s.Backup(t.Context(), file))
	assert.Error(t, s.Backup(t.Context(), file), "a backup takes the place of no file")
	_, err = s.Apply(t.Context(), storetest.Sent("k2", storetest.Made(store.Billet, "b", store.Key{}, `{"a": 1}`)))
	require.NoError(t, err)
	kept, err := store.OpenFile(t.Context(), file)
	require.NoError(t, err)
	defer kept.Close() //nolint:errcheck // it was only looked at
	require.NoError(t, kept.Check(t.Context()))
	all, err := kept.Since(t.Context(), 0, 10)
	require.NoError(t, err)
	assert.Len(t, all, 1)
}

// A file that is no rack, or is damaged, is told and left alone.
func TestDamagedFileIsLeftAlone(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rack")
	text := []byte("this was never a rack, and is longer than a header has to be; it goes on for a hundred bytes at least, so")
	require.NoError(t, os.WriteFile(file, text, 0o600))
	_, err := store.OpenFile(t.Context(), file)
	require.Error(t, err)
	is, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, text, is)
}

// Two processes on one file act as one.
func TestTwoProcessesOnOneFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rack")
	first, err := store.OpenFile(t.Context(), file)
	require.NoError(t, err)
	defer first.Close() //nolint:errcheck // looked at
	second, err := store.OpenFile(t.Context(), file)
	require.NoError(t, err)
	defer second.Close() //nolint:errcheck // looked at
	order := storetest.Sent("k1", storetest.Made(store.Billet, "a", store.Key{}, `{}`))
	_, err = first.Apply(t.Context(), order)
	require.NoError(t, err)
	again, err := second.Apply(t.Context(), order)
	require.NoError(t, err)
	assert.True(t, again.Repeated)
}
