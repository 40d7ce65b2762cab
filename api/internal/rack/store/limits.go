package store

import (
	"encoding/json"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Limits of what is kept. Own choice: a shop of forty billets that are weighed every week
// for fifty years makes 104 000 readings.
const (
	MostBody     = 256 << 10 // bytes of one document: a record of air is the longest
	MostChanges  = 1000      // in one order
	MostEntries  = 200_000   // of one shop, the gone ones counted
	MostVersions = 10_000    // of one entry
	MostLabel    = 200       // bytes
	MostForm     = 100       // bytes
	MostPage     = 1000      // entries
)

// id is how every id and every key of an order looks.
var id = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`)

// belongs says what an entry of a kind may belong to.
var belongs = map[Kind][]Kind{
	Billet: {""}, Place: {""}, Target: {""},
	Piece: {Billet, Piece}, Plan: {Billet, Piece}, Reading: {Billet, Piece}, Stay: {Billet, Piece}, Event: {Billet, Piece},
	Note: {"", Billet, Piece, Plan, Place, Target},
}

// check says what is not well formed of an order; nil if all is.
func (o *Order) check() *Refusal {
	if !plain(o.By) || len(o.By) > 64 {
		return malformed(0, Key{}, "the sender has a key id of at most 64 characters")
	}
	if o.Key != "" && !id.MatchString(o.Key) {
		return malformed(0, Key{}, "the key of an order is 1 to 64 letters, digits, dots, hyphens and underscores")
	}
	if len(o.Changes) == 0 || len(o.Changes) > MostChanges {
		return malformed(0, Key{}, "an order has 1 to "+strconv.Itoa(MostChanges)+" changes")
	}
	for i := range o.Changes {
		if detail := o.Changes[i].wrong(); detail != "" {
			return malformed(i, o.Changes[i].Entry.Key, detail)
		}
	}
	return nil
}

func malformed(change int, key Key, detail string) *Refusal {
	return &Refusal{Why: Malformed, Change: change, Key: key, Detail: detail}
}

// wrong says what is not well formed of a change.
func (c *Change) wrong() string {
	e := &c.Entry
	if _, known := belongs[e.Kind]; !known {
		return "there is no kind of entry called that"
	}
	if !id.MatchString(e.ID) {
		return "an id is 1 to 64 letters, digits, dots, hyphens and underscores, a letter or a digit first"
	}
	switch c.Deed {
	case Create:
		if c.If != 0 {
			return "what is created has no version yet"
		}
		return e.wrong()
	case Replace:
		if c.If < 1 && c.If != AnyVersion {
			return "the version that was seen is needed"
		}
		return e.wrong()
	case Remove, Undo:
		if c.If < 1 && c.If != AnyVersion {
			return "the version that was seen is needed"
		}
		if c.To < 0 || c.Deed == Remove && c.To != 0 {
			return "the version to go back to is at least 1"
		}
		return ""
	}
	return "a change creates, replaces, removes or undoes"
}

// wrong says what is not well formed of an entry whose key is right.
func (e *Entry) wrong() string {
	fits := false
	for _, kind := range belongs[e.Kind] {
		fits = fits || kind == e.Of.Kind
	}
	switch {
	case !fits || e.Of.Kind == "" && e.Of.ID != "" || e.Of.Kind != "" && !id.MatchString(e.Of.ID):
		return "a " + string(e.Kind) + " does not belong to that"
	case e.Of == e.Key:
		return "nothing belongs to itself"
	case e.Day != "" && !isDay(e.Day):
		return "a day is a date such as 2026-03-01"
	case e.Place != "" && !id.MatchString(e.Place):
		return "place is the id of a place"
	case len(e.Form) > MostForm || len(e.Label) > MostLabel:
		return "the form or the label is too long"
	case !plain(e.Form) || !plain(e.Label):
		return "the form or the label is not plain text"
	case len(e.Body) == 0 || len(e.Body) > MostBody:
		return "a document holds 1 to " + strconv.Itoa(MostBody) + " bytes"
	case !json.Valid(e.Body) || !utf8.Valid(e.Body):
		return "a document is JSON"
	}
	return ""
}

// plain says that a text holds no control characters, and nothing that is not UTF-8.
func plain(text string) bool {
	return utf8.ValidString(text) && !strings.ContainsFunc(text, unicode.IsControl)
}

func isDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}
