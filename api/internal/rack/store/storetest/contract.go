package storetest

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/rack/store"
)

// Opened makes an empty store for a test and closes it after it.
type Opened func(t *testing.T) store.Store

func hexOf(digest [32]byte) string { return hex.EncodeToString(digest[:]) }

// Sent is an order as a sender makes it: the key is also the body that its digest is of.
func Sent(key string, changes ...store.Change) *store.Order {
	o := &store.Order{Key: key, By: "bench", Changes: changes}
	copy(o.Digest[:], key)
	return o
}

// Made is a change that creates an entry.
func Made(kind store.Kind, id string, of store.Key, body string) store.Change {
	return store.Change{Deed: store.Create, Entry: store.Entry{Key: store.Key{Kind: kind, ID: id}, Of: of, Body: []byte(body)}}
}

// Changed is a change that replaces what was seen at a version.
func Changed(kind store.Kind, id string, seen int64, body string) store.Change {
	c := Made(kind, id, store.Key{}, body)
	c.Deed, c.If = store.Replace, seen
	return c
}

// On is a removal or an undo of what was seen at a version.
func On(deed store.Deed, kind store.Kind, id string, seen int64) store.Change {
	return store.Change{Deed: deed, Entry: store.Entry{Key: store.Key{Kind: kind, ID: id}}, If: seen}
}

func why(err error) store.Why {
	var refused *store.Refusal
	if errors.As(err, &refused) {
		return refused.Why
	}
	return ""
}

var walnut = store.Key{Kind: store.Billet, ID: "walnut-1"}

// do carries out an order that has to go well.
func do(t *testing.T, s store.Store, o *store.Order) store.Receipt {
	t.Helper()
	receipt, err := s.Apply(t.Context(), o)
	require.NoError(t, err)
	return receipt
}

// refused carries out an order that has to be refused, and sees that nothing changed.
func refused(t *testing.T, s store.Store, reason store.Why, o *store.Order) store.Refusal {
	t.Helper()
	before, err := s.Since(t.Context(), 0, 10_000)
	require.NoError(t, err)
	_, failed := s.Apply(t.Context(), o)
	require.Error(t, failed)
	require.Equal(t, reason, why(failed), "%v", failed)
	after, err := s.Since(t.Context(), 0, 10_000)
	require.NoError(t, err)
	require.Equal(t, before, after, "a refused order changed something")
	var r *store.Refusal
	require.ErrorAs(t, failed, &r)
	return *r
}

// Contract runs everything that a store has to do.
func Contract(t *testing.T, open Opened) {
	for name, test := range map[string]func(*testing.T, store.Store){
		"kept as sent": keptAsSent, "nothing overwritten": nothingOverwritten, "lost updates": lostUpdates, "undo": undo,
		"undo of undo": undoOfUndo, "twice is once": twiceIsOnce, "all or nothing": allOrNothing, "belongs": belongsTo,
		"lists": lists, "order by bytes": orderByBytes, "moved elsewhere": movedElsewhere, "limits": limits, "malformed": malformed,
		"writers together": writersTogether, "repeats together": repeatsTogether, "cancelled": cancelled, "search": search,
		"learned": learned, "photos": photos, "as it is": asItIs, "like ids": likeIDs, "removed below": removedBelow,
	} {
		t.Run(strings.ReplaceAll(name, " ", "_"), func(t *testing.T) {
			s := open(t)
			test(t, s)
			require.NoError(t, s.Check(t.Context()))
		})
	}
}

