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
	Strip int // number of the strip of a leaf that is parted, from 1; else 0
}

// Name returns what the piece is called: the billet, to be cut further, blank A, leaf
// A3, leaf A3.2 of one that is parted, slab A2, offcut.
//
// Accuracy: exact. Source: our own way to name them.
func (p Piece) Name() string {
	switch p.Is {
	case TheBillet:
		return "the billet"
	case ABlank:
		return "blank " + Letters(p.Blank)
	case ALeaf, ASlab:
		name := string(p.Is) + " " + Letters(p.Blank) + strconv.Itoa(p.Leaf)
		if p.Strip > 0 {
			name += "." + strconv.Itoa(p.Strip)
		}
		return name
	case ToBeCut, AnOffcut:
	}
	return string(p.Is)
}

// Pieces returns what becomes of every piece that the steps name, by its number: one
// that is cut further, a blank, a leaf or an offcut.
//
// Accuracy: exact. Source: derived from the steps of the plan.
func (b *BilletPlan) Pieces() map[int]Piece {
	is := map[int]Piece{0: {Is: TheBillet}}
	for n := 1; n < len(b.Places); n++ {
		is[n] = Piece{Is: AnOffcut}
	}
	blanks := b.blankOf()
	for i := range b.Steps {
		if n := b.Steps[i].Piece; n > 0 && is[n].Is == AnOffcut {
			is[n] = Piece{Is: ToBeCut}
		}
		if s := &b.Steps[i]; s.Action == FlattenBlank {
			is[s.Low] = Piece{Is: ABlank, Blank: blanks[s.Low]}
		}
	}
	for j := range b.Blanks {
		for _, l := range b.Blanks[j].Leaves {
			is[l.Piece] = Piece{Is: ALeaf, Blank: j, Leaf: l.Number}
			for i := range l.Strips {
				is[l.Strips[i].Piece] = Piece{Is: ALeaf, Blank: j, Leaf: l.Number, Strip: i + 1}
			}
			if l.Role == RoleRejected {
				is[l.Piece] = Piece{Is: ASlab, Blank: j, Leaf: l.Number}
			}
		}
	}
	return is
}

// blankOf returns the blank that the flat pieces belong to, by the number of the piece.
func (b *BilletPlan) blankOf() map[int]int {
	of := map[int]int{}
	blank := map[int]int{} // by the piece before it is flat
	for j := range b.Blanks {
		blank[b.Blanks[j].Piece] = j
	}
	for i := range b.Steps {
		s := &b.Steps[i]
		j, is := of[s.Piece]
		if s.Action == FlattenBlank {
			j, is = blank[s.Piece]
		}
		if !is {
			continue
		}
		for _, n := range []int{s.Low, s.High} {
			if n >= 0 {
				of[n] = j
			}
		}
	}
	return of
}
