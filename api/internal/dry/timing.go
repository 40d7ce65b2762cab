package dry

import (
	"context"
	"slices"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/timing"
)

// ComputeTiming answers the question.
func ComputeTiming(ctx context.Context, t *shelf.Tables, req *ResawTimingRequest) (*ResawTimingResult, method.Notes, error) {
	var notes method.Notes
	b, err := req.read(ctx, t, &notes)
	if err != nil {
		return nil, notes, err
	}
	answer, err := timing.Weigh(ctx, &b.question)
	if err != nil {
		return nil, notes, inBilletError(req.wrong(err))
	}
	notes.Merge(wire.AtMembers(answer.Notes, req.wrong))
	r := b.result(answer)
	req.unused(&notes)
	if wedge := req.Billet.Wedge(); wedge != "" {
		notes.Warn(method.Warning{Code: method.Assumption, Input: wedge, Detail: "the whole billet is dried as a board as thick as " +
			"its thickest corner, which is the last to be dry; leaves are counted where it is thinnest"})
	}
	t.Cautions(b.wood, &notes)
	notes.Warn(shelf.ResawCaution)
	return r, inBillet(notes), nil
}

// unused tells which members of billet, saw and part have no bearing on the answer. The
// shrinkage still to come is worked out here, so that what a part says of it is none.
func (r *ResawTimingRequest) unused(notes *method.Notes) {
	part := *r.Part
	said := shelf.Part{FinalCondition: part.FinalCondition, ShrinkageRingAngle: part.ShrinkageRingAngle}
	part.FinalCondition, part.ShrinkageRingAngle = nil, nil
	var n shelf.NotUsed
	(&shelf.Cutting{Billet: r.Billet, Saw: r.Saw, Part: &part}).Unused(&n, append([]string{"end_seal"}, ringsUsed...)...)
	n.Look("part", &said)
	n.Tell(notes)
}

// wrong points errors of the weighing at the members of the request.
func (r *ResawTimingRequest) wrong(err error) error {
	leaf := "part/" + r.Part.ThicknessNamed()
	names := [][2]string{{"leaf", leaf}, {"yield/leaf", leaf}}
	return ofForecast(method.Renamed(err, slices.Concat(names, timingNames, yieldNames, limitNames)...))
}

// timingNames are the inputs of the weighing and the members they come from.
var timingNames = [][2]string{
	{"mean_pct", "moisture_profile/mean_mc_pct"},
	{"sd_pct", "moisture_profile/mean_mc_sd_points"},
	{"room", "target_condition/air"},
	{"room/", "target_condition/air/"},
	{"thickness", "billet/thickness"},
	{"leaf_width", "part/width"},
	{"prongs/", "prong_test/"},
	{"stacked_on", "as_of"},
	{"radial_pct", "wood/radial_shrinkage_pct"},
	{"tangential_pct", "wood/tangential_shrinkage_pct"},
	{"fibre_saturation_pct", "wood/fibre_saturation_mc_pct"},
}

// yieldNames are the inputs of the yield that the weighing counts, and their members.
var yieldNames = shelf.YieldMembersBelow("yield/")
