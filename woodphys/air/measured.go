package air

import (
	"fmt"
	"strings"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Measured is air as it was measured: its dry bulb, one measure of its vapour, and the
// pressure or the altitude where it is not near sea level. What was not measured is nil.
type Measured struct {
	DryBulb  quantity.Temperature  // -60 to 120 degC
	RH       *float64              // fraction 0 to 1, over liquid water
	WetBulb  *quantity.Temperature // of an aspirated psychrometer, -100 to 120 degC
	IceBulb  bool                  // the wet bulb carries ice
	DewPoint *quantity.Temperature // over liquid water, -100 degC to the dry bulb
	Altitude *quantity.Length      // above the sea, -500 to 9000 m; gives the pressure
	Pressure *quantity.Pressure    // 30 to 110 kPa
}

// FromMeasured returns the state of air as it was measured, at the pressure of the
// standard atmosphere where none is given. Where it rests on a wet bulb, a warning says
// how much a small error of reading is worth.
//
// Errors: missing for none of rh_pct, wet_bulb and dew_point, contradictory for several,
// for an ice_bulb without wet_bulb and for altitude with pressure; else those of
// FromRelativeHumidity, FromWetBulb, FromDewPoint and StandardPressure.
// Accuracy: that of the function the measure belongs to.
//
// Source: FromRelativeHumidity, FromWetBulb, FromDewPoint, StandardPressure.
func FromMeasured(m Measured) (State, error) {
	if err := m.check(); err != nil {
		return State{}, err
	}
	pressure := SeaLevelPressure
	if m.Pressure != nil {
		pressure = *m.Pressure
	}
	if m.Altitude != nil {
		var err error
		if pressure, err = StandardPressure(*m.Altitude); err != nil {
			return State{}, err
		}
	}
	s, err := m.state(pressure)
	if err == nil {
		m.doubt(&s.Notes)
	}
	return s, err
}

func (m *Measured) state(pressure quantity.Pressure) (State, error) {
	switch {
	case m.RH != nil:
		return FromRelativeHumidity(m.DryBulb, *m.RH, pressure)
	case m.DewPoint != nil:
		return FromDewPoint(m.DryBulb, *m.DewPoint, pressure)
	}
	s, err := FromWetBulb(m.DryBulb, *m.WetBulb, pressure, m.IceBulb)
	if err == nil {
		s.noteReadingError(m, pressure)
	}
	return s, err
}

// hottestRoom is the dry bulb above which a room is doubted: 68 C is written where 68 F was
// meant. Own choice, above any room and below most kilns.
var hottestRoom = quantity.Celsius(45)

// doubt notes what was taken in place of something not told, and air that no room has.
func (m *Measured) doubt(notes *method.Notes) {
	if m.WetBulb != nil && m.WetBulb.Celsius() < 0 && !m.IceBulb {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Method: rowWetBulb.ID, Input: "ice_bulb",
			Detail: "the wet bulb is below freezing and is taken as undercooled water; where it carries ice, say ice_bulb: the air is damper then"})
	}
	if m.DryBulb.Kelvin() > hottestRoom.Kelvin() {
		const said = "the air is at %s; no room is so hot, only a kiln: is that the unit that was meant?"
		notes.Warn(method.Warning{Code: method.Assumption, Method: rowState.ID, Input: "temperature", Detail: fmt.Sprintf(said, m.DryBulb.Format("C"))}.
			Saying(said, method.Amount{Value: m.DryBulb.Celsius(), Unit: "C"}))
	}
}

// check tells whether the measures go together.
func (m *Measured) check() error {
	given := 0
	for _, is := range []bool{m.RH != nil, m.WetBulb != nil, m.DewPoint != nil} {
		if is {
			given++
		}
	}
	refused := func(code method.Code, input, detail string) error {
		return &method.Error{Code: code, Input: input, Detail: detail}
	}
	switch {
	case given == 0:
		return refused(method.Missing, "", "the air needs one of rh_pct, wet_bulb or dew_point")
	case given > 1:
		return refused(method.Contradictory, "", "give only one of rh_pct, wet_bulb and dew_point")
	case m.IceBulb && m.WetBulb == nil:
		return refused(method.Contradictory, "ice_bulb", "ice_bulb speaks of a wet_bulb, which is not given")
	case m.Altitude != nil && m.Pressure != nil:
		return refused(method.Contradictory, "altitude", "give the elevation or the pressure, not both")
	}
	return nil
}

// readingError is how far a wet bulb is usually off, in kelvin. Own choice.
const readingError = 0.5

// noteReadingError notes how much the usual error of a wet bulb is worth. In air so dry
// that a lower wet bulb is impossible it says nothing.
func (s *State) noteReadingError(m *Measured, pressure quantity.Pressure) {
	off, err := FromWetBulb(m.DryBulb, m.WetBulb.Add(-readingError), pressure, m.IceBulb)
	if err != nil {
		return
	}
	points := quantity.FormatNumber(100*(s.RelativeHumidity-off.RelativeHumidity), 1)
	worth := " of error in the wet bulb is worth " + points + " % RH here; that is not in the bands"
	s.Notes.Warn(method.Warning{Code: method.Assumption, Method: rowWetBulb.ID, Input: "wet_bulb",
		Detail: "half a degree C (0.9 F)" + worth}.
		Saying("%s"+strings.ReplaceAll(worth, "%", "%%"), method.Amount{Value: readingError, Unit: "K"}))
}
