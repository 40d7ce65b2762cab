package cut

import (
	"strconv"

	"latewood/api/internal/shelf"
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

// offcut is an offcut as a billet of the next request: what was measured of the billet, in
// its own frame. Sizes are rounded down, so that it lies in the wood.
func (a *answering) offcut(b *plan.Billet, id string) shelf.Billet {
	down, at := a.report.SizeAgain, a.report.PlaceAgain
	out := shelf.Billet{ID: id, Length: down(b.Length), Width: down(b.Width), Thickness: down(b.Thickness),
		EndWidth: ifAny(down, b.WidthEnd), EndThickness: ifAny(down, b.ThicknessEnd), FarThickness: ifAny(down, b.ThicknessFarEdge),
		Cup: ifSome(at, b.Cup), Bow: ifSome(at, b.Bow), Twist: ifSome(at, b.Twist)}
	for i := range b.Zones {
		z := &b.Zones[i]
		out.Zones = append(out.Zones, shelf.Zone{Kind: z.Kind, XFrom: at(z.X0), XTo: at(z.X1), YFrom: at(z.Y0), YTo: at(z.Y1),
			ZFrom: ifAny(at, z.Z0), ZTo: ifAny(at, z.Z1)})
	}
	return out
}

// ifAny words a length that may not be told.
func ifAny(word func(quantity.Length) *wire.Length, l *quantity.Length) *wire.Length {
	if l == nil {
		return nil
	}
	return word(*l)
}

// ifSome words a length that is left out where it is none.
func ifSome(word func(quantity.Length) *wire.Length, l quantity.Length) *wire.Length {
	if l <= 0 {
		return nil
	}
	return word(l)
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
