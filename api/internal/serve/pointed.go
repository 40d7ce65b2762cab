package serve

import (
	"reflect"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

// membersFor are the members that may hold what a chapter names, the likeliest first. A
// name of a member needs no entry.
var membersFor = membersByName()

func membersByName() map[string][]string {
	all := map[string][]string{
		"fibre_saturation":    {"wood/fibre_saturation_mc_pct"},
		"grt_el":              {"wood"},
		"drying_factor":       {"wood/drying_factor"},
		"start_mc_pct":        {"start_condition"},
		"green":               {"start_condition"},
		"rh_pct":              {"air/rh_pct"},
		"temperature":         {"air/temperature"},
		"wet_bulb":            {"air/wet_bulb"},
		"observations":        {"readings"},
		"species_a":           {"readings"},
		"play":                {"pairs"},
		"edge_difference_pct": {"near_minus_far_strain_pct"},
		"face_difference_pct": {"face_2_minus_face_1_strain_pct"},
		"pith":                {"rings/pith", "rings"},
		"pith_distance":       {"rings/pith"},
		"ring_angle_deg":      {"rings/angle_deg", "rings"},
		"added_vapour":        {"room/added_vapour"},
		"rows":                {"room"},
		"weekly_swing_pct":    {"room/weekly_rh_swing_points"},
		"levels":              {"profile"},
		"moisture":            {"moisture_profile"},
		"edges":               {"edges_in_tree"},
	}
	for _, name := range shelf.WoodNames("") {
		all[name[0]] = []string{name[1]}
	}
	return all
}

// pointed says of each warning which member of the request it is about, as a pointer to
// what was sent or could be, in place of the name that a chapter has for it; nothing where
// there is no such member.
func pointed(request any, warnings []method.Warning) []method.Warning {
	top := reflect.ValueOf(request)
	var told method.Notes
	for _, w := range warnings {
		if w.Input != "" {
			w.Input = memberIn(top, strings.TrimPrefix(w.Input, "/"))
		}
		told.Warn(w)
	}
	return told.Warnings
}

func memberIn(top reflect.Value, input string) string {
	at, last := "", input
	if cut := strings.LastIndexByte(input, '/'); cut >= 0 {
		at, last = input[:cut+1], input[cut+1:]
	}
	names := append([]string{last}, membersFor[last]...)
	for _, name := range names {
		for _, holder := range []string{"", "billet/"} {
			if path := at + holder + name; resolves(top, path) {
				return "/" + path
			}
		}
	}
	if at != "" && resolves(top, strings.TrimSuffix(at, "/")) {
		return "/" + strings.TrimSuffix(at, "/")
	}
	return ""
}

// resolves reports whether a request has, or could have, a member at a path; an entry of
// a list has to be there.
func resolves(v reflect.Value, path string) bool {
	for token := range strings.SplitSeq(path, "/") {
		for v.Kind() == reflect.Pointer {
			if v.IsNil() {
				v = reflect.New(v.Type().Elem())
			}
			v = v.Elem()
		}
		to, ok := step(v, token)
		if !ok {
			return false
		}
		v = to
	}
	return true
}
