package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// NoteOnset notes where the shrinkage of the wood is taken to start, if that is not known of
// the wood itself: concluded from its coefficients, or that of woods in general where it has
// no coefficients that were made with it.
//
// Accuracy: the onset of such a wood may be wrong by some points.
//
// Source: the marks of the tables.
func NoteOnset(w *wood.Wood, n *method.Notes) {
	onset := w.Onset()
	at := quantity.FormatNumber(onset.Percent(), 0)
	switch {
	case onset == 0:
	case w.OnsetInferred && onset == w.CoefficientFibreSaturation && onset != UsualOnset:
		n.Warn(method.Warning{Code: method.Assumption, Method: shrinkageRow.ID, Input: "fibre_saturation_pct",
			Detail: "shrinkage of " + w.Name + " is taken to start at " + at + " %, which is inferred from its coefficients " +
				"and was not read"})
	case w.SaturationGeneral && !w.CoefficientRadial.Known && !w.CoefficientTangential.Known:
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: shrinkageRow.ID, Input: "fibre_saturation_pct",
			Detail: "no fibre saturation of " + w.Name + " is known; that of woods in general, " + at + " %, is taken, and its " +
				"spread is in the band"})
	}
}
