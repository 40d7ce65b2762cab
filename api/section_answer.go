package api

import (
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// SectionResult is what becomes of the shape of a section.
type SectionResult struct {
	Wood       WoodUsed         `json:"wood" required:"true"`
	Summary    string           `json:"summary" required:"true" description:"the answer in a sentence"`
	From       PercentBand      `json:"from" required:"true" description:"moisture content at the start; of levels the mean, with nothing above fibre saturation counted"`
	To         PercentBand      `json:"to" required:"true"`
	Radial     PercentBand      `json:"radial_change" required:"true" description:"along the radius, in percent of the size; positive is swelling"`
	Tangential PercentBand      `json:"tangential_change" required:"true" description:"along the rings"`
	Start      SectionStart     `json:"start" required:"true"`
	Shape      *SectionShape    `json:"shape,omitempty" description:"left out for a section that holds the pith: it has no shape free of stress"`
	Heart      *BoxedHeart      `json:"boxed_heart,omitempty" description:"only for a section that holds the pith"`
	Gradient   *GradientBend    `json:"gradient,omitempty" description:"with levels"`
	Lengthwise *LengthwiseShape `json:"lengthwise_shape,omitempty"`
	Outline    *SectionOutline  `json:"outline,omitempty" description:"middle values; points from the middle of the section, x to the right and y up, anticlockwise from the lower left corner; left out for a section that holds the pith"`
	work       *sectionWork
}

// SectionStart is the section before the change.
type SectionStart struct {
	Width     Quantity   `json:"width" required:"true"`
	Thickness Quantity   `json:"thickness" required:"true"`
	Pith      PithPlace  `json:"pith" required:"true"`
	Rings     RingAngles `json:"ring_angles" required:"true" description:"at mid-thickness; 0 along the width, 90 across it"`
}

// PithPlace is where the pith is.
type PithPlace struct {
	Depth  Quantity `json:"depth" required:"true" description:"below the lower face"`
	Offset Quantity `json:"offset" required:"true" description:"to the right of mid-width"`
	Inside bool     `json:"inside" required:"true" description:"a boxed heart"`
}

// RingAngles are the ring angles across a section.
type RingAngles struct {
	Left   float64 `json:"left_deg" required:"true"`
	Middle float64 `json:"middle_deg" required:"true"`
	Right  float64 `json:"right_deg" required:"true"`
}

// Senses of a cup.
const (
	hollowToBark = "hollow_to_the_bark"
	hollowToPith = "hollow_to_the_pith"
	staysFlat    = "flat"
)

// FaceCup is the cup of one face.
type FaceCup struct {
	Face         string        `json:"face" required:"true" enum:"lower,upper,left,right"`
	Cup          QuantityBand  `json:"cup" required:"true" description:"how far the face departs from straight; positive: its curve opens towards the bark, negative: towards the pith"`
	Sense        string        `json:"sense" required:"true" enum:"hollow_to_the_bark,hollow_to_the_pith,flat" description:"which way the curve opens, with the gradient where there is one"`
	Words        string        `json:"in_words" required:"true"`
	WithGradient *QuantityBand `json:"with_gradient,omitempty" description:"the cup and the bend by the gradient together; the band adds both, because they come from one piece"`
}

// SectionShape is the section after the change, free of stress.
type SectionShape struct {
	Faces         []FaceCup     `json:"faces" required:"true" nullable:"false"`
	LowerWidth    QuantityBand  `json:"lower_width" required:"true" description:"straight from corner to corner along the lower face"`
	MiddleWidth   QuantityBand  `json:"middle_width" required:"true"`
	UpperWidth    QuantityBand  `json:"upper_width" required:"true"`
	LeftThick     QuantityBand  `json:"left_thickness" required:"true"`
	MiddleThick   QuantityBand  `json:"middle_thickness" required:"true"`
	RightThick    QuantityBand  `json:"right_thickness" required:"true"`
	Rising        QuantityBand  `json:"rising_diagonal" required:"true" description:"lower left to upper right"`
	Falling       QuantityBand  `json:"falling_diagonal" required:"true" description:"upper left to lower right; unlike the other where the section goes out of square"`
	Corners       CornerAngles  `json:"corners" required:"true"`
	Flat          QuantityBand  `json:"planed_flat" required:"true" description:"thickness left when both faces are planed flat over the full width; without any gradient"`
	RippedFlat    QuantityBand  `json:"ripped_planed_flat" required:"true" description:"the same for the worse half after ripping down the middle, kerf not counted, without any gradient"`
	HalvesRipped  []RippedHalf  `json:"ripped_halves" required:"true" nullable:"false" description:"cup of the wide faces of each half; it does not matter whether the board is ripped before or after it moves"`
	FlatWithLevel *QuantityBand `json:"planed_flat_with_gradient,omitempty" description:"with levels: about what the gradient leaves of planed_flat, taken off both faces over the full width"`
}

// RippedHalf is one half of a section ripped down the middle.
type RippedHalf struct {
	Half  string       `json:"half" required:"true" enum:"left,right"`
	Lower QuantityBand `json:"lower_cup" required:"true"`
	Upper QuantityBand `json:"upper_cup" required:"true"`
}

// AngleBand is an angle in degrees with the ends of its 90 % band.
type AngleBand struct {
	ValueDeg float64 `json:"value_deg" required:"true"`
	LowDeg   float64 `json:"low_deg" required:"true" description:"5 % of cases lie below"`
	HighDeg  float64 `json:"high_deg" required:"true" description:"5 % of cases lie above"`
}

func angleBand(b quantity.Band[quantity.Angle]) AngleBand {
	return AngleBand{b.Value.Degrees(), b.Low.Degrees(), b.High.Degrees()}
}

// CornerAngles are the corners, 90 degrees before.
type CornerAngles struct {
	LowerLeft  AngleBand `json:"lower_left" required:"true"`
	LowerRight AngleBand `json:"lower_right" required:"true"`
	UpperRight AngleBand `json:"upper_right" required:"true"`
	UpperLeft  AngleBand `json:"upper_left" required:"true"`
}

// BoxedHeart is what happens to a section that holds the pith.
type BoxedHeart struct {
	Opens    bool         `json:"opens" required:"true" description:"a check opens; false: nothing opens, and old checks close"`
	Opening  AngleBand    `json:"opening" required:"true" description:"angle by which the full circle fails to close, of one check or shared by several"`
	LowerGap QuantityBand `json:"lower_gap" required:"true" description:"how wide one check from the pith square to this side opens there, if it takes all of the opening"`
	UpperGap QuantityBand `json:"upper_gap" required:"true"`
	LeftGap  QuantityBand `json:"left_gap" required:"true"`
	RightGap QuantityBand `json:"right_gap" required:"true"`
	Words    string       `json:"in_words" required:"true"`
}

// CurvatureBand is a curvature with the ends of its 90 % band.
type CurvatureBand struct {
	Value float64 `json:"value_per_m" required:"true"`
	Low   float64 `json:"low_per_m" required:"true"`
	High  float64 `json:"high_per_m" required:"true"`
}

func curvatureBand(b quantity.Band[float64]) CurvatureBand {
	return CurvatureBand{b.Value, b.Low, b.High}
}

// GradientBend is the bend by a difference between shell and core.
type GradientBend struct {
	Curvature CurvatureBand `json:"curvature" required:"true" description:"positive: hollow above"`
	Cup       QuantityBand  `json:"cup" required:"true" description:"over the width; positive: hollow above"`
	MeanPct   PercentBand   `json:"mean_width_change" required:"true"`
	Words     string        `json:"in_words" required:"true"`
}

// LengthwiseShape is how the piece bends and twists along its length.
type LengthwiseShape struct {
	Twist *AngleBand    `json:"twist,omitempty" description:"from end to end, in the sense of the spiral where it dries"`
	Crook *QuantityBand `json:"crook,omitempty" description:"of the edges over the length; positive: hollow on the right edge"`
	Bow   *QuantityBand `json:"bow,omitempty" description:"of the faces over the length; positive: hollow on the upper face"`
}

// SectionOutline is the edge of the section before and after.
type SectionOutline struct {
	Before []OutlinePoint `json:"before" required:"true" nullable:"false"`
	After  []OutlinePoint `json:"after" required:"true" nullable:"false" description:"with the bend by a gradient, if there is one; the middle and the direction of its ring have not moved"`
}

// OutlinePoint is a place on the end grain.
type OutlinePoint struct {
	X    float64 `json:"x" required:"true"`
	Y    float64 `json:"y" required:"true"`
	Unit string  `json:"unit" required:"true"`
}

func (w *sectionWork) describe() (*SectionResult, error) {
	r := &SectionResult{
		Wood: w.wood.used("radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation"),
		From: moistureBand(w.from), To: moistureBand(w.to), Radial: percentBand(w.changed.Radial), Tangential: percentBand(w.changed.Tangential), work: w,
	}
	if err := w.start(r); err != nil {
		return nil, err
	}
	if w.bent != nil {
		r.Gradient = &GradientBend{Curvature: curvatureBand(w.bent.Curvature), Cup: w.report.LengthBand(w.bent.Cup), MeanPct: percentBand(w.bent.Mean), Words: gradientWords(w.bent.Cup.Value)}
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
		got, err := section.Change(s, w.a, w.b, w.wood.figures)
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
func (w *sectionWork) flatWithGradient() *QuantityBand {
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
		return missing("lengthwise", "say spiral_deg for twist, edge_difference_pct for crook or face_difference_pct for bow")
	}
	if in.SpiralSD != nil && in.Spiral == nil {
		return contradictory("lengthwise/spiral_sd_deg", "spiral_sd_deg goes with spiral_deg")
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
		into  **QuantityBand
	}{{in.Edges, "edge_difference_pct", w.section.Width, &out.Crook}, {in.Faces, "face_difference_pct", w.section.Thickness, &out.Bow}} {
		if curve.given == nil {
			continue
		}
		d := *curve.given / 100
		bowed, err := section.Crook(curve.depth, in.Length.SI, quantity.Band[float64]{Value: d, Low: d, High: d})
		if err != nil {
			return under("", err, [2]string{"depth", "lengthwise/length"}, [2]string{"length", "lengthwise/length"}, [2]string{"difference_pct", "lengthwise/" + curve.name})
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
		return twisted, w.pointed(under("", err, [2]string{"spiral_deg", "lengthwise/spiral_deg"}, [2]string{"length", "lengthwise/length"}))
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

// render draws the section or lists its outline.
func (r *SectionResult) render(name string) ([]byte, error) { //nolint:unparam // other results have forms they cannot give
	if name == tableForm.name {
		return r.table(), nil
	}
	return r.draw(), nil
}

// table is the outline as CSV (RFC 4180). A section that holds the pith has no
// outline after the change: those cells are empty.
func (r *SectionResult) table() []byte {
	unit := r.work.report.length
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
