package drawing

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/goregular"
)

// face is the type face of printed pages: it goes with the document, so that names in
// Latin, Greek and Cyrillic letters come out anywhere.
const face = "sheet"

// onePoint is a point of type in millimetres (1/72 in).
const onePoint = 25.4 / 72

// printed writes pages as a PDF. The same pages give the same bytes.
func printed(title string, paper Paper, pages []page) ([]byte, error) {
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm",
		Size: fpdf.SizeType{Wd: paper.Width, Ht: paper.Height}})
	f.SetCatalogSort(true)
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	f.SetTitle(printable(title), true)
	f.SetProducer("latewood", true)
	f.SetLang("en")
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.AddUTF8FontFromBytes(face, "", goregular.TTF)
	for i := range pages {
		p := &pages[i]
		f.AddPage()
		f.ClipRect(p.at.X, p.at.Y, p.scale*(p.to.X-p.from.X), p.scale*(p.to.Y-p.from.Y), false)
		pen := &pdfPen{f, p.scale, At(p.at.X-p.scale*p.from.X, p.at.Y-p.scale*p.from.Y)}
		for n := range p.sheet.shapes {
			if s := &p.sheet.shapes[n]; s.meets(p.from, p.to) {
				pen.draw(s)
			}
		}
		f.ClipEnd()
		if p.marks == nil {
			continue
		}
		pen = &pdfPen{f, 1, At(0, 0)}
		for n := range p.marks.shapes {
			pen.draw(&p.marks.shapes[n])
		}
	}
	var out bytes.Buffer
	if err := f.Output(&out); err != nil {
		return nil, fmt.Errorf("writing a PDF: %w", err)
	}
	return out.Bytes(), nil
}

// meets reports whether a shape may show in a window: clips are taken on trust, and texts as
// wide as they may come out to either side.
func (s *shape) meets(from, to Point) bool {
	reach := func(low, high Point) bool {
		return high.X >= from.X && low.X <= to.X && high.Y >= from.Y && low.Y <= to.Y
	}
	switch p := s.points; s.kind {
	case clipShape, clipEndShape:
		return true
	case textShape, uprightShape:
		wide := TextWidth(s.words, s.size)
		return reach(At(p[0].X-wide, p[0].Y-wide-s.size), At(p[0].X+wide, p[0].Y+wide+s.size))
	case circleShape:
		r := p[1].X
		return reach(At(p[0].X-r, p[0].Y-r), At(p[0].X+r, p[0].Y+r))
	case rectangleShape:
		return reach(p[0], At(p[0].X+p[1].X, p[0].Y+p[1].Y))
	default:
		low, high := p[0], p[0]
		for _, q := range p {
			low, high = At(math.Min(low.X, q.X), math.Min(low.Y, q.Y)), At(math.Max(high.X, q.X), math.Max(high.Y, q.Y))
		}
		return reach(low, high)
	}
}

// pdfPen draws shapes on a page.
type pdfPen struct {
	f     *fpdf.Fpdf
	scale float64
	shift Point
}

func (p *pdfPen) at(q Point) (x, y float64) { return p.shift.X + p.scale*q.X, p.shift.Y + p.scale*q.Y }

func (p *pdfPen) draw(s *shape) {
	how := p.take(s.style)
	if s.style != "" && how == "" {
		return
	}
	switch q := s.points; s.kind {
	case lineShape:
		x1, y1 := p.at(q[0])
		x2, y2 := p.at(q[1])
		p.f.Line(x1, y1, x2, y2)
	case rectangleShape:
		x, y := p.at(q[0])
		p.f.Rect(x, y, p.scale*q[1].X, p.scale*q[1].Y, how)
	case circleShape:
		x, y := p.at(q[0])
		p.f.Circle(x, y, p.scale*q[1].X, how)
	case polylineShape, polygonShape:
		p.path(q, s.kind == polygonShape, how)
	case textShape:
		p.text(s)
	case uprightShape:
		x, y := p.at(q[0])
		p.f.TransformBegin()
		p.f.TransformRotate(90, x, y)
		p.text(&shape{points: q, size: s.size, anchor: Centred, words: s.words})
		p.f.TransformEnd()
	case clipShape:
		x, y := p.at(q[0])
		p.f.ClipRect(x, y, p.scale*q[1].X, p.scale*q[1].Y, false)
	case toldShape: // nobody points at paper
	case clipEndShape:
		p.f.ClipEnd()
	}
}

func (p *pdfPen) path(points []Point, closed bool, how string) {
	for i, q := range points {
		x, y := p.at(q)
		if i == 0 {
			p.f.MoveTo(x, y)
		} else {
			p.f.LineTo(x, y)
		}
	}
	if closed {
		p.f.ClosePath()
	}
	p.f.DrawPath(how)
}

func (p *pdfPen) text(s *shape) {
	words := printable(s.words)
	p.f.SetFont(face, "", p.scale*s.size/onePoint)
	x, y := p.at(s.points[0])
	switch s.anchor {
	case Centred:
		x -= p.f.GetStringWidth(words) / 2
	case FromRight:
		x -= p.f.GetStringWidth(words)
	}
	p.f.Text(x, y, words)
}

// printable puts a question mark in place of what the face has no way to write: letters
// beyond the first plane, and what is no letter at all.
func printable(words string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF || r == unicode.ReplacementChar || unicode.IsControl(r) {
			return '?'
		}
		return r
	}, words)
}

// style is how a shape is drawn, as its attributes say.
type style struct {
	stroke, fill int // grey 0 to 255; -1 for none
	width        float64
	dash         string
}

// take sets a style and says what is drawn of a shape: its line (D), its inside (F), both,
// or nothing.
func (p *pdfPen) take(attributes string) string {
	if attributes == "" {
		return ""
	}
	s := styleOf(attributes)
	how := ""
	if s.fill >= 0 {
		p.f.SetFillColor(s.fill, s.fill, s.fill)
		how = "F"
	}
	if s.stroke < 0 {
		return how
	}
	p.f.SetDrawColor(s.stroke, s.stroke, s.stroke)
	p.f.SetLineWidth(p.scale * s.width)
	var dashes []float64
	for _, d := range strings.Fields(s.dash) {
		v, err := strconv.ParseFloat(d, 64)
		if err == nil {
			dashes = append(dashes, p.scale*v)
		}
	}
	p.f.SetDashPattern(dashes, 0)
	return how + "D"
}

// styleOf reads the attributes of a shape. Fillings are black where none is named, as in
// SVG.
func styleOf(attributes string) style {
	s := style{stroke: -1, width: 1}
	for rest := attributes; rest != ""; {
		name, after, found := strings.Cut(rest, `="`)
		value, next, ended := strings.Cut(after, `"`)
		if !found || !ended {
			break
		}
		rest = next
		switch strings.TrimSpace(name) {
		case "stroke":
			s.stroke = greyOf(value)
		case "fill":
			s.fill = greyOf(value)
		case "stroke-width":
			if v, err := strconv.ParseFloat(value, 64); err == nil {
				s.width = v
			}
		case "stroke-dasharray":
			s.dash = value
		}
	}
	return s
}

// greyOf reads a grey of three equal digits, such as #999; -1 for none.
func greyOf(value string) int {
	if len(value) != 4 || value[0] != '#' {
		return -1
	}
	v, err := strconv.ParseUint(value[1:2], 16, 8)
	if err != nil {
		return -1
	}
	return int(17 * v)
}
