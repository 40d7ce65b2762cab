package species

import (
	"math"

	"latewood/woodphys/quantity"
)

// loadFibreSaturation reads the fibre saturation of woods that have one of their own,
// measured or recalled, and the general one, which stands for all others. The spread
// of a measured one holds 90 % of the trees; where only one tree was measured, or the
// source tells no deviation, it is that of the other woods.
func (l *loader) loadFibreSaturation() {
	t := l.tables
	own := map[*Wood]bool{}
	squares, trees := 0.0, 0.0
	var unsure []*Value
	l.each("fibre_saturation", func(r record) {
		v := r.saturation()
		if sd, known := r.number("sd_pct").Get(); known && v.Trees > 1 {
			squares, trees = squares+float64(v.Trees-1)*sd*sd, trees+float64(v.Trees-1)
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
			unsure = append(unsure, &w.FibreSaturation)
		}
	})
	for _, v := range unsure {
		v.Spread = Known(quantity.Z90 * math.Round(10*math.Sqrt(squares/trees)) / 10)
		v.addNote("the spread is that of the other measured woods")
	}
	for _, w := range t.woods {
		if !own[w] {
			w.FibreSaturation, w.FibreSaturationGeneral = t.general, true
		}
	}
}

func (r record) saturation() Value {
	v := r.value("fibre_saturation_pct", UnitMC, "source", "checked")
	v.Note, v.Spread = r.text("note"), r.number("spread_pct")
	v.Low, v.High = r.number("low_pct"), r.number("high_pct")
	if n, known := r.number("trees").Get(); known {
		v.Trees = int(n)
	}
	if sd, known := r.number("sd_pct").Get(); known && v.Trees > 1 {
		v.Spread = Known(quantity.Z90 * math.Max(sd, leastSaturationSD))
	}
	return v
}

// leastSaturationSD is the least standard deviation of fibre saturation between trees,
// %MC: two or three trees that agree by chance do not make it smaller. Own choice.
const leastSaturationSD = 1

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
