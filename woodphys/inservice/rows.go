package inservice

import "latewood/woodphys/method"

const chapter = "inservice"

func limits(name, unit string, fittedLow, fittedHigh, low, high float64) method.Input {
	return method.Input{Name: name, Unit: unit, Fitted: method.Range{Low: fittedLow, High: fittedHigh}, Limit: method.Range{Low: low, High: high}}
}

var roomRow = method.Method{
	ID: "inservice.room", Chapter: chapter,
	Summary:  "Air of a room through the year: a place that is heated, a place outdoors under cover, two seasons, or a record",
	Equation: "heated: T = max(heated to, outdoors + 2 K), RH = (e outdoors + added (20 C - outdoors)/20 C)/p_s(T), the factor held to 0..1, RH held between the humidifier and the drier; two seasons: cosine of the year in T and RH",
	Inputs: []method.Input{
		limits("temperature", "C", 0, 35, -40, 80),
		limits("rh_pct", "%", 5, 95, 0, 100),
		limits("heated_to", "C", 10, 26, -10, 50),
		limits("added_vapour", "Pa", 0, 1000, 0, 3000),
		limits("weekly_swing_pct", "%", 0, 15, 0, 30),
		limits("winter_month", "", 1, 12, 1, 12),
	},
	Accuracy: "a heated room is usually moister by 100 to 500 Pa than outdoor air (common practice, no source); weather and the day cycle are not in monthly air",
	Source:   "vapour pressure kept at constant pressure, ASHRAE Fundamentals 2017 ch. 1; moisture load that falls to nothing at 20 C outdoors, EN ISO 13788 (from memory); 2 K of summer gains and the course of the two seasons are assumed",
	Checked:  method.Memory,
}

var finishRow = method.Method{
	ID: "inservice.finish", Chapter: chapter,
	Summary:  "Resistance of a finish to vapour",
	Equation: "flux = (c_surface - c_air)/(1/beta + R), c the vapour density, R in s/m; R = 1/(permeance R_v T), 1 s/m is 7.4e-6 (kg/Pa m2 s)^-1",
	Inputs:   []method.Input{limits("finish_resistance", "s/m", 0, 1e6, 0, 1e9)},
	Accuracy: "a factor of 3 up or down with coats, thickness and age (90 %, assumed)",
	Source:   "moisture-excluding effectiveness: Feist, Little and Wennesheimer 1985, FPL-RP-462, and Wood Handbook FPL-GTR-190 ch. 16 table of finishes (both from memory), turned into resistances by the drying model; 0.5 to 1.5 US perm for three coats of paint or enamel (building tables, from memory); the values stand between",
	Checked:  method.Memory,
}

var facesRow = method.Method{
	ID: "inservice.two-faces", Chapter: chapter,
	Summary:  "A slab with different finishes on its two faces, as two slabs with a sealed back",
	Equation: "a = L (R2 + L/3D)/(R1 + R2 + 2L/3D), b = L - a; mean = (a M1 + b M2)/L",
	Inputs:   []method.Input{limits("thickness", "mm", 1, 150, 0.5, 600)},
	Accuracy: "exact for equal faces, a sealed face, and thin parts; else within 2 % of the swing over the year (against a difference scheme with both faces)",
	Source:   "steady flow through two resistances in series, the parabola of a slab with a sealed back, derived; not found in print",
	Checked:  method.Derived,
}

var yearRow = method.Method{
	ID: "inservice.year", Chapter: chapter,
	Summary:  "Moisture content of a finished part through the year of a room",
	Equation: "drying.slab without hysteresis, repeated until the year comes round",
	Inputs: []method.Input{
		limits("thickness", "mm", 0.5, 110, 0.5, 600), // as drying.stack: one rule for a part and for one layer
		limits("drying_factor", "", 0.05, 2, 0.005, 20),
		limits("drying_factor_spread", "", 0, 1.5, 0, 3),
	},
	Accuracy: "numbers: 0.1 %MC, 0.15 bare and below 2 mm, amplitude within 0.2 % and lag within half a day of periodic diffusion where the wood moves by a tenth of the air; model: the speed by the drying factor and the finish; hysteresis makes real swings up to 1 %MC smaller",
	Source:   "as drying.slab; periodic diffusion for the check: Carslaw and Jaeger, Conduction of Heat in Solids, ch. 3 (from memory, derived anew)",
	Checked:  method.Derived,
}

var layersRow = method.Method{
	ID: "inservice.layers", Chapter: chapter,
	Summary:  "Bend of glued layers of wood through the year of a room",
	Equation: "drying.stack through the year without hysteresis until it comes round; mean and straight line of the moisture of each layer into laminate.panel; swing = wettest - driest, by the mean by mass",
	Inputs: []method.Input{
		limits("drying_factor_spread", "", 0, 1.5, 0, 3),
		limits("glue_resistance", "s/m", 0, 1e6, 0, 1e9),
	},
	Accuracy: "numbers: 0.05 %MC in a layer; one layer agrees with inservice.year; equal layers stay flat; two layers at rest bend as laminate.two-layers within its Poisson's ratios; moisture passes the faces only; elastic, so an upper bound of the bend",
	Source:   "as drying.stack and laminate.panel",
	Checked:  method.Derived,
}

var heldRow = method.Method{
	ID: "inservice.held-strain", Chapter: chapter,
	Summary:  "Strain of a part that is kept from moving, against the strain at which wood breaks across the grain",
	Equation: "strain = -(free strain from the build); share = strain/1.5 %",
	Inputs:   []method.Input{limits("strain_pct", "%", -5, 5, -50, 50)},
	Accuracy: "elastic and even; wood creeps in months, and breaks first where it is weak: at ends, checks and short grain",
	Source:   "transverse failure strain 1.5 to 2 % (from memory, no table at hand); the classes are common practice",
	Checked:  method.Memory,
}

var buildRow = method.Method{
	ID: "inservice.build-air", Chapter: chapter,
	Summary:  "Humidity to build at so that the dry and the wet season share the movement",
	Equation: "EMC(build) = (MC dry + MC wet)/2, both at most fibre saturation",
	Inputs:   []method.Input{limits("mc_pct", "%", 3, 25, 0, 60)},
	Accuracy: "that of the EMC; movement is linear in MC below fibre saturation",
	Source:   "arithmetic on sorption.EquilibriumBand",
	Checked:  method.Derived,
}

// Methods returns the registry rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{&roomRow, &finishRow, &facesRow, &yearRow, &layersRow, &heldRow, &buildRow}
}
