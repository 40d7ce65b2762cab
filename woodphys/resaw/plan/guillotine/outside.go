package guillotine

// Outside finds for every piece what the rest of the wood can be worth at most when the
// piece is one of a way to cut the whole: with Value no way that has the piece is worth
// more than Value + Rest.
//
// Errors: that of spend, which is told the steps. Accuracy: exact over the places.
// Source: derived; geometry of rectangles.
func (g *Grid) Outside(spend func(int64) error) error {
	n, m := g.X.cells(), g.Y.cells()
	if cap(g.rest) < len(g.value) {
		g.rest = make([]int64, len(g.value))
	}
	g.rest = g.rest[:len(g.value)]
	for i := range g.rest {
		g.rest[i] = never
	}
	rows := g.Y.intervals()
	restOf := func(i, j int) []int64 {
		at := g.X.number(i, j) * rows
		return g.rest[at : at+rows]
	}
	restOf(0, n)[g.Y.number(0, m)] = 0
	for d := n; d >= 1; d-- {
		for i := 0; i+d <= n; i++ {
			value, rest := g.row(i, i+d), restOf(i, i+d)
			g.restAlong(value, rest)
			for k := i + 1; k < i+d; k++ {
				spread(rest, g.row(k, i+d), restOf(i, k))
				spread(rest, g.row(i, k), restOf(k, i+d))
			}
			if err := spend(int64(rows)*int64(1+(2*d+m)/2)/perStep + 1); err != nil {
				return err
			}
		}
	}
	return nil
}

// never marks a piece that no way has.
const never = -1 << 60

// Rest returns what the rest of the wood is worth, after Outside; far below 0 for a
// piece that no way has.
//
// Accuracy: exact over the places. Source: derived; read from what Outside found.
func (g *Grid) Rest(p Piece) int64 {
	return g.rest[g.X.number(p.I, p.J)*g.Y.intervals()+g.Y.number(p.A, p.B)]
}

// spread lets a part have the rest of the whole and the other part.
func spread(whole, other, part []int64) {
	other, part = other[:len(whole)], part[:len(whole)]
	for r := range whole {
		if v := whole[r] + other[r]; v > part[r] {
			part[r] = v
		}
	}
}

// restAlong hands the rest down within one row.
func (g *Grid) restAlong(value, rest []int64) {
	m := g.Y.cells()
	for d := m; d >= 2; d-- {
		for a := 0; a+d <= m; a++ {
			b := a + d
			whole := rest[g.Y.number(a, b)]
			if whole == never {
				continue
			}
			for c := a + 1; c < b; c++ {
				low, high := g.Y.number(a, c), g.Y.number(c, b)
				rest[low] = max(rest[low], whole+value[high])
				rest[high] = max(rest[high], whole+value[low])
			}
		}
	}
}

// Within calls do for every cut of a piece into two whose best ways together are worth
// at least least. Errors: those of do.
//
// Accuracy: exact over the places. Source: derived; read from what Outside found.
func (g *Grid) Within(p Piece, least int64, do func(c Cut, low, high Piece) error) error {
	for _, c := range p.cuts() {
		low, high := p.Parts(c)
		if g.valueOf(low)+g.valueOf(high) < least {
			continue
		}
		if err := do(c, low, high); err != nil {
			return err
		}
	}
	return nil
}

// Whole returns the piece that is all of the wood.
//
// Accuracy: exact. Source: derived from the places of the grid.
func (g *Grid) Whole() Piece { return Piece{0, g.X.cells(), 0, g.Y.cells()} }

// Rooms returns how long and wide a blank may be that begins where a piece does.
//
// Accuracy: exact. Source: derived from the places of the grid.
func (g *Grid) Rooms(p Piece) (length, width NM) {
	return g.X.room(p.I, p.J, g.Relaxed), g.Y.room(p.A, p.B, g.Relaxed)
}
