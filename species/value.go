package species

// Units of the values of a wood. A Value keeps the number as printed, so that
// it can be held against the page.
const (
	UnitShrinkage   = "% of the green dimension" // green to ovendry; volume for the volumetric value
	UnitCoefficient = "per %MC"                  // fraction of the dimension at 10 %MC per %MC
	UnitSwelling    = "% per %MC"                // differential shrinkage: percent of the dimension for a point of moisture
	UnitMC          = "%MC"                      // percent of the ovendry mass
	UnitRatio       = "1"
	UnitMPa         = "MPa"
	UnitLossPerDay  = "%MC per day"
)

// Value is one published figure in its published unit, or the absence of it,
// with where it comes from.
//
// Number is read with Get. Spread, where known, is the half width around the
// number in the same unit that holds 90 % of woods or trees, or what the source
// states without saying its coverage; Low and High are the ends where it is not
// even. Source and Checked are empty only when the number is missing. Note says
// what is odd about the figure, and that it stands for a whole group where it does.
type Value struct {
	Optional[float64]
	Unit      string
	Spread    Optional[float64]
	Low, High Optional[float64]
	AtMC      Optional[float64] // moisture content that the figure is printed at, %MC
	Trees     int               // that it is the mean of; 0 where that was not told
	Source    string
	Checked   Checked
	Note      string
	Other     *Other  // what another publication prints; only with Disputed
	Recall    *Recall // how good recall of this table was; only with Memory, and where it could be checked
}

// Other is the figure that another publication prints of the same thing.
type Other struct {
	Number  float64 // in the unit of the Value
	Source  string
	Checked Checked
	Was     Checked // mark of the Value before the other figure was found
}

// Recall is how the recalled figures of one table stood when they were held against
// what was found of it in print.
type Recall struct {
	Source            string  // the publication
	Checked, Differed int     // recalled figures that could be checked, and those of them that differed
	LargestPct        float64 // largest difference, percent of the printed figure
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
