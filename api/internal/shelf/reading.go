package shelf

import (
	"latewood/api/internal/wire"
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
	Claimed *float64   `json:"claimed_mc_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"a figure someone gave for this sample; checked for the wet basis"`
}

// RunningWeightReading is the weight of a piece whose start is known.
type RunningWeightReading struct {
	StartMass  *wire.Mass `json:"start_mass" validate:"required,gt=0,lte=5000"`
	StartPct   *float64   `json:"start_mc_pct" validate:"required,gte=0,lte=250"`
	StartSDPct *float64   `json:"start_mc_sd_points,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3"`
	Mass       *wire.Mass `json:"mass" validate:"required,gt=0,lte=5000"`
	Scale      *wire.Mass `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10"`
}

// PinMeterReading is a reading of a resistance meter, its own corrections off.
type PinMeterReading struct {
	Meter           string            `json:"meter,omitempty" validate:"max=60" description:"a name for the meter: readings of one meter share its error"`
	Reading         *float64          `json:"reading_mc_pct" validate:"required,gte=4,lte=60"`
	WoodTemperature *wire.Temperature `json:"wood_temperature,omitempty" validate:"omitempty,gte=253.15,lte=343.15"`
	SpeciesA        *float64          `json:"species_a,omitempty" validate:"omitempty,gte=0.3,lte=3" description:"with species_b_pct: MC = (MC on the Douglas-fir scale - b)/a, from the meter maker's table"`
	SpeciesB        *float64          `json:"species_b_pct,omitempty" validate:"omitempty,gte=-15,lte=15"`
	Depth           *wire.Length      `json:"depth,omitempty" validate:"omitempty,gt=0,lte=0.5" description:"of insulated pin tips"`
	Thickness       *wire.Length      `json:"thickness,omitempty" validate:"omitempty,gt=0,lte=1" description:"of the piece; with depth it says whether the reading is of the shell, the mean or the core"`
}

// PinlessMeterReading is a reading of a dielectric meter.
type PinlessMeterReading struct {
	Meter      string   `json:"meter,omitempty" validate:"max=60" description:"a name for the meter: readings of one meter share its error"`
	Reading    *float64 `json:"reading_mc_pct" validate:"required,gte=3,lte=60"`
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
	SD *float64 `json:"mc_sd_points" validate:"required,gte=0.01,lte=50" description:"standard deviation"`
}
