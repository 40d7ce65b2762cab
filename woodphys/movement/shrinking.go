package movement

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

var blendRow = method.Method{
	ID: "movement.blend", Chapter: "movement",
	Summary:  "Movement of a wood by all its published figures together",
	Equation: "size = 1 - s(M), s = S - r M to 0.7 F, from there in a straight line to 0 at F; r the mean of the rates of all forms, each weighted by 1/sd^2",
	Inputs: []method.Input{
		{Name: "differential_radial", Unit: "1/%MC", Fitted: method.Range{Low: 0.0004, High: 0.005}, Limit: method.Range{Low: 1e-5, High: 0.02}},
		{Name: "differential_tangential", Unit: "1/%MC", Fitted: method.Range{Low: 0.0004, High: 0.006}, Limit: method.Range{Low: 1e-5, High: 0.02}},
		{Name: "swelling_volumetric", Unit: "1/%MC", Fitted: method.Range{Low: 0.001, High: 0.008}, Limit: method.Range{Low: 2e-5, High: 0.03}},
	},
	Accuracy: "a rate that rests on total shrinkage alone or on the swelling of trees has an error of its own of 21 % (1 SD) and that of fibre saturation, one measured in the range of use 12 %; pieces vary by 15 % or as the trees that were measured; the band holds what each form gives",
	Source:   "mean of published forms, derived; errors of the forms from the spread of 76 differential and 174 volumetric figures about those of the total shrinkage (species/AGREEMENT.md)",
	Checked:  method.Derived,
}

// The errors of the forms as shares (1 SD). In 76 directions of woods with a differential
// figure ln of it over S/F has a root mean square of 0.26, in 174 with a measured
// volumetric one 0.18; over all 250 it is 0.21: so much a rate that is drawn in a straight
// line from fibre saturation, or means one drawn so, misses. Tables of differential shrinkage stray by 0.1 (Norway spruce 0.19,
// 0.16, 0.17).
const (
	lineSD         = 0.21
	volumetricSD   = 0.21
	differentialSD = 0.12
)

// kneeShare of fibre saturation is where a rate that was measured in the range of use
// ends: 21 %MC of 30. Own choice.
const kneeShare = 0.7

// differentialAt is the moisture content of the dimension that differential shrinkage is
// told of.
const differentialAt = 0.12

// rate is what one form says of a direction.
type rate struct {
	form  Form
	value float64 // of the green dimension, per unit of moisture content (a fraction); of that at the start where linear
	sd    float64 // error of the form, as a share
}

// shrinking is how a wood shrinks in one direction: the share of the green dimension
// that is lost at a moisture content, in two straight lines.
type shrinking struct {
	onset, knee quantity.Moisture
	total       float64 // S
	rate        float64 // below the knee, per unit of moisture content
	// linear: no total shrinkage is known; the rate counts on the dimension at the start, as
	// the coefficient form is printed.
	linear  bool
	pieces  float64 // variation between pieces, as a share
	form    float64 // error of the rate, as a share
	figure  float64 // error of S itself, as a share of it
	byTotal float64 // share of the rate that follows S
	rates   [4]rate // by form
	known   int
}

// fibres are the figures of one direction.
type fibres struct{ total, coefficient, differential wood.Figure }

func radialOf(w *wood.Wood) fibres {
	return fibres{w.Radial, w.CoefficientRadial, w.DifferentialRadial}
}

func tangentialOf(w *wood.Wood) fibres {
	return fibres{w.Tangential, w.CoefficientTangential, w.DifferentialTangential}
}

// shrinkingOf brings the forms of a direction together; known is false without any.
func shrinkingOf(f fibres, w *wood.Wood, onset quantity.Moisture) (s shrinking, known bool) {
	s = shrinking{onset: onset, knee: kneeShare * onset, total: f.total.Value, figure: f.total.Share(), pieces: shrinkageCV}
	s.linear = !f.total.Known
	if v := w.SwellingVolumetric; v.Known {
		s.pieces = math.Max(s.pieces, v.Share())
	}
	s.gather(f, w)
	if s.known == 0 {
		return s, false
	}
	s.blend()
	return s, true
}

// gather turns each form into a rate.
func (s *shrinking) gather(f fibres, w *wood.Wood) {
	line := math.Hypot(lineSD, saturationShare(w, s.onset))
	add := func(form Form, value, sd float64) {
		s.rates[s.known] = rate{form, value, sd}
		s.known++
	}
	// C counts on the dimension at 10 %MC, 1 - S + r 0.1, and q on that at 12 %MC
	ofGreen := func(perPoint, at float64) float64 {
		if s.linear {
			return 100 * perPoint
		}
		return 100 * perPoint * (1 - s.total) / (1 - 100*at*perPoint)
	}
	if f.total.Known {
		add(ByShrinkage, s.total/float64(s.onset), line)
	}
	if f.coefficient.Known {
		add(ByCoefficient, ofGreen(f.coefficient.Value, middleMC), line)
	}
	if f.differential.Known {
		add(ByDifferential, ofGreen(f.differential.Value, differentialAt), math.Hypot(differentialSD, f.differential.Share()))
	}
	if both := w.Radial.Value + w.Tangential.Value; f.total.Known && w.Radial.Known && w.Tangential.Known && w.SwellingVolumetric.Known {
		add(ByVolume, 100*w.SwellingVolumetric.Value*s.total/both, volumetricSD)
	}
}

// saturationShare is the standard deviation of the fibre saturation as a share of it.
func saturationShare(w *wood.Wood, onset quantity.Moisture) float64 {
	spread := w.FibreSaturationSpread
	if spread == 0 {
		spread = usualSpread
	}
	return float64(spread/onset) / quantity.Z90
}

