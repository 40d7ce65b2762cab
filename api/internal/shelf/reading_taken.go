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

// taken is a reading in SI, with what the request calls it and its inputs.
type taken struct {
	moisture.Reading
	member string // that says which way of reading it is
	names  [][2]string
}

// unreadable is a reading that the request does not tell whole; what its error names are
// members of the request.
type unreadable struct{ err error }

// Estimate refuses.
func (u unreadable) Estimate() (moisture.Estimate, error) { return moisture.Estimate{}, u.err }

// ReadAll evaluates the readings and combines those that speak for the whole
// section. Errors point below the named member.
func ReadAll(list []Reading, wood *Wood, member string, notes *method.Notes) (Readings, error) {
	all := make([]taken, len(list))
	physics := make([]moisture.Reading, len(list))
	for i := range list {
		all[i] = list[i].taken(wood)
		physics[i] = all[i].Reading
	}
	read, err := moisture.ReadAll(physics)
	if err != nil {
		return Readings{}, wire.EachError(err, func(one error) error { return pointAtReading(one, all, member) })
	}
	notes.Merge(read.Notes)
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
	return wire.Under(member+"/"+number, own)
}

// pointed points an error at the members of the reading.
func (t *taken) pointed(err error) error { return wire.Under(t.member, err, t.names...) }

// Estimate evaluates one reading; errors name its member.
func (r *Reading) Estimate(wood *Wood, notes *method.Notes) (moisture.Estimate, string, error) {
	one := r.taken(wood)
	e, err := one.Estimate()
	notes.Merge(e.Notes)
	return e, e.Remark, one.pointed(err)
}

// taken is the reading in SI.
func (r *Reading) taken(wood *Wood) taken {
	given := 0
	for _, is := range []bool{r.Ovendry != nil, r.RunningWeight != nil, r.PinMeter != nil, r.PinlessMeter != nil,
		r.SizeAndWeight != nil, r.Stated != nil} {
		if is {
			given++
		}
	}
	const one = "a reading has exactly one of ovendry, running_weight, pin_meter, pinless_meter, size_and_weight and " +
		"stated"
	switch {
	case given == 0:
		return taken{Reading: unreadable{wire.Missing("", one)}}
	case given > 1:
		return taken{Reading: unreadable{wire.Contradictory("", one)}}
	case r.Ovendry != nil:
		return r.Ovendry.taken()
	case r.RunningWeight != nil:
		return r.RunningWeight.taken()
	case r.PinMeter != nil:
		return r.PinMeter.taken()
	case r.PinlessMeter != nil:
		return taken{moisture.PinlessReading{Reading: wire.FromPercent(*r.PinlessMeter.Reading),
			DensitySet: r.PinlessMeter.DensitySet}, "pinless_meter", nil}
	case r.SizeAndWeight != nil:
		return r.SizeAndWeight.taken(wood)
	}
	return taken{moisture.Figure{MC: wire.FromPercent(*r.Stated.MC), SD: wire.FromPercent(*r.Stated.SD)}, "stated", nil}
}

func (r *OvendryReading) taken() taken {
	s := moisture.Sample{Wet: Weighing(r.Wet, r.Scale), Ovendry: Weighing(r.Ovendry, r.Scale)}
	if r.Claimed != nil {
		claimed := wire.FromPercent(*r.Claimed)
		s.Claimed = &claimed
	}
	return taken{s, "ovendry", [][2]string{
		{"wet_mass", "wet"}, {"ovendry_mass", "ovendry"}, {"wet_mass_resolution", "scale_division"},
		{"ovendry_mass_resolution", "scale_division"}, {"claimed_mc_pct", "claimed_mc_pct"},
	}}
}

func (r *RunningWeightReading) taken() taken {
	start := moisture.Known{Weighing: Weighing(r.StartMass, r.Scale), MC: KnownMoisture(*r.StartPct, r.StartSDPct)}
	return taken{moisture.RunningWeight{Start: start, Now: Weighing(r.Mass, r.Scale)}, "running_weight",
		[][2]string{{"start_mass_resolution", "scale_division"}, {"mass_resolution", "scale_division"}}}
}

// KnownMoisture is a moisture content known to a standard deviation, both in percent.
func KnownMoisture(pct float64, sdPct *float64) quantity.Band[quantity.Moisture] {
	sd := quantity.Moisture(0)
	if sdPct != nil {
		sd = wire.FromPercent(*sdPct)
	}
	return moisture.KnownTo(wire.FromPercent(pct), sd)
}

func (r *PinMeterReading) taken() taken {
	if err := r.together(); err != nil {
		return taken{Reading: unreadable{err}, member: "pin_meter"}
	}
	reading := moisture.PinReading{Reading: wire.FromPercent(*r.Reading)}
	if r.WoodTemperature != nil {
		reading.WoodTemperature, reading.TemperatureKnown = r.WoodTemperature.SI, true
	}
	if r.SpeciesA != nil {
		reading.SpeciesA, reading.SpeciesB, reading.SpeciesKnown = *r.SpeciesA, wire.FromPercent(*r.SpeciesB), true
	}
	if r.Depth != nil {
		reading.Depth, reading.DepthKnown = moisture.DepthShare(r.Depth.SI, r.Thickness.SI), true
	}
	return taken{reading, "pin_meter", [][2]string{{"depth_fraction", "depth"}}}
}

// together tells which members of the reading do not go together.
func (r *PinMeterReading) together() error {
	const together = "species_a and species_b_pct go together"
	switch {
	case r.SpeciesA == nil && r.SpeciesB != nil:
		return wire.Missing("species_a", together)
	case r.SpeciesA != nil && r.SpeciesB == nil:
		return wire.Missing("species_b_pct", together)
	case r.Depth != nil && r.Thickness == nil:
		return wire.Missing("thickness", "a depth says little without the thickness of the piece")
	case r.Depth != nil && r.Depth.SI > r.Thickness.SI:
		return &method.Error{Code: method.Contradictory, Input: "depth",
			Limit: "at most " + r.Thickness.SI.AtMost(r.Thickness.Unit), Detail: "the pins are deeper than the piece is thick"}
	}
	return nil
}

// Estimate evaluates a piece that was measured and weighed; errors name its member.
func (r *SizeAndWeight) Estimate(wood *Wood, notes *method.Notes) (moisture.Estimate, error) {
	one := r.taken(wood)
	e, err := one.Estimate()
	notes.Merge(e.Notes)
	return e, err
}

func (r *SizeAndWeight) taken(w *Wood) taken {
	sized := moisture.Sized{Body: moisture.Body{Mass: r.Mass.SI,
		Volume: quantity.Volume(r.Length.SI * r.Width.SI * r.Thickness.SI)}}
	if r.SpecificGravity != nil {
		sized.SpecificGravity = *r.SpecificGravity
	}
	if w != nil {
		sized.Wood = &w.Value
	}
	return taken{sized, "size_and_weight", [][2]string{{"volume", ""}, {"volumetric_shrinkage_pct", "/species"},
		{"fibre_saturation_pct", "/species"}}}
}

// Weighing is a mass read on a scale, with its division if that is known.
func Weighing(m, scale *wire.Mass) moisture.Weighing {
	w := moisture.Weighing{Mass: m.SI}
	if scale != nil {
		w.Resolution = scale.SI
	}
	return w
}
