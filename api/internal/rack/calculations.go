package rack

import (
	"context"
	"encoding/json"
	"math"
	"strconv"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// TimingOf asks whether a billet on the rack is better sawn now or dried whole.
type TimingOf struct {
	Saw       *shelf.Saw       `json:"saw" validate:"required" needs:"kerf|usual_kerf" description:"what a cut takes"`
	Part      *shelf.Part      `json:"part" validate:"required" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size" description:"its sizes dry, once it has settled; the shrinkage still to come is added here"`
	LeafStays []shelf.Stay     `json:"leaf_stays,omitempty" validate:"omitempty,min=1,max=12,dive" description:"where the leaves lie once they are sawn, in order of time from today. Left out: where the billet would lie"`
	Target    *shelf.Condition `json:"target_condition,omitempty" description:"what the leaves are to come to. Left out: that of the entry, or of what it is kept for"`
	ReportIn  string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (q *TimingOf) System() string { return q.ReportIn }

// AskTiming is the request about a billet as it is today, by what its readings taught, and
// where it lies from today on.
func AskTiming(ctx context.Context, r *Rack, s *wire.Sent, _ *TimingOf) ([]byte, error) {
	c, answer, err := r.knownAt(ctx, s)
	if err != nil {
		return nil, err
	}
	if err := c.ask(s.Body); err != nil {
		return nil, err
	}
	m := &answer.Result.Moisture
	profile := map[string]float64{"mean_mc_pct": m.MC.Value, "mean_mc_sd_points": math.Max(m.SD, leastSD)}
	if m.Shell != nil && m.Core != nil && math.Min(m.Shell.Value, m.Core.Value) <= m.MC.Value && m.MC.Value <= math.Max(m.Shell.Value, m.Core.Value) {
		profile["shell_mc_pct"], profile["core_mc_pct"] = m.Shell.Value, m.Core.Value
	}
	if c.members["moisture_profile"], err = json.Marshal(profile); err != nil {
		return nil, err
	}
	c.members["as_of"] = quoted(r.today())
	if c.members["stays"], err = comingStays(c.members["stays"], r.today()); err != nil {
		return nil, err
	}
	delete(c.members, "readings")
	return json.Marshal(c.members)
}

// leastSD is the smallest standard deviation of a moisture content that questions take, in
// points.
const leastSD = 0.01

// comingStays are those that go on from a day.
func comingStays(text json.RawMessage, day string) (json.RawMessage, error) {
	var all, coming []members
	if text != nil {
		if err := json.Unmarshal(text, &all); err != nil {
			return nil, err
		}
	}
	for _, stay := range all {
		if until := string(stay["until"]); until == "" || until > string(quoted(day)) {
			coming = append(coming, stay)
		}
	}
	if coming == nil {
		return nil, lacking("the air that it lies in from today on is not known: give the entry stays, or a place whose air is known")
	}
	return json.Marshal(coming)
}

// lacking refuses what cannot be asked of what is kept.
func lacking(detail string) error {
	return &wire.Refused{Why: wire.Wrong, Code: "missing_data", Detail: detail}
}

// PlanOf asks for the plan to saw a billet on the rack.
type PlanOf struct {
	Plan     string       `json:"plan,omitempty" validate:"omitempty,id" description:"id of a plan on the rack, whose saws and parts stand in for those left out. Left out: none"`
	Saws     []shelf.Saw  `json:"saws,omitempty" validate:"omitempty,min=1,max=6,dive" description:"compared; a plan uses one. Left out: those of plan"`
	Parts    []shelf.Part `json:"parts,omitempty" validate:"omitempty,min=1,max=20,dive" description:"what is wanted. Left out: those of plan, else of what the billet is kept for"`
	ReportIn string       `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer"`
}

// System is the one that the request asks its answer in.
func (q *PlanOf) System() string { return q.ReportIn }

// AskPlan is the request for a plan of one billet.
func AskPlan(ctx context.Context, r *Rack, s *wire.Sent, req *PlanOf) ([]byte, error) {
	c, err := r.composeAt(ctx, store.Billet, s)
	if err != nil {
		return nil, err
	}
	asked, err := objectOf(s.Body)
	if err != nil {
		return nil, err
	}
	if req.Plan != "" {
		key := store.Key{Kind: store.Plan, ID: req.Plan}
		switch there, err := r.fillFrom(ctx, key, asked, "saws", "parts"); {
		case err != nil:
			return nil, err
		case !there:
			return nil, told(&store.Refusal{Why: store.Missing, Key: key, Pointer: "/plan"})
		}
	}
	if sent, err := objectOf(c.record.Body); err == nil { // what it is kept for may be gone
		if _, err := r.fillFrom(ctx, store.Key{Kind: store.Target, ID: textOf(sent["target"])}, asked, "saws", "parts"); err != nil {
			return nil, err
		}
	}
	for _, name := range []string{"saws", "parts"} {
		if asked[name] == nil {
			return nil, &wire.Refused{Why: wire.Wrong, Pointer: "/" + name, Code: "missing_data", Detail: name + " is needed: neither the request nor a plan or target that it names has any"}
		}
	}
	delete(asked, "plan")
	billet, err := objectOf(c.members["billet"])
	if err != nil {
		return nil, err
	}
	billet["id"], asked["as_of"] = quoted(s.ID), quoted(r.today())
	asked["billets"], err = json.Marshal([]members{billet})
	if err != nil {
		return nil, err
	}
	return json.Marshal(asked)
}

// fillFrom takes members that were not sent from an entry that has them, if it is there.
func (r *Rack) fillFrom(ctx context.Context, key store.Key, asked members, names ...string) (there bool, err error) {
	var found *store.Record
	err = r.seeing(ctx, func(v *view) error {
		found = v.now[key]
		return nil
	})
	if err != nil || found == nil {
		return false, err
	}
	object, err := objectOf(found.Body)
	for _, name := range names {
		if asked[name] == nil && object[name] != nil {
			asked[name] = object[name]
		}
	}
	return true, err
}

// MovementOf asks how far a billet on the rack moves until it has settled.
type MovementOf struct {
	Dimension string           `json:"dimension" validate:"required,oneof=thickness width length" description:"which of its sizes moves"`
	Direction string           `json:"direction,omitempty" validate:"omitempty,oneof=tangential radial longitudinal" description:"how that size lies in the wood. Left out: length longitudinal, the others by the angle of the rings, where the entry has it"`
	To        *shelf.Condition `json:"to_condition,omitempty" description:"condition of the wood at the end. Left out: that of the entry, or of what it is kept for"`
	ReportIn  string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (q *MovementOf) System() string { return q.ReportIn }

// AskMovement is the request for the movement of a billet from what its readings say of it
// today.
func AskMovement(ctx context.Context, r *Rack, s *wire.Sent, req *MovementOf) ([]byte, error) {
	c, answer, err := r.knownAt(ctx, s)
	if err != nil {
		return nil, err
	}
	asked, err := objectOf(s.Body)
	if err != nil {
		return nil, err
	}
	billet, err := objectOf(c.members["billet"])
	if err != nil {
		return nil, err
	}
	if billet[req.Dimension] == nil {
		return nil, lacking(req.Dimension + " of the billet is not known")
	}
	if asked["to_condition"] == nil {
		asked["to_condition"] = c.members["target_condition"]
	}
	asked["size"] = billet[req.Dimension]
	if billet["wood"] != nil {
		asked["wood"] = billet["wood"]
	}
	m := &answer.Result.Moisture
	from := map[string]float64{"mc_pct": m.MC.Value, "mc_sd_points": m.SD}
	if asked["from_condition"], err = json.Marshal(from); err != nil {
		return nil, err
	}
	delete(asked, "dimension")
	if req.Direction == "" {
		if err := lie(asked, billet["rings"], req.Dimension); err != nil {
			return nil, err
		}
	}
	return json.Marshal(asked)
}

// lie says how a size lies in the wood, by the angle between the rings and the faces.
func lie(asked members, rings json.RawMessage, dimension string) error {
	if dimension == "length" {
		asked["direction"] = quoted("longitudinal")
		return nil
	}
	var told struct {
		Angle *float64 `json:"angle_deg"`
	}
	if rings != nil {
		if err := json.Unmarshal(rings, &told); err != nil {
			return err
		}
	}
	if told.Angle == nil {
		return &wire.Refused{Why: wire.Wrong, Pointer: "/direction", Code: "missing_data", Detail: "direction is needed: the entry does not give its rings as angle_deg"}
	}
	angle := *told.Angle
	if dimension == "thickness" {
		angle = 90 - angle
	}
	asked["size_ring_angle_deg"] = json.RawMessage(strconv.FormatFloat(angle, 'f', -1, 64))
	return nil
}

// knownAt is what is kept of the billet of the path, with what its readings say of it today:
// from before where nothing changed since, else found out now.
func (r *Rack) knownAt(ctx context.Context, s *wire.Sent) (*composed, *judged, error) {
	c, err := r.composeAt(ctx, store.Billet, s)
	if err != nil {
		return nil, nil, err
	}
	one := &standing{composed: *c}
	if one.body, err = c.overviewed(r.today()); err != nil {
		return nil, nil, err
	}
	one.asOf = textOf(c.members["as_of"])
	one.basis = one.basisOf(r.version())
	found, err := r.findOut(ctx, one)
	if err != nil {
		return nil, nil, err
	}
	if found.Refused != "" {
		return nil, nil, lacking(found.Refused)
	}
	answer := &judged{}
	return c, answer, json.Unmarshal(found.Answer, answer)
}

// findOut is the answer about one piece of wood.
func (r *Rack) findOut(ctx context.Context, s *standing) (*finding, error) {
	known, err := r.store.Learned(ctx)
	if err != nil {
		return nil, err
	}
	for i := range known {
		if known[i].Key == s.record.Key {
			s.knows(&known[i])
		}
	}
	if !s.current {
		if err := r.learn(ctx, s); err != nil {
			return nil, err
		}
	}
	return s.found, nil
}

// textOf reads a JSON text; what is none is empty.
func textOf(text json.RawMessage) string {
	var plain string
	if json.Unmarshal(text, &plain) != nil {
		return ""
	}
	return plain
}
