package woodphys_test

import (
	"context"
	"fmt"
	"math"
	"strconv"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

func dryingHandlers() map[string]handler {
	return map[string]handler{"series": publishedSeries, "dryingtime": publishedDryingTime}
}

func publishedSeries(in inputs) ([]float64, error) {
	bi, err := strconv.ParseFloat(in["bi"], 64) // reads "inf" as well
	if err != nil {
		return nil, err
	}
	switch want := in["want"]; want {
	case "roots1to3":
		return drying.SeriesRoots(bi, 3)
	case "A1":
		roots, err := drying.SeriesRoots(bi, 1)
		if err != nil {
			return nil, err
		}
		b := roots[0] // 4 sin b/(2b + sin 2b)
		return []float64{4 * math.Sin(b) / (2*b + math.Sin(2*b))}, nil
	case "mean_fraction_left":
		fo, err := in.number("fo")
		if err != nil {
			return nil, err
		}
		left, err := drying.SeriesMean(bi, fo)
		return []float64{left}, err
	case "centre_and_surface":
		fo, err := in.number("fo")
		if err != nil {
			return nil, err
		}
		centre, err := drying.SeriesLocal(bi, fo, 0)
		if err != nil {
			return nil, err
		}
		surface, err := drying.SeriesLocal(bi, fo, 1)
		return []float64{centre, surface}, err
	case "Dt_over_thickness_squared_at_half":
		low, high := 0.01, 1.0
		for range 60 {
			mid := (low + high) / 2
			left, err := drying.SeriesMean(bi, mid)
			if err != nil {
				return nil, err
			}
			if left > 0.5 {
				low = mid
			} else {
				high = mid
			}
		}
		return []float64{low / 4}, nil // Fo is D t over half the thickness squared
	default:
		return nil, fmt.Errorf("no answer for %q", want)
	}
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
	numbers, err := in.numbers("thickness_in", "temp_f")
	if err != nil {
		return nil, err
	}
	thickness, t := quantity.Length(numbers[0])*quantity.Inch, quantity.Fahrenheit(numbers[1])
	if in["mc_from"] == "" {
		tau, err := drying.RedOakTimeConstant(thickness, t)
		return []float64{tau.Days()}, err
	}
	rest, err := in.numbers("rh_pct", "mc_from", "mc_to")
	if err != nil {
		return nil, err
	}
	time, err := drying.RedOakTime(thickness, t, rest[0]/100, quantity.Moisture(rest[1]/100), quantity.Moisture(rest[2]/100))
	return []float64{time.Days()}, err
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
	wood, err := drying.NewTransport(drying.Wood{SpecificGravity: 0.56, FibreSaturation: 0.325})
	if err != nil {
		return nil, err
	}
	k, err := drying.FactorFor("maple-sugar", 0.56, "hardwood")
	if err != nil {
		return nil, err
	}
	var solver drying.Solver
	sum := 0.0
	for month := range 12 {
		climate, err := drying.Station(normals, 14+30.4*float64(month))
		if err != nil {
			return nil, err
		}
		course, err := solver.Run(context.Background(), &drying.Job{
			Transport: wood, Thickness: quantity.Inch, Factor: k.Median, Initial: 0.685, StopAt: 0.20, Setting: drying.Standard(),
			Phases: []drying.Phase{{Length: 1000 * quantity.Day, Climate: climate, Exposure: drying.OpenStack()}},
		})
		if err != nil {
			return nil, err
		}
		sum += course.ReachedAt.Days() / 12
	}
	return []float64{sum}, nil
}
