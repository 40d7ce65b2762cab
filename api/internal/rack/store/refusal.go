package store

import (
	"fmt"
	"strconv"
)

// Why is the reason of a refusal.
type Why string

// Why an order or a question is refused.
const (
	NotFound  Why = "not_found"  // there is no such entry, and never was
	Missing   Why = "missing"    // what the entry names is not there
	Exists    Why = "exists"     // an entry with this id, or one that differs only in its capitals, is there, or was
	WasGone   Why = "gone"       // the entry was removed
	Stale     Why = "stale"      // the sender saw another version
	NoVersion Why = "no_version" // there is no such version to go back to
	UnderWay  Why = "under_way"  // an order with this key is being carried out
	OtherBody Why = "other_body" // another order was sent under this key
	Malformed Why = "malformed"  // a change is not well formed, or too large
	Full      Why = "full"       // the rack holds as much as it may
	NotEmpty  Why = "not_empty"  // only an empty rack is loaded
)

// Refusal says why an order or a question is not carried out. Nothing was changed.
type Refusal struct { //nolint:errname // it is what the rack does
	Why     Why
	Change  int    // of the order
	Key     Key    // what it speaks of
	Pointer string // of the member that is wrong, where it is one
	Version int64  // that is current, where the sender saw another
	Detail  string
}

func (r *Refusal) Error() string {
	text := fmt.Sprintf("%s %s: %s", r.Key.Kind, strconv.Quote(r.Key.ID), r.Why)
	if r.Detail != "" {
		text += ": " + r.Detail
	}
	return text
}
