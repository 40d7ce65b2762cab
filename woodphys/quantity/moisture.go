package quantity

// Moisture is a moisture content: mass of water over mass of ovendry wood, as
// a fraction. 0.12 is what the trade calls 12 %MC (dry basis). Sapwood of a
// light wood may hold more than 2.
type Moisture float64

// PercentMC is one percent of the ovendry mass.
const PercentMC Moisture = 0.01

// Percent returns m in percent of the ovendry mass.
func (m Moisture) Percent() float64 { return float64(m) * 100 }

// WetBasis returns the mass of water over the total mass, w = MC/(1+MC), as a
// fraction in 0 to 1. m must not be negative.
//
// Source: definition, as in ASTM D4442 (from memory).
func (m Moisture) WetBasis() float64 { return float64(m) / (1 + float64(m)) }
