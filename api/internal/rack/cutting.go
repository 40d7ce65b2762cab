package rack

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// Cutting is wood that was sawn up, with what came of it.
type Cutting struct {
	Event  *EventEntry  `json:"event" validate:"required" description:"resawn or ripped, of the billet or piece that was sawn"`
	Pieces []PieceEntry `json:"pieces" validate:"required,min=1,max=200,dive" nullable:"false" description:"what came of it; each is cut from what the event is of. All are kept with the event, or nothing is where one of them is wrong"`
}

// KeptCutting is what is kept of it.
type KeptCutting struct {
	Event  KeptEvent   `json:"event" required:"true" description:"as it is kept"`
	Pieces []KeptPiece `json:"pieces" required:"true" nullable:"false" description:"as they are kept, in their order"`
}

// cuttingDone is the same as the store has it.
type cuttingDone struct {
	Event  *Kept   `json:"event"`
	Pieces []*Kept `json:"pieces"`
}

// AddCutting keeps the event and the pieces, or nothing.
func AddCutting(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent, req *Cutting) (*cuttingDone, error) { //nolint:revive // the contract has KeptCutting
	event, err := req.event(t, s.Body)
	if err != nil {
		return nil, err
	}
	bodies, err := bodiesOf(s.Body, "pieces")
	if err != nil || len(bodies) != len(req.Pieces) {
		return nil, errors.Join(err, &wire.Refused{Why: wire.Wrong, Pointer: "/pieces", Code: "wrong_type", Detail: "pieces is a list"})
	}
	changes := []store.Change{{Deed: store.Create, Entry: event}}
	for i := range req.Pieces {
		at := "/pieces/" + strconv.Itoa(i)
		piece, err := entryOf(t, &req.Pieces[i], bodies[i])
		if err != nil {
			return nil, inMember(at, err)
		}
		if piece.Of != event.Of {
			return nil, &wire.Refused{Why: wire.Wrong, Pointer: at + "/parent", Code: "conflict", Detail: "a piece of the cutting is cut from what its event is of"}
		}
		changes = append(changes, store.Change{Deed: store.Create, Entry: piece})
	}
	receipt, err := r.apply(ctx, t, s, changes...)
	if err != nil {
		if i, _ := changeOf(err); i > 0 {
			return nil, inMember("/pieces/"+strconv.Itoa(i-1), told(err))
		}
		return nil, inMember("/event", told(err))
	}
	done := &cuttingDone{Event: kept(&receipt.Records[0]), Pieces: []*Kept{}}
	for i := range receipt.Records[1:] {
		done.Pieces = append(done.Pieces, kept(&receipt.Records[i+1]))
	}
	return done, nil
}

// event is the event of the cutting as it is kept.
func (c *Cutting) event(t *shelf.Tables, body []byte) (store.Entry, error) {
	sent, err := objectOf(body)
	if err != nil {
		return store.Entry{}, err
	}
	e, err := entryOf(t, c.Event, sent["event"])
	if err != nil {
		return e, inMember("/event", err)
	}
	if c.Event.Event.Kind != "resawn" && c.Event.Event.Kind != "ripped" {
		return e, &wire.Refused{Why: wire.Wrong, Pointer: "/event/event/kind", Code: "conflict", Detail: "kind of a cutting is resawn or ripped"}
	}
	return e, nil
}
