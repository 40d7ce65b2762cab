package shelf

import (
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Readings is what a list of readings comes to.
type Readings struct {
	All      []moisture.Estimate
	Remarks  []string
	Combined *moisture.Estimate
	Gradient *moisture.Gradient
}

// taken is a reading in SI, with what the request calls its inputs.
type taken struct {
	moisture.Reading
	names [][2]string
	at    int // in the list
}

// unreadable is a reading that the request does not tell whole; what its error names are
// members of the request.
type unreadable struct{ err error }

// Estimate refuses.
func (u unreadable) Estimate() (moisture.Estimate, error) { return moisture.Estimate{}, u.err }

// ReadAll evaluates the readings and combines those that speak for the whole section. A
// weight alone does not tell the moisture content and is left out. Errors point below the
// named member.
func ReadAll(list []Reading, wood *Wood, member string, notes *method.Notes) (Readings, error) {
	all := make([]taken, 0, len(list))
	physics := make([]moisture.Reading, 0, len(list))
	for i := range list {
		if list[i].Weight() != nil {
			notes.Warn(method.Warning{Code: method.NotUsed, Input: member + "/" + strconv.Itoa(i),
				Detail: "a weight alone does not tell the moisture content; readiness takes it together with others"})
			continue
		}
		if test := list[i].Prongs(); test != nil {
			if err := test.Check(); err != nil {
				return Readings{}, wire.Under(member+"/"+strconv.Itoa(i), err)
			}
			notes.Warn(method.Warning{Code: method.NotUsed, Input: member + "/" + strconv.Itoa(i),
				Detail: "a prong test tells stress and not moisture; readiness and resaw-timing take it"})
			continue
		}
		if at, _ := list[i].TakenAt(); at != "" {
			notes.Warn(method.Warning{Code: method.NotUsed, Input: member + "/" + strconv.Itoa(i) + "/taken_at",
				Detail: "where it was taken counts in readiness, with the stays of a wedge"})
		}
		one := list[i].taken(wood, nil)
		one.at = i
		all, physics = append(all, one), append(physics, one.Reading)
	}
	if len(physics) == 0 {
		return Readings{}, wire.Missing(member, "weights and prong tests alone do not tell the moisture content; give a "+
			"running_weight, or another reading")
	}
	read, err := moisture.ReadAll(physics)
	if err != nil {
		return Readings{}, wire.EachError(err, func(one error) error { return pointAtReading(one, all, member) })
	}
	notes.Merge(wire.AtMembers(read.Notes, func(err error) error { return pointAtReading(err, all, member) }))
	out := Readings{All: read.All, Combined: read.Combined, Gradient: read.Gradient,
		Remarks: make([]string, 0, len(read.All))}
	for i := range read.All {
		out.Remarks = append(out.Remarks, read.All[i].Remark)
	}
	return out, nil
}

// pointAtReading points an error about an input of a reading at the member it came from.
func pointAtReading(err error, all []taken, member string) error {
	domain, is := wire.AsDomain(err)
	if !is {
		return err
	}
	at, inside := strings.CutPrefix(domain.Input, "readings/")
	number, input, ofInput := strings.Cut(at, "/")
	i, noNumber := strconv.Atoi(number)
	if !inside || noNumber != nil || i >= len(all) {
		return wire.Under(member, err, [2]string{"readings", ""})
	}
	moved := *domain
	moved.Input = input
	var own error = &moved
	if ofInput {
		own = all[i].pointed(own)
	}
	return wire.Under(member+"/"+strconv.Itoa(all[i].at), own)
}

// pointed points an error at the members of the reading.
func (t *taken) pointed(err error) error { return wire.Under("", err, t.names...) }

// Estimate evaluates one reading of a piece as thick as the billet, nil where that is not
// known; errors and warnings name its members.
func (r *Reading) Estimate(wood *Wood, thick *wire.Length) (moisture.Estimate, string, error) {
	one := r.taken(wood, thick)
	e, err := one.Estimate()
	e.Notes = wire.AtMembers(e.Notes, one.pointed)
	return e, e.Remark, one.pointed(err)
}

// taken is the reading in SI.
func (r *Reading) taken(wood *Wood, thick *wire.Length) taken {
	switch form := r.Form.(type) {
	case *OvendryReading:
		return form.taken()
	case *RunningWeightReading:
		return form.taken()
	case *PinMeterReading:
		return form.taken(thick)
	case *PinlessMeterReading:
		return taken{Reading: moisture.PinlessReading{Reading: wire.FromPercent(*form.Reading), DensitySet: form.DensitySet}}
	case *SizeAndWeightReading:
		return form.taken(wood)
	case *StatedReading:
		return taken{Reading: moisture.Figure{MC: wire.FromPercent(*form.MC), SD: form.sd()}, names: [][2]string{{"sd_pct", "mc_sd_points"}}}
	}
	return taken{Reading: unreadable{wire.Missing("kind", "a weight alone does not tell the moisture content")}}
}

func (r *OvendryReading) taken() taken {
	s := moisture.Sample{Wet: Weighing(r.Wet, r.Scale), Ovendry: Weighing(r.Ovendry, r.Scale)}
	if r.Claimed != nil {
		claimed := wire.FromPercent(*r.Claimed)
		s.Claimed = &claimed
	}
	return taken{Reading: s, names: [][2]string{{"wet_mass_resolution", "scale_division"}, {"ovendry_mass_resolution", "scale_division"}}}
}

func (r *RunningWeightReading) taken() taken {
	start := moisture.Known{Weighing: Weighing(r.StartMass, r.Scale), MC: KnownMoisture(*r.StartPct, r.StartSDPct)}
	return taken{Reading: moisture.RunningWeight{Start: start, Now: Weighing(r.Mass, r.Scale)},
		names: [][2]string{{"start_mass_resolution", "scale_division"}, {"mass_resolution", "scale_division"}}}
}

// sd is the standard deviation of the figure.
func (s *StatedReading) sd() quantity.Moisture {
	if s.SD != nil {
		return wire.FromPercent(*s.SD)
	}
	return KnownMoisture(*s.MC, nil).SD()
}

// KnownMoisture is a moisture content known to a standard deviation, both in percent.
func KnownMoisture(pct float64, sdPct *float64) quantity.Band[quantity.Moisture] {
	sd := quantity.Moisture(0)
	if sdPct != nil {
		sd = wire.FromPercent(*sdPct)
	}
	return moisture.KnownTo(wire.FromPercent(pct), sd)
}

func (r *PinMeterReading) taken(thick *wire.Length) taken {
	reading := moisture.PinReading{Reading: wire.FromPercent(*r.Reading)}
	if r.WoodTemperature != nil {
		reading.WoodTemperature, reading.TemperatureKnown = r.WoodTemperature.SI, true
	}
	if c := r.Correction; c != nil {
		reading.SpeciesA, reading.SpeciesB, reading.SpeciesKnown = *c.A, wire.FromPercent(*c.B), true
	}
	share, known, err := r.Share(thick)
	if err != nil {
		return taken{Reading: unreadable{err}}
	}
	reading.Depth, reading.DepthKnown = share, known
	return taken{Reading: reading, names: [][2]string{{"depth_fraction", "depth"}, {"reading_pct", "reading_mc_pct"},
		{"species_a", "correction/a"}, {"species_b_pct", "correction/b_mc_points"}}}
}

// Share is the depth of the pins as a share of the thickness of the piece, which is that
// of the billet where the reading does not say its own.
func (r *PinMeterReading) Share(thick *wire.Length) (share float64, known bool, err error) {
	if r.Thickness != nil {
		thick = r.Thickness
	}
	switch {
	case r.Depth == nil:
		return 0, false, nil
	case thick == nil:
		return 0, false, wire.Missing("thickness", "a depth says little without the thickness of the piece")
	case r.Depth.SI > thick.SI:
		return 0, false, &method.Error{Code: method.Contradictory, Input: "depth",
			Limit: method.AtMost(thick.SI.AtMost(thick.Unit)), Detail: "the pins are deeper than the piece is thick"}
	}
	return moisture.DepthShare(r.Depth.SI, thick.SI), true, nil
}

func (r *SizeAndWeightReading) taken(w *Wood) taken {
	sized := moisture.Sized{Body: moisture.Body{Mass: r.Mass.SI,
		Volume: quantity.Volume(r.Length.SI * r.Width.SI * r.Thickness.SI)}}
	if w != nil {
		sized.Wood = &w.Value
	}
	return taken{Reading: sized, names: [][2]string{{"volume", ""}, {"specific_gravity", "/wood"}, {"volumetric_shrinkage_pct", "/wood"},
		{"fibre_saturation_pct", "/wood"}}}
}

// Weighing is a mass read on a scale, with its division if that is known.
func Weighing(m, scale *wire.Mass) moisture.Weighing {
	w := moisture.Weighing{Mass: m.SI}
	if scale != nil {
		w.Resolution = scale.SI
	}
	return w
}
