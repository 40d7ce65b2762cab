package mill

import (
	"math"
	"strconv"
	"strings"

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
	mostListed = 40 // billets that are listed
	arcsDrawn  = 9
)

// Ways to draw what only a log has.
const (
	barkLine   = `stroke="#000" stroke-width="3" fill="#ddd"`
	woodLine   = `stroke="#000" stroke-width="1" fill="#fff"`
	commonLine = `stroke="#000" stroke-width="0.9" fill="none" stroke-dasharray="7 3"`
	sapLine    = `stroke="#000" stroke-width="1" fill="none" stroke-dasharray="1.5 3" stroke-linecap="round"`
	ringLine   = `stroke="#bbb" stroke-width="0.7" fill="none"`
	shownRing  = `stroke="#777" stroke-width="0.5" fill="none"` // seen on a dark page as well
	billetLine = `stroke="#000" stroke-width="1.8" fill="#eee" fill-opacity="0.85" stroke-linejoin="round"`
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
	g.scale = (math.Min(g.frame.sheet, g.frame.wide)/2 - g.frame.margin - 4) / over
	g.y += 12
	g.mid = drawing.At(g.frame.sheet/2, g.y+g.scale*over)
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
	if log.Sapwood > 0 {
		g.circle(float64(log.WoodRadius(0)-log.Sapwood), sapLine)
	}
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
	p := g.at(float64(log.Pith.Y), float64(log.Pith.Z))
	g.d.Line(p.X-7, p.Y, p.X+7, p.Y, drawing.Thick)
	g.d.Line(p.X, p.Y-7, p.X, p.Y+7, drawing.Thick)
	g.y += height + 6
}

func (g *logDrawing) at(y, z float64) drawing.Point {
	return drawing.At(g.mid.X+g.scale*y, g.mid.Y+g.scale*z)
}

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
	middle := drawing.Point{}
	for _, c := range b.Corners {
		p := g.at(float64(c.Y), float64(c.Z))
		points = append(points, p)
		middle.X, middle.Y = middle.X+p.X/4, middle.Y+p.Y/4
	}
	g.d.Polygon(points, billetLine)
	// towards the thick edge of a wedge there is more room
	lean := 0.3 * float64((b.Thickness-b.FarThickness)/(b.Thickness+b.FarThickness))
	near := drawing.At((points[0].X+points[3].X)/2, (points[0].Y+points[3].Y)/2)
	middle.X, middle.Y = middle.X+lean*(near.X-middle.X), middle.Y+lean*(near.Y-middle.Y)
	words := strconv.Itoa(i + 1)
	room := g.scale * math.Min(float64(b.Width), float64(b.Thickness+b.FarThickness)/2)
	size := math.Min(g.frame.text, 0.8*room)
	if g.frame.shown {
		g.numbered(middle, math.Max(size, g.frame.least), room, words)
	} else if size >= g.frame.least {
		g.d.Text(middle.X, middle.Y+0.35*size, size, drawing.Centred, words)
	}
}

// numbered writes the number of a billet on a screen, unless that of another stands there. One
// that is higher than its billet stands on a ground of its own.
func (g *logDrawing) numbered(middle drawing.Point, size, room float64, words string) {
	at := drawing.TextBox(middle.X, middle.Y+0.35*size, size, drawing.Centred, words)
	if !g.taken.Take(at) {
		g.nameless = true
		return
	}
	if room < size {
		g.later = append(g.later, func() {
			g.d.Rectangle(at.Left-1, at.Top, at.Right-at.Left+2, at.Bottom-at.Top-1, `fill="#fff" stroke="none"`)
			g.d.Text(middle.X, middle.Y+0.35*size, size, drawing.Centred, words)
		})
		return
	}
	g.d.Text(middle.X, middle.Y+0.35*size, size, drawing.Centred, words)
}

// key says what is drawn.
func (g *logDrawing) key() {
	log := &g.plan.Bolts[0].Log
	text := "Start end, seen from the start; to scale, " + g.length(log.Start) + " across"
	if log.Bark > 0 {
		text += " with the bark"
	}
	text += ". Broken circle: the wood at the other end; billets lie in both. Cross: pith. Broken lines: cuts. "
	if log.Sapwood > 0 {
		text += "Dotted: sapwood. "
	}
	if log.Sweep > 0 {
		text += "In the middle of its length the log stands out to the right by " + g.length(log.Sweep) + ". "
	}
	if log.Half {
		text += "The flat face lies above. "
	}
	text += g.frame.faint + ": rings for the eye only."
	if n := len(g.plan.Bolts); n > 1 {
		text += " The first of " + strconv.Itoa(n) + " lengths is drawn."
	}
	if g.frame.shown && g.nameless {
		text += " Not every billet finds room for its number: they run on from one to the next."
	}
	g.words(text, g.frame.small)
	g.y += 4
}

func (g *logDrawing) length(l quantity.Length) string { return l.Format(g.report.LengthUnit) }

// list tells the billets that are drawn.
func (g *logDrawing) list() {
	listed := 0
	for i := range g.plan.Billets {
		b := &g.plan.Billets[i]
		if b.Bolt != 0 || listed == mostListed {
			continue
		}
		listed++
		size := g.length(b.Thickness)
		if b.FarThickness != b.Thickness {
			size = strings.TrimSuffix(size, " "+g.report.LengthUnit) + " to " + g.length(b.FarThickness)
		}
		g.words(strconv.Itoa(i+1)+": "+size+" thick, "+g.length(b.Width)+" wide, rings from "+
			quantity.FormatNumber(b.LeastAngle.Degrees(), 0)+" degrees", g.frame.small)
	}
	if more := len(g.plan.Billets) - listed; more > 0 {
		g.words("and "+strconv.Itoa(more)+" more", g.frame.small)
	}
}
