package shelf

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// OwnFactor is a drying factor the caller knows better than the tables.
type OwnFactor struct {
	Median *float64 `json:"median" validate:"required,gte=0.005,lte=20" description:"1 is the diffusion model as published"`
	Ratio  *float64 `json:"ratio,omitempty" validate:"omitempty,gte=1.01,lte=4.4" default:"1.4" description:"spread: one standard deviation is a factor of this, up or down"`
}

// FactorUsed is the drying factor of the wood and how it was come by.
type FactorUsed struct {
	Median float64 `json:"median" required:"true" description:"speed of drying relative to the diffusion model as published"`
	Low    float64 `json:"low" required:"true" description:"5 % of cases lie below"`
	High   float64 `json:"high" required:"true" description:"5 % of cases lie above"`
	How    string  `json:"how" required:"true"`
}

// DryingFactor is the caller's, or that of the wood, for the ring angle.
func DryingFactor(w *Wood, thickness quantity.Length, ringAngle *float64, own *OwnFactor, gravity float64, notes *method.Notes) (median, logSD float64, used FactorUsed, err error) {
	if own != nil {
		logSD = readiness.DefaultFactorLogSD
		if own.Ratio != nil {
			logSD = math.Log(*own.Ratio)
		}
		median = *own.Median
		used.How = "given by the caller"
	} else {
		group := ""
		if w.Row != nil {
			group = string(w.Row.Group)
		}
		f, err := drying.FactorFor(w.id, gravity, group)
		if err != nil {
			return 0, 0, used, err
		}
		if f, err = drying.ForThickness(f, thickness); err != nil {
			return 0, 0, used, err
		}
		median, logSD = f.Median, f.SpreadLog
		used.How = f.Note
		notes.Merge(f.Notes)
	}
	angle := 45 * quantity.Degree
	if ringAngle != nil {
		angle = quantity.Angle(*ringAngle) * quantity.Degree
	}
	median *= drying.DirectionFactor(float64(angle))
	used.Median, used.Low, used.High = median, median*math.Exp(-quantity.Z90*logSD), median*math.Exp(quantity.Z90*logSD)
	return median, logSD, used, nil
}
