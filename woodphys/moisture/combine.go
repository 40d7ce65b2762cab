package moisture

import (
	"cmp"
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

const (
	// contradictionLevel: estimates that would disagree this much by chance
	// less often than 1 in 100 are held to contradict each other. Own choice.
	contradictionLevel = 0.01
	// sharedCorrelation of two estimates by the same method on the same wood:
	// half the variance (the species correction, the calibration, the starting
	// value) is taken as common, so repeating a reading helps only so far. Own
	// choice; no published figure was found.
	sharedCorrelation = 0.5
	// mostEstimates bounds the work; nobody has more readings of one piece.
	mostEstimates = 1000
)

var combineRow = method.Method{
	ID: "mc.combine", Chapter: "moisture",
	Summary:  "Several estimates of one moisture content weighted by the inverse of their variances, if they agree",
	Equation: "MC = sum(MC_i/s_i^2)/sum(1/s_i^2); chi2 = sum((MC_i - MC)^2/s_i^2)",
	Inputs: []method.Input{
		{Name: "mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "sd_pct", Unit: "%MC", Fitted: method.Range{Low: 0.01, High: 100}, Limit: method.Range{Low: 1e-4, High: 1000}},
	},
	Accuracy: "exact for independent normal errors; estimates by one method are taken to correlate by 0.5, those of one kind of meter by 0.72",
	Source:   "inverse-variance weighting and the chi-square test of consistency; textbook statistics",
	Checked:  method.Derived,
}

// Combine returns what several estimates of the same moisture content say
// together. Estimates that contradict each other are refused, not averaged: at
// least one of them is wrong and a mean would hide it.
//
// All must speak for the same Place, save that Spot goes with any. From 1 to
// 1000 estimates with SD above zero.
//
// Errors: missing for none; too_much_work above 1000; out_of_range for
// estimates/i/mc_pct or estimates/i/sd_pct; unsupported for a shell or core
// value among means (estimates/i); contradictory naming the odd one out
// (estimates/i, counted from 0): the one whose removal leaves the best
// agreement, or, of just two, the less certain.
// Accuracy: see the row.
// Source: textbook statistics, derived.
func Combine(estimates []Estimate) (Estimate, error) {
	switch n := len(estimates); {
	case n == 0:
		return Estimate{}, &method.Error{Code: method.Missing, Input: "estimates", Detail: "at least one estimate is needed"}
	case n > mostEstimates:
		return Estimate{}, &method.Error{Code: method.TooMuchWork, Input: "estimates", Limit: method.AtMost(1000, ""), Detail: "more than 1000 estimates"}
	}
	out := Estimate{How: combineRow.ID, Place: Spot}
	for i := range estimates {
		if err := out.admit(i, &estimates[i]); err != nil {
			return Estimate{}, err
		}
	}
	mean, chi2 := weigh(estimates, -1)
	if df := len(estimates) - 1; df > 0 {
		if p := chiSquareSurvival(chi2, df); !(p >= contradictionLevel) {
			return Estimate{}, contradiction(estimates, oddOneOut(estimates), p)
		}
	}
	sd, shared := pooledSD(estimates)
	if shared {
		out.Notes.Warn(method.Warning{Code: method.Assumption, Method: combineRow.ID, Detail: "estimates by the same method share part of their error; a correlation of 0.5 is taken between them, of 0.72 between readings of a meter"})
	}
	out.set(quantity.Moisture(mean), quantity.Moisture(sd))
	return out, nil
}

// admit checks one estimate and takes over its notes and its place.
func (e *Estimate) admit(i int, one *Estimate) error {
	at := fmt.Sprintf("estimates/%d", i)
	own := method.Notes{}
	own.Merge(one.Notes)
	noMC := own.Use(&combineRow, "mc_pct", one.MC.Value.Percent())
	noSD := own.Use(&combineRow, "sd_pct", one.SD.Percent())
	if err := cmp.Or(noMC, noSD); err != nil {
		return method.Below(err, at)
	}
	e.Notes.Merge(own.Below(at))
	if one.Place == Spot || one.Place == "" || one.Place == e.Place {
		return nil
	}
	if e.Place != Spot {
		return &method.Error{Code: method.Unsupported, Input: at, Detail: fmt.Sprintf(
			"this estimate speaks for the %s and an earlier one for the %s; they are not the same moisture content", one.Place, e.Place)}
	}
	e.Place = one.Place
	return nil
}

// weigh returns the inverse-variance mean and chi-square of the estimates
// without number skip (-1 for none).
func weigh(estimates []Estimate, skip int) (mean, chi2 float64) {
	sum, weights := 0.0, 0.0
	for i := range estimates {
		if i == skip {
			continue
		}
		w := 1 / float64(estimates[i].SD*estimates[i].SD)
		sum += w * float64(estimates[i].MC.Value)
		weights += w
	}
	mean = sum / weights
	for i := range estimates {
		if i != skip {
			d := (float64(estimates[i].MC.Value) - mean) / float64(estimates[i].SD)
			chi2 += d * d
		}
	}
	return mean, chi2
}

// oddOneOut returns the estimate whose removal leaves the smallest chi-square;
// of two, the less certain, since nothing else can tell them apart.
func oddOneOut(estimates []Estimate) int {
	if len(estimates) == 2 {
		if estimates[0].SD > estimates[1].SD {
			return 0
		}
		return 1
	}
	odd, least := 0, math.Inf(1)
	for i := range estimates {
		if _, chi2 := weigh(estimates, i); chi2 < least {
			odd, least = i, chi2
		}
	}
	return odd
}

func contradiction(estimates []Estimate, odd int, p float64) error {
	rest, _ := weigh(estimates, odd)
	detail := fmt.Sprintf("%.1f %%MC by %s contradicts the other estimates, which give %.1f %%MC (chance %.2g); one of them is wrong, so they are not averaged",
		estimates[odd].MC.Value.Percent(), estimates[odd].How, 100*rest, p)
	if len(estimates) == 2 {
		detail += ". With two nothing tells which is wrong; the less certain is named. A third, best an ovendry section, settles it"
	}
	return &method.Error{Code: method.Contradictory, Input: fmt.Sprintf("estimates/%d", odd), Detail: detail}
}

// pooledSD returns the standard deviation of the weighted mean, with
// sharedCorrelation between estimates of one method, and whether any shared.
func pooledSD(estimates []Estimate) (sd float64, shared bool) {
	weights, variance := 0.0, 0.0
	for i := range estimates {
		a := 1 / float64(estimates[i].SD) // w s = 1/s
		weights += a * a
		variance += a * a
		for j := range i {
			if r := correlation(&estimates[i], &estimates[j]); r > 0 {
				variance += 2 * r * a / float64(estimates[j].SD)
				shared = true
			}
		}
	}
	return math.Sqrt(variance) / weights, shared
}

// commonOfMeter is the share of the variance of a meter's reading that is common to all
// its readings of one wood, as readiness.MeterBias has it: calibration, species and density
// make most of its error. Own choice.
const commonOfMeter = 0.85 * 0.85

// correlation of the errors of two estimates. What callers state is taken as
// independent.
func correlation(a, b *Estimate) float64 {
	if a.How == b.How && a.How != "" && a.How != statedRow.ID {
		if a.How == pinRow.ID || a.How == pinlessRow.ID {
			return commonOfMeter
		}
		return sharedCorrelation
	}
	return 0
}
