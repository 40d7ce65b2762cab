package rack

import (
	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// StayEntry is a time that wood lay somewhere, from a day on.
type StayEntry struct {
	ID string `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	OfWood
	From  string      `json:"from" validate:"required,datetime=2006-01-02" description:"first day there; it ends when the next one begins"`
	Place string      `json:"place,omitempty" validate:"omitempty,id" description:"id of a place on the rack whose air is known. Give this or stay"`
	Stay  *shelf.Stay `json:"stay,omitempty" description:"the air there. Give this or place"`
	Note  string      `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing is read from it"`
}

// Joins says which members go together.
func (*StayEntry) Joins() wire.Joined {
	wood := [][]string{{"billet"}, {"piece"}}
	return wire.Joined{OneOf: [][]string{{"place"}, {"stay"}}, AnyOf: wood, NotAll: [][]string{{"billet", "piece"}}}
}

func (s *StayEntry) entry(*shelf.Tables) (store.Entry, error) { //nolint:unparam // others can be wrong
	return store.Entry{Key: store.Key{Kind: store.Stay, ID: s.ID}, Of: s.of(), Day: s.From, Place: s.Place}, nil
}

// KeptStay is a stay on the rack.
type KeptStay struct {
	Keeping
	Warned
	StayEntry
}

// TargetEntry is something that the shop builds for.
type TargetEntry struct {
	ID     string           `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	Name   string           `json:"name" validate:"required,max=100" description:"for people"`
	Target *shelf.Condition `json:"target_condition" validate:"required" description:"what its wood is to come to"`
	Parts  []shelf.Part     `json:"parts,omitempty" validate:"max=20,dive" description:"what is wanted for it. Left out: told with a plan"`
	Note   string           `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing is read from it"`
}

func (e *TargetEntry) entry(*shelf.Tables) (store.Entry, error) { //nolint:unparam // others can be wrong
	return store.Entry{Key: store.Key{Kind: store.Target, ID: e.ID}, Label: wire.Clipped(e.Name)}, nil
}

// KeptTarget is a target on the rack.
type KeptTarget struct {
	Keeping
	Warned
	TargetEntry
}

// NoteEntry is a remark on anything else.
type NoteEntry struct {
	ID   string `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	Of   *Noted `json:"of,omitempty" description:"what it is on. Left out: on the shop"`
	Date string `json:"date,omitempty" validate:"omitempty,datetime=2006-01-02" description:"day that it speaks of. Left out: none"`
	Text string `json:"text" validate:"required,max=10000" description:"the remark; nothing is read from it"`
}

// Noted is what a note is on.
type Noted struct {
	Kind string `json:"kind" validate:"required,oneof=billet piece plan place target" description:"of the entry"`
	ID   string `json:"id" validate:"required,id" description:"of the entry"`
}

func (n *NoteEntry) entry(*shelf.Tables) (store.Entry, error) { //nolint:unparam // others can be wrong
	e := store.Entry{Key: store.Key{Kind: store.Note, ID: n.ID}, Day: n.Date}
	if n.Of != nil {
		e.Of = store.Key{Kind: store.Kind(n.Of.Kind), ID: n.Of.ID}
	}
	return e, nil
}

// KeptNote is a note on the rack.
type KeptNote struct {
	Keeping
	Warned
	NoteEntry
}
