package plan

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// kind is a PartKind on one saw, in nanometres.
type kind struct {
	l, w, t nm
	pieces  int
	height  nm // of a set with all its cuts and re-facings
	cot     float64
	ringed  bool
	worth   int64
}

// volume is that of the wood of a set without its cuts, in cubic nanometres.
func (k *kind) volume() float64 {
	return float64(k.l) * float64(k.w) * float64(k.t) * float64(k.pieces)
}

// rig is a saw in nanometres, with the kinds of part as it would saw them.
type rig struct {
	resaw, cross, rip, reface nm
	far                       bool
	highest                   nm
	kinds                     []kind
	lengths, widths           []nm // distinct, sorted

	deepest nm // largest usable thickness of all the billets
	shared  map[uint32]*stackGraph
	stamp   int64 // of the worths last priced
}

func newRig(s *Saw, parts []PartKind) *rig {
	r := &rig{
		resaw: exact.Whole(s.Resaw), cross: exact.Whole(s.Crosscut), rip: exact.Whole(s.Rip), reface: exact.Whole(s.Reface),
		far: s.FarFaceFinished, highest: exact.Whole(s.HighestCut), shared: map[uint32]*stackGraph{},
	}
	if r.highest == 0 {
		r.highest = math.MaxInt64
	}
	for _, p := range parts {
		k := kind{l: exact.Whole(p.Length), w: exact.Whole(p.Width), pieces: p.Pieces, worth: p.Worth}
		k.t = exact.Whole(p.On(s).Sum())
		k.height = nm(p.Pieces) * (k.t + r.resaw + r.reface)
		if p.LeastRingAngle > 0 {
			k.ringed, k.cot = true, p.LeastRingAngle.Cos()/p.LeastRingAngle.Sin()
		}
		r.kinds = append(r.kinds, k)
	}
	r.lengths = distinct(r.kinds, func(k kind) nm { return k.l })
	r.widths = distinct(r.kinds, func(k kind) nm { return k.w })
	return r
}

func distinct(kinds []kind, of func(kind) nm) []nm {
	var out []nm
	for _, k := range kinds {
		out = append(out, of(k))
	}
	return sorted(out)
}

// suited returns the kinds that the billet's grain suits at all and the saw can
// cut, as a mask.
func (r *rig) suited(b *Billet, parts []PartKind) uint32 {
	mask := uint32(0)
	for i := range parts {
		p := &parts[i]
		ok := r.kinds[i].w <= r.highest
		if p.LeastRingAngle > 0 && b.Pith == nil {
			const tiny = 1e-9 * quantity.Degree
			ok = ok && b.RingAngle != nil && *b.RingAngle >= p.LeastRingAngle-tiny
		}
		if p.MostRunoutOneIn > 0 && (b.RunoutOneIn == nil || *b.RunoutOneIn < p.MostRunoutOneIn) {
			ok = false
		}
		if ok {
			mask |= 1 << i
		}
	}
	return mask
}

// On returns what a sawn leaf of this kind has over its final thickness on a saw:
// the saw's clean-up and wander, and for the shrinkage still to come what all of
// that, dry, is short of the sawn thickness: dry / (1 - shrinkage) - dry.
//
// s: any saw; p.Shrinkage 0 to 0.5. Accuracy: exact but for the rounding of the
// oversize to whole nanometres.
//
// Source: common practice for the parts; the oversize from the meaning of shrinkage
// as a share of the size before it (Wood Handbook, FPL-GTR-190, ch. 4).
func (p *PartKind) On(s *Saw) resaw.Allowances {
	a := resaw.Allowances{Final: p.Final, CleanupShow: s.CleanupShow, CleanupBack: s.CleanupBack, Wander: s.Wander, Flatness: p.Flatness}
	dry := p.Final + p.Flatness + s.CleanupShow + s.CleanupBack + s.Wander
	a.Oversize = exact.Length(exact.Whole(dry/quantity.Length(1-p.Shrinkage) - dry))
	return a
}
