package plan

// Setting is steps that follow each other with fence or stop set alike: the cuts by which
// leaves of one thickness come off a blank, with the refacing between them, or one step.
type Setting struct {
	First, Last int   // indices of its first and last step
	Times       int   // cuts with this setting
	Makes       []int // pieces that come off, in turn
}

// Settings returns the steps of a billet with those joined that need no new setting.
//
// Accuracy: exact. Source: derived from the steps of the plan.
func (b *BilletPlan) Settings() []Setting {
	var out []Setting
	inHand := -1
	for i := range b.Steps {
		s := &b.Steps[i]
		last := len(out) - 1
		switch {
		case s.Action == Reface && last >= 0 && s.Piece == inHand:
			out[last].Last = i
			inHand = s.High
			continue
		case last >= 0 && s.Piece == inHand && b.sawnAlike(out[last].First, i):
			out[last].Last, out[last].Times = i, out[last].Times+1
			out[last].Makes = append(out[last].Makes, s.comesOff())
			inHand = s.Left()
			continue
		}
		one := Setting{First: i, Last: i, Times: 1}
		for _, n := range []int{s.Low, s.High} {
			if n >= 0 && (!s.Action.repeats() || n == s.comesOff()) {
				one.Makes = append(one.Makes, n)
			}
		}
		out, inHand = append(out, one), -1
		if s.Action.repeats() {
			inHand = s.Left()
		}
	}
	return out
}

// repeats reports whether a cut may follow another with the fence set alike.
func (a Action) repeats() bool { return a == Resaw || a == Rip || a == Crosscut }

// comesOff is the piece between the fence and the kerf.
func (s *Step) comesOff() int {
	if s.Against == End || s.Against == FarEdge {
		return s.High
	}
	return s.Low
}

// Left returns the piece beyond the kerf, or what planing leaves; -1 for none.
//
// Accuracy: exact. Source: derived from the step.
func (s *Step) Left() int {
	if s.Against == End || s.Against == FarEdge {
		return s.Low
	}
	return s.High
}

// sawnAlike reports whether two steps are cuts of one kind with one setting of the fence.
func (b *BilletPlan) sawnAlike(i, j int) bool {
	x, y := &b.Steps[i], &b.Steps[j]
	return x.Action.repeats() && x.Action == y.Action && x.Against == y.Against && x.Far == nil && y.Far == nil && samePlace(x.Fence, y.Fence)
}
