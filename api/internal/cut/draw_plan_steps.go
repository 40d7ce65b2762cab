package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
)

// Frame of the list of steps.
const (
	stepBox    = 7.0  // to be ticked
	stepNumber = 14.0 // where numbers of steps begin, and words behind the widest
	stepGap    = 3.0
)

// steps writes the steps of a billet in the order of the work, those joined that need no
// new setting, each with a box to tick. Columns are read one after the other.
func (g *planDrawing) steps(i int) {
	if len(g.told.Billets[i].Steps) == 0 {
		return
	}
	g.y += 8
	g.d.MayBreak(g.y)
	if len(g.settings[i]) == 0 {
		g.words("The steps are too many for a drawing: they stand in the answer as JSON.", g.frame.text)
		return
	}
	g.words("Steps in order", g.frame.name)
	g.y += 5
	all, columns := g.settings[i], g.frame.columns
	if g.frame.shown {
		g.frame.steps = 0
		for k := range all {
			g.frame.steps = math.Max(g.frame.steps, stepNumber+drawing.TextWidth(all[k].numbers(), g.frame.text)+6)
		}
	}
	wide := (g.frame.right - g.frame.left) / float64(columns)
	top, bottom := g.y, g.y
	for c := range columns {
		g.y = top
		from, to := len(all)*c/columns, len(all)*(c+1)/columns
		for k := from; k < to; k++ {
			g.step(&all[k], g.frame.left+float64(c)*wide, wide-12)
		}
		bottom = math.Max(bottom, g.y)
	}
	g.y = bottom
}

// step writes one setting in a column.
func (g *planDrawing) step(s *PlanSetting, left, wide float64) {
	if g.frame.columns == 1 {
		g.d.MayBreak(g.y)
	}
	number := s.numbers()
	g.y += 1.3 * g.frame.text
	g.d.Rectangle(left, g.y-stepBox, stepBox, stepBox, drawing.Thin)
	g.d.Text(left+stepNumber, g.y, g.frame.text, drawing.FromLeft, number)
	words := left + math.Max(g.frame.steps, stepNumber+drawing.TextWidth(number, g.frame.text)+6)
	for n, line := range g.frame.lines(s.Detail, g.frame.text, left+wide-words) {
		if n > 0 {
			g.y += 1.3 * g.frame.text
		}
		g.d.Text(words, g.y, g.frame.text, drawing.FromLeft, line)
	}
	g.y += stepGap
}

// numbers are those of the steps that a setting joins.
func (s *PlanSetting) numbers() string {
	number := strconv.Itoa(s.First)
	if s.Last > s.First {
		number += " to " + strconv.Itoa(s.Last)
	}
	return number
}
