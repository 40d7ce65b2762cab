package plan

import (
	"cmp"
	"math/bits"
	"slices"

	"latewood/woodphys/resaw/plan/guillotine"
)

// cutter searches every way to cut one billet by cuts from edge to edge, for given worths
// of a set.
type cutter struct {
	b       *board // its stacks
	spent   *work
	sizes   []sizeOf // of blanks
	plain   []plain  // by size
	turned  []turnable
	lattice *lattice // of many billets and kinds; nil: graphs
	axes    guillotine.Axes
	table   *guillotine.Table
	grid    *guillotine.Grid // shared by all billets

	value  []int64
	freely int64 // a bound at the worths of the parts
	upper  int64 // no way to cut the billet is worth more at these worths
	sketch *guillotine.Sketch
	items  []guillotine.Item // of the table
	sizeOf []int             // by item its size
	in     []bool            // by size whether it may be of use at these worths
	kept   points            // of the best ways so far
	seed   uint64
	places int     // along an axis of a grid
	finer  float64 // than usual are the tables, so many times
}

// Sizes of tables and grids. Own choices, by what was measured: see testdata/planner.
const (
	cellsLong, cellsWide = 150, 64
	mostCells            = 2000
	mostPlaces           = 20 // along an axis of a grid
	manyPlaces           = 16 // where billets are many
)

// newCutter makes the cutter of a billet for the kinds of mask that lie flat, and all
// that may be turned.
func newCutter(w *offer, r *rig, mask uint32, spent *work) *cutter {
	c := &cutter{b: emptyBoard(w, r, mask, spent), spent: spent, seed: 1, finer: 1}
	c.b.exact = true
	lengths := c.b.useful(r.lengths, func(k want) nm { return k.l })
	widths := c.b.useful(r.widths, func(k want) nm { return k.w })
	for _, s := range c.b.blankSizes(lengths, widths) {
		if s.l <= w.l-w.trim0-w.trim1 && s.w <= w.ref {
			c.sizes = append(c.sizes, s)
		}
	}
	c.turned = c.b.turnables()
	c.axes = guillotine.Axes{RoomX: max(0, w.l-w.trim0-w.trim1), RoomY: w.ref, KerfX: r.cross, KerfY: r.rip}
	return c
}

// least returns the smallest length and width of any blank.
func (c *cutter) least() (l, w nm) {
	l, w = 1<<60, 1<<60
	for _, s := range c.sizes {
		l, w = min(l, s.l), min(w, s.w)
	}
	for i := range c.turned {
		t := &c.turned[i]
		l, w = min(l, c.b.r.kinds[t.part].l), min(w, nm(t.least)*t.height-t.less)
	}
	return l, w
}

// idle reports whether nothing can be had from the billet.
func (c *cutter) idle() bool { return len(c.sizes) == 0 && len(c.turned) == 0 }

// everywhere is all places at which a blank may begin.
func (c *cutter) everywhere(l, width nm) stretch {
	w := c.b.w
	return stretch{x0: w.trim0, x1: max(w.trim0, w.l-w.trim1-l), y1: max(0, w.ref-width), bounds: true}
}

// price values the billet without places: afterwards upper bounds it. The worths must not
// change until the ways at them are traced.
// few leaves all kinds but those out that pay best for their wood: then upper bounds
// nothing.
func (c *cutter) price(value []int64, few bool) error {
	c.b.value, c.b.cut = value, 0
	c.b.pricedGraphs, c.b.pricedVariants, c.b.pricedStrips = 0, 0, 0
	c.b.r.at(value)
	c.value = value
	c.upper, c.sketch, c.items, c.sizeOf = 0, nil, c.items[:0], c.sizeOf[:0]
	c.in = append(c.in[:0], make([]bool, len(c.sizes))...)
	if c.plain == nil {
		if err := c.plainly(); err != nil {
			return err
		}
	}
	for i := range c.plain {
		c.plain[i].usable = -1
	}
	if err := c.pricedItems(c.wanted(few)); err != nil {
		return err
	}
	l, w := c.least()
	if c.table == nil && !c.idle() {
		c.table = c.newTable(l, w, c.finer)
	}
	if c.idle() {
		return nil
	}
	for finer := 1.0; !c.table.Fine(l, w); finer++ {
		c.table = c.newTable(l, w, finer)
	}
	var err error
	c.upper, err = c.table.Solve(c.items, c.rows(c.everywhere(l, w), nil), c.spent.spend)
	c.sketch = c.table.Best()
	c.spent.tables = c.b.r.room.Bytes() + 8*int64(cap(c.b.r.corners))
	c.thinOut()
	return err
}

