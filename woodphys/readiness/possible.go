package readiness

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

var possibleRow = method.Method{
	ID: "readiness.possible-mass", Chapter: "readiness",
	Summary:  "Between what masses a piece of a size and a wood must lie, whatever it holds",
	Equation: "least: V G (1 - 3 c) rho_w, ovendry at the least density; most: V/(1 - S) (1 + G (1 + 3 c)(1 - 1/1.54)) rho_w, every void full; c the spread of G between pieces, V with 5 % either way",
	Inputs: []method.Input{
		{Name: "volume", Unit: "cm3", Fitted: method.Range{Low: 10, High: 1e7}, Limit: method.Range{Low: 1e-4, High: 1e12}},
	},
	Accuracy: "three standard deviations of the density of a wood; what lies between may still be wrong",
	Source:   "Wood Handbook FPL-GTR-282 eq. 4-3 for the most a wood can hold; the margins are this project's own choice",
	Checked:  method.Derived,
}

// Possible is between what a piece weighs, whatever it holds.
type Possible struct{ Least, Most quantity.Mass }

const (
	gravitySpreads = 3.0  // standard deviations of the density
	lightestShare  = 0.3  // of the usual density, at least
	sizeOff        = 0.05 // of a volume from a tape
)

// PossibleMass returns between what a piece weighs that has a volume (0.1 mm3 to 1000 m3) in
// the state it was measured in: ovendry at the least density of its wood, and with every void
// full of water, swollen.
//
// Errors: *method.Error with input "volume"; missing_data for "specific_gravity" that is not
// known.
// Accuracy: see the row.
//
// Source: row readiness.possible-mass.
func PossibleMass(volume quantity.Volume, w *wood.Wood, notes *method.Notes) (Possible, error) {
	if err := notes.Use(&possibleRow, "volume", float64(volume)*1e6); err != nil {
		return Possible{}, err
	}
	if !w.SpecificGravity.Known {
		return Possible{}, &method.Error{Code: method.MissingData, Input: "specific_gravity", Detail: "the specific gravity of the wood is not known"}
	}
	const water = 1000 // kg/m3
	gravity, spread := w.SpecificGravity.Value, gravitySpreads*w.SpecificGravity.Varied(ovendrySpread)
	shrinkage := w.Volumetric.Value
	if !w.Volumetric.Known {
		shrinkage = wood.VolumetricOf(gravity)
	}
	heavy := gravity * (1 + spread)
	return Possible{
		Least: quantity.Mass(float64(volume) * (1 - sizeOff) * gravity * max(1-spread, lightestShare) * water),
		Most:  quantity.Mass(float64(volume) * (1 + sizeOff) / (1 - shrinkage) * heavy * (1 + float64(wood.MostMoisture(heavy))) * water),
	}, nil
}

// holds reports a mass that the piece can have.
func (p *Possible) holds(m quantity.Mass) bool { return m >= p.Least && m <= p.Most }

// refused is the error of a weight that the piece cannot have, in the unit it was written in.
func (p *Possible) refused(input string, m quantity.Mass, unit string) error {
	least, _ := p.Least.AtLeast(unit)
	most, of := p.Most.AtMost(unit)
	e := &method.Error{Code: method.Contradictory, Input: input, Limit: method.Between(least, most, of)}
	said, amount := "more than a piece of this size and wood weighs with every void full of water", most
	if m < p.Least {
		said, amount = "less than a piece of this size and wood weighs without any water", least
	}
	e.Detail = fmt.Sprintf("%s is %s, %s %s; check the weight and its unit, the sizes and the wood", m.Format(unit), said, quantity.FormatNumber(amount, 9), of)
	return e
}

// Scaled is a weight of a piece as it was written.
type Scaled struct {
	Index int // of what it stands in
	Mass  quantity.Mass
	Unit  string // empty: kg
}

// Impossible is a weight that the piece cannot have.
type Impossible struct {
	Index int // as in Scaled
	Given quantity.Mass
	Can   Possible
}

// ImpossibleOf returns those of the weights of a piece of a volume (as in PossibleMass) that it
// cannot have: a slip of the pen, which the others are not to suffer from.
//
// Errors: those of PossibleMass; contradictory for "weights/<n>/mass" of each, by its index, where
// no other is left: then it may be the sizes or the wood that are wrong.
// Accuracy: see the row.
//
// Source: row readiness.possible-mass.
func ImpossibleOf(weights []Scaled, volume quantity.Volume, w *wood.Wood, notes *method.Notes) ([]Impossible, error) {
	if len(weights) == 0 {
		return nil, nil
	}
	can, err := PossibleMass(volume, w, notes)
	if err != nil {
		return nil, err
	}
	var out []Impossible
	var refused []error
	for _, one := range weights {
		if !can.holds(one.Mass) {
			out = append(out, Impossible{Index: one.Index, Given: one.Mass, Can: can})
			refused = append(refused, can.refused(fmt.Sprintf("weights/%d/mass", one.Index), one.Mass, one.Unit))
		}
	}
	if len(out) == len(weights) {
		return nil, errors.Join(refused...)
	}
	return out, nil
}

// impossible are the weights of the piece that it cannot have.
func (q *HistoryQuestion) impossible(notes *method.Notes) ([]Impossible, error) {
	if q.Volume == 0 {
		return nil, nil
	}
	var weights []Scaled
	for i := range q.Observations {
		if o := &q.Observations[i]; o.Kind == Weight && o.Body == 0 {
			weights = append(weights, Scaled{i, o.Weighing.Mass, o.Unit})
		}
	}
	out, err := ImpossibleOf(weights, q.Volume, &q.Setup.Wood, notes)
	return out, method.Renamed(err, [2]string{"weights/", "observations/"})
}

// learn learns from the readings. A weight that the piece cannot have counts for nothing: the
// others mostly say so themselves, and name the slip that explains it; else it is left out.
func (q *HistoryQuestion) learn(ctx context.Context, setup Setup) (*Posterior, []Impossible, error) {
	var notes method.Notes
	out, err := q.impossible(&notes)
	if err != nil {
		return nil, nil, err
	}
	p, err := learnWet(ctx, setup, q.Observations)
	if err != nil {
		return nil, nil, err
	}
	named := func(one Impossible) bool {
		return slices.ContainsFunc(p.Contradictions, func(c Contradiction) bool { return c.Index == one.Index })
	}
	out = slices.DeleteFunc(out, named)
	if len(out) > 0 {
		left := slices.Clone(q.Observations)
		for _, one := range out {
			left[one.Index].Aside = true
		}
		if p, err = learnWet(ctx, setup, left); err != nil {
			return nil, nil, err
		}
	}
	p.Notes.Merge(notes)
	return p, out, nil
}
