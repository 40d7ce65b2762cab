package cut

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// planDrawing draws a plan: of every billet the end grain with its leaves, the
// view from above with its cuts, and the leaves in words.
type planDrawing struct {
	p      *planner
	plan   *plan.Plan
	result *ResawResult
	d      *drawing.Sheet
	y      float64 // where the next thing goes
}

func (r *ResawResult) Render(name string) ([]byte, error) { //nolint:unparam // the form of all drawings
	if name == wire.TemplateForm.Name {
		return r.drawing.template(), nil
	}
	return r.drawing.sheet(), nil
}

// Frame of the sheet.
const (
	planSheet             = 1040.0
	planLeft, planRight   = 20.0, 1020.0
	endLeft, endWidth     = 62.0, 370.0 // end view
	endHeight             = 250.0
	aboveLeft, aboveWidth = 520.0, 490.0 // view from above
	aboveHeight           = 200.0
	planLabel             = 9.0
	leafNumber            = 7.5
	planText              = 10.0
)

// Fillings that need no colour.
const (
	sawdust = `fill="#000" stroke="none"`
	oddLeaf = `fill="#ddd" stroke="none"`
	blankIn = `fill="#fff" stroke="#000" stroke-width="1.4"`
	trimmed = `fill="#eee" stroke="#666" stroke-width="0.5"`
	ringArc = `stroke="#777" stroke-width="0.6" fill="none"`
	fault   = `stroke="#000" stroke-width="0.8" fill="none" stroke-dasharray="3 2"`
)

func (g *planDrawing) length(l quantity.Length) string { return l.Format(g.p.report.LengthUnit) }

// number is a length as length has it, without its unit.
func (g *planDrawing) number(l quantity.Length) string {
	return strings.TrimSuffix(g.length(l), " "+g.p.report.LengthUnit)
}

func (g *planDrawing) sheet() []byte {
	r := g.result
	g.d = &drawing.Sheet{Width: planSheet, Title: "Cutting plan: " + r.Summary, About: "Of every billet the end grain with its leaves numbered from face 1, and the view from above with its cuts"}
	g.y = 28
	g.d.Text(planLeft, g.y, 15, drawing.FromLeft, "Cutting plan")
	g.y += 4
	g.words(r.Summary, drawing.BodyText)
	for i := range g.plan.Billets {
		g.billet(i)
	}
	g.titleBlock()
	g.d.Height = math.Ceil(g.y + 10)
	g.d.Size = `width="` + drawing.Coordinate(planSheet) + `" height="` + drawing.Coordinate(g.d.Height) + `"`
	return g.d.SVG()
}

// words writes lines over the whole width.
func (g *planDrawing) words(text string, size float64) {
	for _, line := range drawing.Wrapped(text, size, planRight-planLeft) {
		g.y += size * 1.35
		g.d.Text(planLeft, g.y, size, drawing.FromLeft, line)
	}
}

func (g *planDrawing) billet(i int) {
	b, made := &g.p.asked.Billets[i], &g.plan.Billets[i]
	g.y += 14
	g.d.Line(planLeft, g.y, planRight, g.y, drawing.Thin)
	about := b.Name + ": " + g.sizes(b)
	if w := g.p.woods[i]; w != nil {
		about += ", " + w.Common
	}
	about += "; worth " + strconv.FormatInt(made.Worth, 10) + ", " + wire.CountOf(made.Cuts, "cut")
	g.y += 6
	g.words(about, 12)
	top := g.y + 12
	left, right := top, g.above(i, top)
	for _, s := range sectionsOf(made) {
		left = g.endView(i, &s, left)
	}
	g.y = math.Max(left, right) + 4
	g.leavesInWords(made)
}

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

// lengthView is the blanks of one or several lengths of a billet that are cut
// alike.
type lengthView struct {
	from, to quantity.Length
	blanks   []int
	same     [][]string // letters of the blanks of each column
}

// lengthsOf groups the blanks by the lengths they lie in, from the start on.
func lengthsOf(made *plan.BilletPlan) []lengthView {
	var all []lengthView
	for i := range made.Blanks {
		b := &made.Blanks[i]
		if n := len(all); n > 0 && b.X < all[n-1].to && b.X+b.Length > all[n-1].from {
			s := &all[n-1]
			s.from, s.to = min(s.from, b.X), max(s.to, b.X+b.Length)
			s.blanks = append(s.blanks, i)
			continue
		}
		all = append(all, lengthView{from: b.X, to: b.X + b.Length, blanks: []int{i}})
	}
	slices.SortFunc(all, func(a, b lengthView) int { return cmp.Compare(a.from, b.from) })
	return all
}

// sectionsOf are the lengths of a billet, those that look alike together.
func sectionsOf(made *plan.BilletPlan) []lengthView {
	var out []lengthView
	for _, s := range lengthsOf(made) {
		merged := false
		for k := range out {
			if alikeSections(made, &out[k], &s) {
				for c, i := range s.blanks {
					out[k].same[c] = append(out[k].same[c], letters(i))
				}
				merged = true
				break
			}
		}
		if !merged {
			for _, i := range s.blanks {
				s.same = append(s.same, []string{letters(i)})
			}
			out = append(out, s)
		}
	}
	return out
}

