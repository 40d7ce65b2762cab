package shelf

import (
	"encoding/json"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Sent is the wood as it was asked for: a name alone where it was one.
func (w *WoodAsked) Sent() any {
	if w.spelled {
		return w.Species
	}
	type members WoodAsked
	return (*members)(w)
}

// MarshalJSON writes the wood as it was asked for.
func (w *WoodAsked) MarshalJSON() ([]byte, error) { return json.Marshal(w.Sent()) }

// Again is the wood for the next request, in units that an answer speaks.
func (w *WoodAsked) Again(r wire.Reporter) *WoodAsked {
	if w == nil {
		return nil
	}
	again := *w
	again.Modulus = w.Modulus.In(r)
	return &again
}

// ConditionOf is a condition of that moisture content, known to a standard deviation.
func ConditionOf(mc, sd quantity.Moisture) *Condition {
	percent, points := mc.Percent(), sd.Percent()
	stated := &MoistureCondition{MC: &percent}
	if points > 0 {
		stated.SD = &points
	}
	return &Condition{wire.OneOf{Form: stated}}
}

// InLog is the condition of wood as it was in the log.
func InLog() *Condition {
	yes := true
	return &Condition{wire.OneOf{Form: &GreenCondition{&yes}}}
}
