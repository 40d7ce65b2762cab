package mill

import (
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// mostListed are how many lines the list of the billets has, at most.
const mostListed = 40

// list tells the billets of each length; those that are alike in one line.
func (g *logDrawing) list() {
	lines, told := 0, 0
	for bolt := range g.plan.Bolts {
		alike, texts := g.alike(bolt)
		if len(texts) > 0 && len(g.plan.Bolts) > 1 && lines < mostListed {
			g.words("Length "+strconv.Itoa(bolt+1)+", from "+onTape(g.report, g.plan.Bolts[bolt].From)+" on:", g.frame.small)
		}
		for _, text := range texts {
			if lines == mostListed {
				break
			}
			lines++
			told += len(alike[text])
			g.words(numbers(alike[text])+": "+text, g.frame.small)
		}
	}
	if more := len(g.plan.Billets) - told; more > 0 {
		g.words("and "+strconv.Itoa(more)+" more", g.frame.small)
	}
}

// alike are the billets of a length by what is told of them, and that in the order of the first
// of each.
func (g *logDrawing) alike(bolt int) (billets map[string][]int, texts []string) {
	billets = map[string][]int{}
	for i := range g.plan.Billets {
		b := &g.plan.Billets[i]
		if b.Bolt != bolt {
			continue
		}
		text := g.sizes(b) + ", rings from " + quantity.FormatNumber(b.LeastAngle.Degrees(), 0) + " degrees"
		if len(billets[text]) == 0 {
			texts = append(texts, text)
		}
		billets[text] = append(billets[text], i+1)
	}
	return billets, texts
}

// sizes are the thickness and the width of a billet.
func (g *logDrawing) sizes(b *sawlog.Billet) string {
	thick := asSawn(g.report, b.Thickness)
	if g.asked.Pattern == sawlog.Wedges {
		thick = strings.TrimSuffix(onTape(g.report, b.Thickness), " "+g.report.LengthUnit) + " to " + onTape(g.report, b.FarThickness)
	}
	return thick + " thick, " + onTape(g.report, b.Width) + " wide"
}

// numbers are numbers that rise, for people: "1 to 4, 7, 8".
func numbers(all []int) string {
	var out []string
	for i := 0; i < len(all); {
		last := i
		for last+1 < len(all) && all[last+1] == all[last]+1 {
			last++
		}
		if last-i >= 2 {
			out = append(out, strconv.Itoa(all[i])+" to "+strconv.Itoa(all[last]))
		} else {
			for _, n := range all[i : last+1] {
				out = append(out, strconv.Itoa(n))
			}
		}
		i = last + 1
	}
	return strings.Join(out, ", ")
}