func alikeSections(made *plan.BilletPlan, a, b *lengthView) bool {
	if len(a.blanks) != len(b.blanks) {
		return false
	}
	for c := range a.blanks {
		x, y := &made.Blanks[a.blanks[c]], &made.Blanks[b.blanks[c]]
		if x.Y != y.Y || x.Width != y.Width || x.Face1 != y.Face1 || len(x.Leaves) != len(y.Leaves) {
			return false
		}
		for n := range x.Leaves {
			if l, m := x.Leaves[n], y.Leaves[n]; l.From != m.From || l.To != m.To || l.Role != m.Role {
				return false
			}
		}
	}
	return true
}

// mostWords bounds the lines about the leaves of one billet.
const mostWords = 40

func (g *planDrawing) leavesInWords(made *plan.BilletPlan) {
	lines := 0
	for i := range made.Blanks {
		b := &made.Blanks[i]
		text := letters(i) + ": " + g.length(b.Length) + " x " + g.length(b.Width) + " at " + g.length(b.X) + " from the start, " + g.length(b.Y) + " from the near edge; face 1 lies " + g.length(b.Face1) + " below the rough face; " + g.runs(b)
		broken := drawing.Wrapped(text, planText, planRight-planLeft)
		if lines += len(broken); lines > mostWords {
			g.words("The other blanks stand in the answer as JSON.", planText)
			return
		}
		g.words(text, planText)
	}
	if len(made.Blanks) == 0 {
		g.words(wire.UpperFirst(g.whyWhole())+".", planText)
	}
}

// whyWhole says of a billet that is not cut why it is not, as far as the plan knows.
func (g *planDrawing) whyWhole() string {
	some, all := false, true // sets at all; all that are wanted
	for i, n := range g.plan.Sets {
		most := g.p.asked.Parts[i].Most
		some, all = some || n > 0, all && most != nil && n >= *most
	}
	switch {
	case all:
		return "not needed; the billet stays whole"
	case some || !g.plan.Optimal:
		return "not cut in this plan; the billet stays whole"
	}
	return "no part fits; the billet stays whole"
}

// ringsInWords says how the rings of the billets whose ends are drawn are drawn; ""
// where none are.
func (g *planDrawing) ringsInWords() string {
	circles, planes := false, false
	for i := range g.plan.Billets {
		if len(g.plan.Billets[i].Blanks) == 0 {
			continue // no end is drawn
		}
		b := &g.p.asked.Billets[i]
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
			if b.Leaves[last].Set > l.Set {
				sets = "sets " + strconv.Itoa(l.Set) + " to " + strconv.Itoa(b.Leaves[last].Set)
			}
			leaves += ": " + g.p.asked.Parts[l.Part].Name + ", " + sets + ", " + g.length(l.To-l.From) + " thick"
		case plan.RoleOdd:
			leaves += ": " + g.p.asked.Parts[l.Part].Name + ", odd"
		default:
			leaves += ": spoiled, " + g.length(l.To-l.From) + " thick"
		}
		out = append(out, leaves)
		n = last + 1
	}
	return strings.Join(out, "; ")
}

// titleBlock says what the plan rests on.
func (g *planDrawing) titleBlock() {
	r, saw := g.result, &g.p.asked.Saws[g.plan.Saw]
	g.y += 16
	top := g.y
	g.y += 2
	head := "Saw: " + saw.Name + ", kerf " + g.length(saw.Resaw)
	if g.p.req.Date != "" {
		head += ". Date: " + g.p.req.Date
	}
	g.words(head+". Worth "+strconv.FormatInt(r.Proof.Worth, 10)+", no plan is worth more than "+strconv.FormatInt(r.Proof.Bound, 10)+".", planText)
	for i := range r.Saws {
		s := &r.Saws[i]
		line := s.Name + ": worth " + strconv.FormatInt(s.Worth, 10)
		for k, n := range s.Sets {
			if n > 0 {
				line += "; " + wire.CountOf(n, "set") + " of " + g.p.asked.Parts[k].Name
			}
		}
		g.words(line+"; leaves: "+strconv.Itoa(s.Leaves)+"; "+wire.CountOf(s.Cuts, "cut"), planText)
	}
	g.words("All cuts go from edge to edge of their piece. Kerfs are black, those of rip cuts too, where the billet is ripped at that place; leaves are numbered from face 1; grey leaves are odd; hatched ones are spoiled; dashed boxes are knots, checks and other zones; grey ends are trimmed off. Flattening takes cup, bow and twist half from either face. The end is seen from the start, face 1 up, the near edge on the left. Each view is in proportion and not at true scale; positions are those of the plan.", planText)
	g.words(g.ringsInWords()+"Tall cuts need a high fence and a pusher; follow the machine's manual.", planText)
	g.y += 6
	g.d.Rectangle(planLeft-6, top, planRight-planLeft+12, g.y-top, drawing.Thin)
}
