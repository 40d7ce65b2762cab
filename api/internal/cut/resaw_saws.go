package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// sawsRead are the saws of a request with the ids by which the answer calls them.
type sawsRead struct {
	all []plan.Saw
	ids []string
}

// saws reads the saws that are to be compared on some billets.
func (r *reading) saws(req []shelf.Saw, billets []plan.Billet) (sawsRead, error) {
	var out sawsRead
	var all []error
	var ids ids
	for i := range req {
		one, err := r.saw(&req[i], i, billets)
		id, taken := ids.of(req[i].ID, i, "saw")
		all = append(all, wire.Under(place("saws", i), errors.Join(err, taken)))
		out.all, out.ids = append(out.all, one), append(out.ids, id)
	}
	return out, errors.Join(all...)
}

// saw reads the i-th saw.
func (r *reading) saw(s *shelf.Saw, i int, billets []plan.Billet) (plan.Saw, error) {
	at := place("saws", i)
	out := plan.Saw{Name: called(s.Name, s.ID, "saw "+strconv.Itoa(i+1)), Reface: shelf.LengthOrNone(s.Reface),
		FarFaceFinished: !s.Face2Rough, HighestCut: shelf.LengthOrNone(s.MaxCutHeight)}
	read, err := s.Kerfs(r.bench)
	if err != nil {
		return out, err
	}
	if read.Row != nil && s.Name == "" && s.ID == "" {
		out.Name = shelf.NameIn(r.report, read.Row.Name)
	}
	s.Habits(r.bench, at, &read)
	out.Resaw, out.Rip, out.Crosscut = read.Kerf, read.Rip, read.Crosscut
	out.Wander, out.CleanupShow, out.CleanupBack = read.Wander, read.CleanupShow, read.CleanupBack
	thick := quantity.Length(0)
	for i := range billets {
		thick = max(thick, thickest(&billets[i]))
	}
	if out.Resaw > thick {
		member := "kerf"
		if s.Kerf == nil {
			member = "usual_kerf"
		}
		limit := method.AtMost(thick.AtMost(r.report.LengthUnit))
		return out, &method.Error{Code: method.Contradictory, Input: member, Limit: limit,
			Detail: "the kerf is wider than every billet is thick; it must be " + limit.String()}
	}
	s.TellOtherCuts(r.bench, at, &read, true, true)
	switch {
	case read.Splits():
		s.TellSplit(r.bench, at, &read)
	case s.MaxCutHeight == nil:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/max_cut_height",
			Detail: "no max_cut_height is given, so this saw is taken to resaw a blank of any width; give the height " +
				"that it clears"})
	}
	return out, nil
}
