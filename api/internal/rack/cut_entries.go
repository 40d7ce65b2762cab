package rack

import (
	"errors"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// PieceEntry is a leaf or an offcut, with what it was cut from.
type PieceEntry struct {
	ID     string     `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	Parent OfWood     `json:"parent" validate:"required" description:"what it was cut from; it stays a piece of that"`
	Plan   *LeafOfAll `json:"plan,omitempty" description:"the leaf of a plan that it is. Left out: of none"`
	Lying
}

// LeafOfAll is a leaf of a plan on the rack.
type LeafOfAll struct {
	ID   string `json:"id" validate:"required,id" description:"id of the plan on the rack"`
	Leaf string `json:"leaf" validate:"required,max=64" description:"what the plan calls the leaf"`
}

func (p *PieceEntry) entry(t *shelf.Tables) (store.Entry, error) {
	e, err := p.lies(t, p.ID)
	e.Key, e.Of = store.Key{Kind: store.Piece, ID: p.ID}, p.Parent.of()
	if e.Of == e.Key {
		err = errors.Join(err, &wire.Refused{Why: wire.Wrong, Pointer: "/parent", Code: "conflict", Detail: "a piece is cut from another one, not from itself"})
	}
	return e, err
}

// KeptPiece is a piece on the rack.
type KeptPiece struct {
	Keeping
	Warned
	PieceEntry
}

// PlanEntry is how a billet is to be sawn: what its plan is asked with.
type PlanEntry struct {
	ID string `json:"id" validate:"required,id" description:"made by you before you send it: letters, digits, dots, hyphens and underscores; used once"`
	OfWood
	Date  string       `json:"date,omitempty" validate:"omitempty,datetime=2006-01-02" description:"day on which it was made. Left out: not known"`
	Name  string       `json:"name,omitempty" validate:"max=100" description:"for people"`
	Saws  []shelf.Saw  `json:"saws" validate:"required,min=1,max=6,dive" nullable:"false" description:"compared; a plan uses one"`
	Parts []shelf.Part `json:"parts" validate:"required,min=1,max=20,dive" nullable:"false" description:"what is wanted"`
	Note  string       `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing is read from it"`
}

func (p *PlanEntry) entry(*shelf.Tables) (store.Entry, error) { //nolint:unparam // others can be wrong
	return store.Entry{Key: store.Key{Kind: store.Plan, ID: p.ID}, Of: p.of(), Day: p.Date, Label: wire.Clipped(p.Name)}, nil
}

// KeptPlan is a plan on the rack.
type KeptPlan struct {
	Keeping
	Warned
	PlanEntry
}
