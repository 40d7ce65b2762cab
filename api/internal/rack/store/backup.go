package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// Backup writes the rack as it is now into a new file while it is in use. The file
// appears under its name when it is whole and on disk.
func (f *File) Backup(ctx context.Context, file string) error {
	absolute, err := filepath.Abs(file)
	if err != nil {
		return err
	}
	there, err := f.way.files.Exists(absolute)
	if err != nil {
		return err
	}
	if there {
		return fmt.Errorf("%s is there already, and a backup takes the place of nothing", file)
	}
	part := absolute + ".part"
	if err := f.way.files.Remove(part); err != nil { // left by one that was cut off
		return err
	}
	if err := f.way.files.Make(part); err != nil {
		return err
	}
	if err := f.copyTo(ctx, part); err != nil {
		return errors.Join(err, f.way.files.Remove(part))
	}
	return settle(f.way.files, part, absolute)
}

// Restore makes a rack in a new file from a backup, which is checked before and is left as
// it is.
func Restore(ctx context.Context, backup, file string) error {
	absolute, err := filepath.Abs(backup)
	if err != nil {
		return err
	}
	return restore(ctx, absolute, file, safely)
}

func restore(ctx context.Context, backup, file string, w way) error {
	if there, err := w.files.Exists(backup); err != nil || !there {
		return errors.Join(err, fmt.Errorf("there is no backup %s", backup))
	}
	f, err := openFile(ctx, backup, w)
	if err != nil {
		return err
	}
	err = f.Check(ctx)
	if err == nil {
		err = f.Backup(ctx, file)
	}
	return errors.Join(err, f.Close())
}

// copyTo reads one state of the rack into a file, beside those who read and write.
func (f *File) copyTo(ctx context.Context, file string) error {
	if f.way.alone {
		_, err := f.writer.ExecContext(ctx, `VACUUM INTO $1`, file)
		return err
	}
	db, err := sql.Open("sqlite3", f.way.source(f.path, false))
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, `VACUUM INTO $1`, file)
	return errors.Join(err, db.Close())
}

// settle brings a file to disk and gives it its name, which is then on disk too.
func settle(files files, part, file string) error {
	if err := files.Sync(part); err != nil {
		return err
	}
	if err := files.Rename(part, file); err != nil {
		return err
	}
	return files.Sync(filepath.Dir(file))
}

// files is what is done to whole files beside SQLite.
type files interface {
	Exists(path string) (bool, error)
	Make(path string) error   // an empty file that only its owner may read, where there is none
	Remove(path string) error // what is not there is no error
	Rename(from, to string) error
	Sync(path string) error // of a file or a folder
}

// systemFiles are those of the system.
type systemFiles struct{}

func (systemFiles) Exists(path string) (bool, error) {
	_, err := os.Lstat(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}

func (systemFiles) Make(path string) error {
	made, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600) //nolint:gosec // the operator names the file
	if err != nil {
		return err
	}
	return made.Close()
}

func (systemFiles) Remove(path string) error {
	if err := os.Remove(path); !errors.Is(err, os.ErrNotExist) {
		return err
	}
	return nil
}

func (systemFiles) Rename(from, to string) error { return os.Rename(from, to) }

func (systemFiles) Sync(path string) error {
	opened, err := os.Open(path) //nolint:gosec // the operator names the file
	if err != nil {
		return err
	}
	return errors.Join(opened.Sync(), opened.Close())
}
