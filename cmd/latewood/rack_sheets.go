package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"latewood/api"
)

// rackSheets writes a rack into a folder of sheets, or reads it from one, where that is what
// is asked for.
func (p *program) rackSheets(ctx context.Context, words []string) (asked bool, status int) {
	rest := slices.Contains(words, "--take-the-rest")
	words = slices.DeleteFunc(slices.Clone(words), func(word string) bool { return word == "--take-the-rest" })
	if len(words) != 4 || words[2] != "--csv" || words[0] != "import" && (words[0] != "export" || rest) {
		return false, exitOK
	}
	whole := true
	err := p.withRack(ctx, words[1], words[0] == "export", func(rack *api.Rack) (err error) {
		if words[0] == "export" {
			return exportSheets(ctx, rack, words[3])
		}
		whole, err = p.importSheets(ctx, rack, words[3], rest)
		return err
	})
	if err != nil {
		p.complain(err)
	}
	if err != nil || !whole {
		return true, exitProblem
	}
	return true, exitOK
}

// withRack does something with a rack; where it is only looked at it has to be there.
func (*program) withRack(ctx context.Context, where string, looked bool, do func(*api.Rack) error) error {
	if looked {
		if err := there(where); err != nil {
			return err
		}
	}
	rack, err := api.OpenRack(ctx, where)
	if err != nil {
		return err
	}
	return errors.Join(do(rack), rack.Close())
}

// exportSheets writes the sheets into a folder; none takes the place of a file that is there.
func exportSheets(ctx context.Context, rack *api.Rack, folder string) error {
	if err := os.MkdirAll(folder, 0o750); err != nil { //nolint:gosec // the operator names the folder
		return err
	}
	return rack.ExportSheets(ctx, func(name string, sheet []byte) error {
		file, err := os.OpenFile(filepath.Join(folder, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600) //nolint:gosec // the operator names the folder
		if err != nil {
			return err
		}
		_, err = file.Write(sheet)
		return errors.Join(err, file.Close())
	})
}

// importSheets reads the sheets of a folder, and says what became of them. whole is false
// where a row was not taken.
func (p *program) importSheets(ctx context.Context, rack *api.Rack, folder string, rest bool) (whole bool, err error) {
	if _, err := os.Stat(folder); err != nil { //nolint:gosec // the operator names the folder
		return false, err
	}
	all, err := api.ImportSheets(ctx, rack, func(name string) ([]byte, error) {
		text, err := os.ReadFile(filepath.Join(folder, name)) //nolint:gosec // the operator names the folder
		if errors.Is(err, os.ErrNotExist) {
			return nil, nil
		}
		return text, err
	}, rest)
	whole = true
	for i := range all {
		s := &all[i]
		p.print(fmt.Sprintf("%s: %d taken, %d there already, %d refused\n", s.Name, s.Taken, s.Unchanged, len(s.Refused)))
		for _, w := range s.Warnings {
			p.print(fmt.Sprintf("  row %d %s %s: taken, but %s\n", w.Row, w.ID, w.Column, w.Detail))
		}
		for _, r := range s.Refused {
			whole = false
			p.print(fmt.Sprintf("  row %d %s %s: %s\n", r.Row, r.ID, r.Column, r.Detail))
		}
	}
	if err == nil && all == nil {
		err = fmt.Errorf("there is no sheet in %s: they are called billets.csv, readings.csv and so on", folder)
	}
	return whole, err
}
