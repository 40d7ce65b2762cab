package cut

import (
	"strconv"
	"strings"

	"latewood/api/internal/wire"
)

// summaryOf is the answer in a sentence.
func (a *answering) summaryOf(r *ResawPlanResult) string {
	sets := []string{}
	for i := range r.Parts {
		if y := &r.Parts[i]; y.Sets > 0 {
			sets = append(sets, wire.CountOf(y.Sets, "set")+" of "+a.asked.Parts[i].Name)
		}
	}
	text := "no set of any part fits"
	if !r.Proof.Optimal {
		text = "no set of any part was found"
	}
	if len(sets) > 0 {
		text = strings.Join(sets, "; ")
	}
	text += "; worth " + strconv.FormatInt(r.Proof.Worth, 10)
	if r.Proof.Missing > 0 {
		missing := []string{}
		for i := range r.Parts {
			if y := &r.Parts[i]; y.Missing > 0 {
				missing = append(missing, strconv.Itoa(y.Missing)+" of "+a.asked.Parts[i].Name)
			}
		}
		text += ", " + wire.CountOf(r.Proof.Missing, "set") + " missing (" + strings.Join(missing, ", ") + ")"
	}
	if r.Proof.Optimal {
		return text + "; proven: no other crosscuts and rips, in any order, give more"
	}
	return text + "; not proven: other cuts may give more, but no more than " + strconv.FormatInt(r.Proof.Bound, 10)
}
