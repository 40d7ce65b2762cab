package woodphys_test

import (
	"fmt"

	"latewood/woodphys/air"
	"latewood/woodphys/quantity"
)

func airHandlers() map[string]handler {
	return map[string]handler{
		"satpressure": publishedSaturation,
		"pressure":    publishedPressure,
		"wetbulb":     publishedWetBulb,
		"dewpoint":    publishedDewPoint,
	}
}

// publishedSaturation follows the printed table, which is over ice below 0 degC.
func publishedSaturation(in inputs) ([]float64, error) {
	t, err := in.temperature("temp")
	if err != nil {
		return nil, err
	}
	of := air.SaturationPressureOverWater
	if t.Celsius() < 0 {
		of = air.SaturationPressureOverIce
	}
	return []float64{of(t).Pascals()}, nil
}

func publishedPressure(in inputs) ([]float64, error) {
	metres, err := in.number("altitude_m")
	if err != nil {
		return nil, err
	}
	p, err := air.StandardPressure(quantity.Length(metres))
	return []float64{p.Pascals()}, err
}

func publishedWetBulb(in inputs) ([]float64, error) {
	dry, err := in.temperature("dry")
	if err != nil {
		return nil, err
	}
	wet, err := in.temperature("wet")
	if err != nil {
		return nil, err
	}
	p, err := in.number("pressure_pa")
	if err != nil {
		return nil, err
	}
	s, err := air.FromWetBulb(dry, wet, quantity.Pressure(p), wet.Celsius() < 0)
	if err != nil {
		return nil, err
	}
	switch want := in["want"]; want {
	case "":
		return []float64{s.RelativeHumidity * 100}, nil
	case "dew_point":
		dew, err := s.DewPoint()
		return []float64{dew.Celsius()}, err
	case "humidity_ratio":
		return []float64{s.HumidityRatio}, nil
	default:
		return nil, fmt.Errorf("nothing known about want=%s", want)
	}
}

func publishedDewPoint(in inputs) ([]float64, error) {
	t, err := in.temperature("temp")
	if err != nil {
		return nil, err
	}
	rh, err := in.number("rh_pct")
	if err != nil {
		return nil, err
	}
	s, err := air.FromRelativeHumidity(t, rh/100, air.SeaLevelPressure)
	if err != nil {
		return nil, err
	}
	dew, err := s.DewPoint()
	return []float64{dew.Celsius()}, err
}
