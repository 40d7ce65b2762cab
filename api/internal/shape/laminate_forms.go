package shape

import (
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

// Render draws the panel.
func (r *LaminateResult) Render(string) ([]byte, error) { return r.picture().draw(), nil }

// picture is what the drawing shows.
func (r *LaminateResult) picture() *panelPicture {
	s, g, in := &r.stack, r.glued, r.report.LengthUnit
	p := &panelPicture{
		heading: r.called(s.Length.Format(in), s.Width.Format(in)), summary: r.Summary,
		across: bentDrawn{"across the width", float64(s.Width), float64(g.Cup.Value),
			g.Across.Sense == laminate.StaysStraight},
		along: bentDrawn{"along the length", float64(s.Length), float64(g.Bow.Value),
			g.Along.Sense == laminate.StaysStraight},
		figures: r.figures(), creep: quantity.FormatNumber(r.Creep.Bending.Low, 0) + " to " +
			quantity.FormatNumber(r.Creep.Bending.High, 0),
	}
	for i := range s.Layers { // from the bottom up
		l, h, from := &s.Layers[i], &r.Layers[len(r.Layers)-1-i], strconv.Itoa(len(r.Layers)-i)
		f := func(v float64) string { return quantity.FormatNumber(v, 1) }
		p.layers = append(p.layers, layerDrawn{
			thickness: float64(l.Thickness), grain: float64(l.Grain), ring: float64(l.Ring), name: from + "  " +
				h.Wood.Common,
			facts: ", " + l.Thickness.Format(in) + ", grain " + f(l.Grain.Degrees()) + ", rings " + f(l.Ring.Degrees()) + ", " +
				f(h.GlueUp.Value) + " to " + f(h.Later.Value) + " %",
		})
	}
	return p
}

// called is the title of the drawing.
func (r *LaminateResult) called(length, width string) string {
	count := "Panel of " + strconv.Itoa(len(r.Layers)) + " layers"
	if len(r.Layers) == 1 {
		count = "Panel of one layer"
	}
	return count + ", " + length + " long, " + width + " wide"
}

// figures are the numbers with their bands.
func (r *LaminateResult) figures() [][2]string {
	rows := [][2]string{{"cup, + hollow on face 1", bandText(r.Cup)}, {"bow, + hollow on face 1", bandText(r.Bow)}}
	if r.CornerLift.Low != 0 || r.CornerLift.High != 0 {
		rows = append(rows, [2]string{"three corners down, the fourth up by", bandText(r.CornerLift)})
	}
	rows = append(rows, [2]string{"change of the length", bandText(r.Length)},
		[2]string{"change of the width", bandText(r.Width)})
	if len(r.GlueLines) > 0 {
		worst := r.GlueLines[0].AtSides.Shear
		for _, g := range r.GlueLines {
			for _, e := range []shelf.GlueEdge{g.AtEnds, g.AtSides} {
				if e.Shear.Value > worst.Value {
					worst = e.Shear
				}
			}
		}
		digits := 1
		if worst.Unit == "psi" {
			digits = 0
		}
		rows = append(rows, [2]string{"glue at the edge, shear, most", "of the order of " +
			quantity.FormatNumber(worst.Value, digits) + " " + worst.Unit})
	}
	if s := r.Strip; s != nil {
		rows = append(rows, [2]string{"as a plain strip: cup", bandText(s.Cup)},
			[2]string{"free difference of the widths", bandText(s.Free)})
	}
	return rows
}

// RenderShown draws it for a screen that has so many px for it.
func (r *LaminateResult) RenderShown(width int) ([]byte, error) {
	p := r.picture()
	p.heading = r.called(r.given[0], r.given[1])
	return p.drawShown(width), nil
}
