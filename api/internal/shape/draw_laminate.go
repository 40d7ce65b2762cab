package shape

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

// Frame of the drawing of a panel.
const (
	panelWidth, panelHeight = 760.0, 600.0
	layersLeft, layersRight = 40.0, 330.0
	layersTop, layersBottom = 84.0, 300.0
)

// Render draws the panel.
func (r *LaminateResult) Render(string) ([]byte, error) { return r.draw(), nil } //nolint:unparam // other results have forms they cannot give

func (r *LaminateResult) draw() []byte {
	w := r.work
	count := "Panel of " + strconv.Itoa(len(r.Layers)) + " layers"
	if len(r.Layers) == 1 {
		count = "Panel of one layer"
	}
	heading := count + ", " + w.panel.Length.Format(w.report.LengthUnit) + " long, " + w.panel.Width.Format(w.report.LengthUnit) + " wide"
	d := &drawing.Sheet{Width: panelWidth, Height: panelHeight, Size: `width="760" height="600"`, Title: heading + ": " + r.Summary,
		About: "The layers seen at the end of the panel, with their grain, and the bent panel in both directions"}
	d.Text(18, 24, 15, drawing.FromLeft, heading)
	d.Text(18, 43, drawing.BodyText, drawing.FromLeft, r.Summary)
	d.Text(18, layersTop-10, drawing.SmallText, drawing.FromLeft, "The layers seen at the end of the panel. Lines: rings on end grain. Dashes: grain that runs across the panel.")
	all := r.drawStack(d)
	d.Line(18, 324, rightMargin, 324, drawing.Faint)
	r.drawBent(d, 18, "across the width", float64(w.panel.Width), float64(r.warped.Cup.Value))
	r.drawBent(d, 390, "along the length", float64(w.panel.Length), float64(r.warped.Bow.Value))
	r.drawPanelFigures(d)
	r.drawPanelAssumptions(d, all)
	return d.SVG()
}

// drawStack draws the layers from the bottom up and names those for whose name
// there is room; all says that it named each.
func (r *LaminateResult) drawStack(d *drawing.Sheet) (all bool) {
	layers := r.work.panel.Layers
	heights := make([]float64, len(layers))
	total := 0.0
	for i := range layers {
		total += float64(layers[i].Thickness)
	}
	least := math.Min(13, (layersBottom-layersTop)/float64(len(layers)))
	room := layersBottom - layersTop - least*float64(len(layers))
	for i := range layers {
		heights[i] = least + room*float64(layers[i].Thickness)/total
	}
	all = true
	y, named := layersBottom, math.Inf(1)
	for i := range layers {
		y -= heights[i]
		d.Rectangle(layersLeft, y, layersRight-layersLeft, heights[i], drawing.Thin)
		drawGrain(d, &layers[i], y, heights[i])
		middle := y + heights[i]/2 + 3.5
		if named-middle < 11.5 {
			all = false
			continue
		}
		named = middle
		d.Text(layersRight+12, middle, drawing.SmallText, drawing.FromLeft, r.layerText(i))
	}
	return all
}

// layerText names a layer in the room right of the stack.
func (r *LaminateResult) layerText(i int) string {
	l, h := &r.work.panel.Layers[i], &r.Layers[i]
	f := func(v float64) string { return quantity.FormatNumber(v, 1) }
	facts := ", " + l.Thickness.Format(r.work.report.LengthUnit) + ", grain " + f(l.Grain.Degrees()) + ", rings " + f(l.Ring.Degrees()) + ", " + f(h.AtGlueUp.ValuePct) + " to " + f(h.Later.ValuePct) + " %"
	name := []rune(strconv.Itoa(i+1) + "  " + h.Wood.Common)
	for drawing.TextWidth(string(name)+facts, drawing.SmallText) > rightMargin-layersRight-12 && len(name) > 6 {
		name = name[:len(name)-1]
	}
	return string(name) + facts
}

