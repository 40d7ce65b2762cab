// Package store keeps a rack: billets with their readings, stays, events, pieces and
// notes, the places they lie in and what is built for. It speaks of these and not of a
// database; each database is one implementation of Store, and all of them pass the same
// tests (package storetest).
//
// Nothing is ever overwritten. Each change adds a version with its time, and undo adds
// one more. A sender makes its own ids and a key for each order before it sends, so that
// an order that is sent twice is carried out once.
package store

import (
	"bytes"
	"context"
	"reflect"
	"time"

	"github.com/go-json-experiment/json/jsontext"
)

// Kind is what an entry of the rack is.
type Kind string

// What is kept.
const (
	Billet  Kind = "billet"  // a piece of wood on the rack
	Reading Kind = "reading" // a weight, a meter reading or a sample of a billet or a piece
	Stay    Kind = "stay"    // a time that a billet lay somewhere
	Event   Kind = "event"   // what was done to a billet: trimmed, moved, resawn
	Place   Kind = "place"   // a room or a corner of the shop
	Piece   Kind = "piece"   // a leaf or an offcut, with the billet or piece it was cut from
	Plan    Kind = "plan"    // how a billet is to be sawn
	Target  Kind = "target"  // what is built for
	Note    Kind = "note"    // a remark on anything else
)

// Kinds are all of them, those that others belong to first.
var Kinds = []Kind{Place, Target, Billet, Plan, Piece, Reading, Stay, Event, Note}

// Key names one entry. Ids are unique within a kind.
type Key struct {
	Kind Kind   `json:"kind"`
	ID   string `json:"id"`
}

// Entry is what a sender keeps in the rack. The document is kept byte for byte; the
// members beside it are what lists are filtered and ordered by.
type Entry struct {
	Key
	Of    Key    `json:"of,omitzero"`     // what it belongs to; none for places, targets and billets
	Form  string `json:"form,omitempty"`  // kind of a reading or an event, species of a billet
	Day   string `json:"day,omitempty"`   // such as 2026-03-01
	Place string `json:"place,omitempty"` // id of the place it lies in
	Label string `json:"label,omitempty"` // for people, searched by text
	Body  Text   `json:"body"`            // the document
}

// Same reports entries that say the same, whatever the spaces of their documents and the order
// of their members.
func (e *Entry) Same(other *Entry) bool {
	one, two := *e, *other
	one.Body, two.Body = nil, nil
	return reflect.DeepEqual(one, two) && SameDocument(e.Body, other.Body)
}

// SameDocument reports documents that say the same, whatever their spaces and the order of
// their members.
func SameDocument(a, b []byte) bool {
	one, other := jsontext.Value(bytes.Clone(a)), jsontext.Value(bytes.Clone(b))
	return one.Canonicalize() == nil && other.Canonicalize() == nil && bytes.Equal(one, other)
}

// Text is a document as it was sent; written as JSON it is a text, so that no byte changes.
type Text []byte

// MarshalText gives the text.
func (t Text) MarshalText() ([]byte, error) { return t, nil }

// UnmarshalText takes it.
func (t *Text) UnmarshalText(text []byte) error {
	*t = append(Text(nil), text...)
	return nil
}

// Record is one version of an entry.
type Record struct {
	Entry
	Version  int64     `json:"version"`  // from 1
	Restores int64     `json:"restores"` // the version that an undo brought back, 0 for none being there, or NoUndo
	Gone     bool      `json:"gone"`     // it was removed; an undo brings it back
	Sequence int64     `json:"sequence"` // its place among all changes of the rack, from 1
	At       time.Time `json:"at"`       // by the clock of the machine, in microseconds; Sequence is what orders
	By       string    `json:"by"`       // key id of the sender; empty where no keys are asked for
}

// Before is the version before the last change, 0 for none. A change that was itself an undo counts as the version it brought back; one
// that took the adding back is taken back itself.
func (r *Record) Before() (version int64) {
	if r.Restores > 0 {
		return r.Restores - 1
	}
	return r.Version - 1
}

// NoUndo says that a version was not made by an undo.
const NoUndo int64 = -1

