package wood

import (
	"fmt"
	"math"

	"latewood/woodphys/quantity"
)

// AnyOf returns the wood that stands for any of several, when it is not known which: the
// mean of each figure, unsure by so much that its 90 % band holds the figure of every one
// of them. What is known of some only is taken from those; coefficients and paces, of
// which a part would say too little, are left out unless all have them. name is for
// people; of must not be empty.
//
// Accuracy: the bands hold the mean figures of the woods; pieces stray beyond.
//
// Source: derived by arithmetic from the figures of the woods.
func AnyOf(name string, of []Wood) Wood {
	first := &of[0]
	all := Wood{Name: name, Listing: first.Listing, Group: first.Group, StandIn: first.StandIn, LowerEMC: true}
	take := func(to *Figure, from func(*Wood) *Figure) { *to = together(name, of, from) }
	take(&all.Radial, func(w *Wood) *Figure { return &w.Radial })
	take(&all.Tangential, func(w *Wood) *Figure { return &w.Tangential })
	take(&all.Volumetric, func(w *Wood) *Figure { return &w.Volumetric })
	take(&all.SpecificGravity, func(w *Wood) *Figure { return &w.SpecificGravity })
	take(&all.BendingModulus, func(w *Wood) *Figure { return &w.BendingModulus })
	saturation := together(name, of, func(w *Wood) *Figure {
		return &Figure{Value: float64(w.FibreSaturation), Known: w.FibreSaturation != 0, SD: float64(w.FibreSaturationSpread) / quantity.Z90}
	})
	all.FibreSaturation, all.FibreSaturationSpread = quantity.Moisture(saturation.Value), quantity.Moisture(quantity.Z90*saturation.SD)
	green := together(name, of, func(w *Wood) *Figure {
		return &Figure{Value: float64(w.Green), Known: w.Green != 0, SD: float64(w.GreenSD)}
	})
	all.Green, all.GreenSD, all.GreenHow = quantity.Moisture(green.Value), quantity.Moisture(green.SD), green.How
	for i := range of {
		w := &of[i]
		volume := w.SwellingVolumetric.Value / (w.Radial.Value + w.Tangential.Value)
		all.widen(&all.Radial, w.Radial, []Figure{w.CoefficientRadial, w.DifferentialRadial, w.splitBy(volume, w.Radial)}, w.Onset())
		all.widen(&all.Tangential, w.Tangential, []Figure{w.CoefficientTangential, w.DifferentialTangential, w.splitBy(volume, w.Tangential)}, w.Onset())
		all.LowerEMC = all.LowerEMC && w.LowerEMC
		all.Ease = harder(all.Ease, w.Ease)
		if w.Listing != all.Listing {
			all.Listing = ""
		}
		if w.Group == Hardwood && all.Group == Softwood { // drying harms it in more ways
			all.Group, all.StandIn = w.Group, w.StandIn
		}
		if w.SafeDailyLoss != 0 && (all.SafeDailyLoss == 0 || w.SafeDailyLoss < all.SafeDailyLoss) {
			all.SafeDailyLoss = w.SafeDailyLoss
		}
	}
	all.Pace = paceOf(name, of)
	return all
}

// widen makes a shrinkage of the wood so unsure that its band holds the movement for one
// point of a wood that shrinks by s from its own onset down, or by any of its figures for a point.
func (w *Wood) widen(f *Figure, s Figure, perPoint []Figure, onset quantity.Moisture) {
	reach := func(v float64) { f.SD = max(f.SD, math.Abs(v-f.Value)/quantity.Z90) }
	if s.Known && onset != 0 {
		share := float64(w.FibreSaturation / onset)
		reach((s.Value + quantity.Z90*s.SD) * share)
		reach((s.Value - quantity.Z90*s.SD) * share)
	}
	for _, p := range perPoint {
		if p.Known && f.Known {
			reach(p.Value * w.FibreSaturation.Percent())
		}
	}
}

// splitBy is the part of a direction in the volumetric swelling, of which volume is what falls
// to one unit of linear shrinkage.
func (w *Wood) splitBy(volume float64, s Figure) Figure {
	if !w.SwellingVolumetric.Known || !w.Radial.Known || !w.Tangential.Known {
		return Figure{}
	}
	return Published(volume * s.Value)
}

// together is the mean of a figure over the woods of which it is known, with a standard
// deviation by which the 90 % band about it holds that of each wood and its own doubt.
func together(name string, of []Wood, from func(*Wood) *Figure) Figure {
	sum, n, low, high := 0.0, 0.0, math.Inf(1), math.Inf(-1)
	for i := range of {
		if f := from(&of[i]); f.Known {
			sum, n = sum+f.Value, n+1
			low, high = min(low, f.Value-quantity.Z90*f.SD), max(high, f.Value+quantity.Z90*f.SD)
		}
	}
	if n == 0 {
		return Figure{}
	}
	mean := sum / n
	return Figure{Value: mean, Known: true, Estimated: true, SD: max(mean-low, high-mean) / quantity.Z90,
		How: fmt.Sprintf("the mean of the %.0f woods of %s; the band holds each of them", n, name)}
}

// harder is the harder to dry of two; what is not known counts as the easiest.
func harder(a, b Ease) Ease {
	rank := map[Ease]int{Easy: 1, Moderate: 2, Refractory: 3}
	if rank[b] > rank[a] {
		return b
	}
	return a
}

// paceOf is the middle pace of woods that all have one, with a misfit that reaches each.
func paceOf(name string, of []Wood) Pace {
	out := of[0].Pace
	sum := 0.0
	for i := range of {
		p := &of[i].Pace
		if !p.Known() {
			return Pace{}
		}
		sum += math.Log(p.Factor)
		out.Fastest, out.Slowest = min(out.Fastest, p.Fastest), max(out.Slowest, p.Slowest)
		out.Recalled = out.Recalled || p.Recalled
	}
	middle := sum / float64(len(of))
	out.Factor, out.Misfit = math.Exp(middle), 0
	for i := range of {
		p := &of[i].Pace
		out.Misfit = max(out.Misfit, p.Misfit+math.Abs(math.Log(p.Factor)-middle)/quantity.Z90)
	}
	out.Row, out.Note = "", "the middle of the woods of "+name
	return out
}
