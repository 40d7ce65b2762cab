package rack

import (
	"encoding/csv"
	"strings"
	"unicode"
)

// sheetReader reads a table as spreadsheets write it: between commas, semicolons or tabs, with or
// without a mark at its beginning, with blank rows.
type sheetReader struct {
	csv   *csv.Reader
	text  string
	names []string
	row   int // of the last record, counted with the blank ones
}

// newSheetReader reads the row of the names, the first that is not blank.
func newSheetReader(text string) (*sheetReader, error) {
	text = strings.ReplaceAll(strings.TrimPrefix(text, "\ufeff"), "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	r := &sheetReader{text: text, csv: csv.NewReader(strings.NewReader(text))}
	r.csv.TrimLeadingSpace, r.csv.FieldsPerRecord = true, -1
	first, _, _ := strings.Cut(strings.TrimLeftFunc(text, unicode.IsSpace), "\n")
	for _, between := range ";\t" {
		if strings.ContainsRune(first, between) && !strings.Contains(first, ",") {
			r.csv.Comma = between
			r.csv.TrimLeadingSpace = between != '\t' // a tab is a space, and an empty cell stands before one
		}
	}
	var err error
	for err == nil && (len(r.names) == 0 || allBlank(r.names)) {
		_, r.names, err = r.read()
	}
	if err != nil {
		return nil, wrongSheet("invalid_format", nil, "the first row names the columns, such as id, billet.wood, billet.length")
	}
	return r, nil
}

// read is the next row that is not empty, with its number in the sheet.
func (r *sheetReader) read() (number int, cells []string, err error) {
	behind := r.csv.InputOffset()
	cells, err = r.csv.Read()
	if err == nil {
		line, _ := r.csv.FieldPos(0)
		r.row += line - strings.Count(r.text[:behind], "\n") // blank lines are passed over
	} else {
		r.row++
	}
	return r.row, cells, err
}

func allBlank(cells []string) bool {
	for _, cell := range cells {
		if !blank(cell) {
			return false
		}
	}
	return true
}

func blank(cell string) bool { return bare(cell) == "" }

// bare is a cell as it was meant: spaces of any kind are spaces, and none stand around it.
func bare(cell string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(invisible, r):
			return -1
		case r != '\n' && r != '\t' && unicode.IsSpace(r):
			return ' '
		}
		return r
	}, cell))
}

// invisible are characters that take no room: marks of order, and spaces without a width.
const invisible = "\u200b\u2060\ufeff"
