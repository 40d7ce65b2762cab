package resaw

import "latewood/woodphys/method"

// Methods returns the rows of the chapter.
func Methods() []*method.Method {
	return []*method.Method{rowLeaves, rowAcross, rowWedge, rowSets, rowVolume, rowLeafThickness, rowWarp, rowPith}
}

// inNanometres is the accuracy of what is counted.
const inNanometres = "exact in whole nanometres"

// practice makes the row of a sum that is a habit of the trade.
func practice(id, summary, equation, accuracy string, checked method.Checked, inputs ...method.Input) *method.Method {
	m := row(id, summary, equation, accuracy, checked, inputs...)
	m.Source = "common practice, no source; the parts as in mill practice, Sawing variation papers, Forest Products Journal 73(1), 2023"
	return m
}

// Rows of counting. The usual ranges are those of shop and mill saws: kerf 0 by
// the froe to 9.5 mm by an old mill circular saw (Hallock, FPL Report 2254,
// 1962); the others are common practice.
var (
	rowLeaves = row("resaw.leaves", "leaves from a thickness",
		"n = floor((U+k+j)/(t+k+j)), far face rough: floor((U+j)/(t+k+j)), U = T - f", inNanometres, method.Derived,
		mm("thickness", 0, 1000), mm("facing", 0, 50), mm("leaf", least, 500), mm("kerf", 0, 9.525), mm("reface", 0, 5))
	rowAcross = row("resaw.across", "blanks along a length or across a width",
		"n = floor((L - trims + k)/(l + k))", inNanometres, method.Derived,
		mm("length", 0, 12000), mm("trim_start", 0, 600), mm("trim_end", 0, 600), mm("blank", least, 6000), mm("kerf", 0, 9.525))
	rowWedge = row("resaw.wedge", "thickness of a wedge for flat plates",
		"A - (A - B) w/w0", inNanometres+", rounded down", method.Derived,
		mm("bark_edge", 0, 500), mm("heart_edge", 0, 500), mm("across", least, 1000), mm("blank", 0, 1000))
	rowSets = row("resaw.sets", "sets from consecutive unspoiled leaves of a stack",
		"sets = sum over runs of floor(run/p)", "exact", method.Derived)
	rowVolume = row("resaw.volume", "exact volume of a billet and its shares",
		"L W T; 1 board foot = 144 in3 = 2359.737216 cm3", "exact in whole cubic nanometres", method.Derived,
		mm("length", 0, 12000), mm("width", 0, 2000), mm("thickness", 0, 1000))
	rowLeafThickness = practice("resaw.leaf-thickness", "sawn leaf from final thickness and allowances",
		"t = final + s_show + s_back + wander + flatness + oversize", inNanometres, method.Practice,
		mm("final", least, 200), mm("cleanup_show", 0, 5), mm("cleanup_back", 0, 5), mm("wander", 0, 5),
		mm("flatness", 0, 10), mm("oversize", 0, 20))
	rowWarp = row("resaw.warp", "thickness left when a warped piece is planed flat",
		"t - h; piece h (l/L)^2; twist g (l/L)(w/W), half if packed", "h as a parabola; the sum of cup, bow and twist is an upper bound of the loss",
		method.Derived, mm("thickness", least, 500), mm("length", least, 12000), mm("width", least, 2000), mm("cup", 0, 50),
		mm("bow", 0, 100), mm("twist", 0, 100), mm("piece_length", 0, 12000), mm("piece_width", 0, 2000))
)

var rowPith = row("resaw.pith", "pith from two ring angles on one face",
	"H = (x2-x1)/(tan a2 - tan a1), xp = x1 - H tan a1", "exact for circular rings; ill-conditioned near 90 deg",
	method.Derived, coordinate("x1"), deg("ring_angle_1", 0, 90), coordinate("x2"), deg("ring_angle_2", 0, 90))
