package dry

import (
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// wanted says what would make the answer surer, or what to wait for.
func wanted(wants []readiness.Want, report wire.Reporter) []string {
	said := []string{}
	for _, want := range wants {
		words := map[readiness.WantKind]string{
			readiness.WantSample: "the moisture content is known to about " + quantity.FormatNumber(want.SD.Percent(), 1) +
				" points, which does not settle it: " + sampled(&want, report),
			readiness.WantTarget: "the wood is known better than where it comes to rest in that room, which is told to about " +
				quantity.FormatNumber(want.SD.Percent(), 1) + " points: let it lie there until its weight stays the same, or give the " +
				"mc_pct that your wood has settled at there as the target",
			readiness.WantTime: "wait; give the stays of the billet for a date",
			readiness.WantRoom: "its weight is at rest where it lies, and it is still wetter than it should be: waiting there gets it no " +
				"drier; bring it into the room it will be worked in",
			readiness.WantMoisture: "the wood is drier than the build room: let it take up moisture there before the work",
			readiness.WantTwoDepths: "read at two depths, near the face and at half the thickness, to see whether the " +
				"core is wetter",
			readiness.WantSplitSample: "the meter cannot tell shell from core closely enough: split a sample into shell " +
				"and core and dry both in the oven",
			readiness.WantEven: "the core is still wetter than the shell: let it even out where the air is steady",
			readiness.WantWeights: "weigh the billet on " + strconv.Itoa(want.More) +
				" more dated occasions, a week or more apart, to see whether its weight is at rest",
			readiness.WantAgain: "the newest reading was set aside, and if it is right the wood is not ready: read again before the " +
				"work, at another place of the piece or in another way",
			readiness.WantMoreWeighing: "weigh on until the weight stays the same",
		}[want.Kind]
		if !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return said
}

// sampled says where a sample is cut.
func sampled(want *readiness.Want, report wire.Reporter) string {
	switch {
	case want.Whole:
		return "it is too short to cut a sample from; dry an offcut of the same board that lay beside it in the oven, or weigh it until its " +
			"weight stays the same in the room it will be worked in"
	case want.FromEnd == 0:
		return "dry a sample from mid-length in the oven, the place of so short a piece that lies farthest from its ends, which dry first"
	}
	return "dry a sample from mid-length, " + report.Roughly(want.FromEnd) + " or more from an end, in the oven"
}

// bring says where to bring a billet that never comes near its target where it lies.
func (h *history) bring(m *readiness.Moved) string {
	target := quantity.FormatNumber(h.question.Target.Value.Percent(), 1) + " %"
	nearest := quantity.FormatNumber(m.Nearest.Percent(), 1) + " %"
	steps := make([]string, 0, len(m.Steps))
	for _, step := range m.Steps {
		steps = append(steps, string(step))
	}
	side := map[bool]string{true: "will hardly come below ", false: "will hardly come above "}[m.Wetter]
	text := "where it lies it " + side + nearest + ", too far from the target of " + target + " to " + strings.Join(steps, " or ") + ": "
	const room, why = "bring it into the room it will be worked in", "; wetter wood checks in dry air"
	onceDry := " once it is down to " + quantity.FormatNumber(readiness.IndoorsFrom.Percent(), 0) + " %"
	if m.At < 0 { // nor is it ever dry enough there to be brought in
		return text + "stack it on stickers under cover where the air is drier and reaches every face, and " + room + onceDry + why
	}
	text += room
	if m.At > h.question.Today {
		text += onceDry + ", about " + wire.PlainDate(h.stay.date(m.At)) + why
	}
	var dates []string
	for i := range m.Dates {
		if d := &m.Dates[i]; d.Median.Within && d.Holds() && d.Median.At > h.question.Today {
			dates = append(dates, "to "+string(m.Open[i])+" about "+wire.PlainDate(h.stay.date(d.Median.At)))
		}
	}
	if dates != nil {
		text += ". There it would be ready " + strings.Join(dates, ", ")
	}
	return text
}
