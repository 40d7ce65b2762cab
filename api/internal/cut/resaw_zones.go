package cut

import (
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/resaw/plan"
)

// zoneOf reads a zone, which must reach into its billet.
func zoneOf(z *shelf.Zone, b *plan.Billet, report wire.Reporter) (plan.Zone, error) {
	out := plan.Zone{Kind: z.Kind, X0: z.XFrom.SI, X1: z.XTo.SI, Y0: z.YFrom.SI, Y1: z.YTo.SI,
		Z0: shelf.OptionalLength(z.ZFrom),
		Z1: shelf.OptionalLength(z.ZTo)}
	all := []error{z.Check()}
	outside := func(member string, limit *method.Limit, size quantity.Length, what string) {
		all = append(all, &method.Error{Code: method.OutOfRange, Input: member, Limit: limit,
			Detail: "the zone lies outside the billet, which is " + size.Format(report.LengthUnit) + " " + what + "; " + member + " must be " + limit.String()})
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
		switch {
		case side.from == nil || side.to == nil || side.to.SI <= side.from.SI: // told elsewhere
		case side.from.SI >= side.size:
			outside(side.axis+"_from", method.LessThan(side.size.AtMost(report.LengthUnit)), side.size, side.what)
		case side.to.SI <= 0:
			outside(side.axis+"_to", method.MoreThan(0, report.LengthUnit), side.size, side.what)
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
