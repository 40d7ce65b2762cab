package exact

import "latewood/woodphys/method"

// Chapter is the one that the rows are shown under.
const Chapter = "resaw"

// derived is the source of a row that geometry gives.
const derived = "derived by arithmetic and geometry; worked problems in testdata/published/resaw_problems.csv"

// maxLength is the longest length the chapter takes, in millimetres (100 m).
// Three of them multiplied stay inside the 128 bits of Cubic.
const maxLength = 1e5

// Least is the smallest size of a piece, 1 micrometre, in millimetres.
const Least = 1e-3

// MM returns an input in millimetres, in use from low (mm) to usual (mm) in a shop
// and taken up to 100 m.
//
// Accuracy: exact. Source: the row it stands in.
func MM(name string, low, usual float64) method.Input {
	return method.Input{Name: name, Unit: "mm", Fitted: method.Range{Low: low, High: usual},
		Limit: method.Range{Low: low, High: maxLength}}
}

// Coordinate returns an input in millimetres that may be negative, within 100 m of
// its origin.
//
// Accuracy: exact. Source: the row it stands in.
func Coordinate(name string) method.Input {
	r := method.Range{Low: -maxLength, High: maxLength}
	return method.Input{Name: name, Unit: "mm", Fitted: r, Limit: r}
}

// Deg returns an input from low to high, in degrees.
//
// Accuracy: exact. Source: the row it stands in.
func Deg(name string, low, high float64) method.Input {
	r := method.Range{Low: low, High: high}
	return method.Input{Name: name, Unit: "deg", Fitted: r, Limit: r}
}

// Ratio returns an input from low to high that has no unit.
//
// Accuracy: exact. Source: the row it stands in.
func Ratio(name string, low, high float64) method.Input {
	r := method.Range{Low: low, High: high}
	return method.Input{Name: name, Fitted: r, Limit: r}
}

// Row returns the row of a method that arithmetic or geometry gives.
//
// Accuracy: as the row states. Source: the worked problems named in it.
func Row(id, summary, equation, accuracy string, checked method.Checked, inputs ...method.Input) *method.Method {
	return &method.Method{
		ID: id, Chapter: Chapter, Summary: summary, Equation: equation, Inputs: inputs,
		Accuracy: accuracy, Source: derived, Checked: checked,
	}
}
