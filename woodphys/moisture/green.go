package moisture

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Green wood of which nothing else is known: wide enough for most woods. Own choice.
const (
	anyGreen   = 60 * quantity.PercentMC
	anyGreenSD = 15 * quantity.PercentMC
)

// greenShare is how far a green piece strays from the published mean of its wood, as a
// standard deviation over it: heartwood, sapwood and season. Own choice, no source.
const greenShare = 0.2

// Green returns the moisture content of a green piece of a wood and its standard deviation;
// known is false where that of the wood is not known.
//
// Accuracy: the standard deviation is a fifth of it and what the figure of the wood is unsure of.
//
// Source: the green moisture of the wood; the spread is our own choice.
func Green(w *wood.Wood) (mc, sd quantity.Moisture, known bool) {
	if w == nil || w.Green == 0 {
		return 0, 0, false
	}
	return w.Green, w.Green * quantity.Moisture(math.Hypot(greenShare, float64(w.GreenSD/w.Green))), true
}

// green is a condition that says no more than that the wood is green.
func green(w *wood.Wood) Conditioned {
	var out Conditioned
	mc, sd, known := Green(w)
	switch {
	case !known:
		mc, sd = anyGreen, anyGreenSD
		if w != nil {
			out.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "green",
				Detail: "the green moisture of this wood is not known: 60 % with a wide band is taken; above fibre saturation nothing moves, so only weights hang on it"})
		}
	case w.GreenHow != "":
		out.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "green",
			Detail: "green is taken as " + quantity.FormatNumber(mc.Percent(), 0) + " %, " + w.GreenHow})
	}
	least := sorption.NominalFibreSaturation
	if w != nil && w.FibreSaturation != 0 {
		least = w.FibreSaturation
	}
	mc = max(mc, least)
	out.MC = quantity.NormalBand(mc, sd)
	out.MC.Low, out.MC.High = max(out.MC.Low, least), min(out.MC.High, highestMC*quantity.PercentMC)
	return out
}
