package rack

import (
	"errors"
	"reflect"
	"strings"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// BilletEntry is a billet as it is sent to the rack.
type BilletEntry struct {
	ID string `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	Lying
}

func (b *BilletEntry) entry(t *shelf.Tables) (store.Entry, error) {
	e, err := b.lies(t, b.ID)
	e.Key = store.Key{Kind: store.Billet, ID: b.ID}
	return e, err
}

// Lying is wood that lies in the shop, and what it is to become.
type Lying struct {
	Place  string           `json:"place,omitempty" validate:"omitempty,id" description:"id of the place it lies in now. Left out: not known"`
	Spot   string           `json:"spot,omitempty" validate:"max=64" description:"where in that place it lies, such as A-12: wood is weighed in the order of its spots. Left out: not known"`
	Billet *shelf.Billet    `json:"billet" validate:"required" description:"the piece"`
	Stays  []shelf.Stay     `json:"stays,omitempty" validate:"max=12,dive" description:"where it has lain since it was stacked and will go on lying, in order of time. Left out: told by the stays of the rack, by its events with a place, and by its place, where their air is known; else it is judged by its readings alone"`
	Target *shelf.Condition `json:"target_condition,omitempty" description:"what it is to come to. Left out: that of target, or it is asked with the question"`
	For    string           `json:"target,omitempty" validate:"omitempty,id" description:"id of the target that it is kept for. Left out: none"`
}

// lies is what is kept of it, but for its key.
func (l *Lying) lies(t *shelf.Tables, id string) (store.Entry, error) {
	if l.Billet.ID != "" && l.Billet.ID != id {
		return store.Entry{}, &wire.Refused{Why: wire.Wrong, Pointer: "/billet/id", Code: "conflict", Detail: "id of the billet is that of the entry; leave it out, or send the same"}
	}
	var notes method.Notes
	wood, err := l.Billet.WoodOf(t, "billet", &notes)
	e := store.Entry{Place: l.Place, Day: l.Billet.StackedOn, Label: wire.Clipped(l.Billet.Name)}
	if wood != nil && wood.Row != nil {
		e.Form = wood.Row.ID
	}
	return e, err
}

// OfWood is the billet or the piece that an entry is of.
type OfWood struct {
	Billet string `json:"billet,omitempty" validate:"omitempty,id" description:"id of the billet on the rack. Give this or piece"`
	Piece  string `json:"piece,omitempty" validate:"omitempty,id" description:"id of the piece on the rack. Give this or billet"`
}

// Joins says which members go together.
func (*OfWood) Joins() wire.Joined { return wire.Joined{OneOf: [][]string{{"billet"}, {"piece"}}} }

// of is the entry that it names; just one is named where what goes together was checked.
func (o *OfWood) of() store.Key {
	if o.Piece != "" {
		return store.Key{Kind: store.Piece, ID: o.Piece}
	}
	return store.Key{Kind: store.Billet, ID: o.Billet}
}

// Entered is a request that holds an entry of one kind.
type Entered interface {
	// entry is what is kept of it. Errors point at the request.
	entry(t *shelf.Tables) (store.Entry, error)
}

// entryOf is what is kept of an entry that was read from a body: what goes together in it, and
// in all that it holds, is checked first.
func entryOf(t *shelf.Tables, sent Entered, body []byte) (store.Entry, error) {
	if err := errors.Join(wire.CheckJoined(sent, ""), plainTexts(body)); err != nil {
		return store.Entry{}, err
	}
	entry, err := sent.entry(t)
	entry.Body = body
	return entry, err
}

// KeptBillet is a billet on the rack.
type KeptBillet struct {
	Keeping
	Warned
	BilletEntry
}

// ReadingEntry is a reading as it is sent to the rack.
type ReadingEntry struct {
	ID string `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	OfWood
	Reading *shelf.Reading `json:"reading" validate:"required" description:"what was read"`
}

func (r *ReadingEntry) entry(*shelf.Tables) (store.Entry, error) {
	e := store.Entry{Key: store.Key{Kind: store.Reading, ID: r.ID}, Of: r.of(), Day: r.Reading.Day(), Form: r.Reading.KindTold()}
	if e.Day == "" {
		return e, &wire.Refused{Why: wire.Wrong, Pointer: "/reading/date", Code: "missing", Detail: "date is needed: what is kept outlives the day of the answer"}
	}
	return e, nil
}

// KeptReading is a reading on the rack.
type KeptReading struct {
	Keeping
	Warned
	ReadingEntry
}

// EventEntry is something that was done to a billet.
type EventEntry struct {
	ID string `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	OfWood
	Event *Event `json:"event" validate:"required" description:"what was done"`
}

// Event is what was done to a billet on a day.
type Event struct {
	Kind       string         `json:"kind" validate:"required,oneof=felled sawn sealed stacked moved trimmed planed ripped resawn used" description:"what was done"`
	Date       string         `json:"date" validate:"required,datetime=2006-01-02" description:"day on which it was done"`
	Removed    *shelf.Removed `json:"removed,omitempty" description:"what was taken off. Left out: nothing"`
	MassBefore *wire.Mass     `json:"mass_before,omitempty" validate:"omitempty,gt=0,lte=5000" description:"of the billet just before. Left out: not weighed"`
	MassAfter  *wire.Mass     `json:"mass_after,omitempty" validate:"omitempty,gt=0,lte=5000" description:"of the billet just after. Left out: not weighed"`
	EndSeal    string         `json:"end_seal,omitempty" validate:"omitempty,oneof=sealed_fresh sealed_late bare" description:"how the ends are kept from then on. Left out: as before"`
	Place      string         `json:"place,omitempty" validate:"omitempty,id" description:"id of the place it lies in from then on. Left out: the same"`
	Note       string         `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing is read from it"`
}

// EventKinds are the kinds of events.
func EventKinds() []string {
	field, _ := reflect.TypeFor[Event]().FieldByName("Kind")
	_, kinds, _ := strings.Cut(field.Tag.Get("validate"), "oneof=")
	return strings.Fields(kinds)
}

func (e *EventEntry) entry(*shelf.Tables) (store.Entry, error) {
	return store.Entry{Key: store.Key{Kind: store.Event, ID: e.ID}, Of: e.of(), Day: e.Event.Date, Form: e.Event.Kind, Place: e.Event.Place}, nil
}

// KeptEvent is an event on the rack.
type KeptEvent struct {
	Keeping
	Warned
	EventEntry
}

// PlaceEntry is a room or a corner of the shop.
type PlaceEntry struct {
	ID   string      `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	Name string      `json:"name" validate:"required,max=100" description:"for people"`
	Stay *shelf.Stay `json:"stay,omitempty" description:"the air there, as a stay of a billet without its end. Left out: not known"`
	Note string      `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing is read from it"`
}

func (p *PlaceEntry) entry(*shelf.Tables) (store.Entry, error) { //nolint:unparam // others can be wrong
	return store.Entry{Key: store.Key{Kind: store.Place, ID: p.ID}, Label: wire.Clipped(p.Name)}, nil
}

// KeptPlace is a place on the rack.
type KeptPlace struct {
	Keeping
	Warned
	PlaceEntry
}
