package laminate

import (
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// alongOverBending is the modulus along the grain over that from bending, which
// holds shear too: Wood Handbook p. 5-2, from memory.
const alongOverBending = 1.10

// LayerOf returns a layer of a wood, with its stiffness from the modulus of elasticity of
// the wood, which is that from bending at about 12 %MC. Its
// thickness, directions and moisture contents are still to be set. What of the figures
// was not read goes to n.
//
// Errors: missing for group of a wood that has none, whose mean ratios could stand in, and
// for modulus_of_elasticity where the wood has none.
// Accuracy: pieces vary by 22 % along the grain.
// Source: Wood Handbook p. 5-2 for the modulus along the grain, 1.10 times that from
// bending (from memory).
func LayerOf(w wood.Wood, n *method.Notes) (Layer, error) {
	if w.Group == "" {
		return Layer{}, &method.Error{Code: method.Missing, Input: "group",
			Detail: "say whether your own wood is a hardwood or a softwood; the mean of that group stands for its elastic " +
				"ratios"}
	}
	l := Layer{Wood: w, Elastic: Elastic{Ratios: w.Ratios, StandIn: w.StandIn, Group: w.Group}}
	switch mpa := w.BendingModulus; {
	case mpa.Known:
		w.Told(mpa, "modulus_of_elasticity", n)
		l.Elastic.EL = alongOverBending * quantity.Pressure(mpa.Value) * quantity.Megapascal
	case w.Own:
		return Layer{}, &method.Error{Code: method.Missing, Input: "modulus_of_elasticity",
			Detail: "say the modulus_of_elasticity of your own wood, such as 11000 MPa"}
	default:
		return Layer{}, &method.Error{Code: method.Missing, Input: "modulus_of_elasticity",
			Detail: "the tables hold no modulus of elasticity of " + w.Name + "; say modulus_of_elasticity"}
	}
	movement.NoteOnset(&w, n)
	return l, nil
}
