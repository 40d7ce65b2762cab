package wood

import (
	"strings"

	"latewood/woodphys/method"
)

// Gravity returns the basic specific gravity of the wood, 0.10 to 1.20, and notes where
// it was not read.
//
// Errors: unsupported for specific_gravity when it is not known.
// Accuracy: pieces of a species vary by 10 % (1 SD).
//
// Source: the field SpecificGravity.
func (w *Wood) Gravity(n *method.Notes) (float64, error) {
	if !w.SpecificGravity.Known {
		return 0, &method.Error{Code: method.MissingData, Input: "specific_gravity",
			Detail: "the tables hold no specific gravity of " + w.Name + "; give specific_gravity"}
	}
	w.Told(w.SpecificGravity, "specific_gravity", n)
	return w.SpecificGravity.Value, nil
}

// VolumetricShrinkage returns the shrinkage of the volume from green to ovendry as a
// fraction, 0.001 to 0.50, and notes where it was not read; 0 when it is not known.
//
// Accuracy: pieces of a species vary by 15 % (1 SD).
//
// Source: the field Volumetric.
func (w *Wood) VolumetricShrinkage(n *method.Notes) float64 {
	w.Told(w.Volumetric, "volumetric_shrinkage", n)
	return w.Volumetric.Value
}

// Told notes a figure of the wood that was recalled and not read, or was estimated, under
// the name of the input that it serves as.
//
// Accuracy: exact.
//
// Source: the field How of the figure.
func (w *Wood) Told(f Figure, input string, n *method.Notes) {
	if f.Estimated {
		n.Warn(method.Warning{Code: method.Assumption, Input: input, Subject: w.Name, About: method.AWood,
			Detail: strings.ReplaceAll(input, "_", " ") + " of " + w.Name + " is " + f.How})
		return
	}
	if f.Recalled {
		n.Warn(method.Warning{Code: method.Recalled, Input: input, Subject: w.Name, About: method.AWood,
			Detail: strings.ReplaceAll(input, "_", " ") + " of " + w.Name + " is " + f.How})
	}
}

// Doubt notes, for a row of a chapter, a figure that was recalled and not read, or was
// estimated, under the name of the input that it serves as.
//
// Accuracy: exact.
//
// Source: the fields of the figure.
func (f Figure) Doubt(row *method.Method, input string, n *method.Notes) {
	if !f.Recalled && !f.Estimated {
		return
	}
	w := method.Warning{Code: method.Recalled, Method: row.ID, Input: input,
		Detail: "this figure of the wood is recalled from its table, not re-read"}
	if f.Estimated {
		w.Code = method.Assumption
	}
	if f.How != "" {
		w.Detail = "this figure of the wood is " + f.How
	}
	n.Warn(w)
}
