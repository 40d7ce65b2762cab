package dry

import (
	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// onto puts the curves of a course and the places onto a chart.
func (s *storage) onto(c *drawing.CourseChart, series []CoursePoint, report wire.Reporter) {
	c.Start, c.Places, c.Changes = s.start, s.names(report), s.changes()
	for i := range series {
		p := &series[i]
		c.Days, c.Mean = append(c.Days, p.Days), append(c.Mean, p.Mean)
		c.Shell, c.Core = append(c.Shell, p.Shell.Value), append(c.Core, p.Core.Value)
	}
}

// factorNote says what a chart rests on.
func factorNote(begun string, startPct float64, f shelf.FactorUsed) string {
	return begun + " at " + quantity.FormatNumber(startPct, 0) + " %. Drying factor " +
		quantity.FormatNumber(f.Value, 2) + " (" + quantity.FormatNumber(f.Low, 2) + " to " +
		quantity.FormatNumber(f.High, 2) + "), " + f.Detail
}

func stacked(on string) string { return "Stacked " + wire.PlainDate(on) }
