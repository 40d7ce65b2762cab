package guillotine

// Table is what rectangles of any two sizes are worth, whose every blank is as good as
// the best anywhere.
type Table struct {
	long, wide int // cells along X and Y
	value      []int64
	across     []int64 // the same, lengths within widths
	items      []Item
	rows       []Row
	sizes      [][2]int // of items in cells
	perX, perY float64
	kerfX      NM
	kerfY      NM
	shared     *Room
}

// Room is what tables work in that are solved one after the other: what Solve found stands until
// the next one is solved.
type Room struct{ value, across []int64 }

// Bytes returns how much the room takes.
//
// Accuracy: exact. Source: counted from what is allocated.
func (r *Room) Bytes() int64 { return 8 * int64(cap(r.value)+cap(r.across)) }

// of returns room for so many numbers, all 0.
func (r *Room) of(need int) (value, across []int64) {
	if cap(r.value) < need {
		r.value, r.across = make([]int64, need), make([]int64, need)
	}
	value, across = r.value[:need], r.across[:need]
	clear(value)
	clear(across)
	return value, across
}

// Item is a blank of any place.
type Item struct {
	Length, Width NM
	Worth         int64
}

// Axes of a table: the room along and across, the kerfs of the cuts that part it.
type Axes struct{ RoomX, RoomY, KerfX, KerfY NM }

// NewTable returns a table of so many cells along and across, at most: of those counts
// from two thirds of them on the ones by which sizes lose least in rounding. It is solved in a room
// that others may be solved in too.
//
// Accuracy: exact. Source: derived; geometry of rectangles.
func NewTable(a Axes, lengths, widths []NM, long, wide int, shared *Room) *Table {
	t := &Table{shared: shared, long: finest(a.RoomX+a.KerfX, a.KerfX, lengths, long), kerfX: a.KerfX, kerfY: a.KerfY}
	t.wide = finest(a.RoomY+a.KerfY, a.KerfY, widths, wide)
	t.perX, t.perY = float64(t.long)/float64(a.RoomX+a.KerfX), float64(t.wide)/float64(a.RoomY+a.KerfY)
	return t
}

// finest returns the number of cells, from two thirds of most on, at which sizes lose
// the least by rounding.
func finest(room, kerf NM, sizes []NM, most int) int {
	best, least := most, 1e300
	for n := most * 2 / 3; n <= most; n++ {
		lost := 0.0
		for _, s := range sizes {
			exactly := float64(s+kerf) * float64(n) / float64(room)
			lost += (exactly - float64(cellsOf(s+kerf, float64(n)/float64(room)))) / exactly
		}
		if lost < least {
			best, least = n, lost
		}
	}
	return max(1, best)
}

// cellsOf rounds a size down to cells, a trillionth of floating point forgiven.
func cellsOf(size NM, per float64) int { return int(float64(size)*per + 1e-9) }

// Fine reports whether every size is at least one cell, without which a table does not
// bound.
//
// Accuracy: exact. Source: derived; the argument in doc.go.
func (t *Table) Fine(length, width NM) bool {
	return cellsOf(length+t.kerfX, t.perX) > 0 && cellsOf(width+t.kerfY, t.perY) > 0
}

// Steps returns about how many steps Solve takes, but for blanks that are sliced.
//
// Accuracy: that of counting loops. Source: counted from Solve.
func (t *Table) Steps() int64 {
	long, wide := int64(t.long), int64(t.wide)
	return wide*long*(wide/4+long/4+2)/perStep + long
}

// Bytes returns what a table of its size is solved in.
//
// Accuracy: exact. Source: counted from what Solve takes.
func (t *Table) Bytes() int64 { return 16 * int64(t.long+1) * int64(t.wide+1) }

// Solve values all rectangles and returns the worth of the whole.
//
// Errors: that of spend, which is told the steps. Accuracy: a bound on the worth of any
// way to cut the room. Source: derived; Gilmore and Gomory 1965 (from memory).
func (t *Table) Solve(items []Item, rows []Row, spend func(int64) error) (int64, error) {
	w := t.wide + 1
	need := (t.long + 1) * w
	t.value, t.across = t.shared.of(need)
	t.items, t.rows, t.sizes = items, rows, t.sizes[:0]
	for _, x := range items {
		p, q := cellsOf(x.Length+t.kerfX, t.perX), cellsOf(x.Width+t.kerfY, t.perY)
		t.sizes = append(t.sizes, [2]int{p, q})
		if p <= t.long && q <= t.wide {
			t.value[p*w+q] = max(t.value[p*w+q], x.Worth)
		}
	}
	for p := 1; p <= t.long; p++ {
		for q := 1; q <= t.wide; q++ {
			v := max(t.value[p*w+q], t.value[(p-1)*w+q], t.value[p*w+q-1], t.sliced(p, q))
			v = max(v, bestSum(t.value[p*w+1:p*w+q]), bestSum(t.across[q*(t.long+1)+1:q*(t.long+1)+p]))
			t.value[p*w+q], t.across[q*(t.long+1)+p] = v, v
		}
		if err := spend(int64(t.wide)*int64(t.wide/4+p/2+2)/perStep + 1); err != nil {
			return 0, err
		}
	}
	return t.value[need-1], nil
}

