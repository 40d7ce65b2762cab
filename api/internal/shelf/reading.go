package shelf

import (
	"errors"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Reading is one way of learning the moisture content. Exactly one of its
// members says which.
type Reading struct {
	Date          string                `json:"date,omitempty" validate:"omitempty,datetime=2006-01-02" description:"of the reading; used where the history of the piece is known"`
	Ovendry       *OvendryReading       `json:"ovendry,omitempty" description:"a sample weighed before and after the oven"`
	RunningWeight *RunningWeightReading `json:"running_weight,omitempty" description:"the piece weighed now, and once before when its moisture content was known"`
	PinMeter      *PinMeterReading      `json:"pin_meter,omitempty"`
	PinlessMeter  *PinlessMeterReading  `json:"pinless_meter,omitempty"`
	SizeAndWeight *SizeAndWeight        `json:"size_and_weight,omitempty" description:"coarse: from the wood's published density"`
	Stated        *StatedMoisture       `json:"stated,omitempty" description:"a moisture content with an uncertainty of your own"`
}

// OvendryReading is a sample weighed wet and ovendry.
type OvendryReading struct {
	Wet     *wire.Mass `json:"wet" validate:"required,gt=0,lte=1000"`
	Ovendry *wire.Mass `json:"ovendry" validate:"required,gt=0,lte=1000"`
	Scale   *wire.Mass `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step the scale shows"`
	Claimed *float64   `json:"claimed_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"a figure someone gave for this sample; checked for the wet basis"`
}

// RunningWeightReading is the weight of a piece whose start is known.
type RunningWeightReading struct {
	StartMass  *wire.Mass `json:"start_mass" validate:"required,gt=0,lte=5000"`
	StartPct   *float64   `json:"start_mc_pct" validate:"required,gte=0,lte=250"`
	StartSDPct *float64   `json:"start_sd_pct,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3"`
	Mass       *wire.Mass `json:"mass" validate:"required,gt=0,lte=5000"`
	Scale      *wire.Mass `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10"`
}

// PinMeterReading is a reading of a resistance meter, its own corrections off.
type PinMeterReading struct {
	Meter           string            `json:"meter,omitempty" validate:"max=60" description:"a name for the meter: readings of one meter share its error"`
	Reading         *float64          `json:"reading_pct" validate:"required,gte=4,lte=60"`
	WoodTemperature *wire.Temperature `json:"wood_temperature,omitempty" validate:"omitempty,gte=253.15,lte=343.15"`
	SpeciesA        *float64          `json:"species_a,omitempty" validate:"omitempty,gte=0.3,lte=3" description:"with species_b_pct: MC = (MC on the Douglas-fir scale - b)/a, from the meter maker's table"`
	SpeciesB        *float64          `json:"species_b_pct,omitempty" validate:"omitempty,gte=-15,lte=15"`
	Depth           *wire.Length      `json:"depth,omitempty" validate:"omitempty,gt=0,lte=0.5" description:"of insulated pin tips"`
	Thickness       *wire.Length      `json:"thickness,omitempty" validate:"omitempty,gt=0,lte=1" description:"of the piece; with depth it says whether the reading is of the shell, the mean or the core"`
}

// PinlessMeterReading is a reading of a dielectric meter.
type PinlessMeterReading struct {
	Meter      string   `json:"meter,omitempty" validate:"max=60" description:"a name for the meter: readings of one meter share its error"`
	Reading    *float64 `json:"reading_pct" validate:"required,gte=3,lte=60"`
	DensitySet bool     `json:"density_set,omitempty" description:"the meter was set to the wood's density"`
}

// SizeAndWeight is a whole piece measured and weighed.
type SizeAndWeight struct {
	Length          *wire.Length `json:"length" validate:"required,gte=0.001,lte=20"`
	Width           *wire.Length `json:"width" validate:"required,gte=0.001,lte=5"`
	Thickness       *wire.Length `json:"thickness" validate:"required,gte=0.0005,lte=2"`
	Mass            *wire.Mass   `json:"mass" validate:"required,gt=0,lte=5000"`
	SpecificGravity *float64     `json:"specific_gravity,omitempty" validate:"omitempty,gte=0.05,lte=1.4" description:"basic, ovendry mass over green volume; without it that of the species"`
}

// StatedMoisture is a moisture content with the caller's own uncertainty.
type StatedMoisture struct {
	MC *float64 `json:"mc_pct" validate:"required,gte=0,lte=250"`
	SD *float64 `json:"sd_pct" validate:"required,gte=0.01,lte=50" description:"standard deviation"`
}

// Estimate is a moisture content from one reading.
type Estimate struct {
	MC     wire.PercentBand `json:"mc" required:"true" description:"percent of ovendry mass"`
	SDPct  float64          `json:"sd_pct" required:"true"`
	Method string           `json:"method" required:"true"`
	Place  string           `json:"place" required:"true" enum:"mean,core,shell,spot" description:"the part of the thickness it speaks for"`
	Remark string           `json:"remark,omitempty"`
}

// Gradient is how much wetter the core is than the shell.
type Gradient struct {
	CoreMinusShell wire.PercentBand `json:"core_minus_shell" required:"true" description:"points of moisture content"`
	Sense          string           `json:"sense" required:"true" enum:"core_wetter,shell_wetter,not_told"`
	Meaning        string           `json:"meaning" required:"true"`
}

// Readings is what a list of readings comes to.
type Readings struct {
	All      []moisture.Estimate
	Remarks  []string
	Combined *moisture.Estimate
	Gradient *moisture.Gradient
}

// ReadAll evaluates the readings and combines those that speak for the whole
// section. Errors point below the named member.
func ReadAll(list []Reading, wood *Wood, member string, notes *method.Notes) (Readings, error) {
	var r Readings
	var wrong []error
	for i := range list {
		estimate, remark, err := list[i].Estimate(wood, notes)
		if err != nil {
			wrong = append(wrong, wire.Under(member+"/"+strconv.Itoa(i), err))
			continue
		}
		notes.Merge(estimate.Notes)
		r.All, r.Remarks = append(r.All, estimate), append(r.Remarks, remark)
	}
	if err := errors.Join(wrong...); err != nil {
		return Readings{}, err
	}
	gathered, err := moisture.Gather(r.All)
	if err != nil {
		return Readings{}, method.Renamed(err, [2]string{"estimates", member}, [2]string{"estimates/", member + "/"})
	}
	notes.Merge(gathered.Notes)
	r.Combined, r.Gradient = gathered.Mean, gathered.Gradient
	return r, nil
}

// Estimate evaluates one reading; errors name its member.
func (r *Reading) Estimate(wood *Wood, notes *method.Notes) (moisture.Estimate, string, error) {
	given := 0
	for _, is := range []bool{r.Ovendry != nil, r.RunningWeight != nil, r.PinMeter != nil, r.PinlessMeter != nil, r.SizeAndWeight != nil, r.Stated != nil} {
		if is {
			given++
		}
	}
	const one = "a reading has exactly one of ovendry, running_weight, pin_meter, pinless_meter, size_and_weight and stated"
	switch {
	case given == 0:
		return moisture.Estimate{}, "", wire.Missing("", one)
	case given > 1:
		return moisture.Estimate{}, "", wire.Contradictory("", one)
	case r.Ovendry != nil:
		return r.Ovendry.estimate()
	case r.RunningWeight != nil:
		e, err := r.RunningWeight.estimate()
		return e, "", wire.Under("running_weight", err, [2]string{"start_mass_resolution", "scale_division"}, [2]string{"mass_resolution", "scale_division"})
	case r.PinMeter != nil:
		e, err := r.PinMeter.estimate()
		return e, "", wire.Under("pin_meter", err, [2]string{"depth_fraction", "depth"})
	case r.PinlessMeter != nil:
		e, err := moisture.FromPinlessMeter(wire.FromPercent(*r.PinlessMeter.Reading), r.PinlessMeter.DensitySet)
		return e, "", wire.Under("pinless_meter", err)
	case r.SizeAndWeight != nil:
		e, err := r.SizeAndWeight.Estimate(wood, notes)
		return e, "", wire.Under("size_and_weight", err, [2]string{"volume", ""}, [2]string{"volumetric_shrinkage_pct", "/species"}, [2]string{"fibre_saturation_pct", "/species"})
	default:
		e, err := moisture.Stated(wire.FromPercent(*r.Stated.MC), wire.FromPercent(*r.Stated.SD))
		return e, "", wire.Under("stated", err)
	}
}

func (r *OvendryReading) estimate() (moisture.Estimate, string, error) {
	e, err := moisture.FromOvendry(Weighing(r.Wet, r.Scale), Weighing(r.Ovendry, r.Scale))
	if err != nil {
		return e, "", wire.Under("ovendry", err, [2]string{"wet_mass", "wet"}, [2]string{"ovendry_mass", "ovendry"},
			[2]string{"wet_mass_resolution", "scale_division"}, [2]string{"ovendry_mass_resolution", "scale_division"})
	}
	if r.Claimed == nil {
		return e, "", nil
	}
	basis, err := moisture.LooksWetBasis(wire.FromPercent(*r.Claimed), r.Wet.SI, r.Ovendry.SI)
	return e, basis.Detail, wire.Under("ovendry", err, [2]string{"claimed_mc_pct", "claimed_pct"}, [2]string{"wet_mass", "wet"}, [2]string{"ovendry_mass", "ovendry"})
}

func (r *RunningWeightReading) estimate() (moisture.Estimate, error) {
	return moisture.FromRunningWeight(
		moisture.Known{Weighing: Weighing(r.StartMass, r.Scale), MC: KnownMoisture(*r.StartPct, r.StartSDPct)}, Weighing(r.Mass, r.Scale))
}

// defaultStartSD is taken for the starting moisture content of a running
// weight when none is given: a pin meter's standard deviation.
const defaultStartSD = 3.0

func KnownMoisture(pct float64, sdPct *float64) quantity.Band[quantity.Moisture] {
	sd := defaultStartSD
	if sdPct != nil {
		sd = *sdPct
	}
	return quantity.NormalBand(wire.FromPercent(pct), wire.FromPercent(sd))
}

func (r *PinMeterReading) estimate() (moisture.Estimate, error) {
	reading := moisture.PinReading{Reading: wire.FromPercent(*r.Reading)}
	if r.WoodTemperature != nil {
		reading.WoodTemperature, reading.TemperatureKnown = r.WoodTemperature.SI, true
	}
	const together = "species_a and species_b_pct go together"
	switch {
	case r.SpeciesA == nil && r.SpeciesB != nil:
		return moisture.Estimate{}, wire.Missing("species_a", together)
	case r.SpeciesA != nil && r.SpeciesB == nil:
		return moisture.Estimate{}, wire.Missing("species_b_pct", together)
	}
	if r.SpeciesA != nil {
		reading.SpeciesA, reading.SpeciesB, reading.SpeciesKnown = *r.SpeciesA, wire.FromPercent(*r.SpeciesB), true
	}
	if r.Depth != nil {
		if r.Thickness == nil {
			return moisture.Estimate{}, wire.Missing("thickness", "a depth says little without the thickness of the piece")
		}
		if r.Depth.SI > r.Thickness.SI {
			return moisture.Estimate{}, &method.Error{Code: method.Contradictory, Input: "depth",
				Limit: "at most " + r.Thickness.SI.AtMost(r.Thickness.Unit), Detail: "the pins are deeper than the piece is thick"}
		}
		share := float64(r.Depth.SI / r.Thickness.SI)
		reading.Depth, reading.DepthKnown = min(share, 1-share), true // past the middle it is nearer the other face
	}
	return moisture.FromPinMeter(reading)
}

func (r *SizeAndWeight) Estimate(wood *Wood, notes *method.Notes) (moisture.Estimate, error) {
	body := moisture.Body{Mass: r.Mass.SI, Volume: quantity.Volume(r.Length.SI * r.Width.SI * r.Thickness.SI)}
	switch {
	case r.SpecificGravity != nil:
		body.SpecificGravity = *r.SpecificGravity
	case wood == nil:
		return moisture.Estimate{}, wire.Missing("specific_gravity", "give the species, or the specific gravity of the wood")
	default:
		gravity, err := wood.BasicGravity(notes)
		if err != nil {
			return moisture.Estimate{}, err
		}
		body.SpecificGravity = gravity
	}
	if wood != nil {
		body.VolumetricShrinkage = wood.VolumetricShrinkage(notes)
		body.FibreSaturation = wood.FibreSaturation()
	}
	return moisture.FromDensity(body)
}

func Weighing(m, scale *wire.Mass) moisture.Weighing {
	w := moisture.Weighing{Mass: m.SI}
	if scale != nil {
		w.Resolution = scale.SI
	}
	return w
}

func DescribeEstimate(e moisture.Estimate, remark string) Estimate {
	return Estimate{MC: wire.MoistureBandOf(e.MC), SDPct: e.SD.Percent(), Method: e.How, Place: string(e.Place), Remark: remark}
}

func DescribeGradient(g *moisture.Gradient) *Gradient {
	return &Gradient{CoreMinusShell: wire.MoistureBandOf(g.CoreMinusShell), Sense: string(g.Sense), Meaning: g.Meaning}
}
