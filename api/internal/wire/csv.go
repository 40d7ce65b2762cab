package wire

import (
	"strings"
)

// QuotedCell writes a text as a cell of CSV. A text that a table program would
// take for a formula gets an apostrophe before it.
func QuotedCell(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		text = "'" + text
	}
	if strings.ContainsAny(text, ",\"\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}
