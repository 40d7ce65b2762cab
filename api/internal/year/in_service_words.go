package year

import (
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/quantity"
)

// partFigures are the values of a wood that its year rests on.
var partFigures = shelf.Beside("specific_gravity_green")

func describeInService(room *lived, parts []*part, laminates []*layered, lives *inservice.Lives, report wire.Reporter) *YearInServiceResult {
	r := &YearInServiceResult{Room: room.describe(report), calendar: room.calendar, lives: lives,
		Parts: make([]PartThroughYear, 0, len(parts))}
	for i, p := range parts {
		r.Parts, r.held = append(r.Parts, describePart(p, &lives.Pieces[i], &room.calendar, report)), append(r.held, p.Held)
	}
	for i, l := range laminates {
		r.Laminates = append(r.Laminates, describeLayered(l, &lives.Laminates[i], &room.calendar, report))
	}
	if len(parts) > 0 {
		r.BuildAir = describeBuilds(lives, report)
	}
	r.Summary = inServiceSummary(r, lives, &room.calendar, report)
	return r
}

// describeBuilds is one air for all parts.
func describeBuilds(lives *inservice.Lives, report wire.Reporter) *AirToBuild {
	low, high := describeBuild(&lives.DriestBuild, report), describeBuild(&lives.DampestBuild, report)
	return &AirToBuild{MCPct: (low.MCPct + high.MCPct) / 2, Temperature: low.Temperature,
		RH: wire.Band{Value: (low.RH.Value + high.RH.Value) / 2, Low: low.RH.Low,
			High: high.RH.High, Unit: low.RH.Unit}}
}

func describePart(p *part, l *inservice.Lived, c *calendar, report wire.Reporter) PartThroughYear {
	state := func(e inservice.Extreme) PartState {
		return PartState{c.on(e.At), wire.MoistureBandOf(e.Mean), e.Outside.Percent(), e.Inside.Percent()}
	}
	out := PartThroughYear{
		ID: p.id, Name: p.req.Name, Wood: p.wood.Used(partFigures...), Outside: describeFinish(p.Faces[0]),
		Inside: describeFinish(p.Faces[1]), Factor: shelf.DescribeFactor(&p.factor),
		TimeConstant: l.Lag.Days(), Delay: l.Delay.Days(), Build: wire.MoistureBandOf(p.MadeAt), Driest: state(l.Dry), Wettest: state(l.Wet),
		Swing: (l.Wet.Mean.Value - l.Dry.Mean.Value).Percent(), BuildAir: describeBuild(&l.Build, report),
		Sizes: make([]SizeInYear, 0, len(l.Sizes)), Series: make([]YearPoint, 0, len(l.Times)), called: p.Name,
	}
	for i := range l.Sizes {
		s := &l.Sizes[i]
		out.Sizes = append(out.Sizes, SizeInYear{string(s.Dimension), report.Cut(s.Build), report.LengthBand(s.Dry.Final),
			report.LengthBand(s.Wet.Final), report.LengthBand(s.Swing), report.LengthBand(s.HalfSwing)})
	}
	if h := l.Held; h != nil {
		out.Restraint = &RestrainedPart{wire.PercentBandOf(h.Stretch), wire.PercentBandOf(h.Squeeze), wire.PercentBandOf(h.Share),
			string(h.Danger)}
	}
	for i, at := range l.Times {
		out.Series = append(out.Series, YearPoint{c.on(at), wire.MoistureBandOf(l.Mean[i]), l.Outside[i].Percent(),
			l.Inside[i].Percent()})
	}
	return out
}

func describeFinish(f inservice.Finish) FinishUsed {
	source := f.Source
	if f.Checked != "" {
		source += " (" + string(f.Checked) + ")"
	}
	b := f.Band()
	name := f.Name
	if name == ownFinish {
		name = ""
	}
	return FinishUsed{name, wire.Band{Value: b.Value, Low: b.Low, High: b.High, Unit: "s/m"}, source}
}

func describeBuild(b *inservice.BuildAir, report wire.Reporter) AirToBuild {
	return AirToBuild{b.Moisture.Percent(), wire.HumidityBandOf(b.RH), report.Temperature(b.Temperature)}
}

func inServiceSummary(r *YearInServiceResult, lives *inservice.Lives, c *calendar, report wire.Reporter) string {
	var all []string
	if len(r.Parts) > 0 {
		all = append(all, partsSummary(r, lives, c))
	}
	for i := range r.Laminates {
		all = append(all, layeredSummary(r.Laminates[i].called, &lives.Laminates[i], c, report))
	}
	return strings.Join(all, "; ")
}

func partsSummary(r *YearInServiceResult, lives *inservice.Lives, c *calendar) string {
	p, l := &r.Parts[lives.Widest], &lives.Pieces[lives.Widest]
	text := p.called + " is driest about " + c.spoken(l.Dry.At) + " at " + quantity.FormatNumber(p.Driest.Mean.Value, 1) +
		" % and wettest about " + c.spoken(l.Wet.At) + " at " + quantity.FormatNumber(p.Wettest.Mean.Value, 1) + " %"
	if len(r.Parts) > 1 {
		text += ", the widest swing of " + strconv.Itoa(len(r.Parts)) + " parts"
	}
	text += "; build at about " + quantity.FormatNumber(r.BuildAir.RH.Value, 0) +
		" % RH so that both seasons share the movement"
	risky := make([]string, 0, len(lives.AtRisk))
	for _, i := range lives.AtRisk {
		risky = append(risky, r.Parts[i].called)
	}
	if len(risky) > 0 {
		text += "; may crack in the dry season if held: " + strings.Join(risky, ", ")
	}
	return text
}
