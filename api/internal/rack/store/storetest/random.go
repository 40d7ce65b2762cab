package storetest

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/rack/store"
)

// Random carries out random orders on a store and on the model and sees that both do the
// same. fresh is an empty store for each run.
func Random(t *testing.T, fresh func(t *rapid.T) store.Store) {
	rapid.Check(t, func(r *rapid.T) {
		s, m := fresh(r), NewModel()
		defer s.Close() //nolint:errcheck // it was only looked at
		steps := rapid.IntRange(5, 20).Draw(r, "steps")
		for range steps {
			order := drawOrder(r)
			is, failed := s.Apply(t.Context(), order)
			want, refused := m.Apply(t.Context(), order)
			if refused == nil {
				require.NoError(r, failed)
			} else {
				require.Equal(r, why(refused), why(failed), "%v", failed)
			}
			require.Equal(r, want.Repeated, is.Repeated)
			require.Equal(r, withoutTime(want.Records), withoutTime(is.Records))
		}
		sameRack(t, r, m, s)
	})
}

// drawOrder draws an order over few ids, so that its changes meet.
func drawOrder(r *rapid.T) *store.Order {
	var changes []store.Change
	for range rapid.IntRange(1, 4).Draw(r, "changes") {
		changes = append(changes, drawChange(r))
	}
	o := Sent(rapid.SampledFrom([]string{"", "", "", "k1", "k2", "k3"}).Draw(r, "key"), changes...)
	o.Digest[31] = byte(rapid.IntRange(0, 1).Draw(r, "digest"))
	return o
}

func drawChange(r *rapid.T) store.Change {
	kind := rapid.SampledFrom(store.Kinds).Draw(r, "kind")
	drawID := rapid.SampledFrom([]string{"1", "2", "3", "a", "A"})
	c := Made(kind, drawID.Draw(r, "id"), store.Key{}, fmt.Sprint(rapid.IntRange(0, 9).Draw(r, "body")))
	e := &c.Entry
	e.Form, e.Label = rapid.SampledFrom([]string{"", "x", "y"}).Draw(r, "form"), rapid.SampledFrom([]string{"", "Big", "small"}).Draw(r, "label")
	e.Day = rapid.SampledFrom([]string{"", "2025-01-01", "2025-02-01"}).Draw(r, "day")
	switch kind {
	case store.Reading, store.Stay, store.Event:
		e.Of = store.Key{Kind: rapid.SampledFrom([]store.Kind{store.Billet, store.Piece}).Draw(r, "of"), ID: drawID.Draw(r, "owner")}
		e.Place = rapid.SampledFrom([]string{"", "1"}).Draw(r, "place")
	case store.Piece, store.Plan:
		e.Of = store.Key{Kind: store.Billet, ID: drawID.Draw(r, "owner")}
	case store.Billet, store.Place, store.Target, store.Note:
	}
	c.Deed = rapid.SampledFrom([]store.Deed{store.Create, store.Create, store.Replace, store.Remove, store.Undo, store.Undo}).Draw(r, "deed")
	if c.Deed != store.Create {
		c.If = rapid.SampledFrom([]int64{store.AnyVersion, store.AnyVersion, 1, 2, 3}).Draw(r, "if")
	}
	if c.Deed == store.Undo {
		c.To = rapid.SampledFrom([]int64{0, 0, 1, 2}).Draw(r, "to")
	}
	return c
}

// withoutTime are records without the time, which no two clocks share.
func withoutTime(all []store.Record) []store.Record {
	out := make([]store.Record, len(all))
	for i, r := range all {
		r.At = time.Time{}
		out[i] = r
	}
	return out
}

func sameRack(t *testing.T, r *rapid.T, m *Model, s store.Store) {
	require.NoError(r, s.Check(t.Context()))
	want, err := m.Since(t.Context(), 0, 10_000)
	require.NoError(r, err)
	is, err := s.Since(t.Context(), 0, 10_000)
	require.NoError(r, err)
	require.Equal(r, withoutTime(want), withoutTime(is))
	for _, kind := range store.Kinds {
		for _, q := range []store.Query{{}, {Gone: true}, {Form: "x"}, {Of: store.Key{Kind: store.Billet, ID: "1"}},
			{From: "2025-01-15"}, {Until: "2025-01-15"}, {Text: "bIG"}, {Place: "1"}} {
			q.Kind, q.Limit = kind, 2
			wanted, total, err := m.List(t.Context(), &q)
			require.NoError(r, err)
			page, n, err := s.List(t.Context(), &q)
			require.NoError(r, err)
			require.Equal(r, total, n)
			require.Equal(r, withoutTime(wanted), withoutTime(page))
		}
	}
}
