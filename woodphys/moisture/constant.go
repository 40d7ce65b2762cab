package moisture

import (
	"fmt"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

const (
	// smallStockRate: loss under 0.1 % of mass per day for small stock
	// (D4933 conditioning: two weighings 24 h apart within 0.1-0.2 %, from memory).
	smallStockRate = 0.001
	// settleSpan: no trend over two weeks larger than the seasonal EMC swing.
	settleSpan = 14 * quantity.Day
)

var constantRow = method.Method{
	ID: "mc.constant-weight", Chapter: "moisture",
	Summary:  "Whether a piece has come to constant weight outside the oven",
	Equation: "small stock: |rate| < 0.1 % of mass per day; large: |rate| * 14 days < seasonal EMC swing",
	Inputs: []method.Input{
		{Name: "swing_pct", Unit: "%MC", Fitted: method.Range{Low: 0.5, High: 10}, Limit: method.Range{Low: 0.1, High: 20}},
	},
	Accuracy: "constant or not only when the whole 90 % band of the rate is on one side of the limit",
	Source:   "ASTM D4933 (small stock); two-week rule, common practice",
	Checked:  method.Memory,
}

// Rest is the verdict on constant weight.
type Rest string

// Verdicts on constant weight.
const (
	Constant   Rest = "constant"
	Drying     Rest = "drying"
	Gaining    Rest = "gaining"
	CannotTell Rest = "cannot_tell" // the weights are too few or too coarse
)

// Verdict says whether a piece has come to rest and by what limit.
type Verdict struct {
	Rest   Rest
	Limit  float64 // share of mass per day, or fraction MC per day for large stock
	Detail string
	Notes  method.Notes
}

// ConstantSmall returns whether small stock (leaves, thin parts) is at constant
// weight: it changes by less than 0.1 % of its mass per day. Constant weight
// proves equilibrium with the room it lies in, not the right moisture content.
//
// Errors: none; the trend was checked when it was made.
// Accuracy: three-valued by the 90 % band of the rate.
// Source: ASTM D4933 conditioning (from memory).
func ConstantSmall(t Trend) Verdict {
	v := Verdict{Limit: smallStockRate}
	v.Notes.Merge(t.Notes)
	v.Notes.Rest(&constantRow)
	v.judge(t.MassPerDay, "0.1 % of its mass per day")
	return v
}

// ConstantLarge returns whether thick stock is at constant weight: over two
// weeks it would move by less than swing (0.001 to 0.2), the seasonal swing of
// the equilibrium moisture content where it lies. The weights must span two
// weeks and the trend know the ovendry mass.
//
// Errors: out_of_range for swing_pct; missing (weights) for a span under 14
// days; missing (ovendry_mass) for a trend without it.
// Accuracy: three-valued by the 90 % band of the rate.
// Source: common practice, no source.
func ConstantLarge(t Trend, swing quantity.Moisture) (Verdict, error) {
	var v Verdict
	v.Notes.Merge(t.Notes)
	if err := v.Notes.Use(&constantRow, "swing_pct", swing.Percent()); err != nil {
		return Verdict{}, err
	}
	if !t.MCKnown {
		return Verdict{}, &method.Error{Code: method.Missing, Input: "ovendry_mass", Detail: "the ovendry mass is needed to compare the rate with a swing in moisture content"}
	}
	if t.Span < settleSpan {
		return Verdict{}, &method.Error{Code: method.Missing, Input: "weights", Limit: "at least 14 days", Detail: fmt.Sprintf("the weights span %.1f days; thick stock needs at least 14", t.Span.Days())}
	}
	v.Limit = float64(swing) / settleSpan.Days()
	v.judge(quantity.Band[float64]{Value: float64(t.MCPerDay.Value), Low: float64(t.MCPerDay.Low), High: float64(t.MCPerDay.High)},
		fmt.Sprintf("%.1f %%MC in two weeks", swing.Percent()))
	return v, nil
}

func (v *Verdict) judge(rate quantity.Band[float64], limit string) {
	switch {
	case rate.Low >= -v.Limit && rate.High <= v.Limit:
		v.Rest, v.Detail = Constant, "constant weight: any trend is smaller than "+limit+"; it is in balance with this room, whatever that is"
	case rate.High < -v.Limit:
		v.Rest, v.Detail = Drying, "still drying by more than "+limit
	case rate.Low > v.Limit:
		v.Rest, v.Detail = Gaining, "gaining weight by more than "+limit
	default:
		v.Rest, v.Detail = CannotTell, "the weights do not yet tell whether it changes by more than "+limit+"; weigh longer or on a finer scale"
	}
}
