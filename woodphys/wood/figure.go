package wood

// Figure is one published number of a wood. The zero Figure is not known.
type Figure struct {
	Value    float64
	Known    bool
	Recalled bool // recalled from its table, not re-read; noted with the answer
	// How says for people how far a recalled figure was checked, such as "recalled from
	// memory; no copy was read"; empty for one that was read.
	How string
}

// Published returns a figure that was read in its source. Any unit.
func Published(v float64) Figure { return Figure{Value: v, Known: true} }
