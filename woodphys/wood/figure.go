package wood

// Figure is one published number of a wood. The zero Figure is not known.
type Figure struct {
	Value    float64
	Known    bool
	Recalled bool // recalled from its table, not re-read; noted with the answer
}

// Published returns a figure that was read in its source. Any unit.
func Published(v float64) Figure { return Figure{Value: v, Known: true} }
