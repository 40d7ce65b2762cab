package rack

import (
	"bytes"
	"slices"
	"strings"
	"unicode"

	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/wire"
)

// remarks are the members that people write more than a line into.
var remarks = []string{"note", "text"}

// unseenMark reports a mark that nobody sees, of direction or without a width, by which a text is
// not what it looks like; the two that join and part letters are part of some scripts.
func unseenMark(r rune) bool {
	const nonJoiner, joiner = '\u200c', '\u200d'
	return unicode.Is(unicode.Cf, r) && r != nonJoiner && r != joiner
}

// plainTexts refuses control characters, marks that nobody sees, and nothing but blanks in the texts of an entry, each at its member: lists,
// labels and sheets show a text on one line. Remarks may hold line breaks and tabs.
func plainTexts(body []byte) error {
	in := jsontext.NewDecoder(bytes.NewReader(body))
	for {
		token, err := in.ReadToken()
		if err != nil {
			return nil //nolint:nilerr // it was read before; here it ends
		}
		if token.Kind() != '"' {
			continue
		}
		at := in.StackPointer()
		isControl := func(r rune) bool { return unicode.IsControl(r) || unseenMark(r) }
		told := "; write it on one line"
		if slices.Contains(remarks, at.LastToken()) {
			isControl = func(r rune) bool {
				return (unicode.IsControl(r) || unseenMark(r)) && !strings.ContainsRune("\n\r\t", r)
			}
			told = " but line breaks and tabs"
		}
		if strings.ContainsFunc(token.String(), isControl) {
			return &wire.Refused{Why: wire.Wrong, Pointer: string(at), Code: "invalid_format", Detail: at.LastToken() + " holds no control characters, marks of direction or characters without a width" + told}
		}
		if text := token.String(); text != "" && strings.TrimSpace(text) == "" {
			return &wire.Refused{Why: wire.Wrong, Pointer: string(at), Code: "invalid_format", Detail: at.LastToken() + " is more than blanks; leave it out where there is nothing to say"}
		}
	}
}
