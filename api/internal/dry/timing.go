package dry

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/timing"
)

// ComputeTiming answers the question.
func ComputeTiming(ctx context.Context, t *shelf.Tables, req *TimingRequest) (*TimingResult, method.Notes, error) {
	var notes method.Notes
	b, err := req.read(ctx, t, &notes)
	if err != nil {
		return nil, notes, err
	}
	answer, err := timing.Weigh(ctx, &b.question)
	if err != nil {
		return nil, notes, req.wrong(err)
	}
	notes.Merge(answer.Notes)
	r := b.result(answer)
	t.Cautions(b.wood, &notes)
	notes.Warn(shelf.ResawCaution)
	return r, notes, nil
}

// check refuses what contradicts itself.
func (r *TimingRequest) check() error {
	var wrong []error
	if a := r.Part.Allowances; a != nil {
		for _, own := range []struct {
			given bool
			name  string
		}{{a.SawnAtPct != nil, "sawn_at_pct"}, {a.DriedToPct != nil, "dried_to_pct"}, {a.RingAngle != nil, "ring_angle_deg"}} {
			if own.given {
				wrong = append(wrong, wire.Contradictory("part/allowances/"+own.name,
					"the shrinkage still to come is worked out here from moisture, build_room and ring_angle_deg; leave "+own.name+" out"))
			}
		}
	}
	wrong = append(wrong, r.Moisture.check())
	if most, unit := seasoning.ThickestDried, r.Billet.Thickness.Unit; r.Billet.Thickness.SI > most {
		wrong = append(wrong, &method.Error{Code: method.OutOfRange, Input: "billet/thickness", Limit: "at most " + most.AtMost(unit),
			Detail: "the drying model goes to " + most.AtMost(unit)})
	}
	seen := map[string]bool{}
	for i := range r.Limits {
		place := "limits/" + strconv.Itoa(i) + "/step"
		switch step := r.Limits[i].Step; {
		case step == string(readiness.Glue):
			wrong = append(wrong, &method.Error{Code: method.OutOfRange, Input: place, Limit: "resaw or thickness", Detail: "only the limits of resaw and thickness count here"})
		case seen[step]:
			wrong = append(wrong, twice(place, step))
		default:
			seen[step] = true
		}
	}
	return errors.Join(wrong...)
}

// meanOutside is by how many points a mean may lie outside of shell and core, which were
// read in other places.
const meanOutside = 1

// check refuses what contradicts itself.
func (m *MoistureRead) check() error {
	switch {
	case (m.Shell == nil) != (m.Core == nil):
		return wire.Missing("moisture/"+map[bool]string{true: "shell_pct", false: "core_pct"}[m.Shell == nil], "shell_pct and core_pct go together")
	case m.Shell != nil && (*m.Mean < min(*m.Shell, *m.Core)-meanOutside || *m.Mean > max(*m.Shell, *m.Core)+meanOutside):
		return wire.Contradictory("moisture/mean_pct", "the mean does not lie between shell and core")
	}
	return nil
}

// woodMember is the member that says which wood it is.
func (r *TimingRequest) woodMember() string {
	if r.Wood != nil {
		return "wood"
	}
	return "species"
}

// wrong points errors of the weighing at the members of the request.
func (r *TimingRequest) wrong(err error) error {
	const limits = "limits"
	return ofForecast(method.Renamed(err, [2]string{"mean_pct", "moisture/mean_pct"}, [2]string{"sd_pct", "moisture/sd_pct"}, [2]string{"room", "build_room"},
		[2]string{"room/temperature", "build_room/dry_bulb"}, [2]string{"room/", "build_room/"}, [2]string{"thickness", "billet/thickness"},
		[2]string{"leaf", "part"}, [2]string{"leaf_width", "part/width"}, [2]string{"wood", r.woodMember()}, [2]string{"radial_pct", "wood/radial_shrinkage_pct"},
		[2]string{"tangential_pct", "wood/tangential_shrinkage_pct"}, [2]string{"fibre_saturation_pct", "wood/fibre_saturation_pct"}, [2]string{"stacked_on", "as_of"},
		[2]string{"above_pct", limits}, [2]string{"below_pct", limits}, [2]string{"gradient_pct", limits}, [2]string{"rate_pct_per_day", limits}, [2]string{"trend_pct", limits}))
}
