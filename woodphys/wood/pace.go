package wood

import "latewood/woodphys/quantity"

// Pace is how fast a wood dries, stacked as boards: the factor that the diffusivity
// of the drying chapter is multiplied by, with what it was fitted to. The zero Pace
// is not known.
type Pace struct {
	Factor float64 // 0.005 to 20, without a unit
	Misfit float64 // root mean square of ln(time/published time) at the ends of the span, 0 to 3

	// Fastest and Slowest are the ends of the published span of air drying that it was
	// fitted to, from green to 20 %MC for boards of 25.4 mm, 1 to 3650 days. Recalled:
	// the span is recalled from its table, not re-read.
	Fastest, Slowest quantity.Duration
	Recalled         bool
	Place            string // whose air was taken
	Row              string // of the table, where that is not the wood's own
	Note             string // for people: what else stood in
}

// Known reports whether a pace was fitted.
//
// Accuracy: exact. Source: the definition of Pace, none is known where Factor is 0.
func (p *Pace) Known() bool { return p.Factor != 0 }

// Listing is the part of the tables a wood stands in, by which it is known whether woods
// like it were measured drying. What it is by botany its Group says.
type Listing string

// Parts of the tables; empty for a wood that is in none.
const (
	ListedHardwood Listing = "hardwood" // of temperate climates
	ListedSoftwood Listing = "softwood" // of temperate climates
	ListedImported Listing = "imported" // grown elsewhere, broadleaved or conifer
)

// Ease is how a wood takes drying: how easily it checks and collapses.
type Ease string

// How woods take drying; empty where it is not known.
const (
	Refractory Ease = "refractory" // dries slowly, checks easily
	Moderate   Ease = "moderate"
	Easy       Ease = "easy"
)
