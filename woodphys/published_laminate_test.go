package woodphys_test

import (
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

func laminateHandlers() map[string]handler {
	return map[string]handler{"bilayer": publishedBilayer}
}

// publishedBilayer answers the strip of two layers: h both together, m = t1/t2,
// n = E1/E2.
func publishedBilayer(in inputs) ([]float64, error) {
	v, err := in.numbers("h_mm", "m", "n", "delta_strain")
	if err != nil {
		return nil, err
	}
	h, m := quantity.Length(v[0])*quantity.Millimetre, quantity.Length(v[1])
	width := 1 * quantity.Metre
	if in["want"] == "cup" {
		w, err := in.number("width_mm")
		if err != nil {
			return nil, err
		}
		width = quantity.Length(w) * quantity.Millimetre
	}
	upper := laminate.Strip{Thickness: h * m / (1 + m), Modulus: quantity.Pressure(v[2]) * quantity.Megapascal * 1000}
	lower := laminate.Strip{Thickness: h / (1 + m), Modulus: 1000 * quantity.Megapascal}
	b, err := laminate.TwoLayers(upper, lower, quantity.Band[float64]{Value: v[3], Low: v[3], High: v[3]}, width)
	if in["want"] == "cup" {
		return []float64{b.Cup.Value.Millimetres()}, err
	}
	return []float64{b.Curvature.Value / 1000}, err // 1/m to 1/mm
}