func keptAsSent(t *testing.T, s store.Store) {
	body := "{\"note\": \"kept \\u0000 as it \xc3\xa9 was\",\n  \"b\": 1.50, \"a\": [ ]}"
	c := Made(store.Billet, "walnut-1", store.Key{}, body)
	c.Entry.Form, c.Entry.Day, c.Entry.Label = "walnut-black", "2024-05-01", "the big O'Leary; DROP TABLE entry; --"
	receipt := do(t, s, Sent("k1", c))
	got, err := s.Get(t.Context(), walnut)
	require.NoError(t, err)
	assert.Equal(t, body, string(got.Body))
	assert.Equal(t, c.Entry, got.Entry)
	assert.Equal(t, []store.Record{got}, receipt.Records)
	assert.Equal(t, int64(1), got.Version)
	assert.Equal(t, int64(1), got.Sequence)
	assert.Equal(t, "bench", got.By)
	assert.False(t, got.At.IsZero())
	_, err = s.Get(t.Context(), store.Key{Kind: store.Reading, ID: "walnut-1"})
	assert.Equal(t, store.NotFound, why(err))
	_, err = s.History(t.Context(), store.Key{Kind: store.Place, ID: "nowhere"})
	assert.Equal(t, store.NotFound, why(err))
}

func nothingOverwritten(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	do(t, s, Sent("k2", Changed(store.Billet, "walnut-1", 1, `"b"`)))
	do(t, s, Sent("k3", On(store.Remove, store.Billet, "walnut-1", 2)))
	all, err := s.History(t.Context(), walnut)
	require.NoError(t, err)
	require.Len(t, all, 3)
	for i, want := range []string{`"a"`, `"b"`, `"b"`} {
		assert.Equal(t, want, string(all[i].Body))
		assert.Equal(t, int64(i)+1, all[i].Version)
	}
	assert.True(t, all[2].Gone)
	refused(t, s, store.Exists, Sent("k4", Made(store.Billet, "walnut-1", store.Key{}, `"c"`)))
	refused(t, s, store.WasGone, Sent("k5", Changed(store.Billet, "walnut-1", 3, `"c"`)))
}

func lostUpdates(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	do(t, s, Sent("k2", Changed(store.Billet, "walnut-1", 1, `"b"`)))
	for _, deed := range []store.Change{Changed(store.Billet, "walnut-1", 1, `"c"`), On(store.Remove, store.Billet, "walnut-1", 1), On(store.Undo, store.Billet, "walnut-1", 1)} {
		r := refused(t, s, store.Stale, Sent("k3", deed))
		assert.Equal(t, int64(2), r.Version, "it says what is there")
		assert.Equal(t, walnut, r.Key)
	}
	do(t, s, Sent("k4", Changed(store.Billet, "walnut-1", store.AnyVersion, `"d"`)))
}

// bodies are what an entry is and was, * where it was gone.
func bodies(t *testing.T, s store.Store, key store.Key) string {
	all, err := s.History(t.Context(), key)
	require.NoError(t, err)
	text := ""
	for _, r := range all {
		if r.Gone {
			text += "*"
		} else {
			text += strings.Trim(string(r.Body), `"`)
		}
	}
	return text
}

func undo(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	do(t, s, Sent("k2", Changed(store.Billet, "walnut-1", 1, `"b"`)))
	do(t, s, Sent("k3", Changed(store.Billet, "walnut-1", 2, `"c"`)))
	do(t, s, Sent("k4", On(store.Undo, store.Billet, "walnut-1", 3)))
	do(t, s, Sent("k5", On(store.Undo, store.Billet, "walnut-1", 4)))
	assert.Equal(t, "abcba", bodies(t, s, walnut))
	do(t, s, Sent("k6", On(store.Undo, store.Billet, "walnut-1", 5)))
	assert.Equal(t, "abcba*", bodies(t, s, walnut))
	do(t, s, Sent("k7", On(store.Undo, store.Billet, "walnut-1", 6)))
	assert.Equal(t, "abcba*a", bodies(t, s, walnut), "what took the adding back is taken back itself")
	back := On(store.Undo, store.Billet, "walnut-1", 7)
	back.To = 3
	do(t, s, Sent("k8", back))
	assert.Equal(t, "abcba*ac", bodies(t, s, walnut))
	back.If, back.To = 8, 8
	refused(t, s, store.NoVersion, Sent("k9", back))
}

