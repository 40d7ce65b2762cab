package shape

import (
	"strconv"

	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/section"
)

// Render draws the section or lists its outline.
func (r *SectionShapeResult) Render(name string) ([]byte, error) {
	if name == wire.TableForm.Name {
		return r.table(), nil
	}
	return r.picture().draw(), nil
}

// table is the outline as CSV (RFC 4180). A section that holds the pith has no
// outline after the change: those cells are empty.
func (r *SectionShapeResult) table() []byte {
	unit := r.report.LengthUnit
	text := []byte("point,before_y_" + unit + ",before_z_" + unit + ",after_y_" + unit + ",after_z_" + unit + "\r\n")
	before, after := r.corners(), []OutlinePoint(nil)
	if r.Outline != nil {
		before, after = r.Outline.Before, r.Outline.After
	}
	for i := range before {
		text = strconv.AppendInt(text, int64(i+1), 10)
		cells := []float64{before[i].Y, before[i].Z}
		if after != nil {
			cells = append(cells, after[i].Y, after[i].Z)
		}
		for _, v := range cells {
			text = append(text, ',')
			text = wire.AppendIn(text, unit, v)
		}
		if after == nil {
			text = append(text, ",,"...)
		}
		text = append(text, "\r\n"...)
	}
	return text
}

// corners are those of the section before the change.
func (r *SectionShapeResult) corners() []OutlinePoint {
	y, z, unit := r.Start.Width.Value, r.Start.Thickness.Value, r.Start.Width.Unit
	return []OutlinePoint{{0, 0, unit}, {y, 0, unit}, {y, z, unit}, {0, z, unit}}
}

// picture is what the drawing shows.
func (r *SectionShapeResult) picture() *sectionPicture {
	s, in := &r.section, r.report.LengthUnit
	p := &sectionPicture{
		summary: r.Summary, width: s.Width.Format(in), thickness: s.Thickness.Format(in),
		w: float64(s.Width), t: float64(s.Thickness), px: float64(s.PithX), py: float64(s.PithY),
		figures: r.figures(), changes: "Radial strain " + percentText(r.Radial) + ", tangential " + percentText(r.Tangential),
	}
	p.heading = r.called(p.width + " x " + p.thickness)
	if h := r.heart; h != nil {
		gap := &h.Gap
		p.held = &heldPith{h.Opens, float64(gap.Lower.Value), float64(gap.Upper.Value), float64(gap.Left.Value),
			float64(gap.Right.Value)}
	}
	if r.outline != nil {
		p.before, p.after = drawn(r.outline.Before), drawn(r.outline.After)
	}
	return p
}

// called is the title of the drawing.
func (r *SectionShapeResult) called(sizes string) string { return r.Wood.Common + ", " + sizes }

func drawn(points []section.Point) []drawing.Point {
	out := make([]drawing.Point, 0, len(points))
	for _, p := range points {
		out = append(out, drawing.At(float64(p.X), float64(p.Y)))
	}
	return out
}

// figures are the numbers with their bands.
func (r *SectionShapeResult) figures() [][2]string {
	var rows [][2]string
	add := func(name string, b wire.Band) {
		rows = append(rows, [2]string{name, bandText(b)})
	}
	if s := r.Shape; s != nil {
		for i, f := range s.Faces[:2] {
			cup := f.Cup
			if f.WithGradient != nil {
				cup = *f.WithGradient
			}
			add("cup of "+faces[i].words+", + to bark", cup)
		}
		add("width of face 1", s.WidthFace1)
		add("width of face 2", s.WidthFace2)
		add("thickness in the middle", s.ThicknessMiddle)
		add("thickness at the near edge", s.ThicknessNear)
		if s.FlatWithGradient != nil {
			add("planed flat", *s.FlatWithGradient)
		} else {
			add("planed flat", s.Flat)
			add("ripped in two, planed flat", s.RippedFlat)
		}
	}
	if h := r.Heart; h != nil {
		rows = append(rows, [2]string{"opening of the check", angleText(h.Opening)})
		add("gap at face 1", h.Face1Gap)
		add("gap at face 2", h.Face2Gap)
		add("gap at the near edge", h.NearGap)
		add("gap at the far edge", h.FarGap)
	}
	if l := r.Lengthwise; l != nil {
		if l.Twist != nil {
			rows = append(rows, [2]string{"twist, end to end", angleText(*l.Twist)})
		}
		if l.Crook != nil {
			add("crook, + hollow on the far edge", *l.Crook)
		}
		if l.Bow != nil {
			add("bow, + hollow on face 1", *l.Bow)
		}
	}
	return rows
}

// RenderShown draws it for a screen that has so many px for it.
func (r *SectionShapeResult) RenderShown(width int) ([]byte, error) {
	p := r.picture()
	p.heading = r.called(r.given)
	return p.drawShown(width), nil
}
