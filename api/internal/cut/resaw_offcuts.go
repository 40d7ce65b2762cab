package cut

import (
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// offcuts are what is left of the i-th billet and worth keeping.
func (a *answering) offcuts(i int, of *shelf.Billet) []PlanOffcut {
	var out []PlanOffcut
	for n := range a.told.Cut[i].Offcuts {
		o := &a.told.Cut[i].Offcuts[n]
		if o.Keep {
			out = append(out, PlanOffcut{Piece: o.Piece, Billet: a.offcut(&o.Billet, of, a.offcutID(i, o.Piece))})
		}
	}
	return out
}

// offcutID is the id of an offcut: that of its billet and the number of the piece.
func (a *answering) offcutID(i, piece int) string {
	id, number := a.asked.billets[i], strconv.Itoa(piece)
	const longest = 58 // so that the whole is an id
	if len(id) > longest {
		id = id[:longest]
	}
	return id + "-" + number
}

// offcut is what was cut out of a billet, in the form that the next request takes. Sizes are
// rounded down, so that they are there.
func (a *answering) offcut(b *plan.Billet, of *shelf.Billet, id string) shelf.Billet {
	down, near := a.report.SizeAgain, a.report.PlaceAgain
	out := shelf.Billet{ID: id, Name: of.Name, Length: down(b.Length), Width: down(b.Width), Thickness: down(b.Thickness),
		EndWidth: a.ifGiven(b.WidthEnd, down), EndThickness: a.ifGiven(b.ThicknessEnd, down),
		FarThickness: a.ifGiven(b.ThicknessFarEdge, down), Cup: a.ifSome(b.Cup), Bow: a.ifSome(b.Bow),
		Twist: a.ifSome(b.Twist), Trim: a.trimOf(b), FacingFace1: near(b.FacingFace1), FacingFace2: near(b.FacingFar),
		Grain: of.Grain, EdgesInTree: of.EdgesInTree, Condition: of.Condition, Rings: a.ringsOf(b, of.Rings)}
	if of.Wood != nil {
		out.Wood = of.Wood.Again(a.report)
	}
	out.TwistPacked = out.Twist != nil && of.TwistPacked
	for i := range b.Zones {
		z := &b.Zones[i]
		out.Zones = append(out.Zones, shelf.Zone{Kind: z.Kind, XFrom: near(z.X0), XTo: near(z.X1), YFrom: near(z.Y0),
			YTo: near(z.Y1), ZFrom: a.ifGiven(z.Z0, near), ZTo: a.ifGiven(z.Z1, near)})
	}
	return out
}

// trimOf is what of the end trims lies in a piece; nil where nothing does.
func (a *answering) trimOf(b *plan.Billet) *shelf.Trim {
	if b.TrimStart <= 0 && b.TrimEnd <= 0 {
		return nil
	}
	return &shelf.Trim{Start: a.ifSome(b.TrimStart), End: a.ifSome(b.TrimEnd)}
}

// ringsOf are the rings of a piece: its pith, or the one angle with what was said of it.
func (a *answering) ringsOf(b *plan.Billet, of *shelf.Rings) *shelf.Rings {
	var sd *float64
	if of != nil && of.AngleSD != nil && *of.AngleSD > 0 {
		sd = of.AngleSD
	}
	switch {
	case b.Pith != nil:
		near := a.report.PlaceAgain
		return &shelf.Rings{Pith: &shelf.Pith{Y: near(b.Pith.X), Z: near(b.Pith.Z)}, AngleSD: sd,
			RingWidth: of.RingWidth}
	case b.RingAngle != nil:
		degrees := b.RingAngle.Degrees()
		return &shelf.Rings{Angle: &degrees, AngleSD: sd, Lean: of.Lean, RingWidth: of.RingWidth}
	}
	return nil
}

// ifGiven is a length for the next request; nil where there is none.
func (a *answering) ifGiven(l *quantity.Length, as func(quantity.Length) *wire.Length) *wire.Length {
	if l == nil {
		return nil
	}
	return as(*l)
}

// ifSome is a length for the next request that is left out where it is none.
func (a *answering) ifSome(l quantity.Length) *wire.Length {
	if l <= 0 {
		return nil
	}
	return a.report.PlaceAgain(l)
}

func (a *answering) optional(l *quantity.Length) *wire.Quantity {
	if l == nil {
		return nil
	}
	q := a.length(*l)
	return &q
}

// toBuy is what would give the sets that are missing.
func (a *answering) toBuy() []WoodToBuy {
	var out []WoodToBuy
	for i := range a.told.Lacks {
		l := &a.told.Lacks[i]
		if l.Buy == nil {
			continue
		}
		out = append(out, WoodToBuy{Part: a.asked.parts[l.Part], Count: l.Buy.Count, Length: a.length(l.Buy.Length),
			Width: a.length(l.Buy.Width), Thickness: a.length(l.Buy.Final)})
	}
	return out
}
