package asking

import (
	"context"
	"fmt"
	"strings"
	"time"

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
	{store.Target, `{"id": "target-#", "name": "harp #", "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}}`},
	{store.Billet, `{"id": "billet-#", "place": "place-1", "billet": {"name": "billet #", "wood": "walnut-black", "length": "620 mm", "width": "230 mm", "thickness": "52 mm", "rings": {"angle_deg": 70}}}`},
	{store.Plan, `{"id": "plan-#", "billet": "billet-1", "name": "backs #", "date": "2026-0#-14", "saws": [{"kerf": "1.3 mm"}], "parts": [{"length": "560 mm", "width": "210 mm", "final_thickness": "2.6 mm"}]}`},
	{store.Piece, `{"id": "piece-#", "parent": {"billet": "billet-1"}, "plan": {"id": "plan-1", "leaf": "#"}, "place": "place-1", "billet": {"name": "leaf #", "wood": "walnut-black", "length": "600 mm", "width": "220 mm", "thickness": "4 mm", "rings": {"angle_deg": 70}, "stacked_on": "2026-0#-14"}}`},
	{store.Stay, `{"id": "stay-#", "billet": "billet-4", "from": "2026-0#-01", "place": "place-1"}`},
	{store.Note, `{"id": "note-#", "of": {"kind": "billet", "id": "billet-1"}, "date": "2026-0#-14", "text": "end # sealed again"}`},
	{store.Reading, `{"id": "reading-#", "billet": "billet-1", "reading": {"kind": "weight", "date": "2026-0#-14", "mass": "5.#0 kg"}}`},
	{store.Event, `{"id": "event-#", "billet": "billet-1", "event": {"kind": "moved", "date": "2026-0#-01", "place": "place-1"}}`},
}

// judged is the first billet, of which enough is known to be judged.
const judged = `{"id": "billet-1", "place": "place-1", "billet": {"name": "billet 1", "wood": "walnut-black", "length": "620 mm", "width": "230 mm", "thickness": "52 mm", "rings": {"angle_deg": 70}, "stacked_on": "2024-04-20"}, "target": "target-1"}`

// Pixel is the photo of the fifth billet and the fifth piece: one of PNG, of one pixel.
const Pixel = "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\b\x00\x00\x00\x00:~\x9bU" +
	"\x00\x00\x00\nIDATx\x9cc`\x00\x00\x00\x02\x00\x01H\xaf\xa4q\x00\x00\x00\x00IEND\xaeB`\x82"

// today is the day of the rack.
var today = time.Date(2026, 5, 20, 9, 0, 0, 0, time.UTC)

// Rack is a rack in memory with five entries of each kind, called billet-1 and so on. The
// fourth of each has a second version, the first billet is one that can be judged, and the fifth
// billet and the fifth piece have a photo.
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
			case store.Reading, store.Event, store.Plan, store.Note, store.Piece:
				e.Of, e.Day = store.Key{Kind: store.Billet, ID: "billet-1"}, "2026-0"+number+"-14"
				switch of.kind {
				case store.Reading:
					e.Form = "weight"
				case store.Piece:
					e.Place = "place-1"
				default:
				}
			case store.Stay:
				e.Of, e.Day, e.Place = store.Key{Kind: store.Billet, ID: "billet-4"}, "2026-0"+number+"-01", "place-1"
			case store.Billet:
				if e.Form, e.Place = "walnut-black", "place-1"; number == "1" {
					e.Body, e.Day = []byte(judged), "2024-04-20"
				}
			default:
			}
			first := e
			if number == "4" {
				first.Label = "before" // so that the second version is another one
			}
			apply(store.Change{Deed: store.Create, Entry: first})
			if number == "4" {
				apply(store.Change{Deed: store.Replace, If: 1, Entry: e})
			}
		}
	}
	for _, key := range []store.Key{{Kind: store.Billet, ID: "billet-5"}, {Kind: store.Piece, ID: "piece-5"}} {
		if _, err := kept.PutPhoto(context.Background(), &store.Photo{Key: key, Media: "image/png", Body: []byte(Pixel)}, &store.Seen{None: true}); err != nil {
			panic(err)
		}
	}
	return rack.NewAt(kept, func() time.Time { return today })
}
