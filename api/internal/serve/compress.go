package serve

import (
	"bytes"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"github.com/klauspost/compress/gzip"
	"github.com/labstack/echo/v4"
)

// Answers that are sent compressed to those who want it. Own choice: shorter ones are
// not worth the time.
const (
	leastZipped = 1 << 10
	mostZippers = 4 // at work at a time; each holds some 0.5 MB. Whoever finds none sends the answer as it is
)

// zippers are those that are free; nil: not made yet.
var zippers = func() chan *gzip.Writer {
	free := make(chan *gzip.Writer, mostZippers)
	for range mostZippers {
		free <- nil
	}
	return free
}()

var zipped = sync.Pool{New: func() any { return new(bytes.Buffer) }}

const gzipCoding = "gzip"

// wantsZip reports whether an answer of so many bytes is to be sent compressed.
func wantsZip(c echo.Context, length int) bool {
	accept := c.Request().Header.Get(echo.HeaderAcceptEncoding)
	return length > leastZipped && accept != "" && accepts(accept, gzipCoding)
}

// accepts reports whether an Accept-Encoding header names a coding, or all, with a weight
// above 0 (RFC 9110, 12.5.3).
func accepts(header, coding string) bool {
	all := false
	for one := range strings.SplitSeq(header, ",") {
		name, parameters, _ := strings.Cut(one, ";")
		name = strings.TrimSpace(name)
		named := strings.EqualFold(name, coding)
		if !named && name != "*" {
			continue
		}
		weight := 1.0
		if q, is := strings.CutPrefix(strings.TrimSpace(parameters), "q="); is {
			weight, _ = strconv.ParseFloat(q, 64) // what is no number is none
		}
		if named {
			return weight > 0
		}
		all = weight > 0
	}
	return all
}

// withZip hands text to send: compressed, where the caller wants that and one of the
// zippers is free.
func withZip(c echo.Context, text []byte, send func([]byte) error) error {
	if !wantsZip(c, len(text)) {
		return send(text)
	}
	select {
	case z := <-zippers:
		out, ok := zipped.Get().(*bytes.Buffer)
		if !ok {
			out = new(bytes.Buffer)
		}
		defer zipped.Put(out) // a tenth of an answer, which is bounded
		out.Reset()
		z, err := zip(z, out, text)
		zippers <- z
		if err != nil {
			return err
		}
		c.Response().Header()[echo.HeaderContentEncoding] = gzipEncoding
		return send(out.Bytes())
	default:
		unzippedTag(c)
		return send(text)
	}
}

var gzipEncoding = []string{gzipCoding}

// zip compresses text with a writer, which is made if there is none.
func zip(z *gzip.Writer, out *bytes.Buffer, text []byte) (*gzip.Writer, error) {
	if z == nil {
		made, err := gzip.NewWriterLevel(out, gzip.BestSpeed)
		if err != nil {
			return nil, err
		}
		z = made
	} else {
		z.Reset(out)
	}
	if _, err := z.Write(text); err != nil {
		return z, err
	}
	return z, z.Close()
}

// tagEnd tells the tag of compressed bytes from that of the same as they are: a strong
// tag is one of the bytes that are sent (RFC 9110, 8.8.3.3).
const tagEnd = `-gzip"`

// tagFor is the tag of an answer as this caller gets it.
func tagFor(c echo.Context, tag string, length int) string {
	if wantsZip(c, length) {
		return strings.TrimSuffix(tag, `"`) + tagEnd
	}
	return tag
}

// unzippedTag takes the mark of compression off the tag of an answer that is sent as it is.
func unzippedTag(c echo.Context) {
	header := c.Response().Header()
	if tag, is := strings.CutSuffix(header.Get("ETag"), tagEnd); is {
		header.Set("ETag", tag+`"`)
	}
}

// prepared is what is sent as it is, again and again, with its tag and its compressed
// form.
type prepared struct {
	media, tag string
	text       []byte
	zipped     []byte // nil where it would be no shorter
}

func prepare(media string, text []byte) (*prepared, error) {
	p := &prepared{media: media, text: text, tag: tagOf(text)}
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err == nil {
		_, err = z.Write(text)
	}
	if err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	if out.Len() < len(text) && len(text) > leastZipped {
		p.zipped = bytes.Clone(out.Bytes())
	}
	return p, nil
}

// send answers with a prepared copy, or with 304 whoever has it.
func (p *prepared) send(c echo.Context) error {
	text := p.text
	if notModified(c, p.tag, len(p.text)) {
		return c.NoContent(http.StatusNotModified)
	}
	if p.zipped != nil && wantsZip(c, len(text)) {
		text = p.zipped
		c.Response().Header()[echo.HeaderContentEncoding] = gzipEncoding
	} else {
		unzippedTag(c)
	}
	return sendRaw(c, p.media, text)
}
