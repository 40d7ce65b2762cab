package species

import (
	"slices"

	"latewood/woodphys/quantity"
)

// Size is one length of the shop tables, or the absence of it, with where it
// comes from. Source and Checked are empty only when the length is missing.
type Size struct {
	Optional[quantity.Length]
	Source  string
	Checked Checked
}

// Span is a length as the trade states it: the low and the high end of what is
// met with, and what is usual. Any of the three may be missing: "300 mm or more"
// has only a low end. A usual length marked Computed is the midpoint.
type Span struct{ Low, Usual, High Size }

// Matching is how the pieces of a set are matched.
type Matching string

// Ways of matching.
const (
	Bookmatched   Matching = "bookmatch" // opened like a book
	Unmatched     Matching = "none"
	EitherMatched Matching = "either" // with or without a match
)

// RingAngles is the ring angle to the wide face that makers ask for, in degrees.
// Source and Checked are empty when nothing is stated.
type RingAngles struct {
	Wanted  Optional[quantity.Angle] // this or steeper
	Least   Optional[quantity.Angle] // tolerated at one edge
	Source  string
	Checked Checked
}

// Plate is one part of an instrument as it is sawn out, one piece of the set. It
// is a starting value and not a standard; every figure may be changed. It is
// shared and must not be changed.
type Plate struct {
	ID         string // stable, such as "violin-top"
	Instrument string
	Part       string
	Pieces     int  // in a set
	Length     Size // along the grain
	Width      Size // of one piece
	Rough      Size // as sawn; of a wedge the thick edge of one piece after the centre cut
	ThinEdge   Size // of a wedge; missing for flat pieces
	Final      Size // of the finished plate, largest usual
	Quartered  bool // on the quarter is preferred
	Matched    Matching
	RingAngle  RingAngles
	Note       string
}

// Wedge reports whether the piece is thicker at one edge than at the other.
func (p *Plate) Wedge() bool { return p.ThinEdge.Known() }

// Joined reports whether the pieces of a set are glued edge to edge, so that they have a seam:
// sides are a match too, and go one to each side.
func (p *Plate) Joined() bool { return p.Part != "sides" }

// SawKind is a kind of saw with its kerf, the width of wood one cut turns to
// dust. Measure your own: make one cut in scrap, kerf = T - (t1 + t2).
type SawKind struct {
	ID   string // stable, such as "bandsaw_carbide"
	Name string
	Kerf Span
	Note string
}

// Allowance is wood that is planned for and lost.
type Allowance struct {
	ID   string // stable, such as "cleanup_sander"
	Name string
	Per  string // what it is lost from: "face", "both_faces", "leaf", "edge", "side", "pith"
	Loss Span
	Note string
}

// EndTrim is the length lost at each end of a billet.
type EndTrim struct {
	ID   string // stable, such as "sealed_fresh"
	Name string // the case: how the ends were sealed and dried
	Each Span   // at each end
	Note string
}

// shopTables are the tables of the shop, each in the order of its ids.
type shopTables struct {
	plates     []*Plate
	saws       []*SawKind
	allowances []*Allowance
	endTrims   []*EndTrim
	plateIndex *index
}

// Plates returns all plates in the order of their ids. The slice is the
// caller's, the plates are shared.
//
// Source: each figure carries its own; most are common practice.
func (t *Tables) Plates() []*Plate { return slices.Clone(t.shop.plates) }

// Plate returns the plate with that id. Ids are case-sensitive.
func (t *Tables) Plate(id string) (*Plate, bool) {
	return byID(t.shop.plates, id, func(p *Plate) string { return p.ID })
}

// Saws returns all kinds of saw in the order of their ids, as Plates does.
func (t *Tables) Saws() []*SawKind { return slices.Clone(t.shop.saws) }

// Saw returns the kind of saw with that id. Ids are case-sensitive.
func (t *Tables) Saw(id string) (*SawKind, bool) {
	return byID(t.shop.saws, id, func(s *SawKind) string { return s.ID })
}

// Allowances returns all allowances in the order of their ids, as Plates does.
func (t *Tables) Allowances() []*Allowance { return slices.Clone(t.shop.allowances) }

// Allowance returns the allowance with that id. Ids are case-sensitive.
func (t *Tables) Allowance(id string) (*Allowance, bool) {
	return byID(t.shop.allowances, id, func(a *Allowance) string { return a.ID })
}

// EndTrims returns all cases of end trim in the order of their ids, as Plates
// does.
func (t *Tables) EndTrims() []*EndTrim { return slices.Clone(t.shop.endTrims) }

// EndTrim returns the case of end trim with that id. Ids are case-sensitive.
func (t *Tables) EndTrim(id string) (*EndTrim, bool) {
	return byID(t.shop.endTrims, id, func(e *EndTrim) string { return e.ID })
}
