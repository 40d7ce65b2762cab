package species

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strconv"
)

//go:embed data/*.csv
var embedded embed.FS

// loader gathers the tables and all that is wrong with the data.
type loader struct {
	files    fs.FS
	tables   *Tables
	recall   map[string]*Recall // by the key of the source
	problems []error
}

// record is one line of a file with its columns by name.
type record struct {
	l       *loader
	file    string
	line    int
	columns map[string]int
	cells   []string
}

// each reads data/name.csv and calls visit for every record after the head.
func (l *loader) each(name string, visit func(record)) {
	file := "data/" + name + ".csv"
	opened, err := l.files.Open(file)
	if err != nil {
		l.problems = append(l.problems, err)
		return
	}
	defer opened.Close() //nolint:errcheck // an embedded file has nothing to flush
	rows := csv.NewReader(opened)
	rows.ReuseRecord = true
	head, err := rows.Read()
	columns := make(map[string]int, len(head))
	for i, column := range head {
		columns[column] = i
	}
	line := 1
	for err == nil {
		var cells []string
		if cells, err = rows.Read(); err == nil {
			line++
			visit(record{l, file, line, columns, cells})
		}
	}
	switch {
	case !errors.Is(err, io.EOF):
		l.problems = append(l.problems, fmt.Errorf("%s: %w", file, err))
	case line < 2:
		l.problems = append(l.problems, fmt.Errorf("%s: no rows", file))
	}
}

func (r record) fail(format string, args ...any) {
	r.l.problems = append(r.l.problems, fmt.Errorf("%s:%d: %s", r.file, r.line, fmt.Sprintf(format, args...)))
}

// text returns the cell of the column, "" where it is empty.
func (r record) text(column string) string {
	i, ok := r.columns[column]
	if !ok {
		r.fail("no column %s", column)
		return ""
	}
	return r.cells[i]
}

// need returns the cell of the column, which must not be empty.
func (r record) need(column string) string {
	text := r.text(column)
	if text == "" {
		r.fail("%s is empty", column)
	}
	return text
}

// number returns the figure in the column, missing where the cell is empty.
func (r record) number(column string) Optional[float64] {
	text := r.text(column)
	if text == "" {
		return Optional[float64]{}
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.fail("%s: %q is not a number", column, text)
		return Optional[float64]{}
	}
	return Known(v)
}

// needNumber returns the figure in the column, which must be there.
func (r record) needNumber(column string) float64 {
	v, known := r.number(column).Get()
	if !known {
		r.fail("%s is empty", column)
	}
	return v
}

// mark returns the mark in the column; empty stays empty.
func (r record) mark(column string) Checked {
	c := Checked(r.text(column))
	if c != "" && c.Meaning() == "" {
		r.fail("%s: unknown mark %q", column, c)
	}
	return c
}

// needMark returns the mark in the column, which must be there.
func (r record) needMark(column string) Checked {
	r.need(column)
	return r.mark(column)
}

// source returns the citation behind the key in the column; empty stays empty.
func (r record) source(column string) string {
	key := r.text(column)
	if key == "" {
		return ""
	}
	citation, ok := r.l.tables.sources[key]
	if !ok {
		r.fail("%s: unknown source %q", column, key)
	}
	return citation
}

// needSource returns the citation behind the key in the column, which must be there.
func (r record) needSource(column string) string {
	r.need(column)
	return r.source(column)
}

// value returns the figure of a column with the source and the mark of theirs.
// A figure must have both; a missing figure must have neither.
func (r record) value(column, unit, source, checked string) Value {
	v := Value{Optional: r.number(column), Unit: unit}
	if !v.Known() {
		return v
	}
	v.Source, v.Checked = r.needSource(source), r.needMark(checked)
	if v.Checked == Memory {
		v.Recall = r.l.recall[r.text(source)]
	}
	return v
}

// wood returns the wood whose id stands in the column of that name.
func (r record) wood() *Wood {
	w, ok := r.l.tables.woodByID[r.text("wood")]
	if !ok {
		r.fail("unknown wood %q", r.text("wood"))
		return &Wood{}
	}
	return w
}
