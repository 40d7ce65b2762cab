package guillotine

import "sort"

// Axis is the places along one direction.
type Axis struct {
	At   []NM // at which pieces may begin, sorted, without repeats; the last is a kerf behind the end of the wood
	Kerf NM
}

// cells returns the number of places but for the last.
func (a *Axis) cells() int { return len(a.At) - 1 }

// intervals returns the number of pairs of places.
func (a *Axis) intervals() int { n := a.cells(); return n * (n + 1) / 2 }

// base returns what is added to the second place of a pair for its number.
func (a *Axis) base(i int) int { return i*a.cells() - i*(i+1)/2 - 1 }

func (a *Axis) number(i, j int) int { return a.base(i) + j }

// room returns the length of a piece from place i to a kerf before place j: relaxed the
// longest that begins in the stretch of i and ends before one that begins in that of j.
func (a *Axis) room(i, j int, relaxed bool) NM {
	end := a.At[j]
	if relaxed && j < a.cells() {
		end = a.At[j+1] - 1
	}
	return end - a.Kerf - a.At[i]
}

// Corner is what blanks are worth that begin at one place.
type Corner struct {
	Best []int64 // by length and width, len(Widths) to a length: the best of any that are no longer and no wider
	Rows []Row
}

// Grid is the places along both axes, and what every rectangle between them is worth.
type Grid struct {
	X, Y            Axis
	Lengths, Widths []NM // of blanks, sorted
	Relaxed         bool
	Corner          func(i, a int) Corner // of the i-th place along X and the a-th along Y

	value, rest []int64
	corners     []Corner
	sizesX      []int32 // of every pair of places how many lengths fit
	sizesY      []int32
	fromY       []int // base of every place along Y
}

// perStep is how many comparisons of a grid take as long as one step, some 50 ns.
const perStep = 24

// Steps returns how many comparisons it takes to value a grid of so many places along
// both axes, and the bytes that it holds.
//
// Accuracy: of the steps, that of counting loops. Source: counted from Grid.Solve.
func Steps(x, y int) (steps, bytes int64) {
	n, m := int64(max(1, x-1)), int64(max(1, y-1))
	nx, ny := n*(n+1)/2, m*(m+1)/2
	return nx*ny*(1+(n+m)/4)/perStep + 8*n*m, 8 * nx * ny
}

// Narrow reports whether nothing of the smallest length and width fits within one
// stretch of the places: only then does a relaxed grid bound.
//
// Accuracy: exact. Source: the argument in doc.go.
func (g *Grid) Narrow(length, width NM) bool { return narrow(&g.X, length) && narrow(&g.Y, width) }

func narrow(a *Axis, size NM) bool {
	for i := range a.cells() {
		if a.At[i+1]-a.At[i] > size+a.Kerf {
			return false
		}
	}
	return true
}

// Solve values every rectangle and returns the worth of the whole; spend is asked now
// and then to count steps and may end it.
//
// Errors: that of spend. Accuracy: exact over the places; relaxed a bound over all
// places. Source: derived; the recursion over pieces is that of Gilmore and Gomory 1965
// (from memory) on places in place of sizes.
func (g *Grid) Solve(spend func(int64) error) (int64, error) {
	n, m := g.X.cells(), g.Y.cells()
	if n < 1 || m < 1 {
		return 0, nil
	}
	g.prepare()
	rows := g.Y.intervals()
	if need := g.X.intervals() * rows; cap(g.value) < need {
		g.value = make([]int64, need)
	} else {
		g.value = g.value[:need]
	}
	for d := 1; d <= n; d++ {
		for i := 0; i+d <= n; i++ {
			row := g.row(i, i+d)
			g.blanks(i, i+d, row)
			for k := i + 1; k < i+d; k++ {
				addInto(row, g.row(i, k), g.row(k, i+d))
			}
			g.along(row)
			if err := spend(int64(rows)*int64(1+(d+m)/3)/perStep + 1); err != nil {
				return 0, err
			}
		}
	}
	return g.Value(0, n, 0, m), nil
}

// Value returns what the rectangle between places i and j along X, a and b along Y is
// worth, after Solve.
//
// Accuracy: exact over the places. Source: derived; read from what Solve found.
func (g *Grid) Value(i, j, a, b int) int64 { return g.row(i, j)[g.Y.number(a, b)] }

func (g *Grid) row(i, j int) []int64 {
	rows := g.Y.intervals()
	at := g.X.number(i, j) * rows
	return g.value[at : at+rows]
}

// prepare looks up what does not hang on worth.
func (g *Grid) prepare() {
	n, m := g.X.cells(), g.Y.cells()
	g.sizesX = fitting(&g.X, g.Lengths, g.Relaxed, g.sizesX[:0])
	g.sizesY = fitting(&g.Y, g.Widths, g.Relaxed, g.sizesY[:0])
	g.fromY = g.fromY[:0]
	for a := range m {
		g.fromY = append(g.fromY, g.Y.base(a))
	}
	g.corners = g.corners[:0]
	for i := range n {
		for a := range m {
			g.corners = append(g.corners, g.Corner(i, a))
		}
	}
}

// fitting returns of every pair of places how many of the sizes fit between.
func fitting(a *Axis, sizes []NM, relaxed bool, out []int32) []int32 {
	for i := range a.cells() {
		for j := i + 1; j <= a.cells(); j++ {
			room := a.room(i, j, relaxed)
			out = append(out, int32(sort.Search(len(sizes), func(s int) bool { return sizes[s] > room })))
		}
	}
	return out
}

