package rack

import (
	"context"
	"encoding/json"
	"slices"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// atMass is where a reading has its weight.
const atMass = "/reading/mass"

// scale looks at weights that were just kept, for slips. It asks the store and nothing that
// questions wait for; what it cannot find out it says nothing of.
type scale struct {
	rack  *Rack
	found map[store.Key]*finding // read once
}

// odd is what is odd about an entry that was just kept; nil for nothing.
func (s *scale) odd(ctx context.Context, r *store.Record) []method.Warning {
	detail, slip := s.doubt(ctx, r)
	if detail == "" {
		return nil
	}
	detail += "; it was kept as it was sent"
	if slip != "" {
		detail += ". " + slip
	}
	return []method.Warning{{Code: method.CheckInput, Input: atMass, Detail: detail}}
}

// doubt is what is odd about an entry, and the slip that would explain it; empty for nothing.
func (s *scale) doubt(ctx context.Context, r *store.Record) (detail, slip string) {
	if r.Kind != store.Reading || r.Form != weightForm || aside(r.Body) {
		return "", ""
	}
	now, before := lastWeightOf(r), s.before(ctx, r)
	if now == nil || before == nil {
		return "", ""
	}
	mass, err := quantity.MassOf(now.Mass.Value, now.Mass.Unit)
	if err != nil {
		return "", ""
	}
	expected, why, known := s.expected(ctx, r, before)
	if !known {
		return "", ""
	}
	doubt, odd := expected.Doubts(mass, now.Mass.Unit)
	if !odd {
		return "", ""
	}
	than := "more than"
	if doubt.Below {
		than = "less than"
	}
	return mass.Format(now.Mass.Unit) + " is " + than + " the " + wire.MassSpan(expected.Least, expected.Most, now.Mass.Unit) +
		" to be expected " + why, doubt.Slip
}

// before is the weight before one, where no wood was taken off in between; nil for none.
func (s *scale) before(ctx context.Context, r *store.Record) *LastWeight {
	all, _, err := s.rack.store.List(ctx, &store.Query{Kind: store.Reading, Of: r.Of, Form: weightForm, Until: r.Day, Limit: store.MostPage})
	if err != nil {
		return nil
	}
	all = slices.DeleteFunc(all, func(one store.Record) bool { return one.Day >= r.Day || aside(one.Body) })
	if len(all) == 0 {
		return nil
	}
	last := lastWeightOf(&all[len(all)-1])
	events, _, err := s.rack.store.List(ctx, &store.Query{Kind: store.Event, Of: r.Of, From: all[len(all)-1].Day, Until: r.Day, Limit: store.MostPage})
	if err != nil || slices.ContainsFunc(events, func(e store.Record) bool { return slices.Contains(cuts, e.Form) }) {
		return nil
	}
	return last
}

// expected is between what masses a weight is to be expected, and by what that is known: what was
// found out of the wood, else the weight before.
func (s *scale) expected(ctx context.Context, r *store.Record, before *LastWeight) (f readiness.Foreseen, why string, known bool) {
	if answer := s.answer(ctx, r.Of); answer != nil {
		if f, known = answer.foreseenOn(r.Day); known {
			return f, "on " + wire.PlainDate(r.Day), true
		}
	}
	last, err := quantity.MassOf(before.Mass.Value, before.Mass.Unit)
	if err != nil {
		return f, "", false
	}
	return readiness.AfterWeight(last, between(before.Date, r.Day)), "after " + last.Format(before.Mass.Unit) + " on " + wire.PlainDate(before.Date), true
}

// answer is what was found out of wood; nil for nothing.
func (s *scale) answer(ctx context.Context, wood store.Key) *judged {
	if s.found == nil {
		s.found = map[store.Key]*finding{}
		all, err := s.rack.store.Learned(ctx)
		if err != nil {
			return nil
		}
		for i := range all {
			var f finding
			if json.Unmarshal(all[i].Answer, &f) == nil {
				s.found[all[i].Key] = &f
			}
		}
	}
	f, answer := s.found[wood], new(judged)
	if f == nil || f.Answer == nil || json.Unmarshal(f.Answer, answer) != nil {
		return nil
	}
	return answer
}

// keptWithDoubts is an entry as it was just kept, with what is odd about it; at is where it stands
// in the request.
func (s *scale) keptWithDoubts(ctx context.Context, r *store.Record, at string) *Kept {
	k := kept(r)
	k.Warnings = s.odd(ctx, r)
	for i := range k.Warnings {
		k.Warnings[i].Input = at + k.Warnings[i].Input
	}
	return k
}
