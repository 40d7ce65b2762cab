package resaw

// FlatteningLoss returns what both faces together lose when a piece of a board of
// parallel faces that is not flat is planed flat: the range of its mid-surface, which
// for cup or bow alone is h and not 2h. bow and cup are the sagittas over the length
// and the width of the whole board, rock the twist, with the fourth corner up and
// three down (half of it where packing under two corners shares it), all in one unit
// of length, which is that of the result; along and across are the length and the
// width of the piece as shares of the board's, 0 to 1.
//
// Accuracy: for cup and bow as parabolas exact to the square of h/W; the losses of
// cup, bow and twist are added, an upper bound.
//
// Source: derived; piece sagitta h (l/L)^2, twist g (l/L)(w/W). Ripping before
// flattening is common practice.
func FlatteningLoss(bow, cup, rock, along, across float64) float64 {
	return bow*along*along + cup*across*across + rock*along*across
}
