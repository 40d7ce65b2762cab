package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Along is what bends and twists a board along its length. What is not known is nil.
type Along struct {
	Length   quantity.Length // 0.01 mm to 100 m
	Spiral   *quantity.Angle // of the grain to the axis of the stem, -45 to 45 degrees
	SpiralSD *quantity.Angle // standard deviation of Spiral, 0 to 10 degrees; nil for 0
	// Edges is the strain along the grain of the left edge less that of the right, Faces
	// that of the lower face less the upper; fractions, -0.1 to 0.1.
	Edges, Faces *float64
}

// Lengthwise is how a board bends and twists along its length; nil is not asked for.
type Lengthwise struct {
	Twist *quantity.Band[quantity.Angle]  // from end to end
	Crook *quantity.Band[quantity.Length] // of the edges; positive: hollow on the right
	Bow   *quantity.Band[quantity.Length] // of the faces; positive: hollow above
}

// along is twist, crook and bow of the board.
func (b *Board) along(notes *method.Notes, tangential quantity.Band[float64]) (*Lengthwise, error) {
	in := b.Along
	if in == nil {
		return nil, nil //nolint:nilnil // nothing was asked
	}
	if in.Spiral == nil && in.Edges == nil && in.Faces == nil {
		return nil, &method.Error{Code: method.Missing, Input: "lengthwise",
			Detail: "give the spiral for twist, the difference of the edges for crook, or that of the faces for bow"}
	}
	if in.SpiralSD != nil && in.Spiral == nil {
		return nil, &method.Error{Code: method.Contradictory, Input: "lengthwise/spiral_sd_deg",
			Detail: "spiral_sd_deg goes with spiral_deg"}
	}
	out := &Lengthwise{}
	if in.Spiral != nil {
		twisted, err := b.twist(tangential)
		if err != nil {
			return nil, err
		}
		notes.Merge(twisted.Notes)
		out.Twist = &twisted.Angle
	}
	for _, curve := range []struct {
		difference *float64
		name, of   string
		depth      quantity.Length
		into       **quantity.Band[quantity.Length]
	}{
		{in.Edges, "edge_difference_pct", "edges", b.Section.Width, &out.Crook},
		{in.Faces, "face_difference_pct", "faces", b.Section.Thickness, &out.Bow},
	} {
		if curve.difference == nil {
			continue
		}
		d, input := *curve.difference, "lengthwise/"+curve.name
		bowed, err := Crook(curve.depth, in.Length, quantity.Band[float64]{Value: d, Low: d, High: d})
		if err != nil {
			return nil, method.Renamed(err, [2]string{"depth", "lengthwise/length"}, [2]string{"length", "lengthwise/length"},
				[2]string{"difference_pct", input})
		}
		notes.Merge(bowed.Notes)
		notes.Warn(method.Warning{Code: method.DefaultUsed, Method: crookRow.ID, Input: input,
			Detail: "the difference of the " + curve.of + " is taken as exact; the band does not hold its error"})
		noteCurl(notes, &crookRow, input, bowed.Sagitta.Value, in.Length)
		*curve.into = &bowed.Sagitta
	}
	return out, nil
}

// twist is that of the section as a whole: its parts want to twist by 2 s g/((1 + s) r), the
// less the further from the pith, and the area that is further away holds them.
func (b *Board) twist(t quantity.Band[float64]) (Twisted, error) {
	sd := quantity.Angle(0)
	if b.Along.SpiralSD != nil {
		sd = *b.Along.SpiralSD
	}
	shrinkage := quantity.Band[float64]{Value: -t.Value, Low: -t.High, High: -t.Low}
	r := b.Section.meanRadius()
	twisted, err := Twist(shrinkage, quantity.NormalBand(*b.Along.Spiral, sd), r, b.Along.Length)
	return twisted, method.Renamed(err, [2]string{"spiral_deg", "lengthwise/spiral_deg"},
		[2]string{"length", "lengthwise/length"})
}

// mostCurl is the sagitta, as a share of the length it stands over, beyond which
// kappa l^2/8 is more than 4 % off the arc of a circle.
const mostCurl = 0.1

// noteCurl warns of a sagitta too large for the sum it comes from.
func noteCurl(notes *method.Notes, row *method.Method, input string, sagitta, over quantity.Length) {
	if math.Abs(float64(sagitta)) > mostCurl*float64(over) {
		notes.Warn(method.Warning{Code: method.OutsideFitted, Method: row.ID, Input: input,
			Detail: "it curls by more than a tenth of that side; so large a bend is less than told, and wood bent so far sets"})
	}
}
