package year

import (
	"math"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Render is the year as a drawing or a table.
func (r *YearInServiceResult) Render(name string) ([]byte, error) {
	if name == wire.TableForm.Name {
		return r.csv(), nil
	}
	return r.picture().draw(), nil
}

// csv is the series of all parts (RFC 4180).
func (r *YearInServiceResult) csv() []byte {
	text := []byte("part,name,day_of_year,date,days,mean_mc_pct,mean_mc_low_pct,mean_mc_high_pct,outside_mc_pct,inside_mc_pct\r\n")
	for i := range r.Parts {
		name := wire.QuotedCell(r.Parts[i].ID) + "," + wire.QuotedCell(r.Parts[i].Name)
		for k := range r.Parts[i].Series {
			p := &r.Parts[i].Series[k]
			text = append(text, name+","+p.DayOfYear+","+p.Date...)
			for _, v := range []float64{r.lives.Pieces[i].Times[k].Days(), p.Mean.Value, p.Mean.Low, p.Mean.High,
				p.Outside, p.Inside} {
				text = append(text, ',')
				text = strconv.AppendFloat(text, v, 'f', 2, 64)
			}
			text = append(text, "\r\n"...)
		}
	}
	return text
}

// picture is what the drawing shows.
func (r *YearInServiceResult) picture() *yearPicture {
	p := &yearPicture{summary: r.Summary, start: r.calendar.day(0), days: r.calendar.span.Days(), remarks: "Air: " +
		r.Room.Name + ". " + r.remarks()}
	share := func(at quantity.Duration) float64 { return float64(at / r.calendar.span) }
	for i := range r.Parts {
		one, lived := &r.Parts[i], &r.lives.Pieces[i]
		drawn := yearDrawn{
			name: one.called, made: one.Build.Value,
			dry: extremeDrawn{share(lived.Dry.At), one.Driest.Mean.Value},
			wet: extremeDrawn{share(lived.Wet.At), one.Wettest.Mean.Value},
		}
		finish := one.Outside.Name
		if one.Inside != one.Outside {
			finish += " / " + one.Inside.Name
		}
		drawn.beside = []string{one.Wood.Common, finish, behind(one.TimeConstant), "build at " +
			quantity.FormatNumber(one.BuildAir.RH.Value, 0) + " % RH"}
		if pulled := r.pulled(i); pulled != "" {
			drawn.beside = append(drawn.beside, pulled)
		}
		for k, at := range lived.Times {
			drawn.times, drawn.mean, drawn.outside = append(drawn.times, share(at)), append(drawn.mean, one.Series[k].Mean),
				append(drawn.outside, one.Series[k].Outside)
		}
		p.parts = append(p.parts, drawn)
	}
	return p
}

// remarks are the words below the panels.
func (r *YearInServiceResult) remarks() string {
	text := "Moisture content in % of ovendry mass, the same scale in all panels. Hysteresis is left out: real swings " +
		"are up to a point smaller."
	for i := range r.Parts {
		if r.pulled(i) != "" {
			return text + " Held: how far the part is pulled across the grain at its driest, as it cannot move; wood begins " +
				"to fail at 1.5 to 2 %; the word is the risk that it cracks."
		}
	}
	return text
}

// behind tells how far a part is behind slow changes of the air.
func behind(days float64) string {
	if days < 0.5 {
		return "follows the air at once"
	}
	return wire.CountOf(int(math.Round(days)), "day") + " behind the air"
}

// pulled tells what a part bears that is held; nothing for one that is free.
func (r *YearInServiceResult) pulled(i int) string {
	h := r.Parts[i].Restrained
	if !r.held[i] || h == nil {
		return ""
	}
	return "held: " + quantity.FormatNumber(h.Stretch.Value, 1) + " % pull, " + h.Risk
}
