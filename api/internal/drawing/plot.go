package drawing

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
)

// Plot is a drawing for machines that cut, written as DXF in its oldest common form (the
// group codes of release 12, ASCII): lines, circles and texts on named layers. x runs to
// the right and y up. The form has no field for the unit, so a remark and a text tell it.
type Plot struct {
	Unit   string // "mm" or "in"
	layers []string
	body   bytes.Buffer
	low    Point
	high   Point
}

// plotDecimals is how finely places are written: millionths of an inch or of a millimetre.
const plotDecimals = 6

// layer notes a layer by its first use.
func (p *Plot) layer(name string) {
	for _, l := range p.layers {
		if l == name {
			return
		}
	}
	p.layers = append(p.layers, name)
}

// reach widens the corners of the drawing.
func (p *Plot) reach(points ...Point) {
	for _, q := range points {
		if p.body.Len() == 0 && p.low == p.high {
			p.low, p.high = q, q
		}
		p.low = At(math.Min(p.low.X, q.X), math.Min(p.low.Y, q.Y))
		p.high = At(math.Max(p.high.X, q.X), math.Max(p.high.Y, q.Y))
	}
}

// Line adds a line.
func (p *Plot) Line(layer string, a, b Point) {
	p.layer(layer)
	p.reach(a, b)
	p.entity("LINE", layer)
	group(&p.body, 10, at(a.X))
	group(&p.body, 20, at(a.Y))
	group(&p.body, 11, at(b.X))
	group(&p.body, 21, at(b.Y))
}

// Outline adds the lines of a closed figure.
func (p *Plot) Outline(layer string, points ...Point) {
	for i := range points {
		p.Line(layer, points[i], points[(i+1)%len(points)])
	}
}

// Circle adds a circle.
func (p *Plot) Circle(layer string, middle Point, radius float64) {
	p.layer(layer)
	p.reach(middle)
	p.entity("CIRCLE", layer)
	group(&p.body, 10, at(middle.X))
	group(&p.body, 20, at(middle.Y))
	group(&p.body, 40, at(radius))
}

// Text adds words that begin at a place. The form is ASCII: other letters become question
// marks.
func (p *Plot) Text(layer string, from Point, height float64, words string) {
	p.layer(layer)
	p.reach(from)
	p.entity("TEXT", layer)
	group(&p.body, 10, at(from.X))
	group(&p.body, 20, at(from.Y))
	group(&p.body, 40, at(height))
	group(&p.body, 1, asciiOnly(words))
}

func (p *Plot) entity(kind, layer string) {
	group(&p.body, 0, kind)
	group(&p.body, 8, layer)
}

// DXF returns the document.
func (p *Plot) DXF() []byte {
	var b bytes.Buffer
	group(&b, 999, "unit: "+p.Unit)
	group(&b, 0, "SECTION")
	group(&b, 2, "HEADER")
	group(&b, 9, "$ACADVER")
	group(&b, 1, "AC1009")
	for _, corner := range []struct {
		name string
		at   Point
	}{{"$EXTMIN", p.low}, {"$EXTMAX", p.high}} {
		group(&b, 9, corner.name)
		group(&b, 10, at(corner.at.X))
		group(&b, 20, at(corner.at.Y))
	}
	group(&b, 0, "ENDSEC")
	group(&b, 0, "SECTION")
	group(&b, 2, "TABLES")
	group(&b, 0, "TABLE")
	group(&b, 2, "LAYER")
	group(&b, 70, strconv.Itoa(len(p.layers)))
	for _, name := range p.layers {
		group(&b, 0, "LAYER")
		group(&b, 2, name)
		group(&b, 70, "0")
		group(&b, 62, "7") // black on white, white on black
		group(&b, 6, "CONTINUOUS")
	}
	group(&b, 0, "ENDTAB")
	group(&b, 0, "ENDSEC")
	group(&b, 0, "SECTION")
	group(&b, 2, "ENTITIES")
	b.Write(p.body.Bytes())
	group(&b, 0, "ENDSEC")
	group(&b, 0, "EOF")
	return b.Bytes()
}

// group writes a group: its code and its value on a line each.
func group(b *bytes.Buffer, code int, value string) {
	b.WriteString(strconv.Itoa(code))
	b.WriteString("\r\n")
	b.WriteString(value)
	b.WriteString("\r\n")
}

// at writes a number, with a point as the form wants it.
func at(v float64) string {
	text := quantity.FormatNumber(v, plotDecimals)
	if !strings.Contains(text, ".") {
		text += ".0"
	}
	return text
}

func asciiOnly(words string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, words)
}
