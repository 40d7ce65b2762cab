package plan

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// Offcut is a piece that is left of a billet, as a billet of its own.
type Offcut struct {
	Piece  int  // its number in the steps
	Slab   bool // it came off a blank, and no leaf is sawn from it
	Billet Billet
	Keep   bool // a part that was asked for, or a small one, can be had from it
}

// leastOffcut is the smallest piece that is looked at. Own choice: what is smaller no request
// takes as a billet.
var leastOffcut = Size{10 * quantity.Millimetre, 5 * quantity.Millimetre, 0.5 * quantity.Millimetre}

// Offcuts returns what is left of a billet once it is cut as planned, in the
// order of the cuts: with its taper, its share of the warp, what of the end trims reaches into
// it, and the zones that do, in its own coordinates. Slabs that no leaf is sawn from are among
// them. small are further parts that make a piece worth keeping, where one finds a place
// clear of trims and zones.
//
// Accuracy: as the billet was measured; warp by the share of length and width that the
// piece has, as resaw.FlatteningLoss; a place is looked for against edges and zones. Source:
// derived; what is worth keeping is our own choice.
func Offcuts(q *Request, p *Plan, billet int, small []Size) []Offcut {
	b, made, saw := &q.Billets[billet], &p.Billets[billet], &q.Saws[p.Saw]
	pieces := made.Pieces()
	var out []Offcut
	for n := range made.Places {
		is := pieces[n]
		if is.Is != AnOffcut && is.Is != ASlab {
			continue
		}
		o := Offcut{Piece: n, Slab: is.Is == ASlab, Billet: b.cutOut(&made.Places[n])}
		if o.Billet.Length < leastOffcut.Length || o.Billet.Width < leastOffcut.Width || o.Billet.thinnest() < leastOffcut.Final {
			continue
		}
		for i := range q.Parts {
			k := &q.Parts[i]
			o.Keep = o.Keep || o.Billet.holds(Size{k.Length, k.Width, k.On(saw).Sum()})
		}
		for _, s := range small {
			o.Keep = o.Keep || o.Billet.holds(s)
		}
		out = append(out, o)
	}
	return out
}

// holds reports whether a size can be had: between the end trims, and clear of zones.
func (b *Billet) holds(s Size) bool {
	if s.Final > b.thinnest()-b.FacingFace1-b.FacingFar {
		return false
	}
	high := b.Width
	if b.WidthEnd != nil {
		high = min(high, *b.WidthEnd)
	}
	start, end := b.TrimStart, b.Length-b.TrimEnd
	xs, ys := []quantity.Length{start}, []quantity.Length{0}
	for i := range b.Zones {
		xs, ys = append(xs, max(start, b.Zones[i].X1)), append(ys, max(0, b.Zones[i].Y1))
	}
	for _, x := range xs {
		for _, y := range ys {
			if x+s.Length <= end+exact.Tiny && y+s.Width <= high+exact.Tiny && b.clear(x, x+s.Length, y, y+s.Width) {
				return true
			}
		}
	}
	return false
}

// clear reports whether no zone reaches over a rectangle, whatever its depth.
func (b *Billet) clear(x0, x1, y0, y1 quantity.Length) bool {
	for i := range b.Zones {
		if z := &b.Zones[i]; z.X0 < x1-exact.Tiny && x0 < z.X1-exact.Tiny && z.Y0 < y1-exact.Tiny && y0 < z.Y1-exact.Tiny {
			return false
		}
	}
	return true
}

// thinnest is the thickness at the thinnest corner.
func (b *Billet) thinnest() quantity.Length {
	t := b.Thickness
	if b.ThicknessEnd != nil {
		t += min(0, *b.ThicknessEnd-b.Thickness)
	}
	if b.ThicknessFarEdge != nil {
		t += min(0, *b.ThicknessFarEdge-b.Thickness)
	}
	return t
}

