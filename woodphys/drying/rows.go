package drying

import "latewood/woodphys/method"

// Limits of what is computed at all.
const (
	lowestAirC  = -40.0 // degC
	highestAirC = 80.0  // degC
	highestMC   = 1.50  // fraction
)

const siauSource = "Siau 1984, Transport Processes in Wood, and Siau 1995, Wood: Influence of Moisture on Physical Properties"

var rowDiffusivity = method.Method{
	ID: "drying.diffusivity", Chapter: "drying",
	Summary:  "Diffusion coefficient of moisture in wood from its density, moisture content and temperature",
	Equation: "D_B = 7e-6 exp(-(38500 - 290 M)/(R T)); D_V = 0.018 D_a p_s/(1000 G_w R T) dH/dm; v = 1 - G (0.667 + 0.01 M); D_T = D_B D_V/((1-v)(D_B + D_V (1 - sqrt v))); D_L = (v D_V + (1-v) 2.5 D_B)/(1-v)",
	Inputs: []method.Input{
		{Name: "specific_gravity", Fitted: method.Range{Low: 0.3, High: 0.9}, Limit: method.Range{Low: 0.1, High: 1.2}},
		{Name: "fibre_saturation_pct", Unit: "%", Fitted: method.Range{Low: 17, High: 36}, Limit: method.Range{Low: 15, High: 40}},
		{Name: "emc_factor", Fitted: method.Range{Low: 0.8, High: 1.1}, Limit: method.Range{Low: 0.5, High: 1.5}},
		{Name: "pressure", Unit: "Pa", Fitted: method.Range{Low: 60e3, High: 108e3}, Limit: method.Range{Low: 50e3, High: 110e3}},
		{Name: "mc_pct", Unit: "%", Fitted: method.Range{Low: 3, High: 150}, Limit: method.Range{Low: 0, High: 100 * highestMC}},
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 60}, Limit: method.Range{Low: lowestAirC, High: highestAirC}},
	},
	Accuracy: "a factor of about 2 in level; D_L/D_T agrees with published ratios; measured D rises more steeply with MC",
	Source:   siauSource, Checked: method.Memory,
}

var rowSlab = method.Method{
	ID: "drying.slab", Chapter: "drying",
	Summary:  "Moisture profile through the thickness of a board under a climate",
	Equation: "dM/dt = d/dx(w^S k D dM/dx); S smooth from 0 where the middle is at 0.40 of fibre saturation to 1 at 1.05; above fibre saturation D falls over 2 %MC to 0.10 of that there; G rho_w w^S k D dM/dx = -beta p_s/(R_v T) (a(M_s) - H) at the face",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 10, High: 110}, Limit: method.Range{Low: 0.5, High: 600}},
		{Name: "drying_factor", Fitted: method.Range{Low: 0.05, High: 4}, Limit: method.Range{Low: 0.005, High: 20}},
		{Name: "pace", Fitted: method.Range{Low: 0.05, High: 1.5}, Limit: method.Range{Low: 0.005, High: 20}},
		{Name: "mc_pct", Unit: "%", Fitted: method.Range{Low: 3, High: 150}, Limit: method.Range{Low: 0, High: 100 * highestMC}},
		{Name: "tolerance_pct", Unit: "%", Fitted: method.Range{Low: 1e-7, High: 1}, Limit: method.Range{Low: 1e-9, High: 2}},
		{Name: "depth", Fitted: method.Range{Low: 0, High: 0.5}, Limit: method.Range{Low: 0, High: 0.5}},
		{Name: "phase_days", Unit: "d", Fitted: method.Range{Low: 0, High: 36525}, Limit: method.Range{Low: 0, High: 36525}},
	},
	Accuracy: "the numbers: 0.02 %MC at the standard setting; the model: the drying factor, a ratio of about 1.4, and while it is wet the pace, a ratio of about 1.5 (1 SD)",
	Source:   "Crank 1975, The Mathematics of Diffusion, ch. 4 for the problem; " + siauSource + " for D; Sandu et al. 1997, Atmospheric Environment 31, 3459-3472 for Rodas3", Checked: method.Memory,
}

