package cut

import (
	"strings"
)

// matchMembers are the members of a request that the physics calls otherwise.
var matchMembers = map[string]string{
	"width": "billet/width", "cleanup_show": "saw/cleanup_show", "cleanup_back": "saw/cleanup_back",
	"rings": "billet/rings", "pith": "billet/rings", "pith_x": "billet/rings/pith/y", "pith_z": "billet/rings/pith/z",
	"ring_angle_1": "billet/rings/readings/0/angle_deg", "ring_angle_2": "billet/rings/readings/1/angle_deg",
	"x": "billet/rings/readings", "x1": "billet/rings/readings/0/y", "x2": "billet/rings/readings/1/y",
	"z": "billet/rings/readings", "z2": "billet/rings/readings/1/z",
	"lean": "billet/rings/lean", "ring_angle_sd": "billet/rings/angle_sd_deg", "ring_width": "billet/rings/ring_width",
	"dip_one_in": "billet/grain/dip_one_in", "runout_one_in": "billet/grain/runout_one_in",
	"band_lean": "billet/grain/flame_lean_deg", "near": "billet/edges_in_tree/near", "far": "billet/edges_in_tree/far",
	"spare_width": "spare/width", "spare_length": "spare/length",
	"count": "stack/leaves", "first": "stack/z_from", "leaf": "stack/sawn_thickness", "kerf": "saw/kerf",
	"reface": "saw/reface", "weights/band": "score_weights/flame", "weights/most": "score_weights/max_term",
	"weights/no_mirror": "score_weights/no_mirror",
}

// member is the caller's name of an input of the physics.
func (m *bookmatch) member(input string) string {
	if rest, of := strings.CutPrefix(input, "leaves/"); of {
		return "leaves/" + strings.NewReplacer("/front", "/z_from", "/back", "/z_to").Replace(rest)
	}
	if input == "ring_angle" {
		if len(m.req.Billet.Rings.Readings) > 0 {
			return "billet/rings/readings"
		}
		return "billet/rings/angle_deg"
	}
	renamed, known := matchMembers[input]
	switch {
	case known && strings.HasPrefix(renamed, "stack/") && m.req.Stack == nil:
		return "leaves"
	case known:
		return renamed
	}
	if rest, of := strings.CutPrefix(input, "weights/"); of {
		return "score_weights/" + rest
	}
	return input
}
