package shape

import (
	"math"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

func (w *sectionWork) describe() (*SectionResult, error) {
	r := &SectionResult{
		Wood: w.wood.Used("radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation"),
		From: wire.MoistureBandOf(w.from), To: wire.MoistureBandOf(w.to), Radial: wire.PercentBandOf(w.changed.Radial), Tangential: wire.PercentBandOf(w.changed.Tangential), work: w,
	}
	if err := w.start(r); err != nil {
		return nil, err
	}
	if w.bent != nil {
		r.Gradient = &GradientBend{Curvature: curvatureBand(w.bent.Curvature), Cup: w.report.LengthBand(w.bent.Cup), MeanPct: wire.PercentBandOf(w.bent.Mean), Words: gradientWords(w.bent.Cup.Value)}
	}
	if w.changed.Heart != nil {
		r.Heart = w.heart()
	} else {
		if err := w.shape(r); err != nil {
			return nil, err
		}
	}
	if err := w.lengthwise(r); err != nil {
		return nil, err
	}
	r.Summary = w.summary(r)
	return r, nil
}

func (w *sectionWork) start(r *SectionResult) error {
	s := &w.section
	rings, err := section.Rings(*s)
	if err != nil {
		return w.pointed(err)
	}
	r.Start = SectionStart{
		Width: w.report.Length(s.Width), Thickness: w.report.Length(s.Thickness),
		Pith:  PithPlace{Depth: w.report.Length(-s.PithY - s.Thickness/2), Offset: w.report.Length(s.PithX), Inside: w.changed.Heart != nil},
		Rings: RingAngles{rings[1][0].Angle.Degrees(), rings[1][1].Angle.Degrees(), rings[1][2].Angle.Degrees()},
	}
	return nil
}

// barkAbove and the others say where the bark lies from a side: away from the
// pith, square to that side.
func (w *sectionWork) barkAbove(y quantity.Length) bool   { return y > w.section.PithY }
func (w *sectionWork) barkToRight(x quantity.Length) bool { return x > w.section.PithX }

// stillFlat is the cup below which a face counts as flat.
const stillFlat = 1 * quantity.Micrometre

// face describes one side. outward says that the bark lies on the outer side of
// it: then a curve that opens to the bark makes that face hollow.
func (w *sectionWork) face(name string, cup quantity.Band[quantity.Length], outward bool) FaceCup {
	f := FaceCup{Face: name, Cup: w.report.LengthBand(cup)}
	if w.bent != nil && (name == "lower" || name == "upper") {
		// Both come from the shrinkage of one piece, so the half widths of the bands add.
		cup = added(cup, w.upwards(outward == (name == "upper")))
		both := w.report.LengthBand(cup)
		f.WithGradient = &both
	}
	kind := " face"
	if name == "left" || name == "right" {
		kind = " edge"
	}
	if math.Abs(float64(cup.Value)) < float64(stillFlat) {
		f.Sense, f.Words = staysFlat, "the "+name+kind+" stays straight"
		return f
	}
	f.Sense = hollowToPith
	towards := "the pith"
	if cup.Value > 0 {
		f.Sense, towards = hollowToBark, "the bark"
	}
	is := "round"
	if cup.Value > 0 == outward {
		is = "hollow"
	}
	f.Words = "the " + name + kind + " becomes " + is + ": its curve opens to " + towards
	return f
}

func (w *sectionWork) shape(r *SectionResult) error {
	s, c := w.changed.Shape, w.changed.Shape.Cup
	half := w.section.Thickness / 2
	side := w.section.Width / 2
	shape := &SectionShape{
		Faces: []FaceCup{
			w.face("lower", c.Lower, !w.barkAbove(-half)), w.face("upper", c.Upper, w.barkAbove(half)),
			w.face("left", c.Left, !w.barkToRight(-side)), w.face("right", c.Right, w.barkToRight(side)),
		},
		LowerWidth: w.report.LengthBand(s.Width.Lower), MiddleWidth: w.report.LengthBand(s.Width.Middle), UpperWidth: w.report.LengthBand(s.Width.Upper),
		LeftThick: w.report.LengthBand(s.Thickness.Left), MiddleThick: w.report.LengthBand(s.Thickness.Middle), RightThick: w.report.LengthBand(s.Thickness.Right),
		Rising: w.report.LengthBand(s.Diagonals.Rising), Falling: w.report.LengthBand(s.Diagonals.Falling),
		Corners: CornerAngles{angleBand(s.Corners.LowerLeft), angleBand(s.Corners.LowerRight), angleBand(s.Corners.UpperRight), angleBand(s.Corners.UpperLeft)},
		Flat:    w.report.LengthBand(s.Flat), RippedFlat: w.report.LengthBand(s.Ripped),
	}
	if err := w.halves(shape); err != nil {
		return err
	}
	if w.bent != nil {
		shape.FlatWithLevel = w.flatWithGradient()
	}
	r.Shape = shape
	return w.outline(r)
}

// halves are the cups after ripping down the middle.
func (w *sectionWork) halves(shape *SectionShape) error {
	for _, half := range []struct {
		name string
		x    quantity.Length
	}{{"left", -w.section.Width / 4}, {"right", w.section.Width / 4}} {
		s := w.section
		s.Width /= 2
		s.PithX -= half.x
		got, err := section.Change(s, w.a, w.b, w.wood.Value)
		if err != nil {
			return w.pointed(err)
		}
		if got.Shape == nil { // the section as a whole does not hold the pith, so no half does
			continue
		}
		shape.HalvesRipped = append(shape.HalvesRipped, RippedHalf{half.name, w.report.LengthBand(got.Shape.Cup.Lower), w.report.LengthBand(got.Shape.Cup.Upper)})
	}
	return nil
}

// flatWithGradient is about what is left when the board is planed flat with the
// bend of the gradient in it: both faces bend alike, so planing them takes the
// whole sagitta off.
func (w *sectionWork) flatWithGradient() *wire.QuantityBand {
	uniform := w.changed.Shape.Cup.Lower
	both := added(uniform, w.upwards(w.barkAbove(-w.section.Thickness/2)))
	more := quantity.Length(math.Abs(float64(both.Value)) - math.Abs(float64(uniform.Value)))
	spread := max(w.bent.Cup.High-w.bent.Cup.Value, w.bent.Cup.Value-w.bent.Cup.Low)
	flat := w.changed.Shape.Flat
	left := w.report.LengthBand(quantity.Band[quantity.Length]{Value: max(0, flat.Value-more), Low: max(0, flat.Low-more-spread), High: max(0, flat.High-more+spread)})
	return &left
}

// upwards is the bend of the gradient in the sense of the cup of a face with the
// bark above or below.
func (w *sectionWork) upwards(barkAbove bool) quantity.Band[quantity.Length] {
	if barkAbove {
		return w.bent.Cup
	}
	return opposite(w.bent.Cup)
}

func added[T ~float64](a, b quantity.Band[T]) quantity.Band[T] {
	return quantity.Band[T]{Value: a.Value + b.Value, Low: a.Low + b.Low, High: a.High + b.High}
}

func gradientWords(cup quantity.Length) string {
	switch {
	case math.Abs(float64(cup)) < float64(stillFlat):
		return "shell and core move alike: no bend from that"
	case cup > 0:
		return "the upper face shrinks more or swells less and draws hollow"
	}
	return "the lower face shrinks more or swells less and draws hollow"
}

func (w *sectionWork) heart() *BoxedHeart {
	h := w.changed.Heart
	out := &BoxedHeart{
		Opens: h.Opens, Opening: angleBand(h.Opening), LowerGap: w.report.LengthBand(h.Gap.Lower), UpperGap: w.report.LengthBand(h.Gap.Upper),
		LeftGap: w.report.LengthBand(h.Gap.Left), RightGap: w.report.LengthBand(h.Gap.Right),
		Words: "boxed heart: with equal change along the radius and the rings nothing opens",
	}
	switch {
	case h.Opens:
		out.Words = "boxed heart: the rings shrink more than the radius lets them, and a check opens from the pith, most often to the nearest side; no board with the pith in it dries without stress"
	case h.Opening.Value < 0:
		out.Words = "boxed heart: the rings swell more than the radius lets them; nothing opens, and checks that are there close"
	}
	return out
}

// pointsPerSide of the outline: 100 points before and 100 after.
const pointsPerSide = 25

// outline fills in the points, with the bend of a gradient added to the height.
func (w *sectionWork) outline(r *SectionResult) error {
	drawn, err := section.Draw(w.section, w.changed.Radial.Value, w.changed.Tangential.Value, pointsPerSide)
	if err != nil {
		return w.pointed(err)
	}
	point := func(p section.Point) OutlinePoint {
		x, y := w.report.Length(p.X), w.report.Length(p.Y)
		return OutlinePoint{x.Value, y.Value, x.Unit}
	}
	r.Outline = &SectionOutline{Before: make([]OutlinePoint, 0, len(drawn.Before)), After: make([]OutlinePoint, 0, len(drawn.After))}
	for i := range drawn.Before {
		after := drawn.After[i]
		if w.bent != nil {
			after.Y += quantity.Length(w.bent.Curvature.Value/2) * after.X * after.X
		}
		r.Outline.Before, r.Outline.After = append(r.Outline.Before, point(drawn.Before[i])), append(r.Outline.After, point(after))
	}
	return nil
}

// lengthwise is twist, crook and bow.
func (w *sectionWork) lengthwise(r *SectionResult) error {
	in := w.req.Lengthway
	if in == nil {
		return nil
	}
	if in.Spiral == nil && in.Edges == nil && in.Faces == nil {
		return wire.Missing("lengthwise", "say spiral_deg for twist, edge_difference_pct for crook or face_difference_pct for bow")
	}
	if in.SpiralSD != nil && in.Spiral == nil {
		return wire.Contradictory("lengthwise/spiral_sd_deg", "spiral_sd_deg goes with spiral_deg")
	}
	out := &LengthwiseShape{}
	if in.Spiral != nil {
		twisted, err := w.twist(in)
		if err != nil {
			return err
		}
		a := angleBand(twisted.Angle)
		out.Twist = &a
	}
	for _, curve := range []struct {
		given *float64
		name  string
		depth quantity.Length
		into  **wire.QuantityBand
	}{{in.Edges, "edge_difference_pct", w.section.Width, &out.Crook}, {in.Faces, "face_difference_pct", w.section.Thickness, &out.Bow}} {
		if curve.given == nil {
			continue
		}
		d := *curve.given / 100
		bowed, err := section.Crook(curve.depth, in.Length.SI, quantity.Band[float64]{Value: d, Low: d, High: d})
		if err != nil {
			return wire.Under("", err, [2]string{"depth", "lengthwise/length"}, [2]string{"length", "lengthwise/length"}, [2]string{"difference_pct", "lengthwise/" + curve.name})
		}
		w.notes.Merge(bowed.Notes)
		w.notes.Warn(method.Warning{Code: method.DefaultUsed, Method: "section.crook", Input: "lengthwise/" + curve.name, Detail: curve.name + " is taken as exact; the band does not hold its error"})
		w.remarkCurl("section.crook", "lengthwise/"+curve.name, bowed.Sagitta.Value, in.Length.SI)
		b := w.report.LengthBand(bowed.Sagitta)
		*curve.into = &b
	}
	r.Lengthwise = out
	return nil
}

func (w *sectionWork) twist(in *Lengthwise) (section.Twisted, error) {
	sd := quantity.Angle(0)
	if in.SpiralSD != nil {
		sd = quantity.Angle(*in.SpiralSD) * quantity.Degree
	}
	t := w.changed.Tangential
	shrinkage := quantity.Band[float64]{Value: -t.Value, Low: -t.High, High: -t.Low}
	r := quantity.Length(math.Hypot(float64(w.section.PithX), float64(w.section.PithY)))
	twisted, err := section.Twist(shrinkage, quantity.NormalBand(quantity.Angle(*in.Spiral)*quantity.Degree, sd), r, in.Length.SI)
	if err != nil {
		return twisted, w.pointed(wire.Under("", err, [2]string{"spiral_deg", "lengthwise/spiral_deg"}, [2]string{"length", "lengthwise/length"}))
	}
	w.notes.Merge(twisted.Notes)
	return twisted, nil
}

// summary has no lengths in it, so that it is the same in every system of units.
func (w *sectionWork) summary(r *SectionResult) string {
	from, to := quantity.FormatNumber(r.From.ValuePct, 1), quantity.FormatNumber(r.To.ValuePct, 1)
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

// Render draws the section or lists its outline.
func (r *SectionResult) Render(name string) ([]byte, error) { //nolint:unparam // other results have forms they cannot give
	if name == wire.TableForm.Name {
		return r.table(), nil
	}
	return r.draw(), nil
}

// table is the outline as CSV (RFC 4180). A section that holds the pith has no
// outline after the change: those cells are empty.
func (r *SectionResult) table() []byte {
	unit := r.work.report.LengthUnit
	text := []byte("point,before_x_" + unit + ",before_y_" + unit + ",after_x_" + unit + ",after_y_" + unit + "\r\n")
	before, after := r.corners(), []OutlinePoint(nil)
	if r.Outline != nil {
		before, after = r.Outline.Before, r.Outline.After
	}
	for i := range before {
		text = strconv.AppendInt(text, int64(i+1), 10)
		cells := []float64{before[i].X, before[i].Y}
		if after != nil {
			cells = append(cells, after[i].X, after[i].Y)
		}
		for _, v := range cells {
			text = append(text, ',')
			text = strconv.AppendFloat(text, v, 'f', 5, 64)
		}
		if after == nil {
			text = append(text, ",,"...)
		}
		text = append(text, "\r\n"...)
	}
	return text
}

// corners are those of the section before the change.
func (r *SectionResult) corners() []OutlinePoint {
	x, y, unit := r.Start.Width.Value/2, r.Start.Thickness.Value/2, r.Start.Width.Unit
	return []OutlinePoint{{-x, -y, unit}, {x, -y, unit}, {x, y, unit}, {-x, y, unit}}
}
