package wire

import (
	"errors"
	"fmt"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Quantities arrive as {"value": 52, "unit": "mm"} or as "52 mm" and leave as
// value and unit in the unit system the caller asked for (report_in).

// Length is a length as the caller wrote it.
type Length struct {
	SI   quantity.Length
	Unit string
}

// Temperature is a temperature as the caller wrote it.
type Temperature struct {
	SI   quantity.Temperature
	Unit string
}

// Mass is a mass as the caller wrote it.
type Mass struct {
	SI   quantity.Mass
	Unit string
}

// Pressure is a pressure as the caller wrote it.
type Pressure struct {
	SI   quantity.Pressure
	Unit string
}

// Stiffness is a modulus of a material as the caller wrote it.
type Stiffness struct {
	SI   quantity.Pressure
	Unit string
}

// UnmarshalJSONFrom reads either form of a length.
func (l *Length) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	l.SI, l.Unit, err = readQuantity(dec, quantity.DimensionLength, quantity.ParseLength, quantity.LengthOf)
	return err
}

// UnmarshalJSONFrom reads either form of a temperature.
func (t *Temperature) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	t.SI, t.Unit, err = readQuantity(dec, quantity.DimensionTemperature, quantity.ParseTemperature, quantity.TemperatureOf)
	return err
}

// UnmarshalJSONFrom reads either form of a mass.
func (m *Mass) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	m.SI, m.Unit, err = readQuantity(dec, quantity.DimensionMass, quantity.ParseMass, quantity.MassOf)
	return err
}

// UnmarshalJSONFrom reads either form of a pressure.
func (p *Pressure) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	p.SI, p.Unit, err = readQuantity(dec, quantity.DimensionPressure, quantity.ParsePressure, quantity.PressureOf)
	return err
}

// UnmarshalJSONFrom reads either form of a stiffness.
func (s *Stiffness) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	s.SI, s.Unit, err = readQuantity(dec, quantity.DimensionStiffness, quantity.ParseStiffness, quantity.StiffnessOf)
	return err
}

// NeedsBoth is the reason of a quantity object that is not whole.
const NeedsBoth = "needs both value and unit"

func readQuantity[T any](dec *jsontext.Decoder, d quantity.Dimension,
	parse func(string) (T, error), of func(float64, string) (T, error),
) (si T, unit string, err error) {
	switch dec.PeekKind() {
	case '"':
		var text string
		if err := json.UnmarshalDecode(dec, &text); err != nil {
			return si, "", err
		}
		si, err = parse(text)
		return si, quantity.UnitWritten(d, text), err
	case '{':
		var pair struct {
			Value *float64 `json:"value"`
			Unit  *string  `json:"unit"`
		}
		if err := json.UnmarshalDecode(dec, &pair); err != nil {
			return si, "", err
		}
		if pair.Value == nil || pair.Unit == nil {
			return si, "", &quantity.ParseError{Text: "{}", Dimension: d, Reason: NeedsBoth, Units: quantity.Units(d)}
		}
		si, err = of(*pair.Value, *pair.Unit)
		return si, *pair.Unit, err
	default:
	}
	if err := dec.SkipValue(); err != nil {
		return si, "", err
	}
	return si, "", &quantity.ParseError{Text: "it", Dimension: d, Units: quantity.Units(d),
		Reason: fmt.Sprintf(`write it as {"value": 52, "unit": %q} or "52 %s"`, quantity.Units(d)[0], quantity.Units(d)[0])}
}

// AsParseError finds a quantity's own complaint in a decoding error.
func AsParseError(err error) (*quantity.ParseError, bool) {
	var parse *quantity.ParseError
	return parse, errors.As(err, &parse)
}

// Quantity is a value with its unit.
type Quantity struct {
	Value float64 `json:"value" required:"true" description:"in the unit beside it"`
	Unit  string  `json:"unit" required:"true" description:"of the system that report_in names"`

	cut bool // to the nanometre
	way way  // in which it is rounded
}

// Band is a value with the ends of its 90 % band, all in one unit.
type Band struct {
	Value float64 `json:"value" required:"true" description:"the likeliest; it lies between the ends"`
	Low   float64 `json:"low" required:"true" description:"5 % of cases lie below"`
	High  float64 `json:"high" required:"true" description:"5 % of cases lie above"`
	Unit  string  `json:"unit" required:"true" description:"of all three: that of a quantity, or %MC, %RH, %, points (of moisture content), deg, 1/m, 1/ft, 1, %/point, or a rate such as points/day"`
}

// Units of bands that are no quantities.
const (
	UnitMoisture = "%MC"
	UnitHumidity = "%RH"
	UnitPercent  = "%"
	UnitPoints   = "points"
	UnitDegrees  = "deg"
	UnitRatio    = "1"
	// UnitPercentAPoint is that of a change for each point of moisture content.
	UnitPercentAPoint = UnitPercent + "/point"
	perDay            = "/day"
	// UnitResistance is that of the resistance of a finish to vapour.
	UnitResistance = "s/m"
)

