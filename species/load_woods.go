package species

import (
	"slices"
	"strings"

	"latewood/woodphys/quantity"
)

func (l *loader) loadSources() {
	l.each("sources", func(r record) {
		id := r.need("id")
		if _, twice := l.tables.sources[id]; twice {
			r.fail("source %s stands twice", id)
		}
		l.tables.sources[id] = r.need("citation")
	})
}

// loadRecall reads how good recall was, table by table.
func (l *loader) loadRecall() {
	l.recall = map[string]*Recall{}
	l.each("recall", func(r record) {
		r.needSource("source")
		found := &Recall{r.source("source"), int(r.needNumber("checked_values")), int(r.needNumber("differed")), r.needNumber("largest_pct")}
		l.recall[r.text("source")] = found
		l.tables.recall = append(l.tables.recall, *found)
	})
}

func (l *loader) loadCautions() {
	l.each("cautions", func(r record) {
		kind := CautionKind(r.need("kind"))
		switch kind {
		case Dust, Sensitiser, Toxic, Protected:
		default:
			r.fail("unknown kind of caution %q", kind)
		}
		match := r.need("match")
		if match != "*" {
			match = fold(match)
		}
		l.tables.cautions = append(l.tables.cautions, cautionRule{match, Caution{
			Kind: kind, Text: r.need("text"), Source: r.needSource("source"), Checked: r.needMark("checked"),
		}})
	})
}

func (l *loader) loadWoods() {
	l.each("woods", func(r record) {
		w := &Wood{
			ID: r.need("id"), Common: r.need("common_name"), Botanical: r.need("botanical_name"),
			Group: Group(r.need("group")), Kind: Kind(r.need("kind")),
			NameFrom: r.needSource("source"), NameMark: r.needMark("checked"),
		}
		if _, twice := l.tables.woodByID[w.ID]; twice {
			r.fail("wood %s stands twice", w.ID)
		}
		if w.Group != Hardwood && w.Group != Softwood && w.Group != Imported {
			r.fail("unknown group %q", w.Group)
		}
		if w.Kind != Species && w.Kind != Trade && w.Kind != Genus {
			r.fail("unknown kind %q", w.Kind)
		}
		for _, s := range w.slots() {
			s.value.Unit = s.unit
		}
		w.Cautions = l.tables.Cautions(w.Botanical)
		l.tables.woodByID[w.ID] = w
		l.tables.woods = append(l.tables.woods, w)
	})
	slices.SortFunc(l.tables.woods, func(a, b *Wood) int { return strings.Compare(a.ID, b.ID) })
	l.loadSynonyms()
	l.loadBareNames()
	l.loadRecall()
	l.loadFigures()
	l.loadMovementFigures()
	l.loadGroupedFigures()
	l.loadElasticMeans()
	l.loadFibreSaturation()
	l.loadLowerEMC()
	l.loadDrying()
	l.loadDryingFactors()
	l.loadAnomalies()
	l.loadDisputed()
	l.loadEstimates()
}

func (l *loader) loadSynonyms() {
	l.each("synonyms", func(r record) {
		w := r.wood()
		kind := r.need("kind")
		if kind != "trade" && kind != "botanical" {
			r.fail("unknown kind of name %q", kind)
		}
		w.Synonyms = append(w.Synonyms, r.need("name"))
		w.Names = append(w.Names, Name{Text: r.text("name"), Botanical: kind == "botanical", Language: r.text("language"),
			Source: r.needSource("source"), Checked: r.needMark("checked")})
	})
}

