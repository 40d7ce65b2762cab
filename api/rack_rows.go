package api

import (
	"context"
	"net/http"
	"reflect"
	"slices"

	"latewood/api/internal/rack"
	"latewood/api/internal/rack/photo"
	"latewood/api/internal/rack/store"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// collection is one kind of entries of the rack: its path, the words that its operations
// are called by, and what its entries look like.
type collection struct {
	kind           store.Kind
	path, one, all string // of the operation ids: Billet, Billets
	adds           serve.Role
	query          []serve.Parameter
}

// rows are the routes of a collection. E is what is sent, A what is sent in the place of what was
// read, K what is kept.
func rows[E, A, K any, P interface {
	*E
	rack.Entered
}, PA interface {
	*A
	rack.Again
}](c collection) []serve.Route {
	add := func(ctx context.Context, r *rack.Rack, t *shelf.Tables, s *wire.Sent, req *E) (*rack.Kept, error) {
		return rack.Add(ctx, r, t, s, P(req))
	}
	replace := func(ctx context.Context, r *rack.Rack, t *shelf.Tables, s *wire.Sent, req *A) (*rack.Kept, error) {
		return rack.Replace(ctx, r, t, s, PA(req))
	}
	undo := func(ctx context.Context, r *rack.Rack, _ *shelf.Tables, s *wire.Sent, req *rack.UndoRequest) (*rack.Kept, error) {
		return rack.Undo(ctx, r, c.kind, s, req)
	}
	list := func(ctx context.Context, r *rack.Rack, t *shelf.Tables, s *wire.Sent, _ *serve.Nothing) (*rack.Page, error) {
		return rack.List(ctx, r, t, c.kind, s)
	}
	read := func(body []byte) (rack.Entered, error) {
		entry, err := serve.ReadAs[E](body)
		return P(entry), err
	}
	one := c.path + "/:id"
	paged := slices.Concat(c.query, serve.Paging)
	all := []serve.Route{
		keeps(serve.Route{Method: http.MethodGet, Path: c.path, ID: "list" + c.all, Query: paged, Forms: []wire.Form{wire.TableForm}, Result: rack.PageOf[K]{}, Handler: serve.Keep(serve.Read, list)}),
		keeps(serve.Route{Method: http.MethodPost, Path: c.path, ID: "add" + c.one, Request: *new(E), Result: *new(K), Handler: serve.Keep(c.adds, add)}),
		keeps(serve.Route{Method: http.MethodGet, Path: one, ID: "get" + c.one, Result: *new(K), Handler: looks(c.kind, rack.Get)}),
		keeps(serve.Route{Method: http.MethodPut, Path: one, ID: "replace" + c.one, Request: *new(A), Result: *new(K), Handler: serve.Keep(serve.All, replace)}),
		keeps(serve.Route{Method: http.MethodPatch, Path: one, ID: "patch" + c.one, Takes: []string{serve.MergePatch}, Result: *new(K), Handler: serve.KeepPatch[E](serve.All, rack.Patch(c.kind, read))}),
		keeps(serve.Route{Method: http.MethodDelete, Path: one, ID: "remove" + c.one, Result: *new(K), Handler: does(c.kind, rack.Remove)}),
		keeps(serve.Route{Method: http.MethodGet, Path: one + "/history", ID: "list" + c.one + "Versions", Query: serve.Paging, Result: rack.PageOf[K]{}, Handler: looks(c.kind, rack.Versions)}),
		keeps(serve.Route{Method: http.MethodPost, Path: one + "/undo", ID: "undo" + c.one, Request: rack.UndoRequest{}, Result: *new(K), Handler: serve.Keep(c.adds, undo)}),
	}
	for i := range all {
		w := wordedAs(c.kind, all[i].ID)
		all[i].Summary, all[i].Description = w.summary, w.description
	}
	return all
}

// onEntry is what is asked or done about the entry of the path.
type onEntry[Res any] func(context.Context, *rack.Rack, store.Kind, *wire.Sent) (Res, error)

// looks is the endpoint of what only looks.
func looks[Res any](kind store.Kind, look onEntry[Res]) serve.Endpoint {
	return with(serve.Read, kind, look)
}

// does is the endpoint of what changes an entry.
func does[Res any](kind store.Kind, do onEntry[Res]) serve.Endpoint { return with(serve.All, kind, do) }

func with[Res any](role serve.Role, kind store.Kind, do onEntry[Res]) serve.Endpoint {
	return serve.Keep(role, func(ctx context.Context, r *rack.Rack, _ *shelf.Tables, s *wire.Sent, _ *serve.Nothing) (Res, error) {
		return do(ctx, r, kind, s)
	})
}

// keeps is the row of something that is kept.
func keeps(r serve.Route) serve.Route {
	r.Tag, r.Keeps = "rack", true
	r.Summary, r.Description = rackWords[r.ID].summary, rackWords[r.ID].description
	return r
}

// What the lists of the rack may be asked with, besides the page.
var (
	removedQuery  = serve.Parameter{Name: "removed", Description: "those that were taken off the rack, in place of those that are on it", Choices: []string{"true", "false"}}
	textQuery     = serve.Parameter{Name: "q", Description: "part of an id or a name"}
	ofBilletQuery = serve.Parameter{Name: "billet", Description: "id of the billet"}
	ofPieceQuery  = serve.Parameter{Name: "piece", Description: "id of the piece"}
	waitQuery     = serve.Parameter{Name: "wait_seconds", Description: "how long answers that are being worked out are waited for",
		Whole: true, Low: 0, High: rack.MostWait, Fallback: rack.UsualWait}
	listsQuery = serve.Parameter{Name: "limit", Description: "entries of each list", Whole: true, Low: 1, High: 500, Fallback: rack.UsualOverview}
	baseQuery  = serve.Parameter{Name: "base", Description: "address of this service that the labels lead to, such as https://shop.example. Left out: that of this request"}
	fromQuery  = serve.Parameter{Name: "from", Description: "first day, such as 2026-03-01"}
	dueQuery   = serve.Parameter{Name: "due", Description: "only what is due for a weighing by that day", Choices: []string{"true", "false"}}
	dateQuery  = serve.Parameter{Name: "date", Description: "day of the weighing, up to 90 days ahead, such as 2026-03-01. Left out: today"}
	untilQuery = serve.Parameter{Name: "until", Description: "last day, such as 2026-03-01"}
	placeQuery = serve.Parameter{Name: "place", Description: "id of the place"}
)

// rackRoutes are those of what is kept.
func rackRoutes() []serve.Route {
	all := rows[rack.BilletEntry, rack.BilletAgain, rack.KeptBillet](collection{store.Billet, "/v1/rack/billets", "Billet", "Billets", serve.All,
		[]serve.Parameter{textQuery, {Name: "species", Description: "id of a wood of the tables"}, placeQuery, removedQuery}})
	all = append(all, rows[rack.ReadingEntry, rack.ReadingAgain, rack.KeptReading](collection{store.Reading, "/v1/rack/readings", "Reading", "Readings", serve.Weigh,
		[]serve.Parameter{ofBilletQuery, ofPieceQuery, {Name: "kind", Description: "kind of the reading", Choices: shelf.ReadingKinds()}, fromQuery, untilQuery, removedQuery}})...)
	all = append(all, rows[rack.EventEntry, rack.EventAgain, rack.KeptEvent](collection{store.Event, "/v1/rack/events", "Event", "Events", serve.Weigh,
		[]serve.Parameter{ofBilletQuery, ofPieceQuery, {Name: "kind", Description: "kind of the event", Choices: rack.EventKinds()}, placeQuery, fromQuery, untilQuery, removedQuery}})...)
	all = append(all, rows[rack.PlaceEntry, rack.PlaceAgain, rack.KeptPlace](collection{store.Place, "/v1/rack/places", "Place", "Places", serve.All,
		[]serve.Parameter{textQuery, removedQuery}})...)
	all = append(all, rows[rack.PieceEntry, rack.PieceAgain, rack.KeptPiece](collection{store.Piece, "/v1/rack/pieces", "Piece", "Pieces", serve.All,
		[]serve.Parameter{textQuery, ofBilletQuery, ofPieceQuery, {Name: "species", Description: "id of a wood of the tables"}, placeQuery, removedQuery}})...)
	all = append(all, rows[rack.PlanEntry, rack.PlanAgain, rack.KeptPlan](collection{store.Plan, "/v1/rack/plans", "Plan", "Plans", serve.All,
		[]serve.Parameter{textQuery, ofBilletQuery, ofPieceQuery, fromQuery, untilQuery, removedQuery}})...)
	all = append(all, rows[rack.StayEntry, rack.StayAgain, rack.KeptStay](collection{store.Stay, "/v1/rack/stays", "Stay", "Stays", serve.Weigh,
		[]serve.Parameter{ofBilletQuery, ofPieceQuery, placeQuery, fromQuery, untilQuery, removedQuery}})...)
	all = append(all, rows[rack.TargetEntry, rack.TargetAgain, rack.KeptTarget](collection{store.Target, "/v1/rack/targets", "Target", "Targets", serve.All,
		[]serve.Parameter{textQuery, removedQuery}})...)
	all = append(all, rows[rack.NoteEntry, rack.NoteAgain, rack.KeptNote](collection{store.Note, "/v1/rack/notes", "Note", "Notes", serve.Weigh,
		[]serve.Parameter{ofBilletQuery, ofPieceQuery, fromQuery, untilQuery, removedQuery}})...)
	all = append(append(all, photoRows(store.Billet, "/v1/rack/billets/:id/photo", "Billet")...), photoRows(store.Piece, "/v1/rack/pieces/:id/photo", "Piece")...)
	return append(all,
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/overview", ID: "getRackOverview", Query: []serve.Parameter{waitQuery, listsQuery, serve.Paging[1]}, Result: rack.Overview{},
			Forms: rack.OverviewForms, Handler: serve.KeepAfter(serve.Read, rack.AwaitOverview, rack.TellOverview)}),
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/progress", ID: "getRackProgress", Result: rack.Progress{},
			Forms: []wire.Form{serve.EventsForm}, Handler: serve.Follow(serve.Read, rack.StartProgress, rack.FollowProgress)}),
		keeps(serve.Route{Method: http.MethodPost, Path: "/v1/rack/weighing-days", ID: "addWeighingDay", Request: rack.WeighingDay{}, Result: rack.PageOf[rack.KeptReading]{},
			Handler: serve.Keep(serve.Weigh, rack.AddDay)}),
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/weighing-list", ID: "getWeighingList", Result: rack.WeighingList{}, Forms: rack.WeighingListForms,
			Query:   slices.Concat([]serve.Parameter{placeQuery, dateQuery, dueQuery, waitQuery}, serve.Paging),
			Handler: serve.KeepAfter(serve.Read, rack.AwaitOverview, rack.TellWeighingList)}),
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/calendar", ID: "getRackCalendar", Query: []serve.Parameter{waitQuery}, Result: rack.Calendar{},
			Forms: []wire.Form{rack.CalendarForm}, Handler: calendar}),
		serve.Route{Method: http.MethodGet, Path: "/v1/rack/calendar.ics", Asset: true, Keeps: true, Handler: serve.AsForm(rack.CalendarForm, calendar)},
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/labels", ID: "listLabels", Result: rack.Labels{}, Forms: []wire.Form{wire.PageForm},
			Query:   []serve.Parameter{{Name: "billet", Description: "id of a billet: of it and what was cut from it"}, placeQuery, {Name: "species", Description: "id of a wood of the tables"}, baseQuery},
			Handler: serve.Keep(serve.Read, labels)}),
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/billets/:id/card", ID: "getBilletCard", Result: rack.Card{}, Forms: []wire.Form{wire.PageForm},
			Query: []serve.Parameter{waitQuery}, Handler: serve.KeepAfter(serve.Read, rack.AwaitOverview, rack.TellCard(store.Billet))}),
		keeps(serve.Route{Method: http.MethodGet, Path: "/v1/rack/pieces/:id/card", ID: "getPieceCard", Result: rack.Card{}, Forms: []wire.Form{wire.PageForm},
			Query: []serve.Parameter{waitQuery}, Handler: serve.KeepAfter(serve.Read, rack.AwaitOverview, rack.TellCard(store.Piece))}),
		keeps(serve.Route{Method: http.MethodPost, Path: "/v1/rack/sheets", ID: "addSheet", Request: rack.Sheet{}, Result: rack.SheetTaken{},
			Handler: serve.Keep(serve.All, rack.AddSheet(sheetForms))}),
		keeps(serve.Route{Method: http.MethodPost, Path: "/v1/rack/cuttings", ID: "addCutting", Request: rack.Cutting{}, Result: rack.KeptCutting{},
			Handler: serve.Keep(serve.Weigh, rack.AddCutting)}),
		ofKept("/v1/rack/billets/:id/readiness", "assessReadinessOfBillet", readinessWork, rack.AskReadiness(store.Billet), wire.DrawnForm, wire.TableForm),
		ofKept("/v1/rack/pieces/:id/readiness", "assessReadinessOfPiece", readinessWork, rack.AskReadiness(store.Piece), wire.DrawnForm, wire.TableForm),
		ofKept("/v1/rack/billets/:id/resaw-timing", "compareResawTimingOfBillet", timingWork, rack.AskTiming, wire.DrawnForm),
		ofKept("/v1/rack/billets/:id/resaw-plan", "planResawOfBillet", planWork, rack.AskPlan, wire.DrawnForm, wire.TableForm, wire.PrintedForm, wire.TemplateForm),
		ofKept("/v1/rack/billets/:id/movement", "calculateMovementOfBillet", movementWork, rack.AskMovement),
	)
}

