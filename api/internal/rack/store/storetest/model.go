// Package storetest holds what every store of the rack has to do: the tests of the
// contract, run over each implementation, and a plain model to compare with.
package storetest

import (
	"context"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"latewood/api/internal/rack/store"
)

// modelTime is when everything happens in the model.
var modelTime = time.Date(2026, 3, 14, 9, 0, 0, 0, time.UTC)

// Model is a store in plain maps: what the real ones are compared with.
type Model struct {
	mu      sync.Mutex
	all     []store.Record // in order of sequence
	current map[store.Key]int
	done    map[string]store.Done
	learned map[store.Key]store.Learned
	photos  map[store.Key][]store.Photo
	missing store.Reference // what the last change lacked
}

// NewModel is an empty rack.
func NewModel() *Model {
	return &Model{current: map[store.Key]int{}, done: map[string]store.Done{}, learned: map[store.Key]store.Learned{}, photos: map[store.Key][]store.Photo{}}
}

// Apply carries out an order on a copy, which takes the place of the rack if all of it
// goes well.
func (m *Model) Apply(_ context.Context, order *store.Order) (store.Receipt, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if d, is := m.done[order.Key]; is && order.Key != "" {
		if d.Digest != hexOf(order.Digest) {
			return store.Receipt{}, &store.Refusal{Why: store.OtherBody}
		}
		return store.Receipt{Records: slices.Clone(m.all[d.First-1 : d.Last]), Repeated: true}, nil
	}
	if now, same := m.unchanged(order); same {
		return store.Receipt{Records: []store.Record{now}, Repeated: true}, nil
	}
	before := len(m.all)
	old := map[store.Key]int{}
	for i := range order.Changes {
		c := &order.Changes[i]
		key := c.Entry.Key
		if _, kept := old[key]; !kept {
			old[key] = -1
			if at, is := m.current[key]; is {
				old[key] = at
			}
		}
		r, why := m.next(c)
		if why != "" {
			refused := &store.Refusal{Why: why, Change: i, Key: key, Version: 0}
			if at, is := m.current[key]; is {
				refused.Version = m.all[at].Version
			}
			switch why {
			case store.Missing:
				refused.Key, refused.Pointer = m.missing.Key, m.missing.Pointer
			case store.Exists:
				refused.Key.ID = m.like(key)
			case store.Malformed:
				refused.Detail = "a piece stays one of what it was cut from"
			default:
			}
			m.takeBack(before, old)
			return store.Receipt{}, refused
		}
		r.Sequence, r.By, r.At = int64(len(m.all))+1, order.By, modelTime
		m.all = append(m.all, r)
		m.current[key] = len(m.all) - 1
	}
	if order.Key != "" {
		m.done[order.Key] = store.Done{Key: order.Key, Digest: hexOf(order.Digest), First: int64(before) + 1, Last: int64(len(m.all))}
	}
	return store.Receipt{Records: slices.Clone(m.all[before:])}, nil
}

// unchanged is the entry that the one change of an order would leave as it is.
func (m *Model) unchanged(order *store.Order) (now store.Record, same bool) {
	c := &order.Changes[0]
	at, known := m.current[c.Entry.Key]
	if len(order.Changes) > 1 || c.Deed != store.Replace || !known {
		return now, false
	}
	now = m.all[at]
	return now, !now.Gone && (c.If == store.AnyVersion || c.If == now.Version) && c.Entry.Same(&now.Entry)
}

// like is the id of an entry of the kind that differs from a key at most in its capitals; its
// own first, empty for none.
func (m *Model) like(key store.Key) string {
	if _, known := m.current[key]; known {
		return key.ID
	}
	first := ""
	for other := range m.current {
		if other.Kind == key.Kind && strings.EqualFold(other.ID, key.ID) && (first == "" || other.ID < first) {
			first = other.ID
		}
	}
	return first
}

func (m *Model) takeBack(before int, old map[store.Key]int) {
	m.all = m.all[:before]
	for key, at := range old {
		if at < 0 {
			delete(m.current, key)
		} else {
			m.current[key] = at
		}
	}
}

