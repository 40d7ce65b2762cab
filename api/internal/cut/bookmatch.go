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
	w, noWood := t.OptionalWood(req.Wood, &notes)
	report := wire.ReportIn(req.ReportIn)
	m := &bookmatch{req: req, report: report, usual: &shelf.StandIns{Report: report}}
	in, err := m.input(&t.Losses, &notes)
	if err := errors.Join(noWood, err); err != nil {
		return nil, notes, err
	}
	matched, err := match.Halves(in)
	if err != nil {
		return nil, notes, m.pointAt(err)
	}
	for i := range matched.Notes.Warnings {
		m.nameInput(&matched.Notes.Warnings[i])
	}
	notes.Merge(matched.Notes)
	t.Cautions(w, &notes)
	notes.Warn(shelf.ResawCaution)
	return matchResult(&in, &matched, report, m.usual.All), notes, nil
}