func undoOfUndo(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	do(t, s, Sent("k2", Changed(store.Billet, "walnut-1", 1, `"b"`)))
	do(t, s, Sent("k3", On(store.Undo, store.Billet, "walnut-1", 2)))
	do(t, s, Sent("k4", Changed(store.Billet, "walnut-1", 3, `"c"`)))
	do(t, s, Sent("k5", On(store.Remove, store.Billet, "walnut-1", 4)))
	assert.Equal(t, "abac*", bodies(t, s, walnut))
	for i := range int64(3) { // brings it back, takes c back, takes the creation back
		do(t, s, Sent(fmt.Sprint("u", i), On(store.Undo, store.Billet, "walnut-1", 5+i)))
	}
	assert.Equal(t, "abac*ca*", bodies(t, s, walnut))
}

func twiceIsOnce(t *testing.T, s store.Store) {
	do(t, s, Sent("k0", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	order := Sent("k1", Made(store.Reading, "r1", walnut, `1`), Made(store.Reading, "r2", walnut, `2`))
	first := do(t, s, order)
	do(t, s, Sent("k2", Changed(store.Billet, "walnut-1", 1, `"b"`)))
	again := do(t, s, order)
	assert.True(t, again.Repeated)
	assert.Equal(t, first.Records, again.Records)
	other := *order
	other.Digest[31]++
	refused(t, s, store.OtherBody, &other)
	assert.Len(t, do(t, s, Sent("", Made(store.Reading, "r3", walnut, `3`))).Records, 1)
	refused(t, s, store.Exists, Sent("", Made(store.Reading, "r3", walnut, `3`)))
	// A refused order leaves its key free.
	refused(t, s, store.Exists, Sent("k3", Made(store.Reading, "r3", walnut, `3`)))
	do(t, s, Sent("k3", Made(store.Reading, "r4", walnut, `4`)))
}

func allOrNothing(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	r := refused(t, s, store.Exists, Sent("k2", Made(store.Reading, "r1", walnut, `1`), Made(store.Reading, "r2", walnut, `2`),
		Made(store.Reading, "r1", walnut, `3`), Made(store.Reading, "r4", walnut, `4`)))
	assert.Equal(t, 2, r.Change)
	_, total, err := s.List(t.Context(), &store.Query{Kind: store.Reading, Limit: 10})
	require.NoError(t, err)
	assert.Zero(t, total)
}

func belongsTo(t *testing.T, s store.Store) {
	refused(t, s, store.Missing, Sent("k1", Made(store.Reading, "r1", walnut, `1`)))
	lies := Made(store.Billet, "walnut-1", store.Key{}, `"a"`)
	lies.Entry.Place = "attic"
	assert.Equal(t, store.Key{Kind: store.Place, ID: "attic"}, refused(t, s, store.Missing, Sent("k2", lies)).Key, "it says what is missing")
	do(t, s, Sent("k3", Made(store.Place, "attic", store.Key{}, `{}`), lies))
	do(t, s, Sent("k4", Made(store.Piece, "leaf-1", walnut, `{}`),
		Made(store.Reading, "r1", store.Key{Kind: store.Piece, ID: "leaf-1"}, `1`), Made(store.Reading, "r2", walnut, `2`)))
	do(t, s, Sent("k5", On(store.Remove, store.Billet, "walnut-1", 1)))
	refused(t, s, store.Missing, Sent("k6", Made(store.Reading, "r3", walnut, `3`)))
	do(t, s, Sent("k7", On(store.Remove, store.Reading, "r2", 1)))
	refused(t, s, store.Missing, Sent("k8", On(store.Undo, store.Reading, "r2", 2)))
	do(t, s, Sent("k9", On(store.Undo, store.Billet, "walnut-1", 2), On(store.Undo, store.Reading, "r2", 2)))
	other := Changed(store.Piece, "leaf-1", 1, `{}`)
	other.Entry.Of = store.Key{Kind: store.Piece, ID: "leaf-2"}
	refused(t, s, store.Malformed, Sent("k10", Made(store.Piece, "leaf-2", store.Key{Kind: store.Piece, ID: "leaf-1"}, `{}`), other))
}

// asItIs sees that a change that changes nothing makes no version.
func asItIs(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `{"a": 1, "b": "x"}`)))
	same := do(t, s, Sent("k2", Changed(store.Billet, "walnut-1", 1, `{"b":"x","a":1}`)))
	assert.Equal(t, int64(1), same.Records[0].Version)
	assert.JSONEq(t, `{"a": 1, "b": "x"}`, string(same.Records[0].Body))
	elsewhere := Sent("k1", Changed(store.Billet, "walnut-1", 1, `{"a": 1, "b": "x"}`))
	elsewhere.Digest[31] ^= 1
	refused(t, s, store.OtherBody, elsewhere)
	refused(t, s, store.Stale, Sent("k3", Changed(store.Billet, "walnut-1", 2, `{"a": 1, "b": "x"}`)))
	other := Changed(store.Billet, "walnut-1", store.AnyVersion, `{"a": 1, "b": "x"}`)
	other.Entry.Form = "y"
	assert.Equal(t, int64(2), do(t, s, Sent("k4", other)).Records[0].Version)
	do(t, s, Sent("k5", On(store.Remove, store.Billet, "walnut-1", 2)))
	refused(t, s, store.WasGone, Sent("k6", other))
}

