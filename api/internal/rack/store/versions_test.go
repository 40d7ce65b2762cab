package store

import (
	"bytes"
	"context"
	"database/sql"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/pressly/goose/v3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var keepFile = flag.Bool("keep", false, "write the file of the newest schema that testdata keeps")

// kept are some orders of each kind of change, on a clock that stands.
func keptOrders() []*Order {
	billet, reading := Key{Billet, "walnut-1"}, Key{Reading, "r1"}
	return []*Order{
		{Key: "k1", By: "bench", Changes: []Change{{Deed: Create, Entry: Entry{Key: Key{Place, "shed"}, Label: "the shed", Body: []byte(`{"id": "shed"}`)}}}},
		{Key: "k2", Changes: []Change{{Deed: Create, Entry: Entry{Key: billet, Place: "shed", Day: "2024-04-20", Form: "walnut-black", Body: []byte(`{"thickness":  "52 mm"}`)}}}},
		{Key: "k3", Changes: []Change{{Deed: Create, Entry: Entry{Key: reading, Of: billet, Day: "2025-06-01", Form: "weight", Body: []byte(`{"mass": 5.30}`)}}}},
		{Changes: []Change{{Deed: Replace, If: 1, Entry: Entry{Key: billet, Body: []byte(`{"thickness": "2 in"}`)}}}},
		{Changes: []Change{{Deed: Remove, If: 1, Entry: Entry{Key: reading}}}},
		{Changes: []Change{{Deed: Undo, If: 2, Entry: Entry{Key: reading}}}},
	}
}

func fill(t *testing.T, b *base) {
	b.now = func() time.Time { return time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC) }
	require.NoError(t, b.begin(t.Context()))
	for _, o := range keptOrders() {
		_, err := b.Apply(t.Context(), o)
		require.NoError(t, err)
	}
}

// sameAsKept sees that a rack holds what the orders made, and goes on.
func sameAsKept(t *testing.T, b *base) {
	require.NoError(t, b.Check(t.Context()))
	fresh, err := OpenFile(t.Context(), filepath.Join(t.TempDir(), "fresh"))
	require.NoError(t, err)
	defer fresh.Close() //nolint:errcheck // looked at
	fill(t, &fresh.base)
	want, err := fresh.Since(t.Context(), 0, 100)
	require.NoError(t, err)
	got, err := b.Since(t.Context(), 0, 100)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	wantDone, err := fresh.Done(t.Context())
	require.NoError(t, err)
	gotDone, err := b.Done(t.Context())
	require.NoError(t, err)
	assert.Equal(t, wantDone, gotDone)
	again, err := b.Apply(t.Context(), keptOrders()[1])
	require.NoError(t, err)
	assert.True(t, again.Repeated)
	_, err = b.Apply(t.Context(), &Order{Changes: []Change{{Deed: Create, Entry: Entry{Key: Key{Plan, "p1"}, Of: Key{Billet, "walnut-1"}, Body: []byte(`{}`)}}}})
	require.NoError(t, err)
	require.NoError(t, b.Learn(t.Context(), &Learned{Key: Key{Billet, "walnut-1"}, Basis: fmt.Sprintf("%064d", 1), Answer: []byte(`{}`)}))
	require.NoError(t, b.Check(t.Context()))
}

// The file of every schema that was kept opens, and holds what it held.
func TestKeptFilesOpen(t *testing.T) {
	newest, err := newestOfFile()
	require.NoError(t, err)
	if *keepFile {
		path := filepath.Join("testdata", fmt.Sprintf("schema-%d.rack", newest))
		require.NoError(t, os.MkdirAll("testdata", 0o750))
		s, err := OpenFile(t.Context(), filepath.Join(t.TempDir(), "rack"))
		require.NoError(t, err)
		fill(t, &s.base)
		require.NoError(t, s.Backup(t.Context(), path))
		require.NoError(t, s.Close())
	}
	files, err := filepath.Glob("testdata/schema-*.rack")
	require.NoError(t, err)
	require.Contains(t, files, filepath.Join("testdata", fmt.Sprintf("schema-%d.rack", newest)), "keep the file of the newest schema: go test -run TestKeptFilesOpen -keep")
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		own := filepath.Join(t.TempDir(), "rack")
		require.NoError(t, os.WriteFile(own, text, 0o600))
		s, err := OpenFile(t.Context(), own)
		require.NoError(t, err)
		sameAsKept(t, &s.base)
		require.NoError(t, s.Close())
	}
}

// A rack of each earlier schema is brought to the newest with all that it holds.
func TestMigrationsKeepWhatIsThere(t *testing.T) {
	newest, err := newestOfFile()
	require.NoError(t, err)
	for version := int64(1); version < newest; version++ {
		path := filepath.Join(t.TempDir(), "rack")
		old := older(t, path, version)
		fill(t, &old.base)
		require.NoError(t, old.Close())
		s, err := OpenFile(t.Context(), path)
		require.NoError(t, err)
		sameAsKept(t, &s.base)
		require.NoError(t, s.Close())
	}
}

// older is a rack in a file of an earlier schema.
func older(t *testing.T, path string, version int64) *File {
	require.NoError(t, safely.files.Make(path))
	db, err := sql.Open("sqlite3", safely.source(path, false))
	require.NoError(t, err)
	db.SetMaxOpenConns(1)
	files, err := migrationsOf("sqlite")
	require.NoError(t, err)
	provider, err := goose.NewProvider(goose.DialectSQLite3, db, files, goose.WithDisableGlobalRegistry(true))
	require.NoError(t, err)
	_, err = provider.UpTo(t.Context(), version)
	require.NoError(t, err)
	return &File{path: path, way: safely, base: base{dialect: sqlite{}, shop: oneShop, writer: db, readers: db, now: time.Now, underWay: map[string]bool{}}}
}

// A page that was overwritten is found, and nothing is written to the file: what is left of
// it is left alone.
func TestDamagedPageIsTold(t *testing.T) {
	path := filepath.Join(t.TempDir(), "rack")
	s, err := OpenFile(t.Context(), path)
	require.NoError(t, err)
	fill(t, &s.base)
	require.NoError(t, s.Close())
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	found := 0
	for page := 1; page < len(whole)/4096; page++ {
		damaged := bytes.Clone(whole)
		for i := range 4096 {
			damaged[page*4096+i] = 0xa5
		}
		file := filepath.Join(t.TempDir(), "rack")
		require.NoError(t, os.WriteFile(file, damaged, 0o600))
		s, err := OpenFile(t.Context(), file)
		if err == nil {
			err = s.Check(context.WithoutCancel(t.Context()))
			_ = s.Close() // of a damaged file
		}
		if err != nil {
			found++
		}
		is, readErr := os.ReadFile(file)
		require.NoError(t, readErr)
		assert.True(t, bytes.Equal(damaged, is), "page %d: the file was written to", page)
	}
	assert.Equal(t, len(whole)/4096-1, found, "of the pages but the first")
}
