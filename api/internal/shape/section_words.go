package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// sectionFigures are the values of a wood that its section rests on.
var sectionFigures = []string{"radial", "tangential", "coefficient_radial", "coefficient_tangential",
	"coefficient_fibre_saturation", "fibre_saturation"}

func describeSection(s *section.Section, w *section.Warped, wood *shelf.Wood, report wire.Reporter) *SectionResult {
	r := &SectionResult{
		Wood: wood.Used(sectionFigures...), From: wire.MoistureBandOf(w.From), To: wire.MoistureBandOf(w.To),
		Radial: wire.PercentBandOf(w.Radial), Tangential: wire.PercentBandOf(w.Tangential),
		Start: SectionStart{
			Width: report.Length(s.Width), Thickness: report.Length(s.Thickness),
			Pith:  PithPlace{Depth: report.Length(s.PithDepth()), Offset: report.Length(s.PithX), Inside: w.Heart != nil},
			Rings: RingAngles{w.Left.Degrees(), w.Middle.Degrees(), w.Right.Degrees()},
		},
		report: report, section: *s, heart: w.Heart,
	}
	if g := w.Gradient; g != nil {
		r.Gradient = &GradientBend{Curvature: wire.CurvatureBandOf(g.Curvature), Cup: report.LengthBand(g.Cup),
			MeanPct: wire.PercentBandOf(g.Mean), Words: hollowWords[w.Hollow]}
	}
	if w.Heart != nil {
		r.Heart = describeHeart(w.Heart, report)
	}
	if w.Free != nil {
		r.Shape, r.Outline, r.outline = describeShape(w.Free, report), describeOutline(&w.Free.Outline, report),
			&w.Free.Outline
	}
	if w.Lengthwise != nil {
		r.Lengthwise = describeLengthwise(w.Lengthwise, report)
	}
	r.Summary = sectionSummary(r)
	return r
}

func describeShape(f *section.Free, report wire.Reporter) *SectionShape {
	band := report.LengthBand
	shape := &SectionShape{
		LowerWidth: band(f.Width.Lower), MiddleWidth: band(f.Width.Middle), UpperWidth: band(f.Width.Upper),
		LeftThick: band(f.Thickness.Left), MiddleThick: band(f.Thickness.Middle), RightThick: band(f.Thickness.Right),
		Rising: band(f.Diagonals.Rising), Falling: band(f.Diagonals.Falling),
		Corners: CornerAngles{wire.AngleBandOf(f.Corners.LowerLeft), wire.AngleBandOf(f.Corners.LowerRight),
			wire.AngleBandOf(f.Corners.UpperRight), wire.AngleBandOf(f.Corners.UpperLeft)},
		Flat: band(f.Flat), RippedFlat: band(f.Ripped),
		Faces: make([]FaceCup, 0, len(f.Sides)), HalvesRipped: make([]RippedHalf, 0, len(f.Halves)),
	}
	for i := range f.Sides {
		shape.Faces = append(shape.Faces, describeSide(&f.Sides[i], report))
	}
	for _, half := range f.Halves {
		shape.HalvesRipped = append(shape.HalvesRipped, RippedHalf{half.Name, band(half.Cup.Lower), band(half.Cup.Upper)})
	}
	if f.FlatWithGradient != nil {
		left := band(*f.FlatWithGradient)
		shape.FlatWithLevel = &left
	}
	return shape
}

func describeSide(s *section.Side, report wire.Reporter) FaceCup {
	f := FaceCup{Face: s.Name, Cup: report.LengthBand(s.Cup), Sense: string(s.Sense)}
	if s.WithGradient != nil {
		both := report.LengthBand(*s.WithGradient)
		f.WithGradient = &both
	}
	name := "the " + s.Name + " face"
	if s.Name == "left" || s.Name == "right" {
		name = "the " + s.Name + " edge"
	}
	is := "hollow"
	if s.Round {
		is = "round"
	}
	switch s.Sense {
	case section.StaysFlat:
		f.Words = name + " stays straight"
	case section.HollowToBark:
		f.Words = name + " becomes " + is + ": its curve opens to the bark"
	case section.HollowToPith:
		f.Words = name + " becomes " + is + ": its curve opens to the pith"
	}
	return f
}

// hollowWords say which face a gradient makes hollow.
var hollowWords = map[section.Hollow]string{
	section.NoFace:    "shell and core move alike: no bend from that",
	section.UpperFace: "the upper face shrinks more or swells less and draws hollow",
	section.LowerFace: "the lower face shrinks more or swells less and draws hollow",
}

func describeHeart(h *section.Heart, report wire.Reporter) *BoxedHeart {
	out := &BoxedHeart{
		Opens: h.Opens, Opening: wire.AngleBandOf(h.Opening), LowerGap: report.LengthBand(h.Gap.Lower),
		UpperGap: report.LengthBand(h.Gap.Upper),
		LeftGap:  report.LengthBand(h.Gap.Left), RightGap: report.LengthBand(h.Gap.Right),
		Words: "boxed heart: with equal change along the radius and the rings nothing opens",
	}
	switch {
	case h.Opens:
		out.Words = "boxed heart: the rings shrink more than the radius lets them, and a check opens from the pith, most " +
			"often to the nearest side; no board with the pith in it dries without stress"
	case h.Opening.Value < 0:
		out.Words = "boxed heart: the rings swell more than the radius lets them; nothing opens, and checks that are " +
			"there close"
	}
	return out
}

func describeOutline(o *section.Outline, report wire.Reporter) *SectionOutline {
	point := func(p section.Point) OutlinePoint {
		x, y := report.Length(p.X), report.Length(p.Y)
		return OutlinePoint{x.Value, y.Value, x.Unit}
	}
	out := &SectionOutline{Before: make([]OutlinePoint, 0, len(o.Before)), After: make([]OutlinePoint, 0, len(o.After))}
	for i := range o.Before {
		out.Before, out.After = append(out.Before, point(o.Before[i])), append(out.After, point(o.After[i]))
	}
	return out
}

func describeLengthwise(l *section.Lengthwise, report wire.Reporter) *LengthwiseShape {
	out := &LengthwiseShape{}
	if l.Twist != nil {
		a := wire.AngleBandOf(*l.Twist)
		out.Twist = &a
	}
	if l.Crook != nil {
		b := report.LengthBand(*l.Crook)
		out.Crook = &b
	}
	if l.Bow != nil {
		b := report.LengthBand(*l.Bow)
		out.Bow = &b
	}
	return out
}

// sectionSummary has no lengths in it, so that it is the same in every system of units.
func sectionSummary(r *SectionResult) string {
	from, to := quantity.FormatNumber(r.From.Value, 1), quantity.FormatNumber(r.To.Value, 1)
	head := "from " + from + " to " + to + " %: "
	if r.Heart != nil {
		return head + r.Heart.Words
	}
	out := head + "free of load " + r.Shape.Faces[0].Words + "; " + r.Shape.Faces[1].Words
	if r.Gradient != nil {
		out += "; shell and core: " + r.Gradient.Words
	}
	return out
}
