package cut

// Fillings that need no colour.
const (
	paper   = `fill="#fff" stroke="none"`
	sawdust = `fill="#000" stroke="none"`
)
