package plan

import (
	"slices"

	"latewood/woodphys/resaw/exact"
)

// variant is a stack of given usable thickness.
type variant struct {
	graph  int32
	usable nm
	ends   ends
	tie    *graphKey // of its own graph, as long as it is valued on another
}

// option is one blank that a strip may be trimmed to.
type option struct {
	offset nm // of its start from that of the section
	length nm
	use    int32 // index of its variant
	trims  int32 // crosscuts of the strip
}

// strip is what one strip of a section may become; the best of its options.
type strip struct {
	width   nm
	options []option
}

// board is one billet on one saw, taken apart into graphs that are valued anew
// for every set of worths.
type board struct {
	w        *offer
	r        *rig
	mask     uint32 // of kinds its grain suits
	graphs   []*stackGraph
	variants []variant
	strips   []strip
	sections []section
	top      dag // along the length
	lengths  []nm
	anchors  []nm // along the length
	ceiling  *board

	variantKeys map[variantKey]int32
	tiedKeys    map[tiedKey]int32
	graphKeys   map[graphKey]int32
	stripKeys   map[string]int32
	sectionKeys map[nm]int32
	usedBy      map[int32][]int32 // the strips that use a loose variant
	version     int               // of the worths and of what is tied
	generous    bool              // a ceiling
	exact       bool              // nothing is valued on a graph that is not its own
	spent       *work

	value                                        []int64 // last priced
	cut                                          int64
	pricedGraphs, pricedVariants, pricedStrips   int
	variantWorth, stripWorth, sectionWorth, best []int64
	room                                         []int64
	unbuilt                                      int
	upper, upperStamp                            int64 // bound at the worths of that stamp
	end                                          int32 // where the best path ends
}

// section is one section, its graph built when it first matters.
type section struct {
	from, to nm
	built    bool
	fresh    bool // built and not valued yet
	settled  int  // version at which its best path was last found without a loose variant
	dag      *dag // nil when no part can be had from it
	class    int32
}

type variantKey struct {
	graph  int32
	usable nm
}

// tiedKey is that of a variant that the pith ties to its place.
type tiedKey struct {
	key    graphKey
	usable nm
}

type graphKey struct {
	mask       uint32
	gang       int32 // how many of each a leaf holds
	zones      uint64
	loss, dist nm
}

// newBoard takes a billet apart for the kinds of mask.
func newBoard(w *offer, r *rig, mask uint32, spent *work) (*board, error) {
	b := emptyBoard(w, r, mask, spent)
	b.lengths = b.useful(r.lengths, func(k want) nm { return k.l })
	if err := b.alongLength(); err != nil {
		return nil, err
	}
	b.best = make([]int64, len(b.top.at))
	return b, b.newCeiling()
}

// emptyBoard is a board that no stack is made on yet.
func emptyBoard(w *offer, r *rig, mask uint32, spent *work) *board {
	return &board{
		w: w, r: r, mask: mask, spent: spent, variantKeys: map[variantKey]int32{}, graphKeys: map[graphKey]int32{},
		stripKeys: map[string]int32{}, sectionKeys: map[nm]int32{}, usedBy: map[int32][]int32{},
		tiedKeys: map[tiedKey]int32{},
	}
}

// newCeiling makes the board that bounds sections not yet built: the same wood
// without zones, pith or taper, as thick and as wide as it gets, with every last
// cut of a stack saved. A section of it of each length is worth, with one cut
// saved, at least as much as any section of the wood that is as long or longer
// but not as long as the next.
func (b *board) newCeiling() error {
	if b.unbuilt <= len(b.lengths) && !b.particular() { // no dearer to build them all
		for i := range b.sections {
			if err := b.build(i); err != nil {
				return err
			}
		}
		return nil
	}
	w := *b.w
	w.zones, w.pith, w.both = nil, false, false
	w.t += max(0, w.tx-w.t) + max(0, exact.Between(w.t, w.ty, w.ref, w.w0)-w.t)
	w.tx, w.ty, w.w0, w.w1, w.flipX, w.flipY = w.t, w.t, w.ref, w.ref, false, false
	c := &board{
		w: &w, r: b.r, spent: b.spent, mask: b.mask, variantKeys: map[variantKey]int32{},
		graphKeys: map[graphKey]int32{},
		stripKeys: map[string]int32{}, sectionKeys: map[nm]int32{}, lengths: b.lengths, generous: true,
	}
	for _, l := range b.lengths {
		c.sections = append(c.sections, section{to: l})
	}
	for i := range c.sections {
		if err := c.build(i); err != nil {
			return err
		}
	}
	b.ceiling = c
	return nil
}

// particular reports whether strips of one width differ by where they lie, which
// makes sections dear.
func (b *board) particular() bool {
	return b.w.ty != b.w.t || len(b.w.zones) > 0 || b.w.pith && b.anyRinged(b.mask)
}

