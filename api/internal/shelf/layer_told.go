package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
)

// StressBand is a stress with the ends of its 90 % band.
type StressBand = wire.Band

// FaceStress is the state at one face of a layer, positive in tension.
type FaceStress struct {
	StrainAlong  wire.Band  `json:"strain_along" required:"true" description:"strain along the grain in percent of the size it would have free; positive: it is pulled"`
	StrainAcross wire.Band  `json:"strain_across" required:"true" description:"strain across the grain in percent of the size it would have free; positive: it is pulled"`
	StressAlong  StressBand `json:"stress_along" required:"true" description:"elastic stress along the grain, positive in tension; creep takes off a part"`
	StressAcross StressBand `json:"stress_across" required:"true" description:"elastic stress across the grain, positive in tension; creep takes off a part"`
}

// GlueLineStress is what the glue between two layers carries at the edges.
type GlueLineStress struct {
	Length  wire.Band `json:"free_difference_along" required:"true" description:"change of the upper layer less that of the lower over the length, had they not been glued; the band takes both layers as independent"`
	Width   wire.Band `json:"free_difference_across" required:"true" description:"the same over the width"`
	AtEnds  GlueEdge  `json:"at_ends" required:"true" description:"at the two edges across the length"`
	AtSides GlueEdge  `json:"at_sides" required:"true" description:"at the two edges along the length"`
	Note    string    `json:"note" required:"true" description:"how far the estimate goes"`
}

// GlueEdge is the order of the stress at one pair of edges.
type GlueEdge struct {
	Shear wire.Band     `json:"shear" required:"true" description:"shear stress in the glue at the edge, an order of magnitude: low and high are a third of it and three times it, no 90 % band"`
	Peel  wire.Band     `json:"peel" required:"true" description:"stress that peels the joint, its size only: whether it opens or closes the joint depends on the stack. An order of magnitude as shear is"`
	Zone  wire.Quantity `json:"zone" required:"true" description:"how far in from the edge the stress falls to about a third"`
}

// CreepLeft says what creep leaves.
type CreepLeft struct {
	Stress  wire.Range `json:"stress_share" required:"true" description:"share of the elastic stress that is left"`
	Bending wire.Range `json:"bending_share" required:"true" description:"share of the elastic cup, bow and twist that is left"`
	Note    string     `json:"note" required:"true" description:"what the shares rest on"`
}

// DescribeFace words the state at one face of a layer.
func DescribeFace(h *laminate.Held, report wire.Reporter) FaceStress {
	return FaceStress{wire.PercentBandOf(h.StrainAlong), wire.PercentBandOf(h.StrainAcross),
		report.StressBand(h.StressAlong), report.StressBand(h.StressAcross)}
}

// DescribeGlueLine words what a glue line carries.
func DescribeGlueLine(g *laminate.GlueLine, report wire.Reporter) GlueLineStress {
	edge := func(e *laminate.Edge) GlueEdge {
		return GlueEdge{report.StressBand(e.Shear), report.StressBand(e.Peel), report.Length(e.Zone)}
	}
	return GlueLineStress{
		Length: report.LengthBand(g.FreeLength), Width: report.LengthBand(g.FreeWidth), AtEnds: edge(&g.AtEnds),
		AtSides: edge(&g.AtSides),
		Note: "an order of magnitude within " + report.FewMillimetres() +
			" of the edge: low and high are a third and three times the value, assumed, not a 90 % band; elastic, " +
			"before creep; inside the panel the glue carries nothing",
	}
}

// DescribeCreep words what creep leaves.
func DescribeCreep(c *laminate.Creep) CreepLeft {
	left := func(low, high float64) wire.Range {
		return wire.Range{Low: 100 * low, High: 100 * high, Unit: "%"}
	}
	return CreepLeft{left(c.StressLow, c.StressHigh), left(c.BendingLow, c.BendingHigh),
		"a range, not a 90 % band; assumed: wood under stress creeps, more so in air that changes. The answers above are " +
			"elastic, as in the first days"}
}