// likeIDs sees that ids of a kind differ in more than their capitals.
func likeIDs(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `1`)))
	upper := Made(store.Billet, "Walnut-1", store.Key{}, `1`)
	assert.Equal(t, walnut, refused(t, s, store.Exists, Sent("k2", upper)).Key)
	do(t, s, Sent("k3", Made(store.Place, "WALNUT-1", store.Key{}, `1`)))
	do(t, s, Sent("k4", On(store.Remove, store.Billet, "walnut-1", 1)))
	assert.Equal(t, walnut, refused(t, s, store.Exists, Sent("k5", upper)).Key)
	for _, kind := range store.Kinds {
		of := store.Key{}
		switch kind {
		case store.Piece, store.Plan, store.Reading, store.Stay, store.Event:
			of = store.Key{Kind: store.Billet, ID: "oak"}
		default:
		}
		do(t, s, Sent("", Made(kind, "oak", of, `1`)))
		refused(t, s, store.Exists, Sent("", Made(kind, "Oak", of, `1`)))
	}
}

// removedBelow sees that what lies in or belongs to something that was removed can be changed
// in all else, and that nothing new comes to it.
func removedBelow(t *testing.T, s store.Store) {
	do(t, s, Sent("", Made(store.Place, "attic", store.Key{}, `0`), Made(store.Place, "shed", store.Key{}, `0`), Made(store.Billet, "walnut-1", store.Key{}, `0`)))
	for _, kind := range store.Kinds {
		if kind == store.Place || kind == store.Target {
			continue // they need nothing
		}
		of := walnut
		if kind == store.Billet {
			of = store.Key{}
		}
		made := Made(kind, "a", of, `0`)
		made.Entry.Place = "attic"
		do(t, s, Sent("", made))
	}
	do(t, s, Sent("", On(store.Remove, store.Place, "attic", 1), On(store.Remove, store.Billet, "walnut-1", 1)))
	for _, kind := range store.Kinds {
		if kind == store.Place || kind == store.Target {
			continue
		}
		now, err := s.Get(t.Context(), store.Key{Kind: kind, ID: "a"})
		require.NoError(t, err)
		next := store.Change{Deed: store.Replace, Entry: now.Entry, If: 1}
		next.Entry.Body = []byte(`1`)
		do(t, s, Sent("", next))
		next.If, next.Entry.Place = 2, "shed"
		do(t, s, Sent("", next))
		next.If, next.Entry.Place = 3, "attic"
		assert.Equal(t, store.Place, refused(t, s, store.Missing, Sent("", next)).Key.Kind, kind)
		do(t, s, Sent("", On(store.Remove, kind, "a", 3)))
		if kind != store.Billet {
			assert.Equal(t, walnut, refused(t, s, store.Missing, Sent("", On(store.Undo, kind, "a", 4))).Key, kind)
		}
	}
}

