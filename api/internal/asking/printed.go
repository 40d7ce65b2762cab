package asking

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// PrintedPage is a page of a PDF, in points from its lower left corner.
type PrintedPage struct {
	Width, Height float64
	Words         []string
	Filled        [][4]float64 // rectangles: left, bottom (or top, with a height below nothing), width, height
	Lines         [][4]float64 // from, to
}

var (
	mediaBox   = regexp.MustCompile(`/MediaBox \[([-\d. ]+)\]`)
	pageStream = regexp.MustCompile(`(?s)/Type /Page\b.*?/Contents (\d+) 0 R`)
	filledBox  = regexp.MustCompile(`([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) re f`)
	pdfLine    = regexp.MustCompile(`([-\d.]+) ([-\d.]+) m ([-\d.]+) ([-\d.]+) l S`)
	pdfText    = regexp.MustCompile(`(?s)Td \((.*?[^\\]|)\) Tj`)
)

// Printed reads the pages of a PDF as this service writes it: what is on them in plain
// words, boxes and lines.
func Printed(t testing.TB, text []byte) []PrintedPage {
	t.Helper()
	require.True(t, bytes.HasPrefix(text, []byte("%PDF-")))
	require.Contains(t, string(text[len(text)-20:]), "%%EOF")
	all := mediaBox.FindSubmatch(text)
	require.NotNil(t, all)
	var pages []PrintedPage
	for _, of := range pageStream.FindAllSubmatch(text, -1) {
		page := PrintedPage{}
		box := numbers(t, strings.Fields(string(all[1])))
		page.Width, page.Height = box[2], box[3]
		content := streamOf(t, text, string(of[1]))
		for _, m := range pdfText.FindAllStringSubmatch(content, -1) {
			page.Words = append(page.Words, unescaped(m[1]))
		}
		for _, m := range filledBox.FindAllStringSubmatch(content, -1) {
			page.Filled = append(page.Filled, [4]float64(numbers(t, m[1:])))
		}
		for _, m := range pdfLine.FindAllStringSubmatch(content, -1) {
			page.Lines = append(page.Lines, [4]float64(numbers(t, m[1:])))
		}
		pages = append(pages, page)
	}
	return pages
}

func numbers(t testing.TB, texts []string) []float64 {
	t.Helper()
	var out []float64
	for _, one := range texts {
		out = append(out, NumberIn(t, one))
	}
	return out
}

// streamOf is the stream of an object, unpacked.
func streamOf(t testing.TB, text []byte, object string) string {
	t.Helper()
	start := bytes.Index(text, []byte("\n"+object+" 0 obj"))
	require.Positive(t, start)
	rest := text[start:]
	size := regexp.MustCompile(`/Length (\d+)`).FindSubmatch(rest)
	require.NotNil(t, size)
	n, err := strconv.Atoi(string(size[1]))
	require.NoError(t, err)
	from := bytes.Index(rest, []byte("stream\n")) + len("stream\n")
	unpacked, err := zlib.NewReader(bytes.NewReader(rest[from : from+n]))
	require.NoError(t, err)
	content, err := io.ReadAll(unpacked)
	require.NoError(t, err)
	return string(content)
}

// unescaped reads a string of UTF-16, as it stands between brackets.
func unescaped(s string) string {
	s = strings.NewReplacer(`\\`, `\`, `\(`, `(`, `\)`, `)`, `\r`, "\r").Replace(s)
	var units []uint16
	for i := 0; i+1 < len(s); i += 2 {
		units = append(units, uint16(s[i])<<8|uint16(s[i+1]))
	}
	return string(utf16.Decode(units))
}
