package rack

import (
	"bytes"
	"context"
	"errors"
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// Patch changes some members of the entry of the path (RFC 7396): what comes of it is read
// and checked as if all of it had been sent.
func Patch(kind store.Kind, read func(body []byte) (Entered, error)) func(context.Context, *Rack, *shelf.Tables, *wire.Sent) (*Kept, error) {
	return func(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent) (*Kept, error) {
		p := patching{r, t, kind, read}
		if !slices.Contains(s.Seen, "*") {
			return p.once(ctx, s)
		}
		// Whatever is there is changed: those of one program take turns, and what another one, or
		// somebody who saw the version, changed in between is merged with anew.
		r.merging.Lock()
		defer r.merging.Unlock()
		for try := 1; ; try++ {
			done, err := p.once(ctx, s)
			var refused *wire.Refused
			if !errors.As(err, &refused) || refused.Why != wire.Changed || s.New || try == mostMerges {
				return done, err
			}
		}
	}
}

// mostMerges is how often changes of members are merged with what is there now. Own choice.
const mostMerges = 100

// patching is what changes of members of entries of a kind are carried out with.
type patching struct {
	rack   *Rack
	tables *shelf.Tables
	kind   store.Kind
	read   func(body []byte) (Entered, error)
}

// once merges changes with the entry as it is now, and keeps what comes of it if that is what it
// still is.
func (p *patching) once(ctx context.Context, s *wire.Sent) (*Kept, error) {
	now, err := p.rack.current(ctx, p.kind, s)
	if err != nil {
		return nil, err
	}
	seen, err := sawOf(&now, s)
	if err != nil {
		return nil, err
	}
	if seen == store.AnyVersion {
		seen = now.Version // that is what is merged with
	}
	if changes, err := objectOf(s.Body); err == nil && changes["id"] != nil && textOf(changes["id"]) != now.ID {
		return nil, otherID(s) // whatever else it would not go with
	}
	whole, err := merged(now.Body, s.Body)
	if err != nil {
		return nil, &wire.Refused{Why: wire.Wrong, Code: "wrong_type", Detail: errNoPatch.Error()}
	}
	req, err := p.read(whole)
	if err != nil {
		return nil, err
	}
	entry, err := entryOf(p.tables, req, whole)
	if err != nil {
		return nil, err
	}
	return p.rack.change(ctx, p.tables, s, store.Change{Deed: store.Replace, Entry: entry, If: seen})
}

var errNoPatch = errors.New("send a JSON object with the members to change; null takes one off")

// merged is an object with another merged into it. Members that are not named stay as they
// were written, in their order; new ones stand at the end.
func merged(into, patch []byte) ([]byte, error) {
	changes, err := membersOf(patch)
	if err != nil {
		return nil, errNoPatch
	}
	old, err := membersOf(into)
	if err != nil {
		old = nil // what is no object is as if it held nothing
	}
	var out []member
	for _, m := range old {
		change := find(changes, m.name)
		if change == nil {
			out = append(out, m)
			continue
		}
		if m.value, err = mergedValue(m.value, change.value); err != nil {
			return nil, err
		}
		if m.value != nil {
			out = append(out, m)
		}
	}
	for _, m := range changes {
		if find(old, m.name) != nil {
			continue
		}
		if m.value, err = mergedValue(nil, m.value); err != nil {
			return nil, err
		}
		if m.value != nil {
			out = append(out, m)
		}
	}
	return objectText(out)
}

// mergedValue is a value after a change; nil where it was taken off.
func mergedValue(old, change jsontext.Value) (jsontext.Value, error) {
	switch change.Kind() {
	case 'n':
		return nil, nil
	case '{':
		return merged(old, change)
	default:
		return change, nil
	}
}

// member is one of an object, as it was written.
type member struct {
	name  string
	value jsontext.Value
}

func find(all []member, name string) *member {
	for i := range all {
		if all[i].name == name {
			return &all[i]
		}
	}
	return nil
}

// membersOf reads an object.
func membersOf(text []byte) ([]member, error) {
	in := jsontext.NewDecoder(bytes.NewReader(text))
	if in.PeekKind() != '{' {
		return nil, errNoPatch
	}
	var all []member
	if _, err := in.ReadToken(); err != nil {
		return nil, err
	}
	for in.PeekKind() != '}' {
		name, err := in.ReadToken()
		if err != nil {
			return nil, err
		}
		m := member{name: name.String()}
		value, err := in.ReadValue()
		if err != nil {
			return nil, err
		}
		m.value = value.Clone()
		all = append(all, m)
	}
	if _, err := in.ReadToken(); err != nil {
		return nil, err
	}
	return all, nil
}

// objectText writes an object.
func objectText(all []member) ([]byte, error) {
	var out bytes.Buffer
	to := jsontext.NewEncoder(&out, jsontext.SpaceAfterComma(true), jsontext.SpaceAfterColon(true), jsontext.PreserveRawStrings(true))
	if err := to.WriteToken(jsontext.BeginObject); err != nil {
		return nil, err
	}
	for _, m := range all {
		if err := to.WriteToken(jsontext.String(m.name)); err != nil {
			return nil, err
		}
		if err := to.WriteValue(m.value); err != nil {
			return nil, err
		}
	}
	if err := to.WriteToken(jsontext.EndObject); err != nil {
		return nil, err
	}
	return bytes.TrimSpace(out.Bytes()), nil
}
