package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// middleMC is where the coefficients of table 13-5 touch the total shrinkage, 10 %MC.
const middleMC = 10.0

var convertRow = method.Method{
	ID: "movement.coefficient-of-shrinkage", Chapter: "movement",
	Summary:  "Dimensional change coefficient from the total shrinkage and back",
	Equation: "C = 1/(3000/S - 20) with S in %; for shrinkage starting at F: C = 1/(100 F/S - F + 10)",
	Inputs: []method.Input{
		{Name: "shrinkage_pct", Unit: "%", Fitted: shrinkageFitted, Limit: shrinkageLimit},
		{Name: "coefficient", Unit: "1/%MC", Fitted: method.Range{Low: 0.0004, High: 0.006}, Limit: method.Range{Low: 1e-5, High: 0.02}},
		onsetInput,
	},
	Accuracy: "within one unit of the fifth decimal of table 13-5 for woods whose two table rows agree",
	Source:   "slope of the total shrinkage form at 10 %MC; fits Wood Handbook tables 4-3 and 13-5",
	Checked:  method.Derived,
}

// ShrinkageFromCoefficient returns the total shrinkage, as a fraction, of a
// wood with coefficient c (per %MC, 0.00001 to 0.02) and shrinkage that starts
// at onset (0.10 to 0.45).
//
// Errors: out_of_range for coefficient, fibre_saturation_pct.
// Accuracy: gives table 4-3 from table 13-5 to one unit of the fifth decimal of c.
// Source: derived; Wood Handbook tables 4-3 and 13-5.
func ShrinkageFromCoefficient(c float64, onset quantity.Moisture) (float64, error) {
	var n method.Notes
	if err := n.Use(&convertRow, "coefficient", c); err != nil {
		return 0, err
	}
	if err := n.Use(&convertRow, "fibre_saturation_pct", onset.Percent()); err != nil {
		return 0, err
	}
	f := onset.Percent()
	return f / (1/c + f - middleMC), nil
}
