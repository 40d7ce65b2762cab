package api

import (
	"context"
	"net/url"
	"strings"

	"latewood/api/internal/rack"
	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
)

// Rack is what is kept beside the calculator, which keeps nothing.
type Rack = rack.Rack

// usualShop is the shop of a database where none is named.
const usualShop = "shop"

// OpenRack opens the rack in a file, which is made where it is not there, or at an address
// such as postgres://user@host/name?shop=bench.
func OpenRack(ctx context.Context, where string) (*Rack, error) {
	if !strings.HasPrefix(where, "postgres://") && !strings.HasPrefix(where, "postgresql://") {
		file, err := store.OpenFile(ctx, where)
		if err != nil {
			return nil, err
		}
		return rack.New(file), nil
	}
	address, shop := where, usualShop
	if u, err := url.Parse(where); err == nil {
		query := u.Query()
		if query.Has("shop") {
			shop = query.Get("shop")
			query.Del("shop")
			u.RawQuery = query.Encode()
			address = u.String()
		}
	}
	server, err := store.OpenServer(ctx, address, shop)
	if err != nil {
		return nil, err
	}
	return rack.New(server), nil
}

// RestoreRack makes a rack in a new file from a backup.
func RestoreRack(ctx context.Context, backup, file string) error {
	return store.Restore(ctx, backup, file)
}

// SheetRead is what became of one sheet of a folder.
type SheetRead = rack.SheetRead

// ImportSheets puts the rows of sheets on a rack; read gives a sheet by its name, nil where
// there is none.
func ImportSheets(ctx context.Context, r *Rack, read func(name string) ([]byte, error), rest bool) ([]SheetRead, error) {
	tables, err := shelf.LoadTables()
	if err != nil {
		return nil, err
	}
	return r.ImportSheets(ctx, tables, sheetForms, read, rest)
}
