package readiness_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// A shop of four pieces: one ready to be glued, one to be resawn, one that will never be
// ready where it lies, and one of which two readings contradict each other.
func TestSurveyOfAShop(t *testing.T) {
	ready := func(p float64) readiness.StepStanding {
		return readiness.StepStanding{Outcome: readiness.Ready, Probability: p}
	}
	waits := func(days float64, p float64) readiness.StepStanding {
		return readiness.StepStanding{Outcome: readiness.NotReady, Probability: p, Dated: days > 0, ReadyAt: quantity.Duration(days) * quantity.Day}
	}
	day := quantity.Day
	s := readiness.SurveyOf([]readiness.Standing{
		{Steps: []readiness.StepStanding{ready(0.9), waits(80, 0.1), waits(200, 0)}, Read: true, ReadAt: 14 * day},
		{Steps: []readiness.StepStanding{ready(1), ready(0.9), ready(0.85)}},
		{Steps: []readiness.StepStanding{waits(0, 0), waits(0, 0), waits(0, 0)}, Read: true, ReadAt: 30 * day},
		{Steps: []readiness.StepStanding{waits(20, 0.5), waits(90, 0.1), waits(0, 0)}, Read: true, ReadAt: 14 * day, Rejected: 2},
		{}, // nothing could be answered
	})
	assert.Equal(t, []readiness.Place{{Piece: 1, Step: 2}, {Piece: 0, Step: 0}}, s.Now)
	assert.Equal(t, []readiness.Place{{Piece: 3, Step: 0}, {Piece: 0, Step: 1}}, s.Next)
	assert.Equal(t, []int{3, 0, 2}, s.Read, "of one day the less sure one first")
	assert.Equal(t, []int{3}, s.Look)
}

// What is ready in one season may wait for an earlier step: it stands where it is ready.
func TestSurveyStandsAtTheLastStep(t *testing.T) {
	s := readiness.SurveyOf([]readiness.Standing{{Steps: []readiness.StepStanding{
		{Outcome: readiness.CannotSay, Probability: 0.5, Dated: true, ReadyAt: quantity.Day},
		{Outcome: readiness.Ready, Probability: 0.8},
		{Outcome: readiness.CannotSay, Probability: 0.4},
	}}})
	assert.Equal(t, []readiness.Place{{Piece: 0, Step: 1}}, s.Now)
	assert.Empty(t, s.Next, "the step after it has no date")
}

// A leaf has been resawn: only what comes after is asked of it.
func TestSurveyOfALeaf(t *testing.T) {
	s := readiness.SurveyOf([]readiness.Standing{{Sawn: true, Steps: []readiness.StepStanding{
		{Step: readiness.Resaw, Outcome: readiness.Ready, Probability: 0.9},
		{Step: readiness.Thickness, Outcome: readiness.NotReady, Dated: true, ReadyAt: 9 * quantity.Day},
	}}})
	assert.Empty(t, s.Now)
	assert.Equal(t, []readiness.Place{{Piece: 0, Step: 1}}, s.Next)
}

// What may be ready today stands apart from what gets ready later, and hides no real date.
func TestWhatMayBeReadyStandsApart(t *testing.T) {
	open := readiness.StepStanding{Step: readiness.Resaw, Outcome: readiness.CannotSay, Probability: 0.7}
	later := readiness.StepStanding{Step: readiness.Thickness, Outcome: readiness.NotReady, Dated: true, ReadyAt: 100 * quantity.Day}
	unlikely, sooner := open, later
	unlikely.Probability, sooner.ReadyAt = 0.3, 50*quantity.Day
	s := readiness.SurveyOf([]readiness.Standing{{Steps: []readiness.StepStanding{open, later}},
		{Steps: []readiness.StepStanding{unlikely, sooner}}, {Steps: []readiness.StepStanding{open}, Sawn: true}})
	assert.Equal(t, []readiness.Place{{Piece: 0, Step: 0}}, s.Maybe)
	assert.Equal(t, []readiness.Place{{Piece: 1, Step: 1}, {Piece: 0, Step: 1}}, s.Next)
}