// alongLength builds the graph of sections along the length.
func (b *board) alongLength() error {
	w, r := b.w, b.r
	limit := w.l - w.trim1
	anchors := []nm{w.trim0}
	for _, z := range w.zones {
		if z.x1 > w.trim0 && z.x1 < limit {
			anchors = append(anchors, z.x1)
		}
	}
	anchors = sorted(anchors)
	lengths := b.lengths
	b.anchors = anchors
	steps := make([]nm, len(lengths))
	for i, l := range lengths {
		steps[i] = l + r.cross
	}
	at, _, err := closure(anchors, steps, limit+r.cross, b.spent)
	if err != nil {
		return err
	}
	// Node 0 is the start of the wood, trimmed or not.
	first := int32(0)
	if len(at) == 0 { // trimmed away altogether
		b.top = dag{at: []nm{0}, term: []int32{0}}
		return nil
	}
	if w.trim0 > 0 {
		at = slices.Insert(at, 0, 0)
		first = 1
		for _, a := range anchors { // one cut, at the trim or further in
			to, _ := slices.BinarySearch(at, a)
			b.top.arcs = append(b.top.arcs, arc{from: 0, to: int32(to), item: -1, cost: 1})
		}
	}
	b.top.at, b.top.term = at, make([]int32, len(at))
	reached := make([]bool, len(at))
	reached[first] = true
	for _, a := range b.top.arcs {
		reached[a.to] = true
	}
	for i := first; int(i) < len(at); i++ {
		if !reached[i] {
			continue
		}
		s := at[i]
		ends := sectionEnds(s, anchors, lengths, limit)
		for _, e := range ends {
			id := b.sectionAt(s, e)
			to, _ := slices.BinarySearch(at, e+r.cross)
			cost := int32(1)
			if e == w.l {
				cost = 0
			}
			reached[to] = true
			b.top.arcs = append(b.top.arcs, arc{from: i, to: int32(to), item: id, cost: cost, pos: s})
		}
		if err := b.grown(len(ends), len(anchors)); err != nil {
			return err
		}
		for _, a := range anchors {
			if a > s {
				to, _ := slices.BinarySearch(at, a)
				reached[to] = true
				b.top.arcs = append(b.top.arcs, arc{from: i, to: int32(to), item: -1, cost: 1, pos: s})
			}
		}
	}
	return nil
}

// grown counts the sections and arcs that a place along the length adds.
func (b *board) grown(sections, gaps int) error {
	if err := b.spent.build(sections, sectionBytes+arcBytes); err != nil {
		return err
	}
	return b.spent.build(gaps, arcBytes)
}

// useful returns the sizes that some kind suited to the billet has.
func (b *board) useful(sizes []nm, of func(want) nm) []nm {
	var out []nm
	for _, s := range sizes {
		for p, k := range b.r.kinds {
			if b.mask&(1<<p) != 0 && of(k) == s {
				out = append(out, s)
				break
			}
		}
	}
	return out
}

// sectionEnds returns where a section from s may end: a length after its start or
// after a zone within reach, so that some blank starts at s and the longest
// reaching one ends there.
func sectionEnds(s nm, anchors, lengths []nm, limit nm) []nm {
	var out []nm
	if len(lengths) == 0 {
		return nil
	}
	longest := lengths[len(lengths)-1]
	for _, l := range lengths {
		out = append(out, s+l)
		for _, a := range anchors {
			if a > s && a < s+longest {
				out = append(out, a+l)
			}
		}
	}
	out = sorted(out)
	for i, e := range out {
		if e > limit {
			return out[:i]
		}
	}
	return out
}

// sectionAt returns the number of the section from s to e. Sections of one length
// are one where neither zones nor taper tell them apart.
func (b *board) sectionAt(s, e nm) int32 {
	plain := b.w.uniformX() && b.zonesOver(s, e) == 0
	if plain {
		if id, ok := b.sectionKeys[e-s]; ok {
			return id
		}
		b.sectionKeys[e-s] = int32(len(b.sections))
	}
	class := 0
	for i, l := range b.lengths {
		if l <= e-s {
			class = i
		}
	}
	b.sections = append(b.sections, section{from: s, to: e, class: int32(class)})
	b.unbuilt++
	return int32(len(b.sections) - 1)
}

func (b *board) zonesOver(s, e nm) uint64 {
	zones := uint64(0)
	for i := range b.w.zones {
		if z := &b.w.zones[i]; z.x0 < e && s < z.x1 {
			zones |= 1 << i
		}
	}
	return zones
}

// build builds the graph of a section.
func (b *board) build(id int) error {
	p := &b.sections[id]
	starts := []nm{p.from}
	for _, a := range b.anchors {
		if a > p.from && a < p.to {
			starts = append(starts, a)
		}
	}
	d, err := b.across(p.from, p.to, b.zonesOver(p.from, p.to), starts, b.lengths)
	p.built, p.fresh, p.dag = true, true, d
	b.unbuilt--
	return err
}

func (p *section) length() nm { return p.to - p.from }
