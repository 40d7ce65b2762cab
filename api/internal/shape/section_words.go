package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

func describeSection(s *section.Section, w *section.Warped, wood *shelf.Wood, report wire.Reporter) *SectionShapeResult {
	r := &SectionShapeResult{
		Wood: wood.UsedInMovement(), From: wire.MoistureBandOf(w.From), To: wire.MoistureBandOf(w.To),
		Radial: wire.PercentBandOf(w.Radial), Tangential: wire.PercentBandOf(w.Tangential),
		Start: SectionStart{
			Width: report.Cut(s.Width), Thickness: report.Cut(s.Thickness),
			Pith:  describePith(s, w.Heart != nil, report),
			Rings: RingAngles{w.Left.Degrees(), w.Middle.Degrees(), w.Right.Degrees()},
		},
		report: report, section: *s, heart: w.Heart,
	}
	if g := w.Gradient; g != nil {
		r.Gradient = &GradientBend{Curvature: report.CurvatureBand(g.Curvature), Cup: report.LengthBand(g.Cup),
			WidthStrain: wire.PercentBandOf(g.Mean), Detail: hollowWords[w.Hollow]}
	}
	if w.Heart != nil {
		r.Heart = describeHeart(w.Heart, report)
	}
	if w.Free != nil {
		r.Shape, r.Outline, r.outline = describeShape(w.Free, report), describeOutline(s, &w.Free.Outline, report),
			&w.Free.Outline
	}
	if w.Lengthwise != nil {
		r.Lengthwise = describeLengthwise(w.Lengthwise, report)
	}
	r.Summary = sectionSummary(r, w.Free != nil && w.Free.Skewed)
	if s.Straight() {
		r.Summary += "; the rings are taken as straight, and any curve of theirs would cup it"
	}
	return r
}

func describePith(s *section.Section, inside bool, report wire.Reporter) *PithPlace {
	if s.Straight() {
		return nil
	}
	y, z := s.Pith()
	return &PithPlace{Y: report.Length(y), Z: report.Length(z), Inside: inside}
}

func describeShape(f *section.Free, report wire.Reporter) *SectionShape {
	band := report.LengthBand
	shape := &SectionShape{
		WidthFace1: band(f.Width.Upper), WidthMiddle: band(f.Width.Middle), WidthFace2: band(f.Width.Lower),
		ThicknessNear: band(f.Thickness.Left), ThicknessMiddle: band(f.Thickness.Middle),
		ThicknessFar:  band(f.Thickness.Right),
		DiagonalFace1: band(f.Diagonals.Falling), DiagonalFace2: band(f.Diagonals.Rising),
		Corners: CornerAngles{wire.AngleBandOf(f.Corners.UpperLeft), wire.AngleBandOf(f.Corners.UpperRight),
			wire.AngleBandOf(f.Corners.LowerLeft), wire.AngleBandOf(f.Corners.LowerRight)},
		Flat: band(f.Flat), RippedFlat: band(f.Ripped),
		Faces: make([]FaceCup, 0, len(f.Sides)), HalvesRipped: make([]RippedHalf, 0, len(f.Halves)),
	}
	for _, face := range faces {
		for i := range f.Sides {
			if s := &f.Sides[i]; s.Name == face.side {
				shape.Faces = append(shape.Faces, describeSide(s, face.name, face.words, report))
			}
		}
	}
	for _, half := range f.Halves {
		shape.HalvesRipped = append(shape.HalvesRipped, RippedHalf{edgeNames[half.Name], band(half.Cup.Upper), band(half.Cup.Lower)})
	}
	if f.FlatWithGradient != nil {
		left := band(*f.FlatWithGradient)
		shape.FlatWithGradient = &left
	}
	return shape
}

// faces are the sides of a section as the chapter and as the frame call them.
var faces = []struct{ side, name, words string }{
	{"upper", "face_1", "face 1"}, {"lower", "face_2", "face 2"},
	{"left", "near", "the near edge"}, {"right", "far", "the far edge"},
}

// edgeNames are the halves and edges of a section in the frame.
var edgeNames = map[string]string{"left": "near", "right": "far"}

