package shelf

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/wood"
)

// anyWord before a bare name or a genus asks for all woods of it on purpose.
const anyWord = "any "

// anyOf is the wood that stands for all those of a bare name ("any maple"), of a trade name
// that several have ("any hard maple") or of a genus ("any Acer"); asked is false for a name that does not ask for that.
func (t *Tables) anyOf(name string) (w *Wood, asked bool, err error) {
	of, asked := cutPrefixFold(strings.TrimSpace(name), anyWord)
	if !asked {
		return nil, false, nil
	}
	choices, known := t.Species.BareName(of)
	if !known {
		choices = t.Species.OfGenus(of)
	}
	if shared := t.named(of); len(choices) == 0 && len(shared) > 1 {
		choices = shared
	}
	if len(choices) == 0 {
		return nil, true, &method.Error{Code: method.Unknown,
			Detail: fmt.Sprintf("%q is no name that several woods share; after \"any\" say one such as %s, or a botanical genus",
				of, strings.Join(t.Species.BareNames()[:6], ", ")), Limit: method.OneOf(wire.NearestFew(of, t.Species.BareNames(), fewest)...)}
	}
	return t.standsFor(strings.TrimSpace(of), choices), true, nil
}

func cutPrefixFold(text, prefix string) (rest string, found bool) {
	if len(text) < len(prefix) || !strings.EqualFold(text[:len(prefix)], prefix) {
		return "", false
	}
	return text[len(prefix):], true
}

// standsFor is the wood that stands for any of the choices, with the cautions of all.
func (t *Tables) standsFor(name string, choices []species.Choice) *Wood {
	made := &Wood{Common: fmt.Sprintf("any %s (%d woods)", name, len(choices))}
	values, ids := make([]wood.Wood, 0, len(choices)), make([]string, 0, len(choices))
	for _, c := range choices {
		one := t.Woods[c.Wood.ID]
		values, ids = append(values, one.Value), append(ids, c.Wood.ID)
		for _, caution := range one.cautions {
			if !slices.Contains(made.cautions, caution) {
				made.cautions = append(made.cautions, caution)
			}
		}
	}
	made.Value, made.anyOf = wood.AnyOf("any "+name, values), ids
	source := "mean of the woods " + strings.Join(ids, ", ")
	for _, f := range []struct {
		name, unit string
		figure     wood.Figure
		scale      float64
	}{
		{"radial", species.UnitShrinkage, made.Value.Radial, 100}, {"tangential", species.UnitShrinkage, made.Value.Tangential, 100},
		{"volumetric", species.UnitShrinkage, made.Value.Volumetric, 100},
		{"specific_gravity_green", species.UnitRatio, made.Value.SpecificGravity, 1},
		{"modulus_of_elasticity_12", species.UnitMPa, made.Value.BendingModulus, 1},
		{"fibre_saturation", species.UnitMC, wood.Published(made.Value.FibreSaturation.Percent()), 1},
	} {
		if f.figure.Known {
			made.known = append(made.known, Provenance{Name: f.name, Value: math.Round(1e4*f.scale*f.figure.Value) / 1e4, Unit: f.unit, Source: source,
				Checked: MarkOf(species.Computed)})
		}
	}
	made.moved = made.Used(MovementFigures...)
	return made
}

// several refuses a name that several woods have with its choices, which stand in an order.
func several(name, order string, choices []species.Choice) error {
	listed, ids := make([]string, 0, len(choices)), make([]string, 0, len(choices)+1)
	for _, c := range choices {
		one := c.Wood.ID
		ids = append(ids, one)
		if c.Apart != "" {
			one += " (" + c.Apart + ")"
		}
		listed = append(listed, one)
	}
	return &method.Error{Code: method.Ambiguous, Detail: fmt.Sprintf(
		"%q names several woods%s: %s; say which, or %q for a band that holds them all",
		name, order, strings.Join(listed, "; "), anyWord+name), Limit: method.OneOf(append(ids, anyWord+name)...)}
}