func lists(t *testing.T, s store.Store) {
	changes := []store.Change{Made(store.Place, "attic", store.Key{}, `{}`), Made(store.Billet, "walnut-1", store.Key{}, `{}`), Made(store.Billet, "oak-1", store.Key{}, `{}`)}
	for i := range 25 {
		c := Made(store.Reading, fmt.Sprintf("r%02d", i), walnut, fmt.Sprint(i))
		c.Entry.Day, c.Entry.Form = fmt.Sprintf("2025-%02d-01", i%12+1), []string{"weight", "pin_meter"}[i%2]
		if i%5 == 0 {
			c.Entry.Of.ID, c.Entry.Place = "oak-1", "attic"
		}
		changes = append(changes, c)
	}
	do(t, s, Sent("k1", changes...))
	do(t, s, Sent("k2", On(store.Remove, store.Reading, "r24", 1)))
	count := func(q store.Query) int {
		q.Kind, q.Limit = store.Reading, 100
		page, total, err := s.List(t.Context(), &q)
		require.NoError(t, err)
		require.Len(t, page, total)
		return total
	}
	assert.Equal(t, 24, count(store.Query{}))
	assert.Equal(t, 1, count(store.Query{Gone: true}))
	assert.Equal(t, 5, count(store.Query{Of: store.Key{Kind: store.Billet, ID: "oak-1"}}))
	assert.Equal(t, 12, count(store.Query{Form: "weight"}))
	assert.Equal(t, 5, count(store.Query{Place: "attic"}))
	assert.Equal(t, 6, count(store.Query{From: "2025-02-01", Until: "2025-04-01"}))
	assert.Equal(t, 0, count(store.Query{Until: "2024-12-31"}))
	var days []string
	for offset := 0; offset < 30; offset += 7 {
		page, total, err := s.List(t.Context(), &store.Query{Kind: store.Reading, Offset: offset, Limit: 7})
		require.NoError(t, err)
		require.Equal(t, 24, total)
		for _, r := range page {
			days = append(days, r.Day+r.ID)
		}
	}
	require.Len(t, days, 24)
	assert.IsNonDecreasing(t, days)
}

func orderByBytes(t *testing.T, s store.Store) {
	ids := []string{"a-1", "B-1", "A.1", "a.2", "a_1", "b1", "1", "10", "2"}
	var changes []store.Change
	for _, id := range ids {
		changes = append(changes, Made(store.Billet, id, store.Key{}, `{}`))
	}
	do(t, s, Sent("k1", changes...))
	page, _, err := s.List(t.Context(), &store.Query{Kind: store.Billet, Limit: 100})
	require.NoError(t, err)
	var got []string
	for _, r := range page {
		got = append(got, r.ID)
	}
	assert.Equal(t, []string{"1", "10", "2", "A.1", "B-1", "a-1", "a.2", "a_1", "b1"}, got)
}

