package api

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
)

// drawnOf asks for a drawing and checks that it is whole and has no colour.
func drawnOf(t *testing.T, path, body string) string {
	t.Helper()
	r := posting(path, body, "Accept", "image/svg+xml").of(t, sharedService())
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

// shape is any element of a drawing.
type shape struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Words   string     `xml:",chardata"`
	Inside  []shape    `xml:",any"`
}

func (s *shape) attr(name string) string {
	for _, a := range s.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (s *shape) number(t testing.TB, name string) float64 {
	t.Helper()
	return numberIn(t, s.attr(name))
}

// all calls visit for the shape and what is inside it.
func (s *shape) all(visit func(*shape)) {
	visit(s)
	for i := range s.Inside {
		s.Inside[i].all(visit)
	}
}

// box is the room that a text takes at most.
type box struct {
	words                    string
	left, top, right, bottom float64
}

var turned = regexp.MustCompile(`^translate\(([-0-9.]+) ([-0-9.]+)\) rotate\(-90\)$`)

func boxOf(t testing.TB, s *shape) box {
	t.Helper()
	size := s.number(t, "font-size")
	width := textWidth(s.Words, size)
	const above, below = 0.8, 0.22 // of the size: capitals and descenders of the usual serif faces
	if at := turned.FindStringSubmatch(s.attr("transform")); at != nil {
		x, y := numberIn(t, at[1]), numberIn(t, at[2])
		require.Equal(t, "middle", s.attr("text-anchor"))
		return box{s.Words, x - above*size, y - width/2, x + below*size, y + width/2}
	}
	x, y := s.number(t, "x"), s.number(t, "y")
	switch s.attr("text-anchor") {
	case "middle":
		x -= width / 2
	case "end":
		x -= width
	default:
		require.Equal(t, "start", s.attr("text-anchor"))
	}
	return box{s.Words, x, y - above*size, x + width, y + below*size}
}

func (b box) meets(other box) bool {
	return b.left < other.right && other.left < b.right && b.top < other.bottom && other.top < b.bottom
}

// drawn parses a drawing and requires that it is whole.
func drawn(t testing.TB, text string) *shape {
	t.Helper()
	var root shape
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

func (s *shape) number2(name string) float64 {
	v, err := strconv.ParseFloat(s.attr(name), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// textsOf are the texts of a drawing, a line each; texts that lie on each other or
// beyond the sheet are faults.
func textsOf(t testing.TB, root *shape) string {
	t.Helper()
	sheet := strings.Fields(root.attr("viewBox"))
	var boxes []box
	var words []string
	root.all(func(s *shape) {
		if s.XMLName.Local == "text" {
			boxes = append(boxes, boxOf(t, s))
			words = append(words, s.Words)
		}
	})
	for i, b := range boxes {
		assert.True(t, b.left >= 0 && b.top >= 0 && b.right <= numberIn(t, sheet[2]) && b.bottom <= numberIn(t, sheet[3]), "outside the sheet: %+v", b)
		for _, other := range boxes[:i] {
			assert.False(t, b.meets(other), "%q lies on %q", b.words, other.words)
		}
	}
	return strings.Join(words, "\n")
}

var colour = regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`)

// grey says whether a colour is black, white or grey.
func grey(c string) bool {
	digits, hex := strings.CutPrefix(c, "#")
	return c == "none" || hex && strings.Trim(digits, digits[:1]) == ""
}
