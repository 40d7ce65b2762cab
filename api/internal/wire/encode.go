package wire

import (
	"bytes"
	"sync"
)

var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// MaxPooled keeps a rare large answer from staying in memory for good.
const MaxPooled = 256 << 10

// EncodeJSON encodes v completely before the first byte is sent, so that a
// failure can still be told as a problem.
func EncodeJSON(v any, use func([]byte) error) error {
	return Encoded(func(_ *bytes.Buffer, encoder *Encoder) error { return encoder.Encode(v) }, use)
}

// Encoded hands what write has written to use.
func Encoded(write func(*bytes.Buffer, *Encoder) error, use func([]byte) error) error {
	buffer, ok := buffers.Get().(*bytes.Buffer)
	if !ok {
		buffer = new(bytes.Buffer)
	}
	buffer.Reset()
	defer func() {
		if buffer.Cap() <= MaxPooled {
			buffers.Put(buffer)
		}
	}()
	if err := write(buffer, NewEncoder(buffer)); err != nil {
		return err
	}
	return use(buffer.Bytes())
}