// next is the version that a change makes.
func (m *Model) next(c *store.Change) (store.Record, store.Why) {
	at, known := m.current[c.Entry.Key]
	if c.Deed == store.Create {
		if m.like(c.Entry.Key) != "" {
			return store.Record{}, store.Exists
		}
		return m.there(store.Record{Entry: c.Entry, Version: 1, Restores: store.NoUndo}, nil)
	}
	if !known {
		return store.Record{}, store.NotFound
	}
	now := m.all[at]
	if c.If != store.AnyVersion && c.If != now.Version {
		return store.Record{}, store.Stale
	}
	if now.Gone && c.Deed != store.Undo {
		return store.Record{}, store.WasGone
	}
	if c.To >= now.Version {
		return store.Record{}, store.NoVersion
	}
	switch c.Deed {
	case store.Replace:
		if c.Entry.Kind == store.Piece && c.Entry.Of != now.Of {
			return store.Record{}, store.Malformed
		}
		return m.there(store.Record{Entry: c.Entry, Version: now.Version + 1, Restores: store.NoUndo}, &now)
	case store.Remove:
		return store.Record{Entry: now.Entry, Version: now.Version + 1, Restores: store.NoUndo, Gone: true}, ""
	default:
	}
	return m.undone(&now, c.To)
}

// undone is the version that an undo makes.
func (m *Model) undone(now *store.Record, to int64) (store.Record, store.Why) {
	versions := m.versions(now.Key)
	if to == 0 {
		standing := now.Version
		if now.Restores != store.NoUndo && now.Restores != 0 { // what took the adding back is taken back itself
			standing = now.Restores
		}
		to = standing - 1
	}
	if to == 0 {
		return store.Record{Entry: now.Entry, Version: now.Version + 1, Restores: 0, Gone: true}, ""
	}
	was := versions[to-1]
	from := to
	if was.Restores != store.NoUndo {
		from = was.Restores
	}
	return m.there(store.Record{Entry: was.Entry, Version: now.Version + 1, Restores: from, Gone: was.Gone}, now)
}

// there refuses what needs something that is not there, and did not need it before.
func (m *Model) there(r store.Record, before *store.Record) (store.Record, store.Why) {
	if r.Gone {
		return r, ""
	}
	for _, named := range r.References() {
		had := func(was store.Reference) bool { return was.Key == named.Key }
		if before != nil && !before.Gone && slices.ContainsFunc(before.References(), had) {
			continue
		}
		at, known := m.current[named.Key]
		if !known || m.all[at].Gone {
			m.missing = named
			return store.Record{}, store.Missing
		}
	}
	return r, ""
}

func (m *Model) versions(key store.Key) []store.Record {
	var all []store.Record
	for _, r := range m.all {
		if r.Key == key {
			all = append(all, r)
		}
	}
	return all
}

// Get is the current version of an entry.
func (m *Model) Get(_ context.Context, key store.Key) (store.Record, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	at, known := m.current[key]
	if !known {
		return store.Record{}, &store.Refusal{Why: store.NotFound, Key: key}
	}
	return m.all[at], nil
}

// List is a page of entries.
func (m *Model) List(_ context.Context, q *store.Query) (page []store.Record, total int, err error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for key, at := range m.current {
		r := m.all[at]
		sought := strings.ToLower(r.ID + " " + r.Label)
		if key.Kind == q.Kind && r.Gone == q.Gone && (q.Of == store.Key{} || r.Of == q.Of) && (q.Form == "" || r.Form == q.Form) &&
			(q.Place == "" || r.Place == q.Place) && (q.From == "" || r.Day >= q.From) &&
			(q.Until == "" || r.Day != "" && r.Day <= q.Until) && strings.Contains(sought, strings.ToLower(q.Text)) {
			page = append(page, r)
		}
	}
	slices.SortFunc(page, func(a, b store.Record) int {
		if by := strings.Compare(a.Day, b.Day); by != 0 {
			return by
		}
		return strings.Compare(a.ID, b.ID)
	})
	total = len(page)
	from := min(max(q.Offset, 0), total)
	return page[from:min(from+q.Limit, total)], total, nil
}

// History is every version of an entry.
func (m *Model) History(_ context.Context, key store.Key) ([]store.Record, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	all := m.versions(key)
	if all == nil {
		return nil, &store.Refusal{Why: store.NotFound, Key: key}
	}
	return all, nil
}

