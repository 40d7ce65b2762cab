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
		"give wood or gas with hose":           {Gas: "town"},
		"give only one of wood, gas with hose": {Wood: "ash", Gas: "town", Hose: "new"},
		"damper goes with wood":                {Gas: "town", Hose: "new", Damper: &half},
		"timer goes with gas or damper":        {Wood: "ash", Timer: "1 h"},
		"give not all of timer and damper":     {Wood: "ash", Timer: "1 h", Damper: &half},
	} {
		told, is := wire.AsDomain(wire.CheckJoined(wrong, "/stove"))
		require.True(t, is, says)
		assert.Contains(t, told.Detail, says)
		assert.Contains(t, []string{"stove", "stove/gas", "stove/wood", "stove/damper"}, told.Input)
	}
}

// shop holds stoves in every way there is, and one that is embedded.
type shop struct {
	Main  *stove   `json:"main"`
	Old   []stove  `json:"old"`
	Loan  []*stove `json:"loan"`
	Plain stove    `json:"plain"`
	Rooms []room   `json:"rooms"`
}

type room struct {
	stoveOfRoom
	Name string `json:"name"`
}

type stoveOfRoom struct {
	Left, Right string `json:"-"`
	Above       *stove `json:"above"`
}

func TestWhatGoesTogetherIsCheckedAllTheWayDown(t *testing.T) {
	right, wrong := stove{Wood: "ash"}, stove{Gas: "town"}
	whole := shop{&right, []stove{right}, []*stove{nil, &right}, right, []room{{stoveOfRoom{Above: &right}, "x"}, {Name: "y"}}}
	require.NoError(t, wire.CheckJoined(&whole, ""))
	for at, break1 := range map[string]func(*shop){
		"main": func(s *shop) { s.Main = &wrong }, "old/0": func(s *shop) { s.Old = []stove{wrong} }, "loan/1": func(s *shop) { s.Loan = []*stove{nil, &wrong} },
		"plain": func(s *shop) { s.Plain = wrong }, "rooms/0/above": func(s *shop) { s.Rooms = []room{{stoveOfRoom{Above: &wrong}, "x"}} },
	} {
		broken := whole
		break1(&broken)
		told, is := wire.AsDomain(wire.CheckJoined(&broken, ""))
		require.True(t, is, at)
		assert.Equal(t, at, told.Input)
	}
	assert.Len(t, wire.DomainErrors(wire.CheckJoined(&shop{Main: &wrong, Plain: wrong}, "")), 2, "all at once")
}