// newTable makes a table that is so many times as fine as the usual one.
func (c *cutter) newTable(l, w nm, finer float64) *guillotine.Table {
	var lengths, widths []nm
	for _, s := range c.sizes {
		lengths, widths = append(lengths, s.l), append(widths, s.w)
	}
	for i := range c.turned {
		lengths = append(lengths, c.b.r.kinds[c.turned[i].part].l)
	}
	cells := func(usual, room, size nm) int {
		return int(min(mostCells, max(finer*float64(usual), max(1, finer)*float64(3*room/(2*size)))))
	}
	long := cells(cellsLong, c.axes.RoomX+c.axes.KerfX, l+c.axes.KerfX)
	wide := cells(cellsWide, c.axes.RoomY+c.axes.KerfY, w+c.axes.KerfY)
	return guillotine.NewTable(c.axes, sorted(lengths), sorted(widths), long, wide, &c.b.r.room)
}

// fewKinds pay best for their wood, and fewSizes of blank by what they hold for their
// area. Own choices, by what was measured.
const (
	fewKinds = 8
	fewSizes = 30
)

// wanted returns the kinds that blanks are made for, as a mask.
func (c *cutter) wanted(few bool) uint32 {
	var all []int
	mask := uint32(0)
	for p := range c.b.r.kinds {
		if c.value[p] > 0 && c.b.mask&(1<<p) != 0 {
			all, mask = append(all, p), mask|1<<p
		}
	}
	if !few || len(all) <= fewKinds {
		return mask
	}
	density := func(p int) float64 { return float64(c.value[p]) / c.b.r.kinds[p].sawn() }
	slices.SortStableFunc(all, func(a, b int) int { return cmp.Compare(density(b), density(a)) })
	mask = 0
	for _, p := range all[:fewKinds] {
		mask |= 1 << p
	}
	return mask
}

// sawn is the volume of a set with its cuts.
func (k *want) sawn() float64 { return float64(k.l) * float64(k.w) * float64(k.height) }

// pricedItems values a blank of each size that some kind of a mask needs the length of
// and some the width, at the best place of all.
func (c *cutter) pricedItems(mask uint32) error {
	best := make([]int64, len(c.sizes))
	for i, s := range c.sizes {
		if c.b.needs(mask, s) {
			v, err := c.stackWorth(c.everywhere(s.l, s.w), i)
			if err != nil {
				return err
			}
			best[i] = v
		}
	}
	for i, s := range c.sizes {
		c.in[i] = best[i] > 0
		for j, o := range c.sizes { // a smaller one does as well
			if c.in[i] && j != i && o.l <= s.l && o.w <= s.w && best[j] >= best[i] {
				c.in[i] = false
			}
		}
		if c.in[i] {
			c.items = append(c.items, guillotine.Item{Length: s.l, Width: s.w, Worth: best[i]})
			c.sizeOf = append(c.sizeOf, i)
		}
	}
	return nil
}

// needs reports whether some kind of a mask has the length and some the width of a size.
func (b *board) needs(mask uint32, s sizeOf) bool {
	long, wide := false, false
	for m := mask; m != 0; m &= m - 1 {
		k := &b.r.kinds[bits.TrailingZeros32(m)]
		long, wide = long || k.l == s.l, wide || k.w == s.w
	}
	return long && wide
}

