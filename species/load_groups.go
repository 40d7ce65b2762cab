package species

import "fmt"

// target is a wood that a printed row goes to; without one the row is said to stand
// for none.
type target struct {
	wood  *Wood
	class string // part of the wood or region the row is for
	note  string // "" where the row is the wood's own
}

// rowTargets returns, for one table, the woods that each printed row goes to
// beyond the wood of the same id.
func (l *loader) rowTargets(table string) map[string][]target {
	found := map[string][]target{}
	l.each("group_rows", func(r record) {
		if r.need("table") != table {
			return
		}
		row := r.need("row")
		to := target{class: r.text("class"), note: r.need("reason") + " " + row}
		if r.text("wood") != "" {
			to.wood = r.wood()
		}
		found[row] = append(found[row], to)
	})
	return found
}

// eachTarget reads a file whose rows may stand for a group, and calls visit for
// every wood that a row goes to.
func (l *loader) eachTarget(file, table string, visit func(record, target)) {
	mapped := l.rowTargets(table)
	l.each(file, func(r record) {
		row := r.need("row")
		own, isWood := l.tables.woodByID[row]
		if isWood {
			visit(r, target{wood: own})
		}
		if !isWood && len(mapped[row]) == 0 {
			r.fail("row %s goes to no wood", row)
		}
		for _, to := range mapped[row] {
			if to.wood != nil {
				visit(r, to)
			}
		}
		delete(mapped, row)
	})
	for row := range mapped {
		l.problems = append(l.problems, fmt.Errorf("group_rows: table %s has no row %s", table, row))
	}
}

// loadGroupedFigures reads the files in which one row may stand for several
// woods, and one wood may have several rows.
func (l *loader) loadGroupedFigures() {
	l.eachTarget("green_moisture", "green_moisture", func(r record, to target) {
		set(r, to, &to.wood.GreenHeartwood, r.value("heartwood_pct", UnitMC, "heartwood_source", "heartwood_checked"))
		set(r, to, &to.wood.GreenSapwood, r.value("sapwood_pct", UnitMC, "sapwood_source", "sapwood_checked"))
		set(r, to, &to.wood.GreenStem, r.value("stem_pct", UnitMC, "stem_source", "stem_checked"))
	})
	l.eachTarget("elastic_ratios", "elastic", func(r record, to target) {
		e := &to.wood.Elastic
		for _, c := range []struct {
			column, source string
			value          *Value
		}{
			{"et_el", "ratios_source", &e.ETEL},
			{"er_el", "ratios_source", &e.EREL},
			{"glr_el", "ratios_source", &e.GLREL},
			{"glt_el", "ratios_source", &e.GLTEL},
			{"grt_el", "ratios_source", &e.GRTEL},
			{"nu_lr", "poisson_source", &e.PoissonLR},
			{"nu_lt", "poisson_source", &e.PoissonLT},
			{"nu_rt", "poisson_source", &e.PoissonRT},
			{"nu_tr", "poisson_source", &e.PoissonTR},
			{"nu_rl", "poisson_source", &e.PoissonRL},
			{"nu_tl", "poisson_source", &e.PoissonTL},
		} {
			set(r, to, c.value, r.value(c.column, UnitRatio, c.source, "checked"))
		}
	})
	l.eachTarget("air_drying_times", "air_drying", func(r record, to target) {
		to.wood.AirDrying = append(to.wood.AirDrying, AirDryingTime{
			Class: to.class, MinDays: r.needNumber("min_days"), MaxDays: r.needNumber("max_days"),
			Source: r.needSource("source"), Checked: r.needMark("checked"), Note: to.note,
		})
	})
}

// set puts a figure into its place, which must still be free.
func set(r record, to target, place *Value, v Value) {
	if !v.Known() {
		return
	}
	if place.Known() {
		r.fail("%s has this figure already", to.wood.ID)
		return
	}
	v.addNote(to.note)
	*place = v
}