// hollowSides are the ways in which the curve of a face opens.
var hollowSides = map[section.Sense]string{section.HollowToBark: "bark", section.HollowToPith: "pith", section.StaysFlat: "none"}

func describeSide(s *section.Side, face, words string, report wire.Reporter) FaceCup {
	f := FaceCup{Face: face, Cup: report.LengthBand(s.Cup), HollowSide: hollowSides[s.Sense]}
	if s.WithGradient != nil {
		both := report.LengthBand(*s.WithGradient)
		f.WithGradient = &both
	}
	is := "hollow"
	if s.Round {
		is = "round"
	}
	switch s.Sense {
	case section.StaysFlat:
		f.Detail = words + " stays straight"
	case section.HollowToBark:
		f.Detail = words + " becomes " + is + ": its curve opens to the bark"
	case section.HollowToPith:
		f.Detail = words + " becomes " + is + ": its curve opens to the pith"
	}
	return f
}

// hollowWords say which face a gradient makes hollow.
var hollowWords = map[section.Hollow]string{
	section.NoFace:    "shell and core move alike: no bend from that",
	section.UpperFace: "face 1 shrinks more or swells less and draws hollow",
	section.LowerFace: "face 2 shrinks more or swells less and draws hollow",
}

func describeHeart(h *section.Heart, report wire.Reporter) *BoxedHeart {
	out := &BoxedHeart{
		Opens: h.Opens, Opening: wire.AngleBandOf(h.Opening),
		Face1Gap: report.LengthBand(h.Gap.Upper), Face2Gap: report.LengthBand(h.Gap.Lower),
		NearGap: report.LengthBand(h.Gap.Left), FarGap: report.LengthBand(h.Gap.Right),
		Detail: "boxed heart: with equal change along the radius and the rings nothing opens",
	}
	switch {
	case h.Opens:
		out.Detail = "boxed heart: the rings shrink more than the radius lets them, and a check opens from the pith, most " +
			"often to the nearest side; no board with the pith in it dries without stress"
	case h.Opening.Value < 0:
		out.Detail = "boxed heart: the rings swell more than the radius lets them; nothing opens, and checks that are " +
			"there close"
	}
	return out
}

// describeOutline goes round as a reader of the frame does: along face 1 first. The chapter
// goes the other way, from the near corner of face 2.
func describeOutline(s *section.Section, o *section.Outline, report wire.Reporter) *SectionOutline {
	n := len(o.Before)
	out := &SectionOutline{Before: make([]OutlinePoint, 0, n), After: make([]OutlinePoint, 0, n)}
	for i := range n {
		k := (3*n/4 - i + n) % n
		out.Before, out.After = append(out.Before, outlinePoint(s, o.Before[k], report)), append(out.After, outlinePoint(s, o.After[k], report))
	}
	return out
}

func outlinePoint(s *section.Section, p section.Point, report wire.Reporter) OutlinePoint {
	across, into := s.FromCorner(p)
	y, z := report.Length(across), report.Length(into)
	return OutlinePoint{y.Value, z.Value, y.Unit}
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

// sectionSummary has no lengths in it, so that it is the same in every system of units. What goes
// out of square by more than it cups is told first.
func sectionSummary(r *SectionShapeResult, skewed bool) string {
	from, to := quantity.FormatNumber(r.From.Value, 1), quantity.FormatNumber(r.To.Value, 1)
	head := "from " + from + " to " + to + " %: "
	if r.Heart != nil {
		return head + r.Heart.Detail
	}
	out := head + "free of load "
	if skewed {
		c := &r.Shape.Corners
		out += "it goes out of square: the corner of the near edge comes to " + quantity.FormatNumber(c.NearFace1.Value, 1) +
			" degrees on face 1 and to " + quantity.FormatNumber(c.NearFace2.Value, 1) + " on face 2; "
	}
	out += r.Shape.Faces[0].Detail + "; " + r.Shape.Faces[1].Detail
	if r.Gradient != nil {
		out += "; shell and core: " + r.Gradient.Detail
	}
	return out
}
