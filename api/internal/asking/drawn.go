package asking

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/drawing"
)

// DrawnOf asks for a drawing and checks that it is whole and has no colour.
func DrawnOf(t *testing.T, path, body string) string {
	t.Helper()
	r := Posting(path, body, "Accept", "image/svg+xml").Of(t, SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	text := r.Body.String()
	decoder := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := decoder.Token(); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
	}
	assert.Contains(t, text, "<title")
	assert.Contains(t, text, "<desc")
	assert.NotContains(t, text, "NaN")
	assert.NotContains(t, text, "Inf")
	for _, c := range colour.FindAllStringSubmatch(text, -1) {
		assert.True(t, grey(c[1]), c[1])
	}
	return text
}

// Shape is any element of a drawing.
type Shape struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Words   string     `xml:",chardata"`
	Inside  []Shape    `xml:",any"`
}

// Attr is an attribute; empty if there is none.
func (s *Shape) Attr(name string) string {
	for _, a := range s.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// Number is an attribute that must be a number.
func (s *Shape) Number(t testing.TB, name string) float64 {
	t.Helper()
	return NumberIn(t, s.Attr(name))
}

// All calls visit for the shape and what is inside it.
func (s *Shape) All(visit func(*Shape)) {
	visit(s)
	for i := range s.Inside {
		s.Inside[i].All(visit)
	}
}

// Box is the room that a text takes at most.
type Box struct {
	Words string
	drawing.Box
}

var turned = regexp.MustCompile(`^translate\(([-0-9.]+) ([-0-9.]+)\) rotate\(-90\)$`)

// BoxOf is the room that a text takes.
func BoxOf(t testing.TB, s *Shape) Box {
	t.Helper()
	size := s.Number(t, "font-size")
	if at := turned.FindStringSubmatch(s.Attr("transform")); at != nil {
		require.Equal(t, "middle", s.Attr("text-anchor"))
		return Box{s.Words, drawing.UprightBox(NumberIn(t, at[1]), NumberIn(t, at[2]), size, s.Words)}
	}
	require.Contains(t, []string{drawing.FromLeft, drawing.Centred, drawing.FromRight}, s.Attr("text-anchor"))
	return Box{s.Words, drawing.TextBox(s.Number(t, "x"), s.Number(t, "y"), size, s.Attr("text-anchor"), s.Words)}
}

// Meets says whether two boxes overlap.
func (b Box) Meets(other Box) bool { return b.Box.Meets(other.Box) }

// Drawn parses a drawing and requires that it is whole.
func Drawn(t testing.TB, text string) *Shape {
	t.Helper()
	var root Shape
	decoder := xml.NewDecoder(strings.NewReader(text))
	require.NoError(t, decoder.Decode(&root))
	_, err := decoder.Token()
	for err == nil { // only white space follows
		_, err = decoder.Token()
	}
	require.ErrorIs(t, err, io.EOF)
	require.Equal(t, "svg", root.XMLName.Local)
	require.Equal(t, "http://www.w3.org/2000/svg", root.XMLName.Space)
	return &root
}

// Number2 is an attribute as a number; 0 if it is none.
func (s *Shape) Number2(name string) float64 {
	v, err := strconv.ParseFloat(s.Attr(name), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// TextsOf are the texts of a drawing, a line each; texts that lie on each other or
// beyond the sheet are faults.
func TextsOf(t testing.TB, root *Shape) string {
	t.Helper()
	sheet := strings.Fields(root.Attr("viewBox"))
	var boxes []Box
	var words []string
	root.All(func(s *Shape) {
		if s.XMLName.Local == "text" {
			boxes = append(boxes, BoxOf(t, s))
			words = append(words, s.Words)
		}
	})
	for i, b := range boxes {
		assert.True(t, b.Left >= 0 && b.Top >= 0 && b.Right <= NumberIn(t, sheet[2]) && b.Bottom <= NumberIn(t, sheet[3]), "outside the sheet: %+v", b)
		for _, other := range boxes[:i] {
			assert.False(t, b.Meets(other), "%q lies on %q: %+v, %+v", b.Words, other.Words, b.Box, other.Box)
		}
	}
	return strings.Join(words, "\n")
}

// HeldToWidth holds a drawing for a screen to the width that was asked for: it is as wide as that,
// no text is smaller than can be read there, none lies on another, nothing stands out of the
// sheet, and it takes the colours of its page.
func HeldToWidth(t testing.TB, text string, width int) {
	t.Helper()
	root := Drawn(t, text)
	TextsOf(t, root)
	sheet := strings.Fields(root.Attr("viewBox"))
	wide, high := NumberIn(t, sheet[2]), NumberIn(t, sheet[3])
	assert.InDelta(t, width, root.Number(t, "width"), 0)
	assert.InDelta(t, 1, root.Number(t, "width")/wide, 0.01, "scaled")
	var look func(s *Shape)
	look = func(s *Shape) {
		if s.Attr("clip-path") != "" { // nothing of what is inside shows beyond it
			return
		}
		if s.XMLName.Local == "text" {
			assert.GreaterOrEqual(t, s.Number(t, "font-size"), drawing.LeastShown, s.Words)
		}
		for _, p := range pointsOf(t, s) {
			assert.True(t, p.X >= 0 && p.Y >= 0 && p.X <= wide && p.Y <= high, "%s beyond the sheet: %+v", s.XMLName.Local, p)
		}
		assert.NotEqual(t, "#000", s.Attr("stroke"))
		for i := range s.Inside {
			look(&s.Inside[i])
		}
	}
	look(root)
	assert.NotContains(t, text, "NaN")
	assert.NotContains(t, text, "Inf")
}

// pointsOf are the places that a line or a filling of a drawing reaches.
func pointsOf(t testing.TB, s *Shape) (all []drawing.Point) {
	t.Helper()
	number := func(name string) float64 { return s.Number(t, name) }
	switch s.XMLName.Local {
	case "line":
		return []drawing.Point{drawing.At(number("x1"), number("y1")), drawing.At(number("x2"), number("y2"))}
	case "circle":
		x, y, r := number("cx"), number("cy"), number("r")
		return []drawing.Point{drawing.At(x-r, y-r), drawing.At(x+r, y+r)}
	case "rect":
		if s.Attr("x") == "" { // the sheet
			return nil
		}
		x, y := number("x"), number("y")
		return []drawing.Point{drawing.At(x, y), drawing.At(x+number("width"), y+number("height"))}
	}
	for _, pair := range strings.Fields(s.Attr("points")) {
		x, y, _ := strings.Cut(pair, ",")
		all = append(all, drawing.At(NumberIn(t, x), NumberIn(t, y)))
	}
	return all
}

// ScreenWidths are those for which drawings are looked at: telephones, and a page beside a form.
var ScreenWidths = []int{320, 375, 800}

var colour = regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`)

// grey says whether a colour is black, white or grey, or that of the words of a page.
func grey(c string) bool {
	digits, hex := strings.CutPrefix(c, "#")
	return c == "none" || c == "currentColor" || hex && strings.Trim(digits, digits[:1]) == ""
}
