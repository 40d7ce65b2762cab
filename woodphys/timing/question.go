package timing

import (
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/resaw"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/wood"
)

// Question is a billet, where it or its leaves would lie, and the leaf that is wanted.
type Question struct {
	Wood      wood.Wood
	Billet    resaw.Billet   // as it is now, its thickest corner first; 1 to 300 mm thick
	RingAngle quantity.Angle // of the rings to the face of the leaves, 0 to 90 degrees
	Moisture  Moisture
	Prongs    Prongs         // of a test cut today; the zero one: none was
	Rest      seasoning.Rest // where the wood comes to rest
	Room      seasoning.Room // in the air of this room
	Lay       Lay
	LayLeaf   Lay               // of the leaves, once they are sawn; nil: where the billet would lie
	Horizon   quantity.Duration // end of the forecast, from today; 7 to 3650 days
	Ends      drying.EndSeal    // how the ends are kept; empty: not told
	Saw       resaw.Saw
	Part      resaw.Piece // dry; its leaf is worked out
	Leaf      Leaf
	Limits    []readiness.OwnLimits
	Work      *drying.Work // bounds all runs; may be nil
}

// UsualRingAngle is that of leaves of which it is not told: quartersawn, whose thickness
// shrinks most.
const UsualRingAngle = 90 * quantity.Degree

// MeanStrays is by how much a mean may lie outside of shell and core, which were read in
// other places. Own choice.
const MeanStrays = 1 * quantity.PercentMC

// ReadStrays is by how much shell and core may lie off what is taken of them, by the mean and
// their difference, before it is told. Own choice.
const ReadStrays = 0.5 * quantity.PercentMC

// Moisture is the moisture content of the billet today.
type Moisture struct {
	Mean quantity.Moisture // over the thickness, 0.03 to 1.4
	SD   quantity.Moisture // standard deviation of the mean, 0.001 to 0.5; 0: not told
	// CoreOverShell is by how much the middle fifth is wetter than the outer tenth at each
	// face, -1.5 to 1.5; nil where it was not read.
	CoreOverShell *quantity.Moisture
	// Shell is the outer tenth, 0.005 to 1.4, with CoreOverShell; 0: as of a parabola.
	Shell quantity.Moisture
}

// Leaf is the leaf that is wanted.
type Leaf struct {
	Dry  quantity.Length // thickness that needs no allowance for drying, above 0
	Flat quantity.Length // of Dry, for flattening; 0 or more
	// Finished is the thickness once it is worked, above 0; 0: Dry less Flat.
	Finished quantity.Length
	Extra    quantity.Length // for thick and thin of a leaf sawn before it is dry; 0 or more
}

// finished is the thickness of the worked leaf, whichever way it came.
func (l *Leaf) finished() quantity.Length {
	if l.Finished > 0 {
		return l.Finished
	}
	return l.Dry - l.Flat
}

// Lay returns the piece with where it lies from a time on, counted from today: wood,
// rings, phases and the like. Thickness and start are put in here.
type Lay func(from quantity.Duration) (seasoning.Piece, error)

// Shrunk is what is left of the sizes of the billet, over those of today.
type Shrunk struct{ Thickness, Width float64 }

// of is the billet shrunk; its length and its trims stay.
func (s Shrunk) of(b resaw.Billet) resaw.Billet {
	thick := func(l *quantity.Length) *quantity.Length {
		if l == nil {
			return nil
		}
		left := *l * quantity.Length(s.Thickness)
		return &left
	}
	b.Thickness, b.EndThickness, b.FarThickness = b.Thickness*quantity.Length(s.Thickness), thick(b.EndThickness),
		thick(b.FarThickness)
	b.Width *= quantity.Length(s.Width)
	if b.EndWidth != nil {
		end := *b.EndWidth * quantity.Length(s.Width)
		b.EndWidth = &end
	}
	return b
}
