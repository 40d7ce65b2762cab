package api

import (
	"bytes"
	"encoding/json"
	"sync"
)

var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// maxPooled keeps a rare large answer from staying in memory for good.
const maxPooled = 256 << 10

// encodeJSON encodes v completely before the first byte is sent, so that a
// failure can still be told as a problem.
func encodeJSON(v any, use func([]byte) error) error {
	return encoded(func(_ *bytes.Buffer, encoder *json.Encoder) error { return encoder.Encode(v) }, use)
}

// encoded hands what write has written to use.
func encoded(write func(*bytes.Buffer, *json.Encoder) error, use func([]byte) error) error {
	buffer, ok := buffers.Get().(*bytes.Buffer)
	if !ok {
		buffer = new(bytes.Buffer)
	}
	buffer.Reset()
	defer func() {
		if buffer.Cap() <= maxPooled {
			buffers.Put(buffer)
		}
	}()
	encoder := json.NewEncoder(buffer)
	encoder.SetEscapeHTML(false)
	if err := write(buffer, encoder); err != nil {
		return err
	}
	return use(buffer.Bytes())
}
