package readiness

import (
	"context"
	"slices"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Moved is what becomes of a piece that is brought into the room it is built in, where it
// never comes near enough to its target where it lies.
type Moved struct {
	Wetter  bool              // than the target it stays where it lies; false: drier
	Nearest quantity.Moisture // it comes to there, in the middle forecast, from the day asked about on
	At      quantity.Duration // of the move: today, or later where it is too wet for a dry room
	Steps   []Step            // that it is never ready for where it lies
	Open    []Step            // that it is not ready for today: they come sooner in the room as well
	Dates   []ReadyDate       // of those that are open, in the room; none where its air or the day of the move is not known
}

// IndoorsFrom is the moisture content at which air-dried wood is brought indoors: wetter
// wood checks in dry air. Common practice, no source.
const IndoorsFrom = 20 * quantity.PercentMC

const (
	// mostlyNever is the probability of never from which a step is out of reach where it lies.
	// Own choice.
	mostlyNever = 0.5
	// movedMembers are enough for a date that is advice. Own choice.
	movedMembers = 64
)

// moved looks whether the piece lies where it never comes near enough, and what it would do
// in the room.
func (a *HistoryAnswer) moved(ctx context.Context, q *HistoryQuestion) error {
	m := &Moved{At: -1}
	for i := range a.Verdicts {
		step := a.Verdicts[i].Step
		if a.Verdicts[i].Outcome == Ready {
			continue
		}
		m.Open = append(m.Open, step)
		if !a.Dates[i].Median.Within && a.staysOff(m, q, LimitsOf(step, q.Billet.judged(), q.Limits)) {
			m.Steps = append(m.Steps, step)
		}
	}
	if m.Steps == nil {
		return nil
	}
	a.Moved = m
	if m.At < 0 || q.Build.RelativeHumidity == 0 {
		return nil
	}
	air, err := drying.Constant(q.Build.Temperature, q.Build.RelativeHumidity)
	if err != nil { // no air that wood is dried in; the advice stands without a date
		return nil //nolint:nilerr // as above
	}
	setup := q.Setup
	setup.Members, setup.Exact = movedMembers, []quantity.Duration{q.Today}
	setup.Phases = movedTo(setup.Phases, m.At, drying.Phase{Climate: air, Exposure: drying.ClosedRoom()})
	readings := slices.Clone(q.Observations)
	for _, one := range a.Impossible {
		readings[one.Index].Aside = true
	}
	p, err := Learn(ctx, setup, readings)
	switch {
	case codeOf(err) == method.TooMuchWork: // the answer itself took all of it
		return nil
	case err != nil:
		return err
	}
	target := setup.TargetIn(q.Target, q.Room)
	for _, step := range m.Open {
		date, err := p.ReadyDate(LimitsOf(step, q.Billet.judged(), q.Limits), target, q.Today, 0)
		if err != nil {
			return err
		}
		m.Dates = append(m.Dates, date)
	}
	return nil
}

// staysOff reports that the middle forecast stays off the target by more than the limits on
// one side from today on, and notes how near it comes.
func (a *HistoryAnswer) staysOff(m *Moved, q *HistoryQuestion, limits Limits) bool {
	target := q.Target.Value
	var driest, wettest quantity.Moisture
	seen := false
	for i, at := range a.Course.Times {
		if at < q.Today {
			continue
		}
		mc := a.Course.Mean[i].Value
		if !seen {
			driest, wettest, seen = mc, mc, true
		}
		driest, wettest = min(driest, mc), max(wettest, mc)
		if m.At < 0 && mc <= IndoorsFrom {
			m.At = at
		}
	}
	if a.Now.Mean.Value <= IndoorsFrom {
		m.At = q.Today
	}
	switch {
	case seen && driest > target+limits.Above:
		m.Wetter, m.Nearest = true, driest
	case seen && wettest < target-limits.Below:
		m.Wetter, m.Nearest = false, wettest
	default:
		return false
	}
	return true
}

// movedTo are the phases up to a time, and one to their end.
func movedTo(phases []drying.Phase, at quantity.Duration, room drying.Phase) []drying.Phase {
	var list []drying.Phase
	begin := quantity.Duration(0)
	for _, p := range phases {
		whole := p.Length
		if begin < at {
			p.Length = min(whole, at-begin)
			list = append(list, p)
		}
		begin += whole
	}
	room.Length = begin - at
	if room.Length > 0 {
		list = append(list, room)
	}
	return list
}
