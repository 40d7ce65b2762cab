package client_test

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/client"
)

// asks is a calculation of the client.
type asks[Q, R any] func(context.Context, Q, ...client.Option) (client.Answer[R], error)

// through reads a request into its type, writes it again, asks it, and reads the answer
// strictly.
func through[Q, R any](of func(*client.Client) asks[Q, R]) func(*testing.T, *client.Client, []byte) {
	return func(t *testing.T, c *client.Client, body []byte) {
		t.Helper()
		request := strictly[Q](t, body)
		again, err := json.Marshal(request)
		require.NoError(t, err)
		assert.JSONEq(t, string(body), string(again))
		answer, err := of(c)(t.Context(), request)
		require.NoError(t, err)
		strictly[client.Answer[R]](t, answer.Raw)
	}
}

// strictly reads JSON into a type that must know every member.
func strictly[T any](t *testing.T, text []byte) (v T) {
	t.Helper()
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	require.NoError(t, decoder.Decode(&v), string(text))
	return v
}
