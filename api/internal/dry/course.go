package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// CoursePoint is the forecast on a day.
type CoursePoint struct {
	Date  string    `json:"date" required:"true" format:"date" description:"day of the point"`
	Days  float64   `json:"days" required:"true" description:"since stacking; in the answer about the time to resaw since as_of"`
	Mean  wire.Band `json:"mean_mc" required:"true" description:"over the thickness; with length and end_seal of the billet over the whole of it, as a scale has it"`
	Shell wire.Band `json:"shell_mc" required:"true" description:"of the outer tenth at each face"`
	Core  wire.Band `json:"core_mc" required:"true" description:"of the middle fifth of the thickness"`
}

// course shows a forecast over time.
func (s *storage) course(c *readiness.Course) []CoursePoint {
	points := make([]CoursePoint, 0, len(c.Times))
	for i, at := range c.Times {
		points = append(points, CoursePoint{
			Date: s.date(at), Days: at.Days(), Mean: wire.MoistureBandOf(c.Mean[i]),
			Shell: wire.MoistureBandOf(c.Shell[i]), Core: wire.MoistureBandOf(c.Core[i]),
		})
	}
	return points
}

// reached puts dates to a distribution of times, of which those beyond the forecast are
// infinite.
func (s *storage) reached(r readiness.Reached) wire.DateBand {
	out := wire.DateBand{NotReached: r.Never}
	s.undated(&out, r.Undated(), &r.Likeliest)
	within := func(at quantity.Duration) readiness.Date {
		return readiness.Date{At: at, Within: quantity.Finite(float64(at))}
	}
	s.dates(&out, within(r.Early), within(r.Middle), within(r.Late))
	return out
}

// readyOn puts dates to when a step is ready.
func (s *storage) readyOn(d *readiness.ReadyDate) wire.DateBand {
	out := wire.DateBand{NotReached: d.Never}
	if d.Never < 1 {
		kept := d.Kept
		out.Kept = &kept
	}
	s.undated(&out, d.Undated(), &d.Likeliest)
	s.dates(&out, d.Low, d.Median, d.High)
	return out
}

// undated says why there is no date, and when most cases are there.
func (s *storage) undated(out *wire.DateBand, why readiness.Undated, l *readiness.Likeliest) {
	if out.Undated = string(why); why == "" || l.Share < 0.005 {
		return
	}
	share := l.Share
	out.From, out.Until, out.Likeliest = s.date(l.From), s.date(l.To), &share
}

func (s *storage) dates(out *wire.DateBand, early, middle, late readiness.Date) {
	for _, one := range []struct {
		from readiness.Date
		date *string
		days **float64
	}{{early, &out.Low, &out.LowDays}, {middle, &out.Value, &out.ValueDays}, {late, &out.High, &out.HighDays}} {
		if one.from.Within {
			days := one.from.At.Days()
			*one.date, *one.days = s.date(one.from.At), &days
		}
	}
}

// courseTable is a course as CSV (RFC 4180).
func courseTable(points []CoursePoint) []byte {
	text := []byte("date,days,mean_mc_pct,mean_mc_low_pct,mean_mc_high_pct," +
		"shell_mc_pct,shell_mc_low_pct,shell_mc_high_pct,core_mc_pct,core_mc_low_pct,core_mc_high_pct\r\n")
	for i := range points {
		p := &points[i]
		text = append(text, p.Date...)
		text = append(wire.AppendNamed(append(text, ','), "days", p.Days), ',')
		text = append(p.Mean.AppendCells(text), ',')
		text = append(p.Shell.AppendCells(text), ',')
		text = p.Core.AppendCells(text)
		text = append(text, "\r\n"...)
	}
	return text
}