// bestSum returns the best sum of a value and the one as far from the end.
func bestSum(v []int64) int64 {
	best := int64(0)
	for a, b := 0, len(v)-1; a <= b; a, b = a+1, b-1 {
		best = max(best, v[a]+v[b])
	}
	return best
}

// room returns the most that a rectangle of so many cells may measure.
func (t *Table) room(p, q int) (x, y NM) {
	return NM(float64(p+1)/t.perX) - t.kerfX, NM(float64(q+1)/t.perY) - t.kerfY
}

// sliced values the rectangle as slices.
func (t *Table) sliced(p, q int) int64 {
	best := int64(0)
	if len(t.rows) == 0 {
		return 0
	}
	x, y := t.room(p, q)
	for r := range t.rows {
		best = max(best, int64(t.rows[r].fit(x, y))*t.rows[r].Each)
	}
	return best
}

// Sketch is how a table would cut: sizes without places.
type Sketch struct {
	AlongY    bool
	Item, Row int // of a blank: the item, or the row with so many slices; -1
	Slices    int
	Low, High *Sketch
}

// Best returns how the whole is best cut, after Solve; nil where nothing is had.
//
// Accuracy: exact for sizes rounded down. Source: derived; read from what Solve found.
func (t *Table) Best() *Sketch { return t.trace(t.long, t.wide) }

func (t *Table) trace(p, q int) *Sketch {
	w := t.wide + 1
	v := t.value[p*w+q]
	if v <= 0 {
		return nil
	}
	for p > 1 && t.value[(p-1)*w+q] == v { // no larger than it need be
		p--
	}
	for q > 1 && t.value[p*w+q-1] == v {
		q--
	}
	for i, s := range t.sizes {
		if s[0] <= p && s[1] <= q && t.items[i].Worth == v {
			return &Sketch{Item: i, Row: -1}
		}
	}
	x, y := t.room(p, q)
	for r := range t.rows {
		if n := t.rows[r].fit(x, y); int64(n)*t.rows[r].Each == v {
			return &Sketch{Item: -1, Row: r, Slices: n}
		}
	}
	for a := 1; a <= p/2; a++ {
		if t.value[a*w+q]+t.value[(p-a)*w+q] == v {
			return &Sketch{Item: -1, Row: -1, Low: t.trace(a, q), High: t.trace(p-a, q)}
		}
	}
	for c := 1; c <= q/2; c++ {
		if t.value[p*w+c]+t.value[p*w+q-c] == v {
			return &Sketch{AlongY: true, Item: -1, Row: -1, Low: t.trace(p, c), High: t.trace(p, q-c)}
		}
	}
	return nil
}

// Used calls do for every item of a sketch, by its number.
//
// Accuracy: exact. Source: derived; read from what Best found.
func (t *Table) Used(s *Sketch, do func(item int)) {
	switch {
	case s == nil:
	case s.Item >= 0:
		do(s.Item)
	default:
		t.Used(s.Low, do)
		t.Used(s.High, do)
	}
}

// Sizes returns the true length and width that a sketch takes, its kerfs counted.
//
// Accuracy: exact. Source: derived; geometry of rectangles.
func (t *Table) Sizes(s *Sketch) (x, y NM) {
	switch {
	case s == nil:
		return 0, 0
	case s.Item >= 0:
		return t.items[s.Item].Length, t.items[s.Item].Width
	case s.Row >= 0:
		r := &t.rows[s.Row]
		return r.Length, NM(s.Slices)*r.Height - r.Less
	}
	x0, y0 := t.Sizes(s.Low)
	x1, y1 := t.Sizes(s.High)
	switch {
	case s.Low == nil || s.High == nil:
		return x0 + x1, y0 + y1
	case s.AlongY:
		return max(x0, x1), y0 + t.kerfY + y1
	}
	return x0 + t.kerfX + x1, max(y0, y1)
}

// Starts adds the places at which the pieces of a sketch begin that itself begins at x
// and y; turned, the second of two parts goes first.
//
// Accuracy: exact. Source: derived; geometry of rectangles.
func (t *Table) Starts(s *Sketch, x, y NM, turned bool, addX, addY func(NM)) {
	if s == nil {
		return
	}
	addX(x)
	addY(y)
	first, second := s.Low, s.High
	if turned {
		first, second = second, first
	}
	if first == nil {
		first, second = second, nil
	}
	if first == nil {
		return
	}
	t.Starts(first, x, y, turned, addX, addY)
	dx, dy := t.Sizes(first)
	if s.AlongY {
		t.Starts(second, x, y+dy+t.kerfY, turned, addX, addY)
	} else {
		t.Starts(second, x+dx+t.kerfX, y, turned, addX, addY)
	}
}
