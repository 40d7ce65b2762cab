package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"io/fs"
	"slices"
	"strings"

	"github.com/pressly/goose/v3"
)

//go:embed migrations
var migrations embed.FS

// errNewer is told of a rack that this program does not know how to read.
var errNewer = errors.New("the rack was written by a newer version of this program")

// migrate brings a database to the newest schema. Each step is a transaction of its own
// that also writes down that it was done.
func migrate(ctx context.Context, db *sql.DB, dialect goose.Dialect, own string, options ...goose.ProviderOption) error {
	files, err := migrationsOf(own)
	if err != nil {
		return err
	}
	provider, err := goose.NewProvider(dialect, db, files, append(options, goose.WithDisableGlobalRegistry(true))...)
	if err != nil {
		return err
	}
	sources := provider.ListSources()
	if at, err := provider.GetDBVersion(ctx); err == nil && at > sources[len(sources)-1].Version {
		return errNewer
	}
	_, err = provider.Up(ctx)
	return err
}

// newest is the version of the newest migration of a database.
func newest(own string) (int64, error) {
	files, err := migrationsOf(own)
	if err != nil {
		return 0, err
	}
	names, err := fs.Glob(files, "*.sql")
	if err != nil {
		return 0, err
	}
	return goose.NumericComponent(names[len(names)-1])
}

// layers is one folder made of several; a file of one name is in one of them only.
type layers []fs.FS

// migrationsOf are the migrations that both databases share, and those of one.
func migrationsOf(own string) (fs.FS, error) {
	var all layers
	for _, folder := range []string{"both", own} {
		files, err := fs.Sub(migrations, "migrations/"+folder)
		if err != nil {
			return nil, err
		}
		all = append(all, files)
	}
	return all, nil
}

// Open opens a file of the first folder that has it.
func (l layers) Open(name string) (fs.File, error) {
	for _, files := range l {
		if file, err := files.Open(name); err == nil {
			return file, nil
		}
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// ReadDir lists the files of all folders.
func (l layers) ReadDir(name string) ([]fs.DirEntry, error) {
	var all []fs.DirEntry
	for _, files := range l {
		entries, err := fs.ReadDir(files, name)
		if err != nil {
			return nil, err
		}
		all = append(all, entries...)
	}
	slices.SortFunc(all, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return all, nil
}
