package year

import (
	"math"
	"strconv"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Render is the sheet of figures as a drawing, or the table of the parts or of the pairs.
func (r *AssemblyMovementResult) Render(name string) ([]byte, error) {
	switch name {
	case wire.TableForm.Name:
		return r.partsTable(), wire.NoFormulas(r.partNames()...)
	case wire.PairsForm.Name:
		return r.pairsTable(), wire.NoFormulas(r.pairNames()...)
	default:
		return r.draw(), nil
	}
}

// partNames are the texts of the caller in the table of the parts.
func (r *AssemblyMovementResult) partNames() (texts []wire.Tabled) {
	for i := range r.Parts {
		texts = append(texts, wire.Named("parts", i, r.Parts[i].ID, r.Parts[i].Name)...)
	}
	return texts
}

// pairNames are those in the table of the pairs.
func (r *AssemblyMovementResult) pairNames() (texts []wire.Tabled) {
	for i := range r.Pairs {
		texts = append(texts, wire.Named("pairs", i, r.Pairs[i].ID, r.Pairs[i].Name)...)
	}
	for i := range r.Glued {
		texts = append(texts, wire.Named("glued_joints", i, r.Glued[i].ID, r.Glued[i].Name)...)
	}
	return texts
}

// Columns of the tables (RFC 4180); new ones are only added at the end.
const (
	partsHeader = "id,name,dimension,unit,build,driest,driest_low,driest_high,wettest,wettest_low,wettest_high,swing,swing_low,swing_high,per_point,per_point_low,per_point_high,driest_mc_pct,wettest_mc_pct,driest_day_of_year,driest_date,wettest_day_of_year,wettest_date"
	pairsHeader = "id,name,unit,to_driest,to_driest_low,to_driest_high,to_wettest,to_wettest_low,to_wettest_high,build_clearance_min,build_clearance_usual,build_clearance_max,short_by,feasible,joint,risk"
)

// partsTable is one row for each dimension of each part.
func (r *AssemblyMovementResult) partsTable() []byte {
	text := []byte(partsHeader + "\r\n")
	for i := range r.Parts {
		p := &r.Parts[i]
		for k := range p.Sizes {
			s := &p.Sizes[k]
			text = append(text, wire.QuotedCell(p.ID)+","+wire.QuotedCell(p.Name)+","+s.Dimension+","+s.Build.Unit+","+s.Build.Text()...)
			for _, b := range []wire.Band{s.Driest, s.Wettest, s.Swing, s.PerPoint} {
				text = b.AppendCells(append(text, ','))
			}
			for _, state := range []*FigureState{&p.Driest, &p.Wettest} {
				text = append(append(text, ','), state.MC.Text()...)
			}
			text = append(text, ","+p.Driest.DayOfYear+","+p.Driest.Date+","+p.Wettest.DayOfYear+","+p.Wettest.Date+"\r\n"...)
		}
	}
	return text
}

// pairsTable is one row for each pair, then one for each glued joint, which has no clearance.
func (r *AssemblyMovementResult) pairsTable() []byte {
	text := []byte(pairsHeader + "\r\n")
	for i := range r.Pairs {
		p := &r.Pairs[i]
		text = append(text, wire.QuotedCell(p.ID)+","+wire.QuotedCell(p.Name)+","+p.AtBuild.Min.Unit...)
		for _, b := range []wire.Band{p.ToDriest, p.ToWettest} {
			text = b.AppendCells(append(text, ','))
		}
		for _, q := range []wire.Quantity{p.AtBuild.Min, p.AtBuild.Usual, p.AtBuild.Max, p.Short} {
			text = append(append(text, ','), q.Text()...)
		}
		text = strconv.AppendBool(append(text, ','), p.Feasible)
		text = append(text, ",loose,\r\n"...)
	}
	for i := range r.Glued {
		g := &r.Glued[i]
		text = append(text, wire.QuotedCell(g.ID)+","+wire.QuotedCell(g.Name)+","+g.Size.Unit...)
		for _, b := range []wire.Band{g.ToDriest, g.ToWettest} {
			text = b.AppendCells(append(text, ','))
		}
		text = append(text, ",,,,,,glued,"+g.Risk+"\r\n"...)
	}
	return text
}

// The sheet is 210 mm wide; twelve parts with two dimensions each and their pairs
// fit on A4. Its drawing unit is a quarter of a millimetre.
const (
	figuresWidth              = 840.0
	figuresLeft, figuresRight = 40.0, 800.0
	swingLeft, swingRight     = 590.0, 784.0
	figuresRow, figuresHead   = 17.0, 15.0
	besideFigures             = 158.0 // room of the names
)

// What the sheet is called and shows.
const (
	figuresHeading = "Movement figures"
	figuresAbout   = "A row for each dimension of each part with its size at the build, driest and wettest, and a bar of its " +
		"change in percent"
)

// draw is the sheet: a row for each dimension with its figures and a bar of its
// swing, all bars on one scale of percent.
func (r *AssemblyMovementResult) draw() []byte {
	d := &drawing.Sheet{Width: figuresWidth, Title: figuresHeading + ": " + r.Summary, About: figuresAbout}
	y := 44.0
	d.Text(figuresLeft, y, 19, drawing.FromLeft, figuresHeading)
	for _, line := range drawing.Wrapped(r.Summary, 12, figuresRight-figuresLeft) {
		y += 17
		d.Text(figuresLeft, y, 12, drawing.FromLeft, line)
	}
	if r.Room != nil {
		for _, line := range drawing.Wrapped("Air: "+r.Room.Name, drawing.SmallText, figuresRight-figuresLeft) {
			y += 14
			d.Text(figuresLeft, y, drawing.SmallText, drawing.FromLeft, line)
		}
	}
	y = r.drawParts(d, y+26)
	if len(r.Pairs) > 0 {
		y = r.drawPairs(d, y+26)
	}
	if len(r.Glued) > 0 {
		y = r.drawGlued(d, y+26)
	}
	y += 20
	for _, line := range drawing.Wrapped(r.remarks(), drawing.SmallText, figuresRight-figuresLeft) {
		d.Text(figuresLeft, y, drawing.SmallText, drawing.FromLeft, line)
		y += 13
	}
	d.Height = math.Ceil(y + 14)
	d.Size = `width="210mm" height="` + drawing.Coordinate(d.Height/4) + `mm"`
	return d.SVG()
}

// remarks explain the columns.
func (r *AssemblyMovementResult) remarks() string {
	text := "Bars: from the driest (left) to the wettest (right) in percent of the size at the build, the thin ends 90 " +
		"% of pieces. " +
		"Per 1 % MC: how far the size changes with each percentage point of moisture content. Below each part its wood " +
		"and its driest and wettest moisture content. " +
		"Parts free to move; hysteresis left out, real swings are a little smaller."
	for i := range r.Pairs {
		if p := &r.Pairs[i]; p.Feasible && math.Min(p.AtBuild.Min.Value, p.AtBuild.Usual.Value) < 0 {
			return text + " A clearance below 0 is a press fit: the inner part is made so much larger than its room."
		}
	}
	return text
}

// swingScale is the percent that the bars reach to each side.
func (r *AssemblyMovementResult) swingScale() float64 {
	most := 0.1
	for i := range r.Parts {
		for _, s := range r.Parts[i].Sizes {
			most = math.Max(most, 100*math.Max(-s.ToDriest.Low, s.ToWettest.High)/s.Build.Value)
		}
	}
	for _, whole := range []float64{0.25, 0.5, 1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 40, 60} {
		if most <= whole {
			return whole
		}
	}
	return 100
}

// figureDecimals are those a maker can use in each unit.
func figureDecimals(unit string) int {
	if unit == "in" {
		return 4
	}
	return 2
}

// fixed is a number with so many decimals, and no sign where they are all 0.
func fixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

func (r *AssemblyMovementResult) drawParts(d *drawing.Sheet, y float64) float64 {
	unit := r.Parts[0].Sizes[0].Build.Unit
	heads := []struct {
		x      float64
		anchor string
		words  string
	}{{figuresLeft, drawing.FromLeft, "part"}, {204, drawing.FromLeft, "across"},
		{322, drawing.FromRight, "build, " + unit}, {398, drawing.FromRight, "driest"}, {474, drawing.FromRight, "wettest"},
		{546, drawing.FromRight, "per 1 % MC"}}
	for _, h := range heads {
		d.Text(h.x, y, drawing.SmallText, h.anchor, h.words)
	}
	scale := r.swingScale()
	x := func(pct float64) float64 {
		return (swingLeft+swingRight)/2 + (swingRight-swingLeft)/2*math.Min(math.Max(pct/scale, -1), 1)
	}
	for _, pct := range []float64{-scale, 0, scale} {
		words := quantity.FormatNumber(pct, 2) + " %"
		d.Text(x(pct), y, drawing.SmallText, drawing.Centred, words)
	}
	top := y + 6
	d.Line(figuresLeft, top, figuresRight, top, drawing.Thin)
	y = top
	for i := range r.Parts {
		p := &r.Parts[i]
		name := drawing.Shortened(p.called, 11, besideFigures)
		swing := quantity.FormatNumber(p.Driest.MC.Value, 1) + " to " + quantity.FormatNumber(p.Wettest.MC.Value, 1) +
			" %"
		wood := drawing.Wrapped(p.Wood.Common+",", 9, besideFigures)
		if last := &wood[len(wood)-1]; drawing.TextWidth(*last+" "+swing, 9) <= besideFigures {
			*last += " " + swing
		} else {
			wood = append(wood, swing)
		}
		for k := 0; k < max(len(p.Sizes), 1+len(wood)); k++ {
			y += figuresRow
			if k >= len(p.Sizes) {
				y += figuresHead - figuresRow
			}
			switch {
			case k == 0:
				d.Text(figuresLeft, y-4, 11, drawing.FromLeft, name)
			case k <= len(wood):
				d.Text(figuresLeft, y-5, 9, drawing.FromLeft, drawing.Shortened(wood[k-1], 9, besideFigures))
			}
			if k < len(p.Sizes) {
				drawSize(d, &p.Sizes[k], y, x)
			}
		}
		d.Line(figuresLeft, y, figuresRight, y, drawing.Faint)
	}
	d.Line(x(0), top, x(0), y, drawing.Thin)
	return y
}

// drawSize is the row of a dimension with its baseline at y; x places percent.
func drawSize(d *drawing.Sheet, s *SizeFigures, y float64, x func(pct float64) float64) {
	decimals := figureDecimals(s.Build.Unit)
	d.Text(204, y-4, drawing.SmallText, drawing.FromLeft, s.Dimension)
	for _, cell := range []struct{ x, v float64 }{{322, s.Build.Value}, {398, s.Driest.Value}, {474, s.Wettest.Value}} {
		d.Text(cell.x, y-4, drawing.SmallText, drawing.FromRight, fixed(cell.v, decimals))
	}
	d.Text(546, y-4, drawing.SmallText, drawing.FromRight, fixed(s.PerPoint.Value, decimals+1))
	drawSwing(d, s, y-7.5, x)
}

// drawSwing is the bar of a dimension about y, with the ends of its band.
func drawSwing(d *drawing.Sheet, s *SizeFigures, y float64, x func(pct float64) float64) {
	share := func(v float64) float64 { return 100 * v / s.Build.Value }
	d.Line(x(share(s.ToDriest.Low)), y, x(share(s.ToWettest.High)), y, drawing.Thin)
	from, to := x(share(s.ToDriest.Value)), x(share(s.ToWettest.Value))
	d.Rectangle(from, y-4, math.Max(to-from, 0.5), 8, `fill="#777" stroke="none"`)
}

// pairColumns are the right ends of the numbers of pairs and of glued joints.
var pairColumns = [3]float64{322, 398, 474}

// drawHead is the head of their table; it returns where the rows begin.
func drawHead(d *drawing.Sheet, y float64, title string, columns [3]string, says string) float64 {
	d.Text(figuresLeft, y, 13, drawing.FromLeft, title)
	for c, words := range columns {
		d.Text(pairColumns[c], y, drawing.SmallText, drawing.FromRight, words)
	}
	d.Text(500, y, drawing.SmallText, drawing.FromLeft, says)
	y += 6
	d.Line(figuresLeft, y, figuresRight, y, drawing.Thin)
	return y
}

// drawSaid ends a row with its words, over several lines where they are long; it returns where
// the row ends.
func drawSaid(d *drawing.Sheet, y float64, words string) float64 {
	for k, line := range drawing.Wrapped(words, drawing.SmallText, figuresRight-500) {
		if k > 0 {
			y += 12
		}
		d.Text(500, y-4, drawing.SmallText, drawing.FromLeft, line)
	}
	d.Line(figuresLeft, y, figuresRight, y, drawing.Faint)
	return y
}

func (r *AssemblyMovementResult) drawPairs(d *drawing.Sheet, y float64) float64 {
	unit := r.Pairs[0].AtBuild.Min.Unit
	decimals := figureDecimals(unit)
	y = drawHead(d, y, "Clearance at the build, "+unit, [3]string{"least", "usual", "greatest"}, "what it says")
	for i := range r.Pairs {
		p := &r.Pairs[i]
		y += figuresRow
		d.Text(figuresLeft, y-4, 11, drawing.FromLeft, drawing.Shortened(p.called, 11, 210))
		if p.Feasible {
			for c, v := range []float64{p.AtBuild.Min.Value, p.AtBuild.Usual.Value, p.AtBuild.Max.Value} {
				d.Text(pairColumns[c], y-4, drawing.SmallText, drawing.FromRight, fixed(v, decimals))
			}
		} else {
			d.Text(pairColumns[2], y-4, drawing.SmallText, drawing.FromRight,
				"none; short by "+fixed(p.Short.Value, decimals))
		}
		y = drawSaid(d, y, p.said())
	}
	return y
}

// drawGlued lists the glued joints.
func (r *AssemblyMovementResult) drawGlued(d *drawing.Sheet, y float64) float64 {
	unit := r.Glued[0].Size.Unit
	decimals := figureDecimals(unit)
	y = drawHead(d, y, "Free difference of what is glued, "+unit, [3]string{"over", "driest", "wettest"}, "risk, and what it says")
	for i := range r.Glued {
		g := &r.Glued[i]
		y += figuresRow
		d.Text(figuresLeft, y-4, 11, drawing.FromLeft, drawing.Shortened(g.called, 11, 210))
		for c, v := range []float64{g.Size.Value, g.ToDriest.Value, g.ToWettest.Value} {
			d.Text(pairColumns[c], y-4, drawing.SmallText, drawing.FromRight, fixed(v, decimals))
		}
		y = drawSaid(d, y, g.Risk+"; "+g.Detail)
	}
	return y
}

// RenderShown draws it for a screen that has so many px for it.
func (r *AssemblyMovementResult) RenderShown(width int) ([]byte, error) {
	return r.drawShown(width), nil
}
