package main

import (
	"bytes"
	"fmt"
	"io"
	"log/slog"
)

// log is the log of the program, and the lines on their way to its reader.
func (p *program) log(format string) (*slog.Logger, *spill, error) {
	handler := func(to io.Writer) slog.Handler { return slog.NewTextHandler(to, nil) }
	switch format {
	case "text":
	case "json":
		handler = func(to io.Writer) slog.Handler { return plainLines{slog.NewJSONHandler(to, nil), to} }
	default:
		return nil, nil, fmt.Errorf("--log-format is text or json, not %q", format)
	}
	lines := newSpill(p.stderr, func(lost uint64) []byte {
		var line bytes.Buffer
		slog.New(handler(&line)).Warn("lines of this log were lost: nobody took them", "lines", lost)
		return line.Bytes()
	})
	return slog.New(handler(lines)), lines, nil
}
