package woodphys_test

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

func sectionHandlers() map[string]handler {
	return map[string]handler{"cup": publishedCup}
}

// publishedCup answers by the small-strain relations that the examples print; the
// exact map is tested against them in package section.
func publishedCup(in inputs) ([]float64, error) {
	v, err := in.numbers("width_mm", "pith_distance_mm", "er", "et")
	if err != nil {
		return nil, err
	}
	s, err := section.SmallStrain(quantity.Length(v[0])*quantity.Millimetre, quantity.Length(v[1])*quantity.Millimetre, v[2], v[3])
	if in["want"] == "width_shrinkage" {
		return []float64{100 * s.Width}, err
	}
	return []float64{s.Cup.Millimetres()}, err
}
