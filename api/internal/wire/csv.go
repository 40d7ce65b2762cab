package wire

import (
	"errors"
	"strconv"
	"strings"

	"latewood/woodphys/method"
)

// QuotedCell writes a text as a cell of CSV (RFC 4180), untouched.
func QuotedCell(text string) string {
	if strings.ContainsAny(text, ",\"\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// Tabled is a text of a caller that goes into a table, and the member that holds it.
type Tabled struct{ Member, Text string }

// Named are the id and the name of an entry of a list, as a table holds them.
func Named(list string, i int, id, name string) []Tabled {
	at := list + "/" + strconv.Itoa(i) + "/"
	return []Tabled{{at + "id", id}, {at + "name", name}}
}

// NoFormulas refuses the texts of a table that a spreadsheet takes for a formula, quoted or
// not, and would run: those that begin with = + - @ or a control character. To change them
// would be to change a name. Each error points at its member.
func NoFormulas(texts ...Tabled) error {
	var all []error
	for _, one := range texts {
		first := strings.TrimLeft(one.Text, " ")
		if first == "" || !strings.ContainsRune("=+-@", rune(first[0])) && first[0] >= ' ' {
			continue
		}
		all = append(all, &method.Error{Code: method.Unsupported, Input: one.Member,
			Detail: "a spreadsheet takes " + Quoted(one.Text) + " for a formula; begin it with a letter or a digit, or ask for JSON, which takes any name"})
	}
	return errors.Join(all...)
}
