package shape

import (
	"math"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

// LaminateResult is what becomes of layers glued flat.
type LaminateResult struct {
	Summary    string            `json:"summary" required:"true" description:"the answer in a sentence"`
	Cup        wire.QuantityBand `json:"cup" required:"true" description:"over the width; positive: hollow above"`
	Bow        wire.QuantityBand `json:"bow" required:"true" description:"over the length; positive: hollow above"`
	CornerLift wire.QuantityBand `json:"corner_lift" required:"true" description:"three corners down, how far the fourth stands up; the sign says which diagonal"`
	Length     wire.QuantityBand `json:"change_of_length" required:"true" description:"at mid-thickness; positive is swelling"`
	Width      wire.QuantityBand `json:"change_of_width" required:"true"`
	ShearDeg   AngleBand         `json:"shear" required:"true" description:"change of the corners in the plane of the panel"`
	Across     CurvatureBand     `json:"curvature_across" required:"true" description:"over the width; positive: hollow above"`
	Along      CurvatureBand     `json:"curvature_along" required:"true" description:"over the length; positive: hollow above"`
	Twist      CurvatureBand     `json:"twist" required:"true" description:"engineering twist curvature of the surface; the corner lift is this times length times width over 2"`
	Symmetric  bool              `json:"symmetric" required:"true" description:"the layup is a mirror image about mid-thickness: it stays flat but for differences between pieces, which are in the bands"`
	Balanced   bool              `json:"balanced" required:"true" description:"no shear of the plane"`
	Layers     []LayerHeld       `json:"layers" required:"true" nullable:"false" description:"from the bottom up"`
	GlueLines  []GlueHeld        `json:"glue_lines" required:"true" nullable:"false" description:"between each layer and the next above"`
	Creep      CreepLeft         `json:"creep" required:"true"`
	Strip      *StripBent        `json:"strip,omitempty" description:"for two layers with the grain along the length: across the width alone, as for a cap on a body"`
	work       *laminateWork
	warped     *laminate.Warped
}

// StressBand is a stress with the ends of its 90 % band.
type StressBand = wire.QuantityBand

// LayerHeld is what a layer holds.
type LayerHeld struct {
	Wood     shelf.WoodUsed   `json:"wood" required:"true"`
	AtGlueUp wire.PercentBand `json:"at_glue_up" required:"true" description:"moisture content"`
	Later    wire.PercentBand `json:"later" required:"true"`
	Modulus  wire.Quantity    `json:"modulus_along" required:"true" description:"of elasticity along the grain, 1.10 of that from bending"`
	FreeLong wire.PercentBand `json:"free_along" required:"true" description:"change along the grain, had it not been glued"`
	FreeWide wire.PercentBand `json:"free_across" required:"true" description:"change across the grain, had it not been glued"`
	Lower    FaceHeld         `json:"lower_face" required:"true"`
	Upper    FaceHeld         `json:"upper_face" required:"true"`
}

// FaceHeld is the state at one face of a layer, positive in tension.
type FaceHeld struct {
	StrainAlong  wire.PercentBand `json:"strain_along" required:"true" description:"along the grain, from the size it would have free"`
	StrainAcross wire.PercentBand `json:"strain_across" required:"true"`
	StressAlong  StressBand       `json:"stress_along" required:"true" description:"elastic; see creep"`
	StressAcross StressBand       `json:"stress_across" required:"true"`
}

// OrderBand is an order of magnitude, not a 90 % band.
type OrderBand struct {
	Value float64 `json:"value" required:"true"`
	Low   float64 `json:"third" required:"true"`
	High  float64 `json:"threefold" required:"true"`
	Unit  string  `json:"unit" required:"true"`
}

// GlueHeld is what the glue between two layers carries at the edges.
type GlueHeld struct {
	Length  wire.QuantityBand `json:"free_difference_along" required:"true" description:"change of the upper layer less that of the lower over the length, had they not been glued; the band takes both layers as independent"`
	Width   wire.QuantityBand `json:"free_difference_across" required:"true" description:"the same over the width"`
	AtEnds  GlueEdge          `json:"at_ends" required:"true" description:"edges across the length"`
	AtSides GlueEdge          `json:"at_sides" required:"true" description:"edges along the length"`
	Limits  string            `json:"limits" required:"true" description:"how far the estimate goes"`
}

// GlueEdge is the order of the stress at one pair of edges.
type GlueEdge struct {
	Shear OrderBand     `json:"shear" required:"true"`
	Peel  OrderBand     `json:"peel" required:"true" description:"size only: whether it opens or closes the joint depends on the stack"`
	Zone  wire.Quantity `json:"zone" required:"true" description:"how far in from the edge the stress falls to about a third"`
}

// CreepLeft says what creep leaves.
type CreepLeft struct {
	StressLow  float64 `json:"stress_low" required:"true" description:"share of the elastic stress that is left after weeks and months"`
	StressHigh float64 `json:"stress_high" required:"true"`
	BendLow    float64 `json:"bending_low" required:"true" description:"share of the elastic cup, bow and twist"`
	BendHigh   float64 `json:"bending_high" required:"true"`
	Remark     string  `json:"remark" required:"true"`
}

// StripBent is the strip of two layers.
type StripBent struct {
	Difference wire.PercentBand  `json:"strain_difference" required:"true" description:"change of the lower layer less that of the upper; positive: the upper becomes the narrower"`
	Free       wire.QuantityBand `json:"free_difference" required:"true" description:"of the widths, had they not been glued"`
	Ratio      float64           `json:"stiffness_ratio" required:"true" description:"of the upper layer over the lower"`
	Curvature  CurvatureBand     `json:"curvature" required:"true" description:"positive: hollow above"`
	Radius     *wire.Quantity    `json:"radius,omitempty" description:"left out where it stays flat"`
	Cup        wire.QuantityBand `json:"cup" required:"true" description:"over the width; positive: hollow above"`
	Remark     string            `json:"remark" required:"true"`
}

// stress shows a stress in MPa, or psi for inches.
func (w *laminateWork) stress(p quantity.Pressure) (value float64, unit string) {
	if unit = "MPa"; w.report.LengthUnit == "in" {
		unit = "psi"
	}
	value, _ = p.In(unit)
	return value, unit
}

func (w *laminateWork) stressBand(b quantity.Band[quantity.Pressure]) StressBand {
	value, unit := w.stress(b.Value)
	low, _ := w.stress(b.Low)
	high, _ := w.stress(b.High)
	return StressBand{Value: value, Low: low, High: high, Unit: unit}
}

func (w *laminateWork) orderBand(b quantity.Band[quantity.Pressure]) OrderBand {
	return OrderBand(w.stressBand(b))
}

// hollowAbove turns a curvature that counts hollow below as positive, so that
// curvature and sagitta of an answer have one sign.
func hollowAbove(b quantity.Band[float64]) CurvatureBand {
	return curvatureBand(opposite(b))
}

func opposite[T ~float64](b quantity.Band[T]) quantity.Band[T] {
	return quantity.Band[T]{Value: 0 - b.Value, Low: 0 - b.High, High: 0 - b.Low} // 0 - 0 is not -0
}

func (w *laminateWork) describe(p *laminate.Warped) *LaminateResult {
	r := &LaminateResult{
		Cup: w.report.LengthBand(p.Cup), Bow: w.report.LengthBand(p.Bow), CornerLift: w.report.LengthBand(p.CornerLift),
		Length: w.report.LengthBand(p.ChangeLength), Width: w.report.LengthBand(p.ChangeWidth), ShearDeg: angleBand(p.Shear),
		Across: hollowAbove(p.CurvatureY), Along: hollowAbove(p.CurvatureX), Twist: curvatureBand(p.TwistXY),
		Symmetric: p.Symmetric, Balanced: p.Balanced, work: w, warped: p, GlueLines: make([]GlueHeld, 0, len(p.GlueLines)),
		Creep: CreepLeft{p.Creep.StressLow, p.Creep.StressHigh, p.Creep.BendingLow, p.Creep.BendingHigh,
			"a range, not a 90 % band; assumed: wood under stress creeps, more so in air that changes. The answers above are elastic, as in the first days"},
	}
	for i := range p.Layers {
		r.Layers = append(r.Layers, w.held(i, &p.Layers[i]))
	}
	for i := range p.GlueLines {
		r.GlueLines = append(r.GlueLines, w.glueLine(i, p))
	}
	r.Summary = laminateSummary(p)
	return r
}

func (w *laminateWork) held(i int, k *laminate.Kept) LayerHeld {
	in := &w.panel.Layers[i]
	face := func(h *laminate.Held) FaceHeld {
		return FaceHeld{wire.PercentBandOf(h.StrainAlong), wire.PercentBandOf(h.StrainAcross), w.stressBand(h.StressAlong), w.stressBand(h.StressAcross)}
	}
	value, unit := w.stress(in.Elastic.EL)
	return LayerHeld{
		Wood: w.woods[i].Used("radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation",
			"modulus_of_elasticity_12", "et_el", "er_el", "glr_el", "glt_el", "grt_el", "poisson_lr", "poisson_lt", "poisson_rt"),
		AtGlueUp: wire.MoistureBandOf(in.AtGlueUp), Later: wire.MoistureBandOf(in.Later), Modulus: wire.Quantity{Value: value, Unit: unit},
		FreeLong: wire.PercentBandOf(k.Along), FreeWide: wire.PercentBandOf(k.Across), Lower: face(&k.Lower), Upper: face(&k.Upper),
	}
}

// glueLimits says how far the estimate of a glue line goes.
const glueLimits = "an order of magnitude within a few millimetres of the edge: third and threefold are a third and three times the value, assumed, not a 90 % band; elastic, before creep; inside the panel the glue carries nothing"

func (w *laminateWork) glueLine(i int, p *laminate.Warped) GlueHeld {
	edge := func(e *laminate.Edge) GlueEdge {
		return GlueEdge{w.orderBand(e.Shear), w.orderBand(e.Peel), w.report.Length(e.Zone)}
	}
	g := &p.GlueLines[i]
	below, above := w.free(i, &p.Layers[i]), w.free(i+1, &p.Layers[i+1])
	size := [2]quantity.Length{w.panel.Length, w.panel.Width}
	var free [2]wire.QuantityBand
	for c := range free {
		d := apart(above[c], below[c])
		free[c] = w.report.LengthBand(quantity.Band[quantity.Length]{
			Value: size[c] * quantity.Length(d.Value), Low: size[c] * quantity.Length(d.Low), High: size[c] * quantity.Length(d.High),
		})
	}
	return GlueHeld{Length: free[0], Width: free[1], AtEnds: edge(&g.AtEnds), AtSides: edge(&g.AtSides), Limits: glueLimits}
}

// free is the change of a layer along the length and the width of the panel, had
// it not been glued.
func (w *laminateWork) free(i int, k *laminate.Kept) [2]quantity.Band[float64] {
	s, c := math.Sincos(float64(w.panel.Layers[i].Grain))
	mix := func(along, across float64) quantity.Band[float64] {
		v := along*k.Along.Value + across*k.Across.Value
		return quantity.Band[float64]{
			Value: v,
			Low:   v - math.Hypot(along*(k.Along.Value-k.Along.Low), across*(k.Across.Value-k.Across.Low)),
			High:  v + math.Hypot(along*(k.Along.High-k.Along.Value), across*(k.Across.High-k.Across.Value)),
		}
	}
	return [2]quantity.Band[float64]{mix(c*c, s*s), mix(s*s, c*c)}
}

// apart is the difference of two independent figures: the ends combine by squares.
func apart(a, b quantity.Band[float64]) quantity.Band[float64] {
	v := a.Value - b.Value
	return quantity.Band[float64]{Value: v, Low: v - math.Hypot(a.Value-a.Low, b.High-b.Value), High: v + math.Hypot(a.High-a.Value, b.Value-b.Low)}
}

const stripRemark = "two narrow strips across the grain, without Poisson's ratios: an upper bound, creep makes it less. Its strains follow movement, by coefficient between 6 and 14 %; those of the panel follow the total shrinkage, so the two may differ by more than Poisson's ratios explain"

func (w *laminateWork) describeStrip(p *laminate.Pair, ratio quantity.Pressure) *StripBent {
	s := &StripBent{
		Difference: wire.PercentBandOf(p.Difference), Free: w.report.LengthBand(p.Free), Ratio: float64(ratio), Curvature: curvatureBand(p.Bent.Curvature),
		Cup: w.report.LengthBand(p.Bent.Cup), Remark: stripRemark,
	}
	if r := float64(p.Bent.Radius); !math.IsInf(r, 0) && r < straightEnough {
		v, _ := p.Bent.Radius.In(w.report.LongUnit)
		s.Radius = &wire.Quantity{Value: v, Unit: w.report.LongUnit}
	}
	return s
}

// straightEnough is the radius in metres beyond which a strip counts as straight.
const straightEnough = 1e9

// undecidedShare is the share of its band below which a bend has no direction
// worth telling. Own choice.
const undecidedShare = 0.2

func aboveOrBelow(l quantity.Length) string {
	if l > 0 {
		return "above"
	}
	return "below"
}

// laminateSummary has no lengths in it, so that it is the same in every system of
// units.
func laminateSummary(p *laminate.Warped) string {
	if p.Symmetric {
		return "a mirror image about mid-thickness: it stays flat, but for differences between pieces"
	}
	way := func(b quantity.Band[quantity.Length]) string {
		switch {
		case math.Abs(float64(b.Value)) < float64(stillFlat):
			return "stays about straight"
		case b.Low < 0 && b.High > 0 && math.Abs(float64(b.Value)) < undecidedShare*float64(b.High-b.Low):
			return "may bend either way"
		case b.Low < 0 && b.High > 0:
			return "probably becomes hollow " + aboveOrBelow(b.Value)
		}
		return "becomes hollow " + aboveOrBelow(b.Value)
	}
	across, along := way(p.Cup), way(p.Bow)
	text := "across the width the panel " + across + ", along the length it " + along
	if across == along {
		text = "the panel " + across + " both ways"
	}
	if math.Abs(float64(p.CornerLift.Value)) >= float64(stillFlat) {
		text += ", and twists"
	}
	return text
}