// photoRows are the routes of the photo of wood of a kind.
func photoRows(kind store.Kind, path, one string) []serve.Route {
	all := []serve.Route{
		keeps(serve.Route{Method: http.MethodGet, Path: path, ID: "get" + one + "Photo", Gives: photo.Media, Handler: looks(kind, rack.GetPhoto)}),
		keeps(serve.Route{Method: http.MethodPut, Path: path, ID: "put" + one + "Photo", Takes: photo.Media, Result: rack.KeptPhoto{},
			Handler: serve.KeepUpload(serve.Weigh, rack.PutPhoto(kind))}),
		keeps(serve.Route{Method: http.MethodDelete, Path: path, ID: "remove" + one + "Photo", Once: true, Result: rack.RemovedPhoto{},
			Handler: with(serve.Weigh, kind, rack.RemovePhoto)}),
	}
	for i := range all {
		w := photoWords(nouns[kind].one, all[i].Method)
		all[i].Summary, all[i].Description = w.summary, w.description
	}
	return all
}

// calendar tells the days to come.
var calendar = serve.KeepAfter(serve.Read, rack.AwaitOverview, rack.TellCalendar)

// labels are those of wood.
func labels(ctx context.Context, r *rack.Rack, t *shelf.Tables, s *wire.Sent, _ *serve.Nothing) (*rack.Labels, error) {
	return rack.TellLabels(ctx, r, t, s)
}

