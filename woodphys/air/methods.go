package air

import "latewood/woodphys/method"

const (
	ashrae = "ASHRAE Handbook - Fundamentals 2017, ch. 1"
	hyland = "Hyland and Wexler 1983, ASHRAE Transactions 89(2A), 500-519, as printed in " + ashrae
)

var rowWater = method.Method{
	ID: "air.saturation-water", Chapter: "air",
	Summary:  "Vapour pressure of saturated air over liquid water",
	Equation: "ln p = -5800.2206/T + 1.3914993 - 0.048640239 T + 4.1764768e-5 T^2 - 1.4452093e-8 T^3 + 6.5459673 ln T (Pa, K)",
	Inputs:   []method.Input{{Name: "temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 200}, Limit: method.Range{Low: 0, High: 200}}},
	Accuracy: "0.03 % against the printed table",
	Source:   hyland + ", eq. 6", Checked: method.Memory,
}

var rowSupercooled = method.Method{
	ID: "air.saturation-supercooled", Chapter: "air",
	Summary:  "Vapour pressure of saturated air over supercooled water, to which relative humidity refers below 0 C",
	Equation: "the water equation of Hyland and Wexler continued below 0 C",
	Inputs:   []method.Input{{Name: "temperature", Unit: "C", Fitted: method.Range{Low: -45, High: 0}, Limit: method.Range{Low: -100, High: 0}}},
	Accuracy: "against Murphy and Koop 2005: 0.10 % at -20, 0.25 % at -30, 0.73 % at -40, 1.3 % at -45, 2.1 % at -50 C",
	Source:   hyland + ", eq. 6, extrapolated; compared with Murphy and Koop 2005, Q. J. R. Meteorol. Soc. 131, 1539-1565, eq. 10", Checked: method.Memory,
}

var rowAltitude = method.Method{
	ID: "air.altitude", Chapter: "air",
	Summary:  "Standard air pressure at an altitude",
	Equation: "p = 101325 (1 - 2.25577e-5 z)^5.2559 (Pa, m)",
	Inputs:   []method.Input{{Name: "altitude", Unit: "m", Fitted: method.Range{Low: -500, High: 9000}, Limit: method.Range{Low: -500, High: 9000}}},
	Accuracy: "1 Pa against the printed table; weather moves the true pressure by about +/-3 %",
	Source:   ashrae + ", eq. 3 (printed for -5000 to 11000 m)", Checked: method.Memory,
}

var rowState = method.Method{
	ID: "air.state", Chapter: "air",
	Summary:  "Vapour pressure, relative humidity and humidity ratio of air from any one of them",
	Equation: "e = RH p_s(t); W = 0.621945 e/(p - e)",
	Inputs: []method.Input{
		{Name: "temperature", Unit: "C", Fitted: method.Range{Low: -60, High: 120}, Limit: method.Range{Low: -60, High: 120}},
		{Name: "rh_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 100}, Limit: method.Range{Low: 0, High: 100}},
		{Name: "pressure", Unit: "Pa", Fitted: method.Range{Low: 30e3, High: 110e3}, Limit: method.Range{Low: 30e3, High: 110e3}},
		{Name: "humidity_ratio", Unit: "kg/kg", Fitted: method.Range{Low: 0, High: 5}, Limit: method.Range{Low: 0, High: 5}},
	},
	Accuracy: "that of the saturation pressure; ideal gases, no enhancement factor (below 0.5 %)",
	Source:   ashrae + ", eqs. 20 and 22", Checked: method.Memory,
}

var rowDewPoint = method.Method{
	ID: "air.dew-point", Chapter: "air",
	Summary:  "Dew point over liquid water (supercooled below 0 C) by inversion of the saturation pressure",
	Equation: "p_s(dew) = e",
	Inputs:   []method.Input{{Name: "dew_point", Unit: "C", Fitted: method.Range{Low: -45, High: 120}, Limit: method.Range{Low: -100, High: 120}}},
	Accuracy: "exact inverse to 1e-9 K; the saturation pressure adds 0.1 K at -45 C",
	Source:   ashrae + ", eq. 36", Checked: method.Memory,
}

var rowWetBulb = method.Method{
	ID: "air.wet-bulb", Chapter: "air",
	Summary:  "Humidity of air from an aspirated psychrometer, with a wet or an iced bulb, and its inverse",
	Equation: "W = ((2501 - 2.326 tw) W* - 1.006 (t-tw))/(2501 + 1.86 t - 4.186 tw); iced: W = ((2830 - 0.24 tw) W* - 1.006 (t-tw))/(2830 + 1.86 t - 2.1 tw)",
	Inputs:   []method.Input{{Name: "wet_bulb", Unit: "C", Fitted: method.Range{Low: -60, High: 100}, Limit: method.Range{Low: -100, High: 120}}},
	Accuracy: "about 0.3 %RH against the psychrometer formula of WMO-No. 8 at 20 C; a reading error of 0.5 K costs about 4 %RH there; for bulbs without a fan it reads too moist",
	Source:   ashrae + ", eqs. 33 and 35", Checked: method.Memory,
}

var rowHeated = method.Method{
	ID: "air.heated", Chapter: "air",
	Summary:  "Air warmed or cooled with its vapour kept, as outdoor air in a heated room",
	Equation: "e unchanged; RH = e/p_s(t), at most 1",
	Inputs:   []method.Input{{Name: "temperature", Unit: "C", Fitted: method.Range{Low: -60, High: 120}, Limit: method.Range{Low: -60, High: 120}}},
	Accuracy: "that of the saturation pressure; vapour given off indoors is not known to it",
	Source:   ashrae + ", moist air sensible heating or cooling", Checked: method.Memory,
}

// Methods returns the rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{
		&rowWater, &rowSupercooled, &rowAltitude, &rowState, &rowDewPoint, &rowWetBulb, &rowHeated,
	}
}
