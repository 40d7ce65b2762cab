package store

import (
	"encoding/json"
	"strings"
)

// Reference is a member of an entry that names another one, which has to be there.
type Reference struct {
	Pointer string // of the member, in the document
	Key     Key
}

// pointed is a member that names an entry of a kind.
type pointed struct {
	at   string
	kind Kind
}

// refers says where entries of a kind name others. Whatever way an entry comes in by, this is
// what is looked for, and what is told of who names an entry that goes.
var refers = map[Kind]struct {
	of       string // pointer of what it belongs to; one that ends in a slash is followed by the kind
	place    string
	document []pointed // members that only the document has
}{
	Billet:  {place: "/place", document: []pointed{{"/target", Target}}},
	Piece:   {of: "/parent/", place: "/place", document: []pointed{{"/target", Target}, {"/plan/id", Plan}}},
	Plan:    {of: "/"},
	Reading: {of: "/"},
	Stay:    {of: "/", place: "/place"},
	Event:   {of: "/", place: "/event/place"},
	Note:    {of: "/of/id"},
}

// References are the entries that this one names.
func (e *Entry) References() []Reference {
	var all []Reference
	named := refers[e.Kind]
	if e.Of.Kind != "" {
		at := named.of
		if strings.HasSuffix(at, "/") {
			at += string(e.Of.Kind)
		}
		all = append(all, Reference{at, e.Of})
	}
	if e.Place != "" {
		all = append(all, Reference{named.place, Key{Place, e.Place}})
	}
	for _, m := range named.document {
		if id := textAt(e.Body, m.at); id != "" {
			all = append(all, Reference{m.at, Key{m.kind, id}})
		}
	}
	return all
}

// textAt is the text at a pointer of a document, whose names hold nothing to unescape; empty
// where there is none.
func textAt(document []byte, pointer string) string {
	for name := range strings.SplitSeq(pointer[1:], "/") {
		var object map[string]json.RawMessage
		if json.Unmarshal(document, &object) != nil {
			return ""
		}
		document = object[name]
	}
	var text string
	if json.Unmarshal(document, &text) != nil {
		return ""
	}
	return text
}

// needs are the entries that have to be there for this one.
func (e *Entry) needs() []Key {
	var all []Key
	for _, r := range e.References() {
		all = append(all, r.Key)
	}
	return all
}
