package sorption

import "latewood/woodphys/method"

// Limits of temperature in degC: K2 turns negative below -37 degC and K1 above
// 129 degC; between -40 and 120 degC the curve still rises with humidity throughout.
const lowestC, highestC = -40.0, 120.0

const handbook = "Wood Handbook, FPL-GTR-190 (2010), eq. 4-5, p. 4-4; coefficients of Simpson 1973, Wood and Fiber 5(1)" //nolint:misspell // the name of the journal

var rowEMC = method.Method{
	ID: "emc.hailwood-horrobin", Chapter: "sorption",
	Summary:  "Equilibrium moisture content of wood in air",
	Equation: "x = K H; EMC = (1800/W) [x/(1-x) + (K1 x + 2 K1 K2 x^2)/(1 + K1 x + K1 K2 x^2)]",
	Inputs: []method.Input{
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 100}, Limit: method.Range{Low: lowestC, High: highestC}},
		{Name: "rh_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 98}, Limit: method.Range{Low: 0, High: 100}},
	},
	Accuracy: "0.06 %MC against table 4-2 (rounding); about 1 %MC between species; +/-8 % of the value when the history is unknown",
	Source:   handbook, Checked: method.Memory,
}

var rowInverse = method.Method{
	ID: "emc.inverse", Chapter: "sorption",
	Summary:  "Relative humidity that keeps wood at a moisture content",
	Equation: "EMC(t, H) = MC solved for H",
	Inputs: []method.Input{
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 100}, Limit: method.Range{Low: lowestC, High: highestC}},
		{Name: "mc_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 27}, Limit: method.Range{Low: 0, High: 30}},
	},
	Accuracy: "exact inverse to 1e-12; 1 %MC between species is 5 to 7 %RH from 20 to 60 % RH, 4 at 70 and 2 at 90 % RH",
	Source:   handbook, Checked: method.Memory,
}

var rowHysteresis = method.Method{
	ID: "emc.hysteresis", Chapter: "sorption",
	Summary:  "Desorption and adsorption branches about the middle curve",
	Equation: "EMC_des = f EMC, EMC_ads = f r EMC, f = 2/(1+r); r = 0.85 to 20 C, rising in a straight line to 1 at 87.5 C",
	Inputs:   []method.Input{{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 100}, Limit: method.Range{Low: lowestC, High: highestC}}},
	Accuracy: "r is 0.75 to 0.90 between woods and samples; that the printed curve is the mean of the two is an assumption",
	Source:   "Stamm 1964, Wood and Cellulose Science; Skaar 1988, Wood-Water Relations; Siau 1995; the straight line is a choice", Checked: method.Memory,
}

var rowWood = method.Method{
	ID: "emc.wood", Chapter: "sorption",
	Summary:  "Isotherm of a wood that holds less than ordinary wood, by its fibre saturation",
	Equation: "EMC = (1800/W) [d x/(1-x) + (K1 x + 2 K1 K2 x^2)/(1 + K1 x + K1 K2 x^2)], d so that EMC(H = 1) is min(F, 30 %MC)/30 %MC of that of ordinary wood",
	Inputs: []method.Input{
		{Name: "fibre_saturation_pct", Unit: "%", Fitted: method.Range{Low: 15, High: 35}, Limit: method.Range{Low: 10, High: 45}},
	},
	Accuracy: "teak, iroko, afrormosia and western redcedar at 90 and 60 % RH: within 2.7 and 2.2 %MC of movement tables (from memory), all within the band; that the loss is in the dissolved water is an assumption, and from 60 % RH down the band holds the ordinary curve too",
	Source:   "derived: Hailwood and Horrobin's two waters, the dissolved one cut to the wood's fibre saturation; extractives fill the cell wall, Skaar 1988, Wood-Water Relations (from memory)",
	Checked:  method.Derived,
}

var rowBand = method.Method{
	ID: "emc.band", Chapter: "sorption",
	Summary:  "Margin of the EMC of one piece",
	Equation: "sd^2 = max(1 %MC/1.645 min(EMC/12 %MC, 1), sd of F dEMC/dF)^2 + (EMC (f-1)/sqrt 3)^2 when the history is unknown + (distance of the other equation/1.645)^2 + (loss against ordinary wood/1.645 min((1-H)/0.4, 1))^2",
	Inputs:   []method.Input{{Name: "mc_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 30}, Limit: method.Range{Low: 0, High: 40}}},
	Accuracy: "an estimate from rules in the literature, not a measured scatter",
	Source:   "Wood Handbook ch. 4 (one table for all species, to about 1 %MC); Stamm 1964 for the loop", Checked: method.Memory,
}

var rowSaturation = method.Method{
	ID: "fsp.temperature", Chapter: "sorption",
	Summary:  "Fibre saturation point at a temperature",
	Equation: "FSP(t) = FSP(20 C) (1 - (t - 20 C)/300 C), held above 100 C, rising with emc.power-law below -1.1 C",
	Inputs: []method.Input{
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 100}, Limit: method.Range{Low: lowestC, High: highestC}},
		{Name: "fibre_saturation_pct", Unit: "%", Fitted: method.Range{Low: 15, High: 35}, Limit: method.Range{Low: 10, High: 45}},
	},
	Accuracy: "+/-3 %MC for a species by name; 0.1 %MC per kelvin was seen at 30 %MC, the proportion is an assumption",
	Source:   "Stamm and Loughborough 1935, J. Phys. Chem. 39, 121-132", Checked: method.Memory,
}

// Methods returns the rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{&rowEMC, &rowInverse, &rowPower, &rowHysteresis, &rowWood, &rowBand, &rowSaturation}
}
