package laminate

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Part is one of two parts that meet, by how far its size changes from the build to
// the driest and to the wettest state it will see.
type Part struct {
	ToDriest, ToWettest quantity.Band[quantity.Length]
}

// Play is the clearance allowed in service: outer size minus inner size. Least 0
// means never binding; a negative Least allows a press fit of that much. Most is the
// widest gap that still serves.
type Play struct{ Least, Most quantity.Length }

// Season says whether both parts are in the same state at the same time.
type Season bool

// Together: both parts dry and wet together. Apart: one may still be wet when the
// other is dry (a thin inlay in a thick board, a pocket under a finish).
const (
	Together Season = false
	Apart    Season = true
)

// Clearance is the clearance to build in.
type Clearance struct {
	Possible        bool
	Least, Greatest quantity.Length // at build; with Possible false, Least is above Greatest
	Middle          quantity.Length // halfway: as far from binding as from gaping
	Usual           quantity.Length // what to build: Least and what the bench needs; Middle where there is no room for that
	Short           quantity.Length // by how much Most is too small when it is not possible, else 0
	// Dry and Wet are the changes of the clearance from the build to both states.
	Dry, Wet quantity.Band[quantity.Length]
	Fit      Fit
	Notes    method.Notes
}

// benchRoom is what a joint is made wider than it needs, because planes and rules err by so
// much: common practice, no source.
const benchRoom = 0.2 * quantity.Millimetre

// Fit is how to fit two parts.
type Fit string

// The fits.
const (
	NoFit  Fit = "none"  // no clearance keeps both limits
	AnyFit Fit = "any"   // the parts move alike
	Snug   Fit = "snug"  // the gap is widest in the dry season
	Loose  Fit = "loose" // the gap is tightest in the dry season
)

// fit is how to fit the parts between the limits.
func (c *Clearance) fit(play Play) Fit {
	switch {
	case !c.Possible:
		return NoFit
	case c.Least <= play.Least && c.Greatest >= play.Most:
		return AnyFit
	case c.Dry.Value > c.Wet.Value:
		return Snug
	}
	return Loose
}

// AtBuild returns the least and the greatest clearance at build between two parts,
// such that the clearance stays in play at the build, at the driest and at the wettest
// state: pocket and tenon, board and inlay, lid and rim, cap over body, fingerboard
// over top. The outer part is the one that gives room: the pocket, the rebate, the
// one whose size growing opens the gap.
//
// outer, inner: changes of size, -100 m to 100 m. play: -10 m to 10 m, Least below
// Most.
//
// Errors: out_of_range for play_least, play_most, outer/to_driest, outer/to_wettest,
// inner/to_driest, inner/to_wettest; contradictory for a broken band and for a Least
// above Most.
// Accuracy: each limit holds for 95 of 100 pairs in each state, with the deviations of
// both parts independent; between the states the clearance moves evenly, so it stays
// between them.
// Source: arithmetic on the sum of two independent changes, derived.
func AtBuild(outer, inner Part, play Play, season Season) (Clearance, error) {
	var out Clearance
	if err := play.check(&out.Notes); err != nil {
		return Clearance{}, err
	}
	for _, in := range [...]struct {
		name string
		b    *quantity.Band[quantity.Length]
	}{
		{"outer/to_driest", &outer.ToDriest}, {"outer/to_wettest", &outer.ToWettest},
		{"inner/to_driest", &inner.ToDriest}, {"inner/to_wettest", &inner.ToWettest},
	} {
		if err := out.Notes.Use(&clearanceRow, "change", tidy(in.b.Value.Millimetres())); err != nil {
			return Clearance{}, method.Renamed(err, [2]string{"change", in.name})
		}
		if err := holds(in.name, *in.b); err != nil {
			return Clearance{}, err
		}
	}
	out.Dry, out.Wet = minus(outer.ToDriest, inner.ToDriest), minus(outer.ToWettest, inner.ToWettest)
	out.Least, out.Greatest = play.Least, play.Most // the build itself
	hold := func(change quantity.Band[quantity.Length]) {
		out.Least = max(out.Least, play.Least-change.Low)
		out.Greatest = min(out.Greatest, play.Most-change.High)
	}
	hold(out.Dry)
	hold(out.Wet)
	if season == Apart {
		// the part lags behind: anything between build, dry and wet against the other's
		var build quantity.Band[quantity.Length]
		for _, o := range [...]quantity.Band[quantity.Length]{build, outer.ToDriest, outer.ToWettest} {
			for _, i := range [...]quantity.Band[quantity.Length]{build, inner.ToDriest, inner.ToWettest} {
				hold(minus(o, i))
			}
		}
	}
	out.Middle = (out.Least + out.Greatest) / 2
	out.Possible = out.Least <= out.Greatest
	out.Usual = min(out.Least+benchRoom, out.Middle)
	out.Short = quantity.Length(math.Max(0, float64(out.Least-out.Greatest)))
	out.Fit = out.fit(play)
	return out, nil
}

func (p *Play) check(n *method.Notes) error {
	if err := n.Use(&clearanceRow, "play", tidy(p.Least.Millimetres())); err != nil {
		return method.Renamed(err, [2]string{"play", "play_least"})
	}
	if err := n.Use(&clearanceRow, "play", tidy(p.Most.Millimetres())); err != nil {
		return method.Renamed(err, [2]string{"play", "play_most"})
	}
	if p.Least > p.Most {
		return &method.Error{Code: method.Contradictory, Input: "play_most",
			Detail: "the widest clearance allowed is smaller than the least"}
	}
	return nil
}
