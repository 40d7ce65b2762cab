package wire

import (
	"math"
	"reflect"
	"strconv"
	"strings"

	"latewood/woodphys/quantity"
)

// Numbers are computed in full and rounded once, when they are written. What has a band
// gets the digits that its band leaves any meaning; what has none the resolution of its
// unit or, where it is a bare number, of its name. All of it is own choice: about a tenth
// of what a shop can measure, so that nothing is lost that anybody could see.

// A place is a power of ten: 10 to the place is the step between two numbers as written.
type place int

// kept is the place of a number that is told as it came: what the caller sent or a
// table prints. It is written with digitsKept digits, which takes off the dust of a conversion
// and no more.
const (
	kept       place = math.MinInt32
	unruled    place = math.MaxInt32
	digitsKept       = 14
)

// A way is whither a number is rounded at its place.
type way int8

const (
	nearest way = iota
	downward
	upward
)

// A rounding is the place of a number and the way in which it is rounded there.
type rounding struct {
	at  place
	way way
}

// placesOfUnits are the resolutions of numbers that have no band. Those in inches are the
// nearest power of ten to the metric ones.
var placesOfUnits = map[string]place{
	"mm": -3, "in": -4, "m": -3, "ft": -2,
	"C": -2, "F": -2,
	"kg": -4, "lb": -4,
	"hPa": -3, "inHg": -5,
	"MPa": -3, "psi": -1,
	UnitMoisture: -2, UnitHumidity: -2, UnitPercent: -3, UnitPoints: -2,
	UnitDegrees: -2, "1/m": -4, "1/ft": -5, UnitRatio: -3,
	UnitPercentAPoint: -4, UnitPoints + perDay: -3, UnitPercent + perDay: -3,
	UnitResistance: 0,
}

// placesOfCuts are those of lengths that are planned and counted in nanometres. They are
// exact in metric units, and found again from inches.
var placesOfCuts = map[string]place{"mm": -6, "in": -8}

// placesOfNames are the resolutions of bare numbers, by the end of their names; the first
// that fits holds.
var placesOfNames = []struct {
	end string
	place
}{
	{"points_per_day", -3},
	{"mc_pct", -2}, {"rh_pct", -2}, {"share_pct", -2}, {"strain_pct", -3}, {"points", -2},
	{"probability", -3}, {"deg", -2}, {"days", -2}, {"ratio", -3}, {"score", -3},
}

// placeOfUnit is the resolution of a number in a unit; of one that is none of ours that
// of a ratio.
func placeOfUnit(unit string) place {
	if at, known := placesOfUnits[unit]; known {
		return at
	}
	return placesOfUnits[UnitRatio]
}

// placeOfName is the resolution that a bare number has by its name; unruled if that says
// nothing.
func placeOfName(name string) place {
	for _, of := range placesOfNames {
		if before, ends := strings.CutSuffix(name, of.end); ends && (before == "" || before[len(before)-1] == '_' || before == "e") {
			return of.place
		}
	}
	return unruled
}

// Resolution is how fine a bare number of that name is written, as text such as "0.01";
// false for a name that says nothing.
func Resolution(name string) (string, bool) {
	at := placeOfName(name)
	return stepText(at), at != unruled
}

// ResolutionTag is the tag of a member whose name does not tell its resolution: a power of
// ten, or ResolutionKept.
const (
	ResolutionTag  = "resolution"
	ResolutionKept = "as given"
)

// placeOfTag reads such a tag.
func placeOfTag(tag string) place {
	if tag == ResolutionKept {
		return kept
	}
	step, err := strconv.ParseFloat(tag, 64)
	if err != nil || !(step > 0) {
		return unruled
	}
	return place(math.Round(math.Log10(step)))
}

// placeOfMember is the place of a bare number, by its tag or its name; unruled if it has
// that of the object it stands in.
func placeOfMember(tag reflect.StructTag, name string) place {
	if of := tag.Get(ResolutionTag); of != "" {
		return placeOfTag(of)
	}
	if asked(tag) { // told back
		return kept
	}
	return placeOfName(name)
}

// asked reports whether a member is one of a request.
func asked(tag reflect.StructTag) bool {
	_, is := tag.Lookup("validate")
	return is
}

// placing is how an object finds the rounding of those of its numbers that have none of
// their own: by its band, by its unit, or as a ratio if it is a band without one. Of any
// other object they are kept.
func placing(t reflect.Type) func(v reflect.Value) rounding {
	if at, is := quantityIn(t); is {
		unit, _ := reflect.TypeFor[Quantity]().FieldByName("Unit")
		cut, _ := reflect.TypeFor[Quantity]().FieldByName("cut")
		toward, _ := reflect.TypeFor[Quantity]().FieldByName("way")
		return func(v reflect.Value) rounding {
			q := v.FieldByIndex(at)
			of := placeOfQuantity(q.FieldByIndex(unit.Index).String(), q.FieldByIndex(cut.Index).Bool())
			return rounding{at: of, way: way(q.FieldByIndex(toward.Index).Int())}
		}
	}
	unit, of := memberIndex(t, "unit", reflect.String), objectOf(t)
	unitOf := func(v reflect.Value) string {
		if unit == nil {
			return UnitRatio
		}
		return v.FieldByIndex(unit).String()
	}
	switch of {
	case ResolutionOfBand:
		low, high := memberIndex(t, "low", reflect.Float64), memberIndex(t, "high", reflect.Float64)
		return func(v reflect.Value) rounding {
			return rounding{at: placeOfBand(v.FieldByIndex(low).Float(), v.FieldByIndex(high).Float(), unitOf(v))}
		}
	case ResolutionOfUnit:
		return func(v reflect.Value) rounding { return rounding{at: placeOfUnit(unitOf(v))} }
	default:
		return func(reflect.Value) rounding { return rounding{at: kept} }
	}
}

