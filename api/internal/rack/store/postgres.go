package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"
)

// Connections to a server: as many as a small shop asks side by side. Own choice.
const mostConnections = 8

// Server is a rack in a PostgreSQL database, which several people, replicas and shops may
// share.
//
// Shops are kept apart by a shop in every key, and not by row-level security: the
// database itself then refuses a reading whose billet is of another shop, both databases
// keep one schema and run the same statements and tests, and nothing hangs on a setting
// of a pooled connection or on a role that is not the owner of the tables, whom row-level
// security does not hold unless it is forced.
type Server struct{ base }

// OpenServer opens the rack of a shop at an address such as postgres://user@host/name.
func OpenServer(ctx context.Context, address, shop string) (*Server, error) {
	if !id.MatchString(shop) {
		return nil, errors.New("a shop is called by 1 to 64 letters, digits, dots, hyphens and underscores")
	}
	config, err := pgx.ParseConfig(address)
	if err != nil {
		return nil, errors.New("the address of the database is not one such as postgres://user@host/name") // never repeated: it holds a password
	}
	// A commit that was answered is on disk, whatever the server is set to.
	config.RuntimeParams["synchronous_commit"] = "on"
	config.RuntimeParams["lock_timeout"] = "10000"
	config.RuntimeParams["application_name"] = "latewood"
	db := stdlib.OpenDB(*config)
	db.SetMaxOpenConns(mostConnections)
	db.SetConnMaxIdleTime(5 * time.Minute)
	s := &Server{base{dialect: postgres{}, shop: shop, writer: db, readers: db, now: time.Now, underWay: map[string]bool{}}}
	if err := s.prepare(ctx); err != nil {
		return nil, errors.Join(fmt.Errorf("the rack cannot be opened: %w", err), db.Close())
	}
	return s, nil
}

// prepare brings the database to the newest schema; of several replicas that start
// together, one does it while the others wait.
func (s *Server) prepare(ctx context.Context) error {
	locker, err := lock.NewPostgresSessionLocker()
	if err != nil {
		return err
	}
	if err := migrate(ctx, s.writer, goose.DialectPostgres, "postgres", goose.WithSessionLocker(locker)); err != nil {
		return err
	}
	return s.begin(ctx)
}

// postgres is what is PostgreSQL's own.
type postgres struct{}

// claim takes a lock that ends with the transaction, so that replicas tell a sender that
// its order is under way in place of carrying it out twice.
func (postgres) claim(ctx context.Context, tx *sql.Tx, shop, key string) (got bool, err error) {
	err = tx.QueryRowContext(ctx, `SELECT pg_try_advisory_xact_lock(hashtextextended($1 || '/' || $2, 0))`, shop, key).Scan(&got)
	return got, err
}

func (postgres) reading() *sql.TxOptions {
	return &sql.TxOptions{ReadOnly: true, Isolation: sql.LevelRepeatableRead}
}

// sound asks nothing: the server looks after its files.
func (postgres) sound(context.Context, *sql.DB) error { return nil }
