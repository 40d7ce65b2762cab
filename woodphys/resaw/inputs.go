package resaw

import "latewood/woodphys/method"

// chapter is the one that the rows are shown under.
const chapter = "resaw"

// derived is the source of a row that geometry gives.
const derived = "derived by arithmetic and geometry; worked problems in testdata/published/resaw_problems.csv"

// maxLength is the longest length the package takes, in millimetres (100 m).
// Three of them multiplied stay inside the 128 bits of Cubic.
const maxLength = 1e5

// mm makes an input in millimetres with the range usual in a shop and the
// package's limit above low.
func mm(name string, low, usual float64) method.Input {
	return method.Input{Name: name, Unit: "mm", Fitted: method.Range{Low: low, High: usual}, Limit: method.Range{Low: low, High: maxLength}}
}

// coordinate makes an input in millimetres that may be negative.
func coordinate(name string) method.Input {
	r := method.Range{Low: -maxLength, High: maxLength}
	return method.Input{Name: name, Unit: "mm", Fitted: r, Limit: r}
}

func deg(name string, low, high float64) method.Input {
	r := method.Range{Low: low, High: high}
	return method.Input{Name: name, Unit: "deg", Fitted: r, Limit: r}
}

func ratio(name string, low, high float64) method.Input {
	r := method.Range{Low: low, High: high}
	return method.Input{Name: name, Fitted: r, Limit: r}
}

// least is the smallest size of a piece, 1 micrometre, in millimetres.
const least = 1e-3

func row(id, summary, equation, accuracy string, checked method.Checked, inputs ...method.Input) *method.Method {
	return &method.Method{
		ID: id, Chapter: chapter, Summary: summary, Equation: equation, Inputs: inputs,
		Accuracy: accuracy, Source: derived, Checked: checked,
	}
}
