package shelf

import (
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/wood"
)

// WoodOf finds the wood a request names, or takes the caller's own.
func (t *Tables) WoodOf(name string, own *OwnWood, notes *method.Notes) (*Wood, error) {
	switch {
	case name != "" && own != nil:
		return nil, wire.Contradictory("wood", "give species or wood, not both")
	case own != nil:
		return fromCaller(own, notes), nil
	case name == "":
		return nil, wire.Missing("species", "give the species by id or name, or your own figures as wood")
	}
	return t.OptionalWood(name)
}

// OptionalWood finds the wood by that name; no name is no wood.
func (t *Tables) OptionalWood(name string) (*Wood, error) {
	if name == "" {
		return nil, nil //nolint:nilnil // no name, no wood
	}
	w, err := t.Find(name)
	return w, wire.Under("species", err)
}

// Besides joins what else is wrong to the error of a wood that was not found, and
// leaves out what only follows from it.
func Besides(noWood, err error) error {
	if noWood == nil {
		return err
	}
	return errors.Join(noWood, wire.EachError(err, func(one error) error {
		e, is := wire.AsDomain(one)
		if is && e.Code == method.Missing && (strings.HasSuffix(e.Input, "/wood") || e.Input == "/species" || strings.HasSuffix(e.Input, "specific_gravity")) {
			return nil
		}
		return one
	}))
}

// Find resolves an id or an exact name, or "any maple" to all woods of a bare name or a
// genus; a bare name is refused with its choices, anything else with suggestions.
func (t *Tables) Find(name string) (*Wood, error) {
	if w, ok := t.Woods[name]; ok {
		return w, nil
	}
	if w, asked, err := t.anyOf(name); asked {
		return w, err
	}
	matches := t.Species.Find(name, 5)
	var exact []string
	for _, m := range matches {
		if m.Kind <= species.ExactSynonym && m.Kind == matches[0].Kind {
			exact = append(exact, m.Wood.ID)
		}
	}
	if len(exact) == 1 {
		return t.Woods[exact[0]], nil
	}
	if choices, bare := t.Species.BareName(name); bare && len(exact) == 0 {
		return nil, several(name, choices)
	}
	candidates := exact
	if len(exact) == 0 {
		candidates = t.Species.Suggest(name, 5)
	}
	code := method.Unknown
	detail := "there is no wood called " + strconv.Quote(name) + " in the tables"
	switch {
	case len(exact) > 1:
		code = method.Ambiguous
		detail = strconv.Quote(name) + " may be one of several woods; say which: " + strings.Join(exact, ", ")
	case len(candidates) > 0:
		detail += "; did you mean " + strings.Join(candidates, ", ") + "?"
	default:
		detail += "; GET /v1/species lists them"
	}
	return nil, &method.Error{Code: code, Detail: detail}
}

// Cautions notes what the tables warn of for this wood, or for every wood when
// none is known, where the answer is about working it.
func (t *Tables) Cautions(w *Wood, notes *method.Notes) {
	all := t.Species.Cautions("") // those for every wood
	if w != nil && w.cautions != nil {
		all = w.cautions
	}
	for _, c := range all {
		notes.Warn(method.Warning{Code: method.Caution, Input: "species", Detail: c.Text})
	}
}

// InGroup is a wood with the mean ratios of a group, hardwood or softwood, which stand in
// for those that are not known of it.
func (t *Tables) InGroup(w wood.Wood, group string) wood.Wood {
	return inGroup(t.Species, w, wood.Group(group))
}