// usualSpread is the half width of the band of a fibre saturation of which none is known.
// Own choice, as species by name: +/-3 %MC, and 5 where it is not the wood's own.
const usualSpread = 5 * quantity.PercentMC

// blend takes the mean of the rates. Coefficient and total shrinkage come from the same
// pieces, so both together weigh as one.
func (s *shrinking) blend() {
	sum, weights, byTotal, least := 0.0, 0.0, 0.0, math.Inf(1)
	lines := 0.0
	for _, r := range s.rates[:s.known] {
		if r.form == ByShrinkage || r.form == ByCoefficient {
			lines++
		}
	}
	for _, r := range s.rates[:s.known] {
		weight := 1 / (r.sd * r.sd)
		if r.form == ByShrinkage || r.form == ByCoefficient {
			weight /= lines
		}
		sum, weights, least = sum+weight*r.value, weights+weight, math.Min(least, r.sd)
		if r.form == ByShrinkage || r.form == ByVolume {
			byTotal += weight * r.value
		}
	}
	s.rate = sum / weights
	s.byTotal = byTotal / sum
	furthest := 0.0
	for _, r := range s.rates[:s.known] {
		furthest = math.Max(furthest, math.Abs(r.value/s.rate-1))
	}
	s.form = math.Max(least, furthest/quantity.Z90)
}

// only leaves one form of all, with the variation of pieces and what its own figure is unsure of;
// false where it is not there.
func (s *shrinking) only(form Form, f fibres) bool {
	unsure := map[Form]float64{ByCoefficient: f.coefficient.Share(), ByDifferential: f.differential.Share()}
	for _, r := range s.rates[:s.known] {
		if r.form == form {
			s.rate, s.form, s.figure = r.value, 0, 0
			s.pieces = math.Hypot(shrinkageCV, unsure[form])
			return true
		}
	}
	return false
}

// apart reports the smallest and the largest rate of the forms.
func (s *shrinking) apart() (least, most rate) {
	least, most = s.rates[0], s.rates[0]
	for _, r := range s.rates[1:s.known] {
		if r.value < least.value {
			least = r
		}
		if r.value > most.value {
			most = r
		}
	}
	return least, most
}

// hinges are the two straight lines: s(M) = first (F - M)+ + second (K - M)+.
type hinges struct {
	first, second float64
	at, knee      quantity.Moisture
}

// lines are those of a total shrinkage and a rate.
func (s *shrinking) lines(total, rate float64) hinges {
	if s.linear {
		return hinges{first: rate, at: s.onset, knee: s.knee}
	}
	if float64(s.knee)*rate >= total { // it starts to shrink below the knee
		return hinges{second: rate, at: s.onset, knee: quantity.Moisture(total / rate)}
	}
	first := (total - rate*float64(s.knee)) / float64(s.onset-s.knee)
	return hinges{first: first, second: rate - first, at: s.onset, knee: s.knee}
}

// lost is the share of the green dimension that is lost at m.
func (h hinges) lost(m quantity.Moisture) float64 {
	return h.first*math.Max(0, float64(h.at-m)) + h.second*math.Max(0, float64(h.knee-m))
}

// moments returns the mean and the standard deviation of lost over a normal moisture
// content with the standard deviation sd.
func (h hinges) moments(m quantity.Moisture, sd float64) (mean, deviation float64) {
	if sd == 0 {
		return h.lost(m), 0
	}
	a1, a2 := above(float64(h.at-m), sd)
	k1, k2 := above(float64(h.knee-m), sd)
	mean = h.first*a1 + h.second*k1
	// (F-M)+ (K-M)+ = (K-M)+^2 + (F-K) (K-M)+ for K <= F
	square := h.first*h.first*a2 + h.second*h.second*k2 + 2*h.first*h.second*(k2+float64(h.at-h.knee)*k1)
	return mean, math.Sqrt(math.Max(0, square-mean*mean))
}

// above returns the first two moments of (gap + sd Z)+.
func above(gap, sd float64) (first, second float64) {
	a := gap / sd
	below := math.Erfc(-a/math.Sqrt2) / 2              // Phi(a)
	density := math.Exp(-a*a/2) / math.Sqrt(2*math.Pi) // phi(a)
	return gap*below + sd*density, (gap*gap+sd*sd)*below + gap*sd*density
}

// lost is what is lost of the dimension at one moisture content, and what that hangs on.
type lost struct {
	value, mean float64 // the mean with the spread of the moisture content and of the form
	moisture    float64 // SD by the moisture content
	piece       float64 // change per SD of the piece
	form        float64 // by the rate of the form
	figure      float64 // by the total shrinkage itself
}

// at looks at the error of the rate from end to end of its 90 % band, so that nothing jumps
// where a line begins. The error is one of a ratio, lognormal.
func (s *shrinking) at(m quantity.Band[quantity.Moisture]) lost {
	h := s.lines(s.total, s.rate)
	out := lost{value: h.lost(m.Value)}
	mean, sd := h.moments(m.Value, float64(m.SD()))
	far := math.Exp(quantity.Z90 * s.form)
	// a rate faster than the total allows says that the total is too small
	most := s.rate * far
	fast, slow := s.lines(math.Max(s.total, most*float64(s.knee)), most).lost(m.Value), s.lines(s.total, s.rate/far).lost(m.Value)
	out.mean, out.moisture = mean+(fast+slow)/2-out.value, sd
	out.form = (fast - slow) / (2 * quantity.Z90)
	out.piece = s.pieces * out.mean
	more, less := s.lines(s.total*(1+s.figure), s.rate*(1+s.byTotal*s.figure)), s.lines(s.total*(1-s.figure), s.rate*(1-s.byTotal*s.figure))
	out.figure = (more.lost(m.Value) - less.lost(m.Value)) / 2
	return out
}