func search(t *testing.T, s store.Store) {
	c := Made(store.Billet, "w_1", store.Key{}, `{}`)
	c.Entry.Label = "Größe 50%"
	do(t, s, Sent("k1", c, Made(store.Billet, "wx1", store.Key{}, `{}`)))
	for text, want := range map[string]int{"w_1": 1, "W": 2, "%": 1, "GRÖSSE": 0, "größe": 1, "GRÖ": 1, `\`: 0, "'": 0} {
		_, total, err := s.List(t.Context(), &store.Query{Kind: store.Billet, Limit: 10, Text: text})
		require.NoError(t, err)
		assert.Equal(t, want, total, text)
	}
}

// movedElsewhere sees that a rack that was loaded from another is that other.
func movedElsewhere(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `"a"`)))
	do(t, s, Sent("k2", Made(store.Reading, "r1", walnut, `1`), Changed(store.Billet, "walnut-1", 1, `"b"`)))
	do(t, s, Sent("k3", On(store.Undo, store.Billet, "walnut-1", 2)))
	all, err := s.Since(t.Context(), 0, 100)
	require.NoError(t, err)
	done, err := s.Done(t.Context())
	require.NoError(t, err)
	require.Len(t, all, 4)
	require.Len(t, done, 3)
	assert.Equal(t, store.NotEmpty, why(s.Load(t.Context(), all, done, nil)))
	elsewhere := NewModel()
	require.NoError(t, elsewhere.Load(t.Context(), all, done, nil))
	assert.Equal(t, "aba", bodies(t, elsewhere, walnut))
	part, err := s.Since(t.Context(), 2, 1)
	require.NoError(t, err)
	assert.Equal(t, all[2:3], part)
}

// Loaded fills one store with what another holds and sees that both are the same.
func Loaded(t *testing.T, from, into store.Store) {
	all, err := from.Since(t.Context(), 0, 1_000_000)
	require.NoError(t, err)
	done, err := from.Done(t.Context())
	require.NoError(t, err)
	require.NoError(t, into.Load(t.Context(), all, done, every(t, from)))
	require.NoError(t, into.Check(t.Context()))
	assert.Equal(t, every(t, from), every(t, into))
	same, err := into.Since(t.Context(), 0, 1_000_000)
	require.NoError(t, err)
	assert.Equal(t, all, same)
	orders, err := into.Done(t.Context())
	require.NoError(t, err)
	assert.Equal(t, done, orders)
}

func limits(t *testing.T, s store.Store) {
	if _, is := s.(*Model); is {
		t.Skip("the model takes what it is given")
	}
	var changes []store.Change
	for i := range store.MostChanges + 1 {
		changes = append(changes, Made(store.Billet, fmt.Sprint("b", i), store.Key{}, `{}`))
	}
	refused(t, s, store.Malformed, Sent("k1", changes...))
	do(t, s, Sent("k1", changes[:store.MostChanges]...))
	long := `"` + strings.Repeat("a", store.MostBody-2) + `"`
	do(t, s, Sent("k2", Made(store.Billet, "long", store.Key{}, long)))
	refused(t, s, store.Malformed, Sent("k3", Made(store.Billet, "longer", store.Key{}, long[:2]+long[1:])))
	wide := `"` + strings.Repeat("\xf0\x9f\x8c\xb2", store.MostBody/4-1) + `"`
	do(t, s, Sent("k4", Made(store.Billet, "wide", store.Key{}, wide)))
}

func malformed(t *testing.T, s store.Store) {
	if _, is := s.(*Model); is {
		t.Skip("the model takes what it is given")
	}
	do(t, s, Sent("k0", Made(store.Billet, "walnut-1", store.Key{}, `{}`)))
	with := func(change func(e *store.Entry)) store.Change {
		c := Made(store.Reading, "r1", walnut, `{}`)
		change(&c.Entry)
		return c
	}
	for name, c := range map[string]store.Change{
		"kind": with(func(e *store.Entry) { e.Kind = "plank" }), "id": with(func(e *store.Entry) { e.ID = "../x" }),
		"no id": with(func(e *store.Entry) { e.ID = "" }), "owner": with(func(e *store.Entry) { e.Of = store.Key{} }),
		"owner's kind": with(func(e *store.Entry) { e.Of.Kind = store.Place }), "day": with(func(e *store.Entry) { e.Day = "2025-02-30" }),
		"not JSON": with(func(e *store.Entry) { e.Body = []byte("{") }), "empty": with(func(e *store.Entry) { e.Body = nil }),
		"not text": with(func(e *store.Entry) { e.Body = []byte("\"\xff\"") }), "label": with(func(e *store.Entry) { e.Label = "a\x00b" }),
		"long label": with(func(e *store.Entry) { e.Label = strings.Repeat("x", store.MostLabel+1) }),
		"deed":       {Deed: "paint", Entry: store.Entry{Key: walnut, Body: []byte(`{}`)}},
		"unseen":     {Deed: store.Replace, Entry: store.Entry{Key: walnut, Body: []byte(`{}`)}},
		"seen":       {Deed: store.Create, If: 1, Entry: store.Entry{Key: store.Key{Kind: store.Billet, ID: "x"}, Body: []byte(`{}`)}},
	} {
		r := refused(t, s, store.Malformed, Sent("k1", c))
		assert.NotEmpty(t, r.Detail, name)
	}
	refused(t, s, store.Malformed, Sent("k1"))
	refused(t, s, store.Malformed, Sent("a key with spaces", Made(store.Reading, "r1", walnut, `{}`)))
}

// writersTogether sees that of those who saw the same version one wins.
func writersTogether(t *testing.T, s store.Store) {
	do(t, s, Sent("k0", Made(store.Billet, "walnut-1", store.Key{}, `0`)))
	const writers, rounds = 8, 10
	var wait sync.WaitGroup
	var mu sync.Mutex
	won := map[int64]int{}
	for w := range writers {
		wait.Go(func() {
			for i := range rounds {
				now, err := s.Get(t.Context(), walnut)
				if !assert.NoError(t, err) {
					return
				}
				_, err = s.Apply(t.Context(), Sent(fmt.Sprintf("w%d-%d", w, i), Changed(store.Billet, "walnut-1", now.Version, fmt.Sprint(w*rounds+i+1))))
				if err == nil {
					mu.Lock()
					won[now.Version]++
					mu.Unlock()
				} else if !assert.Equal(t, store.Stale, why(err), "%v", err) {
					return
				}
			}
		})
	}
	wait.Wait()
	sum := 0
	for version, n := range won {
		assert.Equal(t, 1, n, "of version %d", version)
		sum += n
	}
	assert.GreaterOrEqual(t, sum, rounds)
	all, err := s.History(t.Context(), walnut)
	require.NoError(t, err)
	assert.Len(t, all, sum+1)
}

// repeatsTogether sends one order from many hands at once.
func repeatsTogether(t *testing.T, s store.Store) {
	do(t, s, Sent("k0", Made(store.Billet, "walnut-1", store.Key{}, `0`)))
	for i := range 5 {
		order := Sent(fmt.Sprint("k", i+1), Made(store.Reading, fmt.Sprint("r", i), walnut, `1`))
		var wait sync.WaitGroup
		for range 8 {
			wait.Go(func() {
				_, err := s.Apply(context.WithoutCancel(t.Context()), order)
				if err != nil {
					assert.Equal(t, store.UnderWay, why(err), "%v", err)
				}
			})
		}
		wait.Wait()
		assert.True(t, do(t, s, order).Repeated)
	}
	_, total, err := s.List(t.Context(), &store.Query{Kind: store.Reading, Limit: 100})
	require.NoError(t, err)
	assert.Equal(t, 5, total)
}

// cancelled sees that a sender who went away leaves nothing half done.
func cancelled(t *testing.T, s store.Store) {
	if _, is := s.(*Model); is {
		t.Skip("the model is never interrupted")
	}
	do(t, s, Sent("k0", Made(store.Billet, "walnut-1", store.Key{}, `0`)))
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.Apply(gone, Sent("k1", Made(store.Reading, "r1", walnut, `1`)))
	require.Error(t, err)
	do(t, s, Sent("k1", Made(store.Reading, "r1", walnut, `1`)))
}

// What was found out is kept beside the history, and only of what is there.
func learned(t *testing.T, s store.Store) {
	do(t, s, Sent("k1", Made(store.Billet, "walnut-1", store.Key{}, `{}`)))
	for _, basis := range []string{strings.Repeat("a", 64), strings.Repeat("b", 64)} {
		l := store.Learned{Key: walnut, Basis: basis, Answer: []byte(`{"ready": [1.50]}`)}
		require.NoError(t, s.Learn(t.Context(), &l))
		all, err := s.Learned(t.Context())
		require.NoError(t, err)
		assert.Equal(t, []store.Learned{l}, all)
	}
	versions, err := s.Since(t.Context(), 0, 10)
	require.NoError(t, err)
	assert.Len(t, versions, 1, "what is learned is no version")
}
