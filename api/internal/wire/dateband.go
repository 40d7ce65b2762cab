package wire

// DateBand is when something comes about, with the ends of its 90 % band. A date beyond
// the forecast is left out.
type DateBand struct {
	Value      string   `json:"value,omitempty" format:"date" description:"half of the cases are earlier. Left out, as are low and high: not within the forecast"`
	Low        string   `json:"low,omitempty" format:"date" description:"5 % of cases are earlier"`
	High       string   `json:"high,omitempty" format:"date" description:"95 % of cases are earlier"`
	ValueDays  *float64 `json:"value_days,omitempty" description:"days from the day on which the forecast begins to value: that of stacking, or as_of in the answer about the time to resaw"`
	LowDays    *float64 `json:"low_days,omitempty" description:"days to low"`
	HighDays   *float64 `json:"high_days,omitempty" description:"days to high"`
	NotReached float64  `json:"not_reached_probability" required:"true" description:"that it does not come about within the forecast, 0 to 1"`
}
