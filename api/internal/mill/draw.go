package mill

import (
	"math"
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// logDrawing draws the start end of a log with its cuts and billets. It is narrow, with
// large letters, so that it can be read on a telephone beside the log.
type logDrawing struct {
	report        wire.Reporter
	asked         *sawlog.Question
	plan          *sawlog.Plan
	summary, name string

	frame    logFrame
	d        *drawing.Sheet
	y        float64 // where the next thing goes
	scale    float64 // units for a metre
	mid      drawing.Point
	taken    drawing.Taken // by numbers of billets
	nameless bool          // the number of a billet found no room
	later    []func()      // numbers that are drawn above all billets and cuts
}

// logFrame is how wide the sheet is, and how large its letters.
type logFrame struct {
	sheet, margin float64
	wide          float64 // of the end of the log, at most
	text, small   float64
	least         float64 // of the number of a billet
	rings, faint  string  // how they are drawn, and what that is called
	shown         bool    // on a screen
}

// printedLog is the frame on paper.
var printedLog = logFrame{sheet: 480, margin: 16, wide: 480, text: 14, small: 12, least: 8, rings: ringLine, faint: "Grey"}

// shownLog is the one for a screen.
func shownLog(width int) logFrame {
	on := drawing.FrameOf(width)
	return logFrame{sheet: on.Width, margin: 10, wide: 560, text: on.Body, small: on.Small, least: on.Small,
		rings: shownRing, faint: "Faint lines", shown: true}
}

const (
	arcsDrawn  = 9
	pithArm    = 7.0  // of the cross at the pith
	leastDrawn = 0.01 // of the diameter: sweep that is less is not seen
)

// Ways to draw what only a log has.
const (
	barkLine   = `stroke="#000" stroke-width="3" fill="#ddd"`
	woodLine   = `stroke="#000" stroke-width="1" fill="#fff"`
	commonLine = `stroke="#000" stroke-width="0.9" fill="none" stroke-dasharray="7 3"`
	sapLine    = `stroke="#000" stroke-width="1" fill="none" stroke-dasharray="1.5 3" stroke-linecap="round"`
	ringLine   = `stroke="#bbb" stroke-width="0.7" fill="none"`
	shownRing  = `stroke="#777" stroke-width="0.5" fill="none"`            // seen on a dark page as well
	billetFill = `fill="#eee" fill-opacity="0.85" stroke-linejoin="round"` // its line is the thinner, the thinner the billet
)

func (g *logDrawing) draw() []byte { return g.sheet(printedLog).SVG() }

// drawShown draws it for a screen.
func (g *logDrawing) drawShown(width int) []byte {
	return drawing.OnScreen(g.sheet(shownLog(width)).SVG())
}

func (g *logDrawing) sheet(frame logFrame) *drawing.Sheet {
	g.frame, g.taken, g.nameless, g.later = frame, nil, false, nil
	heading := "Plan of the log"
	if g.name != "" {
		heading += ": " + g.name
	}
	g.d = &drawing.Sheet{Width: frame.sheet, Title: "Plan of the log: " + g.summary,
		About: "Start end of the log with bark, rings, pith, the cuts along it and the numbered billets, and a list of these"}
	g.y = 10
	g.words(heading, frame.text+2)
	g.words(g.summary, frame.text)
	g.end()
	g.key()
	g.list()
	g.d.Height = g.y + 14
	g.d.Size = `width="` + drawing.Coordinate(frame.sheet) + `" height="` + drawing.Coordinate(g.d.Height) + `"`
	return g.d
}

// words writes lines over the whole width.
func (g *logDrawing) words(text string, size float64) {
	for _, line := range drawing.Lines(g.frame.shown, text, size, g.frame.sheet-2*g.frame.margin) {
		g.y += 1.3 * size
		g.d.Text(g.frame.margin, g.y, size, drawing.FromLeft, line)
	}
}

// end draws the start end of the first length.
func (g *logDrawing) end() {
	log := &g.plan.Bolts[0].Log
	over := float64(max(log.Start, log.End)) / 2
	right := math.Max(over, float64(log.Sweep+log.WoodRadius(0.5))) // where the middle of its length stands out
	g.scale = (math.Min(g.frame.sheet, g.frame.wide) - 2*(g.frame.margin+4)) / (over + right)
	g.y += 12
	g.mid = drawing.At(g.frame.sheet/2+g.scale*(over-right)/2, g.y+g.scale*over)
	height := 2 * g.scale * over
	if log.Half {
		g.mid.Y = g.y + 6
		height = g.scale*over + 6
	}
	g.circle(float64(log.Start)/2, barkLine)
	if log.Bark > 0 {
		g.circle(float64(log.WoodRadius(0)), woodLine)
	} else {
		g.circle(float64(log.WoodRadius(0)), `stroke="none" fill="#fff"`)
	}
	g.rings(log)
	g.circle(float64(log.WoodRadius(1)), commonLine)
	if bends(log) {
		g.d.Polygon(g.arc(float64(log.Sweep), 0, float64(log.WoodRadius(0.5))), commonLine)
	}
	if log.Sapwood > 0 {
		g.circle(float64(log.WoodRadius(0)-log.Sapwood), sapLine)
	}
	p := g.at(float64(log.Pith.Y), float64(log.Pith.Z))
	g.taken.Take(drawing.Box{Left: p.X - pithArm, Top: p.Y - pithArm, Right: p.X + pithArm, Bottom: p.Y + pithArm})
	for i := range g.plan.Billets {
		g.billet(i)
	}
	for _, c := range g.plan.Bolts[0].Cuts {
		a, b := g.at(float64(c.From.Y), float64(c.From.Z)), g.at(float64(c.To.Y), float64(c.To.Z))
		g.d.Line(a.X, a.Y, b.X, b.Y, drawing.Dashed)
	}
	for _, number := range g.later {
		number()
	}
	g.d.Line(p.X-pithArm, p.Y, p.X+pithArm, p.Y, drawing.Thick)
	g.d.Line(p.X, p.Y-pithArm, p.X, p.Y+pithArm, drawing.Thick)
	g.y += height + 6
}

func (g *logDrawing) at(y, z float64) drawing.Point {
	return drawing.At(g.mid.X+g.scale*y, g.mid.Y+g.scale*z)
}

// bends reports whether the sweep of a log is seen.
func bends(log *sawlog.Log) bool { return log.Sweep >= leastDrawn*log.Start }

// circle draws a circle about the middle, or its lower half.
func (g *logDrawing) circle(radius float64, style string) {
	if radius <= 0 {
		return
	}
	g.d.Polygon(g.arc(0, 0, radius), style)
}

// arc are points of a circle, of a half log only those below the flat face.
func (g *logDrawing) arc(y, z, radius float64) []drawing.Point {
	from, span, n := 0.0, 2*math.Pi, 120
	if g.asked.Log.Half {
		span = math.Pi
	}
	var out []drawing.Point
	for i := range n + 1 {
		a := from + span*float64(i)/float64(n)
		out = append(out, g.at(y+radius*math.Cos(a), z+radius*math.Sin(a)))
	}
	return out
}

// rings draws circles from the pith to the bark: each lies between both, so that it is
// about the pith inside and about the middle outside. They are not the wood's own.
func (g *logDrawing) rings(log *sawlog.Log) {
	radius := float64(log.WoodRadius(0))
	for i := 1; i < arcsDrawn; i++ {
		share := float64(i) / arcsDrawn
		y, z := (1-share)*float64(log.Pith.Y), (1-share)*float64(log.Pith.Z)
		if log.Half && math.Abs(float64(log.Pith.Z)) > 0 {
			z = 0
		}
		g.d.Polyline(g.arc(y, z, share*radius), g.frame.rings)
	}
}

// billet draws the i-th billet, if it comes from the first length.
func (g *logDrawing) billet(i int) {
	b := &g.plan.Billets[i]
	if b.Bolt != 0 {
		return
	}
	points := make([]drawing.Point, 0, 4)
	for _, c := range b.Corners {
		points = append(points, g.at(float64(c.Y), float64(c.Z)))
	}
	room := g.scale * math.Min(float64(b.Width), float64(b.Thickness+b.FarThickness)/2)
	g.d.Polygon(points, `stroke="#000" stroke-width="`+drawing.Coordinate(math.Max(0.4, math.Min(1.8, 0.1*room)))+`" `+billetFill)
	g.number(i, points)
}

// key says what is drawn.
func (g *logDrawing) key() {
	log := &g.plan.Bolts[0].Log
	text := "Start end, seen from the start; to scale, " + g.length(log.Start) + " across"
	if log.Bark > 0 {
		text += " with the bark"
	}
	if bends(log) {
		text += ". Broken circles: the wood at the other end and, to the right by " + g.length(log.Sweep) +
			", in the middle of the length; billets lie in all three. "
	} else {
		text += ". Broken circle: the wood at the other end; billets lie in both. "
	}
	text += "Cross: pith. Broken lines: cuts. "
	if log.Sapwood > 0 {
		text += "Dotted: sapwood. "
	}
	if log.Half {
		text += "The flat face lies above. "
	}
	text += g.frame.faint + ": rings for the eye only."
	if n := len(g.plan.Bolts); n > 1 {
		text += " The first of " + strconv.Itoa(n) + " lengths is drawn."
	}
	if g.nameless {
		text += " Not every billet finds room for its number: they run on from one to the next."
	}
	g.words(text, g.frame.small)
	g.y += 4
}

// length is one of the log as it was measured, or of a part of it: to the nearest.
func (g *logDrawing) length(l quantity.Length) string {
	if g.report.LengthUnit == "in" {
		return g.report.InFractions(tapeFraction).SaidLength(l)
	}
	return quantity.FormatNumber(l.Millimetres(), 0) + " mm"
}