// loadFigures reads the files that have one row for one wood.
func (l *loader) loadFigures() {
	l.each("shrinkage", func(r record) {
		w := r.wood()
		w.Radial = r.value("radial_pct", UnitShrinkage, "radial_source", "radial_checked")
		w.Tangential = r.value("tangential_pct", UnitShrinkage, "tangential_source", "tangential_checked")
		w.Volumetric = r.value("volumetric_pct", UnitShrinkage, "volumetric_source", "volumetric_checked")
	})
	l.each("coefficients", func(r record) {
		w := r.wood()
		w.CoefficientRadial = r.value("radial_per_pct", UnitCoefficient, "radial_source", "radial_checked")
		w.CoefficientTangential = r.value("tangential_per_pct", UnitCoefficient, "tangential_source", "tangential_checked")
		w.CoefficientFibreSaturation = r.value("fibre_saturation_pct", UnitMC, "fibre_saturation_source", "fibre_saturation_checked")
	})
	l.each("specific_gravity", func(r record) {
		w := r.wood()
		w.SpecificGravityGreen = r.value("sg_green", UnitRatio, "sg_green_source", "sg_green_checked")
		w.SpecificGravity12 = r.value("sg_12", UnitRatio, "sg_12_source", "sg_12_checked")
		w.ModulusOfElasticity12 = r.value("moe_mpa", UnitMPa, "moe_source", "moe_checked")
		if w.ModulusOfElasticity12.Known() {
			w.ModulusOfElasticity12.AtMC = Known(r.needNumber("moe_mc_pct"))
		}
	})
}

// loadMovementFigures reads swelling for a point of moisture, and shrinkage that ends
// before the wood is ovendry.
func (l *loader) loadMovementFigures() {
	l.each("swelling", func(r record) {
		w := r.wood()
		w.SwellingRadial = r.value("radial_pct_per_pct", UnitSwelling, "radial_source", "radial_checked")
		w.SwellingTangential = r.value("tangential_pct_per_pct", UnitSwelling, "tangential_source", "tangential_checked")
		w.SwellingVolumetric = r.value("volumetric_pct_per_pct", UnitSwelling, "volumetric_source", "volumetric_checked")
		if sd, known := r.number("volumetric_sd").Get(); known && sd > 0 {
			w.SwellingVolumetric.Spread = Known(quantity.Z90 * sd)
		}
	})
	l.each("partial_shrinkage", func(r record) {
		w := r.wood()
		radial, tangential := &w.RadialTo12, &w.TangentialTo12
		switch to := r.needNumber("to_mc_pct"); to {
		case 12:
		case 17:
			radial, tangential = &w.RadialTo17, &w.TangentialTo17
		default:
			r.fail("shrinkage to %g %%MC has no place", to)
		}
		set(r, target{wood: w}, radial, r.value("radial_pct", UnitShrinkage, "radial_source", "radial_checked"))
		set(r, target{wood: w}, tangential, r.value("tangential_pct", UnitShrinkage, "tangential_source", "tangential_checked"))
	})
}

func (l *loader) loadLowerEMC() {
	l.each("lower_emc", func(r record) {
		r.wood().LowerEMC = LowerEMC{
			Applies: true, Low: r.needNumber("points_low"), High: r.needNumber("points_high"),
			Source: r.needSource("source"), Checked: r.needMark("checked"), Note: r.text("note"),
		}
	})
}

func (l *loader) loadDrying() {
	l.each("drying_class", func(r record) {
		class := DryingClass(r.need("class"))
		if class != Refractory && class != Moderate && class != Easy {
			r.fail("unknown drying class %q", class)
		}
		r.wood().Drying = DryingMark{class, r.needSource("source"), r.needMark("checked"), r.text("note")}
	})
	l.each("safe_daily_loss", func(r record) {
		v := r.value("loss_pct_per_day", UnitLossPerDay, "source", "checked")
		v.Note = r.text("note")
		r.wood().SafeLoss = v
	})
}

func (l *loader) loadAnomalies() {
	l.each("anomalies", func(r record) {
		v := r.wood().slot(r.need("value"))
		if v == nil || !v.Known() {
			r.fail("%s has no value %s to remark on", r.text("wood"), r.text("value"))
			return
		}
		v.addNote(r.need("note"))
	})
}
