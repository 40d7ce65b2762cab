package cut

import (
	"strconv"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// sizes are those of a billet as measured, with what it tapers to.
func (g *planDrawing) sizes(b *plan.Billet) string {
	text := g.length(b.Length) + " x " + g.length(b.Width)
	tapers := func(l *quantity.Length, from quantity.Length) bool { return l != nil && *l != from }
	if tapers(b.WidthEnd, b.Width) {
		text += " to " + g.length(*b.WidthEnd) + " (start to end)"
	}
	text += " x " + g.length(b.Thickness)
	edge, end := tapers(b.ThicknessFarEdge, b.Thickness), tapers(b.ThicknessEnd, b.Thickness)
	switch {
	case edge && end:
		text += " (far edge " + g.length(*b.ThicknessFarEdge) + ", end " + g.length(*b.ThicknessEnd) + ")"
	case edge:
		text += " to " + g.length(*b.ThicknessFarEdge) + " (near to far edge)"
	case end:
		text += " to " + g.length(*b.ThicknessEnd) + " (start to end)"
	}
	return text
}

// mostWords bounds the lines about the leaves of one billet.
const mostWords = 40

func (g *planDrawing) leavesInWords(made *plan.BilletPlan) {
	lines, most := 0, mostWords
	if g.frame.stands { // lines are short there
		most *= 3
	}
	for i := range made.Blanks {
		b := &made.Blanks[i]
		text := plan.Letters(i) + ": " + g.length(b.Length) + " x " + g.length(b.Width) + " at " + g.length(b.X) +
			" from the start, " + g.length(b.Y) + " from the near edge; face 1 lies " + g.length(b.Face1) +
			" below the rough face" + onItsSide(b) + "; " + g.runs(b)
		broken := g.frame.lines(text, g.frame.text, g.frame.right-g.frame.left)
		if lines += len(broken); lines > most {
			g.words("The other blanks stand in the answer as JSON.", g.frame.text)
			return
		}
		g.words(text, g.frame.text)
		g.d.MayBreak(g.y + 2)
	}
	if len(made.Blanks) == 0 {
		g.words(wire.UpperFirst(g.whyWhole())+".", g.frame.text)
	}
}

// onItsSide says so of a blank that is resawn on its side, or as a wedge.
func onItsSide(b *plan.Blank) string {
	if b.Split {
		return "; a wedge, sawn along its middle"
	}
	if b.Turned {
		return "; on its side, sawn from its near edge"
	}
	return ""
}

// whyWhole says of a billet that is not cut why it is not, as far as the plan knows.
func (g *planDrawing) whyWhole() string {
	switch g.told.Uncut {
	case plan.NotNeeded:
		return "not needed; the billet stays whole"
	case plan.NotChosen:
		return "not cut in this plan; the billet stays whole"
	default:
		return "no part fits; the billet stays whole"
	}
}

// ringsInWords says how the rings of the billets whose ends are drawn are drawn; ""
// where none are.
func (g *planDrawing) ringsInWords() string {
	circles, planes := false, false
	for i := range g.told.Billets {
		if len(g.told.Billets[i].Blanks) == 0 {
			continue // no end is drawn
		}
		b := &g.asked.Billets[i]
		circles, planes = circles || b.Pith != nil, planes || b.Pith == nil && b.RingAngle != nil
	}
	switch {
	case circles && planes:
		return "Rings are drawn as circles about the pith, or as planes where one ring angle is given. "
	case circles:
		return "Rings are drawn as circles about the pith. "
	case planes:
		return "Rings are drawn as planes at the ring angle. "
	}
	return ""
}

// runs tells the leaves of a blank, those of one kind together.
func (g *planDrawing) runs(b *plan.Blank) string {
	var out []string
	for n := 0; n < len(b.Leaves); {
		l := &b.Leaves[n]
		last := n
		for last+1 < len(b.Leaves) && b.Leaves[last+1].Role == l.Role && b.Leaves[last+1].Part == l.Part {
			last++
		}
		leaves := "leaf " + strconv.Itoa(l.Number)
		if last > n {
			leaves = "leaves " + strconv.Itoa(l.Number) + " to " + strconv.Itoa(b.Leaves[last].Number)
		}
		switch l.Role {
		case plan.RoleSet:
			sets := "set " + strconv.Itoa(l.Set)
			all := b.Leaves[last].All()
			if to := lastSet(all); to > l.Set {
				sets = "sets " + strconv.Itoa(l.Set) + " to " + strconv.Itoa(to)
			}
			if len(all) > 1 {
				sets += ", each parted into " + strconv.Itoa(len(all))
			}
			leaves += ": " + g.asked.Parts[l.Part].Name + ", " + sets + ", " + g.thick(l)
		case plan.RoleUnpaired:
			leaves += ": " + g.asked.Parts[l.Part].Name + ", unpaired"
		default:
			slab := "slab " + strconv.Itoa(l.Number)
			if last > n {
				slab = "slabs " + strconv.Itoa(l.Number) + " to " + strconv.Itoa(b.Leaves[last].Number)
			}
			leaves = slab + ": rejected for a fault or its rings, " + g.length(l.To-l.From) + " thick"
		}
		out = append(out, leaves)
		n = last + 1
	}
	return strings.Join(out, "; ")
}

// lastSet is the highest number of a set among pieces.
func lastSet(all []plan.Strip) int {
	last := 0
	for i := range all {
		last = max(last, all[i].Set)
	}
	return last
}

// thick says how thick a leaf is.
func (g *planDrawing) thick(l *plan.Leaf) string {
	if l.FarTo == nil {
		return g.length(l.To-l.From) + " thick"
	}
	return g.length(l.To-l.From) + " thick at the near edge, " + g.length(*l.FarTo-*l.FarFrom) + " at the far edge"
}

// titleBlock says what the plan rests on.
func (g *planDrawing) titleBlock() {
	saw := &g.asked.Saws[g.told.Saw]
	g.y += 16
	top := g.y
	g.y += 2
	head := "Saw: " + saw.Name + ", kerf " + g.report.SaidExact(saw.Resaw)
	if g.date != "" {
		head += ". Date: " + g.date
	}
	g.words(head+". Worth "+strconv.FormatInt(g.told.Worth,
		10)+", no plan is worth more than "+strconv.FormatInt(g.told.Bound, 10)+".", g.frame.text)
	for i := range g.told.Saws {
		s := &g.told.Saws[i]
		line := g.asked.Saws[i].Name + ": worth " + strconv.FormatInt(s.Worth, 10)
		for k, n := range s.Sets {
			if n > 0 {
				line += "; " + wire.CountOf(n, "set") + " of " + g.asked.Parts[k].Name
			}
		}
		g.words(line+"; leaves: "+strconv.Itoa(s.Leaves)+"; "+wire.CountOf(s.Cuts, "cut"), g.frame.text)
	}
	black, grey := "black", "grey"
	if g.frame.shown { // in the colours of a page
		black, grey = "solid", "shaded"
	}
	g.words("All cuts go from edge to edge of their piece: crosscuts and rips in any order; blanks are resawn flat, or on "+
		"their side or as wedges where that is said; leaves are parted after it where that is said. Kerfs are "+black+", those of rip cuts too, where the "+
		"billet is ripped at that place; leaves are numbered from face 1; "+grey+" leaves are unpaired; hatched "+
		"slabs are rejected for a fault or their rings; dashed boxes are knots, checks and other zones; "+grey+" ends are trimmed off. Flattening takes "+
		"cup, bow and twist half from either face. The end is seen from the start, face 1 up, the near "+
		"edge on the left. Each view is in proportion and not at true scale; positions are those of "+
		"the plan.", g.frame.text)
	g.words(g.ringsInWords()+"Tall cuts need a high fence and a pusher; follow the machine's manual.", g.frame.text)
	g.y += 6
	g.d.Rectangle(g.frame.left-6, top, g.frame.right-g.frame.left+12, g.y-top, drawing.Thin)
}
