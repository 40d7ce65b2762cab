package dry

import (
	"context"
	"math"
	"slices"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
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
	req.strays(r, &notes)
	if req.ThickAndThin == nil && answer.SawNow.Cut.Extra > 0 {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "thick_and_thin",
			Detail: shelf.Spoken(b.report, t.Losses.LeafWet) + " more for a leaf sawn before it is dry (common practice, no source)"})
	}
	req.unused(&notes)
	if wedge := req.Billet.Wedge(); wedge != "" {
		notes.Warn(method.Warning{Code: method.Assumption, Input: wedge, Detail: "the whole billet is dried as a board as thick as " +
			"its thickest corner, which is the last to be dry; leaves are counted where it is thinnest"})
	}
	t.Cautions(b.wood, &notes)
	notes.Warn(shelf.ResawCaution)
	short(req.Billet, &notes)
	heats(slices.Concat(req.Stays, req.LeafStays), &notes)
	return r, inBillet(notes), nil
}

// strays tells that mean, shell and core do not fit, and which is kept.
func (r *ResawTimingRequest) strays(told *ResawTimingResult, notes *method.Notes) {
	if r.Moisture.Shell == nil || r.Moisture.Core == nil {
		return
	}
	shell, core := told.Moisture.Shell.Value, told.Moisture.Core.Value
	most := timing.ReadStrays.Percent()
	if math.Abs(shell-*r.Moisture.Shell) <= most && math.Abs(core-*r.Moisture.Core) <= most {
		return
	}
	said := func(mc float64) string { return quantity.FormatNumber(mc, 1) + " %" }
	notes.Warn(method.Warning{Code: method.Disagreement, Input: "moisture_profile", Detail: "mean, shell and core do not fit a smooth " +
		"profile: the mean of " + said(*r.Moisture.Mean) + " and the difference of core and shell are kept, so that the shell is taken at " +
		said(shell) + " (given: " + said(*r.Moisture.Shell) + ") and the core at " + said(core) + " (given: " + said(*r.Moisture.Core) +
		"); read all three again if you can"})
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
	err = method.Renamed(err, slices.Concat(names, timingNames, yieldNames, limitNames)...)
	return wire.ReportIn(r.ReportIn).LimitsOf(ofForecast(err))
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
