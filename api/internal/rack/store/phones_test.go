package store

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fewSchedules are played by default; LATEWOOD_SCHEDULES says another number.
const fewSchedules = 400

// phone is one that is often without signal: it keeps what it wants to send, with the ids
// and keys that it made, and what it saw last.
type phone struct {
	name    string
	pending []*Order
	seen    map[Key]Record
	last    int64
	made    int
}

// pull takes what was changed since.
func (p *phone) pull(t *testing.T, s Store) {
	for {
		part, err := s.Since(t.Context(), p.last, 100)
		require.NoError(t, err)
		for i := range part {
			p.seen[part[i].Key], p.last = part[i], part[i].Sequence
		}
		if len(part) < 100 {
			return
		}
	}
}

// want is something new that its owner enters: a reading, or an edit of a billet as it was
// seen on this phone.
func (p *phone) want(r *rand.Rand, prefix string) {
	p.made++
	id := fmt.Sprint(prefix, p.name, "-", p.made)
	billet := Key{Billet, fmt.Sprint(prefix, "b", r.IntN(2))}
	o := &Order{Key: id, By: p.name}
	o.Digest[0] = byte(p.made)
	if r.IntN(3) > 0 {
		o.Changes = []Change{{Deed: Create, Entry: Entry{Key: Key{Reading, id}, Of: billet, Body: []byte(`{"of": "` + id + `"}`)}}}
	} else {
		o.Changes = []Change{{Deed: Replace, If: p.seen[billet].Version, Entry: Entry{Key: billet, Body: []byte(`{"edit": "` + id + `"}`)}}}
	}
	p.pending = append(p.pending, o)
}

// push sends the first of what is pending over a bad line: it may not arrive, and its answer
// may not come back. An edit of what another phone changed meanwhile is made anew on what is
// there now, as its owner would, under a key of its own.
func (p *phone) push(t *testing.T, s Store, r *rand.Rand, lossy bool) {
	if len(p.pending) == 0 || lossy && r.IntN(4) == 0 {
		return
	}
	o := p.pending[0]
	_, err := s.Apply(t.Context(), o)
	if lossy && r.IntN(3) == 0 {
		return // it will be sent again
	}
	var refused *Refusal
	switch {
	case err == nil:
		p.pending = p.pending[1:]
	case errors.As(err, &refused) && refused.Why == Stale:
		p.pull(t, s)
		again := *o
		again.Key, again.Changes = o.Key+"x", append([]Change(nil), o.Changes...)
		again.Changes[0].If = p.seen[o.Changes[0].Entry.Key].Version
		p.pending[0] = &again
	default:
		require.NoError(t, err)
	}
}

// Two phones that enter, send, lose the line and send again in any order end with the same
// rack: all that was entered is there, once.
func TestTwoPhonesOffline(t *testing.T) {
	schedules := fewSchedules
	if asked := os.Getenv("LATEWOOD_SCHEDULES"); asked != "" {
		var err error
		schedules, err = strconv.Atoi(asked)
		require.NoError(t, err)
	}
	// What is tested is what the store says, not when it is on disk.
	s, err := openFile(t.Context(), filepath.Join(t.TempDir(), "rack"), way{synchronous: "OFF", journal: "WAL", files: systemFiles{}})
	require.NoError(t, err)
	defer s.Close() //nolint:errcheck // looked at
	for n := range schedules {
		r := rand.New(rand.NewPCG(20260314, uint64(n)))
		prefix := fmt.Sprint("s", n, "-")
		for b := range 2 {
			_, err := s.Apply(context.Background(), &Order{Changes: []Change{{Deed: Create, Entry: Entry{Key: Key{Billet, fmt.Sprint(prefix, "b", b)}, Body: []byte(`{}`)}}}})
			require.NoError(t, err)
		}
		one, two := schedule(t, s, r, prefix)
		require.Equal(t, one.seen, two.seen, "schedule %d", n)
		for _, p := range []*phone{one, two} {
			for made := 1; made <= p.made; made++ {
				require.Equal(t, 1, entered(t, s, prefix, fmt.Sprint(prefix, p.name, "-", made)), "schedule %d: %s", n, p.name)
			}
		}
	}
	require.NoError(t, s.Check(t.Context()))
	t.Logf("%d schedules", schedules)
}

