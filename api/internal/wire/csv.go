package wire

import (
	"strings"
)

// QuotedCell writes a text as a cell of CSV (RFC 4180), untouched. A table program may take
// one that begins with = + - or @ for a formula, quoted or not; the guide says how to read
// such a table.
func QuotedCell(text string) string {
	if strings.ContainsAny(text, ",\"\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}
