package plan

import (
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// Limits of a plan request.
const (
	MaxBillets  = 50
	MaxKinds    = 20
	MaxSaws     = 8
	MaxZones    = 62     // of one billet
	MaxWorth    = 1e6    // of one set
	MaxSets     = 10_000 // of one kind, as a limit
	DefaultWork = UsualWork
	MaxWork     = 4_000_000_000
	UsualWork   = 20_000_000 // steps, about a second of a small machine: what a maker waits for
	UsualMemory = 44 << 20   // bytes, as the search reckons them: with rubbish the heap stays below 96 MiB
)

// Billet is one rough piece of wood, as measured. X runs along the length from
// the start, Y across the width from the near edge, which is straight, and Z into
// the wood from face 1, which is the reference for sawing.
type Billet struct {
	Name                     string
	Length, Width, Thickness quantity.Length  // at the start and the near edge
	WidthEnd                 *quantity.Length // at the end; nil: as at the start
	ThicknessEnd             *quantity.Length // at the end; nil: as at the start
	ThicknessFarEdge         *quantity.Length // a wedge; nil: as at the near edge
	FacingFace1, FacingFar   quantity.Length  // taken off the two outside faces of every blank
	UsualFacing              bool             // of face 1, which was not given
	TrimStart, TrimEnd       quantity.Length  // lost at the ends, the cuts included
	Zones                    []Zone
	Cup, Bow, Twist          quantity.Length // over the whole rough width and length
	Packed                   bool            // the rock of a twisted blank is shared by packing
	Pith                     *resaw.Point    // X across the width from the near edge, Z from face 1
	RingAngle                *quantity.Angle // one angle for all of it, where no pith is known
	RunoutOneIn              *float64        // 1 in this many; nil: not measured
}

// Zone is a box to keep out of: a knot, check, shake, sapwood edge, pith, wane.
// Touching it is allowed.
type Zone struct {
	Kind           string
	X0, X1, Y0, Y1 quantity.Length
	Z0, Z1         *quantity.Length // both nil: from face to face
}

// Match is how the leaves of a set belong together: neighbours in one stack, or with no
// match pieces from anywhere, unless a set has more than eight (want.go).
type Match string

// Kinds of match.
const (
	MatchBook Match = "bookmatch"
	MatchSlip Match = "slip_match"
	MatchNone Match = "none"
)

// PartKind is one kind of part that is wanted.
type PartKind struct {
	Name            string
	Length, Width   quantity.Length // of one sawn piece, its allowances included; length along the grain
	Final, Flatness quantity.Length // thickness build-up, completed by the saw's clean-up and wander
	ThinEdge        quantity.Length // as Final, of a half whose other edge is thinner: pairs may be split from a wedge, thick edges to the seam; 0: parallel
	AsSawn          bool            // Final is the thickness as sawn, to which nothing is added
	Shrinkage       float64         // share of its thickness that a sawn leaf still loses in drying, 0 to 0.5
	Pieces          int             // in a set
	Match           Match
	LeastRingAngle  quantity.Angle  // 0: any
	MostRunoutOneIn float64         // the fibre may leave by at most 1 in this many; 0: any
	Least           int             // sets wanted at least
	Most            *int            // sets of any worth at most; nil: no limit
	Worth           int64           // of one set, in whole units of anything
	From            []int           // the billets it may come from; nil: all of them
	Step            quantity.Length // sizes as sawn are whole multiples of it; 0: of any size (InSteps)
}

// MayComeFrom reports whether a part may be cut from a billet, by its number from 0.
//
// Accuracy: exact. Source: derived from the request.
func (p *PartKind) MayComeFrom(billet int) bool {
	return p.From == nil || slices.Contains(p.From, billet)
}

// Saw is one saw with the habits that go with it.
type Saw struct {
	Name                     string
	Resaw, Crosscut, Rip     quantity.Length // kerfs
	Wander                   quantity.Length
	CleanupShow, CleanupBack quantity.Length // off the two faces of a leaf
	Reface                   quantity.Length // off the blank after every resaw cut
	FarFaceFinished          bool
	HighestCut               quantity.Length // widest blank it can resaw; 0: any
}

// Request is what a plan is made for.
type Request struct {
	Billets []Billet
	Parts   []PartKind
	Saws    []Saw // compared; a plan uses one
	// Work is the largest number of steps (comparisons of the dynamic programs,
	// patterns, pivots); 0 means DefaultWork. It is a count and not a time, so
	// that the same request has the same answer on every machine.
	Work int64
	// Memory is how many bytes the search may hold, as it reckons them; 0 means no
	// limit. At its limit the search ends as at that of Work.
	Memory int64
}

// Plan is the best plan found.
type Plan struct {
	Saw     int     // index of the saw used
	Worth   int64   // of all sets that count
	Bound   int64   // no plan on any of the saws is worth more
	Optimal bool    // proven: no plan misses fewer sets, nor misses as few and is worth more
	Work    int64   // steps done
	Used    float64 // share of the steps, the memory or the time allowed, whichever was used most; 0 to 1
	Sets    []int   // that count, of each kind
	Short   []int   // sets missing from the least wanted, of each kind
	Billets []BilletPlan
	Saws    []SawPlan
	Notes   method.Notes
}

// SawPlan is what one of the saws would give.
type SawPlan struct {
	Worth, Bound int64
	Short        int // sets missing from the least wanted
	Cuts         int
	Leaves       int   // in sets or good
	Sets         []int // that count, of each kind
	Optimal      bool
	Ended        bool // by the work budget, before the proof was done
}

// BilletPlan is how one billet is cut.
type BilletPlan struct {
	Blanks    []Blank
	Steps     []Step          // in order
	Cuts      int             // steps that are cuts, a planed-off sliver counted as one
	Places    []Place         // of every piece that the steps name, by its number; 0 is the billet
	Remainder quantity.Length // length left whole at the thin end, beyond the last crosscut
	Worth     int64
	Shares    resaw.Shares
}

// Place is where a piece lies in the rough billet; of one that is flat the depths below
// the rough face 1, of one that was sawn off a taper that at which it begins, else from face to
// face.
type Place struct {
	X0, X1, Y0, Y1 quantity.Length
	Z0, Z1         *quantity.Length
}

// Blank is one stack of leaves. One that is turned lies on its side on the saw: its
// leaves are as wide as it is thick, and follow each other across its face.
type Blank struct {
	X, Y, Length, Width quantity.Length // its place in the rough billet
	Face1               quantity.Length // depth of the planed face 1 below the rough face 1
	Usable              quantity.Length // thickness once flat
	Turned              bool
	Split               bool             // a wedge, sawn along its middle: Usable is at its near edge
	FarUsable           *quantity.Length // of one that is split, at its far edge
	Piece               int              // its number before it is flat
	Leaves              []Leaf
	Remainder           quantity.Length // left behind the last leaf and its cut
}

// Role is what becomes of a leaf.
type Role string

// Roles of a leaf.
const (
	RoleSet      Role = "set"      // in a set
	RoleUnpaired Role = "unpaired" // good, but beyond the most wanted
	RoleRejected Role = "rejected" // a slab that holds a zone or has the wrong ring angle
)

// Leaf is one leaf or slab, numbered from face 1 of its blank.
type Leaf struct {
	Number   int
	Role     Role
	Part     int             // index of its kind; -1 when spoiled
	Set      int             // number of its set among those of its kind over all billets, from 1; 0 when odd or spoiled
	From, To quantity.Length // depth below the planed face 1; of a blank on its side from the edge that it is sawn from
	Piece    int             // its number in the steps
	// FarFrom and FarTo are the same at the far edge of a half of a wedge, where From and To
	// are at the near one; nil of a parallel leaf.
	FarFrom, FarTo *quantity.Length
	// Strips are what the leaf is crosscut and ripped into once it is sawn, all of its part, in
	// order along it and across; nil of a leaf that is used whole. Role and Set are those of
	// the first.
	Strips []Strip
}

// Strip is one piece of a leaf that is parted. Those at one place of neighbouring leaves are a set.
type Strip struct {
	Piece         int             // its number in the steps
	X, Y          quantity.Length // its place in the rough billet
	Length, Width quantity.Length
	Role          Role
	Set           int
}

// All returns the pieces of a leaf, itself where it is not parted.
//
// Accuracy: exact. Source: read from the leaf.
func (l *Leaf) All() []Strip {
	if l.Strips == nil {
		return []Strip{{Piece: l.Piece, Role: l.Role, Set: l.Set}}
	}
	return l.Strips
}

// Action is the kind of a step.
type Action string

// Actions.
const (
	Crosscut     Action = "crosscut"
	Rip          Action = "rip"
	Trim         Action = "trim"    // a crosscut of what was ripped
	FlattenBlank Action = "flatten" // both faces
	Resaw        Action = "resaw"
	Plane        Action = "plane"  // a sliver too thin to saw off
	Reface       Action = "reface" // the sawn face, before the next cut
)

// cuts reports whether the action counts as a cut.
func (a Action) cuts() bool { return a != FlattenBlank && a != Reface }

// Edge is an edge or a face of the piece in hand.
type Edge string

// Edges.
const (
	Start    Edge = "start" // the end nearest the start of the billet
	End      Edge = "end"
	NearEdge Edge = "near"
	FarEdge  Edge = "far"
	Face1    Edge = "face_1" // the face nearest face 1 of the billet
)

// opposite is the edge on the other side.
func (e Edge) opposite() Edge {
	return map[Edge]Edge{Start: End, End: Start, NearEdge: FarEdge, FarEdge: NearEdge}[e]
}

// Step is one action on one piece. Piece 0 is the billet; a cut turns its piece into the
// pieces Low and High on either side of the kerf, -1 where nothing is left. The edge
// Against lies against the fence or the stop, which is set to Fence: what is between it
// and the kerf. A cut goes from edge to edge of its piece. Flattening makes piece Low,
// At deep and Kerf thick; planing and refacing take Kerf off the face Against and make
// piece High. At is where the kerf starts in the billet: from its start, its near edge,
// the planed face 1, or the edge that a blank on its side is sawn from. A resaw cut of a piece that is
// not flat saws off a taper, At below the rough face 1.
type Step struct {
	Action    Action
	Piece     int
	At, Kerf  quantity.Length
	Low, High int
	Against   Edge
	Fence     quantity.Length
	// Far is the same at the far edge of a wedge, where it is not as at the near one: what is
	// left of its thickness, or the setting of the cut along its middle. Else nil.
	Far *quantity.Length
}

// Methods returns the rows of the plans.
func Methods() []*method.Method { return []*method.Method{rowPlan, rowChance} }

// usually makes an input in millimetres that may be negative, with the range that is usual.
func usually(name string, low, high float64) method.Input {
	in := exact.Coordinate(name)
	in.Fitted = method.Range{Low: low, High: high}
	return in
}

var rowPlan = &method.Method{
	ID: "resaw.plan", Chapter: exact.Chapter,
	Summary: "best plan found for whole billets, with its proof or a bound: crosscut, rip, flatten, resaw",
	Equation: "max sum of worth over sets; F(piece) = max of its blank and of F(low) + F(high) over all cuts from edge " +
		"to edge, on exact places for a plan and on relaxed ones for a bound; counts by column generation and lists",
	Inputs: []method.Input{
		exact.MM("length", exact.Least, 12000), exact.MM("width", exact.Least, 2000),
		exact.MM("thickness", exact.Least, 1000),
		exact.MM("width_end", 0, 2000), exact.MM("thickness_end", 0, 1000), exact.MM("thickness_far_edge", 0, 1000),
		exact.MM("facing", 0, 50), exact.MM("trim", 0, 600), exact.MM("cup", 0, 50), exact.MM("bow", 0, 100),
		exact.MM("twist", 0, 100),
		usually("zone", -1000, 12000), usually("pith", -50000, 50000), exact.Deg("ring_angle", 0, 90),
		exact.Ratio("runout_one_in", 1, 1e6),
		exact.MM("part_length", exact.Least, 6000), exact.MM("part_width", exact.Least, 2000),
		exact.MM("final", exact.Least, 200), exact.MM("thin_edge", 0, 200), exact.MM("allowance", 0, 20),
		exact.Ratio("shrinkage", 0, 0.5), exact.Deg("least_ring_angle", 0, 89.99),
		exact.Ratio("most_runout_one_in", 0, 1e6),
		exact.MM("kerf", 0, 9.525), exact.MM("highest_cut", 0, 2000),
		exact.Ratio("worth", 0, MaxWorth), exact.Ratio("least", 0, MaxSets), exact.Ratio("most", 0, MaxSets),
		exact.Ratio("pieces", 1, 1000),
		exact.Ratio("work", 0, MaxWork),
	},
	Accuracy: "exact in whole nanometres for this model: every cut goes from edge to edge of its piece; a billet is " +
		"crosscut and ripped in any order and to any depth; a blank is flattened (which costs cup (w/W)^2 + " +
		"bow (l/L)^2 + twist (l/L)(w/W)) and resawn from face 1, or on its side where it stands, or a wedge along its middle into a pair; a leaf is used whole or parted into as many of one smaller part as it holds, at most 250; " +
		"a set is consecutive " +
		"leaves of one blank, or pieces from anywhere where they need no match; a leaf that a zone or the pith " +
		"overlaps is lost; rings are held over both faces of the finished plate. A plan that is not proven says so and " +
		"gives its bound",
	Source: "derived; normal patterns after Herz 1972 and Christofides and Whitlock 1977 (both from memory); " +
		"recursion over pieces after Gilmore and Gomory 1965 (from memory); " +
		"checked against 300 small lists cut in every way and 500 integer programs",
	Checked: method.Derived,
}
