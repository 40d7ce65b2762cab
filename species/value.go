package species

// Units of the values of a wood. A Value keeps the number as printed, so that
// it can be held against the page.
const (
	UnitShrinkage   = "% of the green dimension" // green to ovendry; volume for the volumetric value
	UnitCoefficient = "per %MC"                  // fraction of the dimension at 10 %MC per %MC
	UnitMC          = "%MC"                      // percent of the ovendry mass
	UnitRatio       = "1"
	UnitMPa         = "MPa"
	UnitLossPerDay  = "%MC per day"
)

// Value is one published figure in its published unit, or the absence of it,
// with where it comes from.
//
// Number is read with Get. Spread, where known, is the stated half width
// around the number in the same unit; the sources do not state its coverage.
// Source and Checked are empty only when the number is missing. Note says what
// is odd about the figure, and that it stands for a whole group where it does.
type Value struct {
	Optional[float64]
	Unit    string
	Spread  Optional[float64]
	Source  string
	Checked Checked
	Note    string
}

func (v *Value) addNote(note string) {
	switch {
	case note == "":
	case v.Note == "":
		v.Note = note
	default:
		v.Note += "; " + note
	}
}