// thinOut leaves only those sizes for exact grids that hold most for their area.
func (c *cutter) thinOut() {
	if len(c.items) <= fewSizes {
		return
	}
	rank := make([]int, len(c.items))
	for i := range rank {
		rank[i] = i
	}
	density := func(i int) float64 {
		x := &c.items[i]
		return float64(x.Worth) / (float64(x.Length+c.axes.KerfX) * float64(x.Width+c.axes.KerfY))
	}
	slices.SortStableFunc(rank, func(a, b int) int { return cmp.Compare(density(b), density(a)) })
	for _, i := range rank[fewSizes:] {
		c.in[c.sizeOf[i]] = false
	}
	c.table.Used(c.sketch, func(i int) { c.in[c.sizeOf[i]] = true })
}

// plain is the stack of a size where neither zone nor pith ties it to a place, and what it
// was worth at the thickness last asked for.
type plain struct {
	graph        *stackGraph // nil where a lattice stands in
	mask         uint32
	gang         int32
	ringed       bool
	usable, thin nm
	worth        int64
}

// plainly makes the plain stack of every size.
func (c *cutter) plainly() error {
	for _, s := range c.sizes {
		mask := c.b.kindsFor(s.l, s.w, 1<<62)
		gang := c.b.r.gang(s.l, s.w, mask)
		var graph *stackGraph
		if c.lattice == nil {
			var err error
			if graph, err = c.b.graphFor(graphKey{mask: mask, gang: gang}); err != nil {
				return err
			}
		}
		p := plain{graph: graph, mask: mask, gang: gang, ringed: c.b.w.pith && c.b.anyRinged(mask), thin: 1 << 62}
		for m := mask; m != 0; m &= m - 1 {
			p.thin = min(p.thin, c.b.r.kinds[bits.TrailingZeros32(m)].t)
		}
		c.plain = append(c.plain, p)
	}
	return nil
}

// plainAt values the plain stack of a size at a thickness.
func (c *cutter) plainAt(i int, usable nm) int64 {
	p := &c.plain[i]
	switch {
	case usable < p.thin:
		return 0
	case usable != p.usable:
		if p.graph.stamp != c.b.r.stamp {
			c.spent.done += int64(len(p.graph.arcs) / 10)
			p.graph.price(c.value, 0, c.b.r.stamp)
		}
		p.usable, p.worth = usable, max(0, p.graph.worth(p.graph.endsAt(c.b.r, usable), 0))
	}
	return p.worth
}

// stackWorth values a blank of a size, by its number, that begins within a stretch.
func (c *cutter) stackWorth(s stretch, i int) (int64, error) {
	size, p := c.sizes[i], &c.plain[i]
	at, ok := c.b.w.within(s, size.l, size.w)
	if !ok {
		return 0, nil
	}
	if at.zones == 0 && !p.ringed && c.lattice == nil {
		return c.plainAt(i, at.usable), nil
	}
	if c.lattice != nil {
		if s.bounds {
			return c.boundAt(i, &at), nil
		}
		return c.coarseWorth(i, &at), nil
	}
	id, err := c.b.stackAt(at, size.l, size.w)
	if err != nil || id < 0 {
		return 0, err
	}
	if int(id) >= c.b.pricedVariants {
		if err := c.b.extend(); err != nil {
			return 0, err
		}
	}
	return max(0, c.b.variantWorth[id]), nil
}

// rows are the blanks on their side that may begin within a stretch.
func (c *cutter) rows(s stretch, out []guillotine.Row) []guillotine.Row {
	for i := range c.turned {
		t := &c.turned[i]
		if c.value[t.part] <= 0 {
			continue
		}
		n := c.b.slices(t, s, c.axes.RoomY)
		if n == 0 {
			continue
		}
		out = append(out, guillotine.Row{Length: c.b.r.kinds[t.part].l, Height: t.height, Less: t.less,
			Least: t.least, Most: n, Each: c.value[t.part]})
	}
	return out
}

// points are places along both axes.
type points struct{ x, y []nm }

