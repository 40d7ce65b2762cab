package cut

import (
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/resaw/plan"
)

// zoneOf reads a zone, which must reach into its billet.
func zoneOf(z *PlanZone, b *plan.Billet, report wire.Reporter) (plan.Zone, error) {
	out := plan.Zone{Kind: z.Kind, X0: z.XFrom.SI, X1: z.XTo.SI, Y0: z.YFrom.SI, Y1: z.YTo.SI,
		Z0: shelf.OptionalLength(z.ZFrom),
		Z1: shelf.OptionalLength(z.ZTo)}
	var all []error
	outside := func(member string, size quantity.Length, what string) {
		all = append(all, &method.Error{Code: method.OutOfRange, Input: member, Limit: "0 to " +
			size.AtMost(report.LengthUnit),
			Detail: "the zone lies outside the billet, which is " + size.Format(report.LengthUnit) + " " + what})
	}
	width, thick := widest(b), thickest(b)
	if b.ThicknessEnd != nil && b.ThicknessFarEdge != nil {
		thick = max(thick, *b.ThicknessEnd+*b.ThicknessFarEdge-b.Thickness)
	}
	for _, side := range []struct {
		axis     string
		from, to *wire.Length
		size     quantity.Length
		what     string
	}{{"x", z.XFrom, z.XTo, b.Length, "long"}, {"y", z.YFrom, z.YTo, width, "wide"},
		{"z", z.ZFrom, z.ZTo, thick, "thick"}} {
		from, to := side.axis+"_from", side.axis+"_to"
		switch {
		case side.from == nil && side.to == nil: // from face to face
		case side.from == nil:
			all = append(all, wire.Missing(from,
				from+" and "+to+" go together; without both the zone goes from face to face"))
		case side.to == nil:
			all = append(all, wire.Missing(to,
				from+" and "+to+" go together; without both the zone goes from face to face"))
		case side.to.SI <= side.from.SI:
			limit := "more than " + side.from.SI.AtLeast(side.to.Unit)
			all = append(all, &method.Error{Code: method.Contradictory, Input: to, Limit: limit, Detail: to +
				" must be " + limit + ", which is " + from})
		case side.to.SI <= 0 || side.from.SI >= side.size:
			outside(from, side.size, side.what)
		}
	}
	return out, errors.Join(all...)
}

// widest is the larger width of a billet.
func widest(b *plan.Billet) quantity.Length { return exact.Max(b.Width, b.WidthEnd) }

// thickest is the largest thickness that was measured of a billet.
func thickest(b *plan.Billet) quantity.Length {
	return exact.Max(exact.Max(b.Thickness, b.ThicknessEnd), b.ThicknessFarEdge)
}

// rings settles where the pith lies, or takes one ring angle.
func (r *reading) rings(read *PlanRings, out *plan.Billet) error {
	given := 0
	for _, has := range []bool{read.Pith != nil, len(read.Readings) > 0, read.RingAngle != nil} {
		if has {
			given++
		}
	}
	switch {
	case given == 0:
		return wire.Missing("", "give pith, readings or ring_angle_deg")
	case given > 1:
		return wire.Contradictory("", "give one of pith, readings and ring_angle_deg")
	case read.PithBeforeFace1 && len(read.Readings) == 0:
		return wire.Contradictory("pith_before_face_1", "pith_before_face_1 goes with readings")
	}
	switch {
	case read.Pith != nil:
		out.Pith = &resaw.Point{X: read.Pith.Y.SI, Z: read.Pith.Z.SI}
		return nil
	case read.RingAngle != nil:
		angle := quantity.Angle(*read.RingAngle) * quantity.Degree
		out.RingAngle = &angle
		return nil
	case len(read.Readings) == 1:
		return wire.Missing("readings/1", "two readings give the pith; for one angle use ring_angle_deg")
	}
	one, two := read.Readings[0], read.Readings[1]
	first, second := quantity.Angle(*one.Angle)*quantity.Degree, quantity.Angle(*two.Angle)*quantity.Degree
	fix, err := resaw.PithFromAngles(one.Y.SI, first, two.Y.SI, second)
	if err != nil {
		return wire.Under("", err, [2]string{"x1", "readings/0/y"}, [2]string{"x2", "readings/1/y"},
			[2]string{"ring_angle_1", "readings/0/ring_angle_deg"},
			[2]string{"ring_angle_2", "readings/1/ring_angle_deg"})
	}
	r.notes.Merge(fix.Notes)
	if fix.OnQuarter {
		angle := min(first, second)
		out.RingAngle = &angle
		return nil
	}
	if read.PithBeforeFace1 {
		fix.Depth = -fix.Depth
	}
	out.Pith = &resaw.Point{X: fix.X, Z: fix.Depth}
	return nil
}
