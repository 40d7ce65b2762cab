package year

import (
	"cmp"
	"math"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// Render is the year as a drawing or a table.
func (r *YearInServiceResult) Render(name string) ([]byte, error) {
	if name == wire.TableForm.Name {
		return r.csv(), wire.NoFormulas(r.names()...)
	}
	return r.picture().draw(), nil
}

// names are the texts of the caller in the table.
func (r *YearInServiceResult) names() (texts []wire.Tabled) {
	for i := range r.Parts {
		texts = append(texts, wire.Named("parts", i, r.Parts[i].ID, r.Parts[i].Name)...)
	}
	for i := range r.Laminates {
		texts = append(texts, wire.Named("laminates", i, r.Laminates[i].ID, r.Laminates[i].Name)...)
	}
	return texts
}

// csv is the series of all parts, then of all laminates (RFC 4180); cells that a kind does not
// have are empty.
func (r *YearInServiceResult) csv() []byte {
	text := []byte("part,name,day_of_year,date,days,mean_mc_pct,mean_mc_low_pct,mean_mc_high_pct,outside_mc_pct,inside_mc_pct,cup,cup_low,cup_high,bow,bow_low,bow_high,unit\r\n")
	for i := range r.Parts {
		name := wire.QuotedCell(r.Parts[i].ID) + "," + wire.QuotedCell(r.Parts[i].Name)
		for k := range r.Parts[i].Series {
			p := &r.Parts[i].Series[k]
			text = append(text, name+","+p.DayOfYear+","+p.Date...)
			text = append(wire.AppendNamed(append(text, ','), "days", r.lives.Pieces[i].Times[k].Days()), ',')
			text = append(p.Mean.AppendCells(text), ',')
			text = append(wire.AppendNamed(text, "outside_mc_pct", p.Outside), ',')
			text = wire.AppendNamed(text, "inside_mc_pct", p.Inside)
			text = append(text, ",,,,,,,\r\n"...)
		}
	}
	for i := range r.Laminates {
		text = r.laminateRows(text, i)
	}
	return text
}

// laminateRows adds the rows of a laminate.
func (r *YearInServiceResult) laminateRows(text []byte, i int) []byte {
	l := &r.Laminates[i]
	name := wire.QuotedCell(l.ID) + "," + wire.QuotedCell(l.Name)
	for k := range l.Series {
		p := &l.Series[k]
		text = append(text, name+","+p.DayOfYear+","+p.Date...)
		text = append(wire.AppendNamed(append(text, ','), "days", r.lives.Laminates[i].Times[k].Days()), ',')
		text = append(p.Mean.AppendCells(text), ",,"...)
		for _, b := range []wire.Band{p.Cup, p.Bow} {
			text = b.AppendCells(append(text, ','))
		}
		text = append(text, ","+p.Cup.Unit+"\r\n"...)
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
		drawn.beside = []string{one.Wood.Common, bothFinishes(one.Outside, one.Inside), behind(one.TimeConstant), "build at " +
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
	for i := range r.Laminates {
		p.laminates = append(p.laminates, r.drawnLaminate(i, share))
	}
	return p
}

// bothFinishes names what is on the two faces, for people.
func bothFinishes(outside, inside FinishUsed) string {
	words := cmp.Or(outside.Name, ownFinish)
	if inside != outside {
		words += " / " + cmp.Or(inside.Name, ownFinish)
	}
	return strings.ReplaceAll(words, "_", " ")
}

// drawnLaminate is what the drawing shows of a laminate.
func (r *YearInServiceResult) drawnLaminate(i int, share func(quantity.Duration) float64) laminateDrawn {
	one, lived := &r.Laminates[i], &r.lives.Laminates[i]
	drawn := laminateDrawn{name: one.called, unit: one.Swing.Cup.Unit,
		dry: extremeDrawn{share(lived.Dry.At), one.Driest.Cup.Value}, wet: extremeDrawn{share(lived.Wet.At), one.Wettest.Cup.Value}}
	drawn.beside = []string{wire.CountOf(len(one.Layers), "layer"), bothFinishes(one.Outside, one.Inside), behind(one.Delay),
		quantity.FormatNumber(one.Driest.Mean.Value, 1) + " to " + quantity.FormatNumber(one.Wettest.Mean.Value, 1) + " % moisture"}
	for k, at := range lived.Times {
		drawn.times, drawn.cup = append(drawn.times, share(at)), append(drawn.cup, one.Series[k].Cup)
		drawn.bow = append(drawn.bow, one.Series[k].Bow.Value)
	}
	return drawn
}

// remarks are the words below the panels.
func (r *YearInServiceResult) remarks() string {
	scale := "the same scale in all panels"
	if len(r.Laminates) > 0 {
		scale = "one scale for all panels of it, and one for all bends"
	}
	text := "Moisture content in % of ovendry mass, " + scale + ". Hysteresis is left out: real swings are up to a point smaller."
	if len(r.Laminates) > 0 {
		text += " Bends are elastic, as in the first days; weeks of creep leave " + quantity.FormatNumber(r.Laminates[0].Creep.Bending.Low, 0) +
			" to " + quantity.FormatNumber(r.Laminates[0].Creep.Bending.High, 0) + " % of them. Moisture passes the two faces of the layers only."
	}
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
	h := r.Parts[i].Restraint
	if !r.held[i] || h == nil {
		return ""
	}
	return "held: " + quantity.FormatNumber(h.Stretch.Value, 1) + " % pull, " + h.Risk
}

// RenderShown draws it for a screen that has so many px for it.
func (r *YearInServiceResult) RenderShown(width int) ([]byte, error) {
	return r.picture().drawShown(width), nil
}
