package client

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"iter"
	"net/http"
)

// Item is one question of a batch.
type Item struct {
	ID      string `json:"id,omitempty"`
	Route   string `json:"route"`
	Request any    `json:"request"`
}

// ItemAnswer is the answer to an item, or the problem with it.
type ItemAnswer struct {
	Line    int             `json:"line"` // which of the items, from 1, also where they were sent again
	ID      string          `json:"id"`
	Route   string          `json:"route"`
	Status  int             `json:"status"`
	Answer  json.RawMessage `json:"answer"`
	Problem *Problem        `json:"problem"`
	Ended   bool            `json:"ended"`
}

// As reads the answer of an item: As[MovementResult](item).
func As[T any](item ItemAnswer) (answer Answer[T], err error) {
	if item.Problem != nil {
		return answer, item.Problem
	}
	answer.Raw = item.Answer
	return answer, json.Unmarshal(item.Answer, &answer)
}

// Stream asks many items, a line each, and yields an answer to each, in their order, as they
// are ready. Where a stream breaks off or the service ends it, what was not answered is sent
// again; an error is the last that is yielded.
func (c *Client) Stream(ctx context.Context, items []Item, options ...Option) iter.Seq2[ItemAnswer, error] {
	all := c.call(options)
	all.header.Set("Content-Type", "application/x-ndjson")
	return func(yield func(ItemAnswer, error) bool) {
		lines := make([][]byte, len(items))
		for i := range items {
			var err error
			if lines[i], err = json.Marshal(items[i]); err != nil {
				yield(ItemAnswer{}, err)
				return
			}
		}
		for from, tried := 0, 0; from < len(items); tried++ {
			answered, reply, err := c.stream(ctx, lines[from:], all, func(one ItemAnswer, err error) bool { //nolint:bodyclose // closed where it is read
				one.Line += from
				return yield(one, err)
			})
			if err == nil {
				return
			}
			if from += answered; answered > 0 {
				tried = 0
			}
			if !all.again(ctx, reply, tried) {
				yield(ItemAnswer{}, err)
				return
			}
		}
	}
}

// stream is one stream: how many items were answered, and the reply, nil if it broke off.
// There is no error when all are answered or the caller wants no more.
func (c *Client) stream(ctx context.Context, items [][]byte, all *call, yield func(ItemAnswer, error) bool) (answered int, reply *http.Response, err error) {
	reply, err = c.send(ctx, all.method, "/v1/batch", bytes.NewReader(bytes.Join(items, []byte("\n"))), all)
	if err != nil {
		return 0, nil, err
	}
	defer reply.Body.Close() //nolint:errcheck // only read from
	if reply.StatusCode != http.StatusOK {
		text, _ := io.ReadAll(reply.Body)
		return 0, reply, problemOf(reply.StatusCode, text)
	}
	for lines := json.NewDecoder(reply.Body); answered < len(items); answered++ {
		var one ItemAnswer
		if err := lines.Decode(&one); err != nil {
			return answered, nil, errors.Join(io.ErrUnexpectedEOF, err)
		}
		if one.Ended {
			return answered, nil, one.Problem
		}
		if !yield(one, nil) {
			return answered, reply, nil
		}
	}
	return answered, reply, nil
}
