package plan

import (
	"context"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Lack is why a plan holds fewer sets of a part than are wanted, or none.
type Lack struct {
	Part    int // index of the part
	Missing int // sets from the least wanted
	Cause   Cause
	Alone   int    // sets that the wood gives of this part with no other, found so far
	Buy     *Buy   // what would give the missing sets; nil where none are missing
	Misfit  Misfit // with NoBillet
}

// Buy is wood that would give the missing sets: so many pieces of a rough size.
type Buy struct {
	Count int
	Size  // Final is the rough thickness
}

// highestStack is how thick wood is bought at most, set by set. Own choice.
const highestStack = 100 * quantity.Millimetre

// buy tells what would give sets that are missing, on a saw: with a kerf at both ends and
// edges, and faced as the first billet is.
func buy(q *Request, saw, part, missing int) *Buy {
	if missing == 0 {
		return nil
	}
	k, s, b := &q.Parts[part], &q.Saws[saw], &q.Billets[0]
	r := newRig(s, q.Parts[part:part+1])
	facing := exact.Whole(b.FacingFace1) + exact.Whole(b.FacingFar)
	w := &r.kinds[0]
	sets := missing * w.pool
	each := int(max(1, min(nm(sets), (exact.Whole(highestStack)-facing)/w.height)))
	thick := nm(each)*w.height - r.betweenLeaves() + facing
	if !r.far {
		thick += r.resaw
	}
	return &Buy{Count: (sets + each - 1) / each,
		Size: Size{Length: k.Length + 2*s.Crosscut, Width: k.Width + 2*s.Rip, Final: exact.Length(thick)}}
}

// Cause is the kind of a Lack.
type Cause int

// Causes.
const (
	NoBillet Cause = iota // no billet could give a set on any saw; Misfit says why
	NoPlace               // zones, taper, warp or the rings leave no place that is large enough
	NoWood                // with no other part the wood would give Alone sets, less than wanted
	Competes              // other parts want the same wood
)

// Misfit is why no billet gives a set of a part on any saw.
type Misfit struct {
	Everywhere []Fault // those of every billet on every saw
	Somewhere  []Fault // the others: no billet on any saw is free of all faults

	Width, Length, Thickness           quantity.Length // that a set of it takes, on the saw on which it takes least
	HighestCut, Longest, Widest, Thick quantity.Length // the most there is, flattened for this part
}

// Fault is one thing by which a billet on a saw does not give a set.
type Fault int

// Faults.
const (
	TooHigh Fault = iota // wider than the highest cut
	TooLong
	TooWide
	TooThick
	TooFlat  // of the rings
	TooSteep // of the fibre
	Barred   // it may come from no billet that there is
	faults
)

// aloneWork is what the parts that are missing are planned for by themselves, all of
// them together, to see whether others stand in their way: one kind takes little.
const aloneWork = 1_000_000

// why tells of every part that a plan lacks why it does.
func why(ctx context.Context, q *Request, p *Plan) ([]Lack, error) {
	var all []Lack
	left := int64(aloneWork)
	for i := range q.Parts {
		part := &q.Parts[i]
		if p.Short[i] == 0 && (p.Sets[i] > 0 || part.Most != nil && *part.Most == 0) {
			continue
		}
		lack := Lack{Part: i, Missing: p.Short[i], Buy: buy(q, p.Saw, i, p.Short[i])}
		if p.Sets[i] == 0 {
			if misfit, none := misfitOf(q, i); none {
				lack.Misfit = misfit
				all = append(all, lack)
				continue
			}
		}
		alone, err := planAlone(ctx, q, i, max(1, left))
		if err != nil {
			return nil, err
		}
		left -= alone.Work
		lack.Alone = alone.Sets[0]
		switch {
		case lack.Alone == 0 && alone.Optimal:
			lack.Cause = NoPlace
		case lack.Missing == 0:
			continue // it could be had, and pays less than what is cut
		case lack.Alone < part.Least && alone.Optimal:
			lack.Cause = NoWood
		default:
			lack.Cause = Competes
		}
		all = append(all, lack)
	}
	return all, nil
}

// planAlone plans one part by itself, as many sets as there are, within so many steps.
func planAlone(ctx context.Context, q *Request, i int, steps int64) (Plan, error) {
	one := *q
	part := q.Parts[i]
	part.Least, part.Most, part.Worth = 0, nil, 1
	one.Parts, one.Work = []PartKind{part}, steps
	return Make(ctx, one)
}

// misfitOf tells why no billet could give a set of a part on any saw, were it clear
// and without taper; false where one could.
func misfitOf(q *Request, part int) (Misfit, bool) {
	var count [faults]int
	pairs := 0
	var most misfit
	for i := range q.Billets {
		if !q.Parts[part].MayComeFrom(i) {
			continue
		}
		for j := range q.Saws {
			r := newRig(&q.Saws[j], q.Parts[part:part+1])
			w := newOffer(&q.Billets[i], &r.cost, false)
			found := most.faults(w, r)
			if len(found) == 0 {
				return Misfit{}, false
			}
			pairs++
			for _, f := range found {
				count[f]++
			}
		}
	}
	if pairs == 0 {
		return Misfit{Everywhere: []Fault{Barred}}, true
	}
	m := Misfit{
		Width: q.Parts[part].Width, Length: q.Parts[part].Length, Thickness: exact.Length(most.needed),
		HighestCut: exact.Length(most.highest), Longest: exact.Length(most.longest),
		Widest: exact.Length(most.widest), Thick: exact.Length(max(0, most.thickest)),
	}
	for f, n := range count {
		switch n {
		case 0:
		case pairs:
			m.Everywhere = append(m.Everywhere, Fault(f))
		default:
			m.Somewhere = append(m.Somewhere, Fault(f))
		}
	}
	return m, true
}

// misfit is the most that billets and saws offer to a part, and the least it takes.
type misfit struct {
	highest, longest, widest, thickest, needed nm
	looked                                     bool
}

// faults tells by what a billet on a saw does not give a set of the one kind of the
// rig, by the limits that the search keeps to: room between the trims, outline,
// highest cut, usable thickness at the thickest corner, grain.
func (m *misfit) faults(w *offer, r *rig) []Fault {
	k := &r.kinds[0]
	room, need := w.l-w.trim0-w.trim1, r.setOf(k)
	thick := w.deepest() - w.loss(min(k.l, w.l), min(k.w, w.ref))
	if !m.looked || thick > m.thickest {
		m.thickest = thick
	}
	if !m.looked || need < m.needed {
		m.needed = need
	}
	m.looked = true
	if r.limitedCut() {
		m.highest = max(m.highest, r.highest)
	}
	m.longest, m.widest = max(m.longest, room), max(m.widest, w.ref)
	// On its side the set lies across the face.
	split := k.thin > 0 && w.ty != w.t && 2*k.t+r.resaw <= thick
	if k.thin > 0 && w.ty != w.t {
		m.needed = min(m.needed, 2*k.t+r.resaw)
	}
	turned := k.w <= thick && need <= w.ref && k.runout <= 0 && w.angleMetTurned(k)
	var all []Fault
	for f, is := range [faults]bool{
		TooHigh: k.w > r.highest, TooLong: k.l > room, TooWide: k.w > w.ref && !turned, TooThick: need > thick && !turned && !split,
		TooFlat: !w.angleMet(k) && !turned, TooSteep: !w.runoutMet(k),
	} {
		if is {
			all = append(all, Fault(f))
		}
	}
	return all
}
