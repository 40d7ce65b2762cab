package quantity

// Volume is a volume in cubic metres.
type Volume float64

// Units of volume.
const (
	CubicMetre Volume = 1
	CubicInch         = 0.0254 * 0.0254 * 0.0254 * CubicMetre
	BoardFoot         = 144 * CubicInch // 2359.737216 cm3 exactly
)

// CubicMetres returns v in cubic metres.
func (v Volume) CubicMetres() float64 { return float64(v) }

// BoardFeet returns v in board feet of true volume; a trade tally counts stock
// under 1 in as 1 in and rounds, so it differs.
func (v Volume) BoardFeet() float64 { return float64(v / BoardFoot) }
