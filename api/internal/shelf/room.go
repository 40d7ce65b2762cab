package shelf

import "latewood/api/internal/wire"

// AirOfPlace is the air of a place through time: outdoors, heated, kept, or recorded.
// Exactly one of station, months, air, log and log_csv says what it is.
type AirOfPlace struct {
	Station  string            `json:"station,omitempty" validate:"max=100" description:"id or name of a place of the tables (GET /v1/stations): its monthly outdoor air"`
	Months   []MonthOfAir      `json:"months,omitempty" validate:"omitempty,min=12,max=12,dive" description:"your own twelve months of outdoor air, January first, in place of station"`
	Air      *Air              `json:"air,omitempty" description:"a room that keeps this air"`
	Log      []LoggedAir       `json:"log,omitempty" validate:"max=5000,dive" description:"your own record, in order of time; in a room that finished work lives in, one of 300 days and more stands for a year that repeats"`
	LogCSV   string            `json:"log_csv,omitempty" validate:"max=400000" description:"the same record as CSV, as loggers write it: a header such as time,temperature_c,rh_pct, the temperature in C or F as the header says; other columns are passed over"`
	HeatedTo *wire.Temperature `json:"heated_to,omitempty" validate:"omitempty,gte=263.15,lte=323.15" description:"with station or months: indoors, where outdoor air is warmed to this. Left out: outdoors under cover"`
	Vapour   *wire.Pressure    `json:"added_vapour,omitempty" validate:"omitempty,gte=0,lte=3000" description:"with heated_to: vapour that people and work add indoors while the windows are shut, usually 1 to 5 hPa; all of it counts when it freezes outdoors, none above 20 C. Left out: 3 hPa"`
}

// Outdoor says that it is a place of which the outdoor air is known for a year.
func (p *AirOfPlace) Outdoor() bool { return p.Station != "" || len(p.Months) > 0 }

// Room is the air that finished work lives in through the year.
type Room struct {
	AirOfPlace
	Seasons *Seasons `json:"seasons,omitempty" description:"the air of the room in winter and in summer, in place of the others; the rest of the year lies on a cosine between them"`
	MinRH   *float64 `json:"min_rh_pct,omitempty" validate:"omitempty,gte=0,lte=100" description:"with heated_to: a humidifier holds this. Left out: none runs"`
	MaxRH   *float64 `json:"max_rh_pct,omitempty" validate:"omitempty,gt=0,lte=100" description:"with heated_to: a drier or a cooler holds this. Left out: none runs"`
	Weekly  *float64 `json:"weekly_rh_swing_points,omitempty" validate:"omitempty,gte=0,lte=30" description:"the relative humidity also swings by so many points up and down within the week; for air without weather in it, not for a record. Left out: none"`
}

// placesOfAir are the members of which just one says what the air of a place is.
var placesOfAir = [][]string{{"station"}, {"months"}, {"air"}, {"log"}, {"log_csv"}}

// Joins says which members go together.
func (*Room) Joins() wire.Joined {
	heated := []string{"heated_to"}
	return wire.Joined{OneOf: append(placesOfAir, []string{"seasons"}),
		Needs:    map[string][]string{"station": heated, "months": heated, "added_vapour": heated, "min_rh_pct": heated, "max_rh_pct": heated},
		NeedsAny: map[string][]string{"heated_to": {"station", "months"}}}
}

// Joins says which members go together.
func (*Stay) Joins() wire.Joined {
	return wire.Joined{OneOf: placesOfAir, Needs: map[string][]string{"added_vapour": {"heated_to"}},
		NeedsAny: map[string][]string{"heated_to": {"station", "months"}}}
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
	Until    string `json:"until,omitempty" validate:"omitempty,datetime=2006-01-02" description:"first day in the next place; the last stay has none, it lasts to the end of the forecast"`
	Exposure string `json:"exposure,omitempty" validate:"omitempty,oneof=open_stack small_stack moving_air shed closed_room wrapped kiln dehumidifier solar_kiln" description:"how the air reaches the wood: open_stack is a wide pile of a yard, small_stack a package or a billet on its own, moving_air a fan that blows through the stack; the air itself is told beside it, that of a kiln, dehumidifier or solar kiln as air or as a record. Left out: open_stack outdoors, closed_room indoors"`
}
