package section

import (
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// Warped is what becomes of a board.
type Warped struct {
	From, To           quantity.Band[quantity.Moisture] // of a profile the mean
	Radial, Tangential quantity.Band[float64]           // relative change, positive when it swells
	Left, Middle       quantity.Angle                   // ring angles at mid-thickness, before
	Right              quantity.Angle
	Heart              *Heart // only for a section that holds the pith; then nothing of Free
	Free               *Free
	Gradient           *Bent // only for a profile
	Hollow             Hollow
	Lengthwise         *Lengthwise
	Notes              method.Notes
}

// Free is the section after the change, free of stress.
type Free struct {
	Shape
	Sides  []Side
	Halves []Half
	// FlatWithGradient is Flat with the bend of the gradient in it; nil without one.
	FlatWithGradient *quantity.Band[quantity.Length]
	Outline          Outline // with the bend of the gradient in After
	// Skewed says that the section goes out of square by more than its faces cup.
	Skewed bool
}

// leastSkew is what a square shows. Own choice.
const leastSkew = 0.1 * quantity.Degree

// skewed reports that a section goes out of square, as a parallelogram does, by more over its
// thickness than its faces cup.
func (f *Free) skewed(s *Section) bool {
	c := &f.Corners
	skew := (c.LowerLeft.Value - c.LowerRight.Value + c.UpperRight.Value - c.UpperLeft.Value) / 4
	skew = max(skew, -skew)
	cup := quantity.Length(0)
	for i := range f.Sides {
		if one := &f.Sides[i]; one.Name == "lower" || one.Name == "upper" {
			moved := one.Cup.Value
			if one.WithGradient != nil {
				moved = one.WithGradient.Value
			}
			cup = max(cup, moved, -moved)
		}
	}
	return skew >= leastSkew && quantity.Length(skew.Tan())*s.Thickness > cup
}

// Half is one half of a section ripped down the middle. It does not matter whether it is
// ripped before or after the change.
type Half struct {
	Name string // left, right
	Cup  Sides
}

// PointsPerSide is the number of points on each side of the outline of a board.
const PointsPerSide = 25

// Warp returns what becomes of the section of a board, and of its length.
//
// Errors: as Change; as CheckProfile and Gradient for a profile, which is unsupported
// (levels) where the section holds the pith; missing for lengthwise without a cause,
// contradictory for lengthwise/spiral_sd_deg without a spiral, out_of_range for
// lengthwise/spiral_deg, lengthwise/length, lengthwise/edge_difference_pct,
// lengthwise/face_difference_pct and pith_distance.
// Accuracy: as Change, Gradient, Twist and Crook.
// Source: Change, Gradient, Twist, Crook.
func Warp(b Board) (Warped, error) {
	if err := CheckProfile(b.Profile); err != nil {
		return Warped{}, err
	}
	var out Warped
	told, computed, levels := b.moisture()
	out.From, out.To = told[0], told[1]
	changed, err := Change(b.Section, computed[0], computed[1], b.Wood)
	if err != nil {
		return Warped{}, err
	}
	out.Radial, out.Tangential, out.Heart = changed.Radial, changed.Tangential, changed.Heart
	out.Notes.Merge(changed.Notes)
	movement.NoteOnset(&b.Wood, &out.Notes)
	if err := b.bend(&out, levels); err != nil {
		return Warped{}, err
	}
	rings, err := Rings(b.Section)
	if err != nil {
		return Warped{}, err
	}
	out.Left, out.Middle, out.Right = rings[1][0].Angle, rings[1][1].Angle, rings[1][2].Angle
	if changed.Shape != nil {
		if out.Free, err = b.free(&out, changed.Shape, computed); err != nil {
			return Warped{}, err
		}
	}
	out.Lengthwise, err = b.along(&out.Notes, out.Tangential)
	return out, err
}

// bend adds the bend of the levels.
func (b *Board) bend(out *Warped, levels []Level) error {
	if levels == nil {
		return nil
	}
	if out.Heart != nil {
		return &method.Error{Code: method.Unsupported, Input: "levels",
			Detail: "a section that holds the pith has no one ring angle to bend about; leave the profile out and give one moisture content at the start and one at the end"}
	}
	ring, err := RingAt(b.Section, Point{})
	if err != nil {
		return err
	}
	bent, err := Gradient(b.Section.Thickness, b.Section.Width, ring.Angle, levels, b.Wood)
	if err != nil {
		return err
	}
	out.Notes.Merge(ring.Notes)
	out.Notes.Merge(bent.Notes)
	out.Notes.Warn(method.Warning{Code: method.Assumption, Method: gradientRow.ID, Input: "levels",
		Detail: "the bend by shell and core takes the ring angle in the middle for the whole width, and wood that neither " +
			"creeps nor sets; the cup is that of the mean moisture content and both are added"})
	noteCurl(&out.Notes, &gradientRow, "levels", bent.Cup.Value, b.Section.Width)
	out.Gradient, out.Hollow = &bent, bent.hollow()
	return nil
}

// free is the shape with all that follows from it.
func (b *Board) free(w *Warped, shape *Shape, mc [2]quantity.Band[quantity.Moisture]) (*Free, error) {
	out := &Free{Shape: *shape, Sides: b.Section.sides(shape.Cup, w.Gradient)}
	for _, half := range []struct {
		name string
		x    quantity.Length
	}{{"left", -b.Section.Width / 4}, {"right", b.Section.Width / 4}} {
		s := b.Section
		s.Width /= 2
		s.PithX -= half.x
		changed, err := Change(s, mc[0], mc[1], b.Wood)
		if err != nil {
			return nil, err
		}
		if changed.Shape != nil { // always: the section as a whole does not hold the pith
			out.Halves = append(out.Halves, Half{half.name, changed.Shape.Cup})
		}
	}
	if w.Gradient != nil {
		left := w.Gradient.flatWith(&b.Section, shape.Cup.Lower, shape.Flat)
		out.FlatWithGradient = &left
	}
	out.Skewed = out.skewed(&b.Section)
	var err error
	if out.Outline, err = Draw(b.Section, w.Radial.Value, w.Tangential.Value, PointsPerSide); err != nil {
		return nil, err
	}
	if w.Gradient != nil {
		for i := range out.Outline.After {
			after := &out.Outline.After[i]
			after.Y += quantity.Length(w.Gradient.Curvature.Value/2) * after.X * after.X
		}
	}
	return out, nil
}
