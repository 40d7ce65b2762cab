package cut

import (
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// offcuts are what is left of the i-th billet and worth keeping.
func (a *answering) offcuts(i int) []PlanOffcut {
	var out []PlanOffcut
	for n := range a.told.Cut[i].Offcuts {
		o := &a.told.Cut[i].Offcuts[n]
		if !o.Keep {
			continue
		}
		out = append(out, PlanOffcut{Piece: o.Piece,
			Billet: a.offcut(&o.Billet, a.asked.billets[i]+"-"+strconv.Itoa(o.Piece))})
	}
	return out
}

// offcut is an offcut as a billet.
func (a *answering) offcut(b *plan.Billet, id string) OffcutAsBillet {
	out := OffcutAsBillet{ID: id, Length: a.length(b.Length), Width: a.length(b.Width), Thickness: a.length(b.Thickness),
		EndWidth: a.optional(b.WidthEnd), EndThickness: a.optional(b.ThicknessEnd),
		FarThickness: a.optional(b.ThicknessFarEdge), Cup: a.some(b.Cup), Bow: a.some(b.Bow), Twist: a.some(b.Twist)}
	for i := range b.Zones {
		z := &b.Zones[i]
		out.Zones = append(out.Zones, OffcutZone{Kind: z.Kind, XFrom: a.length(z.X0), XTo: a.length(z.X1),
			YFrom: a.length(z.Y0), YTo: a.length(z.Y1), ZFrom: a.optional(z.Z0), ZTo: a.optional(z.Z1)})
	}
	return out
}

func (a *answering) optional(l *quantity.Length) *wire.Quantity {
	if l == nil {
		return nil
	}
	q := a.length(*l)
	return &q
}

// some is a length that is left out where it is none.
func (a *answering) some(l quantity.Length) *wire.Quantity {
	if l <= 0 {
		return nil
	}
	return a.optional(&l)
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
