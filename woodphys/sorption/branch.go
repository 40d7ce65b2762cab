package sorption

import "latewood/woodphys/quantity"

// Branch is the side of the hysteresis loop a piece of wood sits on.
type Branch int

// Branches of the sorption loop.
const (
	Middle     Branch = iota // the printed curve; history unknown or mixed
	Desorption               // wood that has been drying, such as green stock
	Adsorption               // wood that was drier and is taking up moisture
)

// String returns the name of b in the trade's words.
func (b Branch) String() string {
	switch b {
	case Middle:
		return "middle"
	case Desorption:
		return "desorption"
	case Adsorption:
		return "adsorption"
	}
	return "unknown"
}

// Constants of the loop.
const (
	loopRatio  = 0.85 // adsorption over desorption at room temperature; Stamm 1964, Skaar 1988, Siau 1995 (from memory), 0.75 to 0.90
	loopFullC  = 20.0 // degC up to which the loop is fully open; chosen
	loopCloseC = 87.5 // degC at which it has closed; middle of the 75 to 100 degC of the same books
)

// LoopRatio returns the ratio of the adsorption EMC to the desorption EMC at t:
// 0.85 up to 20 degC, then rising in a straight line to 1 at 87.5 degC, where
// the loop has closed.
//
// Accuracy: the ratio varies from 0.75 to 0.90 between woods and samples. It is
// nearly constant from 20 to 90 % RH; outside that it is assumed the same.
//
// Source: Stamm 1964, Skaar 1988, Siau 1995 (from memory) for 0.85 and for the
// closing between 75 and 100 degC; the straight line between is a choice.
func LoopRatio(t quantity.Temperature) float64 {
	open := (loopCloseC - t.Celsius()) / (loopCloseC - loopFullC)
	return 1 - (1-loopRatio)*min(max(open, 0), 1)
}

// BranchFactor returns what the middle curve is multiplied by on branch b at t:
// 1 on Middle, f on Desorption and f r on Adsorption with r = LoopRatio(t) and
// f = 2/(1+r), so that the middle curve is the mean of the two (f = 1.081 and
// f r = 0.919 at room temperature). An unknown branch is taken as Middle.
//
// Accuracy: that of LoopRatio; that the printed curve is the mean of both branches is
// an assumption.
//
// Source: the mean-curve reading of the handbook value is an assumption; r as LoopRatio.
func BranchFactor(b Branch, t quantity.Temperature) float64 {
	r := LoopRatio(t)
	switch b {
	case Desorption:
		return 2 / (1 + r)
	case Adsorption:
		return 2 * r / (1 + r)
	case Middle:
	}
	return 1
}

// NewBranchIsotherm returns the curve of branch b at t, with the limits of NewIsotherm.
//
// t: any, held to -40 to 120 degC. b: Middle, Desorption or Adsorption.
// Accuracy: as Isotherm.At, with the loop of LoopRatio.
//
// Source: eq. 4-5 of the Wood Handbook times BranchFactor.
func NewBranchIsotherm(t quantity.Temperature, b Branch) Isotherm {
	return NewIsotherm(t).Scaled(BranchFactor(b, t))
}

// Scaled returns the curve whose moisture contents are factor times those of i,
// factor above 0; for a branch or for a wood known to hold more or less.
//
// Accuracy: that of the factor.
//
// Source: definition; the factor is the caller's.
func (i Isotherm) Scaled(factor float64) Isotherm {
	i.scale *= factor
	return i
}
