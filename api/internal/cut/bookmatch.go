package cut

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/match"
)

// ComputeBookmatch answers how neighbouring leaves match.
func ComputeBookmatch(_ context.Context, t *shelf.Tables, req *BookmatchRequest,
) (*BookmatchResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := req.Billet.WoodOf(t, "billet", &notes)
	report := wire.ReportIn(req.ReportIn)
	m := &bookmatch{req: req, report: report, bench: shelf.NewBench(t, report, &notes)}
	in, err := m.input()
	if err := errors.Join(noWood, err); err != nil {
		return nil, notes, err
	}
	matched, err := match.Halves(in)
	if err != nil {
		return nil, notes, report.LimitsOf(method.EachInput(err, m.member))
	}
	notes.Merge(matched.Notes.Each(m.member))
	m.unused()
	t.CautionsAt("billet/wood", w, &notes)
	notes.Warn(shelf.ResawCaution)
	return matchResult(&in, &matched, report, m.bench.Usual.All), notes, nil
}

// unused warns of what of billet and saw has no bearing on the match.
func (m *bookmatch) unused() {
	var n shelf.NotUsed
	billet := append(shelf.Below("rings", "pith", "readings", "chord", "angle_deg", "angle_sd_deg", "lean", "pith_side", "ring_width"),
		"wood", "width", "grain", "edges_in_tree")
	if m.req.Billet.Thickness != nil { // the leaves must lie within it
		billet = append(billet, "thickness", "end_thickness", "far_thickness")
	}
	n.Look("billet", m.req.Billet, billet...)
	saw := []string{"cleanup_show", "cleanup_back", "usual_kerf"}
	if m.req.Stack != nil {
		saw = append(saw, "kerf", "reface")
	}
	n.Look("saw", m.req.Saw, saw...)
	n.Tell(m.bench.Notes)
}
