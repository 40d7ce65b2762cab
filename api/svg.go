package api

import (
	"encoding/xml"
	"strings"

	"latewood/woodphys/quantity"
)

// drawing collects the elements of an SVG. Everything is drawn in black and
// grey with its own dash or hatch, so that a print without colour loses
// nothing.
type drawing struct {
	width, height float64 // of the view box, in its own units
	size          string  // width and height attributes, such as `width="760" height="420"`
	body          strings.Builder
	title, about  string // for readers who cannot see it
}

// Ways to draw a line.
const (
	thin   = `stroke="#000" stroke-width="0.8" fill="none"`
	faint  = `stroke="#999" stroke-width="0.5" fill="none"`
	thick  = `stroke="#000" stroke-width="2" fill="none" stroke-linejoin="round"`
	dashed = `stroke="#000" stroke-width="1.1" fill="none" stroke-dasharray="7 3"`
	dotted = `stroke="#000" stroke-width="1.3" fill="none" stroke-dasharray="1.5 2.5" stroke-linecap="round"`
	goal   = `stroke="#000" stroke-width="1" fill="none" stroke-dasharray="12 3 2 3"`
	band   = `fill="#ddd" stroke="none"`
)

func coordinate(v float64) string { return quantity.FormatNumber(v, 2) }

func (d *drawing) element(parts ...string) {
	for _, p := range parts {
		d.body.WriteString(p)
	}
	d.body.WriteByte('\n')
}

func (d *drawing) line(x1, y1, x2, y2 float64, style string) {
	d.element(`<line x1="`, coordinate(x1), `" y1="`, coordinate(y1), `" x2="`, coordinate(x2), `" y2="`, coordinate(y2), `" `, style, `/>`)
}

func (d *drawing) rectangle(x, y, w, h float64, style string) {
	d.element(`<rect x="`, coordinate(x), `" y="`, coordinate(y), `" width="`, coordinate(w), `" height="`, coordinate(h), `" `, style, `/>`)
}

// point is a place on a drawing.
type point struct{ x, y float64 }

func (d *drawing) polyline(points []point, style string) {
	d.element(`<polyline points="`, joined(points), `" `, style, `/>`)
}

func (d *drawing) polygon(points []point, style string) {
	d.element(`<polygon points="`, joined(points), `" `, style, `/>`)
}

func joined(points []point) string {
	var b strings.Builder
	for i, p := range points {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(coordinate(p.x))
		b.WriteByte(',')
		b.WriteString(coordinate(p.y))
	}
	return b.String()
}

// Ways to set a text about its point.
const (
	fromLeft  = "start"
	centred   = "middle"
	fromRight = "end"
)

// text writes a line with its baseline at y.
func (d *drawing) text(x, y, size float64, anchor, words string) {
	d.element(`<text x="`, coordinate(x), `" y="`, coordinate(y), `" font-size="`, coordinate(size), `" text-anchor="`, anchor, `">`, escaped(words), `</text>`)
}

// upright writes a line that reads from bottom to top, centred on its point.
func (d *drawing) upright(x, y, size float64, words string) {
	d.element(`<text transform="translate(`, coordinate(x), ` `, coordinate(y), `) rotate(-90)" font-size="`, coordinate(size), `" text-anchor="middle">`, escaped(words), `</text>`)
}

func escaped(words string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(words)); err != nil {
		return ""
	}
	return b.String()
}

// bytes returns the document.
func (d *drawing) bytes() []byte {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" ` + d.size + ` viewBox="0 0 ` + coordinate(d.width) + ` ` + coordinate(d.height) +
		`" font-family="Georgia, 'DejaVu Serif', serif" role="img" aria-labelledby="title about">` + "\n")
	b.WriteString(`<title id="title">` + escaped(d.title) + `</title>` + "\n" + `<desc id="about">` + escaped(d.about) + `</desc>` + "\n")
	b.WriteString(`<rect width="` + coordinate(d.width) + `" height="` + coordinate(d.height) + `" fill="#fff"/>` + "\n")
	b.WriteString(d.body.String())
	b.WriteString("</svg>\n")
	return []byte(b.String())
}
