package plan

import "strconv"

// Letters names the n-th blank of a billet, from 0: A to Z, AA ...
//
// Accuracy: exact. Source: our own way to name them.
func Letters(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return Letters(n/26-1) + string(rune('A'+n%26))
}

// Wood is what a piece of a plan is.
type Wood string

// Kinds of piece.
const (
	TheBillet Wood = "billet"
	ToBeCut   Wood = "to be cut further"
	ABlank    Wood = "blank"
	ALeaf     Wood = "leaf"
	ASlab     Wood = "slab"
	AnOffcut  Wood = "offcut"
)

// Piece is one piece of a plan.
type Piece struct {
	Is    Wood
	Blank int // index of the blank it is or comes from; of a blank, a leaf and a slab
	Leaf  int // number of the leaf
}

// Name returns what the piece is called: the billet, to be cut further, blank A, leaf
// A3, slab A2, offcut.
//
// Accuracy: exact. Source: our own way to name them.
func (p Piece) Name() string {
	switch p.Is {
	case TheBillet:
		return "the billet"
	case ABlank:
		return "blank " + Letters(p.Blank)
	case ALeaf, ASlab:
		return string(p.Is) + " " + Letters(p.Blank) + strconv.Itoa(p.Leaf)
	case ToBeCut, AnOffcut:
	}
	return string(p.Is)
}

// Pieces returns what becomes of every piece that the steps name, by its number: one
// that is cut further, a blank, a leaf or an offcut.
//
// Accuracy: exact. Source: derived from the steps of the plan.
func (b *BilletPlan) Pieces() map[int]Piece {
	n := &namer{b: b, is: map[int]Piece{0: {Is: TheBillet}}, blank: -1, inHand: -1}
	for i := range b.Steps {
		for _, piece := range []int{b.Steps[i].Low, b.Steps[i].High} {
			n.is[piece] = Piece{Is: AnOffcut}
		}
	}
	for i := range b.Steps {
		if b.Steps[i].Piece > 0 {
			n.is[b.Steps[i].Piece] = Piece{Is: ToBeCut}
		}
	}
	for i := range b.Steps {
		n.follow(&b.Steps[i])
	}
	n.finish()
	delete(n.is, -1) // nothing is left there
	return n.is
}

// namer follows the wood in hand of every blank: each resaw cut frees a leaf before it,
// and where the far face is finished the last leaf is what is left.
type namer struct {
	b             *BilletPlan
	is            map[int]Piece
	blank, inHand int
	freed         int // leaves of the blank
}

func (n *namer) follow(s *Step) {
	switch s.Action {
	case FlattenBlank:
		n.finish()
		n.blank, n.inHand, n.freed = n.blank+1, s.Low, 0
		n.is[n.inHand] = Piece{Is: ABlank, Blank: n.blank}
	case Resaw:
		if leaves := n.b.Blanks[n.blank].Leaves; s.Low >= 0 && n.freed < len(leaves) {
			n.is[s.Low] = n.leaf(&leaves[n.freed])
			n.freed++
		}
		n.inHand = s.High
	case Plane:
		n.inHand = s.High
	case Crosscut, Rip, Trim:
	}
}

// finish names the last leaf of a blank.
func (n *namer) finish() {
	if n.blank >= 0 && n.inHand >= 0 && n.freed < len(n.b.Blanks[n.blank].Leaves) {
		n.is[n.inHand] = n.leaf(&n.b.Blanks[n.blank].Leaves[n.freed])
	}
}

func (n *namer) leaf(l *Leaf) Piece {
	if l.Role == RoleRejected {
		return Piece{Is: ASlab, Blank: n.blank, Leaf: l.Number}
	}
	return Piece{Is: ALeaf, Blank: n.blank, Leaf: l.Number}
}
