package woodphys_test

import (
	"fmt"

	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func moistureHandlers() map[string]handler {
	return map[string]handler{
		"ovendry": publishedOvendry,
		"running": publishedRunning,
		"weight":  publishedWeightLoss,
		"density": publishedDensity,
		"meter":   publishedMeter,
	}
}

// exactMC is a moisture content in %MC without uncertainty.
func exactMC(percent float64) quantity.Band[quantity.Moisture] {
	return quantity.NormalBand(quantity.Moisture(percent/100), 0)
}

func publishedOvendry(in inputs) ([]float64, error) {
	unit, masses := quantity.Gram, []string{"green_g", "ovendry_g"}
	if _, ok := in["green_oz"]; ok {
		unit, masses = quantity.Ounce, []string{"green_oz", "ovendry_oz"}
	}
	v, err := in.numbers(masses...)
	if err != nil {
		return nil, err
	}
	e, err := moisture.FromOvendry(
		moisture.Weighing{Mass: quantity.Mass(v[0]) * unit, Resolution: unit / 100},
		moisture.Weighing{Mass: quantity.Mass(v[1]) * unit, Resolution: unit / 100})
	switch in["basis"] {
	case "", "dry":
		return []float64{e.MC.Value.Percent()}, err
	case "wet":
		return []float64{100 * e.MC.Value.WetBasis()}, err
	default:
		return nil, fmt.Errorf("nothing known about basis=%s", in["basis"])
	}
}

func publishedRunning(in inputs) ([]float64, error) {
	v, err := in.numbers("weight0", "mc0", "weight")
	if err != nil {
		return nil, err
	}
	start := moisture.Known{Weighing: moisture.Weighing{Mass: quantity.Mass(v[0]) * quantity.Gram}, MC: exactMC(v[1])}
	e, err := moisture.FromRunningWeight(start, moisture.Weighing{Mass: quantity.Mass(v[2]) * quantity.Gram})
	return []float64{e.MC.Value.Percent()}, err
}

// publishedWeightLoss finds the green moisture content from the share of the
// green weight lost down to 20 %MC.
func publishedWeightLoss(in inputs) ([]float64, error) {
	loss, err := in.number("weight_loss_green_to_20pct")
	if err != nil {
		return nil, err
	}
	dried := moisture.Known{Weighing: moisture.Weighing{Mass: quantity.Mass(1 - loss/100)}, MC: exactMC(20)}
	e, err := moisture.FromRunningWeight(dried, moisture.Weighing{Mass: 1})
	return []float64{e.MC.Value.Percent()}, err
}

func publishedDensity(in inputs) ([]float64, error) {
	mc, err := in.number("mc")
	if err != nil {
		return nil, err
	}
	if in["want"] == "gx" {
		basic, err := in.number("gb")
		if err != nil {
			return nil, err
		}
		g, err := moisture.SpecificGravityAt(basic, quantity.Moisture(mc/100), 0, 0)
		return []float64{g.SpecificGravity}, err
	}
	gx, err := in.number("gx")
	if err != nil {
		return nil, err
	}
	if in["unit"] != "lb/ft3" {
		return nil, fmt.Errorf("nothing known about unit=%s", in["unit"])
	}
	// the basic specific gravity that becomes gx at mc: G_b = G_x/(1 + 0.265 G_x (1 - x/30))
	basic := gx / (1 + 0.265*gx*(1-mc/30))
	g, err := moisture.SpecificGravityAt(basic, quantity.Moisture(mc/100), 0, 0)
	foot := quantity.Foot.Metres()
	return []float64{float64(quantity.Mass(g.Density)/quantity.Pound) * foot * foot * foot}, err
}

func publishedMeter(in inputs) ([]float64, error) {
	r := moisture.PinReading{TemperatureKnown: true, SpeciesA: 1, SpeciesKnown: true, Depth: moisture.MeanDepth, DepthKnown: true}
	reading, err := in.number("reading")
	if err != nil {
		return nil, err
	}
	r.Reading = quantity.Moisture(reading / 100)
	if _, ok := in["wood_colder_by_c"]; ok {
		colder, err := in.number("wood_colder_by_c")
		if err != nil {
			return nil, err
		}
		// the equation is neutral at 22 to 23 degC
		r.WoodTemperature = quantity.Celsius(22.5 - colder)
		e, err := moisture.FromPinMeter(r)
		return []float64{e.MC.Value.Percent()}, err
	}
	v, err := in.numbers("wood_c", "a", "b")
	if err != nil {
		return nil, err
	}
	r.WoodTemperature = quantity.Celsius(v[0])
	r.SpeciesA, r.SpeciesB = v[1], quantity.Moisture(v[2]/100)
	e, err := moisture.FromPinMeter(r)
	return []float64{e.MC.Value.Percent()}, err
}
