package cut

import (
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// member is the caller's name of an input of the physics.
func (m *bookmatch) member(input string) string {
	if rest, of := strings.CutPrefix(input, "leaves/"); of {
		return "faces/" + rest
	}
	r := m.req.Rings
	angle := "rings/ring_angle_deg"
	if len(r.Readings) > 0 {
		angle = "rings/readings"
	}
	for _, name := range [][2]string{
		{"cleanup_show", "cleanup/show"}, {"cleanup_back", "cleanup/back"}, {"pith", "rings"},
		{"pith_x", "rings/pith/x"}, {"pith_z", "rings/pith/z"},
		{"ring_angle", angle}, {"ring_angle_1", "rings/readings"}, {"ring_angle_2", "rings/readings"},
		{"x", "rings/readings"}, {"x1", "rings/readings"}, {"x2", "rings/readings"},
		{"lean", "rings/lean"}, {"ring_angle_sd", "ring_angle_sd_deg"}, {"dip_one_in", "grain/dip_one_in"},
		{"runout_one_in", "grain/runout_one_in"},
		{"band_lean", "grain/flame_lean_deg"}, {"left", "edges"}, {"right", "edges"}, {"spare_width", "spare/width"},
		{"spare_length", "spare/length"},
		{"count", "leaves/count"}, {"first", "leaves/first"}, {"leaf", "leaves/thickness"}, {"kerf", "leaves/kerf"},
		{"reface", "leaves/reface"}, {"weights/band", "weights/flame"},
	} {
		if input == name[0] {
			input = name[1]
			break
		}
	}
	if len(m.req.Faces) > 0 && (input == "leaves" || strings.HasPrefix(input, "leaves/")) {
		return "faces"
	}
	return input
}

// pointAt makes an error point at the caller's members.
func (m *bookmatch) pointAt(err error) error {
	domain, is := wire.AsDomain(err)
	if !is {
		return err
	}
	moved := *domain
	moved.Input = m.member(domain.Input)
	return &moved
}

func (m *bookmatch) nameInput(w *method.Warning) {
	if w.Input != "" {
		w.Input = m.member(w.Input)
	}
}
