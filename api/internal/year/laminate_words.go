package year

import (
	"math"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// layerFigures are the values of a wood that the year of a layer rests on.
var layerFigures = append([]string{"longitudinal", "modulus_of_elasticity_12", "et_el", "er_el", "glr_el", "glt_el", "grt_el", "poisson_lr",
	"poisson_lt", "poisson_rt"}, partFigures...)

func describeLayered(l *layered, y *inservice.LayeredYear, c *calendar, report wire.Reporter) LaminateThroughYear {
	out := LaminateThroughYear{
		ID: l.id, Name: l.req.Name, Outside: describeFinish(l.Faces[0]), Inside: describeFinish(l.Faces[1]),
		TimeConstant: y.Lag.Days(), Delay: y.Delay.Days(), Driest: describeLayeredState(&y.Dry, c, report),
		Wettest: describeLayeredState(&y.Wet, c, report), SwingMC: y.Swing.Mean.Percent(),
		Swing: LaminateSwing{report.LengthBand(y.Swing.Cup), report.LengthBand(y.Swing.Bow), report.LengthBand(y.Swing.CornerLift),
			report.LengthBand(y.Swing.ChangeLength), report.LengthBand(y.Swing.ChangeWidth)},
		CupExtremes: describeBendEnds(&y.CupEnds, c, report), BowExtremes: describeBendEnds(&y.BowEnds, c, report),
		Creep: shelf.DescribeCreep(&y.Dry.Glued.Creep), Series: make([]LaminatePoint, 0, len(y.Times)), called: l.Name,
		Layers: make([]LayerThroughYear, 0, len(y.Layers)),
	}
	for i := range y.Layers {
		one, in := &y.Layers[i], &l.req.Layers[i]
		out.Layers = append(out.Layers, LayerThroughYear{
			ID: shelf.IDOf(in.ID, i), Name: in.Name, Wood: l.woods[i].Used(layerFigures...), Factor: shelf.DescribeFactor(&l.factors[i]),
			GlueUp: wire.MoistureBandOf(l.Layers[i].AtGlueUp), TimeConstant: one.Lag.Days(), Delay: one.Delay.Days(),
			Driest:  FigureState{c.on(one.Dry.At), wire.MoistureBandOf(one.Dry.Mean)},
			Wettest: FigureState{c.on(one.Wet.At), wire.MoistureBandOf(one.Wet.Mean)},
		})
	}
	for k, at := range y.Times {
		out.Series = append(out.Series, LaminatePoint{c.on(at), wire.MoistureBandOf(y.Mean[k]), report.LengthBand(y.Cup[k]),
			report.LengthBand(y.Bow[k])})
	}
	return out
}

func describeBendEnds(ends *[2]inservice.BendAt, c *calendar, report wire.Reporter) BendExtremes {
	on := func(b *inservice.BendAt) BendDay { return BendDay{c.on(b.At), report.LengthBand(b.Bend)} }
	return BendExtremes{on(&ends[0]), on(&ends[1])}
}

// describeLayeredState words a state; the chapter's panel counts from face 2.
func describeLayeredState(s *inservice.LayeredState, c *calendar, report wire.Reporter) LaminateState {
	g := &s.Glued
	out := LaminateState{
		Day: c.on(s.At), Mean: wire.MoistureBandOf(s.Mean), Cup: report.LengthBand(g.Cup), Bow: report.LengthBand(g.Bow),
		CornerLift: report.LengthBand(g.CornerLift), Length: report.LengthBand(g.ChangeLength), Width: report.LengthBand(g.ChangeWidth),
		Layers: make([]LayerState, 0, len(s.Layers)), GlueLines: make([]shelf.GlueLineStress, 0, len(g.GlueLines)),
	}
	for i := range s.Layers {
		k := len(s.Layers) - 1 - i
		mean, tilt := s.Layers[i].Value.Percent(), g.Stacked[k].Tilt.Percent()
		out.Layers = append(out.Layers, LayerState{
			MC: wire.MoistureBandOf(s.Layers[i]), Face1MC: mean + tilt/2, Face2MC: mean - tilt/2,
			Face1: shelf.DescribeFace(&g.Layers[k].Upper, report), Face2: shelf.DescribeFace(&g.Layers[k].Lower, report),
		})
	}
	for i := len(g.GlueLines) - 1; i >= 0; i-- {
		out.GlueLines = append(out.GlueLines, shelf.DescribeGlueLine(&g.GlueLines[i], report))
	}
	return out
}

// layeredSummary tells what bends most in the year, on its driest and its wettest day and, where
// it bends further on others, on those, and what the glue carries.
func layeredSummary(name string, y *inservice.LayeredYear, c *calendar, report wire.Reporter) string {
	way, dry, wet, ends := "cup", y.Dry.Glued.Cup.Value, y.Wet.Glued.Cup.Value, y.CupEnds
	if apart(y.BowEnds) > apart(y.CupEnds) {
		way, dry, wet, ends = "bow", y.Dry.Glued.Bow.Value, y.Wet.Glued.Bow.Value, y.BowEnds
	}
	on := " on its driest day, about " + c.spoken(y.Dry.At)
	wettest := " on its wettest, about " + c.spoken(y.Wet.At)
	text := name + ": " + way + " " + hollow(dry, report) + on + ", and " + hollow(wet, report) + wettest +
		", a swing of " + said(quantity.Length(math.Abs(float64(wet-dry))), report)
	if apart(ends) > 1.2*quantity.Length(math.Abs(float64(wet-dry))) {
		text += "; furthest on other days: " + hollow(ends[0].Bend.Value, report) + " about " + c.spoken(ends[0].At) + ", " +
			hollow(ends[1].Bend.Value, report) + " about " + c.spoken(ends[1].At)
	}
	if isFlat(dry) && isFlat(wet) && isFlat(ends[0].Bend.Value) && isFlat(ends[1].Bend.Value) {
		text = name + ": flat, but for differences between pieces" + bentByPieces(y, report) + ", from its driest day, about " +
			c.spoken(y.Dry.At) + ", to its wettest, about " + c.spoken(y.Wet.At)
	}
	if kind, most := mostInGlue(y); most > leastTold {
		text += "; the glue bears " + kind + " of the order of " + report.RoughStress(most) + " at its edges"
	}
	return text
}

// bentByPieces tells how far pieces that differ may bend what is flat in the middle of its
// bands; nothing where that is not seen.
func bentByPieces(y *inservice.LayeredYear, report wire.Reporter) string {
	way, most := "cup", furthest(y.CupEnds)
	if bow := furthest(y.BowEnds); bow > most {
		way, most = "bow", bow
	}
	if isFlat(most) {
		return ""
	}
	return ", which may " + way + " it " + said(most, report) + " either way"
}

// furthest is the furthest that the bands of both ends of a bend reach.
func furthest(ends [2]inservice.BendAt) (most quantity.Length) {
	for _, e := range ends {
		most = max(most, e.Bend.High, -e.Bend.Low)
	}
	return most
}

// apart is how far the furthest bends of the year are from each other.
func apart(ends [2]inservice.BendAt) quantity.Length { return ends[0].Bend.Value - ends[1].Bend.Value }

func isFlat(l quantity.Length) bool { return math.Abs(float64(l)) < float64(section.StillFlat) }

// said is a length for people.
func said(l quantity.Length, report wire.Reporter) string {
	q := report.Length(l)
	return quantity.FormatNumber(q.Value, report.Places()) + " " + q.Unit
}

// hollow tells a bend with its side.
func hollow(l quantity.Length, report wire.Reporter) string {
	switch {
	case isFlat(l):
		return "none"
	case l > 0:
		return said(l, report) + " hollow on face 1"
	}
	return said(-l, report) + " hollow on face 2"
}

// leastTold is the stress of glue below which none is told: layers that move alike. Own choice.
const leastTold = 0.01 * quantity.Megapascal

// mostInGlue is the largest stress of all glue lines on both days, and whether it is shear or
// peel.
func mostInGlue(y *inservice.LayeredYear) (kind string, most quantity.Pressure) {
	for _, s := range []*inservice.LayeredState{&y.Dry, &y.Wet} {
		for i := range s.Glued.GlueLines {
			for _, e := range []*laminate.Edge{&s.Glued.GlueLines[i].AtEnds, &s.Glued.GlueLines[i].AtSides} {
				if e.Shear.Value > most {
					kind, most = "shear", e.Shear.Value
				}
				if e.Peel.Value > most {
					kind, most = "peel", e.Peel.Value
				}
			}
		}
	}
	return kind, most
}
