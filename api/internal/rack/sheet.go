package rack

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Sheet is a table of entries of one kind, as a spreadsheet writes it.
type Sheet struct {
	Kind     string `json:"kind" validate:"required,oneof=billet piece reading event stay place target plan note" description:"of the entries; each row is one"`
	CSV      string `json:"csv" validate:"required,max=200000" description:"the table: its first row names the members of the entry, those of an object with dots, such as id, billet.wood, billet.length, place; a cell that is empty is left out; a list is JSON. Columns stand between commas, semicolons or tabs"`
	TakeRest bool   `json:"take_the_rest,omitempty" default:"false" description:"take the rows that are right although others are not. Left out: then nothing is taken"`
}

// SheetTaken is what became of a sheet.
type SheetTaken struct {
	Taken     int          `json:"taken" required:"true" description:"rows that were put on the rack"`
	Unchanged int          `json:"unchanged" required:"true" description:"rows that were there already, as they are: a sheet may be sent again with more rows"`
	Refused   []RowRefused `json:"refused" required:"true" nullable:"false" description:"rows that were not taken, with the reason; at most 1000"`
	Warnings  []RowWarned  `json:"warnings,omitempty" description:"rows that were taken as they are, and look like a slip"`
}

// RowWarned is a row that was taken and looks like a slip.
type RowWarned struct {
	Row    int    `json:"row" required:"true" description:"of the sheet, that of the names being the first"`
	ID     string `json:"id,omitempty" description:"of the entry"`
	Column string `json:"column,omitempty" description:"the cell that looks so"`
	Detail string `json:"detail" required:"true" description:"what is odd about it"`
}

// RowRefused is a row that was not taken.
type RowRefused struct {
	Row    int    `json:"row" required:"true" description:"of the sheet, that of the names being the first"`
	ID     string `json:"id,omitempty" description:"of the entry, where the row has one"`
	Column string `json:"column,omitempty" description:"what is wrong, where it is one cell"`
	Detail string `json:"detail" required:"true" description:"what is wrong"`
}

// EntryForm is how entries of a kind are read: their type, and what reads and checks one.
// What is wrong with an entry is told by the errors, each a *wire.Refused.
type EntryForm struct {
	Type reflect.Type
	Read func(body []byte) (Entered, []*wire.Refused)
}

// mostSheetRows is how many rows a sheet may have: those of one order.
const mostSheetRows = store.MostChanges

// AddSheet reads a sheet row by row. All rows are taken in one order, or those that are right
// on wish.
func AddSheet(forms map[store.Kind]EntryForm) func(context.Context, *Rack, *shelf.Tables, *wire.Sent, *Sheet) (*SheetTaken, error) {
	return func(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent, req *Sheet) (*SheetTaken, error) {
		form := forms[store.Kind(req.Kind)]
		rows, err := readSheet(req.CSV, form.Type, mostSheetRows)
		if err != nil {
			return nil, err
		}
		return r.takeRows(ctx, s, form, t, rows, req.TakeRest)
	}
}

// takeRows puts rows on the rack, at most those of one order.
func (r *Rack) takeRows(ctx context.Context, s *wire.Sent, form EntryForm, t *shelf.Tables, rows []sheetRow, rest bool) (*SheetTaken, error) {
	b := &sheetBatch{rack: r, tables: t, sent: s, done: &SheetTaken{Refused: []RowRefused{}}}
	look := r.sense(t)
	for i := range rows {
		entry, wrong := rows[i].entry(form, t)
		change := store.Change{Deed: store.Create, Entry: entry}
		if wrong == nil {
			var refused *wire.Refused
			switch err := look.at(ctx, &change); {
			case errors.As(err, &refused):
				wrong = rows[i].refusedFor(err)
			case err != nil:
				return nil, err
			}
		}
		if wrong != nil {
			b.done.Refused = append(b.done.Refused, wrong...)
			continue
		}
		b.rows, b.changes = append(b.rows, &rows[i]), append(b.changes, change)
	}
	err := b.take(ctx, rest)
	slices.SortStableFunc(b.done.Refused, func(a, b RowRefused) int { return a.Row - b.Row })
	return b.done, err
}

// sheetBatch is rows of a sheet on their way to the rack.
type sheetBatch struct {
	rack    *Rack
	tables  *shelf.Tables
	sent    *wire.Sent
	rows    []*sheetRow
	changes []store.Change // of the rows
	done    *SheetTaken
}

