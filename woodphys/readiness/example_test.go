package readiness_test

import (
	"context"
	"fmt"

	"latewood/woodphys/drying"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/wood"
)

// A billet of hard maple, stacked green in a dry cool barn, weighed five times.
func ExampleLearn() {
	barn, _ := drying.Constant(quantity.Celsius(15), 0.70)
	shop, _ := drying.Constant(quantity.Celsius(20), 0.45)
	setup := readiness.Setup{
		Wood: wood.Wood{SpecificGravity: wood.Published(0.56)}, Factor: 0.5, Thickness: 50 * quantity.Millimetre,
		Phases: []drying.Phase{
			{Length: 400 * quantity.Day, Climate: barn, Exposure: drying.Shed()},
			{Length: 400 * quantity.Day, Climate: shop, Exposure: drying.ClosedRoom()},
		},
		StartMC: 0.65, StartSD: 0.08,
	}
	var weighings []readiness.Observation
	for _, w := range []struct{ day, grams float64 }{{0, 3120}, {30, 2625}, {90, 2353}, {180, 2243}, {300, 2192}} {
		weighings = append(weighings, readiness.Observation{Kind: readiness.Weight, At: quantity.Duration(w.day) * quantity.Day,
			Weighing: moisture.Weighing{Mass: quantity.Mass(w.grams) * quantity.Gram, Resolution: quantity.Gram}})
	}
	p, err := readiness.Learn(context.Background(), setup, weighings)
	if err != nil {
		fmt.Println(err)
		return
	}
	now, _ := p.Now(300 * quantity.Day)
	fmt.Printf("about %.0f %%MC now, set aside: %d\n", now.Mean.Value.Percent(), len(p.Contradictions))
	target := readiness.Target{Mean: 0.084, SD: 0.003, WoodShare: readiness.DefaultWoodShare}
	v, _, _ := p.Judge(readiness.Glue, readiness.LimitsFor(readiness.Glue, setup.Thickness), target, 300*quantity.Day)
	fmt.Println(v.Outcome)
	// Output:
	// about 15 %MC now, set aside: 0
	// not_ready
}
