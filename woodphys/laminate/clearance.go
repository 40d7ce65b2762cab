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
	Usual           quantity.Length // what to build: Least and what the bench needs; Middle where there is no room for that; Least where it is not possible
	Short           quantity.Length // by how much Most is too small when it is not possible, else 0
	// Dry and Wet are the changes of the clearance from the build to both states.
	Dry, Wet quantity.Band[quantity.Length]
	// Closes and Opens are the changes to the narrowest and to the widest it will be; at most
	// and at least 0, the build itself.
	Closes, Opens quantity.Band[quantity.Length]
	Fit           Fit
	Notes         method.Notes
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
		first := len(out.Notes.Warnings)
		if err := out.Notes.Use(&clearanceRow, "change", tidy(in.b.Value.Millimetres())); err != nil {
			return Clearance{}, method.Renamed(err, [2]string{"change", in.name})
		}
		out.Notes.RenameFrom(first, [2]string{"change", in.name})
		if err := holds(in.name, *in.b); err != nil {
			return Clearance{}, err
		}
	}
	out.Dry, out.Wet = minus(outer.ToDriest, inner.ToDriest), minus(outer.ToWettest, inner.ToWettest)
	hold := func(change quantity.Band[quantity.Length]) {
		out.Closes, out.Opens = narrower(out.Closes, change), wider(out.Opens, change)
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
	out.Least, out.Greatest = play.Least-out.Closes.Low, play.Most-out.Opens.High
	out.Middle = (out.Least + out.Greatest) / 2
	out.Possible = out.Least <= out.Greatest
	if out.Usual = out.Least; out.Possible {
		out.Usual = min(out.Least+benchRoom, out.Middle)
	}
	out.Short = quantity.Length(math.Max(0, float64(out.Least-out.Greatest)))
	out.Fit = out.fit(play)
	return out, nil
}

// narrower and wider are the ends of two bands that lie lowest and highest.
func narrower(a, b quantity.Band[quantity.Length]) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: min(a.Value, b.Value), Low: min(a.Low, b.Low), High: min(a.High, b.High)}
}

func wider(a, b quantity.Band[quantity.Length]) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: max(a.Value, b.Value), Low: max(a.Low, b.Low), High: max(a.High, b.High)}
}

// Verdict is what becomes of a clearance.
type Verdict string

// The verdicts, in the order in which they are looked for.
const (
	TooLarge Verdict = "too_large" // the inner part does not go in at the build
	Binds    Verdict = "binds"     // the clearance closes
	MayBind  Verdict = "may_bind"  // it comes below the least allowed, in more than 5 of 100 pairs
	Gapes    Verdict = "gapes"     // it comes above the widest that serves, in more than 5 of 100 pairs
	Fits     Verdict = "fits"
)

// Made is a clearance as two parts were made.
type Made struct {
	Gap                   quantity.Length                // at the build
	Driest, Wettest       quantity.Band[quantity.Length] // in both states
	Narrowest, Widest     quantity.Band[quantity.Length] // of all
	NarrowestIn, WidestIn State
	Verdict               Verdict
}

// State is when a clearance is at an end of what it goes through.
type State string

// The states.
const (
	AtTheBuild State = "build"
	InDriest   State = "driest"
	InWettest  State = "wettest"
	Lagging    State = "lagging" // while one part is still dry or wet and the other is not
)

// stateOf is the first of the states at an end.
func stateOf(end, dry, wet quantity.Length) State {
	for _, at := range []struct {
		length quantity.Length
		state  State
	}{{0, AtTheBuild}, {dry, InDriest}, {wet, InWettest}} {
		if end == at.length {
			return at.state
		}
	}
	return Lagging
}

// AsMade returns what becomes of a clearance that two parts have at the build, -100 m to
// 100 m, held against play.
//
// Accuracy: as AtBuild. Source: as AtBuild; a clearance is closed at 0, or at the press fit
// that play allows.
func (c *Clearance) AsMade(gap quantity.Length, play Play) Made {
	moved := func(b quantity.Band[quantity.Length]) quantity.Band[quantity.Length] {
		return quantity.Band[quantity.Length]{Value: gap + b.Value, Low: gap + b.Low, High: gap + b.High}
	}
	out := Made{Gap: gap, Driest: moved(c.Dry), Wettest: moved(c.Wet), Narrowest: moved(c.Closes), Widest: moved(c.Opens),
		NarrowestIn: stateOf(c.Closes.Low, c.Dry.Low, c.Wet.Low), WidestIn: stateOf(c.Opens.High, c.Dry.High, c.Wet.High), Verdict: Fits}
	closed := min(0, play.Least)
	switch {
	case gap < closed:
		out.Verdict = TooLarge
	case out.Narrowest.Value < closed || out.Narrowest.Value == 0 && closed == 0:
		out.Verdict = Binds
	case gap < c.Least:
		out.Verdict = MayBind
	case gap > c.Greatest:
		out.Verdict = Gapes
	}
	return out
}

func (p *Play) check(n *method.Notes) error {
	for _, in := range [...]struct {
		name string
		is   quantity.Length
	}{{"play_least", p.Least}, {"play_most", p.Most}} {
		first := len(n.Warnings)
		if err := n.Use(&clearanceRow, "play", tidy(in.is.Millimetres())); err != nil {
			return method.Named(err, in.name)
		}
		n.RenameFrom(first, [2]string{"play", in.name})
	}
	if p.Least > p.Most {
		limit := method.AtLeast(p.Least.AtLeast("mm"))
		return &method.Error{Code: method.Contradictory, Input: "play_most", Limit: limit,
			Detail: "the widest clearance allowed is smaller than the least; it must be " + limit.String()}
	}
	return nil
}
