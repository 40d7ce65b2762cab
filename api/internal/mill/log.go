package mill

import (
	"context"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/sawlog"
)

// ComputeLog answers what billets a log gives.
func ComputeLog(_ context.Context, t *shelf.Tables, req *LogPlanRequest) (*LogPlanResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	m := &milling{t: t, req: req, report: report, bench: shelf.NewBench(t, report, &notes), notes: &notes}
	asked, err := m.question()
	if err != nil {
		return nil, notes, err
	}
	plan, err := sawlog.Saw(asked)
	if err != nil {
		return nil, notes, m.report.LimitsOf(m.pointed(err))
	}
	notes.Merge(wire.AtMembers(plan.Notes, m.pointed))
	m.unused()
	m.cautions(&asked, &plan)
	return m.answer(&asked, &plan), notes, nil
}

// pointed makes an error of the chapter point at the members of the request.
func (m *milling) pointed(err error) error {
	return method.EachInput(method.Renamed(err, shelf.WoodNames("")...), m.member)
}

// member is the caller's name of an input of the chapter.
func (m *milling) member(input string) string {
	renamed := member(input)
	switch {
	case renamed == "saw/kerf" && m.req.Saw.Kerf == nil:
		return "saw/usual_kerf"
	case renamed == "log/end_diameter" && input == "small_end_diameter" && m.req.Log.Start.SI < m.req.Log.End.SI:
		return "log/start_diameter"
	case input == "volumetric_shrinkage_pct": // it follows from the others of the wood
		return "log/wood"
	case strings.HasPrefix(renamed, "wood/"):
		return "log/" + renamed
	}
	return renamed
}

// unused warns of what of the shared objects has no bearing on the plan.
func (m *milling) unused() {
	var n shelf.NotUsed
	n.Look("saw", m.req.Saw, "kerf", "usual_kerf", "crosscut_kerf")
	for member, given := range map[string]*wire.Length{"thin_edge": m.req.Wanted.ThinEdge, "max_width": m.req.Wanted.MaxWidth} {
		if m.req.Pattern != string(sawlog.Wedges) && given != nil {
			m.notes.Warn(method.Warning{Code: method.NotUsed, Input: "wanted/" + member,
				Detail: member + " is that of a wedge; it has no bearing on boards"})
		}
	}
	n.Tell(m.notes)
}