// sheetForms are how the rows of a sheet are read.
var sheetForms = map[store.Kind]rack.EntryForm{
	store.Billet: formOf[rack.BilletEntry](), store.Piece: formOf[rack.PieceEntry](), store.Reading: formOf[rack.ReadingEntry](),
	store.Event: formOf[rack.EventEntry](), store.Stay: formOf[rack.StayEntry](), store.Place: formOf[rack.PlaceEntry](),
	store.Target: formOf[rack.TargetEntry](), store.Plan: formOf[rack.PlanEntry](), store.Note: formOf[rack.NoteEntry](),
}

func formOf[E any, P interface {
	*E
	rack.Entered
}]() rack.EntryForm {
	return rack.EntryForm{Type: reflect.TypeFor[E](), Read: func(body []byte) (rack.Entered, []*wire.Refused) {
		entry, wrong := serve.Reader[E](body)
		return P(entry), wrong
	}}
}

// ofKept is the row of a calculation about wood on the rack.
func ofKept[Req any](path, id string, w serve.Work, ask rack.Question[Req], forms ...wire.Form) serve.Route {
	r := serve.Route{Method: http.MethodPost, Path: path, ID: id, Request: *new(Req), Forms: forms, Heavy: true, Handler: serve.AskOf(w, ask)}
	_, r.Result, _ = w.Types()
	return keeps(r)
}