var rowExposure = method.Method{
	ID: "drying.exposure", Chapter: "drying",
	Summary:  "Film coefficient of the air at the face",
	Equation: "beta = h_c/(rho_a c_p Le^(2/3)) ~ h_c/1100; 1/beta_eff = 1/beta + r_coat; moving air: h_c = 10 v^0.6 W/m2K",
	Inputs: []method.Input{
		{Name: "film_coefficient", Unit: "m/s", Fitted: method.Range{Low: 1e-3, High: 0.024}, Limit: method.Range{Low: 1e-9, High: 1}},
		{Name: "coat_resistance", Unit: "s/m", Fitted: method.Range{Low: 0, High: 1e6}, Limit: method.Range{Low: 0, High: 1e9}},
		{Name: "air_speed_m_per_s", Unit: "m/s", Fitted: method.Range{Low: 0.4, High: 5}, Limit: method.Range{Low: 0.2, High: 10}},
	},
	Accuracy: "a factor of 2; hardwoods of 25 mm in air moved by 0 to 20 % in time between 0.0015 and 0.004 m/s",
	Source:   "h_c 3-5 W/m2K in still air, 8-12 at 1 m/s (general heat transfer, from memory); the exposure classes are assumed", Checked: method.Memory,
}

var rowFrost = method.Method{
	ID: "drying.frost", Chapter: "drying",
	Summary:  "Slow drying in frost",
	Equation: "D = D(0 C) (0.3 + 0.7 s^2 (3 - 2 s)), s = (t + 2 C)/2 C held to 0..1",
	Inputs:   []method.Input{{Name: "temperature", Unit: "C", Fitted: method.Range{Low: lowestAirC, High: 0}, Limit: method.Range{Low: lowestAirC, High: 0}}},
	Accuracy: "a factor of 1.6: between 0.2 and 0.45 of the rate",
	Source:   "common practice that frost slows air drying; three tenths fit the spans of 64 woods and three printed dates of red oak best (0.2 to 0.45), the 2 K are assumed", Checked: method.Practice,
}

var rowHysteresis = method.Method{
	ID: "drying.hysteresis", Chapter: "drying",
	Summary:  "Which sorption curve the face of the wood follows",
	Equation: "green: dries on 1.081 EMC until it has taken up 0.5 %MC; then no exchange within +/-0.5 %MC of EMC",
	Inputs:   []method.Input{{Name: "mc_pct", Unit: "%", Fitted: method.Range{Low: 5, High: 25}, Limit: method.Range{Low: 0, High: 100 * highestMC}}},
	Accuracy: "about 1 %MC passes on reversal before wood responds (read); the form of the band is an assumption",
	Source:   "Wengert, articles for the lumber trade (read), for the width; Stamm 1964 for the desorption curve (from memory)", Checked: method.Memory,
}

var rowClimate = method.Method{
	ID: "drying.climate", Chapter: "drying",
	Summary:  "Air around the wood from monthly means, a log, or outdoor air heated indoors",
	Equation: "monthly means: piecewise quadratic with continuous slope and the mean of each month kept; heated: t = max(heated to, outdoors + 2 K), e unchanged but for the vapour of people, all of it at 0 C outdoors and none from 20 C on, RH = e/p_s(t) at most 1",
	Inputs: []method.Input{
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: lowestAirC, High: highestAirC}, Limit: method.Range{Low: lowestAirC, High: highestAirC}},
		{Name: "rh_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 98}, Limit: method.Range{Low: 0, High: 100}},
		{Name: "day_of_year", Unit: "d", Fitted: method.Range{Low: 0, High: 365}, Limit: method.Range{Low: 0, High: 366}},
		{Name: "added_vapour", Unit: "Pa", Fitted: method.Range{Low: 0, High: 1000}, Limit: method.Range{Low: 0, High: 3000}},
	},
	Accuracy: "monthly means are kept to rounding; weather and the day cycle are not in it (the mean EMC is about 0.4 %MC above the EMC of the mean humidity)",
	Source:   "derived here; ASHRAE Fundamentals 2017 ch. 1 for heated air", Checked: method.Derived,
}