// Deed is what a change does.
type Deed string

// What changes do.
const (
	Create  Deed = "create"
	Replace Deed = "replace"
	Remove  Deed = "remove"
	Undo    Deed = "undo"
)

// AnyVersion is asked of an entry whatever its version is.
const AnyVersion int64 = -1

// Change is one change of one entry.
type Change struct {
	Deed  Deed
	Entry Entry // of Remove and Undo only the key
	If    int64 // version that the sender saw, or AnyVersion; a lost update is refused. Create asks for none
	To    int64 // of Undo: the version to bring back; 0: the one before the last change
}

// Order is what a sender wants done, all of it or nothing.
type Order struct {
	Key     string   // made by the sender; sent again, it gives the saved answer. Empty: none is saved
	Digest  [32]byte // of what was sent, by which another order under the same key is told
	By      string
	Changes []Change
}

// Receipt is the answer to an order.
type Receipt struct {
	Records  []Record // as the changes left them, in their order
	Repeated bool     // it was done before, and this is the saved answer; or it would change nothing
}

// Query asks for a page of entries of one kind, in order of day, then id.
type Query struct {
	Kind          Kind
	Of            Key    // zero: of anything
	Form          string // "": any
	Place         string // "": anywhere
	From, Until   string // days, both inclusive; "": open
	Text          string // part of an id or a label, whatever its case; "": any
	Gone          bool   // those that were removed, in place of those that are there
	Offset, Limit int
}

// Store keeps the rack of one shop. It is safe for concurrent use. Errors that speak of
// what was asked are *Refusal; all others are failures of the store.
type Store interface {
	// Apply carries out an order, all of it or nothing, and returns when it is on disk. One
	// change that leaves its entry as it is makes no version.
	Apply(ctx context.Context, order *Order) (Receipt, error)
	// Get is the current version of an entry, also of one that is gone.
	Get(ctx context.Context, key Key) (Record, error)
	// List is a page of entries, and how many there are in all.
	List(ctx context.Context, q *Query) (page []Record, total int, err error)
	// History is every version of an entry, the first one first.
	History(ctx context.Context, key Key) ([]Record, error)
	// Since is every version after a sequence, in order, at most so many.
	Since(ctx context.Context, sequence int64, most int) ([]Record, error)
	// Done is every order that was carried out under a key, in order of the keys.
	Done(ctx context.Context) ([]Done, error)
	// Learn keeps what was found out about an entry, in place of what was known before. It
	// can be found out again: it is no version, and is not exported.
	Learn(ctx context.Context, what *Learned) error
	// Learned is all that was found out, in no order.
	Learned(ctx context.Context) ([]Learned, error)
	// PutPhoto keeps the photo of wood that is there, or that it has none any more where it
	// holds no bytes, and returns when that is on disk. The same photo again is no change.
	PutPhoto(ctx context.Context, p *Photo, seen *Seen) (Photo, error)
	// Photo is the current photo of wood, with its bytes.
	Photo(ctx context.Context, key Key) (Photo, error)
	// Photos are the current photos of all wood, without their bytes.
	Photos(ctx context.Context) ([]Photo, error)
	// EachPhoto tells every version of every photo, in order of kinds, ids and versions.
	EachPhoto(ctx context.Context, each func(*Photo) error) error
	// Load fills an empty rack with all versions of another in order, its orders and its
	// photos.
	Load(ctx context.Context, all []Record, done []Done, photos []Photo) error
	// Check looks for what cannot be right.
	Check(ctx context.Context) error
	Close() error
}

// Backuper is a store that can copy itself into a file while it is in use.
type Backuper interface {
	Backup(ctx context.Context, file string) error
}

// Done is an order that was carried out under a key. The versions it made have
// consecutive sequences.
type Done struct {
	Key    string `json:"key"`
	Digest string `json:"digest"` // in hex
	First  int64  `json:"first"`  // sequence of the first version it made
	Last   int64  `json:"last"`
}

// Learned is what was found out about an entry from what is kept.
type Learned struct {
	Key
	Basis  string // of all that it rests on, in hex
	Answer Text
}
