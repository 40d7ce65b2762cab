package main

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Lines are the library's, whether they are plain or not.
func TestLinesAreThoseOfTheLibrary(t *testing.T) {
	at := time.Date(2026, 3, 1, 12, 30, 0, 120_000_000, time.FixedZone("", 3600))
	request := []slog.Attr{slog.String("id", "0123456789abcdef"), slog.String("route", "/v1/species/:id"), slog.Int("status", 200),
		slog.Int64("bytes", 1<<40), slog.Duration("took", 1500*time.Microsecond)}
	for name, one := range map[string]struct {
		at         time.Time
		message    string
		level      slog.Level
		attributes []slog.Attr
		plain      bool
	}{
		"request":         {at, "request", slog.LevelInfo, request, true},
		"in UTC":          {at.UTC(), "request", slog.LevelError, request, true},
		"nothing":         {at, "", slog.LevelInfo, nil, true},
		"a level between": {at, "request", slog.LevelInfo + 1, request, true},
		"negative":        {at, "request", slog.LevelInfo, []slog.Attr{slog.Int("n", -3)}, true},
		"no time":         {time.Time{}, "request", slog.LevelInfo, request, false},
		"quotes":          {at, "request", slog.LevelInfo, []slog.Attr{slog.String("key", `a"b\c`)}, false},
		"a key":           {at, "request", slog.LevelInfo, []slog.Attr{slog.Int("a\"b", 1)}, false},
		"line end":        {at, "request\n", slog.LevelInfo, request, false},
		"letters":         {at, "request", slog.LevelInfo, []slog.Attr{slog.String("key", "Ahorn é \u2028 \xff")}, false},
		"no attribute":    {at, "request", slog.LevelInfo, []slog.Attr{{}, slog.Int("n", 1)}, false},
		"others": {at, "request", slog.LevelInfo, []slog.Attr{slog.Any("error", errors.New("x")), slog.Bool("b", true), slog.Float64("f", 0.5),
			slog.Time("t", at), slog.Group("g", slog.Int("n", 1))}, false},
	} {
		t.Run(name, func(t *testing.T) {
			var want, got bytes.Buffer
			r := slog.NewRecord(one.at, one.level, one.message, 0)
			r.AddAttrs(one.attributes...)
			_, plain := plainLine(nil, &r)
			assert.Equal(t, one.plain, plain)
			require.NoError(t, slog.NewJSONHandler(&want, nil).Handle(context.Background(), r))
			require.NoError(t, plainLines{slog.NewJSONHandler(&got, nil), &got}.Handle(context.Background(), r))
			assert.Equal(t, want.String(), got.String())
		})
	}
}

// BenchmarkLine is the line of a request.
func BenchmarkLine(b *testing.B) {
	var out bytes.Buffer
	for name, handler := range map[string]slog.Handler{"library": slog.NewJSONHandler(&out, nil), "plain": plainLines{slog.NewJSONHandler(&out, nil), &out}} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				out.Reset()
				r := slog.NewRecord(time.Now(), slog.LevelInfo, "request", 0)
				r.AddAttrs(slog.String("id", "0123456789abcdef"), slog.String("method", "POST"), slog.String("route", "/v1/movement"), slog.Int("status", 200))
				_ = handler.Handle(context.Background(), r)
			}
		})
	}
}
