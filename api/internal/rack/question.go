package rack

import (
	"bytes"
	"context"
	"encoding/json"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ReadinessOf asks of a billet on the rack what readiness asks of one that is sent along.
type ReadinessOf struct {
	Target   *shelf.Condition `json:"target_condition,omitempty" description:"what the wood is to come to. Left out: that of the entry"`
	AsOf     string           `json:"as_of,omitempty" validate:"omitempty,datetime=2006-01-02" description:"the verdicts are for this day, where the entry has stays. Left out: today"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (q *ReadinessOf) System() string { return q.ReportIn }

// mostReadings is how many readings of a billet a question takes.
const mostReadings = 500

// members are those of a JSON object as they were sent.
type members map[string]json.RawMessage

// AskReadiness is the request for /v1/readiness about a billet on the rack: the billet and
// its readings as they are kept.
func AskReadiness(ctx context.Context, r *Rack, s *wire.Sent, req *ReadinessOf) ([]byte, error) {
	key, err := keyOf(store.Billet, s)
	if err != nil {
		return nil, err
	}
	now, err := r.store.Get(ctx, key)
	if err != nil {
		return nil, told(err)
	}
	if now.Gone {
		return nil, told(&store.Refusal{Why: store.WasGone, Key: now.Key})
	}
	asked, err := objectOf(s.Body)
	if err != nil {
		return nil, err
	}
	sent, err := objectOf(now.Body)
	if err != nil {
		return nil, err
	}
	for _, name := range []string{"billet", "stays", "target_condition"} {
		if asked[name] == nil && sent[name] != nil {
			asked[name] = sent[name]
		}
	}
	if asked["target_condition"] == nil {
		return nil, &wire.Refused{Why: wire.Wrong, Pointer: "/target_condition", Code: "missing", Detail: "target_condition is needed: neither the request nor the entry has one"}
	}
	if err := r.readingsOf(ctx, s.ID, asked); err != nil {
		return nil, err
	}
	switch {
	case asked["stays"] == nil:
		delete(asked, "as_of")
	case req.AsOf == "":
		asked["as_of"] = json.RawMessage(`"` + time.Now().UTC().Format(time.DateOnly) + `"`)
	}
	return json.Marshal(asked)
}

// readingsOf adds the readings of a billet, in order of their days.
func (r *Rack) readingsOf(ctx context.Context, billet string, asked members) error {
	all, total, err := r.store.List(ctx, &store.Query{Kind: store.Reading, Of: store.Key{Kind: store.Billet, ID: billet}, Limit: mostReadings})
	if err != nil {
		return err
	}
	if total > mostReadings {
		return &wire.Refused{Why: wire.Wrong, Code: "too_many_items", Detail: "the billet has more readings than a question takes; remove some that no longer matter"}
	}
	readings := []json.RawMessage{}
	for i := range all {
		object, err := objectOf(all[i].Body)
		if err != nil {
			return err
		}
		readings = append(readings, object["reading"])
	}
	asked["readings"], err = json.Marshal(readings)
	return err
}

// objectOf reads an object, whose members stay as they are.
func objectOf(text []byte) (members, error) {
	object := members{}
	if len(bytes.TrimSpace(text)) == 0 {
		return object, nil
	}
	return object, json.Unmarshal(text, &object)
}

// bodiesOf are the readings of a weighing day as they were sent.
func bodiesOf(text []byte) ([][]byte, error) {
	var day struct {
		Readings []json.RawMessage `json:"readings"`
	}
	err := json.Unmarshal(text, &day)
	all := make([][]byte, len(day.Readings))
	for i := range all {
		all[i] = day.Readings[i]
	}
	return all, err
}
