package wire

import (
	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// Spelled is an object of a request that may also be given as a text alone: a wood as its
// name, a finish as its kind.
type Spelled interface {
	// Spell takes the text in place of the object.
	Spell(text string)
	// IsSpelled reports that a text was given: then it has no members to point at.
	IsSpelled() bool
}

// Spelling is a Spelled object of which only some texts may be given.
type Spelling interface {
	Spelled
	// Spellings are those texts.
	Spellings() []string
}

// ReadSpelled reads either form: the text into v, or the object into members, which is v
// seen as a type without a method to read itself.
func ReadSpelled[T any](dec *jsontext.Decoder, v Spelled, members *T) error {
	if dec.PeekKind() != '"' {
		return json.UnmarshalDecode(dec, members)
	}
	var text string
	if err := json.UnmarshalDecode(dec, &text); err != nil {
		return err
	}
	v.Spell(text)
	return nil
}
