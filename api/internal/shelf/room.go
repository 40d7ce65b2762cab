package shelf

import (
	"slices"

	"latewood/api/internal/wire"
)

// AirOfPlace is the air of a place through time: outdoors, heated, kept, or recorded.
// Exactly one of station, months, air, log and log_csv says what it is, or of a stay its phases.
type AirOfPlace struct {
	Station  string            `json:"station,omitempty" validate:"max=100" description:"id or name of a place of the tables (GET /v1/stations): its monthly outdoor air"`
	Months   []MonthOfAir      `json:"months,omitempty" validate:"omitempty,min=12,max=12,dive" description:"your own twelve months of outdoor air, January first, in place of station"`
	Air      *Air              `json:"air,omitempty" description:"a room that keeps this air"`
	Log      []LoggedAir       `json:"log,omitempty" validate:"max=5000,dive" description:"your own record, in order of time; in a room that finished work lives in, one of 300 days and more stands for a year that repeats"`
	LogCSV   string            `json:"log_csv,omitempty" validate:"max=400000" description:"the same record as CSV, as loggers write it: a header such as time,temperature_c,rh_pct, the temperature in C or F as the header says, times as 2026-03-01 14:00, 3/25/2026 2:00 PM or 25.3.2026 14:00 where a row tells whether day or month stands first, a decimal comma where columns stand between semicolons or tabs; other columns are passed over"`
	HeatedTo *wire.Temperature `json:"heated_to,omitempty" validate:"omitempty,gte=263.15,lte=323.15" description:"with station or months: indoors, where outdoor air is warmed to this; a heater does not cool, and on warm days the room is 2 K warmer than outdoors. Left out: outdoors under cover"`
	Vapour   *wire.Pressure    `json:"added_vapour,omitempty" validate:"omitempty,gte=0,lte=3000" description:"with heated_to: vapour that people and work add indoors while the windows are shut, usually 1 to 5 hPa; all of it counts when it freezes outdoors, none above 20 C. Left out: 3 hPa"`
}

// Outdoor says that it is a place of which the outdoor air is known for a year.
func (p *AirOfPlace) Outdoor() bool { return p.Station != "" || len(p.Months) > 0 }

// Room is the air that finished work lives in through the year.
type Room struct {
	AirOfPlace
	Outdoors *OutdoorAir `json:"outdoors,omitempty" description:"in place of the others: the work stands outdoors under cover, in the outdoor air as it is, such as a gate, a bench or a door to a porch. Rain, sun and damp ground that reach it are not counted"`
	Seasons  *Seasons    `json:"seasons,omitempty" description:"the air of the room in winter and in summer, in place of the others; the rest of the year lies on a cosine between them"`
	MinRH    *float64    `json:"min_rh_pct,omitempty" validate:"omitempty,gte=0,lte=100" description:"with heated_to: a humidifier holds this. Left out: none runs"`
	MaxRH    *float64    `json:"max_rh_pct,omitempty" validate:"omitempty,gt=0,lte=100" description:"with heated_to: a drier or a cooler holds this. Left out: none runs"`
	Weekly   *float64    `json:"weekly_rh_swing_points,omitempty" validate:"omitempty,gte=0,lte=30" description:"the relative humidity also swings by so many points up and down within the week; for air without weather in it, not for a record. Left out: none"`
}

// placesOfAir are the members of which just one says what the air of a place is.
var placesOfAir = [][]string{{"station"}, {"months"}, {"air"}, {"log"}, {"log_csv"}}

// Joins says which members go together.
func (*Room) Joins() wire.Joined {
	heated := []string{"heated_to"}
	return wire.Joined{OneOf: append(slices.Clone(placesOfAir), []string{"seasons"}, []string{"outdoors"}),
		Needs:    map[string][]string{"station": heated, "months": heated, "added_vapour": heated, "min_rh_pct": heated, "max_rh_pct": heated},
		NeedsAny: map[string][]string{"heated_to": {"station", "months"}}}
}

