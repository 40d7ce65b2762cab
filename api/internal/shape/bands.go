package shape

import (
	"latewood/woodphys/quantity"
)

// AngleBand is an angle in degrees with the ends of its 90 % band.
type AngleBand struct {
	ValueDeg float64 `json:"value_deg" required:"true"`
	LowDeg   float64 `json:"low_deg" required:"true" description:"5 % of cases lie below"`
	HighDeg  float64 `json:"high_deg" required:"true" description:"5 % of cases lie above"`
}

func angleBand(b quantity.Band[quantity.Angle]) AngleBand {
	return AngleBand{b.Value.Degrees(), b.Low.Degrees(), b.High.Degrees()}
}

// CurvatureBand is a curvature with the ends of its 90 % band.
type CurvatureBand struct {
	Value float64 `json:"value_per_m" required:"true"`
	Low   float64 `json:"low_per_m" required:"true"`
	High  float64 `json:"high_per_m" required:"true"`
}

func curvatureBand(b quantity.Band[float64]) CurvatureBand {
	return CurvatureBand{b.Value, b.Low, b.High}
}