// lay makes the grid over some places.
func (c *cutter) lay(p points, relaxed bool) {
	w := c.b.w
	g := c.grid
	g.X = guillotine.Axis{At: placesIn(p.x, w.trim0, w.l-w.trim1+c.axes.KerfX), Kerf: c.axes.KerfX}
	g.Y = guillotine.Axis{At: placesIn(p.y, 0, w.ref+c.axes.KerfY), Kerf: c.axes.KerfY}
	g.Relaxed = relaxed
	g.Lengths, g.Widths = g.Lengths[:0], g.Widths[:0]
	for i, s := range c.sizes {
		if relaxed || c.in[i] {
			g.Lengths, g.Widths = append(g.Lengths, s.l), append(g.Widths, s.w)
		}
	}
	g.Lengths, g.Widths = sorted(g.Lengths), sorted(g.Widths)
}

// placesIn returns the places from low on, with both ends.
func placesIn(at []nm, low, high nm) []nm {
	out := []nm{low}
	for _, v := range at {
		if v > low && v < high {
			out = append(out, v)
		}
	}
	return sorted(append(out, high))
}

// stretchAt is where a piece may begin that begins at a place of the grid.
func (c *cutter) stretchAt(i, a int) stretch {
	g := c.grid
	s := placeAt(g.X.At[i], g.Y.At[a])
	if g.Relaxed {
		s.x1, s.y1, s.bounds = g.X.At[i+1]-1, g.Y.At[a+1]-1, true
	}
	return s
}

// perGrid is the work on a grid however small, in steps.
const perGrid = 1000

// corners values the blanks of every place.
func (c *cutter) corners() error {
	g := c.grid
	var failed error
	n := len(g.Lengths) * len(g.Widths)
	places := (len(g.X.At) - 1) * (len(g.Y.At) - 1)
	r := c.b.r
	if cap(r.corners) < n*places {
		r.corners = make([]int64, n*places)
	}
	left := r.corners[:n*places]
	clear(left)
	g.Corner = func(i, a int) guillotine.Corner {
		best := left[:n]
		left = left[n:]
		s := c.stretchAt(i, a)
		if err := c.corner(s, best); err != nil && failed == nil {
			failed = err
		}
		return guillotine.Corner{Best: best, Rows: c.rows(s, nil)}
	}
	used := 1
	for _, in := range c.in {
		if in || g.Relaxed {
			used++
		}
	}
	if err := c.spent.spend(int64(2*places*used + perGrid)); err != nil {
		return err
	}
	_, bytes := guillotine.Steps(len(g.X.At), len(g.Y.At))
	if !c.spent.holds(bytes) {
		return errBudget
	}
	_, err := g.Solve(c.spent.spend)
	return cmp.Or(failed, err)
}

// corner values the blanks of one place.
func (c *cutter) corner(s stretch, best []int64) error {
	g := c.grid
	w := c.b.w
	for i, size := range c.sizes {
		if !c.in[i] && !g.Relaxed {
			continue
		}
		from := s
		if g.Relaxed { // no blank begins where it would run off the end
			from.x1 = max(from.x0, min(from.x1, w.l-w.trim1-size.l))
			from.y1 = max(from.y0, min(from.y1, w.ref-size.w))
		}
		v, err := c.stackWorth(from, i)
		if err != nil {
			return err
		}
		if v > 0 {
			l, _ := slices.BinarySearch(g.Lengths, size.l)
			x, _ := slices.BinarySearch(g.Widths, size.w)
			best[l*len(g.Widths)+x] = v
		}
	}
	wide := len(g.Widths)
	for l := range g.Lengths {
		for x := range wide {
			if l > 0 {
				best[l*wide+x] = max(best[l*wide+x], best[(l-1)*wide+x])
			}
			if x > 0 {
				best[l*wide+x] = max(best[l*wide+x], best[l*wide+x-1])
			}
		}
	}
	return nil
}

// best cuts the billet over some places and returns the best way, and its worth.
func (c *cutter) best(p points) (*way, int64, error) {
	c.lay(p, false)
	if err := c.corners(); err != nil {
		return nil, 0, err
	}
	root := c.grid.Best()
	if root == nil {
		return nil, 0, nil
	}
	plan := c.wayOf(root)
	return plan, root.Worth, nil
}

