package wire

import "strings"

// QuotedCell writes a text as a cell of CSV (RFC 4180), untouched. A table program may take
// one that begins with = + - or @ for a formula, quoted or not; the guide says how to read
// such a table.
func QuotedCell(text string) string {
	if strings.ContainsAny(text, ",\"\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// TextCell writes a name as a cell that a table program takes as text: one that begins with
// = + - or @, which it may take for a formula, or with a space, gets an apostrophe before it.
func TextCell(name string) string {
	if name != "" && strings.ContainsRune("=+-@ \t\r\n", rune(name[0])) {
		name = "'" + name
	}
	return QuotedCell(name)
}