// schedule plays one schedule to its end.
func schedule(t *testing.T, s Store, r *rand.Rand, prefix string) (one, two *phone) {
	now, err := s.Get(t.Context(), Key{Billet, prefix + "b0"})
	require.NoError(t, err)
	first := now.Sequence - 1
	one, two = &phone{name: "one", seen: map[Key]Record{}, last: first}, &phone{name: "two", seen: map[Key]Record{}, last: first}
	both := []*phone{one, two}
	for _, p := range both {
		p.pull(t, s)
	}
	for range 12 {
		p := both[r.IntN(2)]
		switch r.IntN(5) {
		case 0, 1:
			p.want(r, prefix)
		case 2:
			p.pull(t, s)
		default:
			p.push(t, s, r, true)
		}
	}
	for len(one.pending)+len(two.pending) > 0 {
		both[r.IntN(2)].push(t, s, r, false)
	}
	for _, p := range both {
		p.pull(t, s)
	}
	return one, two
}

// entered counts the versions that hold what was entered.
func entered(t *testing.T, s Store, prefix, id string) int {
	n := 0
	for _, key := range []Key{{Reading, id}, {Billet, prefix + "b0"}, {Billet, prefix + "b1"}} {
		versions, err := s.History(t.Context(), key)
		var refused *Refusal
		if errors.As(err, &refused) {
			continue
		}
		require.NoError(t, err)
		for i := range versions {
			if body := string(versions[i].Body); body == `{"of": "`+id+`"}` || body == `{"edit": "`+id+`"}` {
				n++
			}
		}
	}
	return n
}

// A clock that jumps, also backwards, changes the times that are told and nothing else: the
// sequence orders.
func TestClockJumps(t *testing.T) {
	s, err := OpenFile(t.Context(), filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, err)
	defer s.Close() //nolint:errcheck // looked at
	r := rand.New(rand.NewPCG(3, 4))
	s.now = func() time.Time { return time.Date(2026, 3, 14, r.IntN(400)-200, 0, 0, 0, time.UTC) }
	key := Key{Billet, "b"}
	_, err = s.Apply(t.Context(), &Order{Key: "first", Changes: []Change{{Deed: Create, Entry: Entry{Key: key, Body: []byte(`0`)}}}})
	require.NoError(t, err)
	for n := 1; n < 50; n++ {
		deed := []Deed{Replace, Replace, Undo}[r.IntN(3)]
		_, err := s.Apply(t.Context(), &Order{Key: fmt.Sprint("k", n), Changes: []Change{{Deed: deed, If: int64(n), Entry: Entry{Key: key, Body: []byte(strconv.Itoa(n))}}}})
		var refused *Refusal
		if errors.As(err, &refused) && refused.Why == NoVersion { // undone to before it was there
			_, err = s.Apply(t.Context(), &Order{Key: fmt.Sprint("k", n, "b"), Changes: []Change{{Deed: Undo, To: 1, If: int64(n), Entry: Entry{Key: key}}}})
		} else if errors.As(err, &refused) && refused.Why == WasGone {
			_, err = s.Apply(t.Context(), &Order{Key: fmt.Sprint("k", n, "c"), Changes: []Change{{Deed: Undo, To: 1, If: int64(n), Entry: Entry{Key: key}}}})
		}
		require.NoError(t, err)
	}
	all, err := s.Since(t.Context(), 0, 100)
	require.NoError(t, err)
	require.Len(t, all, 50)
	back := 0
	for i := range all {
		assert.Equal(t, int64(i+1), all[i].Sequence)
		if i > 0 && all[i].At.Before(all[i-1].At) {
			back++
		}
	}
	assert.Positive(t, back, "the clock did jump back")
	require.NoError(t, s.Check(t.Context()))
}
