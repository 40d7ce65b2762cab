package api

import (
	"fmt"
	"strings"

	"latewood/species"
	"latewood/woodphys/quantity"
)

// losses are the usual losses that stand in for what a request leaves out, as
// the tables of the shop have them.
type losses struct {
	cleanup  species.Size // a face, after a good resaw blade
	split    species.Size // a face split with a froe
	wander   species.Size // of a tuned blade; the high end, to be sure of the thickness
	flatness species.Size
	facing   species.Size // both outside faces of a billet, in all
	leafWet  species.Size // thick and thin of a leaf resawn before drying
}

func lossesOf(t *species.Tables) (losses, error) {
	var l losses
	for _, one := range []struct {
		to   *species.Size
		id   string
		from func(species.Span) species.Size
	}{
		{&l.cleanup, "cleanup_resaw", usualOf}, {&l.split, "split_face", usualOf}, {&l.wander, "wander_tuned", func(s species.Span) species.Size { return s.High }},
		{&l.flatness, "flatness", usualOf}, {&l.facing, "facing", usualOf}, {&l.leafWet, "leaf_wet", usualOf},
	} {
		row, ok := t.Allowance(one.id)
		if ok {
			*one.to = one.from(row.Loss)
		}
		if !one.to.Known() {
			return l, fmt.Errorf("the tables of the shop lack the allowance %s", one.id)
		}
	}
	return l, nil
}

func usualOf(s species.Span) species.Size { return s.Usual }

// standIns collects the usual losses that stood in for what was not given.
type standIns struct {
	report reporter
	all    []Provenance
}

// or is the caller's length, or the usual one, which is then noted.
func (s *standIns) or(given *Length, name string, usual species.Size) quantity.Length {
	if given != nil {
		return given.SI
	}
	l, _ := usual.Get()
	q := s.report.Length(l)
	s.all = append(s.all, Provenance{Name: name, Value: q.Value, Unit: q.Unit, Source: usual.Source, Checked: string(usual.Checked)})
	return l
}

// usualLoss is an allowance that stands in for one that may be given.
type usualLoss struct {
	given *Length
	usual species.Size
	what  string
}

// usualWords says which usual losses stand in, of those that are not given; ""
// where all are.
func usualWords(r reporter, losses ...usualLoss) string {
	var said []string
	for _, one := range losses {
		if one.given == nil {
			said = append(said, spoken(r, one.usual)+" "+one.what)
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "usual allowances stand in for those not given: " + strings.Join(said, ", ") + "; stand_ins has their sources"
}

// cleanupLoss is the usual clean-up that stands in where that of the show face is
// not given; of the back it stands in too unless that has its own.
func cleanupLoss(show, back *Length, usual species.Size) usualLoss {
	if back == nil {
		return usualLoss{show, usual, "clean-up a face"}
	}
	return usualLoss{show, usual, "clean-up of the show face"}
}

// spoken writes a usual loss for people.
func spoken(r reporter, s species.Size) string {
	l, _ := s.Get()
	return l.Format(r.length)
}
