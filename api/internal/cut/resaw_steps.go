package cut

import (
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/resaw/plan"
)

// stepsOf describes the cuts of a billet, with what becomes of every piece.
func stepsOf(b *plan.BilletPlan, is map[int]plan.Piece, report wire.Reporter) []PlanStep {
	out := make([]PlanStep, 0, len(b.Steps))
	wood := func(piece int) *PlanWood {
		if piece < 0 {
			return nil
		}
		return &PlanWood{piece, is[piece].Name()}
	}
	for i := range b.Steps {
		s := &b.Steps[i]
		one := PlanStep{Number: i + 1, Action: string(s.Action), Piece: s.Piece, Setting: report.Cut(s.At),
			Low: wood(s.Low), High: wood(s.High), Detail: stepInWords(s, is, report)}
		taken := report.Cut(s.Kerf)
		if s.Action == plan.FlattenBlank {
			one.Flat = &taken
		} else {
			one.Removed = &taken
		}
		out = append(out, one)
	}
	return out
}

// stepInWords writes a step for the bench.
func stepInWords(s *plan.Step, is map[int]plan.Piece, report wire.Reporter) string {
	at := s.At.Format(report.LengthUnit)
	piece := "piece " + strconv.Itoa(s.Piece)
	if s.Piece == 0 {
		piece = is[0].Name()
	}
	kept := ""
	for _, made := range []int{s.Low, s.High} {
		if made >= 0 {
			if kept != "" {
				kept += "; "
			}
			kept += "piece " + strconv.Itoa(made) + ": " + is[made].Name()
		}
	}
	if kept != "" {
		kept = " (" + kept + ")"
	}
	switch s.Action {
	case plan.Crosscut, plan.Trim:
		return string(s.Action) + " " + piece + ", kerf starts " + at + " from the start of the billet" + kept
	case plan.Rip:
		return "rip " + piece + ", kerf starts " + at + " from the near edge of the billet" + kept
	case plan.FlattenBlank:
		return "flatten " + piece + " to " + s.Kerf.Format(report.LengthUnit) + ", face 1 first, " + at + " deep" + kept
	case plan.Resaw:
		return "resaw " + piece + ", kerf starts " + at + " below the planed face 1" + kept
	default:
		return "plane " + s.Kerf.Format(report.LengthUnit) + " off " + piece + kept
	}
}
