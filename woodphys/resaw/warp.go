package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Warp is a board of parallel faces that is not flat, and the piece of it that
// is flattened.
type Warp struct {
	Thickness     quantity.Length // 1 micrometre to 100 m
	Length, Width quantity.Length // of the board as measured, 1 micrometre to 100 m
	Cup           quantity.Length // sagitta across Width, 0 to 100 m
	Bow           quantity.Length // sagitta along Length, 0 to 100 m
	Twist         quantity.Length // the fourth corner up, three down, 0 to 100 m
	Packed        bool            // the rock is shared by packing under two corners

	PieceLength, PieceWidth quantity.Length // cut before flattening; 0 means the whole
}

// Flat is what flattening leaves.
type Flat struct {
	Thickness            quantity.Length // 0 when nothing is left
	Cup, Bow, Twist      quantity.Length // of the piece as cut
	LossCup, LossBow     quantity.Length
	LossTwist, LossInAll quantity.Length
	Notes                method.Notes
}

// Flatten returns the thickness left when a warped board, or a shorter or
// narrower piece of it, is planed flat on both faces. Both faces together lose
// the range of the mid-surface, which for cup or bow is h and not 2h.
//
// w: see Warp. Errors: method.OutOfRange; method.Contradictory for a piece
// larger than the board. Accuracy: for cup and bow as parabolas exact to the
// square of h/W; the losses of cup, bow and twist are added, an upper bound.
//
// Source: derived; t - range(s), piece sagitta h (l/L)^2, twist g (l/L)(w/W),
// half of it if shared by packing. Ripping before flattening is common practice.
func Flatten(w Warp) (Flat, error) {
	var f Flat
	if err := exact.Check(&f.Notes, rowWarp, exact.Named("thickness", w.Thickness), exact.Named("length", w.Length),
		exact.Named("width", w.Width), exact.Named("cup", w.Cup), exact.Named("bow", w.Bow),
		exact.Named("twist", w.Twist),
		exact.Named("piece_length", w.PieceLength), exact.Named("piece_width", w.PieceWidth)); err != nil {
		return Flat{}, err
	}
	switch {
	case w.PieceLength > w.Length:
		return Flat{}, exact.Contradictory("piece_length", "the piece is longer than the board")
	case w.PieceWidth > w.Width:
		return Flat{}, exact.Contradictory("piece_width", "the piece is wider than the board")
	}
	along, across := quantity.Length(1), quantity.Length(1)
	if w.PieceLength > 0 {
		along = w.PieceLength / w.Length
	}
	if w.PieceWidth > 0 {
		across = w.PieceWidth / w.Width
	}
	f.Cup, f.Bow, f.Twist = w.Cup*across*across, w.Bow*along*along, w.Twist*along*across
	f.LossCup, f.LossBow, f.LossTwist = f.Cup, f.Bow, f.Twist
	if w.Packed {
		f.LossTwist /= 2
	}
	f.LossInAll = f.LossCup + f.LossBow + f.LossTwist
	f.Thickness = max(0, w.Thickness-f.LossInAll)
	return f, nil
}
