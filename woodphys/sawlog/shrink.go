package sawlog

import (
	"math"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// shrinkage is what is left of a size once it is dry, as a share of the green one.
type shrinkage struct {
	tangential float64
	strains    *movement.Strains // nil where nothing dries
}

// across is that share of a width whose face the rings meet at an angle, rad.
func (s *shrinkage) across(angle float64) float64 {
	if s.strains == nil {
		return 1
	}
	strain := s.strains.Across(quantity.Angle(math.Min(angle, math.Pi/2)))
	return 1 + strain.Value
}

// green takes the sizes to saw: thickness is taken to shrink along the rings, which is the
// most, because one thickness is sawn whatever way the rings lie.
func (s *sawing) green(plan *Plan) error {
	s.shrink = shrinkage{tangential: 1}
	if d := s.q.Drying; d != nil {
		strains, err := movement.StrainsBetween(&plan.Notes, quantity.NormalBand(d.From, 0), quantity.NormalBand(d.To, 0), &d.Wood)
		if err != nil {
			return err
		}
		s.shrink = shrinkage{1 + strains.Tangential.Value, &strains}
	}
	s.thickness = float64(s.q.Wanted.Thickness) / s.shrink.tangential
	s.thin = float64(s.q.Wanted.ThinEdge) / s.shrink.tangential
	plan.GreenThickness, plan.GreenThinEdge = quantity.Length(s.thickness), quantity.Length(s.thin)
	return nil
}
