package drawing

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
)

// Sheet collects the elements of an SVG. Everything is drawn in black and
// grey with its own dash or hatch, so that a print without colour loses
// nothing.
type Sheet struct {
	Width, Height float64 // of the view box, in its own units
	Size          string  // width and height attributes, such as `width="760" height="420"`
	Title, About  string  // for readers who cannot see it

	shapes []shape
	breaks []float64 // places from the top where a page may end
}

// kindOf is what a shape is.
type kindOf byte

const (
	lineShape kindOf = iota
	rectangleShape
	polylineShape
	polygonShape
	circleShape
	textShape
	uprightShape
	clipShape    // shows what follows inside of a rectangle only
	clipEndShape // and all of it again
	toldShape    // a value, to be read where a pointer comes near
)

// shape is an element of a drawing. Its points are: two ends; a corner and a size; all
// points of a line; a middle, and a radius as x; where a text is set.
type shape struct {
	kind   kindOf
	points []Point
	style  string // attributes, of a line or a filling
	size   float64
	anchor string
	words  string
	whole  string // what the words were shortened from; empty: nothing is left out
}

// Ways to draw a line.
const (
	Thin   = `stroke="#000" stroke-width="0.8" fill="none"`
	Faint  = `stroke="#999" stroke-width="0.5" fill="none"`
	Thick  = `stroke="#000" stroke-width="2" fill="none" stroke-linejoin="round"`
	Dashed = `stroke="#000" stroke-width="1.1" fill="none" stroke-dasharray="7 3"`
	Dotted = `stroke="#000" stroke-width="1.3" fill="none" stroke-dasharray="1.5 2.5" stroke-linecap="round"`
	Goal   = `stroke="#000" stroke-width="1" fill="none" stroke-dasharray="12 3 2 3"`
	Band   = `fill="#ddd" stroke="none"`
)

// Coordinate writes a coordinate or a size.
func Coordinate(v float64) string { return quantity.FormatNumber(v, 2) }

func (d *Sheet) add(s shape) { d.shapes = append(d.shapes, s) }

// Line adds a line.
func (d *Sheet) Line(x1, y1, x2, y2 float64, style string) {
	d.add(shape{kind: lineShape, points: []Point{{x1, y1}, {x2, y2}}, style: style})
}

// Rectangle adds a rectangle by its upper left corner and its size.
func (d *Sheet) Rectangle(x, y, w, h float64, style string) {
	d.add(shape{kind: rectangleShape, points: []Point{{x, y}, {w, h}}, style: style})
}

// Circle adds a circle by its middle and its radius.
func (d *Sheet) Circle(x, y, radius float64, style string) {
	d.add(shape{kind: circleShape, points: []Point{{x, y}, {radius, 0}}, style: style})
}

// Clip shows of all that is added up to EndClip only what lies in a rectangle.
func (d *Sheet) Clip(x, y, w, h float64) {
	d.add(shape{kind: clipShape, points: []Point{{x, y}, {w, h}}})
}

// EndClip ends what Clip began.
func (d *Sheet) EndClip() { d.add(shape{kind: clipEndShape}) }

// MayBreak says that a page may end at a place from the top: nothing lies across it.
func (d *Sheet) MayBreak(y float64) { d.breaks = append(d.breaks, y) }

// Tell puts a value in words at a place: nothing is seen of it, until one points there.
func (d *Sheet) Tell(x, y float64, words string) {
	d.add(shape{kind: toldShape, points: []Point{{x, y}}, words: words})
}

// Grown makes the sheet as high as what stands on it, and as large on a screen as its numbers say.
func (d *Sheet) Grown(height float64) {
	d.Height = math.Ceil(height)
	d.Size = `width="` + Coordinate(d.Width) + `" height="` + Coordinate(d.Height) + `"`
}

// Point is a place on a drawing.
type Point struct{ X, Y float64 }

// At is the point at x and y.
func At(x, y float64) Point { return Point{x, y} }

// Polyline adds a line through points.
func (d *Sheet) Polyline(points []Point, style string) {
	d.add(shape{kind: polylineShape, points: points, style: style})
}

// Polygon adds a closed line through points.
func (d *Sheet) Polygon(points []Point, style string) {
	d.add(shape{kind: polygonShape, points: points, style: style})
}

// Ways to set a text about its point.
const (
	FromLeft  = "start"
	Centred   = "middle"
	FromRight = "end"
)

