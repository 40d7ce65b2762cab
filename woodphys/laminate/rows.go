package laminate

import (
	"latewood/woodphys/method"
)

const chapter = "laminate"

func limits(name, unit string, fittedLow, fittedHigh, low, high float64) method.Input {
	return method.Input{Name: name, Unit: unit, Fitted: method.Range{Low: fittedLow, High: fittedHigh}, Limit: method.Range{Low: low, High: high}}
}

var panelRow = method.Method{
	ID: "laminate.panel", Chapter: chapter,
	Summary:  "Bending, twist, size and stress of glued orthotropic layers after a change of moisture content",
	Equation: "[A B; B D][e0; kappa] = [sum Q e t; sum Q e t z]; stress = Q (e0 + z kappa - e)",
	Inputs: []method.Input{
		limits("thickness", "mm", 0.2, 100, 0.01, 1e4),
		limits("length", "mm", 1, 12000, 0.01, 1e5),
		limits("width", "mm", 1, 3000, 0.01, 1e5),
		limits("grain_deg", "deg", -180, 180, -360, 360),
		limits("ring_angle_deg", "deg", 0, 90, 0, 90),
		limits("layers", "", 1, 32, 1, 32),
		limits("tilt_mc_points", "points", -10, 10, -100, 100),
	},
	Accuracy: "exact for thin elastic panels without restraint; creep lowers stress by a third or more, see laminate.creep",
	Source:   "classical lamination theory, Jones, Mechanics of Composite Materials, ch. 4",
	Checked:  method.Memory,
}

var elasticRow = method.Method{
	ID: "laminate.elastic", Chapter: chapter,
	Summary:  "Stiffness of a layer in its own plane at any ring angle",
	Equation: "1/E_w = cos^4 a/E_T + sin^4 a/E_R + sin^2 a cos^2 a (1/G_RT - 2 nu_RT/E_R); 1/G_Lw = cos^2 a/G_LT + sin^2 a/G_LR; nu_Lw = nu_LT cos^2 a + nu_LR sin^2 a",
	Inputs: []method.Input{
		limits("modulus_along", "MPa", 2000, 25000, 100, 1e5),
		limits("et_el", "", 0.01, 0.1, 0.001, 1), limits("er_el", "", 0.03, 0.2, 0.001, 1),
		limits("glr_el", "", 0.03, 0.21, 0.001, 1), limits("glt_el", "", 0.03, 0.19, 0.001, 1),
		limits("grt_el", "", 0.003, 0.03, 0.0005, 0.5),
		limits("nu_lr", "", 0.25, 0.5, 0, 0.9), limits("nu_lt", "", 0.25, 0.65, 0, 0.9), limits("nu_rt", "", 0.35, 0.92, 0, 0.95),
	},
	Accuracy: "stiffness of pieces varies by about 22 % along the grain and more across; 25 % (1 SD) is in the bands",
	Source:   "rotation of the orthotropic compliance; ratios as in Wood Handbook FPL-GTR-190 tables 5-1, 5-2",
	Checked:  method.Derived,
}

var ratiosRow = method.Method{
	ID: "laminate.group-ratios", Chapter: chapter,
	Summary:  "Elastic ratios of a wood without figures of its own: the mean of its group",
	Equation: "mean of the hardwoods or of the softwoods of the table",
	Accuracy: "standard deviation within a group 20 to 50 % of the mean for stiffness, 10 to 20 % for Poisson's ratios",
	Source:   "means of Wood Handbook FPL-GTR-190 tables 5-1 and 5-2 (16 hardwoods, 19 softwoods)",
	Checked:  method.Derived,
}

var glueRow = method.Method{
	ID: "laminate.glue-line", Chapter: chapter,
	Summary:  "Order of the shear and peel stress in a glue line at the edge of a panel",
	Equation: "tau = F beta tanh(beta L/2), beta^2 = (1/EA1 + 1/EA2 + d^2/(D1 + D2))/K, K = ta/Ga + t1/(3 G1) + t2/(3 G2); peel ~ 3 tau",
	Inputs: []method.Input{
		limits("glue_thickness", "mm", 0.02, 0.5, 0.001, 10),
		limits("glue_shear_modulus", "MPa", 50, 2000, 1, 1e4),
	},
	Accuracy: "order of magnitude: Low and High are a third and three times the value (assumed, not a 90 % band); in six finite-element cases shear 0.9 to 2.1 and peel 0.5 to 2.0 times the value; elastic, before creep",
	Source:   "Volkersen 1938; Chen and Nelson, IBM Journal of Research and Development 23, 1979; interfacial compliance t/(3G) after Suhir 1986",
	Checked:  method.Memory,
}

var creepRow = method.Method{
	ID: "laminate.creep", Chapter: chapter,
	Summary:  "What creep leaves of elastic stress and bending after weeks and months",
	Equation: "stress 0.3 to 0.8 of the elastic one, bending 0.5 to 1",
	Accuracy: "a range assumed; moisture that goes up and down relaxes more than steady air",
	Source:   "common practice, no source; assumed",
	Checked:  method.Practice,
}

var stripRow = method.Method{
	ID: "laminate.two-layers", Chapter: chapter,
	Summary:  "Curvature of two glued strips that move differently",
	Equation: "kappa = 6 de (1+m)^2/(h (3 (1+m)^2 + (1+mn)(m^2 + 1/(mn)))), m = t1/t2, n = E1/E2; cup = kappa w^2/8",
	Inputs: []method.Input{
		limits("thickness", "mm", 0.2, 200, 0.001, 1e4),
		limits("modulus", "MPa", 50, 25000, 1, 1e6),
		limits("difference_pct", "%", -10, 10, -50, 50),
		limits("width", "mm", 1, 3000, 0.01, 1e5),
	},
	Accuracy: "exact for narrow elastic strips; creep ignored, so an upper bound. A modulus ratio of 2 changes equal layers by 3 %",
	Source:   "Timoshenko, Analysis of bi-metal thermostats, Journal of the Optical Society of America 11, 1925, eq. 4",
	Checked:  method.Memory,
}

var pairRow = method.Method{
	ID: "laminate.cap-and-body", Chapter: chapter,
	Summary:  "Free difference and cup of a cap glued to a body of another wood",
	Equation: "W (e1 - e2); cup by laminate.two-layers",
	Inputs: []method.Input{
		limits("width", "mm", 1, 3000, 0.01, 1e5),
	},
	Accuracy: "across the grain only, elastic, so an upper bound; band from both woods, independent",
	Source:   "Timoshenko 1925 with the strains of package movement",
	Checked:  method.Derived,
}

var clearanceRow = method.Method{
	ID: "laminate.clearance", Chapter: chapter,
	Summary:  "Clearance at build of two parts that meet, so that they never bind and never gap too far",
	Equation: "least = max over the build and the states of (least play - low of change); greatest = min over them of (most play - high of change); the change at the build is 0",
	Inputs: []method.Input{
		limits("play", "mm", -10, 10, -1e4, 1e4),
		limits("change", "mm", -50, 50, -1e5, 1e5),
	},
	Accuracy: "each limit holds for 95 of 100 pairs in each state; the bands of both parts independent",
	Source:   "arithmetic on the sum of two independent changes, derived",
	Checked:  method.Derived,
}

// Methods returns the registry rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{&panelRow, &elasticRow, &ratiosRow, &glueRow, &creepRow, &stripRow, &pairRow, &clearanceRow}
}