// wayOf returns how a piece of the grid is cut.
func (c *cutter) wayOf(n *guillotine.Node) *way {
	if n == nil {
		return nil
	}
	if !n.Leaf() {
		return parted(n.AlongY, c.wayOf(n.Low), c.wayOf(n.High))
	}
	b, _ := c.blankOf(placeAt(c.grid.X.At[n.I], c.grid.Y.At[n.A]), n)
	return &way{blank: b}
}

// blankOf returns the blank of a piece of the grid at a true place, and what it is worth
// there.
func (c *cutter) blankOf(s stretch, n *guillotine.Node) (blankPlan, int64) {
	if n.Slices > 0 {
		return c.turnedBlank(s, n)
	}
	var out blankPlan
	most := int64(0)
	for i, size := range c.sizes {
		if size.l > n.Length || size.w > n.Width {
			continue
		}
		v, err := c.stackWorth(s, i)
		if err != nil || v <= most {
			continue
		}
		most = v
		out = blankPlan{x: s.x0, length: size.l, y: s.y0, width: size.w, sets: c.setsOf(s, i)}
	}
	return out, most
}

// setsOf returns the best stack of a blank of a size, by its number, at a place.
func (c *cutter) setsOf(s stretch, i int) []placed {
	at, _ := c.b.w.within(s, c.sizes[i].l, c.sizes[i].w)
	p := &c.plain[i]
	if c.lattice != nil {
		return c.coarseSets(i, &at)
	}
	if at.zones == 0 && !p.ringed {
		return p.graph.trace(p.graph.endsAt(c.b.r, at.usable), c.value, 0)
	}
	id, err := c.b.stackAt(at, c.sizes[i].l, c.sizes[i].w)
	if err != nil || id < 0 {
		return nil
	}
	use := &c.b.variants[id]
	return c.b.graphs[use.graph].trace(use.ends, c.value, 0)
}

// turnedBlank returns the blank of a piece that is sliced.
func (c *cutter) turnedBlank(s stretch, n *guillotine.Node) (blankPlan, int64) {
	var out blankPlan
	most := int64(0)
	for i := range c.turned {
		t := &c.turned[i]
		k := &c.b.r.kinds[t.part]
		if k.l > n.Length || c.value[t.part] <= 0 {
			continue
		}
		count := c.b.slices(t, s, n.Width)
		if v := int64(count) * c.value[t.part]; v > most {
			most = v
			out = c.sliced(t, s, count)
		}
	}
	return out, most
}

// sliced returns a blank on its side, or a wedge, at a place.
func (c *cutter) sliced(t *turnable, s stretch, sets int) blankPlan {
	out := blankPlan{x: s.x0, length: c.b.r.kinds[t.part].l, y: s.y0, width: nm(sets)*t.height - t.less,
		turned: !t.split, split: t.split}
	for j := range sets {
		out.sets = append(out.sets, placed{part: t.part, at: nm(j) * c.b.r.kinds[t.part].height, times: 1})
	}
	return out
}

// cut cuts the billet for given worths, by a first grid, and bounds it.
func (c *cutter) cut(value []int64, few bool) (*way, int64, error) {
	if err := c.price(value, few); err != nil || c.sketch == nil {
		return nil, 0, err
	}
	plan, worth, err := c.best(c.firstPlaces())
	if err != nil {
		return nil, 0, err
	}
	c.keep(plan)
	return plan, worth, nil
}

// keep has the places of a way among those of the grids to come.
func (c *cutter) keep(plan *way) {
	if plan == nil {
		return
	}
	used := plan.used()
	c.kept = points{firstOf(used.x, c.kept.x, c.places*2/3), firstOf(used.y, c.kept.y, c.places*2/3)}
}

// firstOf returns the places of one list and then another, so many at most.
func firstOf(a, b []nm, most int) []nm {
	g := gather{most: most}
	for _, v := range slices.Concat(a, b) {
		g.addX(v)
	}
	return g.x
}

// worthOf returns what a way is worth at the present worths.
func (c *cutter) worthOf(plan *way) int64 {
	v := int64(0)
	plan.each(func(b *blankPlan) {
		for _, q := range b.sets {
			if q.part >= 0 {
				v += int64(q.count()) * c.value[q.part]
			}
		}
	})
	return v
}
