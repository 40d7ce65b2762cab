package wood

import "math"

// Figure is one published number of a wood. The zero Figure is not known.
type Figure struct {
	Value    float64
	Known    bool
	Recalled bool // recalled from its table, not re-read; noted with the answer
	// Estimated says that no source gives the figure: it follows from others of the wood
	// or from its kin; noted with the answer.
	Estimated bool
	// SD is one standard deviation of the figure itself, in its unit: of an estimate, of
	// publications that differ, of the woods of a group. 0 where only pieces vary.
	SD float64
	// How says for people how far a recalled figure was checked, such as "recalled from
	// memory; no copy was read", or how one was estimated; empty for one that was read.
	How string
}

// Published returns a figure that was read in its source. Any unit.
func Published(v float64) Figure { return Figure{Value: v, Known: true} }

// Share returns the standard deviation of the figure itself as a share of it, 0 for a
// figure that is not known.
//
// Accuracy: exact. Source: the fields SD and Value.
func (f Figure) Share() float64 {
	if f.Value == 0 {
		return 0
	}
	return f.SD / f.Value
}

// Varied returns the standard deviation, as a share, of one piece of a wood whose pieces
// vary by pieces (0 to 1) about the figure.
//
// Accuracy: the two are taken as independent. Source: sum of variances.
func (f Figure) Varied(pieces float64) float64 { return math.Hypot(pieces, f.Share()) }
