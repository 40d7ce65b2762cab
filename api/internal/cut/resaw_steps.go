package cut

import (
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/resaw/plan"
)

// steps describes the steps of a billet, with what becomes of every piece.
func (a *answering) steps(b *plan.BilletPlan, is map[int]plan.Piece) []PlanStep {
	out := make([]PlanStep, 0, len(b.Steps))
	for i := range b.Steps {
		s := &b.Steps[i]
		one := PlanStep{Number: i + 1, Action: string(s.Action), Piece: s.Piece, Name: is[s.Piece].Name(),
			Against: string(s.Against), Setting: a.length(s.SetTo(is, a.step())), Low: a.wood(b, is, s.Low), High: a.wood(b, is, s.High),
			Detail: a.stepInWords(s, is)}
		taken := a.length(s.Kerf)
		if s.Action == plan.FlattenBlank {
			one.Flat, one.FarFlat, one.Setting = &taken, a.optional(s.Far), a.length(s.At)
		} else {
			at := a.length(s.At)
			one.Removed, one.Position, one.FarSetting = &taken, &at, a.optional(s.Far)
		}
		out = append(out, one)
	}
	return out
}

// wood is a piece that a step makes; nil where it makes none.
func (a *answering) wood(b *plan.BilletPlan, is map[int]plan.Piece, piece int) *PlanWood {
	if piece < 0 {
		return nil
	}
	out := &PlanWood{Piece: piece, Name: is[piece].Name()}
	if a.long() {
		return out
	}
	at := &b.Places[piece]
	long, wide := at.X1-at.X0, at.Y1-at.Y0
	out.Length, out.Width = a.optional(&long), a.optional(&wide)
	if at.Z0 != nil && at.Z1 != nil {
		thick := *at.Z1 - *at.Z0
		out.Thickness = a.optional(&thick)
	}
	return out
}

// mostTold bounds the steps of a plan whose settings and sizes of pieces are told as well:
// the answer to a larger one would be too long.
const mostTold = 1500

// long reports whether the plan has more steps than that.
func (a *answering) long() bool {
	steps := 0
	for j := range a.told.Billets {
		steps += len(a.told.Billets[j].Steps)
	}
	return steps > mostTold
}

// settingsOf are those of the i-th billet.
func (a *answering) settingsOf(i int) []PlanSetting {
	if a.long() {
		return nil
	}
	return a.settings(&a.told.Billets[i], a.told.Cut[i].Settings, a.told.Cut[i].Pieces)
}

// settings are the steps of a billet with those joined that need no new setting.
func (a *answering) settings(b *plan.BilletPlan, all []plan.Setting, is map[int]plan.Piece) []PlanSetting {
	out := make([]PlanSetting, 0, len(all))
	for _, g := range all {
		one := PlanSetting{First: g.First + 1, Last: g.Last + 1, Times: g.Times,
			Detail: a.stepInWords(&b.Steps[g.First], is)}
		if g.Times > 1 {
			var made []string
			for _, n := range g.Makes {
				made = append(made, is[n].Name())
			}
			one.Detail = a.setInWords(&b.Steps[g.First], is) + ", " + wire.CountOf(g.Times, "time") + ": " +
				strings.Join(made, ", ")
			if left := is[b.Steps[g.Last].Left()]; left.Is == plan.ALeaf {
				one.Detail += "; " + left.Name() + " is left"
			}
		}
		out = append(out, one)
	}
	return out
}

// edgeNames are what lies against the fence or the stop, in words.
var edgeNames = map[plan.Edge]string{plan.Start: "its start against the stop", plan.End: "its end against the stop",
	plan.NearEdge: "its near edge against the fence", plan.FarEdge: "its far edge against the fence",
	plan.Face1: "the face nearest face 1 against the fence"}

// setInWords says what is done to a piece, and how fence or stop are set.
func (a *answering) setInWords(s *plan.Step, is map[int]plan.Piece) string {
	say := a.report.SaidExact
	set := func() string { return say(s.SetTo(is, a.step())) }
	piece := "piece " + strconv.Itoa(s.Piece)
	if name := is[s.Piece]; name.Is != plan.ToBeCut && name.Is != plan.AnOffcut {
		piece = name.Name()
	}
	switch s.Action {
	case plan.FlattenBlank:
		if s.Far != nil {
			return "plane " + piece + " on both faces as it tapers, to " + say(s.Kerf) + " at its near edge and " +
				say(*s.Far) + " at its far edge, face 1 first, " + say(s.At) + " deep"
		}
		return "flatten " + piece + " to " + say(s.Kerf) + ", face 1 first, " + say(s.At) + " deep"
	case plan.Plane:
		return "plane " + say(s.Kerf) + " off the sawn side of " + piece
	case plan.Reface:
		return "plane the sawn face of " + piece + ", " + say(s.Kerf) + " deep"
	case plan.Trim:
		return "crosscut " + piece + ", " + edgeNames[s.Against] + ", set to " + set()
	case plan.Resaw:
		if s.Far != nil {
			return "resaw " + piece + " along the middle of both edges, on a line from " + say(s.Fence) +
				" below face 1 at its near edge to " + say(*s.Far) + " at its far edge"
		}
	case plan.Crosscut, plan.Rip:
	}
	action := string(s.Action)
	if s.Action == plan.Resaw && is[s.Low].Is == plan.ToBeCut { // what is left is flattened yet
		action = "saw the taper off"
	}
	return action + " " + piece + ", " + edgeNames[s.Against] + ", set to " + set()
}

// stepInWords writes a step for the bench.
func (a *answering) stepInWords(s *plan.Step, is map[int]plan.Piece) string {
	var kept []string
	for _, made := range []int{s.Low, s.High} {
		if made < 0 {
			continue
		}
		one := is[made].Name()
		if is[made].Is == plan.ToBeCut || is[made].Is == plan.AnOffcut {
			one = "piece " + strconv.Itoa(made) + ", " + one
		}
		kept = append(kept, one)
	}
	text := a.setInWords(s, is)
	if len(kept) > 0 {
		text += " (" + strings.Join(kept, "; ") + ")"
	}
	return text
}
