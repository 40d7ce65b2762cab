package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/exact"
)

// Methods returns the rows of the chapter.
func Methods() []*method.Method {
	return []*method.Method{RowLeaves, rowAcross, rowWedge, rowSets, rowVolume, rowLeafThickness, rowPith}
}

// inNanometres is the accuracy of what is counted.
const inNanometres = "exact in whole nanometres"

// practice makes the row of a sum that is a habit of the trade.
func practice(id, summary, equation, accuracy string, checked method.Checked, inputs ...method.Input) *method.Method {
	m := exact.Row(id, summary, equation, accuracy, checked, inputs...)
	m.Source = "common practice, no source; the parts as in mill practice, Sawing variation papers, Forest " +
		"Products Journal 73(1), 2023"
	return m
}

// Rows of counting. The usual ranges are those of shop and mill saws: kerf 0 by
// the froe to 9.5 mm by an old mill circular saw (Hallock, FPL Report 2254,
// 1962); the others are common practice.
var (
	RowLeaves = exact.Row("resaw.leaves", "leaves from a thickness",
		"n = floor((U+k+j)/(t+k+j)), far face rough: floor((U+j)/(t+k+j)), U = T - f", inNanometres, method.Derived,
		exact.MM("thickness", 0, 1000), exact.MM("facing", 0, 50), exact.MM("leaf", exact.Least, 500),
		exact.MM("kerf", 0, 9.525), exact.MM("reface", 0, 5))
	rowAcross = exact.Row("resaw.across", "blanks along a length or across a width",
		"n = floor((L - trims + k)/(l + k))", inNanometres, method.Derived,
		exact.MM("length", 0, 12000), exact.MM("trim_start", 0, 600), exact.MM("trim_end", 0, 600),
		exact.MM("blank", exact.Least, 6000), exact.MM("kerf", 0, 9.525))
	rowWedge = exact.Row("resaw.wedge", "thickness of a wedge for flat plates",
		"A - (A - B) w/w0", inNanometres+", rounded down", method.Derived,
		exact.MM("bark_edge", 0, 500), exact.MM("heart_edge", 0, 500), exact.MM("across", exact.Least, 1000),
		exact.MM("blank", 0, 1000))
	rowSets = exact.Row("resaw.sets", "sets from consecutive unspoiled leaves of a stack",
		"sets = sum over runs of floor(run/p)", "exact", method.Derived)
	rowVolume = exact.Row("resaw.volume", "exact volume of a billet and its shares",
		"L W T; 1 board foot = 144 in3 = 2359.737216 cm3", "exact in whole cubic nanometres", method.Derived,
		exact.MM("length", 0, 12000), exact.MM("width", 0, 2000), exact.MM("thickness", 0, 1000))
	rowLeafThickness = practice("resaw.leaf-thickness", "sawn leaf from final thickness and allowances",
		"t = final + s_show + s_back + wander + flatness + oversize + rounding", inNanometres, method.Practice,
		exact.MM("final", exact.Least, 200), exact.MM("cleanup_show", 0, 5), exact.MM("cleanup_back", 0, 5),
		exact.MM("wander", 0, 5),
		exact.MM("flatness", 0, 10), exact.MM("oversize", 0, 20), exact.MM("rounding", 0, 1))
)

var rowPith = exact.Row("resaw.pith", "pith from two ring angles on one face",
	"H = (x2-x1)/(tan a2 - tan a1), xp = x1 - H tan a1", "exact for circular rings; ill-conditioned near 90 deg",
	method.Derived, exact.Coordinate("x1"), exact.Deg("ring_angle_1", 0, 90), exact.Coordinate("x2"),
	exact.Deg("ring_angle_2", 0, 90))
