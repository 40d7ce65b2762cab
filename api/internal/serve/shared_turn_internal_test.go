package serve

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/fair"
)

// Questions of the service share a turn as long as there is room in it, so many in all; it ends
// with the last of them, and others have theirs after it.
func TestQuestionsOfTheServiceShareATurn(t *testing.T) {
	a := &aside{seats: newSeats(1, func() float64 { return 0 })}
	turn, err := a.seats.turns.Enter(t.Context(), fair.Request{Caller: "the rack", Guess: time.Second, Width: 1})
	require.NoError(t, err)
	first := &sharedTurn{of: a, turn: turn, inside: 1, joined: 1}
	a.open = first
	const abreast = 2
	second := a.join(abreast)
	require.Same(t, first, second)
	assert.Nil(t, a.join(abreast), "two processors")
	first.Leave(time.Millisecond)
	assert.Same(t, first, a.join(abreast), "one has left, and the turn goes on")
	second.Leave(time.Millisecond)
	assert.NotNil(t, a.join(abreast))
	first.Leave(time.Millisecond)
	assert.Nil(t, a.join(abreast), "others wait for so many")

	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	_, err = a.seats.turns.Enter(ctx, fair.Request{Caller: "somebody", Guess: time.Millisecond, Width: 1})
	require.Error(t, err, "the turn is still taken")
	first.Leave(time.Millisecond)
	assert.Nil(t, a.open)
	after, err := a.seats.turns.Enter(t.Context(), fair.Request{Caller: "somebody", Guess: time.Millisecond, Width: 1})
	require.NoError(t, err)
	after.Leave(time.Millisecond)
	assert.Equal(t, 4*time.Millisecond, first.spent)
	assert.Equal(t, 1, a.seats.abreast(mostAtWork), "what needs all memory works alone")
}