// OutdoorAir is the outdoor air of a place through the year.
type OutdoorAir struct {
	Station string       `json:"station,omitempty" validate:"max=100" description:"id or name of a place of the tables (GET /v1/stations)"`
	Months  []MonthOfAir `json:"months,omitempty" validate:"omitempty,min=12,max=12,dive" description:"your own twelve months of outdoor air, January first, in place of station"`
}

// Joins says which members go together.
func (*OutdoorAir) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"station"}, {"months"}}}
}

// Joins says which members go together.
func (*Stay) Joins() wire.Joined {
	return wire.Joined{OneOf: append(slices.Clone(placesOfAir), []string{"phases"}), Needs: map[string][]string{"added_vapour": {"heated_to"}},
		NeedsAny: map[string][]string{"heated_to": {"station", "months"}}, NotAll: [][]string{{"phases", "until"}}}
}

// Seasons is the air of a room in winter and in summer.
type Seasons struct {
	WinterAir   *Air `json:"winter_air" validate:"required" description:"in the middle of winter_month"`
	SummerAir   *Air `json:"summer_air" validate:"required" description:"half a year later"`
	WinterMonth *int `json:"winter_month,omitempty" validate:"omitempty,gte=1,lte=12" default:"1" description:"7 south of the equator"`
}

// Stay is a time the wood lies in one place.
type Stay struct {
	AirOfPlace
	Until    string `json:"until,omitempty" validate:"omitempty,datetime=2006-01-02" description:"first day in the next place; the last stay has none, it lasts to the end of the forecast, and one with phases has none, it lasts as long as they do"`
	Exposure string `json:"exposure,omitempty" validate:"omitempty,oneof=open_stack small_stack moving_air shed closed_room wrapped kiln dehumidifier solar_kiln" description:"how the air reaches the wood: open_stack is a wide pile of a yard, small_stack a package or a billet on its own, moving_air a fan that blows through the stack; the air itself is told beside it, that of a kiln, dehumidifier or solar kiln as air or as a record. Left out: open_stack outdoors, kiln with phases, closed_room indoors"`
	// AirSpeed is a bare number, because the trade tells it in few ways.
	AirSpeed *float64    `json:"air_speed_m_per_s,omitempty" validate:"omitempty,gte=0.2,lte=10" description:"with air that is blown through the stack (moving_air, kiln, dehumidifier, solar_kiln): how fast it moves between the layers; 1 m/s is about 200 feet a minute. Left out: that of the exposure, 0.5 to 1.2"`
	Phases   []KilnPhase `json:"phases,omitempty" validate:"omitempty,min=1,max=24,dive" description:"the schedule of a kiln, in place of its air: what it runs, one after the other; the next stay says where the wood goes then"`
}

// KilnPhase is a part of the schedule of a kiln.
type KilnPhase struct {
	Kind        string            `json:"kind,omitempty" validate:"omitempty,oneof=drying equalizing conditioning" default:"drying" description:"equalizing: damper air at the end, so that pieces and depths come together; conditioning: hot, damp air after it, which takes the stress out of the skin"`
	Days        *float64          `json:"days,omitempty" validate:"omitempty,gt=0.01,lte=365" description:"how long it is run"`
	UntilPct    *float64          `json:"until_mc_pct,omitempty" validate:"omitempty,gte=3,lte=100" description:"in place of days: it is run until the mean of the wood comes down to this, by the middle forecast"`
	Air         *Air              `json:"air,omitempty" description:"of the kiln, -40 to 80 C; with the wet bulb as schedules have it"`
	Temperature *wire.Temperature `json:"temperature,omitempty" validate:"omitempty,gte=233.15,lte=353.15" description:"with emc_pct, in place of air"`
	EMC         *float64          `json:"emc_pct,omitempty" validate:"omitempty,gte=1,lte=28" description:"with temperature: what the air keeps this wood at, as schedules have it for the end"`
}

// Joins says which members go together.
func (*KilnPhase) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"air"}, {"temperature"}}, Needs: map[string][]string{"temperature": {"emc_pct"}, "emc_pct": {"temperature"}},
		NotAll: [][]string{{"days", "until_mc_pct"}}}
}
