package timing

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/wood"
)

// stillDries is by how much wood is wetter than its rest at least for its ends to dry ahead
// and check. Own choice.
const stillDries = 1 * quantity.PercentMC

// dangers are what may go wrong while a piece dries.
func (w *work) dangers(ctx context.Context, of body, way *Way, o *seasoning.Outlook) error {
	if w.q.Ends != "" {
		reach, err := drying.UsualCheckReach(w.q.Ends)
		if err != nil {
			return err
		}
		way.Reach = &reach
	}
	piece, err := w.laid(of, o.Setup.Thickness, 0, seasoning.Start{MC: o.Setup.StartMC, SD: o.Setup.StartSD})
	if err != nil {
		return err
	}
	risk, known, defects, err := o.Spoils(ctx, &piece)
	if err != nil {
		return err
	}
	if known {
		w.noted(of, 0, risk.Notes)
		way.Checks = &risk
		if risk.Severity != drying.RiskLow {
			way.Risks = append(way.Risks, Risk{Kind: RiskSurfaceChecks})
		}
	}
	for i := range defects {
		way.Risks = append(way.Risks, Risk{Kind: RiskDefect, Defect: &defects[i]})
	}
	return nil
}

// risks are those of the ways themselves.
func (w *work) risks(a *Answer) {
	now, whole := &a.SawNow.Risks, &a.DryWhole.Risks
	risk := func(of *[]Risk, kinds ...RiskKind) {
		for _, kind := range kinds {
			*of = append(*of, Risk{Kind: kind})
		}
	}
	if w.ready {
		risk(now, RiskSettle)
	} else {
		risk(now, RiskThinLeaves, RiskCommitted)
	}
	apart := math.Abs(a.Core.Value.Percent() - a.Shell.Value.Percent())
	if limit := w.limits(readiness.Resaw, w.q.Billet.Thickness).Gradient; limit > 0 && apart > limit.Percent() {
		*now = append(*now, Risk{Kind: RiskApart, Points: apart})
	}
	wet := w.now.Value >= seasoning.DriedBefore
	switch w.q.Wood.Ease {
	case wood.Refractory:
		if wet {
			risk(whole, RiskThickChecks)
			risk(now, RiskLeavesCheck)
		}
	case wood.Easy:
		risk(whole, RiskEasyWood)
	case wood.Moderate:
	default:
		risk(whole, RiskUnknownWood)
	}
	switch w.q.Prongs.Turn {
	case TurnNone:
		risk(whole, RiskStress)
	case TurnInward:
		risk(now, RiskCasehardened)
		risk(whole, RiskCasehardened)
	case TurnOutward:
		risk(now, RiskReversed)
		risk(whole, RiskReversed)
	case TurnStraight:
	}
	if w.q.Ends == "" && w.now.Value-w.q.Rest.Moisture.Value > stillDries {
		risk(now, RiskEnds)
		risk(whole, RiskEnds)
	}
}
