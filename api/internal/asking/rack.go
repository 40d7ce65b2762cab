package asking

import (
	"context"
	"fmt"
	"strings"

	"latewood/api"
	"latewood/api/internal/rack"
	"latewood/api/internal/rack/store"
	"latewood/api/internal/rack/store/storetest"
)

// ofTheRack are entries of each kind, with # for their number; those that others belong
// to first.
var ofTheRack = []struct {
	kind store.Kind
	body string
}{
	{store.Place, `{"id": "place-#", "name": "shelf #", "stay": {"station": "columbus-oh", "exposure": "shed"}}`},
	{store.Billet, `{"id": "billet-#", "place": "place-1", "billet": {"name": "billet #", "wood": "walnut-black", "length": "620 mm", "width": "230 mm", "thickness": "52 mm", "rings": {"angle_deg": 70}}}`},
	{store.Reading, `{"id": "reading-#", "billet": "billet-1", "reading": {"kind": "weight", "date": "2026-0#-14", "mass": "5.#0 kg"}}`},
	{store.Event, `{"id": "event-#", "billet": "billet-1", "event": {"kind": "moved", "date": "2026-0#-01", "place": "place-1"}}`},
}

// Rack is a rack in memory with five entries of each kind, called billet-1 and so on. The
// fourth of each has a second version.
func Rack() *api.Rack {
	kept := storetest.NewModel()
	apply := func(change store.Change) {
		if _, err := kept.Apply(context.Background(), &store.Order{Changes: []store.Change{change}}); err != nil {
			panic(err) // a broken test; nothing can be asked
		}
	}
	for _, of := range ofTheRack {
		for n := range 5 {
			number := fmt.Sprint(n + 1)
			e := store.Entry{Key: store.Key{Kind: of.kind, ID: string(of.kind) + "-" + number}, Body: []byte(strings.ReplaceAll(of.body, "#", number))}
			switch of.kind {
			case store.Reading, store.Event:
				e.Of, e.Day = store.Key{Kind: store.Billet, ID: "billet-1"}, "2026-0"+number+"-14"
			default:
			}
			apply(store.Change{Deed: store.Create, Entry: e})
			if number == "4" {
				apply(store.Change{Deed: store.Replace, If: 1, Entry: e})
			}
		}
	}
	return rack.New(kept)
}
