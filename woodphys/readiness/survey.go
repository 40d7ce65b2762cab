package readiness

import (
	"cmp"
	"slices"

	"latewood/woodphys/quantity"
)

// Standing is what is known of one piece of many, as far as they are compared. Times are
// counted from today.
type Standing struct {
	Steps    []StepStanding // in the order of the work
	Sawn     bool           // it is a leaf: resawing lies behind it
	Read     bool           // a reading is worth taking
	ReadAt   quantity.Duration
	Rejected int // readings that the others rule out
}

// StepStanding is how far a piece is from one step.
type StepStanding struct {
	Step        Step
	Outcome     Outcome
	Probability float64           // that it is ready today, 0 to 1
	Dated       bool              // ReadyAt is known and lies within the forecast
	ReadyAt     quantity.Duration // half of the cases are earlier
}

// Place is a step of a piece, by their numbers.
type Place struct{ Piece, Step int }

// Survey is what a shop asks of all its pieces together.
type Survey struct {
	Now   []Place // the last step that each piece is ready for; the last step of the work first, then the surest
	Maybe []Place // the first step that each piece may be ready for today, which cannot be said without a reading; the likeliest first
	Next  []Place // the first step that each piece is not yet ready for and that has a date; the nearest first
	Read  []int   // pieces to read, the earliest first, and of those of one day the least sure
	Look  []int   // pieces with readings that contradict each other, those with most of them first
}

// SurveyOf returns what is ready now, what will be next, what to read and where to look, of
// many pieces. A piece that is ready for a step may not be ready for an earlier one (resawing
// asks nothing of rest, but a leaf at rest may be off its target): it stands under the last
// one it is ready for, and under the first later one that it waits for. A leaf is not asked
// about resawing.
//
// Accuracy: exact; it orders what was found out elsewhere.
//
// Source: common practice, no source: what is ready is worked first, and what is least sure
// is read first.
func SurveyOf(pieces []Standing) Survey {
	var s Survey
	for i := range pieces {
		piece := &pieces[i]
		last := -1
		for j := range piece.Steps {
			if piece.Steps[j].Outcome == Ready && !piece.behind(j) {
				last = j
			}
		}
		if last >= 0 {
			s.Now = append(s.Now, Place{i, last})
		}
		if j := piece.perhaps(last + 1); j >= 0 {
			s.Maybe = append(s.Maybe, Place{i, j})
		}
		for j := last + 1; j < len(piece.Steps); j++ {
			if piece.Steps[j].Dated && !piece.behind(j) {
				s.Next = append(s.Next, Place{i, j})
				break
			}
		}
		if piece.Read {
			s.Read = append(s.Read, i)
		}
		if piece.Rejected > 0 {
			s.Look = append(s.Look, i)
		}
	}
	s.order(pieces)
	return s
}

// order puts what comes first before the rest; what is alike stays in the order it came in.
func (s *Survey) order(pieces []Standing) {
	step := func(p Place) *StepStanding { return &pieces[p.Piece].Steps[p.Step] }
	slices.SortStableFunc(s.Now, func(a, b Place) int {
		return cmp.Or(cmp.Compare(b.Step, a.Step), cmp.Compare(step(b).Probability, step(a).Probability))
	})
	slices.SortStableFunc(s.Maybe, func(a, b Place) int { return cmp.Compare(step(b).Probability, step(a).Probability) })
	slices.SortStableFunc(s.Next, func(a, b Place) int { return cmp.Compare(step(a).ReadyAt, step(b).ReadyAt) })
	slices.SortStableFunc(s.Read, func(a, b int) int {
		return cmp.Or(cmp.Compare(pieces[a].ReadAt, pieces[b].ReadAt), cmp.Compare(pieces[b].unsure(), pieces[a].unsure()))
	})
	slices.SortStableFunc(s.Look, func(a, b int) int { return cmp.Compare(pieces[b].Rejected, pieces[a].Rejected) })
}

// mayBe is the probability from which a step that cannot be said may be ready. Own choice: that of
// the day of a date.
const mayBe = 0.5

// perhaps is the first step from one on that the piece may be ready for today; -1: none.
func (s *Standing) perhaps(from int) int {
	for j := from; j < len(s.Steps); j++ {
		if step := &s.Steps[j]; step.Outcome == CannotSay && !step.Dated && step.Probability >= mayBe && !s.behind(j) {
			return j
		}
	}
	return -1
}

// behind reports a step that a leaf has behind it.
func (s *Standing) behind(step int) bool { return s.Sawn && s.Steps[step].Step == Resaw }

// unsure is the variance of the least sure verdict, 0 to 1/4.
func (s *Standing) unsure() float64 {
	most := 0.0
	for i := range s.Steps {
		if s.behind(i) {
			continue
		}
		p := s.Steps[i].Probability
		most = max(most, p*(1-p))
	}
	return most
}
