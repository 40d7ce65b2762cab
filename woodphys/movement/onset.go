package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// NoteOnset notes where the shrinkage of the wood is taken to start, if that is not
// UsualOnset and was concluded from its coefficients.
//
// Accuracy: the onset of such a wood may be wrong by some points.
//
// Source: the marks of the tables; the total shrinkage form for what it is worth.
func NoteOnset(w *wood.Wood, n *method.Notes) {
	onset := w.CoefficientFibreSaturation
	if !w.OnsetInferred || onset == 0 || onset == UsualOnset {
		return
	}
	n.Warn(method.Warning{Code: method.Assumption, Method: shrinkageRow.ID, Input: "fibre_saturation_pct",
		Detail: "shrinkage of " + w.Name + " is taken to start at " + quantity.FormatNumber(onset.Percent(), 0) +
			" %, which is inferred from its coefficients and was not read; with the usual 30 % the total shrinkage form " +
			"gives about a quarter less"})
}