// quantityIn finds the quantity that a type is, or that is embedded in it.
func quantityIn(t reflect.Type) (index []int, is bool) {
	if t == reflect.TypeFor[Quantity]() {
		return nil, true
	}
	for _, field := range reflect.VisibleFields(t) {
		if field.Anonymous && field.Type == reflect.TypeFor[Quantity]() {
			return field.Index, true
		}
	}
	return nil, false
}

// objectOf says what the numbers of an object go by that have no rule of their own.
func objectOf(t reflect.Type) string {
	number := func(name string) bool { return memberIndex(t, name, reflect.Float64) != nil }
	switch {
	case number("value") && number("low") && number("high"):
		return ResolutionOfBand
	case memberIndex(t, "unit", reflect.String) != nil:
		return ResolutionOfUnit
	default:
		return ""
	}
}

// memberIndex finds the member of that name and kind; nil if there is none.
func memberIndex(t reflect.Type, name string, kind reflect.Kind) []int {
	for _, m := range reflect.VisibleFields(t) {
		if called, _, _ := strings.Cut(m.Tag.Get("json"), ","); called == name && m.Type.Kind() == kind {
			return m.Index
		}
	}
	return nil
}

// placeOfQuantity is the place of a quantity: that of its unit, unless it is cut to the
// nanometre.
func placeOfQuantity(unit string, cut bool) place {
	if at, known := placesOfCuts[unit]; cut && known {
		return at
	}
	return placeOfUnit(unit)
}

// Down is a length rounded down to a micrometre, whatever the unit, so that both systems tell the same: a
// size that is there, or a limit that is kept.
func Down(l quantity.Length) quantity.Length {
	const dust = 1e-6 // of a micrometre, so that a whole one stays
	return quantity.Length(math.Floor(float64(l)*1e6+dust) / 1e6)
}

// Most shows a length that must not be exceeded: rounded down to the resolution of its unit, so
// that what is told still does. A fraction of an inch down to 1/128 is told as it is.
func (r Reporter) Most(l quantity.Length) Quantity { return r.toward(l, downward) }

// Least shows one that must be reached, rounded up as Most rounds down.
func (r Reporter) Least(l quantity.Length) Quantity { return r.toward(l, upward) }

func (r Reporter) toward(l quantity.Length, to way) Quantity {
	if r.LengthUnit == "in" && isFraction(l) {
		return r.Cut(l)
	}
	q := r.Length(l)
	q.way = to
	return q
}

// stepText writes the step of a place.
func stepText(at place) string {
	if at == kept || at == unruled {
		return ""
	}
	return strconv.FormatFloat(math.Pow10(int(at)), 'f', -1, 64)
}

// Resolutions are those of the units, as text.
func Resolutions() map[string]string {
	told := map[string]string{}
	for unit, at := range placesOfUnits {
		told[unit] = stepText(at)
	}
	return told
}

// bandWidths is how many steps a band is wide at least: a power of ten.
const bandWidths = 2

// placeOfBand is the place to which a band and its value are written: the greatest power of
// ten that is no more than a hundredth of its width. A band narrower than the resolution
// of its unit has that one.
func placeOfBand(low, high float64, unit string) place {
	least := placeOfUnit(unit)
	width := math.Log10(high - low)
	if !(width >= float64(least)) || math.IsInf(width, 0) { // not a number: ends that are out of order
		return least
	}
	return place(math.Floor(width)) - bandWidths
}

// Words for the resolution of a number that is not the same for all.
const (
	ResolutionOfUnit = "unit" // that of its unit
	ResolutionOfBand = "band" // that of its band
)

// ResolutionsOf says how fine each number of an object is written, by its name: a step
// such as "0.01", ResolutionKept, ResolutionOfUnit or ResolutionOfBand. A number that no
// rule holds for is told as "".
func ResolutionsOf(t reflect.Type) map[string]string {
	told := map[string]string{}
	of := objectOf(t)
	for _, m := range reflect.VisibleFields(t) {
		name, _, _ := strings.Cut(m.Tag.Get("json"), ",")
		if name == "" || name == "-" || asked(m.Tag) || !isNumber(m.Type) && !isNumbers(m.Type) {
			continue
		}
		switch at := placeOfMember(m.Tag, name); at {
		case kept:
			told[name] = ResolutionKept
		case unruled:
			told[name] = of
		default:
			told[name] = stepText(at)
		}
	}
	return told
}
