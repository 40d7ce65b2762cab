package plan

// way is how a piece of wood is cut, in the oriented wood: parted by a cut from edge to
// edge into two pieces that are cut further, or flattened and resawn as one blank. A nil
// way gives nothing.
type way struct {
	across    bool // by a rip: the parts lie side by side; else by a crosscut
	low, high *way // nil for a blank
	blank     blankPlan
}

// blankPlan is one blank: its place, and what is sawn from it.
type blankPlan struct {
	x, length, y, width nm
	turned              bool // on its side: sawn across the face, places of sets are from the edge at y
	split               bool // a wedge, sawn along its middle into one pair
	sets                []placed
}

// box is a rectangle of the oriented wood.
type box struct{ x0, x1, y0, y1 nm }

// box is the smallest rectangle that holds all blanks.
func (p *way) box() box {
	if p.low == nil {
		b := &p.blank
		return box{b.x, b.x + b.length, b.y, b.y + b.width}
	}
	a, b := p.low.box(), p.high.box()
	return box{min(a.x0, b.x0), max(a.x1, b.x1), min(a.y0, b.y0), max(a.y1, b.y1)}
}

// each calls do for every blank, in the order of the cuts.
func (p *way) each(do func(*blankPlan)) {
	switch {
	case p == nil:
	case p.low == nil:
		do(&p.blank)
	default:
		p.low.each(do)
		p.high.each(do)
	}
}

// parted returns a piece of two parts; of one where the other gives nothing.
func parted(across bool, low, high *way) *way {
	switch {
	case low == nil:
		return high
	case high == nil:
		return low
	}
	return &way{across: across, low: low, high: high}
}

// chain returns a piece that is cut into several, one after the other from the start.
func chain(across bool, parts []*way) *way {
	var out *way
	for i := len(parts) - 1; i >= 0; i-- {
		out = parted(across, parts[i], out)
	}
	return out
}

// aside reports whether some blank lies on its side or is a wedge.
func (p *way) aside() bool {
	is := false
	p.each(func(b *blankPlan) { is = is || b.turned || b.split })
	return is
}

// mapped returns the way with every blank changed, and without those of which nothing
// is left.
func (p *way) mapped(change func(blankPlan) (blankPlan, bool)) *way {
	if p == nil {
		return nil
	}
	if p.low == nil {
		b, ok := change(p.blank)
		if !ok {
			return nil
		}
		return &way{blank: b}
	}
	high := p.high.mapped(change) // from the thin end, where wood is spared first
	return parted(p.across, p.low.mapped(change), high)
}

// totals returns the sets of each kind in a way.
func (p *way) totals(kinds int) []int {
	out := make([]int, kinds)
	p.each(func(b *blankPlan) {
		for _, q := range b.sets {
			if q.part >= 0 {
				out[q.part] += q.count()
			}
		}
	})
	return out
}

// sectionPlan is a length of the wood that is ripped into strips, each of them a blank
// once it is trimmed.
type sectionPlan struct {
	from, to nm
	strips   []blankPlan
}

// wayOf returns the sections of a billet as a way to cut it.
func wayOf(sections []sectionPlan) *way {
	var out []*way
	for _, s := range sections {
		var strips []*way
		for _, b := range s.strips {
			strips = append(strips, &way{blank: b})
		}
		out = append(out, chain(true, strips))
	}
	return chain(false, out)
}
