package shelf

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/quantity"
)

// Losses are the usual losses that stand in for what a request leaves out, as
// the tables of the shop have them.
type Losses struct {
	Cleanup  species.Size // a face, after a good resaw blade
	Split    species.Size // a face split with a froe
	Wander   species.Size // of a tuned blade; the high end, to be sure of the thickness
	Flatness species.Size
	Facing   species.Size // both outside faces of a billet, in all
	LeafWet  species.Size // thick and thin of a leaf resawn before drying
}

func lossesOf(t *species.Tables) (Losses, error) {
	var l Losses
	for _, one := range []struct {
		to   *species.Size
		id   string
		from func(species.Span) species.Size
	}{
		{&l.Cleanup, "cleanup_resaw", usualOf}, {&l.Split, "split_face", usualOf},
		{&l.Wander, "wander_tuned", func(s species.Span) species.Size { return s.High }},
		{&l.Flatness, "flatness", usualOf}, {&l.Facing, "facing", usualOf}, {&l.LeafWet, "leaf_wet", usualOf},
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

// StandIns collects the usual losses that stood in for what was not given.
type StandIns struct {
	Report wire.Reporter
	All    []Provenance
}

// Or is the caller's length, or the usual one, which is then noted.
func (s *StandIns) Or(given *wire.Length, name string, usual species.Size) quantity.Length {
	if given != nil {
		return given.SI
	}
	l, _ := usual.Get()
	s.Note(name, usual)
	return l
}

// Note notes a figure of the tables that stood in, once.
func (s *StandIns) Note(name string, size species.Size) {
	l, _ := size.Get()
	q := s.Report.Cut(l)
	one := Provenance{Name: name, Value: q.Told(), Unit: q.Unit, Source: size.Source, Checked: MarkOf(size.Checked)}
	if !slices.Contains(s.All, one) {
		s.All = append(s.All, one)
	}
}

// UsualLoss is an allowance that stands in for one that may be given.
type UsualLoss struct {
	Given *wire.Length
	Usual species.Size
	What  string
}

// UsualWords says which usual losses stand in, of those that are not given; ""
// where all are.
func UsualWords(r wire.Reporter, losses ...UsualLoss) string {
	var said []string
	for _, one := range losses {
		if one.Given == nil {
			said = append(said, Spoken(r, one.Usual)+" "+one.What)
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "usual allowances stand in for those not given: " + strings.Join(said, ", ") +
		"; defaults_used has their sources"
}

// CleanupLoss is the usual clean-up that stands in where that of the show face is
// not given; of the back it stands in too unless that has its own.
func CleanupLoss(show, back *wire.Length, usual species.Size) UsualLoss {
	if back == nil {
		return UsualLoss{show, usual, "clean-up a face"}
	}
	return UsualLoss{show, usual, "clean-up of the show face"}
}

// Spoken writes a usual loss for people.
func Spoken(r wire.Reporter, s species.Size) string {
	l, _ := s.Get()
	return l.Format(r.LengthUnit)
}

// sizeInName is a size that a name of the tables holds: "blade over 13 mm wide".
var sizeInName = regexp.MustCompile(`([0-9]+(?:\.[0-9]+)?) mm\b`)

// NameIn is a name of the tables with the sizes in it in the units of a report.
func NameIn(r wire.Reporter, name string) string {
	if r.LengthUnit == "mm" {
		return name
	}
	return sizeInName.ReplaceAllStringFunc(name, func(size string) string {
		l, err := quantity.ParseLength(size)
		if err != nil { // no such size
			return size
		}
		const places = 2 // a size in a name is a round one
		q := r.Length(l)
		return quantity.FormatNumber(q.Value, places) + " " + q.Unit
	})
}