// take puts the rows on the rack. Those that are there already, as they are, are left; one
// that the store refuses is told, and the others are tried again without it.
func (b *sheetBatch) take(ctx context.Context, rest bool) error {
	for len(b.changes) > 0 && (rest || len(b.done.Refused) == 0) {
		receipt, err := b.rack.apply(ctx, b.tables, b.sent, b.changes...)
		var refused *store.Refusal
		wrong, ofOne := changeOf(err)
		isRefused := errors.As(err, &refused)
		switch {
		case err == nil:
			b.done.Taken = len(receipt.Records)
			b.doubt(ctx, receipt.Records)
			if receipt.Repeated {
				return b.leaveSame(ctx, receipt.Records)
			}
			return nil
		case !ofOne || isRefused && (refused.Why == store.UnderWay || refused.Why == store.OtherBody || refused.Why == store.Full):
			return told(err)
		case isRefused && refused.Why == store.Exists:
			before := len(b.changes)
			if err := b.leaveSame(ctx, nil); err != nil {
				return err
			}
			if len(b.changes) < before {
				continue
			}
		}
		b.done.Refused = append(b.done.Refused, b.rows[wrong].refused(told(err)))
		b.rows = slices.Delete(b.rows, wrong, wrong+1)
		b.changes = slices.Delete(b.changes, wrong, wrong+1)
	}
	return nil
}

// doubt tells which of the rows that were taken look like a slip.
func (b *sheetBatch) doubt(ctx context.Context, made []store.Record) {
	for _, row := range b.rows {
		if row.short != "" {
			b.done.Warnings = append(b.done.Warnings, RowWarned{Row: row.number, ID: row.id, Detail: row.short})
		}
	}
	look := scale{rack: b.rack}
	for i := range made {
		for _, w := range look.odd(ctx, &made[i]) {
			of := RowWarned{ID: made[i].ID, Column: columnAt(w.Input), Detail: w.Detail}
			if at := slices.IndexFunc(b.rows, func(r *sheetRow) bool { return r.id == made[i].ID }); at >= 0 {
				of.Row = b.rows[at].number
			}
			b.done.Warnings = append(b.done.Warnings, of)
		}
	}
}

// leaveSame leaves the rows that are on the rack as they are, but for those that were made
// just now.
func (b *sheetBatch) leaveSame(ctx context.Context, made []store.Record) error {
	rows, changes := b.rows[:0:0], b.changes[:0:0]
	for i := range b.changes {
		entry := &b.changes[i].Entry
		if slices.ContainsFunc(made, func(r store.Record) bool { return r.Key == entry.Key }) {
			continue
		}
		_, same, err := b.rack.sameThere(ctx, entry)
		if err != nil {
			return err
		}
		if same {
			b.done.Unchanged++
			continue
		}
		rows, changes = append(rows, b.rows[i]), append(changes, b.changes[i])
	}
	b.rows, b.changes = rows, changes
	return nil
}

// sheetRow is a row of a sheet, as the entry it stands for.
type sheetRow struct {
	number int // of the sheet
	id     string
	body   []byte
	wrong  []RowRefused
	short  string // that it has fewer cells than there are columns; empty: it has not
}

func (r *sheetRow) refused(err error) RowRefused {
	told := RowRefused{Row: r.number, ID: r.id, Detail: err.Error()}
	var refused *wire.Refused
	if errors.As(err, &refused) {
		told.Detail, told.Column = refused.Detail, columnAt(refused.Pointer)
	} else if domain, is := wire.AsDomain(err); is {
		told.Column = columnAt(domain.Input)
	}
	return told
}

// columnAt is the column of a member.
func columnAt(pointer string) string { return strings.ReplaceAll(strings.Trim(pointer, "/"), "/", ".") }

// refusedFor are the reasons that an error joins.
func (r *sheetRow) refusedFor(err error) (all []RowRefused) {
	_ = wire.EachError(err, func(one error) error {
		all = append(all, r.refused(one))
		return nil
	})
	return all
}

// entry is what the row is kept as.
func (r *sheetRow) entry(form EntryForm, t *shelf.Tables) (store.Entry, []RowRefused) {
	if r.wrong != nil {
		return store.Entry{}, r.wrong
	}
	entered, refused := form.Read(r.body)
	var wrong []RowRefused
	for _, one := range refused {
		wrong = append(wrong, r.refused(one))
	}
	if wrong != nil {
		return store.Entry{}, wrong
	}
	entry, err := entryOf(t, entered, r.body)
	if err != nil {
		return entry, r.refusedFor(err)
	}
	return entry, nil
}

// readSheet reads the rows of a sheet, of which there may be so many.
func readSheet(text string, entry reflect.Type, most int) ([]sheetRow, error) {
	reader, err := newSheetReader(text)
	if err != nil {
		return nil, err
	}
	columns, err := columnsOf(reader.names, entry)
	if err != nil {
		return nil, err
	}
	var rows []sheetRow
	for {
		number, cells, err := reader.read()
		switch {
		case errors.Is(err, io.EOF):
			return rows, nil
		case err != nil:
			return nil, wrongSheet("invalid_format", nil, "row "+strconv.Itoa(number)+" cannot be read: every quote has to be closed")
		case len(rows) == most:
			return nil, wrongSheet("out_of_range", method.AtMost(float64(most), "rows"), "a sheet has at most "+strconv.Itoa(most)+" rows; send the rest in another one")
		}
		if row, some := rowOf(number, cells, columns); some {
			rows = append(rows, row)
		}
	}
}

