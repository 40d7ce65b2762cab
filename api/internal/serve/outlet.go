package serve

import (
	"bytes"
	"errors"
	"net/http"
	"slices"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"
)

// outlet sends an answer piece by piece. Each has to be taken within a while, and all of
// them before the end.
type outlet struct {
	response *echo.Response
	control  *http.ResponseController
	until    time.Time
	began    bool
}

func newOutlet(c echo.Context, until time.Time) *outlet {
	return &outlet{response: c.Response(), control: http.NewResponseController(c.Response().Writer), until: until}
}

// begin sends the headers.
func (o *outlet) begin(media string) {
	o.began = true
	o.response.Header().Set(echo.HeaderContentType, media)
	if media == LinesForm.Media {
		o.response.Header().Set("Cache-Control", "no-store")
	}
	o.response.WriteHeader(http.StatusOK)
}

// write sends a part.
func (o *outlet) write(text []byte) error {
	deadline := time.Now().Add(streamPause)
	if deadline.After(o.until) {
		deadline = o.until
	}
	_ = o.control.SetWriteDeadline(deadline) // outside a server there are none
	_, err := o.response.Write(text)
	return err
}

// sendLines sends lines at once, not only when there are many.
func (o *outlet) sendLines(text []byte) error {
	if err := o.write(text); err != nil {
		return err
	}
	return o.flush()
}

func (o *outlet) flush() error {
	if err := o.control.Flush(); !errors.Is(err, http.ErrNotSupported) {
		return err
	}
	return nil
}

// document is one JSON document of answers. A short one is sent whole, with its length; of
// a long one only the last part is kept.
type document struct {
	*outlet
	text bytes.Buffer
}

// add adds text to the document.
func (d *document) add(text []byte) error {
	d.text.Write(text)
	if d.text.Len() < pieceText {
		return nil
	}
	return d.spill()
}

func (d *document) spill() error {
	if !d.began {
		d.begin(echo.MIMEApplicationJSON)
	}
	err := d.write(d.text.Bytes())
	if d.text.Reset(); d.text.Cap() > 2*pieceText {
		d.text = bytes.Buffer{}
	}
	return err
}

// end ends the document with what is told of all its items.
func (d *document) end(b *batching) {
	slices.Sort(b.basis)
	tail := []byte(`],"answered":` + strconv.Itoa(b.answered) + `,"refused":` + strconv.Itoa(b.refused) + `},"basis":[`)
	for i, id := range b.basis {
		if i > 0 {
			tail = append(tail, ',')
		}
		tail = strconv.AppendQuote(tail, id) // ids of methods are plain
	}
	tail = append(tail, `],"warnings":[],"data_version":`+strconv.Quote(b.desk.tables.Version)+"}\n"...)
	d.text.Write(tail)
	if !d.began {
		d.response.Header().Set(echo.HeaderContentLength, strconv.Itoa(d.text.Len()))
	}
	_ = d.spill() // whom it cannot be sent to cannot be told
}
