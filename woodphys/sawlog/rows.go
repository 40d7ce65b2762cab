package sawlog

import (
	"latewood/woodphys/method"
)

const chapter = "sawlog"

// Methods returns the rows of the log.
func Methods() []*method.Method {
	return []*method.Method{rowPlan, rowDoyle, rowInternational, rowScribner}
}

func input(name, unit string, fittedLow, fittedHigh, low, high float64) method.Input {
	return method.Input{Name: name, Unit: unit, Fitted: method.Range{Low: fittedLow, High: fittedHigh},
		Limit: method.Range{Low: low, High: high}}
}

// ofRule are the inputs of a rule that scales a log.
func ofRule() []method.Input {
	return []method.Input{input("small_end_diameter", "in", 6, 40, 4, 120), input("length", "ft", 6, 20, 0.5, 70)}
}

var (
	rowPlan = &method.Method{
		ID: "sawlog.billets", Chapter: chapter,
		Summary: "where billets of a wanted thickness lie in a round log: through and through, quartered or in wedges",
		Equation: "a piece fits where its four corners lie in every section of its length, (y - c(x))^2 + z^2 <= r(x)^2, " +
			"r along a straight taper, c(x) = 4 s x/L (1 - x/L); wedge of 360/n degrees: thickness = a tan(360/n) - kerf",
		Inputs: []method.Input{
			input("length", "m", 0.3, 8, 0.05, 20),
			input("start_diameter", "mm", 100, 1500, 30, 3000), input("end_diameter", "mm", 100, 1500, 30, 3000),
			input("bark_thickness", "mm", 0, 60, 0, 200), input("sapwood_thickness", "mm", 0, 150, 0, 1500),
			input("sweep", "mm", 0, 100, 0, 1000), input("kerf", "mm", 0, 10, 0, 20),
			input("crosscut_kerf", "mm", 0, 15, 0, 20), input("thickness", "mm", 3, 200, 1, 2000),
			input("thin_edge", "mm", 0, 100, 0, 2000), input("min_width", "mm", 10, 600, 1, 3000),
			input("max_width", "mm", 0, 600, 0, 3000),
			input("billet_length", "m", 0.1, 5, 0.05, 20), input("end_trim", "mm", 0, 100, 0, 1000),
			input("pith_clearance", "mm", 0, 50, 0, 500), input("min_ring_angle_deg", "deg", 0, 85, 0, 89),
			input("turn_deg", "deg", -180, 180, -360, 360),
		},
		Accuracy: "exact for a round straight log; with sweep the outline is drawn in by at most 1/4096 of it",
		Source:   "derived by geometry",
		Checked:  method.Derived,
	}
	rowDoyle = &method.Method{
		ID: "sawlog.doyle", Chapter: chapter,
		Summary:  "board feet of a log by the Doyle rule, from its small end inside the bark",
		Equation: "V = (D - 4)^2 L / 16; D in, L ft",
		Inputs:   ofRule(),
		Accuracy: "agrees with 150 printed cells to the whole board foot; tells far too little of thin logs",
		Source: "Briggs, Forest Products Measurements and Conversion Factors, Univ. of Washington 1994, app. 3 table 1 " +
			"(a public transcription)",
		Checked: method.Read,
	}
	rowInternational = &method.Method{
		ID: "sawlog.international-quarter", Chapter: chapter,
		Summary:  "board feet of a log by the International rule for a kerf of 1/4 in, from its small end inside the bark",
		Equation: "V = sum over lengths of 4 ft of 0.905 (0.22 D^2 - 0.71 D), D growing by 1/2 in each; a shorter rest in proportion",
		Inputs:   ofRule(),
		Accuracy: "agrees with 150 printed cells, which are rounded to 5 board feet, within 3",
		Source: "Briggs, Forest Products Measurements and Conversion Factors, Univ. of Washington 1994, app. 3 table 1 " +
			"(a public transcription)",
		Checked: method.Read,
	}
	rowScribner = &method.Method{
		ID: "sawlog.scribner", Chapter: chapter,
		Summary:  "board feet of a log by the formula of the Scribner rule, from its small end inside the bark",
		Equation: "V = (0.79 D^2 - 2 D - 4) L / 16; D in, L ft",
		Inputs:   ofRule(),
		Accuracy: "the rule itself is a table from diagrams; the formula follows it within some per cent",
		Source:   "Bruce and Schumacher, Forest Mensuration, 1950, the Scribner formula",
		Checked:  method.Memory,
	}
)
