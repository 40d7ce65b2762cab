package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"strconv"
	"time"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/refuse"
	"latewood/woodphys/method"
)

// BatchRequest asks many questions at once.
type BatchRequest struct {
	Items []BatchItem `json:"items" validate:"required,min=1,max=1000,dive" description:"at most 20 of them for routes that simulate or search"`
}

// BatchItem is one question of a batch: what would be sent to its route alone.
type BatchItem struct {
	ID      string          `json:"id,omitempty" validate:"max=100" description:"your name for the item; it comes back with the answer. No two items of a document have the same; in a stream nobody looks"`
	Route   string          `json:"route" validate:"required,max=100" description:"path of any other calculation, such as /v1/movement"`
	Request json.RawMessage `json:"request" validate:"required" description:"the body that this route takes"`
}

// BatchResult is the answers in the order of the questions.
type BatchResult struct {
	Items    []BatchAnswer `json:"items" required:"true" nullable:"false" description:"in the order of the request"`
	Answered int           `json:"answered" required:"true" description:"items with an answer"`
	Refused  int           `json:"refused" required:"true" description:"items with a problem"`
}

// BatchAnswer is the answer to one question of a batch, or the problem with it.
type BatchAnswer struct {
	Line    int             `json:"line,omitempty" minimum:"1" description:"only in a stream: number of the line that is answered, from 1; blank lines are not answered, but counted"`
	ID      string          `json:"id,omitempty" description:"that the item was sent with"`
	Route   string          `json:"route" required:"true" description:"that the item was sent with; none where it names no calculation"`
	Status  int             `json:"status" required:"true" description:"200, or that of the problem"`
	Answer  *Answer[any]    `json:"answer,omitempty" description:"what the route alone would answer, pointers and all"`
	Problem *refuse.Problem `json:"problem,omitempty" description:"what the route alone would answer: its pointers lead from the request, as those of warnings do. With route none the item is no question, and they lead from the item (/route)"`
	End     bool            `json:"ended,omitempty" description:"only in a stream: the service ended it here, for the reason that the problem gives"`
}

// Batch answers POST /v1/batch.
func Batch(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		if isQuery(c) {
			// An item may be refused for want of time or room, and answered the next time.
			c.Response().Header().Set("Cache-Control", "no-store")
		}
		lines := isLines(c.Request())
		if err := inUTF8(c, LinesForm.Media); lines && err != nil {
			return err
		}
		if lines && !wantsDocument(c) {
			return d.stream(c)
		}
		body, err := d.readBatch(c, lines)
		if err != nil {
			return err
		}
		split := d.splitBatch
		if lines {
			split = d.itemsOfLines
		}
		items, err := split(body)
		if err != nil {
			return err
		}
		price := priceOfItems(len(items))
		if err := askedOf(c).who.charge(price-RequestCost, price); err != nil {
			return err
		}
		return d.answerBatch(c, items)
	}
}

// answerBatch answers items that were read, with one document or line by line.
func (d *Desk) answerBatch(c echo.Context, items []item) error {
	n := workers(len(items))
	var room held
	defer room.give()
	if !room.take(c.Request().Context(), d.stores.batches, roomFor(n), bytesPatience) {
		return noRoom("as many batches as fit are under way")
	}
	ctx, cancel := context.WithTimeout(c.Request().Context(), batchTime)
	defer cancel()
	b := d.newBatch(c)
	b.total, b.next = len(items), piecesOf(items)
	out := newOutlet(c, time.Now().Add(batchTime+WriteTimeout))
	if formOf(c) != nil {
		b.lines, b.send = true, out.sendLines
		out.begin(LinesForm.Media)
		_ = b.run(ctx, n) // whom it cannot be sent to cannot be told
		return nil
	}
	document := &document{outlet: out}
	document.text.WriteString(`{"result":{"items":[`)
	b.send = document.add
	if b.run(ctx, n) == nil {
		document.end(b)
	}
	return nil
}

// readBatch reads the whole body, of lines or of one document.
func (d *Desk) readBatch(c echo.Context, lines bool) ([]byte, error) {
	if !lines {
		return readBody(c)
	}
	return readWhole(c)
}

// priceOfItems is what n items cost together, heavy work apart.
func priceOfItems(n int) int { return (n + itemsPerUnit - 1) / itemsPerUnit }

// splitBatch finds the items of a batch, each as it stands, so that what is
// wrong in one does not reach the others. The error is a *refuse.Problem.
func (d *Desk) splitBatch(body []byte) ([]item, error) {
	items, whole := d.itemsOf(body)
	if !whole || len(items) == 0 || len(items) > mostItems {
		if _, err := decode.Body[BatchRequest](body); err != nil {
			return nil, err
		}
		return nil, refuse.Body(http.StatusBadRequest, "invalid_json", "the body is not a batch")
	}
	return items, d.checkItems(items)
}

// checkItems finds what is wrong with items together, and marks the heavy ones that are
// too many. The error is a *refuse.Problem.
func (d *Desk) checkItems(items []item) error {
	if twice := sameIDs(items); len(twice) > 0 {
		return refuse.Invalid(twice...)
	}
	heavy := 0
	for i := range items {
		if w := d.works[string(items[i].route)]; w != nil && w.heavy() {
			heavy++
			items[i].beyond = heavy > mostHeavyItems
		}
	}
	return nil
}

// sameIDs finds the items that have the id of an earlier one: answers that are
// sought by their id would be mistaken for each other.
func sameIDs(items []item) []refuse.FieldError {
	var twice []refuse.FieldError
	var first map[string]int
	for i := range items {
		id := items[i].id
		if items[i].odd {
			id = idIn(items[i].raw)
		}
		if len(id) <= len(`""`) { // none, or one that its item is refused for
			continue
		}
		if first == nil {
			first = make(map[string]int, len(items))
		}
		if before, known := first[string(id)]; known && len(twice) < refuse.Most {
			twice = append(twice, refuse.FieldError{Pointer: "/items/" + strconv.Itoa(i) + "/id", Code: string(method.Contradictory),
				Detail: "item " + strconv.Itoa(before) + " has this id too; give each an id of its own, or none"})
		} else if !known {
			first[string(id)] = i
		}
	}
	return twice
}

// itemsOf reads {"items": [...]}; anything else is not whole.
func (d *Desk) itemsOf(body []byte) (items []item, whole bool) {
	dec := jsontext.NewDecoder(bytes.NewBuffer(body), lenient)
	if !opens(dec, '{') || dec.PeekKind() != '"' {
		return nil, false
	}
	if name, err := dec.ReadToken(); err != nil || name.String() != "items" || !opens(dec, '[') {
		return nil, false
	}
	items = make([]item, 0, min(mostItems, len(body)/64+1))
	for dec.PeekKind() != ']' {
		if len(items) > mostItems {
			return items, true
		}
		one, err := readItem(dec, body)
		if err != nil {
			return nil, false
		}
		one.number = len(items)
		items = append(items, one)
	}
	if _, err := dec.ReadToken(); err != nil || dec.PeekKind() != '}' {
		return nil, false
	}
	if _, err := dec.ReadToken(); err != nil {
		return nil, false
	}
	return items, len(bytes.TrimLeft(body[dec.InputOffset():], " \t\r\n")) == 0
}

func opens(dec *jsontext.Decoder, kind jsontext.Kind) bool {
	if dec.PeekKind() != kind {
		return false
	}
	_, err := dec.ReadToken()
	return err == nil
}
