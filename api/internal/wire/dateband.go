package wire

// DateBand is when something comes about, by how many of the cases it holds on a day. Outdoors
// it may hold in one season and no longer in the next.
type DateBand struct {
	Value      string   `json:"value,omitempty" format:"date" description:"first day on which half of the cases are there that very day. Left out, as is high: there is none within the forecast that would be kept, see undated"`
	Low        string   `json:"low,omitempty" format:"date" description:"first day on which 5 % of the cases are there that very day"`
	High       string   `json:"high,omitempty" format:"date" description:"first day on which 95 % are there of as many as ever are, and that is four fifths of all cases at least. Left out: on no day are so many, or more than 5 % are there on no day of the forecast"`
	ValueDays  *float64 `json:"value_days,omitempty" description:"days from the day on which the forecast begins to value: that of stacking, or as_of in the answer about the time to resaw"`
	LowDays    *float64 `json:"low_days,omitempty" description:"days to low"`
	HighDays   *float64 `json:"high_days,omitempty" description:"days to high"`
	NotReached float64  `json:"not_reached_probability" required:"true" description:"that it is on no day of the forecast, 0 to 1"`
	Kept       *float64 `json:"kept_probability,omitempty" description:"of a step of the work: that a piece which is ready on the day of value, or without one from likeliest_from on, still is four weeks later, or at the end of the forecast. Left out: it is not ready on any day, or it is no step that is asked for. Below 0.5 no date is given, unless it is ready on the day of the answer"`
	Undated    string   `json:"undated,omitempty" enum:"never,in_passing,not_known,later" description:"why there is no value. Never: less than a fifth of the cases are there on any day, or more than half on none; in_passing: cases are for a season, or on their way, and no longer after it; not_known: the level is known so badly that it may lie on either side; later: more and more are, and less than half at the end of the forecast"`
	From       string   `json:"likeliest_from,omitempty" format:"date" description:"without value: begin of the first time in which about as many cases are there as ever are"`
	Until      string   `json:"likeliest_until,omitempty" format:"date" description:"without value: end of that time"`
	Likeliest  *float64 `json:"likeliest_probability,omitempty" description:"without value: share of the cases that are there on its best day, 0 to 1"`
}