// Text writes a line with its baseline at y.
func (d *Sheet) Text(x, y, size float64, anchor, words string) {
	d.add(shape{kind: textShape, points: []Point{{x, y}}, size: size, anchor: anchor, words: words})
}

// TextWithin writes words as far as there is room. Where they are shortened, one who points at
// them is told the whole.
func (d *Sheet) TextWithin(x, y, size float64, anchor string, room float64, words string) {
	short := ClippedTo(room*SmallText/size, words)
	if short == words {
		d.Text(x, y, size, anchor, words)
		return
	}
	if short != "" {
		d.add(shape{kind: textShape, points: []Point{{x, y}}, size: size, anchor: anchor, words: short, whole: words})
	}
	d.Tell(x, y, words)
}

// Upright writes a line that reads from bottom to top, centred on its point.
func (d *Sheet) Upright(x, y, size float64, words string) {
	d.add(shape{kind: uprightShape, points: []Point{{x, y}}, size: size, words: words})
}

func escaped(words string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(words)); err != nil {
		return ""
	}
	return b.String()
}

// SVG returns the document.
func (d *Sheet) SVG() []byte {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" ` + d.Size + ` viewBox="0 0 ` + Coordinate(d.Width) + ` ` + Coordinate(d.Height) +
		`" font-family="Georgia, 'DejaVu Serif', serif" role="img" aria-labelledby="title about">` + "\n")
	b.WriteString(`<title id="title">` + escaped(d.Title) + `</title>` + "\n" + `<desc id="about">` + escaped(d.About) + `</desc>` + "\n")
	b.WriteString(`<rect width="` + Coordinate(d.Width) + `" height="` + Coordinate(d.Height) + `" fill="#fff"/>` + "\n")
	for i := range d.shapes {
		d.shapes[i].svg(&b, i)
		b.WriteByte('\n')
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// svg writes the element. A clip is called by its place among the shapes.
func (s *shape) svg(b *strings.Builder, place int) {
	write := func(parts ...string) {
		for _, p := range parts {
			b.WriteString(p)
		}
	}
	n := Coordinate
	switch p := s.points; s.kind {
	case lineShape:
		write(`<line x1="`, n(p[0].X), `" y1="`, n(p[0].Y), `" x2="`, n(p[1].X), `" y2="`, n(p[1].Y), `" `, s.style, `/>`)
	case rectangleShape:
		write(`<rect x="`, n(p[0].X), `" y="`, n(p[0].Y), `" width="`, n(p[1].X), `" height="`, n(p[1].Y), `" `, s.style, `/>`)
	case circleShape:
		write(`<circle cx="`, n(p[0].X), `" cy="`, n(p[0].Y), `" r="`, n(p[1].X), `" `, s.style, `/>`)
	case polylineShape:
		write(`<polyline points="`, joined(p), `" `, s.style, `/>`)
	case polygonShape:
		write(`<polygon points="`, joined(p), `" `, s.style, `/>`)
	case textShape:
		write(`<text x="`, n(p[0].X), `" y="`, n(p[0].Y), `" font-size="`, n(s.size), `" text-anchor="`, s.anchor, `">`, escaped(s.words))
		if s.whole != "" {
			write(`<title>`, escaped(s.whole), `</title>`)
		}
		write(`</text>`)
	case uprightShape:
		write(`<text transform="translate(`, n(p[0].X), ` `, n(p[0].Y), `) rotate(-90)" font-size="`, n(s.size), `" text-anchor="middle">`, escaped(s.words), `</text>`)
	case clipShape:
		id := "clip" + strconv.Itoa(place)
		write(`<clipPath id="`, id, `"><rect x="`, n(p[0].X), `" y="`, n(p[0].Y), `" width="`, n(p[1].X), `" height="`, n(p[1].Y), `"/></clipPath>`,
			"\n", `<g clip-path="url(#`, id, `)">`)
	case clipEndShape:
		write(`</g>`)
	case toldShape:
		write(`<circle cx="`, n(p[0].X), `" cy="`, n(p[0].Y), `" r="1" fill="none" data-told="yes"><title>`, escaped(s.words), `</title></circle>`)
	}
}

func joined(points []Point) string {
	var b strings.Builder
	for i, p := range points {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(Coordinate(p.X))
		b.WriteByte(',')
		b.WriteString(Coordinate(p.Y))
	}
	return b.String()
}