// blanks values the rectangles between places i and j along X as one blank.
func (g *Grid) blanks(i, j int, row []int64) {
	lengths, m, wide := int(g.sizesX[g.X.number(i, j)]), g.Y.cells(), len(g.Widths)
	room := g.X.room(i, j, g.Relaxed)
	at := 0
	for a := range m {
		c := &g.corners[i*m+a]
		here := row[at : at+m-a]
		clear(here)
		if lengths > 0 && c.Best != nil {
			best := c.Best[(lengths-1)*wide : lengths*wide]
			for n, widths := range g.sizesY[at : at+m-a] {
				if widths > 0 {
					here[n] = best[widths-1]
				}
			}
		}
		for r := range c.Rows {
			x := &c.Rows[r]
			if room < x.Length {
				continue
			}
			for n := range here {
				here[n] = max(here[n], int64(x.fit(room, g.Y.room(a, a+1+n, g.Relaxed)))*x.Each)
			}
		}
		at += m - a
	}
}

// addInto lets every value be the sum of two others where that is more.
func addInto(row, low, high []int64) {
	low, high = low[:len(row)], high[:len(row)]
	for r := range row {
		if v := low[r] + high[r]; v > row[r] {
			row[r] = v
		}
	}
}

// along lets the rectangles of a row be cut along X, which parts them across Y.
func (g *Grid) along(row []int64) {
	m, base := g.Y.cells(), g.fromY
	for d := 2; d <= m; d++ {
		for a := 0; a+d <= m; a++ {
			b := a + d
			first := row[base[a]+a+1 : base[a]+b+1]
			best := first[len(first)-1]
			for k, v := range first[:len(first)-1] {
				if v += row[base[a+1+k]+b]; v > best {
					best = v
				}
			}
			first[len(first)-1] = best
		}
	}
}

// Piece is a rectangle between places of a grid.
type Piece struct{ I, J, A, B int }

// Cut is one way to part a piece: at place At along X, or along Y.
type Cut struct {
	AlongY bool
	At     int
}

// Parts returns the two pieces of a cut.
//
// Accuracy: exact. Source: derived from the places of the grid.
func (p Piece) Parts(c Cut) (low, high Piece) {
	low, high = p, p
	if c.AlongY {
		low.B, high.A = c.At, c.At
	} else {
		low.J, high.I = c.At, c.At
	}
	return low, high
}

// Node is a piece as it is best cut: a blank where it has no parts.
type Node struct {
	Piece
	Cut
	Length, Width NM    // room of a blank
	Slices        int   // that is sliced: how many; else 0
	Row           int   // and which row of its corner
	Worth         int64 // at the worths last solved
	Low, High     *Node // nil: nothing is had there
}

// Leaf reports whether the piece is one blank.
//
// Accuracy: exact. Source: derived; read from what Solve found.
func (n *Node) Leaf() bool { return n.Low == nil && n.High == nil }

// Best returns how the whole is best cut, after Solve; nil where nothing is had.
//
// Accuracy: exact over the places. Source: derived; read from what Solve found.
func (g *Grid) Best() *Node {
	if g.X.cells() < 1 || g.Y.cells() < 1 {
		return nil
	}
	return g.trace(Piece{0, g.X.cells(), 0, g.Y.cells()})
}

func (g *Grid) valueOf(p Piece) int64 { return g.Value(p.I, p.J, p.A, p.B) }

func (g *Grid) trace(p Piece) *Node {
	v := g.valueOf(p)
	if v <= 0 {
		return nil
	}
	if n := g.BlankOf(p); n != nil && n.Worth == v {
		return n
	}
	for _, c := range p.cuts() {
		low, high := p.Parts(c)
		if g.valueOf(low)+g.valueOf(high) != v {
			continue
		}
		a, b := g.trace(low), g.trace(high)
		if a == nil && b != nil && b.Leaf() && b.Piece == high { // the blank begins further on
			return &Node{Piece: p, Cut: c, High: b, Worth: v}
		}
		return &Node{Piece: p, Cut: c, Low: a, High: b, Worth: v}
	}
	return nil
}

// BlankOf returns a piece as one blank, the best; nil where none is worth anything.
//
// Accuracy: exact over the places. Source: derived; read from what Solve found.
func (g *Grid) BlankOf(p Piece) *Node {
	c := &g.corners[p.I*g.Y.cells()+p.A]
	n := &Node{Piece: p, Length: g.X.room(p.I, p.J, g.Relaxed), Width: g.Y.room(p.A, p.B, g.Relaxed)}
	lengths, widths := int(g.sizesX[g.X.number(p.I, p.J)]), int(g.sizesY[g.Y.number(p.A, p.B)])
	if lengths > 0 && widths > 0 && c.Best != nil {
		n.Worth = c.Best[(lengths-1)*len(g.Widths)+widths-1]
	}
	for r := range c.Rows {
		slices := c.Rows[r].fit(n.Length, n.Width)
		if v := int64(slices) * c.Rows[r].Each; v > n.Worth {
			n.Worth, n.Slices, n.Row = v, slices, r
		}
	}
	if n.Worth <= 0 {
		return nil
	}
	return n
}

// cuts are the ways to part a piece, in the middle first.
func (p Piece) cuts() []Cut {
	var out []Cut
	for k := p.I + 1; k < p.J; k++ {
		out = append(out, Cut{At: k})
	}
	for c := p.A + 1; c < p.B; c++ {
		out = append(out, Cut{AlongY: true, At: c})
	}
	return out
}
