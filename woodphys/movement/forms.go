package movement

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// middleMC is where the coefficients of table 13-5 touch the total shrinkage, 10 %MC, as a
// fraction: C = 1/(100 F/S - F + 10).
const middleMC = 0.10

var coefficientRange = method.Range{Low: 6, High: 14}

var coefficientRow = method.Method{
	ID: "movement.coefficient", Chapter: "movement",
	Summary:  "Change of a dimension by the dimensional change coefficient, 6 to 14 %MC",
	Equation: "dD = D_I C (M_F - M_I)",
	Inputs: []method.Input{
		{Name: "from_mc_pct", Unit: "%MC", Fitted: coefficientRange, Limit: moistureRange},
		{Name: "to_mc_pct", Unit: "%MC", Fitted: coefficientRange, Limit: moistureRange},
		{Name: "coefficient_radial", Unit: "1/%MC", Fitted: method.Range{Low: 0.0004, High: 0.005}, Limit: method.Range{Low: 1e-5, High: 0.02}},
		{Name: "coefficient_tangential", Unit: "1/%MC", Fitted: method.Range{Low: 0.0004, High: 0.006}, Limit: method.Range{Low: 1e-5, High: 0.02}},
	},
	Accuracy: "within 5 % of the total shrinkage form at 6-14 %MC; pieces of a species vary by 15 % (1 SD)",
	Source:   "Wood Handbook FPL-GTR-190 eq. 13-1 (FPL-GTR-282 eq. 13-2), coefficients of table 13-5",
	Checked:  method.Read,
}

var shrinkageRow = method.Method{
	ID: "movement.total-shrinkage", Chapter: "movement",
	Summary:  "Change of a dimension from the total shrinkage, fibre saturation to ovendry",
	Equation: "dD = D_I (M_F - M_I)/(30*100/S - 30 + M_I), both MC cut at fibre saturation (30)",
	Inputs: []method.Input{
		{Name: "from_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "to_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "dimension", Unit: "mm", Fitted: lengthRange, Limit: lengthRange},
		{Name: "radial_pct", Unit: "%", Fitted: shrinkageFitted, Limit: shrinkageLimit},
		{Name: "tangential_pct", Unit: "%", Fitted: shrinkageFitted, Limit: shrinkageLimit},
		onsetInput,
	},
	Accuracy: "pieces of a species vary by 15 % (1 SD); early shrinkage of a drying shell is not in it",
	Source:   "Wood Handbook FPL-GTR-190 ch. 13, equation for larger changes; ch. 4, shrinkage of tables 4-3 and 4-4",
	Checked:  method.Memory,
}

var longitudinalRow = method.Method{
	ID: "movement.longitudinal", Chapter: "movement",
	Summary:  "Movement along the grain of normal wood",
	Equation: "total shrinkage form with S = 0.15 % where the wood's own is not known",
	Inputs: []method.Input{
		{Name: "longitudinal_pct", Unit: "%", Fitted: method.Range{Low: 0.05, High: 0.5}, Limit: method.Range{Low: 0.001, High: 5}},
	},
	Accuracy: "0.1 to 0.2 % published for normal wood, band 0.03 to 0.27 %; up to 2 % in reaction and juvenile wood",
	Source:   "Wood Handbook FPL-GTR-190 p. 4-5, as quoted",
	Checked:  method.Read,
}

// Form names one of the published forms, or all together.
type Form string

// The forms.
const (
	ByCoefficient  Form = "coefficient"
	ByShrinkage    Form = "total_shrinkage"
	ByDifferential Form = "differential_shrinkage"
	ByVolume       Form = "volumetric_swelling"
	Combined       Form = "combined"
)

// words are the form for people.
func (f Form) words() string {
	switch f {
	case ByCoefficient:
		return "the dimensional change coefficient"
	case ByShrinkage:
		return "the total shrinkage"
	case ByDifferential:
		return "the differential shrinkage"
	case ByVolume:
		return "the volumetric swelling of trees"
	case Combined:
	}
	return "all of them"
}

// relative is a relative change of a dimension with mean and SD of its spread.
type relative struct{ value, mean, sd float64 }

func (r relative) band() quantity.Band[float64] {
	b := quantity.NormalBand(r.mean, r.sd)
	b.Value = r.value
	b.Low, b.High = math.Min(b.Low, b.Value), math.Max(b.High, b.Value)
	return b
}

// byCoefficient: dD/D = C (M_F - M_I) = 100 F C (u_I - u_F), C per %MC.
// Product of two independent factors: var = c^2 var(x) + x^2 var(c) + var(c) var(x).
func byCoefficient(c, from, to uncertain, onset quantity.Moisture) relative {
	f := onset.Percent()
	x := f * (from.value - to.value)
	meanX := x + f*(from.bias-to.bias)
	meanC := c.value + c.bias
	varX := f * f * (from.sd*from.sd + to.sd*to.sd)
	varC := c.sd * c.sd
	return relative{value: c.value * x, mean: meanC * meanX, sd: math.Sqrt(meanC*meanC*varX + meanX*meanX*varC + varC*varX)}
}

// byShrinkage: D_F/D_I = (1 - S u_F)/(1 - S u_I), the same as the printed
// equation with S a fraction and u = 1 - M/F. Delta method about the means, with
// the mixed second derivatives in S and u.
func byShrinkage(s, from, to uncertain) relative {
	value := (1-s.value*to.value)/(1-s.value*from.value) - 1
	sm, ui, uf := s.value+s.bias, from.value+from.bias, to.value+to.bias
	ri, rf := 1-sm*ui, 1-sm*uf
	gs := (ui - uf) / (ri * ri)
	gi := sm * rf / (ri * ri)
	gf := -sm / ri
	hi := 1/(ri*ri) + 2*sm*(ui-uf)/(ri*ri*ri)
	hf := -1 / (ri * ri)
	vs, vi, vf := s.sd*s.sd, from.sd*from.sd, to.sd*to.sd
	return relative{
		value: value, mean: rf/ri - 1,
		sd: math.Sqrt(gs*gs*vs + gi*gi*vi + gf*gf*vf + vs*(hi*hi*vi+hf*hf*vf)),
	}
}
