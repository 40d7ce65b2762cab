package rack

import (
	"cmp"
	"context"
	"encoding/json"
	"slices"
	"strings"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ReadinessOf asks of wood on the rack what readiness asks of a billet that is sent along.
type ReadinessOf struct {
	Target   *shelf.Condition `json:"target_condition,omitempty" description:"what the wood is to come to. Left out: that of the entry, or of what it is kept for"`
	AsOf     string           `json:"as_of,omitempty" validate:"omitempty,datetime=2006-01-02" description:"the verdicts are for this day, where it is known where the wood has lain. Left out: today"`
	ReportIn string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (q *ReadinessOf) System() string { return q.ReportIn }

// Question makes the request of a calculation about a piece of wood on the rack.
type Question[Req any] func(ctx context.Context, r *Rack, s *wire.Sent, req *Req) ([]byte, error)

// AskReadiness is the request for readiness about a billet or a piece.
func AskReadiness(kind store.Kind) Question[ReadinessOf] {
	return func(ctx context.Context, r *Rack, s *wire.Sent, req *ReadinessOf) ([]byte, error) {
		c, err := r.composeAt(ctx, kind, s)
		if err != nil {
			return nil, err
		}
		if err := c.ask(s.Body); err != nil {
			return nil, err
		}
		return c.readiness(cmp.Or(req.AsOf, max(r.today(), c.ahead)))
	}
}

// composeAt gathers what is kept of the entry of the path.
func (r *Rack) composeAt(ctx context.Context, kind store.Kind, s *wire.Sent) (*composed, error) {
	key, err := keyOf(kind, s)
	if err != nil {
		return nil, err
	}
	return r.compose(ctx, key)
}

// ask puts what was sent in the place of what is kept.
func (c *composed) ask(body []byte) error {
	asked, err := objectOf(body)
	for name, text := range asked {
		c.members[name] = text
	}
	return err
}

// readiness is the request for readiness on a day.
func (c *composed) readiness(day string) ([]byte, error) {
	if c.members["target_condition"] == nil {
		return nil, &wire.Refused{Why: wire.Wrong, Pointer: "/target_condition", Code: "missing_data",
			Detail: "target_condition is needed: neither the request nor the entry has one, nor what it is kept for"}
	}
	delete(c.members, "as_of")
	delete(c.members, "horizon_days")
	if c.members["stays"] != nil {
		c.members["as_of"] = quoted(day)
	}
	return json.Marshal(c.members)
}

// overviewed is the request that the overview asks: in inches and pounds where the wood was
// measured in inches.
func (c *composed) overviewed(day string) ([]byte, error) {
	if inInches(c.members["billet"]) {
		c.members["report_in"] = quoted(wire.InchLB)
		defer delete(c.members, "report_in")
	}
	return c.readiness(max(day, c.ahead))
}

// inInches reports a billet whose thickness was written in inches.
func inInches(billet json.RawMessage) bool {
	sent, err := objectOf(billet)
	if err != nil {
		return false
	}
	written := textOf(sent["thickness"])
	if written == "" {
		parts, err := objectOf(sent["thickness"])
		if err != nil {
			return false
		}
		written = textOf(parts["unit"])
	}
	written = strings.ToLower(strings.TrimSpace(written))
	return slices.ContainsFunc([]string{"in", "inch", "inches", `"`, "ft", "'", "[in_i]"}, func(unit string) bool { return strings.HasSuffix(written, unit) })
}

// today is the day of the answers.
func (r *Rack) today() string { return r.now().UTC().Format(time.DateOnly) }

// quoted is a text of plain letters as JSON.
func quoted(text string) json.RawMessage { return json.RawMessage(`"` + text + `"`) }

// bodiesOf are the members of a list of the request as they were sent.
func bodiesOf(text []byte, member string) ([]json.RawMessage, error) {
	object, err := objectOf(text)
	if err != nil {
		return nil, err
	}
	var all []json.RawMessage
	return all, json.Unmarshal(object[member], &all)
}
