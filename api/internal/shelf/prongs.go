package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/timing"
)

// ProngTest is the trade's test of casehardening: a section some 25 mm long is cut across the
// piece, away from its ends, and sawn into three prongs that run over its width; the middle one
// is taken out.
type ProngTest struct {
	Prongs  string       `json:"prongs" validate:"required,oneof=inward straight outward" description:"how the outer prongs turn: inward is casehardened, outward the reverse, of too much conditioning"`
	Tip     *wire.Length `json:"tip_travel,omitempty" validate:"omitempty,gt=0,lte=0.3" description:"how far the tip of an outer prong moved, with prong_length: it gives the cup of leaves. Left out: they are warned of, without a figure"`
	Length  *wire.Length `json:"prong_length,omitempty" validate:"omitempty,gte=0.005,lte=1" description:"of that prong"`
	Settled bool         `json:"settled,omitempty" description:"the prongs lay in the room for a day and more: then they show what moisture does as well"`
}

// Joins says which members go together.
func (*ProngTest) Joins() wire.Joined {
	return wire.Joined{Needs: map[string][]string{"tip_travel": {"prong_length"}, "prong_length": {"tip_travel"}}}
}

// ProngTestReading is a prong test on a day.
type ProngTestReading struct {
	Kind string `json:"kind" validate:"required,oneof=prong_test" description:"a test of stress, not of moisture: it is told what it means for resawing"`
	ProngTest
	DatedReading
}

// Joins says which members go together.
func (*ProngTestReading) Joins() wire.Joined { return (*ProngTest)(nil).Joins() }

// Check refuses a turn that is half told.
func (p *ProngTest) Check() error {
	switch {
	case p.Tip != nil && p.Length == nil:
		return wire.Missing("prong_length", "tip_travel goes with prong_length")
	case p.Tip == nil && p.Length != nil:
		return wire.Missing("tip_travel", "prong_length goes with tip_travel")
	case p.Tip != nil && p.Prongs == string(timing.TurnStraight):
		return wire.Contradictory("tip_travel", "straight prongs have not moved")
	}
	return nil
}

// Turned is the test in SI.
func (p *ProngTest) Turned() timing.Prongs {
	out := timing.Prongs{Turn: timing.Turn(p.Prongs), Settled: p.Settled}
	if p.Tip != nil && p.Length != nil {
		out.Travel, out.Length = p.Tip.SI, p.Length.SI
	}
	return out
}

// Says is what the test means for what is resawn from the piece.
func (p *ProngTest) Says() string {
	switch timing.Turn(p.Prongs) {
	case timing.TurnInward:
		return "prongs that turn inward: the skin is set, and leaves resawn from it cup at once, hollow towards the middle of the " +
			"piece, however even its moisture; no wait takes that out, hot damp air at the end of a kiln does. A thick saw cut that " +
			"closes behind the blade pinches it"
	case timing.TurnOutward:
		return "prongs that turn outward: too much conditioning has reversed the stress, and leaves cup hollow towards the outside"
	case timing.TurnStraight, timing.TurnNone:
	}
	return "straight prongs: no stress to speak of"
}

// Prongs is the prong test of a reading; nil for another.
func (r *Reading) Prongs() *ProngTest {
	if test, is := r.Form.(*ProngTestReading); is {
		return &test.ProngTest
	}
	return nil
}
