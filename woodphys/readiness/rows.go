package readiness

import "latewood/woodphys/method"

func span(low, high float64) method.Range { return method.Range{Low: low, High: high} }

// Readings of one piece.
const (
	// mostReadings enter one fit; of more, weights and meter readings are thinned.
	mostReadings = 200
	// mostGiven may be given.
	mostGiven = 5000
)

// Bounds of the parameters themselves.
const (
	lowestStart, highestStart   = 0.01, 1.5
	lowestFactor, highestFactor = 0.005, 20.0
	lowestEMC, highestEMC       = 0.5, 1.5
)

var learnRow = method.Method{
	ID: "readiness.learn", Chapter: "readiness",
	Summary:  "Drying factor, wet-stage pace, start, EMC scale, air and pace of each stay, ovendry mass and meter error from dated readings and the drying forecast",
	Equation: "p(theta | y) ~ N(theta; prior) N(y; g(theta) + X m, C), C = noise + discrepancy + X P X'; ln W = ln OD + ln(1 + M); importance sampling about the mode",
	Inputs: []method.Input{
		{Name: "observations", Fitted: span(0, mostReadings), Limit: span(0, mostGiven)},
		{Name: "drying_factor", Fitted: span(0.05, 2), Limit: span(lowestFactor, highestFactor)},
		{Name: "drying_factor_log_sd", Fitted: span(0.05, 0.7), Limit: span(0, 1.5)},
		{Name: "start_mc_pct", Unit: "%MC", Fitted: span(10, 150), Limit: span(100*lowestStart, 100*highestStart)},
		{Name: "start_sd_pct", Unit: "%MC", Fitted: span(0, 30), Limit: span(0, 50)},
		{Name: "pace", Fitted: span(0.1, 1.2), Limit: span(lowestFactor, highestFactor)},
		{Name: "pace_log_sd", Fitted: span(0.05, 0.7), Limit: span(0, 1.5)},
		{Name: "air_sd", Fitted: span(0.01, 0.1), Limit: span(0, 0.2)},
		{Name: "emc_factor", Fitted: span(0.8, 1.1), Limit: span(lowestEMC, highestEMC)},
		{Name: "emc_log_sd", Fitted: span(0.02, 0.15), Limit: span(0, 0.3)},
		{Name: "members", Fitted: span(128, 2048), Limit: span(32, 2048)},
		{Name: "points", Fitted: span(100, 400), Limit: span(20, 400)},
		{Name: "mass", Unit: "g", Fitted: span(1e-3, 1e8), Limit: span(1e-3, 1e8)},
		{Name: "mass_resolution", Unit: "g", Fitted: span(0, 1e6), Limit: span(0, 1e6)},
		{Name: "ovendry_mass", Unit: "g", Fitted: span(1e-3, 1e8), Limit: span(1e-3, 1e8)},
		{Name: "ovendry_sd", Fitted: span(0.0005, 1), Limit: span(0.0005, 1)},
		{Name: "differs_sd_pct", Unit: "%MC", Fitted: span(0, 5), Limit: span(0, 20)},
		{Name: "bias_sd_pct", Unit: "%MC", Fitted: span(0, 4), Limit: span(0, 20)},
		{Name: "mc_pct", Unit: "%MC", Fitted: span(3, 150), Limit: span(0, 250)},
		{Name: "sd_pct", Unit: "%MC", Fitted: span(0.1, 20), Limit: span(0.05, 50)},
		{Name: "depth", Fitted: span(0, 0.5), Limit: span(0, 0.5)},
	},
	Accuracy: "coverage of the 90 % bands measured by simulation, see COVERAGE.md; of real boards not measured",
	Source:   "Bayes; linear parameters integrated in closed form as in kriging (Rasmussen and Williams 2006, Gaussian Processes for Machine Learning, ch. 2, from memory); importance sampling",
	Checked:  method.Derived,
}

var discrepancyRow = method.Method{
	ID: "readiness.discrepancy", Chapter: "readiness",
	Summary:  "By how much a piece strays from the best forecast: weather is not its mean, a board is not a slab",
	Equation: "quick: sd^2 = SD^2 + (share M)^2, correlation exp(-|dt|/time), SD 0.5 %MC (50 mm/thickness) from 0.3 to 1.25 %MC, 0.6 of it in steady air, elsewhere times the slope of the sorption curve over that at 65 % RH (0.7 to 3); lasting: sd^2 = (0.6 %MC)^2, times the same, + (0.16 (M - 8 %))^2, correlation (1 + u) exp(-u), u = sqrt(3) |dt|/90 d",
	Inputs: []method.Input{
		{Name: "discrepancy_sd_pct", Unit: "%MC", Fitted: span(0.1, 1.25), Limit: span(0.01, 10)},
		{Name: "discrepancy_share", Fitted: span(0, 0.1), Limit: span(0, 0.3)},
		{Name: "discrepancy_days", Unit: "d", Fitted: span(7, 90), Limit: span(1, 365)},
	},
	Accuracy: "own choice, tuned on truths of four other laws (woodphys/seasoning/TRUTHS.md): the mean EMC of a month strays by 0.5 to 1 %MC from its normal and a board of 25 mm follows a part of that",
	Source:   "own choice, no source",
	Checked:  method.Practice,
}

