package shelf

import (
	"fmt"
	"math"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// OwnFactor is a drying factor the caller knows better than the tables.
type OwnFactor struct {
	Value *float64 `json:"value" validate:"required,gte=0.005,lte=20" description:"1 is the diffusion model as published"`
	Ratio *float64 `json:"sd_ratio,omitempty" validate:"omitempty,gte=1.01,lte=4.4" default:"1.4" description:"spread: one standard deviation is a factor of this, up or down"`
}

// FactorUsed is the drying factor of the wood and how it was come by.
type FactorUsed struct {
	Value  float64 `json:"value" required:"true" description:"speed of drying relative to the diffusion model as published: half of the cases are slower"`
	Low    float64 `json:"low" required:"true" description:"5 % of cases lie below"`
	High   float64 `json:"high" required:"true" description:"5 % of cases lie above"`
	Unit   string  `json:"unit" required:"true" enum:"1" description:"of all three: a ratio"`
	Detail string  `json:"detail" required:"true" description:"how it was come by"`
}

// Given is the factor as the chapters take it; the zero one where none is given.
func (own *OwnFactor) Given() drying.Factor {
	if own == nil {
		return drying.Factor{}
	}
	f := drying.Factor{Median: *own.Value, SpreadLog: drying.UsualSpreadLog}
	if own.Ratio != nil {
		f.SpreadLog = math.Log(*own.Ratio)
	}
	return f
}

// DescribePace shows a wet-stage pace.
func DescribePace(p *drying.WetPace, report wire.Reporter) FactorUsed {
	b := p.Band()
	return FactorUsed{Value: b.Value, Low: b.Low, High: b.High, Unit: wire.UnitRatio, Detail: paceFrom(p, report)}
}

// DescribeFactor shows a drying factor.
func DescribeFactor(f *drying.Factor) FactorUsed {
	b := f.Band()
	return FactorUsed{Value: b.Value, Low: b.Low, High: b.High, Unit: wire.UnitRatio, Detail: howOf(f)}
}

// howOf says how a drying factor was come by.
func howOf(f *drying.Factor) string {
	if f.How == drying.Given {
		return "given by the caller"
	}
	return "below fibre saturation, of woods of its group, for the thickness and the rings"
}

// paceFrom says how a wet-stage pace was come by.
func paceFrom(w *drying.WetPace, report wire.Reporter) string {
	switch w.How {
	case drying.Given:
		return "given by the caller"
	case drying.Regressed:
		kind := "broadleaved woods"
		if w.Conifers {
			kind = "conifers"
		}
		return fmt.Sprintf("the middle of the %d %s of which air-drying times are at hand; there are none of this wood, and woods of "+
			"one genus are no more alike in this than others", w.Of, kind)
	case drying.Fitted, drying.Grouped:
	}
	p := &w.Pace
	support := ""
	if p.Recalled {
		support = "recalled, without a place; "
	}
	how := fmt.Sprintf("in a wide pile, fitted to %g-%g days to 20 %%MC for %s boards (%staken at %s)",
		p.Fastest.Days(), p.Slowest.Days(), report.Roughly(drying.FittedThickness), support, p.Place)
	if p.Note != "" {
		how += "; " + p.Note
	}
	if p.Row != "" {
		how += "; row " + p.Row + " of the table"
	}
	return how
}

// dries sets what the tables know of the drying of a wood.
func dries(value *wood.Wood, row *species.Wood) {
	value.Listing, value.Ease = wood.Listing(row.Group), wood.Ease(row.Drying.Class)
	green := row.BestGreen()
	value.Green = wire.FromPercent(green.Or(0))
	if spread, known := green.Spread.Get(); known {
		value.GreenSD, value.GreenHow = wire.FromPercent(spread/quantity.Z90), green.Note
	}
	value.SafeDailyLoss = wire.FromPercent(row.SafeLoss.Or(0))
	p := &row.DryingFactor
	if factor, known := p.Factor.Get(); known {
		value.Pace = wood.Pace{
			Factor: factor, Misfit: p.Misfit, Place: p.Place, Row: p.Row, Note: p.Factor.Note,
			Fastest:  quantity.Duration(p.MinDays) * quantity.Day,
			Slowest:  quantity.Duration(p.MaxDays) * quantity.Day,
			Recalled: !p.SpanChecked.SeenInPrint(),
		}
	}
}