// cutOut is the piece of a billet at a place.
func (b *Billet) cutOut(at *Place) Billet {
	out := Billet{Name: b.Name, RingAngle: b.RingAngle, RunoutOneIn: b.RunoutOneIn, Packed: b.Packed,
		FacingFace1: b.FacingFace1, FacingFar: b.FacingFar}
	x0, x1, y0 := max(0, at.X0), min(at.X1, b.Length), max(0, at.Y0)
	wide := func(x quantity.Length) quantity.Length {
		w := b.Width
		if b.WidthEnd != nil {
			w += (*b.WidthEnd - b.Width) * x / b.Length
		}
		return min(w, at.Y1) - y0
	}
	out.Length, out.Width = x1-x0, wide(x0)
	out.TrimStart = min(max(0, b.TrimStart-x0), out.Length)
	out.TrimEnd = min(max(0, x1-(b.Length-b.TrimEnd)), out.Length)
	if end := wide(x1); !samePlace(end, out.Width) {
		out.WidthEnd = &end
	}
	z := quantity.Length(0)
	if at.Z0 != nil && at.Z1 != nil {
		z = *at.Z0
		out.Thickness, out.FacingFace1, out.FacingFar = *at.Z1-z, 0, 0
	} else {
		b.taperOf(&out, x0, x1, y0)
		along, across := out.Length/b.Length, out.Width/b.Width
		out.Cup, out.Bow, out.Twist = b.Cup*across*across, b.Bow*along*along, b.Twist*along*across
		if at.Z0 != nil {
			z = *at.Z0
			b.behind(z, &out, &y0)
		}
	}
	out.Zones = b.zonesIn(x0, y0, z, &out)
	if b.Pith != nil {
		out.Pith = &resaw.Point{X: b.Pith.X - y0, Z: b.Pith.Z - z}
	}
	return out
}

// taperOf gives a piece its thickness at three corners.
func (b *Billet) taperOf(out *Billet, x0, x1, y0 quantity.Length) {
	at := func(x, y quantity.Length) quantity.Length {
		t := b.Thickness
		if b.ThicknessEnd != nil {
			t += (*b.ThicknessEnd - b.Thickness) * x / b.Length
		}
		if b.ThicknessFarEdge != nil {
			t += (*b.ThicknessFarEdge - b.Thickness) * y / b.Width
		}
		return t
	}
	out.Thickness = at(x0, y0)
	if b.ThicknessEnd != nil {
		end := at(x1, y0)
		out.ThicknessEnd = &end
	}
	if b.ThicknessFarEdge != nil {
		far := at(x0, y0+out.Width)
		out.ThicknessFarEdge = &far
	}
}

// zonesIn are the zones that reach into a piece, in its own coordinates.
func (b *Billet) zonesIn(x0, y0, z0 quantity.Length, piece *Billet) []Zone {
	var out []Zone
	for _, z := range b.Zones {
		z.X0, z.X1 = max(0, z.X0-x0), min(piece.Length, z.X1-x0)
		z.Y0, z.Y1 = max(0, z.Y0-y0), min(exact.Max(piece.Width, piece.WidthEnd), z.Y1-y0)
		if z.X1 <= z.X0 || z.Y1 <= z.Y0 {
			continue
		}
		if z.Z0 != nil {
			low, high := max(0, *z.Z0-z0), *z.Z1-z0
			if thick := exact.Max(exact.Max(piece.Thickness, piece.ThicknessEnd), piece.ThicknessFarEdge); high <= 0 ||
				low >= thick {
				continue
			}
			z.Z0, z.Z1 = &low, &high
		}
		out = append(out, z)
	}
	return out
}

func samePlace(a, b quantity.Length) bool { return max(a-b, b-a) <= exact.Tiny }

// WidestKerf returns the widest resaw kerf at which every leaf of a plan is still had, the
// fence holding their thickness; nil where no leaf hangs on it.
//
// Accuracy: exact. Source: derived; see ChanceOf.
func WidestKerf(q *Request, p *Plan) *quantity.Length {
	s := &q.Saws[p.Saw]
	stacks, _ := chanceStacks(q, p)
	over := 1e18
	for i := range stacks {
		for n, b := range stacks[i].bear {
			if stacks[i].kinds[n] >= 0 {
				over = min(over, b)
			}
		}
	}
	if over >= 1e18 {
		return nil
	}
	return exact.LengthPtr(exact.Whole(s.Resaw) + nm(over))
}

// behind makes a piece that was sawn off a taper as large as it is at least so thick: what lies
// behind z of the billet.
func (b *Billet) behind(z quantity.Length, out *Billet, y0 *quantity.Length) {
	least := leastOffcut.Final
	far := out.Thickness
	if out.ThicknessFarEdge != nil {
		far = *out.ThicknessFarEdge
	}
	less := quantity.Length(0) // thinner at the end by
	if out.ThicknessEnd != nil {
		less = out.Thickness - *out.ThicknessEnd
	}
	near, far := out.Thickness-z-max(0, less), far-z-max(0, less)
	switch rise := far - near; {
	case near < least && far > least:
		cut := out.Width * (least - near) / rise
		*y0 += cut
		out.Width -= cut
		near = least
	case far < least && near > least:
		out.Width *= (near - least) / -rise
		far = least
	}
	out.Thickness = near + max(0, less)
	if out.ThicknessFarEdge != nil {
		out.ThicknessFarEdge = exact.LengthPtr(exact.Whole(far + max(0, less)))
	}
	if out.ThicknessEnd != nil {
		out.ThicknessEnd = exact.LengthPtr(exact.Whole(out.Thickness - less))
	}
	out.FacingFace1 = 0
}
