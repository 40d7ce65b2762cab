package api

import (
	"fmt"
	"io"
	"log/slog"
	"testing"

	"github.com/stretchr/testify/require"
)

// exposedService has all that a service has that others can reach: a hundred
// tokens, a rate, an origin. token is that of the key id "bench".
func exposedService(t testing.TB, rate Rate, log io.Writer) (s *Service, token string) {
	t.Helper()
	token, lines, err := NewToken("bench")
	require.NoError(t, err)
	for i := range 99 {
		_, line, err := NewToken(fmt.Sprintf("other-%d", i))
		require.NoError(t, err)
		lines = line + "\n" + lines
	}
	keys, err := ParseKeys(lines)
	require.NoError(t, err)
	s, err = New(Config{Version: "test", Log: slog.New(slog.NewJSONHandler(log, nil)), Keys: keys, Origins: []string{"https://shop.example"}, Rate: rate})
	require.NoError(t, err)
	return s, token
}