var contradictionRow = method.Method{
	ID: "readiness.contradiction", Chapter: "readiness",
	Summary:  "Readings that the others, and what the wood leads to expect, rule out",
	Equation: "odds_i = p(all | i is wrong)/p(all | all are sound) = [p(others)/p(all)] [0.8 N(e; 0, s^2 + 0.1^2) + 0.2 mean over slips N(e + slip; 0, s^2)], e the logarithm of the weight less what the fit without it foretells, s its standard deviation; slips: two digits swapped, the decimal point, the unit; of moisture content N(e; 0, s^2 + (10 %MC)^2) for |e| of 3.8 s; set aside where odds_i > 4 n, and |e| at least 6.5 % of a weight (3 % where a slip explains it) or 4 %MC + 0.12 M; two within 20 to 1 as a pair; a lone sample and what lies in its printed band are kept",
	Inputs: []method.Input{
		{Name: "observations", Fitted: span(3, mostReadings), Limit: span(1, mostReadings)},
	},
	Accuracy: "fewer than 1 % of sound series of the model's own raise an alarm; of other truths 2 to 4 %; what is named of wrong weights, and what could be, is measured in woodphys/readiness/WRONG.md and woodphys/seasoning/WRONG.md",
	Source:   "Bayes: the odds of two hypotheses (evidence by Laplace's approximation); prior odds and spreads own choice",
	Checked:  method.Derived,
}

var jointRow = method.Method{
	ID: "readiness.joint", Chapter: "readiness",
	Summary:  "Probability that level, gradient and rest are met together, from the ensemble",
	Equation: "sum over members of w P(level | member) [gradient] [rest]",
	Inputs: []method.Input{
		{Name: "target_pct", Unit: "%MC", Fitted: span(4, 16), Limit: span(0.5, 30)},
		{Name: "target_sd_pct", Unit: "%MC", Fitted: span(0, 3), Limit: span(0, 10)},
		{Name: "wood_share", Fitted: span(0, 1), Limit: span(0, 1)},
		{Name: "at_days", Unit: "d", Fitted: span(0, 36525), Limit: span(0, 36525)},
	},
	Accuracy: "0.02 in probability with 192 members; the discrepancy is taken to move shell and core alike; of it only the mean that the readings lead to counts as unrest, the weather about it does not",
	Source:   "derived; limits and thresholds are common practice",
	Checked:  method.Derived,
}

var readyDateRow = method.Method{
	ID: "readiness.ready-date", Chapter: "readiness",
	Summary:  "When every criterion of a step is met by most cases, and how likely never within the horizon",
	Equation: "first days on which 5 and 50 % of the members, by weight, meet every criterion that very day, and 95 % of as many as ever do, where those are four fifths of all at least; kept: the share of those that do on the middle day that do 28 days later as well; never: the share of those that do on no day",
	Inputs: []method.Input{
		{Name: "at_days", Unit: "d", Fitted: span(0, 36525), Limit: span(0, 36525)},
		{Name: "horizon_days", Unit: "d", Fitted: span(0, 36525), Limit: span(0, 36525)},
	},
	Accuracy: "coverage measured in COVERAGE.md and woodphys/seasoning/TRUTHS.md",
	Source:   "the members of the ensemble of readiness.learn, derived",
	Checked:  method.Derived,
}

var nextRow = method.Method{
	ID: "readiness.next-reading", Chapter: "readiness",
	Summary:  "The reading that is expected to reduce the uncertainty of the decision most",
	Equation: "expected standard deviation of the ready date, or expected entropy of the verdict, over the predicted values of the reading",
	Inputs: []method.Input{
		{Name: "candidates", Fitted: span(1, 20), Limit: span(1, 50)},
		{Name: "after_days", Unit: "d", Fitted: span(0, 90), Limit: span(0, 3650)},
		{Name: "sd_pct", Unit: "%MC", Fitted: span(0.05, 20), Limit: span(0.05, 50)},
		{Name: "depth", Fitted: span(0, 0.5), Limit: span(0, 0.5)},
	},
	Accuracy: "a ranking, computed on the ensemble; about a tenth in the expected reduction",
	Source:   "pre-posterior analysis, Raiffa and Schlaifer 1961, Applied Statistical Decision Theory (from memory)",
	Checked:  method.Derived,
}
