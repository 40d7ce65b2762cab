package shelf

import (
	"reflect"
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Reading is one way of learning the moisture content; its kind says which.
type Reading struct{ wire.OneOf }

// DatedReading is what every reading may have.
type DatedReading struct {
	Date string `json:"date,omitempty" validate:"omitempty,datetime=2006-01-02" description:"day of the reading. Left out: the day of the answer"`
	Note string `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing rests on it"`
}

// TakenReading is what a reading of one place of the wood may have.
type TakenReading struct {
	TakenAt string `json:"taken_at,omitempty" validate:"omitempty,oneof=thinnest halfway thickest" description:"of a wedge or a taper, with its stays: where it was taken, by the thickness there. Left out: not told, and it counts as less sure"`
}

// WeightReading is the weight of a whole piece on a day.
type WeightReading struct {
	Kind string     `json:"kind" validate:"required,oneof=weight" description:"a whole piece weighed on a day"`
	Date string     `json:"date" validate:"required,datetime=2006-01-02" description:"day of the weighing; weights of one piece stand in order of date, one a day"`
	Mass *wire.Mass `json:"mass" validate:"required,gt=0,lte=5000" description:"what the scale showed"`
	Of   string     `json:"of,omitempty" validate:"omitempty,oneof=billet sample_board" default:"billet" description:"what was weighed: the billet, or a board that dries beside it, which is of use only with stays"`
	// Event makes the weights from here on those of another body.
	Event string `json:"event,omitempty" validate:"omitempty,oneof=trimmed planed ripped sealed" description:"what was done since its last weighing, with stays: from this weighing on its mass is on a scale of its own. The size of the billet is that of now"`
	Note  string `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing rests on it"`
}

// OvendryReading is a sample weighed wet and ovendry.
type OvendryReading struct {
	Kind    string     `json:"kind" validate:"required,oneof=ovendry_sample" description:"a sample weighed before and after the oven"`
	Wet     *wire.Mass `json:"wet_mass" validate:"required,gt=0,lte=1000" description:"of the sample as it was cut"`
	Ovendry *wire.Mass `json:"ovendry_mass" validate:"required,gt=0,lte=1000" description:"of the sample when it lost no more weight at 103 C"`
	Scale   *wire.Mass `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step the scale shows. Left out: a thousandth of the mass"`
	Claimed *float64   `json:"claimed_mc_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"a figure someone gave for this sample; it is checked for the wet basis"`
	TakenReading
	DatedReading
}

// RunningWeightReading is the weight of a piece whose start is known.
type RunningWeightReading struct {
	Kind       string     `json:"kind" validate:"required,oneof=running_weight" description:"the piece weighed now, and once before when its moisture content was known"`
	StartMass  *wire.Mass `json:"start_mass" validate:"required,gt=0,lte=5000" description:"of the piece when its moisture content was known"`
	StartPct   *float64   `json:"start_mc_pct" validate:"required,gte=0,lte=250" description:"moisture content then, in percent of the ovendry mass"`
	StartSDPct *float64   `json:"start_mc_sd_points,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3" description:"standard deviation of start_mc_pct"`
	Mass       *wire.Mass `json:"mass" validate:"required,gt=0,lte=5000" description:"of the piece on the day of the reading"`
	Scale      *wire.Mass `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step the scale shows. Left out: a thousandth of the mass"`
	DatedReading
}

// PinMeterReading is a reading of a resistance meter, its own corrections off.
type PinMeterReading struct {
	Kind            string            `json:"kind" validate:"required,oneof=pin_meter" description:"a resistance meter, its own corrections off"`
	Reading         *float64          `json:"reading_mc_pct" validate:"required,gte=4,lte=60" description:"what the meter showed, on its Douglas-fir scale"`
	Depth           *wire.Length      `json:"depth,omitempty" validate:"omitempty,gt=0,lte=0.5" description:"of insulated pin tips. Left out: what part of the thickness was read is not known"`
	Thickness       *wire.Length      `json:"thickness,omitempty" validate:"omitempty,gt=0,lte=1" description:"of the piece; with depth it says whether the shell, the mean or the core was read. Left out: that of the billet"`
	WoodTemperature *wire.Temperature `json:"wood_temperature,omitempty" validate:"omitempty,gte=253.15,lte=343.15" description:"the reading is corrected for it. Left out: taken as that of the calibration, with a wider band"`
	Meter           string            `json:"meter,omitempty" validate:"max=60" description:"a name of your own for the meter: readings of one meter share its error. Left out: all pin readings are of one meter"`
	Correction      *MeterCorrection  `json:"correction,omitempty" description:"for the wood, from the table of the meter's maker. Left out: none, with a wider band"`
	TakenReading
	DatedReading
}

// MeterCorrection is that of a meter for a wood.
type MeterCorrection struct {
	A *float64 `json:"a" validate:"required,gte=0.3,lte=3" description:"moisture content = (reading on the Douglas-fir scale - b_mc_points)/a"`
	B *float64 `json:"b_mc_points" validate:"required,gte=-15,lte=15" description:"points of moisture content"`
}

// PinlessMeterReading is a reading of a dielectric meter.
type PinlessMeterReading struct {
	Kind       string   `json:"kind" validate:"required,oneof=pinless_meter" description:"a dielectric meter, laid on the face"`
	Reading    *float64 `json:"reading_mc_pct" validate:"required,gte=3,lte=60" description:"what the meter showed"`
	DensitySet bool     `json:"density_set,omitempty" description:"the meter was set to the density of the wood"`
	Meter      string   `json:"meter,omitempty" validate:"max=60" description:"a name of your own for the meter: readings of one meter share its error. Left out: all pinless readings are of one meter"`
	TakenReading
	DatedReading
}

// SizeAndWeightReading is a whole piece measured and weighed.
type SizeAndWeightReading struct {
	Kind      string       `json:"kind" validate:"required,oneof=size_and_weight" description:"a whole piece measured and weighed: coarse, from the density of the wood"`
	Length    *wire.Length `json:"length" validate:"required,gte=0.001,lte=20" description:"of the piece"`
	Width     *wire.Length `json:"width" validate:"required,gte=0.001,lte=5" description:"of the piece"`
	Thickness *wire.Length `json:"thickness" validate:"required,gte=0.0005,lte=2" description:"of the piece"`
	Mass      *wire.Mass   `json:"mass" validate:"required,gt=0,lte=5000" description:"of the piece"`
	DatedReading
}

// StatedReading is a moisture content with the caller's own uncertainty.
type StatedReading struct {
	Kind string   `json:"kind" validate:"required,oneof=stated" description:"a moisture content that you know from elsewhere; in readiness without stays, one with the date of a weight says what the piece held when it was weighed"`
	MC   *float64 `json:"mc_pct" validate:"required,gte=0,lte=250" description:"in percent of the ovendry mass"`
	SD   *float64 `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3" description:"standard deviation of mc_pct"`
	DatedReading
}

// readingKinds are the kinds of readings, in the order of the contract.
var readingKinds = []struct {
	kind string
	form func() any
}{
	{"weight", func() any { return new(WeightReading) }}, {"ovendry_sample", func() any { return new(OvendryReading) }},
	{"pin_meter", func() any { return new(PinMeterReading) }}, {"pinless_meter", func() any { return new(PinlessMeterReading) }},
	{"running_weight", func() any { return new(RunningWeightReading) }}, {"size_and_weight", func() any { return new(SizeAndWeightReading) }},
	{"stated", func() any { return new(StatedReading) }}, {"prong_test", func() any { return new(ProngTestReading) }},
}

// ReadingKinds are the kinds of readings, in the order of the contract.
func ReadingKinds() []string {
	names := make([]string, 0, len(readingKinds))
	for _, k := range readingKinds {
		names = append(names, k.kind)
	}
	return names
}

// oneOfTheKinds is made once: a list that is far too long misses it in every entry.
var oneOfTheKinds = method.OneOf(ReadingKinds()...)

// JSONSchemaOneOf has one of each kind.
func (*Reading) JSONSchemaOneOf() []any {
	all := make([]any, 0, len(readingKinds))
	for _, k := range readingKinds {
		all = append(all, k.form())
	}
	return all
}

// Choose chooses the form by the kind.
func (*Reading) Choose(told wire.Told) (any, *method.Error) {
	for _, k := range readingKinds {
		if k.kind == told.Kind {
			return k.form(), nil
		}
	}
	if !slices.Contains(told.Members, "kind") {
		return nil, &method.Error{Code: method.Missing, Input: "kind", Detail: "kind is needed: " + oneOfTheKinds.String()}
	}
	return nil, &method.Error{Code: "not_a_choice", Input: "kind", Limit: oneOfTheKinds, Detail: "kind must be " + oneOfTheKinds.String()}
}

// UnmarshalJSONFrom reads one of the kinds.
func (r *Reading) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	r.Form, err = wire.ReadOneOf(dec, r)
	return err
}

// TakenAt is where on a wedge it was taken, empty where that is not told; ofPlace is false for a
// reading of the whole.
func (r *Reading) TakenAt() (at string, ofPlace bool) {
	switch form := r.Form.(type) {
	case *OvendryReading:
		return form.TakenAt, true
	case *PinMeterReading:
		return form.TakenAt, true
	case *PinlessMeterReading:
		return form.TakenAt, true
	}
	return "", false
}

// Day is the date of a reading; empty where it has none.
func (r *Reading) Day() string {
	switch form := r.Form.(type) {
	case *WeightReading:
		return form.Date
	case interface{ day() string }:
		return form.day()
	}
	return ""
}

func (d *DatedReading) day() string { return d.Date }

// Weight is the weight that was read; nil for another reading.
func (r *Reading) Weight() *WeightReading {
	weight, _ := r.Form.(*WeightReading)
	return weight
}

// KindTold is the kind of a reading, as its caller wrote it.
func (r *Reading) KindTold() string {
	for _, k := range readingKinds {
		if form := k.form(); r.Form != nil && reflect.TypeOf(form) == reflect.TypeOf(r.Form) {
			return k.kind
		}
	}
	return ""
}