// columnsOf are the columns of a sheet by their names. Behind the last name a sheet may have
// columns without one, as a spreadsheet writes them that was once wider.
func columnsOf(names []string, entry reflect.Type) (columns []*sheetColumn, err error) {
	for len(names) > 0 && blank(names[len(names)-1]) {
		names = names[:len(names)-1]
	}
	columns = make([]*sheetColumn, len(names))
	for i, name := range names {
		if columns[i], err = columnOf(bare(name), entry); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(columns[:i], func(c *sheetColumn) bool { return c.name == columns[i].name }) {
			return nil, wrongSheet("duplicate_member", nil, "the column "+wire.Quoted(columns[i].name)+" is there twice")
		}
	}
	return columns, nil
}

func wrongSheet(code string, limit *method.Limit, detail string) error {
	return &wire.Refused{Why: wire.Wrong, Pointer: "/csv", Code: code, Limit: limit, Detail: detail}
}

// rowOf makes the entry that a row stands for; none of a row without a cell.
func rowOf(number int, cells []string, columns []*sheetColumn) (row sheetRow, some bool) {
	row.number = number
	if len(cells) < len(columns) {
		row.short = "the row has " + wire.CountOf(len(cells), "cell") + " for " + wire.CountOf(len(columns), "column") + "; the others were left out"
	}
	entry := map[string]any{}
	for i, cell := range cells {
		cell = bare(cell)
		if cell == "" {
			continue
		}
		some = true
		if i >= len(columns) {
			row.wrong = append(row.wrong, RowRefused{Row: number, ID: row.id, Detail: "the row has more cells than there are columns"})
			break
		}
		value, err := columns[i].value(cell)
		if err != nil {
			row.wrong = append(row.wrong, RowRefused{Row: number, ID: row.id, Column: columns[i].name, Detail: err.Error()})
			continue
		}
		if columns[i].name == "id" {
			row.id = cell
		}
		put(entry, columns[i].path, value)
	}
	body, err := json.Marshal(entry)
	if err != nil {
		row.wrong = append(row.wrong, RowRefused{Row: number, ID: row.id, Detail: "the row cannot be read"})
	}
	row.body = body
	return row, some
}

// put puts a value at a path of an object. What stands there as something else is left: the
// entry then says what is wrong.
func put(object map[string]any, path []string, value any) {
	for _, name := range path[:len(path)-1] {
		next, is := object[name].(map[string]any)
		if !is {
			next = map[string]any{}
			object[name] = next
		}
		object = next
	}
	object[path[len(path)-1]] = value
}

// sheetOf is a sheet of entries: a column for each member that one of them has.
func sheetOf(all []*Kept) ([]byte, error) {
	rows := make([]map[string]string, 0, len(all))
	names := map[string]bool{}
	for _, k := range all {
		object := map[string]any{}
		reader := json.NewDecoder(bytes.NewReader(k.body))
		reader.UseNumber() // as they were written
		if err := reader.Decode(&object); err != nil {
			return nil, err
		}
		row := map[string]string{}
		if err := flatten(row, "", object); err != nil {
			return nil, err
		}
		for name := range row {
			names[name] = true
		}
		rows = append(rows, row)
	}
	delete(names, "id")
	columns := append([]string{"id"}, slices.Sorted(maps.Keys(names))...)
	var s sheet
	s.line(columns...)
	for _, row := range rows {
		cells := make([]string, len(columns))
		for i, name := range columns {
			cells[i] = row[name]
		}
		s.line(cells...)
	}
	return s.text, nil
}

// plainCell reports a text that stands in a cell as it is: what a reader of the sheet would take
// for something else, and what a spreadsheet would run, is quoted as JSON quotes it. It is then
// shown with its quotes, and read again as the same text.
func plainCell(text string) bool {
	return !json.Valid([]byte(text)) && !withComma.MatchString(text) && bare(text) == text && !runs(text)
}

// flatten writes the members of an object into cells, those of objects with dots. Lists, and
// what would be empty, are JSON.
func flatten(row map[string]string, at string, object map[string]any) error {
	for name, value := range object {
		switch is := value.(type) {
		case map[string]any:
			if len(is) > 0 {
				if err := flatten(row, at+name+".", is); err != nil {
					return err
				}
				continue
			}
		case string:
			if plainCell(is) {
				row[at+name] = is
				continue
			}
		}
		text, err := json.Marshal(value)
		if err != nil {
			return err
		}
		row[at+name] = string(text)
	}
	return nil
}
