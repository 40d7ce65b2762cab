package drawing

import (
	"encoding/xml"
	"strings"

	"latewood/woodphys/quantity"
)

// Sheet collects the elements of an SVG. Everything is drawn in black and
// grey with its own dash or hatch, so that a print without colour loses
// nothing.
type Sheet struct {
	Width, Height float64 // of the view box, in its own units
	Size          string  // width and height attributes, such as `width="760" height="420"`
	body          strings.Builder
	Title, About  string // for readers who cannot see it
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

// Element adds an element in its parts.
func (d *Sheet) Element(parts ...string) {
	for _, p := range parts {
		d.body.WriteString(p)
	}
	d.body.WriteByte('\n')
}

// Line adds a line.
func (d *Sheet) Line(x1, y1, x2, y2 float64, style string) {
	d.Element(`<line x1="`, Coordinate(x1), `" y1="`, Coordinate(y1), `" x2="`, Coordinate(x2), `" y2="`, Coordinate(y2), `" `, style, `/>`)
}

// Rectangle adds a rectangle by its upper left corner and its size.
func (d *Sheet) Rectangle(x, y, w, h float64, style string) {
	d.Element(`<rect x="`, Coordinate(x), `" y="`, Coordinate(y), `" width="`, Coordinate(w), `" height="`, Coordinate(h), `" `, style, `/>`)
}

// Point is a place on a drawing.
type Point struct{ X, Y float64 }

// At is the point at x and y.
func At(x, y float64) Point { return Point{x, y} }

// Polyline adds a line through points.
func (d *Sheet) Polyline(points []Point, style string) {
	d.Element(`<polyline points="`, joined(points), `" `, style, `/>`)
}

// Polygon adds a closed line through points.
func (d *Sheet) Polygon(points []Point, style string) {
	d.Element(`<polygon points="`, joined(points), `" `, style, `/>`)
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

// Ways to set a text about its point.
const (
	FromLeft  = "start"
	Centred   = "middle"
	FromRight = "end"
)

// Text writes a line with its baseline at y.
func (d *Sheet) Text(x, y, size float64, anchor, words string) {
	d.Element(`<text x="`, Coordinate(x), `" y="`, Coordinate(y), `" font-size="`, Coordinate(size), `" text-anchor="`, anchor, `">`, escaped(words), `</text>`)
}

// Upright writes a line that reads from bottom to top, centred on its point.
func (d *Sheet) Upright(x, y, size float64, words string) {
	d.Element(`<text transform="translate(`, Coordinate(x), ` `, Coordinate(y), `) rotate(-90)" font-size="`, Coordinate(size), `" text-anchor="middle">`, escaped(words), `</text>`)
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
	b.WriteString(d.body.String())
	b.WriteString("</svg>\n")
	return []byte(b.String())
}
