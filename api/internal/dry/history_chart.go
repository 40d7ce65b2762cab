package dry

import (
	"latewood/api/internal/drawing"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// chart is the drawing of the fitted course with the readings on it.
func (h *history) chart(a *readiness.HistoryAnswer, r *ReadinessResult, width int) *drawing.CourseChart {
	c := &drawing.CourseChart{
		On:      drawing.FrameOf(width),
		Heading: r.Wood.Common + ", " + h.req.Billet.Thickness.Called(h.report, width > 0),
		Finding: r.Summary, Target: h.question.Target.Value.Percent(), Today: h.question.Today.Days(),
		About: []string{factorNote(h.begun(), r.Calibration.StartMC.Value, r.Calibration.Factor) +
			". Mean monthly air; a real year differs. The band holds 90 %."},
	}
	h.stay.onto(c, r.Series, h.report)
	aside := map[int]bool{}
	for _, one := range a.Posterior.Contradictions {
		aside[one.Index] = true
	}
	for i := range h.question.Observations {
		if mark, ok := h.mark(i, a.Posterior); ok {
			mark.SetAside = aside[i]
			c.Marks = append(c.Marks, mark)
		}
	}
	return c
}

// begun says with what the forecast begins.
func (h *history) begun() string {
	switch r := h.rested; {
	case r != nil && r.wet:
		return "As if stacked on " + wire.PlainDate(h.stay.date(0))
	case r != nil:
		return "At rest since " + wire.PlainDate(h.stay.date(0))
	}
	return stacked(h.req.Billet.StackedOn)
}

// mark is where a reading stands on the chart; a weight stands where the learned
// ovendry mass puts it.
func (h *history) mark(i int, p *readiness.Posterior) (drawing.CourseMark, bool) {
	o := &h.question.Observations[i]
	mark := drawing.CourseMark{Day: o.At.Days()}
	mc, half := o.MC, quantity.Moisture(quantity.Z90)*o.SD
	switch o.Kind {
	case readiness.Weight:
		if !p.OvendryKnown[o.Body] {
			return mark, false
		}
		od := p.Ovendry[o.Body]
		mc = quantity.Moisture(o.Weighing.Mass/od.Value) - 1
		half = quantity.Moisture((od.High - od.Low) / (2 * od.Value) * (o.Weighing.Mass / od.Value))
	case readiness.Pin:
		half = quantity.Moisture(quantity.Z90) * h.sources[i].mc.SD
	case readiness.Sample:
	}
	mark.Pct, mark.Low, mark.High = mc.Percent(), (mc - half).Percent(), (mc + half).Percent()
	return mark, true
}
