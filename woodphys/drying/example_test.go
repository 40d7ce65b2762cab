package drying_test

import (
	"context"
	"fmt"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// A sugar maple board of one inch, green, in an open stack at 20 degC and 65 %
// relative humidity.
func Example() {
	maple := wood.Wood{SpecificGravity: wood.Published(0.56), Pace: wood.Pace{Factor: 0.518, Misfit: 0.055}}
	factor, _ := drying.FactorFor(&maple)
	w, _ := drying.NewTransport(maple)
	air, _ := drying.Constant(quantity.Celsius(20), 0.65)
	var solver drying.Solver
	course, err := solver.Run(context.Background(), &drying.Job{
		Transport: w, Thickness: quantity.Inch, Factor: factor.Median, Pace: factor.Wet.Median, Initial: 57 * quantity.PercentMC,
		Phases: []drying.Phase{{Length: 120 * quantity.Day, Climate: air, Exposure: drying.OpenStack()}},
		Times:  []quantity.Duration{10 * quantity.Day, 120 * quantity.Day},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, t := range course.Times {
		fmt.Printf("%3.0f days: mean %.0f, shell %.0f, core %.0f %%MC\n", t.Days(), course.Mean[i].Percent(), course.Shell[i].Percent(), course.Core[i].Percent())
	}
	// Output:
	//  10 days: mean 38, shell 19, core 56 %MC
	// 120 days: mean 13, shell 13, core 13 %MC
}
