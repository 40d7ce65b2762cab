package cut

import (
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// Frame of a label, in millimetres: three beside each other on A4 and on Letter.
const (
	labelWide, labelHigh = 62.0, 45.0
	labelHigher          = 51.5 // where names are long: five below each other on A4 and on Letter
	fewNames             = 2    // lines of names that leave room for the drawing
	labelEdge            = 3.0
	labelRoom            = labelWide - 2*labelEdge
	labelHead            = 5.5
	labelText            = 2.9
	labelLine            = 3.7
	labelPicture         = 22.0 // of the drawing of the leaf, along the grain
	mostLabels           = 1200
	cutApart             = `stroke="#999" stroke-width="0.1" fill="none" stroke-dasharray="1.5 1.5"`
	leafRim              = `stroke="#000" stroke-width="0.2" fill="none"`
	seamRim              = `stroke="#000" stroke-width="1" fill="none"`
)

// labelled is what a label says.
type labelled struct {
	head  string
	names []string // over the whole width
	lines []string // beside the drawing
	foot  []string // below lines and drawing
	draw  func(d *drawing.Sheet, x, y, wide, high float64)
}

// seamOf is what is known of a leaf at its seam.
type seamOf struct {
	partner int // number of the leaf it is opened with
	first   bool
	opening string
	edge    string // of this leaf
}

// leafOf names a leaf of the plan, or a piece of one that is parted by its number from 1.
type leafOf struct{ billet, blank, leaf, piece int }

// labels prints a sheet of labels to be cut apart: one for each leaf that is good, and one
// for each set, in the order of the cuts.
func (g *planDrawing) labels() ([]byte, error) {
	all := g.allLabels()
	if left := len(all) - mostLabels; left > 0 {
		all = append(all[:mostLabels:mostLabels], labelled{head: "and more", lines: []string{
			strconv.Itoa(left) + " more labels are left out: plan fewer billets at a time."}})
	}
	columns := int((g.paper.Width - 2*drawing.PaperMargin) / labelWide)
	high := labelHigh
	for n := range all {
		if all[n].nameLines() > fewNames {
			high = labelHigher
		}
	}
	rows := int((g.paper.Height - 2*drawing.PaperMargin) / high)
	left := (g.paper.Width - float64(columns)*labelWide) / 2
	var sheets []*drawing.Sheet
	for n := range all {
		k := n % (columns * rows)
		if k == 0 {
			sheets = append(sheets, &drawing.Sheet{})
		}
		d := sheets[len(sheets)-1]
		all[n].put(d, left+labelWide*float64(k%columns), drawing.PaperMargin+high*float64(k/columns), high)
	}
	if len(sheets) == 0 {
		sheets = append(sheets, &drawing.Sheet{})
		sheets[0].Text(drawing.PaperMargin, 2*drawing.PaperMargin, labelHead, drawing.FromLeft, "No leaf is planned.")
	}
	return drawing.Singly("Labels: "+g.summary, sheets, g.paper)
}

// put draws a label at a place of its sheet. Names are never cut: what they take is taken from
// the drawing.
func (l *labelled) put(d *drawing.Sheet, x, y, high float64) {
	d.Rectangle(x, y, labelWide, high, cutApart)
	left, at := x+labelEdge, y+labelEdge+0.8*labelHead
	d.Text(left, at, labelHead, drawing.FromLeft, l.head)
	at += 0.3 * labelHead
	for _, name := range l.names {
		for _, words := range unbroken(name) {
			at += labelLine
			d.Text(left, at, labelText, drawing.FromLeft, words)
		}
	}
	foot := y + high - labelEdge - labelLine*float64(len(l.foot)-1)
	for i, words := range l.foot {
		d.Text(left, foot+labelLine*float64(i), labelText, drawing.FromLeft, words)
	}
	top, room := at, labelRoom
	if l.draw != nil {
		room -= labelPicture + 1
	}
	for _, line := range l.lines {
		for _, words := range drawing.Wrapped(line, labelText, room) {
			if at += labelLine; at < foot-labelLine+0.1 {
				d.Text(left, at, labelText, drawing.FromLeft, words)
			}
		}
	}
	if l.draw != nil {
		l.draw(d, x+labelWide-labelEdge-labelPicture, top+0.3*labelLine, labelPicture, foot-labelLine-top)
	}
}

// nameLines is how many lines the names take.
func (l *labelled) nameLines() int {
	n := 0
	for _, name := range l.names {
		n += len(unbroken(name))
	}
	return n
}

// unbroken are the lines that a name takes, all of it: words that are too long are parted.
func unbroken(name string) []string {
	var out []string
	for _, line := range drawing.Wrapped(name, labelText, labelRoom) {
		from := 0
		runes := []rune(line)
		for n := range runes {
			if drawing.TextWidth(string(runes[from:n+1]), labelText) > labelRoom {
				out, from = append(out, string(runes[from:n])), n
			}
		}
		out = append(out, string(runes[from:]))
	}
	return out
}

// allLabels are those of every leaf and set.
func (g *planDrawing) allLabels() []labelled {
	seams := g.seams()
	var all []labelled
	for i := range g.told.Billets {
		for j := range g.told.Billets[i].Blanks {
			b := &g.told.Billets[i].Blanks[j]
			for n := range b.Leaves {
				l := &b.Leaves[n]
				if l.Role == plan.RoleRejected {
					continue
				}
				for k := range l.All() {
					all = append(all, g.leafLabel(i, j, n, k, seams))
				}
				for k, one := range l.All() {
					if one.Role == plan.RoleSet && lastOfSet(b, n, k) {
						all = append(all, g.setLabel(i, j, n, k))
					}
				}
			}
		}
	}
	return all
}

// lastOfSet says that no piece of the set of the k-th piece of a leaf follows in its blank.
func lastOfSet(b *plan.Blank, n, k int) bool {
	set := b.Leaves[n].All()[k].Set
	for m := n; m < len(b.Leaves); m++ {
		if b.Leaves[m].Part != b.Leaves[n].Part {
			continue
		}
		for o, one := range b.Leaves[m].All() {
			if one.Set == set && (m > n || o > k) {
				return false
			}
		}
	}
	return true
}

// seams are what the matches tell of the leaves.
func (g *planDrawing) seams() map[leafOf]seamOf {
	out := map[leafOf]seamOf{}
	for i := range g.matched {
		m := &g.matched[i]
		first, second := seamOf{m.leaf + 1, true, m.opening, m.edge}, seamOf{m.leaf, false, m.opening, m.edge}
		if m.opening == string(plan.MatchSlip) {
			second.edge = map[string]string{"near": "far", "far": "near"}[m.edge]
		}
		out[m.leafOf] = first
		out[leafOf{m.billet, m.blank, m.leaf + 1, m.piece}] = second
	}
	for i := range g.told.Billets {
		for j := range g.told.Billets[i].Blanks {
			if b := &g.told.Billets[i].Blanks[j]; b.Split {
				edge := "near" // the thick one
				if *b.FarUsable > b.Usable {
					edge = "far"
				}
				out[leafOf{i, j, 1, 0}] = seamOf{2, true, string(plan.MatchBook), edge}
				out[leafOf{i, j, 2, 0}] = seamOf{1, false, string(plan.MatchBook), edge}
			}
		}
	}
	return out
}

// plannedPair is a matched pair for the labels.
type plannedPair struct {
	leafOf
	opening, edge string
}

// leafLabel is the label of one leaf, or of the k-th piece of one that is parted.
func (g *planDrawing) leafLabel(i, j, n, k int, seams map[leafOf]seamOf) labelled {
	b := &g.told.Billets[i].Blanks[j]
	l := &b.Leaves[n]
	one, number := l.All()[k], 0
	if l.Strips != nil {
		number = k + 1
	}
	out := labelled{}
	out.head, out.names = g.headed(i, pieceName(j, l, k))
	out.names = append(out.names, g.asked.Parts[l.Part].Name)
	seam, known := seams[leafOf{i, j, l.Number, number}]
	if g.seamless[l.Part] { // a match that is not glued edge to edge
		seam.edge = ""
	}
	shows := ""
	if one.Role == plan.RoleUnpaired {
		out.lines = append(out.lines, "unpaired")
	} else {
		out.lines = append(out.lines, "set "+strconv.Itoa(one.Set))
		if known {
			shows = "face 1"
			if seam.first && seam.opening == string(plan.MatchBook) {
				shows = "face 2"
			}
			out.lines = append(out.lines, openingSays[seam.opening]+" "+pieceName(j, &b.Leaves[seam.partner-1], k), shows+" shows")
			if seam.edge != "" {
				out.lines = append(out.lines, "seam: "+seam.edge+" edge")
			}
		}
	}
	out.foot = []string{"sawn " + g.leafSize(b, l)}
	long, across := float64(pieceLength(b, l)), float64(pieceWidth(b, l))
	if asked := g.askedSize(l.Part); asked != "" {
		out.foot = append(out.foot, asked)
	}
	out.draw = func(d *drawing.Sheet, x, y, room, high float64) {
		drawLeaf(d, drawing.At(x, y), drawing.At(room, high), drawing.At(long, across), shows, seam.edge)
	}
	return out
}

// headed is the head of a label of a billet's piece: the id of the billet and the piece, or the
// piece alone and the id among the names where both are too long for a line.
func (g *planDrawing) headed(i int, piece string) (head string, names []string) {
	if head = g.billetIDs[i] + " " + piece; drawing.TextWidth(head, labelHead) <= labelRoom {
		return head, nil
	}
	return piece, []string{g.billetIDs[i]}
}

// askedSize is what the pieces of a part were asked for as, before what sawing and drying take;
// "" where only the sawn leaf is known.
func (g *planDrawing) askedSize(part int) string {
	size, kind := &g.finished[part], &g.asked.Parts[part]
	if kind.AsSawn {
		return ""
	}
	text := "asked for " + g.number(size.Length) + " x " + g.number(size.Width) + " x "
	if kind.ThinEdge > 0 {
		text += g.number(kind.ThinEdge) + " to "
	}
	return text + g.length(size.Final)
}

// pieceLength and pieceWidth are how long and wide a leaf is, or a piece of one that is parted.
func pieceLength(b *plan.Blank, l *plan.Leaf) quantity.Length {
	if l.Strips != nil {
		return l.Strips[0].Length
	}
	return b.Length
}

func pieceWidth(b *plan.Blank, l *plan.Leaf) quantity.Length {
	if l.Strips != nil {
		return l.Strips[0].Width
	}
	return leafWidth(b)
}

// leafSize is how large a leaf is as it comes off the saw.
func (g *planDrawing) leafSize(b *plan.Blank, l *plan.Leaf) string {
	text := g.number(pieceLength(b, l)) + " x " + g.number(pieceWidth(b, l)) + " x "
	if l.FarTo == nil {
		return text + g.length(l.To-l.From)
	}
	return text + g.number(l.To-l.From) + " to " + g.length(*l.FarTo-*l.FarFrom)
}

// openingSays are the ways to open a pair, on a label.
var openingSays = map[string]string{string(plan.MatchBook): "book with", string(plan.MatchSlip): "slip with"}

// drawLeaf draws a leaf as it is seen with the face up that shows, its start on the left:
// the edge to the seam is thick.
func drawLeaf(d *drawing.Sheet, at, room, size drawing.Point, shows, seam string) {
	scale := min(room.X/size.X, (room.Y-2*labelLine)/size.Y)
	w, h := scale*size.X, scale*size.Y
	x, top := at.X, at.Y+labelLine
	d.Rectangle(x, top, w, h, leafRim)
	// Turned over about its length, the near edge comes to lie below.
	above, below := "near", "far"
	if shows == "face 2" {
		above, below = below, above
	}
	d.Text(x, top-0.8, labelText, drawing.FromLeft, above+edgeSays(seam, above))
	d.Text(x, top+h+1.05*labelText, labelText, drawing.FromLeft, below+edgeSays(seam, below))
	switch seam {
	case above:
		d.Line(x, top, x+w, top, seamRim)
	case below:
		d.Line(x, top+h, x+w, top+h, seamRim)
	}
	// An arrow along the grain, from the start.
	mid, tip := top+h/2, x+0.75*w
	d.Line(x+0.25*w, mid, tip, mid, leafRim)
	d.Line(tip-1.5, mid-0.8, tip, mid, leafRim)
	d.Line(tip-1.5, mid+0.8, tip, mid, leafRim)
}

func edgeSays(seam, edge string) string {
	if seam == edge {
		return ": seam"
	}
	return ""
}

// setLabel is the label of a set whose last leaf is named: with all its leaves in the blank.
func (g *planDrawing) setLabel(i, j, last, piece int) labelled {
	b := &g.told.Billets[i].Blanks[j]
	l := &b.Leaves[last]
	part := &g.asked.Parts[l.Part]
	set := l.All()[piece].Set
	out := labelled{head: "Set " + strconv.Itoa(set), names: []string{part.Name}}
	leaves := ""
	for n := range b.Leaves {
		k := &b.Leaves[n]
		for o, one := range k.All() {
			if k.Part != l.Part || one.Set != set || one.Role != plan.RoleSet {
				continue
			}
			if leaves != "" {
				leaves += ", "
			}
			leaves += pieceName(j, k, o)
		}
	}
	out.foot = []string{"each sawn " + g.leafSize(b, l)}
	if asked := g.askedSize(l.Part); asked != "" {
		out.foot = append(out.foot, asked)
	}
	out.names = append(out.names, g.billetIDs[i]+" "+leaves)
	if part.Match != plan.MatchNone {
		out.lines = append(out.lines, "keep together, in this order")
	}
	if g.woods[i] != "" {
		out.lines = append(out.lines, g.woods[i])
	}
	if g.date != "" {
		out.lines = append(out.lines, g.date)
	}
	return out
}
