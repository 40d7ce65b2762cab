package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

// layerFigures are the values of a wood that a glued layer rests on.
var layerFigures = shelf.Beside("modulus_of_elasticity_12", "et_el", "er_el", "glr_el", "glt_el", "grt_el",
	"poisson_lr", "poisson_lt", "poisson_rt")

func describeLaminate(req *LaminateRequest, s *laminate.Stack, g *laminate.Glued, woods []*shelf.Wood, report wire.Reporter) *LaminateResult {
	r := &LaminateResult{
		Cup: report.LengthBand(g.Cup), Bow: report.LengthBand(g.Bow), CornerLift: report.LengthBand(g.CornerLift),
		Length: report.LengthBand(g.ChangeLength), Width: report.LengthBand(g.ChangeWidth), ShearDeg: wire.AngleBandOf(g.Shear),
		Across: hollowAbove(g.CurvatureY, report), Along: hollowAbove(g.CurvatureX, report), Twist: report.CurvatureBand(g.TwistXY),
		Symmetric: g.Symmetric, Square: g.Balanced, GlueLines: make([]shelf.GlueLineStress, 0, len(g.GlueLines)),
		Creep:   shelf.DescribeCreep(&g.Creep),
		Summary: laminateSummary(g), report: report, stack: *s, glued: g,
		given: [2]string{req.Length.Given(), req.Width.Given()},
	}
	for i := range req.Layers { // from the top; the chapter counts from the bottom
		k := upside(i, req)
		l := describeLayer(&s.Layers[k], &g.Layers[k], woods[i], report)
		l.ID, l.Name = shelf.IDOf(req.Layers[i].ID, i), req.Layers[i].Name
		r.Layers = append(r.Layers, l)
	}
	for i := len(g.GlueLines) - 1; i >= 0; i-- {
		r.GlueLines = append(r.GlueLines, shelf.DescribeGlueLine(&g.GlueLines[i], report))
	}
	if g.Strip != nil {
		r.Strip = describeStrip(g.Strip, report)
	}
	return r
}

// hollowAbove turns a curvature that counts hollow below as positive, so that
// curvature and sagitta of an answer have one sign.
func hollowAbove(b quantity.Band[float64], report wire.Reporter) wire.Band {
	return report.CurvatureBand(quantity.Band[float64]{Value: 0 - b.Value, Low: 0 - b.High, High: 0 - b.Low}) // 0 - 0 is not -0
}

func describeLayer(l *laminate.Layer, k *laminate.Kept, w *shelf.Wood, report wire.Reporter) LayerStress {
	return LayerStress{
		Wood: w.Used(layerFigures...), GlueUp: wire.MoistureBandOf(l.AtGlueUp), Later: wire.MoistureBandOf(l.Later),
		Modulus:  report.Stress(l.Elastic.EL),
		FreeLong: wire.PercentBandOf(k.Along), FreeWide: wire.PercentBandOf(k.Across), Face1: shelf.DescribeFace(&k.Upper, report),
		Face2: shelf.DescribeFace(&k.Lower, report),
	}
}

const stripRemark = "two narrow strips across the grain, without Poisson's ratios: an upper bound, creep makes it " +
	"less. Its strains are those of movement and of the panel"

func describeStrip(p *laminate.PlainStrip, report wire.Reporter) *StripBent {
	s := &StripBent{
		Difference: wire.PercentBandOf(p.Difference), Free: report.LengthBand(p.Free), Ratio: p.Ratio,
		Curvature: report.CurvatureBand(p.Bent.Curvature),
		Cup:       report.LengthBand(p.Bent.Cup), Note: stripRemark,
	}
	if !p.Bent.Straight {
		radius := report.LongLength(p.Bent.Radius)
		s.Radius = &radius
	}
	return s
}

// laminateSummary has no lengths in it, so that it is the same in every system of
// units.
func laminateSummary(g *laminate.Glued) string {
	if g.Symmetric {
		return "a mirror image about mid-thickness: it stays flat, but for differences between pieces"
	}
	text := "across the width the panel " + tendencyWords(g.Across) + ", along the length it " + tendencyWords(g.Along)
	if g.Across == g.Along {
		text = "the panel " + tendencyWords(g.Across) + " both ways"
	}
	if g.Twists {
		text += ", and twists"
	}
	return text
}

func tendencyWords(t laminate.Tendency) string {
	side := " on face 2"
	if t.Above {
		side = " on face 1"
	}
	switch t.Sense {
	case laminate.StaysStraight:
		return "stays about straight"
	case laminate.EitherWay:
		return "may bend either way"
	case laminate.ProbablyHollow:
		return "probably becomes hollow" + side
	case laminate.Hollow:
	}
	return "becomes hollow" + side
}