// Since is every version after a sequence.
func (m *Model) Since(_ context.Context, sequence int64, most int) ([]store.Record, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	from := min(sequence, int64(len(m.all)))
	return slices.Clone(m.all[from:min(from+int64(most), int64(len(m.all)))]), nil
}

// Done is every order that was carried out under a key.
func (m *Model) Done(context.Context) ([]store.Done, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var all []store.Done
	for _, d := range m.done {
		all = append(all, d)
	}
	slices.SortFunc(all, func(a, b store.Done) int { return strings.Compare(a.Key, b.Key) })
	return all, nil
}

// Learn keeps what was found out about an entry.
func (m *Model) Learn(_ context.Context, what *store.Learned) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.learned[what.Key] = *what
	return nil
}

// Learned is all that was found out.
func (m *Model) Learned(context.Context) ([]store.Learned, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.SortedFunc(maps.Values(m.learned), func(a, b store.Learned) int {
		return strings.Compare(string(a.Kind)+"/"+a.ID, string(b.Kind)+"/"+b.ID)
	}), nil
}

// Load fills an empty rack.
func (m *Model) Load(_ context.Context, all []store.Record, done []store.Done, photos []store.Photo) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.all) > 0 {
		return &store.Refusal{Why: store.NotEmpty}
	}
	m.all = slices.Clone(all)
	for i := range m.all {
		m.current[m.all[i].Key] = i
	}
	for _, d := range done {
		m.done[d.Key] = d
	}
	for i := range photos {
		m.photos[photos[i].Key] = append(m.photos[photos[i].Key], photos[i])
	}
	return nil
}

// PutPhoto keeps the photo of wood that is there.
func (m *Model) PutPhoto(_ context.Context, p *store.Photo, seen *store.Seen) (store.Photo, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if at, known := m.current[p.Key]; !known || m.all[at].Gone {
		return store.Photo{}, &store.Refusal{Why: store.NotFound, Key: p.Key}
	}
	now := store.Photo{Key: p.Key}
	if all := m.photos[p.Key]; len(all) > 0 {
		now = all[len(all)-1]
	}
	next := *p
	next.Version, next.Size, next.At = now.Version+1, int64(len(p.Body)), modelTime
	if next.Size > 0 {
		next.Digest = store.DigestOf(p.Body)
	}
	if next.Digest == now.Digest && next.Digest != "" {
		return now, nil
	}
	if there := now.Digest != ""; seen.None && there || seen.Any && !there || !seen.None && !seen.Any && seen.Digest != now.Digest {
		return store.Photo{}, &store.Refusal{Why: store.Stale, Key: p.Key, Version: now.Version}
	}
	m.photos[p.Key] = append(m.photos[p.Key], next)
	return next, nil
}

// Photo is the current photo of wood.
func (m *Model) Photo(_ context.Context, key store.Key) (store.Photo, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if all := m.photos[key]; len(all) > 0 && all[len(all)-1].Digest != "" {
		return all[len(all)-1], nil
	}
	return store.Photo{}, &store.Refusal{Why: store.NotFound, Key: key}
}

// Photos are the current photos of all wood.
func (m *Model) Photos(context.Context) ([]store.Photo, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var all []store.Photo
	for _, of := range m.photos {
		if last := of[len(of)-1]; last.Digest != "" {
			last.Body = nil
			all = append(all, last)
		}
	}
	return all, nil
}

// EachPhoto tells every version of every photo.
func (m *Model) EachPhoto(_ context.Context, each func(*store.Photo) error) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	keys := slices.SortedFunc(maps.Keys(m.photos), func(a, b store.Key) int {
		return strings.Compare(string(a.Kind)+"/"+a.ID, string(b.Kind)+"/"+b.ID)
	})
	for _, key := range keys {
		for i := range m.photos[key] {
			if err := each(&m.photos[key][i]); err != nil {
				return err
			}
		}
	}
	return nil
}

// Check finds nothing: the model cannot be damaged.
func (m *Model) Check(context.Context) error { return nil }

// Close does nothing.
func (m *Model) Close() error { return nil }
