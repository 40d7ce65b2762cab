package rack

import (
	"context"
	"fmt"
	"math"
	"slices"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// sheetName is what the sheet of a kind is called in a folder of them.
func sheetName(kind store.Kind) string { return string(kind) + "s.csv" }

// ExportSheets writes what is on the rack now as sheets, one for each kind that there is; what
// was removed, earlier versions and photos are only in the whole export.
func (r *Rack) ExportSheets(ctx context.Context, write func(name string, sheet []byte) error) error {
	for _, kind := range store.Kinds {
		var all []*Kept
		for {
			page, total, err := r.store.List(ctx, &store.Query{Kind: kind, Offset: len(all), Limit: store.MostPage})
			if err != nil {
				return err
			}
			for i := range page {
				all = append(all, kept(&page[i]))
			}
			if len(page) == 0 || len(all) >= total {
				break
			}
		}
		if all == nil {
			continue
		}
		text, err := sheetOf(all)
		if err == nil {
			err = write(sheetName(kind), text)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// SheetRead is what became of one sheet of a folder.
type SheetRead struct {
	Name string
	SheetTaken
}

// ImportSheets puts the rows of sheets on the rack, those that others belong to first. read
// gives a sheet by its name, nil where there is none. Where a row of any sheet is wrong
// nothing is taken, unless the rest is wished for; what only the rack can refuse ends it there.
func (r *Rack) ImportSheets(ctx context.Context, t *shelf.Tables, forms map[store.Kind]EntryForm, read func(name string) ([]byte, error), rest bool) ([]SheetRead, error) {
	sheets := map[store.Kind][]sheetRow{}
	var all []SheetRead
	for _, kind := range store.Kinds {
		text, err := read(sheetName(kind))
		if err != nil {
			return nil, err
		}
		if text == nil {
			continue
		}
		rows, err := readSheet(string(text), forms[kind].Type, math.MaxInt)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", sheetName(kind), err)
		}
		if kind == store.Piece {
			rows = parentsFirst(rows)
		}
		sheets[kind] = rows
		wrong := SheetRead{Name: sheetName(kind)}
		for i := range rows {
			_, refused := rows[i].entry(forms[kind], t)
			wrong.Refused = append(wrong.Refused, refused...)
		}
		if wrong.Refused != nil && !rest {
			all = append(all, wrong)
		}
	}
	if all != nil {
		return all, nil
	}
	for _, kind := range store.Kinds {
		if sheets[kind] == nil {
			continue
		}
		done, err := r.takeParts(ctx, t, forms[kind], sheets[kind], rest)
		done.Name = sheetName(kind)
		all = append(all, done)
		if err != nil || len(done.Refused) > 0 && !rest {
			return all, err
		}
	}
	return all, nil
}

// takeParts puts rows on the rack, as many at a time as an order takes.
func (r *Rack) takeParts(ctx context.Context, t *shelf.Tables, form EntryForm, rows []sheetRow, rest bool) (done SheetRead, err error) {
	for part := range slices.Chunk(rows, mostSheetRows) {
		taken, err := r.takeRows(ctx, &wire.Sent{}, form, t, part, rest)
		if err != nil {
			return done, err
		}
		done.Taken, done.Unchanged = done.Taken+taken.Taken, done.Unchanged+taken.Unchanged
		done.Warnings = append(done.Warnings, taken.Warnings...)
		if done.Refused = append(done.Refused, taken.Refused...); len(taken.Refused) > 0 && !rest {
			break
		}
	}
	return done, nil
}

// parentsFirst puts rows of pieces behind those that they were cut from.
func parentsFirst(rows []sheetRow) []sheetRow {
	at := map[string]int{}
	for i := range rows {
		at[rows[i].id] = i
	}
	ordered, placed := make([]sheetRow, 0, len(rows)), make([]bool, len(rows))
	var place func(i, depth int)
	place = func(i, depth int) {
		if placed[i] {
			return
		}
		if parent, is := at[rows[i].parent()]; is && parent != i && depth < len(rows) {
			place(parent, depth+1)
		}
		if !placed[i] {
			placed[i] = true
			ordered = append(ordered, rows[i])
		}
	}
	for i := range rows {
		place(i, 0)
	}
	return ordered
}

// parent is the piece that a row was cut from; empty for none.
func (r *sheetRow) parent() string {
	entry, err := objectOf(r.body)
	if err != nil {
		return ""
	}
	parent, err := objectOf(entry["parent"])
	if err != nil {
		return ""
	}
	return textOf(parent["piece"])
}
