// Package guillotine searches every way to cut a rectangle by cuts from edge to edge:
// across, along, across again, to any depth.
//
// # Grid
//
// A grid has places along two axes at which a piece may begin. Exact, a piece runs from
// one place to a kerf before another, so that whatever is found can be cut. Relaxed, a
// place stands for all the wood from there to the next: a piece begins anywhere in one
// stretch and the piece behind it anywhere in another, so that no way to cut the wood at
// any places whatever is worth more than what is found. That holds as long as nothing
// fits within one stretch (Grid.Narrow).
//
// # Table
//
// A table knows sizes and no places: its values are those of a rectangle whose every
// blank is as good as the best anywhere. Sizes with their kerfs are rounded down to its
// cells, so that it bounds too, finer and blind to where faults lie.
//
// # Left out
//
// What a blank is worth, and why: the caller says so.
package guillotine

import "latewood/woodphys/resaw/exact"

// NM is a length in whole nanometres.
type NM = exact.NM

// Row is a blank that is sliced across its face: slices of one kind side by side, as
// many as there is room for.
type Row struct {
	Length, Height, Less NM // so long; n slices take n Height - Less across the face
	Least, Most          int
	Each                 int64 // worth of one
}

// fit returns how many slices there is room for; 0 where they would be fewer than the least.
func (r *Row) fit(length, width NM) int {
	if length < r.Length || width+r.Less < r.Height {
		return 0
	}
	n := min(int((width+r.Less)/r.Height), r.Most)
	if n < r.Least {
		return 0
	}
	return n
}