// MoistureBandOf shows a band of moisture contents in percent of ovendry mass.
func MoistureBandOf(b quantity.Band[quantity.Moisture]) Band { return inPercent(b, UnitMoisture) }

// PointsBandOf shows a band of a difference of moisture contents.
func PointsBandOf(b quantity.Band[quantity.Moisture]) Band { return inPercent(b, UnitPoints) }

// PointsADay shows a band of a change of moisture content.
func PointsADay(b quantity.Band[quantity.Moisture]) Band { return inPercent(b, UnitPoints+perDay) }

// PercentBandOf shows a band of fractions in percent.
func PercentBandOf(b quantity.Band[float64]) Band { return inPercent(b, UnitPercent) }

// PercentADay shows a band of fractions a day in percent.
func PercentADay(b quantity.Band[float64]) Band { return inPercent(b, UnitPercent+perDay) }

// PercentAPoint shows a band of fractions for each point of moisture content, in percent.
func PercentAPoint(b quantity.Band[float64]) Band { return inPercent(b, UnitPercentAPoint) }

// HumidityBandOf shows a band of relative humidities.
func HumidityBandOf(b quantity.Band[float64]) Band { return inPercent(b, UnitHumidity) }

// AngleBandOf shows a band of angles in degrees.
func AngleBandOf(b quantity.Band[quantity.Angle]) Band {
	return Band{b.Value.Degrees(), b.Low.Degrees(), b.High.Degrees(), UnitDegrees}
}

// CurvatureBand shows a band of curvatures, which are in 1/m.
func (r Reporter) CurvatureBand(b quantity.Band[float64]) Band {
	v, _ := quantity.Length(1).In(r.LongUnit)
	return Band{b.Value / v, b.Low / v, b.High / v, "1/" + r.LongUnit}
}

func inPercent[T ~float64](b quantity.Band[T], unit string) Band {
	percent := func(v T) float64 { return float64(v) * 100 }
	return Band{percent(b.Value), percent(b.Low), percent(b.High), unit}
}

// Reporter turns SI quantities into the caller's system of units.
type Reporter struct {
	LengthUnit, LongUnit, temperature, mass, pressure, stress string

	fraction int // denominator of inches for people; 0: decimals
}

// Systems of units a caller may ask for.
const (
	Metric = "metric"
	InchLB = "inch"
)

// ReportIn is the reporter of a system of units; metric where none is named.
func ReportIn(system string) Reporter {
	if system == InchLB {
		return Reporter{LengthUnit: "in", LongUnit: "ft", temperature: "F", mass: "lb", pressure: "inHg", stress: "psi"}
	}
	return Reporter{LengthUnit: "mm", LongUnit: "m", temperature: "C", mass: "kg", pressure: "hPa", stress: "MPa"}
}

// Length shows a length.
func (r Reporter) Length(l quantity.Length) Quantity {
	v, _ := l.In(r.LengthUnit)
	return Quantity{Value: v, Unit: r.LengthUnit}
}

// Cut shows a length to the nanometre, in which cuts are planned and counted.
func (r Reporter) Cut(l quantity.Length) Quantity {
	q := r.Length(l)
	q.cut = true
	return q
}

// LengthBand shows a length with the ends of its band.
func (r Reporter) LengthBand(b quantity.Band[quantity.Length]) Band {
	v, _ := b.Value.In(r.LengthUnit)
	low, _ := b.Low.In(r.LengthUnit)
	high, _ := b.High.In(r.LengthUnit)
	return Band{v, low, high, r.LengthUnit}
}

// Temperature shows a temperature.
func (r Reporter) Temperature(t quantity.Temperature) Quantity {
	v, _ := t.In(r.temperature)
	return Quantity{Value: v, Unit: r.temperature}
}

// Mass shows a mass.
func (r Reporter) Mass(m quantity.Mass) Quantity {
	v, _ := m.In(r.mass)
	return Quantity{Value: v, Unit: r.mass}
}

// Pressure shows a pressure.
func (r Reporter) Pressure(p quantity.Pressure) Quantity {
	v, _ := p.In(r.pressure)
	return Quantity{Value: v, Unit: r.pressure}
}

// Missing is the domain error for an input that was not given.
func Missing(input, detail string) error {
	return &method.Error{Code: method.Missing, Input: input, Detail: detail}
}

// Contradictory is the domain error for inputs that exclude each other.
func Contradictory(input, detail string) error {
	return &method.Error{Code: method.Contradictory, Input: input, Detail: detail}
}

// Places are the digits after the point with which small lengths are told.
func (r Reporter) Places() int {
	if r.LengthUnit == "in" {
		return 3
	}
	return 2
}

// ANanometre is the least width that is told to be taken off.
const ANanometre = 1e-9 * quantity.Metre
