package year

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// InServiceRequest asks how finished parts live through the year of a room.
type InServiceRequest struct {
	Room     *Room             `json:"room" validate:"required"`
	MadeAt   *shelf.Conditions `json:"made_at" validate:"required" description:"moisture content at the build, of all parts without their own; exactly one of mc_pct, air and green"`
	Parts    []ServicePart     `json:"parts" validate:"required,min=1,max=12,dive"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *InServiceRequest) System() string { return r.ReportIn }

// InServiceResult is the year of every part.
type InServiceResult struct {
	Summary string            `json:"summary" required:"true" description:"the answer in a sentence"`
	Room    RoomUsed          `json:"room" required:"true"`
	Parts   []PartThroughYear `json:"parts" required:"true" nullable:"false"`
	BuildAt *AirToBuild       `json:"build_at,omitempty" description:"one humidity for all parts: halfway between the lowest and the highest of theirs"`
	lived   *lived
	years   []inservice.Year
}

// PartThroughYear is the year of a part.
type PartThroughYear struct {
	Name     string           `json:"name" required:"true"`
	Wood     shelf.WoodUsed   `json:"wood" required:"true"`
	Outside  FinishUsed       `json:"outside" required:"true"`
	Inside   FinishUsed       `json:"inside" required:"true"`
	Factor   shelf.FactorUsed `json:"drying_factor" required:"true" description:"speed of diffusion; fitted to drying boards, so wide for thin parts"`
	LagDays  float64          `json:"lag_days" required:"true" description:"time constant: about how far the part is behind air that changes slowly"`
	MadeAt   wire.PercentBand `json:"made_at" required:"true" description:"moisture content at the build"`
	Driest   PartState        `json:"driest" required:"true"`
	Wettest  PartState        `json:"wettest" required:"true"`
	SwingPct float64          `json:"swing_points" required:"true" description:"wettest minus driest, points of moisture content"`
	Sizes    []SizeInYear     `json:"sizes" required:"true" nullable:"false" description:"of the dimensions given"`
	Held     *HeldPart        `json:"held,omitempty" description:"with width: what the part bears across the grain if it cannot move"`
	BuildAt  AirToBuild       `json:"build_at" required:"true" description:"built in this air, the part moves as far into the dry season as into the wet one"`
	Series   []YearPoint      `json:"series" required:"true" nullable:"false" description:"every fifth day; every day of a record or with a weekly swing"`
	isHeld   bool             // the request says so
}

// PartState is the part at an extreme of its year.
type PartState struct {
	Date       string           `json:"date" required:"true" description:"month and day; of a record the whole date"`
	Mean       wire.PercentBand `json:"mean" required:"true" description:"the band covers the scatter between woods, their history, the drying factor, the finish and the film of air; not an error of the air of the room"`
	OutsidePct float64          `json:"outside_pct" required:"true" description:"outer tenth at the outer face"`
	InsidePct  float64          `json:"inside_pct" required:"true" description:"outer tenth at the other face"`
}

// SizeInYear is a dimension at the build and at both extremes.
type SizeInYear struct {
	Dimension string            `json:"dimension" required:"true" enum:"thickness,width,length"`
	Build     wire.Quantity     `json:"build" required:"true"`
	Driest    wire.QuantityBand `json:"driest" required:"true"`
	Wettest   wire.QuantityBand `json:"wettest" required:"true"`
	Swing     wire.QuantityBand `json:"swing" required:"true" description:"wettest minus driest"`
	EdgeWay   wire.QuantityBand `json:"edge_way" required:"true" description:"half the swing: how far each edge moves from a seam or a fixing in the middle"`
}

// HeldPart is what a part bears that cannot move.
type HeldPart struct {
	StretchPct wire.PercentBand `json:"stretch" required:"true" description:"at the driest, pulled across the grain"`
	SqueezePct wire.PercentBand `json:"squeeze" required:"true" description:"at the wettest, pressed together"`
	Share      wire.PercentBand `json:"share_of_failure" required:"true" description:"stretch in percent of 1.5 %, where wood begins to fail across the grain (1.5 to 2 %, from memory); elastic, creep takes off a part in months"`
	Danger     string           `json:"danger" required:"true" enum:"slight,moderate,high" description:"by the upper end of the band; common practice"`
}

// AirToBuild is the air to build in.
type AirToBuild struct {
	MCPct       float64          `json:"mc_pct" required:"true"`
	RH          wire.PercentBand `json:"rh" required:"true"`
	Temperature wire.Quantity    `json:"temperature" required:"true" description:"that of the air of made_at, or 20 C"`
}

// YearPoint is the part on a day.
type YearPoint struct {
	Date       string           `json:"date" required:"true"`
	Mean       wire.PercentBand `json:"mean" required:"true"`
	OutsidePct float64          `json:"outside_pct" required:"true"`
	InsidePct  float64          `json:"inside_pct" required:"true"`
}

func ComputeInService(ctx context.Context, t *shelf.Tables, req *InServiceRequest) (*InServiceResult, method.Notes, error) {
	var notes method.Notes
	room, noRoom := roomFor(t, req.Room, &notes)
	a := assemble(ctx, t, req.MadeAt, &notes)
	parts, err := a.all(req.Parts)
	if err := errors.Join(noRoom, err, a.simulable(parts)); err != nil {
		return nil, notes, err
	}
	report := wire.ReportIn(req.ReportIn)
	result := &InServiceResult{Room: room.describe(report), lived: room, Parts: make([]PartThroughYear, 0, len(parts))}
	for i, p := range parts {
		one, year, err := a.throughYear(ctx, p, room, report)
		if err != nil {
			return nil, notes, wire.Under("parts/"+strconv.Itoa(i), partError(p, err))
		}
		result.Parts = append(result.Parts, one)
		result.years = append(result.years, year)
	}
	result.conclude()
	return result, notes, nil
}

// all prepares the parts and tells what is wrong with any of them at once.
func (a *assembly) all(requests []ServicePart) ([]*part, error) {
	problems := []error{named(requests)}
	parts := make([]*part, len(requests))
	for i := range requests {
		p, err := a.prepare(&requests[i])
		problems = append(problems, wire.Under("parts/"+strconv.Itoa(i), err))
		parts[i] = p
	}
	return parts, errors.Join(problems...)
}

// simulable tells what stands against simulating the parts, before any is.
func (a *assembly) simulable(parts []*part) error {
	apart := *a
	apart.notes = &method.Notes{}
	var problems []error
	for i, p := range parts {
		if p != nil {
			_, _, err := apart.through(p)
			problems = append(problems, wire.Under("parts/"+strconv.Itoa(i), partError(p, err)))
		}
	}
	return errors.Join(problems...)
}

func (a *assembly) throughYear(ctx context.Context, p *part, room *lived, report wire.Reporter) (PartThroughYear, inservice.Year, error) {
	out := PartThroughYear{Name: p.req.Name, isHeld: p.req.Held, MadeAt: wire.MoistureBandOf(p.made),
		Wood: p.wood.Used("specific_gravity_green", "radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation")}
	ready, factor, err := a.through(p)
	if err != nil {
		return out, inservice.Year{}, err
	}
	year, err := a.season.YearOf(ctx, room.Room, &ready)
	if err != nil {
		return out, year, err
	}
	a.notes.Merge(year.Notes)
	out.Outside, out.Inside, out.Factor, out.LagDays = describeFinish(ready.Faces[0]), describeFinish(ready.Faces[1]), shelf.DescribeFactor(&factor, report), year.Lag.Days()
	state := func(e inservice.Extreme) PartState {
		return PartState{room.date(e.At), wire.MoistureBandOf(e.Mean), e.Outside.Percent(), e.Inside.Percent()}
	}
	out.Driest, out.Wettest = state(year.Dry), state(year.Wet)
	out.SwingPct = (year.Wet.Mean.Value - year.Dry.Mean.Value).Percent()
	onset := quantity.Moisture(0)
	for _, d := range p.dimensions() {
		s, err := inservice.SizesOf(d.size, d.direction, p.made, year.Dry.Mean, year.Wet.Mean, p.fromAir, p.wood.Value)
		if err != nil {
			return out, year, renameInput(err, "dimension", d.name)
		}
		a.notes.Merge(s.Notes)
		onset = s.Dry.Onset
		out.Sizes = append(out.Sizes, SizeInYear{d.name, report.Length(s.Build), report.LengthBand(s.Dry.Final), report.LengthBand(s.Wet.Final), report.LengthBand(s.Swing), report.LengthBand(s.HalfSwing)})
		if d.name == "width" {
			if out.Held, err = a.held(p, &s.Dry, &s.Wet); err != nil {
				return out, year, err
			}
		}
	}
	p.wood.RemarkOnset(a.notes)
	if out.BuildAt, err = a.airToBuild(p, year.Dry.Mean.Value, year.Wet.Mean.Value, onset, report); err != nil {
		return out, year, err
	}
	out.Series = make([]YearPoint, 0, len(year.Times))
	for i, at := range year.Times {
		out.Series = append(out.Series, YearPoint{room.date(at), wire.MoistureBandOf(year.Mean[i]), year.Outside[i].Percent(), year.Inside[i].Percent()})
	}
	return out, year, nil
}

// held is what the part bears across the grain; the caution is for parts that
// are said to be held.
func (a *assembly) held(p *part, dry, wet *movement.Movement) (*HeldPart, error) {
	h, err := inservice.HeldStrain(dry.Strain, wet.Strain)
	if err != nil {
		return nil, renameInput(err, "strain_pct", "width")
	}
	if p.req.Held {
		for i := range h.Notes.Warnings {
			h.Notes.Warnings[i] = h.Notes.Warnings[i].Of(p.req.Name)
		}
		a.notes.Merge(h.Notes)
	} else {
		a.notes.Merge(method.Notes{Basis: h.Notes.Basis})
	}
	return &HeldPart{wire.PercentBandOf(h.Stretch), wire.PercentBandOf(h.Squeeze), wire.PercentBandOf(h.Share), string(h.Danger)}, nil
}

// airToBuild is the air in which the part should be built.
func (a *assembly) airToBuild(p *part, dry, wet, onset quantity.Moisture, report wire.Reporter) (AirToBuild, error) {
	temperature := quantity.Celsius(20)
	made := a.made
	if p.req.MadeAt != nil {
		made = p.req.MadeAt
	}
	if made.Air != nil {
		temperature = made.Air.DryBulb.SI
	}
	b, err := inservice.AirToBuild(dry, wet, onset, temperature, p.wood.Value.LowerEMC)
	if err != nil {
		return AirToBuild{}, err
	}
	a.notes.Merge(b.Notes)
	return AirToBuild{b.Moisture.Percent(), wire.PercentBandOf(b.RH), report.Temperature(temperature)}, nil
}

// renameInput gives a domain error another input.
func renameInput(err error, from, to string) error { return wire.Under("", err, [2]string{from, to}) }

// conclude writes the summary.
func (r *InServiceResult) conclude() {
	widest := 0
	low, high := r.Parts[0].BuildAt, r.Parts[0].BuildAt
	for i := range r.Parts {
		if r.Parts[i].SwingPct > r.Parts[widest].SwingPct {
			widest = i
		}
		if b := r.Parts[i].BuildAt; b.RH.ValuePct < low.RH.ValuePct {
			low = b
		} else if b.RH.ValuePct > high.RH.ValuePct {
			high = b
		}
	}
	both := AirToBuild{MCPct: (low.MCPct + high.MCPct) / 2, Temperature: low.Temperature,
		RH: wire.PercentBand{ValuePct: (low.RH.ValuePct + high.RH.ValuePct) / 2, LowPct: low.RH.LowPct, HighPct: high.RH.HighPct}}
	r.BuildAt = &both
	p := &r.Parts[widest]
	text := p.Name + " is driest about " + r.lived.spoken(r.years[widest].Dry.At) + " at " + quantity.FormatNumber(p.Driest.Mean.ValuePct, 1) +
		" % and wettest about " + r.lived.spoken(r.years[widest].Wet.At) + " at " + quantity.FormatNumber(p.Wettest.Mean.ValuePct, 1) + " %"
	if len(r.Parts) > 1 {
		text += ", the widest swing of " + strconv.Itoa(len(r.Parts)) + " parts"
	}
	text += "; build at about " + quantity.FormatNumber(both.RH.ValuePct, 0) + " % RH so that both seasons share the movement"
	var held []string
	for i := range r.Parts {
		if h := r.Parts[i].Held; h != nil && h.Danger == string(inservice.High) {
			held = append(held, r.Parts[i].Name)
		}
	}
	if len(held) > 0 {
		text += "; may crack in the dry season if held: " + strings.Join(held, ", ")
	}
	r.Summary = text
}

// Render is the year as a drawing or a table.
func (r *InServiceResult) Render(name string) ([]byte, error) { //nolint:unparam // other results have forms they cannot give
	if name == wire.TableForm.Name {
		return r.csv(), nil
	}
	return r.draw(), nil
}

// csv is the series of all parts (RFC 4180).
func (r *InServiceResult) csv() []byte {
	text := []byte("part,date,days,mean_pct,mean_low_pct,mean_high_pct,outside_pct,inside_pct\r\n")
	for i := range r.Parts {
		name := wire.QuotedCell(r.Parts[i].Name)
		for k := range r.Parts[i].Series {
			p := &r.Parts[i].Series[k]
			text = append(text, name+","+p.Date...)
			for _, v := range []float64{r.years[i].Times[k].Days(), p.Mean.ValuePct, p.Mean.LowPct, p.Mean.HighPct, p.OutsidePct, p.InsidePct} {
				text = append(text, ',')
				text = strconv.AppendFloat(text, v, 'f', 2, 64)
			}
			text = append(text, "\r\n"...)
		}
	}
	return text
}
