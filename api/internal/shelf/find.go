package shelf

import (
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
)

// Besides joins what else is wrong to the error of a wood that was not found, and
// leaves out what only follows from it.
func Besides(noWood, err error) error {
	if noWood == nil {
		return err
	}
	return errors.Join(noWood, wire.EachError(err, func(one error) error {
		e, is := wire.AsDomain(one)
		if is && e.Code == method.Missing && (strings.HasSuffix(e.Input, "/wood") || strings.HasSuffix(e.Input, "specific_gravity")) {
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
func (t *Tables) Cautions(w *Wood, notes *method.Notes) { t.CautionsAt("wood", w, notes) }

// CautionsAt is Cautions of a wood that is named at a place of the request.
func (t *Tables) CautionsAt(place string, w *Wood, notes *method.Notes) {
	all, of := t.Species.Cautions(""), "" // those for every wood
	if w != nil && w.cautions != nil {
		all, of = w.cautions, w.Common
	}
	for _, c := range all {
		notes.Warn(method.Warning{Code: method.Caution, Input: place, Detail: c.Text, Subject: of})
	}
}
