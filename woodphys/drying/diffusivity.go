package drying

import (
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

const (
	gasConstant    = 8.314   // J/mol K
	waterMolarMass = 0.018   // kg/mol, as in Siau's formula
	vapourConstant = 461.5   // J/kg K, gas constant of water vapour
	waterDensity   = 1000.0  // kg/m3
	boundEnergy    = 38500.0 // J/mol, Siau 1984
	boundEnergyPct = 290.0   // J/mol per %MC, Siau 1984
	boundConstant  = 7e-6    // m2/s, Siau 1984, transverse
	boundAlong     = 2.5     // longitudinal over transverse in the cell wall, Siau 1984
)

type direction int

// Across the grain, and along it: an upper estimate controlled by the open lumens
// (Siau 1984, from memory). D_L/D_T is about 100 at 5 %MC and 4 at 25 %MC, as published
// (Langrish and Walker 1993: about 100 and 2 to 4).
const (
	transverse direction = iota
	alongGrain
)

func diffusivity(of medium, m quantity.Moisture, t quantity.Temperature, d direction) (float64, error) {
	for _, in := range append(of.inputs(), named{"mc_pct", m.Percent()}, named{"temperature", t.Celsius()}) {
		if _, err := rowDiffusivity.Check(in.name, in.value); err != nil {
			return 0, err
		}
	}
	s := newSiau(of, t, d)
	return s.at(float64(m)), nil
}

// siau holds what the formula needs at one temperature.
type siau struct {
	curve     sorption.Isotherm
	direction direction
	kelvin    float64
	gravity   float64
	fsp       float64 // fraction, at this temperature
	vapour    float64 // D_a 0.018 p_s/(1000 R T) times 100: D_V = vapour dH/dM / G_w
}

func newSiau(w medium, t quantity.Temperature, d direction) siau {
	k := t.Kelvin()
	fsp, err := sorption.FibreSaturation(t, w.fsp)
	if err != nil {
		fsp = w.fsp // cannot happen: both were checked
	}
	// D_a = 2.2e-5 (101325/p) (T/273)^1.75
	inAir := 2.2e-5 * float64(air.SeaLevelPressure/w.pressure) * math.Pow(k/273, 1.75)
	ps := air.SaturationPressureOverWater(t).Pascals()
	return siau{
		curve: w.curve(t), direction: d,
		kelvin: k, gravity: w.gravity, fsp: float64(fsp),
		// D_V = 0.018 D_a p_s/(1000 G_w R T) dH/dm, m a fraction
		vapour: waterMolarMass * inAir * ps / (waterDensity * gasConstant * k),
	}
}

// at returns D in m2/s at m, a fraction, held between 0 and fibre saturation.
func (s *siau) at(m float64) float64 {
	m = min(max(m, 0), s.fsp)
	pct := 100 * m
	bound := boundConstant * math.Exp(-(boundEnergy-boundEnergyPct*pct)/(gasConstant*s.kelvin))
	wall := 1.5 / (1 + 0.015*pct) // G_w
	vapour := s.vapour / wall / s.curve.Slope(s.curve.Inverse(quantity.Moisture(m)))
	pores := 1 - s.gravity*(0.667+0.01*pct) // v_a
	pores = min(max(pores, 0.01), 0.99)     // the densest woods have none left near saturation
	if s.direction == alongGrain {
		return (pores*vapour + (1-pores)*boundAlong*bound) / (1 - pores)
	}
	return bound * vapour / ((1 - pores) * (bound + vapour*(1-math.Sqrt(pores))))
}
