package plan

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// want is what one kind of part wants on one saw: of the wood its sizes as sawn and
// its grain, of the plan its numbers. It is all that the search knows of a part.
type want struct {
	l, w, t nm    // of one leaf as sawn
	thin    nm    // at its thin edge, of a half that may be split from a wedge; else 0
	skin    nm    // that its clean-up takes off either face at least
	pieces  int   // of a set, neighbours in one stack
	pool    int   // sets of as many such sets, from anywhere, are one set of the part; else 1
	height  nm    // of a set with all its cuts and re-facings
	match   Match // the leaves of every set are neighbours, whatever it is
	ringed  bool  // asks for a ring angle
	angle   quantity.Angle
	cot     float64 // of that angle
	runout  float64 // the fibre leaves the face by at most 1 in this; 0: any

	worth int64 // of one set, in units of the rig
	whole int64 // of one set of the part
	least int   // sets wanted at least
	most  *int  // sets of any worth at most; nil: no limit
}

func newWant(p *PartKind, s *Saw, c *cost, pooled bool, unit int64) want {
	k := want{
		pool: 1, whole: p.Worth,
		l: exact.Whole(p.Length), w: exact.Whole(p.Width), t: exact.Whole(p.On(s).Sum()), pieces: p.Pieces,
		match:  p.Match,
		runout: p.MostRunoutOneIn, worth: p.Worth * unit, least: p.Least, most: p.Most,
	}
	if pooled {
		k.pool, k.pieces, k.worth, k.least = p.Pieces, 1, k.worth/int64(p.Pieces), p.Least*p.Pieces
		if p.Most != nil {
			most := *p.Most * p.Pieces
			k.most = &most
		}
	}
	if p.ThinEdge > 0 {
		k.thin = k.t - exact.Whole(p.Final) + exact.Whole(p.ThinEdge)
	}
	if !p.AsSawn {
		k.skin = exact.Whole(min(s.CleanupShow, s.CleanupBack))
	}
	k.height = nm(k.pieces) * (k.t + c.betweenLeaves())
	if p.LeastRingAngle > 0 {
		k.ringed, k.angle, k.cot = true, p.LeastRingAngle, p.LeastRingAngle.Cos()/p.LeastRingAngle.Sin()
	}
	return k
}

// Bounds of pooling: sets of these are counted piece by piece. Own choices, so that counts
// and worths stay whole numbers of a size that can be counted.
const (
	mostUnit   = 840 // common multiple of the pieces of sets: of up to 8
	mostPooled = 60_000
)

// pooled tells of which parts the pieces of a set need no match and may come from
// anywhere, and a common multiple of their numbers.
func pooled(parts []PartKind) (is []bool, unit int64) {
	is, unit = make([]bool, len(parts)), 1
	for i := range parts {
		p := &parts[i]
		n := int64(p.Pieces)
		if p.Match != MatchNone || n < 2 || p.Least*p.Pieces > mostPooled || p.Most != nil && *p.Most*p.Pieces > mostPooled {
			continue
		}
		if u := unit / gcd(unit, n) * n; u <= mostUnit {
			is[i], unit = true, u
		}
	}
	return is, unit
}

// volume is that of the wood of a set without its cuts, in cubic nanometres.
func (k *want) volume() float64 {
	return float64(k.l) * float64(k.w) * float64(k.t) * float64(k.pieces)
}

// On returns what a sawn leaf of this kind has over its final thickness on a saw:
// the saw's clean-up and wander, and for the shrinkage still to come what all of
// that, dry, is short of the sawn thickness: dry / (1 - shrinkage) - dry.
//
// A part that is told as sawn has nothing over. Sizes in steps are rounded up to one.
//
// s: any saw; p.Shrinkage 0 to 0.5. Accuracy: exact but for the rounding of the
// oversize to whole nanometres.
//
// Source: common practice for the parts; the oversize from the meaning of shrinkage
// as a share of the size before it (Wood Handbook, FPL-GTR-190, ch. 4).
func (p *PartKind) On(s *Saw) resaw.Allowances {
	if p.AsSawn {
		return p.rounded(resaw.Allowances{Final: p.Final})
	}
	a := resaw.Allowances{Final: p.Final, CleanupShow: s.CleanupShow, CleanupBack: s.CleanupBack, Wander: s.Wander,
		Flatness: p.Flatness}
	dry := p.Final + p.Flatness + s.CleanupShow + s.CleanupBack + s.Wander
	a.Oversize = exact.Length(exact.Whole(dry/quantity.Length(1-p.Shrinkage) - dry))
	return p.rounded(a)
}

// rounded adds what a leaf is sawn thicker so that the fence can be set to it.
func (p *PartKind) rounded(a resaw.Allowances) resaw.Allowances {
	a.Rounding = upTo(a.Sum(), p.Step) - a.Sum()
	return a
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
