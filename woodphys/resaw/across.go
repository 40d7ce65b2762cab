package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Line is how many blanks lie along one direction of a billet.
type Line struct {
	Blanks   int
	Cuts     int             // cuts between blanks, and one more if something is left
	LeftOver quantity.Length // beyond the last blank, its cut included
	Ratio    float64         // (length - trims + kerf)/(blank + kerf), of which Blanks is the floor
	Notes    method.Notes
}

// Across returns how many blanks fit along a length (rows, with the crosscut
// kerf) or across a width (columns, with the rip kerf).
//
// length: of the billet, 0 to 100 m; trimStart, trimEnd: lost at its two ends,
// the cuts that trim included, 0 to 100 m; blank: length of one blank, its own
// allowances included, 1 micrometre to 100 m; kerf: of the cuts between, 0 to
// 100 m. Trims longer than the billet give 0 blanks. Errors: method.OutOfRange,
// method.Contradictory (kerf wider than the billet), method.TooMuchWork beyond
// MaxLeaves blanks. Accuracy: exact in whole nanometres.
//
// Source: derived; blanks = floor((L - trims + k)/(l + k)).
func Across(billet, trimStart, trimEnd, blank, kerf quantity.Length) (Line, error) {
	var x Line
	if err := exact.Check(&x.Notes, rowAcross, exact.Named("length", billet), exact.Named("trim_start", trimStart),
		exact.Named("trim_end", trimEnd), exact.Named("blank", blank), exact.Named("kerf", kerf)); err != nil {
		return Line{}, err
	}
	if exact.Whole(kerf) > exact.Whole(billet) {
		return Line{}, exact.AtMost("kerf", "kerf is more than the length of the billet", billet)
	}
	n, cuts, left := line(exact.Whole(billet)-exact.Whole(trimStart)-exact.Whole(trimEnd), exact.Whole(blank),
		exact.Whole(kerf))
	if err := tooManyLeaves(n); err != nil {
		return Line{}, err
	}
	x.Blanks, x.Cuts, x.LeftOver = int(n), int(cuts), exact.Length(left)
	x.Ratio = float64(billet-trimStart-trimEnd+kerf) / float64(blank+kerf)
	return x, nil
}

func line(room, blank, kerf nm) (n, cuts int64, left nm) {
	if room < 0 {
		return 0, 0, 0
	}
	if room < blank {
		return 0, 0, room
	}
	n = (room + kerf) / (blank + kerf)
	left = room - n*blank - (n-1)*kerf
	cuts = n - 1
	if left > 0 {
		cuts = n
	}
	return n, cuts, left
}
