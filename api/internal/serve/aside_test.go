package serve_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// What the service asks itself has nobody above it: no room, what is wrong and a fault are
// errors, whatever happens, and the turn is given back.
func TestAside(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var log bytes.Buffer
		s := asking.FreshService(t, &log)
		s.Answers("/v1/fault", serve.Calculate(func(context.Context, *shelf.Tables, *moist.EMCRequest) (moist.EMCResult, method.Notes, error) {
			panic("a fault for the test")
		}))
		_, err := s.Aside(t.Context(), "/v1/fault", []byte(asking.EMCBody))
		require.Error(t, err)
		assert.NotContains(t, err.Error(), "a fault for the test")
		assert.Contains(t, log.String(), "a fault for the test")
		assert.Contains(t, log.String(), "aside_test.go", "the stack is in the log")

		var refused *wire.Refused
		_, err = s.Aside(t.Context(), "/v1/seasoning", []byte(`{}`))
		require.ErrorAs(t, err, &refused)

		giveBack := s.TakeTurns(30 * time.Second)
		_, err = s.Aside(t.Context(), "/v1/seasoning", []byte(asking.ThreeYears))
		require.ErrorIs(t, err, wire.ErrBusy)
		giveBack()
		giveBack = s.TakeTurns(time.Second) // it takes longer than thought
		_, err = s.Aside(t.Context(), "/v1/seasoning", []byte(asking.ThreeYears))
		require.ErrorIs(t, err, wire.ErrBusy)
		ctx, leave := context.WithCancel(t.Context())
		leave()
		_, err = s.Aside(ctx, "/v1/seasoning", []byte(asking.ThreeYears))
		require.ErrorIs(t, err, context.Canceled)
		giveBack()

		text, err := s.Aside(t.Context(), "/v1/seasoning", []byte(asking.ThreeYears))
		require.NoError(t, err)
		assert.True(t, json.Valid(text))
		_, taken := s.Turns()
		assert.Zero(t, taken)
	})
}

// A fault of heavy work gives its turn back too.
func TestFaultAsideGivesItsTurnBack(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	s.Answers("/v1/fault", serve.InTurn(func(context.Context, *shelf.Tables, *moist.EMCRequest) (moist.EMCResult, method.Notes, error) {
		panic("a fault for the test")
	}, serve.Needs{Processor: time.Second, Memory: 1 << 20}))
	_, err := s.Aside(t.Context(), "/v1/fault", []byte(asking.EMCBody))
	require.Error(t, err)
	_, taken := s.Turns()
	assert.Zero(t, taken)
}
