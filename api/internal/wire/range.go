package wire

// Range is from where to where something lies, without a middle: no 90 % band.
type Range struct {
	Low  float64 `json:"low" required:"true" description:"the lower end"`
	High float64 `json:"high" required:"true" description:"the upper end"`
	Unit string  `json:"unit" required:"true" description:"unit of both"`
}
