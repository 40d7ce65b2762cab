package dry

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// runKiln is the air of a stay in a kiln, and what it is called.
func (s *storage) runKiln(stay *shelf.Stay, run kilns, exposure drying.Exposure) (*drying.Climate, place, error) {
	k, err := run(s.phases, stay, exposure)
	if err != nil {
		return nil, place{}, err
	}
	s.kilns = append(s.kilns, *k)
	return k.Air, place{kiln: k.Steps}, nil
}

// unknownLength stands for a phase that ends by moisture content where the wood is wrong.
const unknownLength = 10 * quantity.Day

// schedules lays schedules out for the piece.
func (p *piece) schedules(ctx context.Context, piece *seasoning.Piece, notes *method.Notes) kilns {
	return func(before []drying.Phase, stay *shelf.Stay, exposure drying.Exposure) (*seasoning.Kiln, error) {
		steps, err := p.steps(stay, notes)
		if err != nil {
			return nil, err
		}
		_, unknown := piece.Setup()
		for i := range steps {
			if steps[i].Length > 0 {
				continue
			}
			if unknown != nil {
				steps[i].Length = unknownLength // what is wrong is told with the piece
				continue
			}
			notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.slab", Input: "phases/" + strconv.Itoa(i) + "/until_mc_pct",
				Detail: "how long the phase takes is that of the middle forecast; a kiln is run by its own sample boards"})
		}
		return piece.Run(ctx, before, steps, exposure)
	}
}

// steps are the phases of a schedule in SI, all that is wrong at once.
func (p *piece) steps(stay *shelf.Stay, notes *method.Notes) ([]seasoning.Step, error) {
	steps := make([]seasoning.Step, len(stay.Phases))
	var wrong []error
	for i := range stay.Phases {
		phase, place := &stay.Phases[i], "phases/"+strconv.Itoa(i)
		step := &steps[i]
		step.Kind = seasoning.DryingStep
		if phase.Kind != "" {
			step.Kind = seasoning.StepKind(phase.Kind)
		}
		wrong = append(wrong, wire.Under(place, lengthOf(phase, step)))
		told := len(notes.Warnings)
		noAir := p.airOf(phase, step, notes)
		notes.Place(told, place)
		wrong = append(wrong, wire.Under(place, noAir))
	}
	return steps, errors.Join(wrong...)
}

// lengthOf reads how long a phase is run.
func lengthOf(phase *shelf.KilnPhase, step *seasoning.Step) error {
	switch {
	case phase.Days != nil && phase.UntilPct != nil:
		return wire.Contradictory("until_mc_pct", "give days or until_mc_pct, not both")
	case phase.Days != nil:
		step.Length = quantity.Duration(*phase.Days) * quantity.Day
	case phase.UntilPct == nil:
		return wire.Missing("days", "a phase needs days, or until_mc_pct")
	case step.Kind == seasoning.Conditioning:
		return wire.Contradictory("until_mc_pct", "conditioning does not dry the wood: give days")
	default:
		step.Until = wire.FromPercent(*phase.UntilPct)
	}
	return nil
}

// airOf reads the air of a phase.
func (p *piece) airOf(phase *shelf.KilnPhase, step *seasoning.Step, notes *method.Notes) error {
	switch {
	case phase.Air != nil && (phase.Temperature != nil || phase.EMC != nil):
		return wire.Contradictory("air", "give air, or temperature with emc_pct, not both")
	case phase.Air != nil:
		state, err := phase.Air.StateInKiln("air", notes)
		if err != nil {
			return err
		}
		step.Temperature, step.RH = state.DryBulb, state.RelativeHumidity
		_, err = drying.Constant(step.Temperature, step.RH)
		return wire.Under("air", err)
	case phase.Temperature == nil && phase.EMC == nil:
		return wire.Missing("air", "a phase needs air, or temperature with emc_pct")
	case phase.Temperature == nil:
		return wire.Missing("temperature", "emc_pct goes with temperature")
	case phase.EMC == nil:
		return wire.Missing("emc_pct", "temperature goes with emc_pct")
	}
	curves := sorption.Curves{}
	if p.wood != nil {
		curves = p.wood.Sorption()
	}
	isotherm := curves.At(phase.Temperature.SI, sorption.Middle)
	step.Temperature, step.RH = phase.Temperature.SI, min(isotherm.Inverse(wire.FromPercent(*phase.EMC)), 1)
	return nil
}

// CaseStress is the stress that the last schedule leaves in the wood.
type CaseStress struct {
	State       string        `json:"state" required:"true" enum:"none,likely,partly,relieved,reversed" description:"of the skin at the end of the last schedule. likely: it is set, and leaves resawn from it cup though their moisture is even; partly: conditioning began to take it out; relieved: it did; reversed: it went on too long. By the middle forecast and rules of the trade"`
	Date        string        `json:"date" required:"true" format:"date" description:"when the schedule ends"`
	Hours       float64       `json:"conditioning_hours" required:"true" resolution:"0.1" description:"that conditioning takes for this wood and thickness"`
	Temperature wire.Quantity `json:"min_temperature" required:"true" description:"of conditioning"`
	EMC         float64       `json:"emc_pct" required:"true" description:"what its air keeps the wood at, at least"`
	Advice      []string      `json:"advice" required:"true" nullable:"false" description:"what to do, one thing in each sentence"`
}

// stress shows what the last schedule leaves.
func (s *storage) stress(c *seasoning.CaseStress, report wire.Reporter) *CaseStress {
	if c == nil {
		return nil
	}
	out := &CaseStress{State: string(c.State), Date: s.date(c.At), Hours: c.Hours, Temperature: report.Temperature(c.Temperature),
		EMC: c.EMC.Percent(), Advice: []string{}}
	condition := "condition it: about " + quantity.FormatNumber(c.Hours, 0) + " hours at " + report.SaidTemperature(c.Temperature) +
		" or hotter, in air that keeps the wood at " + quantity.FormatNumber(c.EMC.Percent(), 0) + " %"
	const test = "cut a prong test before it is resawn, and look again a day later"
	switch c.State {
	case seasoning.CaseLikely:
		out.Advice = append(out.Advice, condition, test)
	case seasoning.CasePartly:
		out.Advice = append(out.Advice, "the conditioning was too short, too cool or too dry; "+condition, test)
	case seasoning.CaseReversed:
		out.Advice = append(out.Advice, "the conditioning went on too long: prongs that bend outward tell of it, and hot dry air for some hours takes it back", test)
	case seasoning.CaseRelieved:
		out.Advice = append(out.Advice, test)
	case seasoning.CaseFree:
	}
	return out
}
