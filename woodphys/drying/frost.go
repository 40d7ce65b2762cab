package drying

// Limits of the blend from thawed to frozen wood in degC; its middle is -1 C.
const (
	frozenC = -2.0
	thawedC = 0.0
	// frozenShare is the rate of frozen wood over that at 0 C: 0.2 to 0.3 fits the spans
	// of 64 woods best, 0.3 to 0.45 the dates of red oak at Madison.
	frozenShare = 0.3
)

// frost is the share of its diffusivity at 0 degC that wood of c degC keeps: 1 from 0
// degC up, 0.3 from -2 degC down, smooth between (0.65 at -1). It checks nothing; a
// NaN gives a NaN.
//
// Accuracy: a factor of 1.6 of the rate in frost.
//
// Source: fitted with the drying law, see the package; free water freezes slightly
// below 0 degC.
func frost(c float64) float64 {
	if c >= thawedC {
		return 1
	}
	if c <= frozenC {
		return frozenShare
	}
	s := (c - frozenC) / (thawedC - frozenC)
	return frozenShare + (1-frozenShare)*s*s*(3-2*s)
}
