package timing

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/wood"
)

// RiskKind is what may go wrong on a way, all common practice, no source.
type RiskKind string

// Kinds of risk.
const (
	RiskSurfaceChecks RiskKind = "surface_checks" // moderate or high, as the checks of the way say
	RiskSettle        RiskKind = "settle"         // leaves of a billet that is ready need only settle
	RiskThinLeaves    RiskKind = "thin_leaves"    // thin leaves cup, twist and check on their own
	RiskCommitted     RiskKind = "committed"      // figure and defects are not known yet
	RiskApart         RiskKind = "apart"          // shell and core are: the cut pinches and leaves curl
	RiskThickChecks   RiskKind = "thick_checks"   // a refractory wood, thick
	RiskLeavesCheck   RiskKind = "leaves_check"   // a refractory wood, in leaves
	RiskEasyWood      RiskKind = "easy_wood"      // none to speak of
	RiskUnknownWood   RiskKind = "unknown_wood"   // nothing is known of how the wood takes drying
	RiskStress        RiskKind = "stress"         // a billet dried too fast springs when it is sawn
	RiskEnds          RiskKind = "ends"           // nothing was told of the ends
)

// Risk is one of them.
type Risk struct {
	Kind   RiskKind
	Points float64 // between shell and core, of RiskApart, %MC
}

// dangers are what may go wrong while a piece dries.
func (w *work) dangers(ctx context.Context, way *Way, o *seasoning.Outlook) error {
	if w.q.Ends != "" {
		reach, err := drying.UsualCheckReach(w.q.Ends)
		if err != nil {
			return err
		}
		way.Reach = &reach
	}
	risk, known, err := o.SurfaceChecks(ctx)
	if err != nil {
		return err
	}
	if known {
		w.notes.Merge(risk.Notes)
		way.Checks = &risk
		if risk.Severity != drying.RiskLow {
			way.risk(RiskSurfaceChecks)
		}
	}
	return nil
}

func (way *Way) risk(kinds ...RiskKind) {
	for _, kind := range kinds {
		way.Risks = append(way.Risks, Risk{Kind: kind})
	}
}

// risks are those of the ways themselves.
func (w *work) risks(a *Answer) {
	now, whole := &a.SawNow, &a.DryWhole
	if w.ready {
		now.risk(RiskSettle)
	} else {
		now.risk(RiskThinLeaves, RiskCommitted)
	}
	apart := math.Abs(a.Core.Percent() - a.Shell.Percent())
	if limit := w.limits(readiness.Resaw, w.q.Thickness).Gradient; limit > 0 && apart > limit.Percent() {
		now.Risks = append(now.Risks, Risk{Kind: RiskApart, Points: apart})
	}
	wet := w.now.Value >= seasoning.DriedBefore
	switch w.q.Wood.Ease {
	case wood.Refractory:
		if wet {
			whole.risk(RiskThickChecks)
			now.risk(RiskLeavesCheck)
		}
	case wood.Easy:
		whole.risk(RiskEasyWood)
	case wood.Moderate:
	default:
		whole.risk(RiskUnknownWood)
	}
	whole.risk(RiskStress)
	if w.q.Ends == "" {
		now.risk(RiskEnds)
		whole.risk(RiskEnds)
	}
}
