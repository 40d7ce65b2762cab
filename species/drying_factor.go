package species

// DryingFactor is how fast a wood dries in its wet stage, in a wide pile: what the
// diffusion of the published model is multiplied by while the middle is above fibre
// saturation. It was fitted to a published span of air-drying times. A wood without such
// a span has none, and Factor is missing.
type DryingFactor struct {
	Factor Value   // without a unit
	Misfit float64 // root mean square of ln(days/published days) at the two ends of the span

	// The span it was fitted to, from green to 20 %MC for 25 mm (4/4) boards in the
	// open, and the station whose air was taken for that.
	MinDays, MaxDays float64
	SpanSource       string
	SpanChecked      Checked
	Place            string

	Row string // of the table, where that is not the wood's own; else empty
}

// loadDryingFactors reads the table that the fit of the drying model writes.
func (l *loader) loadDryingFactors() {
	l.eachTarget("drying_factors", "drying_factor", func(r record, to target) {
		if to.wood.DryingFactor.Factor.Known() {
			r.fail("%s has a drying factor already", to.wood.ID)
			return
		}
		p := DryingFactor{
			Factor: r.value("pace", UnitRatio, "source", "checked"), Misfit: r.needNumber("misfit_log"), Place: r.need("place"),
			MinDays: r.needNumber("min_days"), MaxDays: r.needNumber("max_days"), SpanSource: r.needSource("span_source"), SpanChecked: r.needMark("span_checked"),
		}
		p.Factor.Note = r.text("note")
		if factor, known := p.Factor.Get(); !known || factor <= 0 || p.Misfit < 0 {
			r.fail("a factor must be above 0, its misfit at least 0")
		}
		if p.MinDays <= 0 || p.MaxDays <= p.MinDays {
			r.fail("%g to %g is no span of days", p.MinDays, p.MaxDays)
		}
		if to.note != "" {
			p.Row = r.text("row")
		}
		to.wood.DryingFactor = p
	})
}

// GreenMoisture returns the moisture of green wood (%MC): that of the whole stem, which
// weighs heartwood and sapwood by what a stem has of them; else the mean of the figures of
// heartwood and sapwood, eight tenths of it for conifers, of which the stem has less wet
// sapwood than that (26 stem averages); or the one of them that is known; missing where
// none is.
func (w *Wood) GreenMoisture() Optional[float64] {
	if w.GreenStem.Known() {
		return w.GreenStem.Optional
	}
	sum, n := 0.0, 0.0
	for _, v := range []float64{w.GreenHeartwood.Or(0), w.GreenSapwood.Or(0)} {
		if v > 0 {
			sum, n = sum+v, n+1
		}
	}
	if n == 0 {
		return Optional[float64]{}
	}
	if n == 2 && w.Botany() == Softwood {
		return Known(softStem * sum / n)
	}
	return Known(sum / n)
}

// softStem is the green moisture of the stem of a conifer over the mean of its heartwood
// and its sapwood: the mean of 26 woods of which both are printed.
const softStem = 0.8

// BestGreen returns the moisture of green wood, GreenMoisture or what is estimated in its
// place. It has a Spread, and a Note that says for people how it was come by, where it is
// estimated, and where the publications contradict each other: a stem is a mean of its
// heartwood and its sapwood, and where it is printed as drier or wetter than both, the
// spread reaches the nearer of the two.
func (w *Wood) BestGreen() Value {
	if w.Estimates.GreenStem.Known() {
		return w.Estimates.GreenStem
	}
	v := Value{Optional: w.GreenMoisture(), Unit: UnitMC}
	if apart := w.greenApart(); apart > 0 {
		v.Spread = Known(apart)
		v.Note = "the published figure of its stem; that is no mean of those of heartwood and sapwood, so the band is " +
			"wide enough to reach them"
	}
	return v
}

// greenApart is how far the stem (%MC) lies outside heartwood and sapwood; 0 where it lies
// between them, or where one of the three is not known.
func (w *Wood) greenApart() float64 {
	stem, ok := w.GreenStem.Get()
	heart, inner := w.GreenHeartwood.Get()
	sap, outer := w.GreenSapwood.Get()
	if !ok || !inner || !outer {
		return 0
	}
	return max(min(heart, sap)-stem, stem-max(heart, sap), 0)
}
