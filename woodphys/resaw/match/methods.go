package match

import (
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/exact"
)

// Methods returns the rows of the match of the halves.
func Methods() []*method.Method {
	return []*method.Method{rowMatch, rowCircleShift, rowCarved, rowMatchBand, rowMatchScore}
}

// plane is the accuracy of what rests on plane rings.
const plane = "exact for plane rings; against circular rings 0.0003 mm at d = 2.3 mm, 69 mm or more from the pith"

var (
	rowMatch = exact.Row("resaw.match", "how neighbouring leaves match across a seam, for each way of opening and "+
		"each edge",
		"d from the show faces; ring d cot(theta), ray d tan(theta), flame d tan(phi), tips d N, runout 2 "+
			"atan(1/N) when mirrored, spacing ring/sin(theta)",
		plane, method.Derived,
		exact.MM("width", exact.Least, 2000), exact.MM("first", 0, 1000), exact.MM("leaf", exact.Least, 500),
		exact.MM("kerf", 0, 9.525), exact.MM("reface", 0, 5),
		exact.MM("front", 0, 1000), exact.MM("back", 0, 1000), exact.MM("cleanup_show", 0, 5),
		exact.MM("cleanup_back", 0, 5), exact.MM("seam_edge", 0, 10), exact.MM("arch_height", 0, 40),
		exact.Coordinate("pith_x"), exact.Coordinate("pith_z"), exact.Coordinate("x"), exact.Coordinate("z"),
		exact.Deg("ring_angle", 0, 90), exact.MM("ring_width", 0, 50),
		exact.Ratio("dip_one_in", 0, 1e6),
		method.Input{Name: "runout_one_in", Fitted: method.Range{Low: 24, High: 1e9},
			Limit: method.Range{Low: 1, High: 1e9}},
		exact.Deg("band_lean", 0, 89), exact.MM("spare_width", 0, 100), exact.MM("spare_length", 0, 500))
	rowCircleShift = exact.Row("resaw.circle-shift", "ring shift of circular rings about the pith",
		"2 d |z-zp| / (sqrt(r^2-(za-zp)^2) + sqrt(r^2-(zb-zp)^2))",
		"exact for circular rings; eccentric pith makes them off-circular",
		method.Derived, exact.Coordinate("pith_x"), exact.Coordinate("pith_z"))
	rowCarved = exact.Row("resaw.carved-match", "ring shift on the outside of a pair that is carved to an arch",
		"outside at c(s) = R - sqrt(R^2 - s^2) below the show face, R = (W^2 + h^2)/(2 h); shift = x_b - x_a of one ring where it "+
			"comes through both outsides",
		"exact for that arc and for circular or plane rings; a real arch is hollowed out towards its edge",
		method.Derived)
	rowMatchBand = exact.Row("resaw.match-band", "90 % band of the ring shift",
		"d cot(theta -+ 1.645 sd), with the difference of circular and plane rings at the centre",
		"exact quantiles for plane rings and a normal ring angle", method.Derived,
		method.Input{Name: "ring_angle_sd", Unit: "deg", Fitted: method.Range{Low: 0, High: 10},
			Limit: method.Range{Low: 0, High: 30}})
	rowMatchScore = &method.Method{
		ID: "resaw.match-score", Chapter: exact.Chapter,
		Summary: "one number for what is wrong with a match, less is better",
		Equation: "sum of min(weight x shift, most) over ring, residual, ray, flame, tip, spacing, runout, pith " +
			"edge, lost mirror",
		Accuracy: "an order of preference, not a measurement",
		Source:   "our own choice of weights, no source; meant to be changed",
		Checked:  method.Practice, Inputs: []method.Input{
			{Name: "weights", Fitted: method.Range{Low: 0, High: 1000}, Limit: method.Range{Low: 0, High: 1e6}},
		},
	}
)
