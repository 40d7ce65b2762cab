package rack

import (
	"bytes"
	"context"
	"encoding/csv"
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
)

// Sheet is a table of entries of one kind, as a spreadsheet writes it.
type Sheet struct {
	Kind     string `json:"kind" validate:"required,oneof=billet piece reading event stay place target plan note" description:"of the entries; each row is one"`
	CSV      string `json:"csv" validate:"required,max=200000" description:"the table: its first row names the members of the entry, those of an object with dots, such as id, billet.wood, billet.length, place; a cell that is empty is left out; a list is JSON. Columns stand between commas, semicolons or tabs"`
	TakeRest bool   `json:"take_the_rest,omitempty" default:"false" description:"take the rows that are right although others are not. Left out: then nothing is taken"`
}

// SheetTaken is what became of a sheet.
type SheetTaken struct {
	Taken   int          `json:"taken" required:"true" description:"rows that are on the rack now"`
	Refused []RowRefused `json:"refused" required:"true" nullable:"false" description:"rows that were not taken, with the reason; at most 1000"`
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
		kind := store.Kind(req.Kind)
		rows, err := readSheet(req.CSV, forms[kind].Type)
		if err != nil {
			return nil, err
		}
		done := &SheetTaken{Refused: []RowRefused{}}
		var changes []store.Change
		var from []int // rows of the changes
		for i := range rows {
			entry, wrong := rows[i].entry(forms[kind], t)
			if wrong != nil {
				done.Refused = append(done.Refused, wrong...)
				continue
			}
			changes, from = append(changes, store.Change{Deed: store.Create, Entry: entry}), append(from, i)
		}
		return done, r.takeSheet(ctx, s, req.TakeRest, changes, func(change int) *sheetRow { return &rows[from[change]] }, done)
	}
}

// takeSheet puts the rows on the rack. A row that the store refuses is told, and the others
// are tried again without it.
func (r *Rack) takeSheet(ctx context.Context, s *wire.Sent, rest bool, changes []store.Change, row func(int) *sheetRow, done *SheetTaken) error {
	left := make([]int, len(changes))
	for i := range left {
		left[i] = i
	}
	for len(left) > 0 && (rest || len(done.Refused) == 0) {
		batch := make([]store.Change, 0, len(left))
		for _, i := range left {
			batch = append(batch, changes[i])
		}
		receipt, err := r.store.Apply(ctx, order(s, batch...))
		var refused *store.Refusal
		switch {
		case err == nil:
			done.Taken = len(receipt.Records)
			slices.SortStableFunc(done.Refused, func(a, b RowRefused) int { return a.Row - b.Row })
			return nil
		case !errors.As(err, &refused) || refused.Why == store.UnderWay || refused.Why == store.OtherBody || refused.Why == store.Full:
			return told(err)
		}
		done.Refused = append(done.Refused, row(left[refused.Change]).refused(told(err)))
		left = slices.Delete(left, refused.Change, refused.Change+1)
	}
	slices.SortStableFunc(done.Refused, func(a, b RowRefused) int { return a.Row - b.Row })
	return nil
}

// sheetRow is a row of a sheet, as the entry it stands for.
type sheetRow struct {
	number int // of the sheet
	id     string
	body   []byte
	wrong  []RowRefused
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
	entry, err := entryOf(t, entered)
	if err != nil {
		return entry, r.refusedFor(err)
	}
	entry.Body = r.body
	return entry, nil
}

// readSheet reads the rows of a sheet.
func readSheet(text string, entry reflect.Type) ([]sheetRow, error) {
	text = strings.TrimPrefix(text, "\ufeff") // as some programs begin a file
	reader := csv.NewReader(strings.NewReader(text))
	reader.TrimLeadingSpace, reader.FieldsPerRecord = true, -1
	first, _, _ := strings.Cut(text, "\n")
	for _, between := range ";\t" {
		if strings.ContainsRune(first, between) && !strings.Contains(first, ",") {
			reader.Comma = between
		}
	}
	names, err := reader.Read()
	if err != nil {
		return nil, wrongSheet("the first row names the columns, such as id, billet.wood, billet.length")
	}
	columns := make([]*sheetColumn, len(names))
	for i, name := range names {
		if columns[i], err = columnOf(strings.TrimSpace(name), entry); err != nil {
			return nil, err
		}
	}
	var rows []sheetRow
	for number := 2; ; number++ {
		cells, err := reader.Read()
		switch {
		case errors.Is(err, io.EOF):
			return rows, nil
		case err != nil:
			return nil, wrongSheet("row " + strconv.Itoa(number) + " cannot be read: every quote has to be closed")
		case len(rows) == mostSheetRows:
			return nil, wrongSheet("a sheet has at most " + strconv.Itoa(mostSheetRows) + " rows; send the rest in another one")
		}
		if row, some := rowOf(number, cells, columns); some {
			rows = append(rows, row)
		}
	}
}

func wrongSheet(detail string) error {
	return &wire.Refused{Why: wire.Wrong, Pointer: "/csv", Code: "out_of_range", Detail: detail}
}

// rowOf makes the entry that a row stands for; none of a row without a cell.
func rowOf(number int, cells []string, columns []*sheetColumn) (row sheetRow, some bool) {
	row.number = number
	entry := map[string]any{}
	for i, cell := range cells {
		cell = strings.TrimSpace(cell)
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
			if !json.Valid([]byte(is)) { // what would be read as something else is quoted
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
