package species

import (
	"math"

	"latewood/woodphys/quantity"
)

// loadFibreSaturation reads the fibre saturation of woods that have one of their own,
// measured or recalled, and the general one, which stands for all others. The spread
// of a measured one holds 90 % of the trees; that of few trees is drawn towards that of all
// measured woods, and is theirs where one tree was measured or no deviation is told.
func (l *loader) loadFibreSaturation() {
	t := l.tables
	own := map[*Wood]bool{}
	squares, trees := 0.0, 0.0
	measured := map[*Value]float64{} // their sums of squares
	l.each("fibre_saturation", func(r record) {
		v, sum := r.saturation(), 0.0
		if sd, known := r.number("sd_pct").Get(); known && v.Trees > 1 {
			sum = float64(v.Trees-1) * sd * sd
			squares, trees = squares+sum, trees+float64(v.Trees-1)
		}
		if r.text("wood") == "*" {
			t.general = v
			return
		}
		w := r.wood()
		if own[w] {
			r.fail("%s has a fibre saturation already", w.ID)
		}
		own[w], w.FibreSaturation = true, v
		if !v.Spread.Known() {
			measured[&w.FibreSaturation] = sum
		}
	})
	for v, sum := range measured {
		more := float64(max(v.Trees-1, 0))
		v.Spread = Known(quantity.Z90 * math.Round(10*math.Sqrt((sum+priorTrees*squares/trees)/(more+priorTrees))) / 10)
		if more == 0 {
			v.addNote("the spread is that of the other measured woods")
		}
	}
	for _, w := range t.woods {
		if !own[w] {
			l.saturate(w)
		}
	}
}

// saturate gives a wood without a fibre saturation of its own the one that its coefficients
// were made with, where that is another than the usual, else the general one: isotherm and
// shrinkage end at the same point.
func (l *loader) saturate(w *Wood) {
	w.FibreSaturation, w.FibreSaturationGeneral = l.tables.general, true
	if made, known := w.CoefficientFibreSaturation.Get(); known && made != usualSaturation {
		v := w.CoefficientFibreSaturation
		v.Spread = Known(byNameSpread)
		v.addNote("the one that its coefficients were made with")
		w.FibreSaturation, w.FibreSaturationGeneral = v, false
	}
}

const (
	// usualSaturation is that of the handbook's coefficients, %MC.
	usualSaturation = 30.0
	// byNameSpread is the half width of a fibre saturation by name, %MC, as of the recalled
	// ones.
	byNameSpread = 3.0
)

func (r record) saturation() Value {
	v := r.value("fibre_saturation_pct", UnitMC, "source", "checked")
	v.Note, v.Spread = r.text("note"), r.number("spread_pct")
	v.Low, v.High = r.number("low_pct"), r.number("high_pct")
	if n, known := r.number("trees").Get(); known {
		v.Trees = int(n)
	}
	return v
}

// priorTrees is for how many trees the deviation of all measured woods counts beside that of
// the wood's own: two or three trees that agree by chance say little. Own choice.
const priorTrees = 4

// loadDisputed puts what another publication prints beside the figures of the tables.
func (l *loader) loadDisputed() {
	l.each("disputed", func(r record) {
		v := r.wood().slot(r.need("value"))
		if v == nil || !v.Known() {
			r.fail("%s has no value %s to dispute", r.text("wood"), r.text("value"))
			return
		}
		v.Other = &Other{Number: r.needNumber("other"), Source: r.needSource("source"), Checked: r.needMark("checked"), Was: v.Checked}
		v.Checked, v.Recall = Disputed, nil
		v.addNote(r.text("note"))
	})
}
