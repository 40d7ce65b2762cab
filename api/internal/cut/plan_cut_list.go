package cut

import (
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// cutListHeader names the columns of the cut list (RFC 4180); new ones are only added at the
// end.
const cutListHeader = "billet,billet_name,blank,leaf,piece,role,part,part_name,set,unit,rounded_to,length,width,thickness,x,y,z,on_its_side,far_thickness"

// cutList is the plan as a table: one row for each leaf, or each piece of one that is parted, in the order of the billets, their
// blanks and their leaves, slabs among them, then one for each other offcut worth keeping. Sizes are as sawn; x, y
// and z are where the blank begins, z with the depth of the leaf below its planed face 1. The thickness is that of
// the near edge; that of the far one stands last where it differs.
func (g *planDrawing) cutList() []byte {
	text := []byte(cutListHeader + "\r\n")
	for i := range g.told.Billets {
		made := &g.told.Billets[i]
		for j := range made.Blanks {
			for n := range made.Blanks[j].Leaves {
				for k := range made.Blanks[j].Leaves[n].All() {
					text = append(text, g.leafRow(i, &made.Blanks[j], j, n, k)...)
				}
			}
		}
		for n := range g.told.Cut[i].Offcuts {
			if o := &g.told.Cut[i].Offcuts[n]; o.Keep && !o.Slab { // a slab has its row among the leaves
				text = append(text, g.offcutRow(i, o)...)
			}
		}
	}
	return text
}

// names are the texts of the caller that the cut list holds.
func (g *planDrawing) names() (texts []wire.Tabled) {
	for i := range g.billetIDs {
		texts = append(texts, wire.Named("billets", i, g.billetIDs[i], g.billetNames[i])...)
	}
	for i := range g.partIDs {
		texts = append(texts, wire.Named("parts", i, g.partIDs[i], g.asked.Parts[i].Name)...)
	}
	return texts
}

// leafRow is the row of a leaf, or of a piece of it.
func (g *planDrawing) leafRow(i int, b *plan.Blank, j, n, k int) string {
	l := &b.Leaves[n]
	one := &l.All()[k]
	part, name, set := "", "", ""
	if l.Part >= 0 {
		part, name = g.partIDs[l.Part], g.asked.Parts[l.Part].Name
	}
	if one.Set > 0 {
		set = strconv.Itoa(one.Set)
	}
	letters, y, z := plan.Letters(j), b.Y, b.Face1+l.From
	x, long, wide := b.X, b.Length, leafWidth(b)
	if l.Strips != nil {
		x, y, long, wide = one.X, one.Y, one.Length, one.Width
	}
	if b.Turned {
		y, z = b.Y+l.From, b.Face1
	}
	row := g.billetCells(i) + letters + "," + strconv.Itoa(l.Number) + "," + pieceName(j, l, k) + "," +
		string(one.Role) + "," + wire.QuotedCell(part) + "," + wire.QuotedCell(name) + "," + set + "," + g.unitCells()
	for _, size := range []quantity.Length{long, wide, l.To - l.From, x, y, z} {
		row += "," + g.report.LengthCell(size)
	}
	row += "," + strconv.FormatBool(b.Turned) + ","
	if l.FarTo != nil {
		row += g.report.LengthCell(*l.FarTo - *l.FarFrom)
	}
	return row + "\r\n"
}

// pieceName is what is written on a leaf of the j-th blank, or on its k-th piece.
func pieceName(j int, l *plan.Leaf, k int) string {
	name := plan.Letters(j) + strconv.Itoa(l.Number)
	if l.Strips != nil {
		name += "." + strconv.Itoa(k+1)
	}
	return name
}

// offcutRow is the row of an offcut, as large as it measures at its start and near edge.
func (g *planDrawing) offcutRow(i int, o *plan.Offcut) string {
	row := g.billetCells(i) + ",," + strconv.Itoa(o.Piece) + ",offcut,,,," + g.unitCells()
	at := &g.told.Billets[i].Places[o.Piece]
	for _, size := range []quantity.Length{o.Billet.Length, o.Billet.Width, o.Billet.Thickness, at.X0, at.Y0} {
		row += "," + g.report.LengthCell(size)
	}
	row += ",,false,"
	if far := o.Billet.ThicknessFarEdge; far != nil {
		row += g.report.LengthCell(*far)
	}
	return row + "\r\n"
}

func (g *planDrawing) billetCells(i int) string {
	return wire.QuotedCell(g.billetIDs[i]) + "," + wire.QuotedCell(g.billetNames[i]) + ","
}

func (g *planDrawing) unitCells() string { return g.report.LengthUnit + "," + g.report.RoundedTo() }

// leafWidth is how wide a leaf comes off its blank.
func leafWidth(b *plan.Blank) quantity.Length {
	if b.Turned {
		return b.Usable
	}
	return b.Width
}
