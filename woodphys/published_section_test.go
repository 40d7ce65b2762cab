package woodphys_test

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
	"latewood/woodphys/wood"
)

func sectionHandlers() map[string]handler {
	return map[string]handler{"cup": publishedCup}
}

// publishedCup takes the exact map at a ten-thousandth of the shrinkages and scales it
// up, because the examples print the relations of small strains.
func publishedCup(in inputs) ([]float64, error) {
	v, err := in.numbers("width_mm", "pith_distance_mm", "er", "et")
	if err != nil {
		return nil, err
	}
	const part, thickness = 1e-4, 20 * quantity.Millimetre
	width := quantity.Length(v[0]) * quantity.Millimetre
	board := section.Section{Width: width, Thickness: thickness, PithY: -thickness/2 - quantity.Length(v[1])*quantity.Millimetre}
	w := wood.Wood{Radial: wood.Published(v[2]), Tangential: wood.Published(v[3]), FibreSaturation: 0.30}
	r, err := section.Change(board, exactMC(30), exactMC(30*(1-part)), w)
	if err != nil {
		return nil, err
	}
	if in["want"] == "width_shrinkage" {
		return []float64{100 * (1 - float64(r.Shape.Width.Lower.Value/width)) / part}, nil
	}
	return []float64{r.Shape.Cup.Lower.Value.Millimetres() / part}, nil
}
