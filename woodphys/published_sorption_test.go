package woodphys_test

import "latewood/woodphys/sorption"

func sorptionHandlers() map[string]handler {
	return map[string]handler{"emc": publishedEMC}
}

func publishedEMC(in inputs) ([]float64, error) {
	t, err := in.temperature("temp")
	if err != nil {
		return nil, err
	}
	rh, err := in.number("rh_pct")
	if err != nil {
		return nil, err
	}
	return []float64{sorption.NewIsotherm(t).At(rh / 100).Percent()}, nil
}
