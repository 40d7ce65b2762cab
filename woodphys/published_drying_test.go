package woodphys_test

import (
	"context"
	"errors"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func dryingHandlers() map[string]handler {
	return map[string]handler{"dryingtime": publishedDryingTime}
}

func publishedDryingTime(in inputs) ([]float64, error) {
	switch {
	case in["thickness_ratio"] != "":
		ratio, err := in.number("thickness_ratio")
		if err != nil {
			return nil, err
		}
		safe, err := drying.SafeDailyLoss(0.04, quantity.Length(ratio*0.025))
		return []float64{0.04 / float64(safe)}, err
	case in["place"] != "":
		return publishedMaple()
	}
	return nil, errors.New("nothing known about this drying time")
}

// publishedMaple returns the mean over twelve stacking months of the days from
// 68.5 %MC (mean of heartwood and sapwood) to 20 %MC for 25.4 mm sugar maple at
// Sault Ste. Marie MI.
func publishedMaple() ([]float64, error) {
	// NOAA NCEI Comparative Climatic Data 2018, normals 1981-2010 (read)
	normals := drying.Normals{HasTemperature: true, RH: [12]float64{.765, .745, .72, .68, .655, .715, .74, .765, .78, .775, .795, .795}}
	for i, c := range []float64{-9.3, -8.0, -3.2, 4.6, 11.0, 15.6, 18.5, 18.1, 13.9, 7.6, 1.2, -5.4} {
		normals.Temperature[i] = quantity.Celsius(c)
	}
	w, err := drying.NewTransport(wood.Wood{SpecificGravity: wood.Published(0.56), FibreSaturation: 0.325})
	if err != nil {
		return nil, err
	}
	tables, err := species.Default()
	if err != nil {
		return nil, err
	}
	maple, _ := tables.Wood("maple-sugar")
	k, known := maple.DryingFactor.Factor.Get()
	if !known {
		return nil, errors.New("the tables hold no drying factor of sugar maple")
	}
	var solver drying.Solver
	sum := 0.0
	for month := range 12 {
		climate, err := drying.Station(normals, 14+30.4*float64(month))
		if err != nil {
			return nil, err
		}
		course, err := solver.Run(context.Background(), &drying.Job{
			Transport: w, Thickness: quantity.Inch, Factor: k, Initial: 0.685, StopAt: 0.20, Setting: drying.Standard(),
			Phases: []drying.Phase{{Length: 1000 * quantity.Day, Climate: climate, Exposure: drying.OpenStack()}},
		})
		if err != nil {
			return nil, err
		}
		sum += course.ReachedAt.Days() / 12
	}
	return []float64{sum}, nil
}
