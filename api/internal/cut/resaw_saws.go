package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// saws reads the saws that are to be compared on some billets.
func (r *reading) saws(req []PlanSaw, billets []plan.Billet) ([]plan.Saw, error) {
	var saws []plan.Saw
	var all []error
	names := map[string]bool{}
	for i := range req {
		out, err := r.saw(&req[i], place("saws", i), billets)
		if out.Name == "" {
			out.Name = "saw " + strconv.Itoa(i+1)
		}
		if names[out.Name] {
			err = errors.Join(err, wire.Contradictory("name", "another saw has this name"))
		}
		names[out.Name] = true
		if err == nil {
			r.tellSaw(&req[i], place("saws", i))
		}
		all = append(all, wire.Under(place("saws", i), err))
		saws = append(saws, out)
	}
	return saws, errors.Join(all...)
}

func (r *reading) saw(s *PlanSaw, at string, billets []plan.Billet) (plan.Saw, error) {
	out := plan.Saw{Name: s.Name, Reface: shelf.LengthOrNone(s.Reface), FarFaceFinished: !s.RoughFar,
		HighestCut: shelf.LengthOrNone(s.HighestCut)}
	row, err := r.kerfs(s, &out)
	if err != nil {
		return out, err
	}
	r.habits(s, row, &out, at)
	thick := quantity.Length(0)
	for i := range billets {
		thick = max(thick, thickest(&billets[i]))
	}
	if out.Resaw > thick {
		return out, &method.Error{Code: method.Contradictory, Input: "kerf", Limit: "at most " +
			thick.AtMost(r.report.LengthUnit), Detail: "the kerf is wider than every billet is thick"}
	}
	return out, nil
}

// kerfs takes the kerfs, as given or of the table, whose row is returned if the saw
// names one.
func (r *reading) kerfs(s *PlanSaw, out *plan.Saw) (*species.SawKind, error) {
	var row *species.SawKind
	switch {
	case s.ID == "" && s.Kerf == nil:
		return nil, wire.Missing("kerf", "give kerf, or the saw by its id")
	case s.ID != "":
		var known bool
		if row, known = r.t.Species.Saw(s.ID); !known {
			detail := "there is no saw called " + strconv.Quote(wire.Clipped(s.ID)) + "; there are"
			for _, k := range r.t.Species.Saws() {
				detail += " " + k.ID
			}
			return nil, &method.Error{Code: method.Unknown, Input: "saw", Detail: detail}
		}
		if out.Name == "" {
			out.Name = shelf.NameIn(r.report, row.Name)
		}
	}
	if s.Kerf != nil {
		out.Resaw = s.Kerf.SI
	} else {
		usual, known := row.Kerf.Usual.Get()
		if !known {
			usual, _ = row.Kerf.High.Get()
		}
		out.Resaw = usual
		r.standIn("kerf, "+shelf.NameIn(r.report, row.Name), row.Kerf.Usual)
	}
	out.Rip, out.Crosscut = shelf.LengthOr(s.RipKerf, out.Resaw), shelf.LengthOr(s.Crosscut, out.Resaw)
	return row, nil
}

// habits are the clean-up and the wander, as given or usual. What has no kerf by the
// table is split, and leaves rougher faces. at is the place of the saw.
func (r *reading) habits(s *PlanSaw, row *species.SawKind, out *plan.Saw, at string) {
	l := &r.t.Losses
	usual, name := l.Cleanup, "clean-up of a face"
	if splits(row) {
		usual, name = l.Split, "clean-up of a split face"
	}
	cleanup, _ := usual.Get()
	wander, _ := l.Wander.Get()
	if out.CleanupShow = shelf.LengthOr(s.CleanupShow, cleanup); s.CleanupShow == nil {
		r.standIn(name, usual)
	}
	out.CleanupBack = shelf.LengthOr(s.CleanupBack, out.CleanupShow)
	if out.Wander = shelf.LengthOr(s.Wander, wander); s.Wander == nil {
		r.standIn("wander", l.Wander)
	}
	if words := shelf.UsualWords(r.report, shelf.CleanupLoss(s.CleanupShow, s.CleanupBack, usual),
		shelf.UsualLoss{Given: s.Wander, Usual: l.Wander, What: "wander"}); words != "" {
		r.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: words})
	}
}

// tellSaw warns of what was settled of a saw, found at a place, without a word of the caller.
func (r *reading) tellSaw(s *PlanSaw, at string) {
	row, _ := r.t.Species.Saw(s.ID)
	switch {
	case splits(row):
		detail := "splitting takes no kerf, but leaves rough faces"
		if s.CleanupShow == nil {
			detail += ": each face that has no clean-up of its own loses " + shelf.Spoken(r.report, r.t.Losses.Split)
		}
		if s.RipKerf == nil || s.Crosscut == nil {
			detail += "; rips and crosscuts without a kerf of their own are counted as taking nothing, give " +
				"rip_kerf and crosscut_kerf of the saw that makes them"
		}
		r.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: detail})
	case s.HighestCut == nil:
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/max_cut_height",
			Detail: "no max_cut_height is given, so this saw is taken to resaw a blank of any width; give the height " +
				"that it clears"})
	}
}

// splits says whether a kind of saw of the table is none, but splits.
func splits(row *species.SawKind) bool {
	if row == nil {
		return false
	}
	kerf, known := row.Kerf.Usual.Get()
	return known && kerf == 0
}
