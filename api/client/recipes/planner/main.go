// A planner for instruments: is the billet ready, what does it give, how far will the parts
// move.
package main

import (
	"context"
	"fmt"
	"log"
	"os"

	wood "latewood/api/client"
)

func main() {
	c, ctx := wood.New(os.Args[1]), context.Background()
	walnut, quartered := wood.Wood{Name: "black walnut"}, &wood.Rings{AngleDeg: new(80.0)}
	shop := wood.Condition{Air: &wood.Air{Temperature: wood.Text("20 C"), RhPct: new(45.0)}}
	billet := wood.Billet{Id: "B7", Wood: walnut, Rings: quartered,
		Length: wood.Text("620 mm"), Width: wood.Text("235 mm"), Thickness: wood.Text("58 mm")}

	ready, err := c.AssessReadiness(ctx, wood.ReadinessRequest{Billet: billet, TargetCondition: shop, Readings: []wood.Reading{
		{Kind: "pin_meter", ReadingMcPct: new(9.5), WoodTemperature: wood.Text("18 C"), Depth: wood.Text("20 mm")},
	}})
	must(err)
	for _, step := range ready.Result.Verdicts {
		fmt.Println(step.Step, step.Verdict)
	}
	back := wood.Part{Id: "back", Length: wood.Text("560 mm"), Width: wood.Text("210 mm"), FinalThickness: wood.Text("2.6 mm"), SetValue: new(100)}
	plan, err := c.PlanResaw(ctx, wood.ResawPlanRequest{Billets: []wood.Billet{billet}, Parts: []wood.Part{back},
		Saws: []wood.Saw{{Id: "band", UsualKerf: "bandsaw_carbide"}}})
	must(err)
	fmt.Println(plan.Result.Summary)
	year, err := c.CalculateAssemblyMovement(ctx, wood.AssemblyMovementRequest{BuildCondition: &shop,
		Room: &wood.Room{Station: "madison-wi", HeatedTo: wood.Text("20 C")}, Parts: []wood.ServicePart{
			{Id: "back", Wood: walnut, Rings: quartered, Thickness: wood.Text("2.6 mm"), Width: wood.Text("400 mm")},
		}})
	must(err)
	for _, size := range year.Result.Parts[0].Sizes {
		fmt.Printf("%s: %g to %g %s\n", size.Dimension, size.Driest.Value, size.Wettest.Value, size.Swing.Unit)
	}
	for _, warning := range year.Warnings {
		fmt.Println(warning.Code, warning.Pointer, warning.Detail)
	}
}

func must(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