// drawGrain fills a layer with lines of its rings where its end grain is seen, or
// with dashes where its grain runs across the view.
func drawGrain(d *drawing.Sheet, l *laminate.Layer, y, h float64) {
	if math.Abs(math.Cos(float64(l.Grain))) < math.Sqrt2/2 {
		for at := y + 5; at < y+h-2; at += 6 {
			d.Line(layersLeft+3, at, layersRight-3, at, `stroke="#777" stroke-width="0.6" fill="none" stroke-dasharray="16 5"`)
		}
		return
	}
	sin, cos := math.Sincos(float64(l.Ring))
	const gap = 7.0
	if sin < 0.02 { // flat within what can be seen
		for at := y + gap/2; at < y+h-1; at += gap {
			d.Line(layersLeft+3, at, layersRight-3, at, drawing.Faint)
		}
		return
	}
	lean := h * cos / sin
	for x := layersLeft - lean; x < layersRight; x += gap / sin {
		// from (x, bottom) to (x+lean, top), cut at the edges of the layer
		a, b := math.Max(x, layersLeft), math.Min(x+lean, layersRight)
		if lean < 0.5 { // upright, but for the last digit of the cosine
			if x > layersLeft {
				d.Line(x, y, x, y+h, drawing.Faint)
			}
			continue
		}
		if a < b {
			d.Line(a, y+h-h*(a-x)/lean, b, y+h-h*(b-x)/lean, drawing.Faint)
		}
	}
}

// drawBent draws the panel bent over a size, its sagitta exaggerated.
func (r *LaminateResult) drawBent(d *drawing.Sheet, left float64, name string, size, sagitta float64) {
	const room, middle, half = 330.0, 392.0, 4.0
	scale := room / size
	factor := exaggerated(math.Abs(sagitta)*scale, 34)
	words := name + ", bend drawn " + quantity.FormatNumber(factor, 3) + " times as large"
	switch {
	case math.Abs(sagitta) < float64(stillFlat):
		words = name + ": straight"
	case factor == 1:
		words = name + ", bend true to scale"
	}
	d.Text(left, 342, drawing.SmallText, drawing.FromLeft, words)
	high := sagitta * scale * factor
	var upper, lower []drawing.Point
	const steps = 40
	for i := range steps + 1 {
		f := 2*float64(i)/steps - 1
		// hollow above: the edges stand up
		y := middle + high/2 - high*f*f
		upper = append(upper, drawing.At(left+room*(f+1)/2, y-half))
		lower = append(lower, drawing.At(left+room*(f+1)/2, y+half))
	}
	d.Line(left, middle, left+room, middle, drawing.Dotted)
	for i := len(lower) - 1; i >= 0; i-- {
		upper = append(upper, lower[i])
	}
	d.Polygon(upper, `fill="#ddd" stroke="#000" stroke-width="1.4" stroke-linejoin="round"`)
}

func (r *LaminateResult) drawPanelFigures(d *drawing.Sheet) {
	rows := [][2]string{{"cup, + hollow above", bandText(r.Cup)}, {"bow, + hollow above", bandText(r.Bow)}}
	if r.CornerLift.Low != 0 || r.CornerLift.High != 0 {
		rows = append(rows, [2]string{"three corners down, the fourth up by", bandText(r.CornerLift)})
	}
	rows = append(rows, [2]string{"change of the length", bandText(r.Length)}, [2]string{"change of the width", bandText(r.Width)})
	if len(r.GlueLines) > 0 {
		worst := r.GlueLines[0].AtSides.Shear
		for _, g := range r.GlueLines {
			for _, e := range []GlueEdge{g.AtEnds, g.AtSides} {
				if e.Shear.Value > worst.Value {
					worst = e.Shear
				}
			}
		}
		digits := 1
		if worst.Unit == "psi" {
			digits = 0
		}
		rows = append(rows, [2]string{"glue at the edge, shear, most", "of the order of " + quantity.FormatNumber(worst.Value, digits) + " " + worst.Unit})
	}
	if s := r.Strip; s != nil {
		rows = append(rows, [2]string{"as a plain strip: cup", bandText(s.Cup)}, [2]string{"free difference of the widths", bandText(s.Free)})
	}
	figureColumns(d, rows, 456)
}

func (r *LaminateResult) drawPanelAssumptions(d *drawing.Sheet, all bool) {
	d.Line(18, 524, rightMargin, 524, drawing.Thin)
	text := "Elastic, as in the first days; weeks of creep leave " + quantity.FormatNumber(100*r.Creep.BendLow, 0) + " to " + quantity.FormatNumber(100*r.Creep.BendHigh, 0) +
		" % of the bend. Each layer even in moisture; nothing holds the panel. In brackets: 90 % of such panels lie there. Thin layers are drawn thicker than they are."
	if !all {
		text += " Not every layer is named."
	}
	y := 540.0
	for _, line := range drawing.Wrapped(text, drawing.SmallText, rightMargin-18) {
		d.Text(18, y, drawing.SmallText, drawing.FromLeft, line)
		y += 13
	}
}
