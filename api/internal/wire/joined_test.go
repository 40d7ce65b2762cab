package wire_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/wire"
)

// stove is an object whose members go together in every way there is.
type stove struct {
	Wood   string   `json:"wood,omitempty"`
	Gas    string   `json:"gas,omitempty"`
	Hose   string   `json:"hose,omitempty"`
	Damper *float64 `json:"damper,omitempty"`
	Timer  string   `json:"timer,omitempty"`
}

func (*stove) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"wood"}, {"gas", "hose"}}, Needs: map[string][]string{"damper": {"wood"}},
		NeedsAny: map[string][]string{"timer": {"gas", "damper"}}, NotAll: [][]string{{"timer", "damper"}}}
}

func TestMembersThatGoTogether(t *testing.T) {
	half := 0.5
	for _, right := range []*stove{{Wood: "ash"}, {Gas: "town", Hose: "new"}, {Wood: "ash", Damper: &half}, {Gas: "town", Hose: "new", Timer: "1 h"}} {
		require.NoError(t, wire.CheckJoined(right, "/stove"))
	}
	for says, wrong := range map[string]*stove{
		"give one of wood, gas with hose":      {Gas: "town"},
		"give only one of wood, gas with hose": {Wood: "ash", Gas: "town", Hose: "new"},
		"damper goes with wood":                {Gas: "town", Hose: "new", Damper: &half},
		"timer goes with gas or damper":        {Wood: "ash", Timer: "1 h"},
		"give only one of timer and damper":    {Wood: "ash", Timer: "1 h", Damper: &half},
	} {
		var refused *wire.Refused
		require.ErrorAs(t, wire.CheckJoined(wrong, "/stove"), &refused, says)
		assert.Contains(t, refused.Detail, says)
		assert.Equal(t, "/stove", refused.Pointer)
	}
}
