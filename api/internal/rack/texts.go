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

// plainTexts refuses control characters in the texts of an entry, each at its member: lists,
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
		isControl := unicode.IsControl
		told := "; write it on one line"
		if slices.Contains(remarks, at.LastToken()) {
			isControl = func(r rune) bool { return unicode.IsControl(r) && !strings.ContainsRune("\n\r\t", r) }
			told = " but line breaks and tabs"
		}
		if strings.ContainsFunc(token.String(), isControl) {
			return &wire.Refused{Why: wire.Wrong, Pointer: string(at), Code: "invalid_format", Detail: at.LastToken() + " holds no control characters" + told}
		}
	}
}
