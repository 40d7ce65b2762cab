package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"path/filepath"
	"strconv"
	"sync"
	"time"

	_ "github.com/ncruces/go-sqlite3/driver" // registers sqlite3
	"github.com/pressly/goose/v3"
)

// oneShop is the shop of a file, which holds one.
const oneShop = "shop"

// readersOfFile is how many questions are answered side by side. Own choice.
const readersOfFile = 4

// OpenFile opens the rack in a SQLite file; a file that is not there is made.
func OpenFile(ctx context.Context, path string) (*File, error) {
	absolute, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if err := safely.files.Make(absolute); err != nil {
		return nil, err
	}
	return openFile(ctx, absolute, safely)
}

// File is a rack in a SQLite file.
type File struct {
	base
	path string
	way  way
}

// way is how the file is written. Everything but safely is for tests, which play faults.
type way struct {
	synchronous, journal string
	vfs                  string // file layer of SQLite; empty: that of the system
	alone                bool   // no other connection may open the file
	files                files
}

// safely returns from a commit when it is on disk.
var safely = way{synchronous: "FULL", journal: "WAL", files: systemFiles{}}

// source is the name by which the driver opens the file.
func (w way) source(path string, readOnly bool) string {
	pragmas := []string{"busy_timeout(10000)"}
	if w.alone {
		pragmas = append(pragmas, "locking_mode(exclusive)")
	}
	pragmas = append(pragmas, "journal_mode("+w.journal+")", "synchronous("+w.synchronous+")", "foreign_keys(1)", "trusted_schema(0)")
	query := url.Values{"_pragma": pragmas, "_txlock": {"immediate"}}
	if w.vfs != "" {
		query.Set("vfs", w.vfs)
	}
	if readOnly {
		query.Add("_pragma", "query_only(1)")
		query.Set("_txlock", "deferred")
	}
	return (&url.URL{Scheme: "file", OmitHost: true, Path: path, RawQuery: query.Encode()}).String()
}

func openFile(ctx context.Context, path string, w way) (*File, error) {
	writer, err := sql.Open("sqlite3", w.source(path, false))
	if err != nil {
		return nil, err
	}
	writer.SetMaxOpenConns(1)
	f := &File{path: path, way: w,
		base: base{dialect: sqlite{}, shop: oneShop, writer: writer, readers: writer, now: time.Now, underWay: map[string]bool{}}}
	if err := f.prepare(ctx); err != nil {
		return nil, errors.Join(fmt.Errorf("the rack cannot be opened: %w", err), writer.Close())
	}
	if w.alone {
		return f, nil
	}
	if f.readers, err = sql.Open("sqlite3", w.source(path, true)); err != nil {
		return nil, errors.Join(err, writer.Close())
	}
	f.readers.SetMaxOpenConns(readersOfFile)
	return f, nil
}

// newestOfFile is the version of the newest schema of a file.
var newestOfFile = sync.OnceValues(func() (int64, error) { return newest("sqlite") })

// prepare brings the file to the newest schema. The version of the schema stands in the
// header of the file too, where it is read at once.
func (f *File) prepare(ctx context.Context) error {
	want, err := newestOfFile()
	if err != nil {
		return err
	}
	var is int64
	if err := f.writer.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&is); err != nil {
		return err
	}
	if is > want {
		return errNewer
	}
	if is == want {
		return nil
	}
	if err := migrate(ctx, f.writer, goose.DialectSQLite3, "sqlite"); err != nil {
		return err
	}
	if err := f.begin(ctx); err != nil {
		return err
	}
	_, err = f.writer.ExecContext(ctx, `PRAGMA user_version = `+strconv.FormatInt(want, 10)) // a pragma takes no parameter
	return err
}

// sqlite is what is SQLite's own.
type sqlite struct{}

// claim needs nothing: one writer at a time holds the file, and who comes after it finds
// the saved answer.
func (sqlite) claim(context.Context, *sql.Tx, string, string) (bool, error) { return true, nil }

func (sqlite) reading() *sql.TxOptions { return &sql.TxOptions{ReadOnly: true} }

func (sqlite) sound(ctx context.Context, db *sql.DB) error {
	for _, check := range []string{"PRAGMA integrity_check(1)", "PRAGMA foreign_key_check"} {
		if err := silent(db.QueryContext(ctx, check)); err != nil {
			return err
		}
	}
	return nil
}

// silent says what a check found: a row that says anything but ok.
func silent(rows *sql.Rows, err error) error {
	if err != nil {
		return err
	}
	defer rows.Close() //nolint:errcheck // Err tells
	for rows.Next() {
		columns, err := rows.Columns()
		if err != nil {
			return err
		}
		values := make([]sql.NullString, len(columns))
		into := make([]any, len(values))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			return err
		}
		if values[0].String != "ok" {
			return fmt.Errorf("the file is damaged: %v", values)
		}
	}
	return rows.Err()
}
