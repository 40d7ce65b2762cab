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
	exact := t.named(name)
	if len(exact) == 1 {
		return t.Woods[exact[0].Wood.ID], nil
	}
	if choices, bare := t.Species.BareName(name); bare && len(exact) == 0 {
		return nil, several(name, ", the likeliest first", choices)
	}
	if len(exact) > 1 {
		return nil, several(name, "", exact)
	}
	candidates := t.Species.Suggest(name, fewest)
	detail := "there is no wood called " + strconv.Quote(name) + " in the tables"
	switch {
	case len(candidates) > 0:
		detail += "; did you mean " + strings.Join(candidates, ", ") + "?"
	default:
		detail += "; GET /v1/species lists them"
	}
	if len(candidates) == 0 {
		candidates = t.NearestWoods(name)
	}
	return nil, &method.Error{Code: method.Unknown, Detail: detail, Limit: method.OneOf(candidates...)}
}

// mostOfOneName is more woods than the tables have of one trade name.
const mostOfOneName = 20

// named are the woods that a name is one of, as it stands in the tables.
func (t *Tables) named(name string) []species.Choice {
	var exact []species.Choice
	matches := t.Species.Find(name, mostOfOneName)
	for _, m := range matches {
		if m.Kind <= species.ExactSynonym && m.Kind == matches[0].Kind {
			exact = append(exact, species.Choice{Wood: m.Wood})
		}
	}
	return exact
}

// fewest is how many names are offered in place of one that is not in the tables.
const fewest = 5

// NearestWoods are the ids of the woods that are nearest to a name, whatever it is.
func (t *Tables) NearestWoods(name string) []string {
	return nearest(name, t.Species.Suggest(name, fewest), t.Species.Woods(), func(w *species.Wood) string { return w.ID })
}

// NearestStations are the ids of the places that are nearest to a name.
func (t *Tables) NearestStations(name string) []string {
	return nearest(name, t.Species.SuggestStations(name, fewest), t.Species.Stations(), func(s *species.Station) string { return s.ID })
}

// NearestParts are the ids of the sizes of parts that are nearest to a name.
func (t *Tables) NearestParts(name string) []string {
	return nearest(name, t.Species.SuggestPlates(name, fewest), t.Species.Plates(), func(p *species.Plate) string { return p.ID })
}

// nearest are the names that the tables suggest, or those nearest in spelling.
func nearest[T any](name string, suggested []string, all []T, id func(T) string) []string {
	if len(suggested) > 0 {
		return suggested
	}
	ids := make([]string, 0, len(all))
	for _, one := range all {
		ids = append(ids, id(one))
	}
	return wire.NearestFew(name, ids, fewest)
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
	about := ""
	if of != "" {
		about = method.AWood
	}
	for _, c := range all {
		notes.Warn(method.Warning{Code: method.Caution, Input: place, Detail: c.Text, Subject: of, About: about})
	}
}
