package cut

import (
	"strings"

	"latewood/api/internal/wire"
)

// planError points at the members of the request.
func planError(err error) error {
	return wire.EachError(err, func(one error) error {
		domain, is := wire.AsDomain(one)
		if !is {
			return one
		}
		moved := *domain
		moved.Input = planMember(domain.Input)
		return &moved
	})
}

// planMember is the member of a request that the planner calls input.
func planMember(input string) string {
	switch input {
	case "worth": // too many sets to count
		return "parts"
	case "chance/hidden_fault":
		return "variation/hidden_fault_probability"
	}
	if rest, of := strings.CutPrefix(input, "chance/"); of {
		return "variation/" + rest
	}
	list, rest, _ := strings.Cut(input, "/")
	number, member, _ := strings.Cut(rest, "/")
	renamed, known := planMembers[list][member]
	if member == "" || !known {
		renamed = member
	}
	if list == "billets" && strings.HasPrefix(member, "zones/") {
		one, _ := strings.CutPrefix(member, "zones/")
		n, side, _ := strings.Cut(one, "/")
		renamed = "zones/" + n + "/" + string(side[0]) + map[byte]string{'0': "_from", '1': "_to"}[side[len(side)-1]]
	}
	if renamed != "" {
		return list + "/" + number + "/" + renamed
	}
	return input
}

// planMembers are the members of a request that the planner calls otherwise.
var planMembers = map[string]map[string]string{
	"billets": {"thickness_far_edge": "far_thickness", "width_end": "end_width", "thickness_end": "end_thickness", "facing_face1": "facing_face_1",
		"facing_far": "facing_face_2", "trim_start": "trim/start",
		"trim_end": "trim/end", "runout_one_in": "grain/runout_one_in", "mc_pct": "condition", "pith/x": "rings/pith/y", "pith/z": "rings/pith/z",
		"ring_angle": "rings"},
	"parts": {"final": "final_thickness", "shrinkage": "final_condition", "flatness": "flattening", "least": "min_sets", "most": "max_sets", "worth": "set_value", "pieces": "pieces_per_set",
		"least_ring_angle": "min_ring_angle_deg", "most_runout_one_in": "max_runout_one_in"},
	"saws": {"resaw": "kerf", "crosscut": "crosscut_kerf", "rip": "rip_kerf", "highest_cut": "max_cut_height"},
}
