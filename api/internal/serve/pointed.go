package serve

import (
	"reflect"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// membersFor are the members that may hold what a chapter names, the likeliest first. A
// name of a member needs no entry.
var membersFor = map[string][]string{
	"radial_pct":              {"wood/radial_shrinkage_pct"},
	"tangential_pct":          {"wood/tangential_shrinkage_pct"},
	"longitudinal_pct":        {"wood/longitudinal_shrinkage_pct"},
	"coefficient_radial":      {"wood/radial_coefficient"},
	"coefficient_tangential":  {"wood/tangential_coefficient"},
	"differential_radial":     {"wood/radial_swelling_pct_per_point"},
	"differential_tangential": {"wood/tangential_swelling_pct_per_point"},
	"swelling_volumetric":     {"wood/volumetric_swelling_pct_per_point"},
	"fibre_saturation_pct":    {"wood/fibre_saturation_mc_pct"},
	"fibre_saturation":        {"wood/fibre_saturation_mc_pct"},
	"specific_gravity":        {"wood/specific_gravity"},
	"modulus_of_elasticity":   {"wood/modulus_of_elasticity"},
	"grt_el":                  {"wood"},
	"group":                   {"wood/group"},
	"drying_factor":           {"wood/drying_factor"},
	"start_mc_pct":            {"start_condition", "start_mc_pct", "history/start_mc_pct"},
	"green":                   {"start_condition", "start_mc_pct"},
	"thickness":               {"thickness"},
	"rh_pct":                  {"air/rh_pct"},
	"temperature":             {"air/temperature"},
	"wet_bulb":                {"air/wet_bulb"},
	"observations":            {"readings"},
	"species_a":               {"readings"},
	"play":                    {"pairs"},
	"edge_difference_pct":     {"near_minus_far_strain_pct"},
	"face_difference_pct":     {"face_2_minus_face_1_strain_pct"},
	"pith":                    {"rings/pith", "rings"},
	"added_vapour":            {"room/added_vapour"},
	"rows":                    {"room"},
	"weekly_swing_pct":        {"room/weekly_rh_swing_points"},
	"pith_distance":           {"rings/pith", "pith"},
	"levels":                  {"profile"},
	"moisture":                {"moisture_profile"},
	"edges":                   {"billet/edges_in_tree"},
	"ring_angle_deg":          {"rings/angle_deg", "rings"},
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
	for step := range strings.SplitSeq(path, "/") {
		for v.Kind() == reflect.Pointer {
			if v.IsNil() {
				v = reflect.New(v.Type().Elem())
			}
			v = v.Elem()
		}
		v = wire.FormOf(v)
		switch v.Kind() {
		case reflect.Struct:
			field, is := wire.FieldNamed(v.Type(), step)
			if !is {
				return false
			}
			v = v.FieldByIndex(field.Index)
		case reflect.Slice:
			n, err := strconv.Atoi(step)
			if err != nil || n < 0 || n >= v.Len() {
				return false
			}
			v = v.Index(n)
		default:
			return false
		}
	}
	return true
}
