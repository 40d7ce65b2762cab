package serve

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/decode"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// membersFor are the members that may hold what a chapter names, the likeliest first. A
// name of a member needs no entry.
var membersFor = membersByName()

func membersByName() map[string][]string {
	all := map[string][]string{
		"fibre_saturation":    {"wood/fibre_saturation_mc_pct"},
		"drying_factor":       {"wood/drying_factor"},
		"start_mc_pct":        {"start_condition"},
		"green":               {"start_condition"},
		"rh_pct":              {"wet_bulb", "dew_point", "air/rh_pct", "air/wet_bulb", "air/dew_point", "heated_to"},
		"temperature":         {"air/temperature", "heated_to"},
		"crosscut_kerf":       {"kerf", "usual_kerf"},
		"rip_kerf":            {"kerf", "usual_kerf"},
		"cleanup_back":        {"cleanup_show"},
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
	for _, ratio := range []string{"et_el", "er_el", "glr_el", "glt_el", "grt_el", "nu_lr", "nu_lt", "nu_rt"} {
		all[ratio] = []string{"wood/group"} // whose mean ratios stand in
	}
	for _, name := range shelf.WoodNames("") {
		all[name[0]] = []string{name[1]}
	}
	return all
}

// pointed says of each warning which member of the request it is about, as a pointer to
// what was sent or could be, in place of the name that a chapter has for it; nothing where
// there is no such member. What is the same of several entries of a list is told once, of
// the first.
func pointed(request any, warnings []method.Warning) []method.Warning {
	top := reflect.ValueOf(request)
	type said struct{ code, detail, place, subject, method string }
	seen := make(map[said]bool, len(warnings))
	told := make([]method.Warning, 0, len(warnings))
	for _, w := range warnings {
		if w.Input != "" {
			w.Input = memberIn(top, strings.TrimPrefix(w.Input, "/"), w.Code)
		}
		if w.Subject != "" && w.About == "" {
			w.About = holderOf(w.Input)
		}
		one := said{string(w.Code), w.Detail, withoutNumbers(w.Input), w.Subject, w.Method}
		if w.Code == method.OutsideFitted { // two methods that were fitted in the same range
			one.method = ""
		}
		if !seen[one] {
			seen[one] = true
			told = append(told, w)
		}
	}
	return told
}

// holders are what the members hold that things are told of.
var holders = map[string]string{"billet": "billet", "billets": "billet", "part": "part", "parts": "part", "layers": "layer", "laminates": "laminate",
	"pairs": "pair", "glued_joints": "joint", "saw": "saw", "saws": "saw", "readings": "reading", "stays": "stay", "leaf_stays": "stay", "log": "log"}

// holderOf is the kind of thing that a pointer leads into, the innermost; empty where it
// leads into none.
func holderOf(pointer string) (kind string) {
	for token := range strings.SplitSeq(pointer, "/") {
		if inner, is := holders[token]; is {
			kind = inner
		}
	}
	return kind
}

// withoutNumbers is a pointer without the numbers of entries in it.
func withoutNumbers(pointer string) string {
	if !strings.ContainsAny(pointer, "0123456789") {
		return pointer
	}
	var out strings.Builder
	for token := range strings.SplitSeq(strings.TrimPrefix(pointer, "/"), "/") {
		if _, err := strconv.Atoi(token); err == nil {
			token = "-"
		}
		out.WriteString("/" + token)
	}
	return out.String()
}

// memberIn is the pointer to the member that an input is: one that was sent if there is
// any, unless the warning is about what was left out; else one that could be sent beside
// what was, unless it is about a value, which nobody sent then. Of an input that is no member it is the object that holds it.
func memberIn(top reflect.Value, input string, code method.Code) string {
	at, last := "", input
	if cut := strings.LastIndexByte(input, '/'); cut >= 0 {
		at, last = input[:cut+1], input[cut+1:]
	}
	names := append([]string{last}, membersFor[last]...)
	could, derived := "", code == method.OutsideFitted // of what was not sent it is worked out from what was
	for above := at; ; above = parentOf(above) {
		for _, name := range names {
			for _, holder := range []string{"", "billet/"} {
				path := above + holder + name
				found := follow(top, path)
				switch {
				case found.sent && (code != method.DefaultUsed || could == ""):
					return "/" + path
				case found.could && could == "" && !derived:
					could = "/" + path
				}
			}
		}
		if above == "" || isEntry(above) { // what stands beside a list is of none of its entries
			break
		}
	}
	if could != "" {
		return could
	}
	for above := at; above != ""; above = parentOf(above) {
		if path := strings.TrimSuffix(above, "/"); follow(top, path).could && (!derived || follow(top, path).sent) {
			return "/" + path
		}
		if isEntry(above) {
			break
		}
	}
	return ""
}

// parentOf is the place above one; both are empty or end in a slash.
func parentOf(place string) string {
	return place[:strings.LastIndexByte(strings.TrimSuffix(place, "/"), '/')+1]
}

// isEntry reports whether a place that ends in a slash is an entry of a list.
func isEntry(place string) bool {
	_, err := strconv.Atoi(place[strings.LastIndexByte(strings.TrimSuffix(place, "/"), '/')+1 : len(place)-1])
	return err == nil
}

// found is where a path of a request leads: to a member that was sent, or to one that
// could be sent beside what was.
type found struct{ sent, could bool }

// follow goes along a path; an entry of a list has to be there.
func follow(v reflect.Value, path string) found {
	is := found{sent: true, could: true}
	for token := range strings.SplitSeq(path, "/") {
		for v.Kind() == reflect.Pointer {
			if v.IsNil() {
				v = reflect.New(v.Type().Elem())
			}
			v = v.Elem()
		}
		to, ok := decode.Step(v, token)
		if !ok {
			return found{}
		}
		if to.IsZero() {
			if is.sent {
				is.could = fits(wire.FormOf(v), token)
			}
			is.sent = false
		}
		v = to
	}
	return is
}

// fits reports whether a member could be added to what was sent of an object.
func fits(object reflect.Value, member string) bool {
	if !object.CanAddr() {
		return true
	}
	joins, is := object.Addr().Interface().(wire.Joins)
	if !is {
		return true
	}
	joined := joins.Joins()
	whole := func(set []string) bool {
		return !slices.ContainsFunc(set, func(name string) bool { return name != member && !wire.Given(object, name) })
	}
	for _, set := range joined.OneOf {
		if !slices.Contains(set, member) && whole(set) && slices.ContainsFunc(joined.OneOf, func(s []string) bool { return slices.Contains(s, member) }) {
			return false
		}
	}
	for _, set := range joined.NotAll {
		if slices.Contains(set, member) && whole(set) {
			return false
		}
	}
	return true
}
