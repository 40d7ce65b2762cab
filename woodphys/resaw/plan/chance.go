package plan

import (
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Variation is what a plan takes as certain and a shop does not. A member that is
// 0 does not vary.
type Variation struct {
	KerfSD   quantity.Length // standard deviation of the resaw kerf, one for the whole job; 0 to 10 mm
	WanderSD quantity.Length // of the deviation of a cut from its line, each leaf on its own; 0 to 10 mm
	// HiddenFault is the chance that a leaf which looks clear on the billet is
	// not when it is opened, each leaf on its own; 0 to 1.
	HiddenFault float64
}

// Chance is how sure the sets of a plan are.
type Chance struct {
	Parts     []PartChance // of each kind
	LeafLost  float64      // chance that a leaf is lost to a hidden fault or to wander
	Intervals int          // of the kerf that were told apart
	Notes     method.Notes
}

// PartChance is how sure the sets of one kind are.
type PartChance struct {
	AtLeast []float64 // of at least 1, 2, ... sets, up to those planned
	Mean    float64   // sets to be expected, those beyond the plan not counted
	Likely  int       // sets to count on: had with a chance of 90 % or more
}

// Bounds of the work of PlanChance.
const (
	MaxChanceLeaves = 3000
	mostIntervals   = 128
)

// likely is the chance of what is counted on. Own choice.
const likely = 0.9

var rowChance = &method.Method{
	ID: "resaw.chance", Chapter: exact.Chapter,
	Summary: "chance of at least n sets of a plan when kerf and wander vary and leaves hide faults",
	Equation: "over the kerf k + x, x normal and k + x >= 0: leaves that still end within the blank; each lost " +
		"with q = 1 - (1 - h) P(|wander| <= its allowance); sets = sum over runs of floor(run/p)",
	Inputs: []method.Input{
		exact.MM("kerf_sd", 0, 0.3), exact.MM("wander_sd", 0, 2), exact.Ratio("hidden_fault", 0, 1),
	},
	Accuracy: "exact for the stated chances up to 128 intervals of the kerf, else 128 equally likely kerfs; the " +
		"chances themselves are the caller's",
	Source:  "derived; checked against every outcome of small stacks and against sawing at random",
	Checked: method.Derived,
}

// ChanceOf returns the chance of at least n sets of every kind of a plan when
// the sawing goes as planned, leaf by leaf from face 1, with the thickness of the
// leaves held by the fence: a wider kerf then costs the last leaves of a stack,
// and a leaf that is lost splits its run, which is paired anew.
//
// p: a plan of the request q; v: see Variation. Errors: method.OutOfRange for v;
// method.TooMuchWork beyond MaxChanceLeaves leaves. Accuracy: see rowChance.
// Leaves are lost independently of each other but for the kerf, which is the same
// for the whole job; more sets than planned are never counted.
//
// Source: derived; see rowChance.
func ChanceOf(q *Request, p *Plan, v Variation) (Chance, error) {
	var c Chance
	for _, in := range []struct {
		name  string
		value float64
	}{{"kerf_sd", exact.Millimetres(v.KerfSD)}, {"wander_sd", exact.Millimetres(v.WanderSD)},
		{"hidden_fault", v.HiddenFault}} {
		if err := c.Notes.Use(rowChance, in.name, in.value); err != nil {
			return Chance{}, err
		}
	}
	const sane = 10 * quantity.Millimetre
	for name, sd := range map[string]quantity.Length{"kerf_sd": v.KerfSD, "wander_sd": v.WanderSD} {
		if sd > sane {
			return Chance{}, exact.OutOfRange(name, name+" must be at most 10 mm", method.AtMost(sane.AtMost("mm")))
		}
	}
	s := &q.Saws[p.Saw]
	c.LeafLost = 1 - (1-v.HiddenFault)*(1-wanderLost(s.Wander, v.WanderSD))
	stacks, leaves := chanceStacks(q, p)
	if leaves > MaxChanceLeaves {
		return Chance{}, &method.Error{Code: method.TooMuchWork, Input: "plan", Limit: method.AtMost(MaxChanceLeaves, "leaves"),
			Detail: "the chance of a plan is told for at most 3000 leaves"}
	}
	kerfs := kerfIntervals(stacks, s, v.KerfSD)
	c.Intervals = len(kerfs)
	inRuns := runsOf(q.Parts)
	for kind := range q.Parts {
		sets := make([]float64, p.Sets[kind]+1) // chance of exactly so many; the last: or more
		for _, k := range kerfs {
			for n, chance := range setsAt(stacks, k.over, kind, inRuns[kind], c.LeafLost, p.Sets[kind]) {
				sets[n] += k.chance * chance
			}
		}
		c.Parts = append(c.Parts, cumulated(sets))
	}
	return c, nil
}

// wanderLost is the chance that a cut strays by more than what was allowed for.
func wanderLost(allowed, sd quantity.Length) float64 {
	if sd == 0 {
		return 0
	}
	return math.Erfc(float64(allowed) / float64(sd) / math.Sqrt2)
}

// chanceStack is a blank as its leaves meet a kerf that is not as planned.
type chanceStack struct {
	kinds []int     // of each leaf, -1 a slab
	times []int     // pieces that each is parted into
	bear  []float64 // the most the kerf may be over the planned one for this leaf to be had, nm
}

func chanceStacks(q *Request, p *Plan) (stacks []chanceStack, leaves int) {
	s := &q.Saws[p.Saw]
	for i := range p.Billets {
		for j := range p.Billets[i].Blanks {
			b := &p.Billets[i].Blanks[j]
			var c chanceStack
			size := exact.Whole(b.Usable)
			if b.Turned {
				size = exact.Whole(b.Width)
			}
			if b.Split {
				bear := 2 * float64(b.spareOfHalf(&q.Parts[b.Leaves[0].Part], s))
				stacks = append(stacks, chanceStack{[]int{b.Leaves[0].Part, b.Leaves[1].Part}, []int{1, 1}, []float64{bear, bear}})
				leaves += 2
				continue
			}
			for n, l := range b.Leaves {
				room, cuts := float64(size-exact.Whole(l.To)), float64(n) // n cuts before it
				if !s.FarFaceFinished {
					room, cuts = room-float64(exact.Whole(s.Resaw)), cuts+1
				}
				bear := math.Inf(1)
				if cuts > 0 {
					bear = room / cuts
				}
				c.kinds, c.times, c.bear = append(c.kinds, l.Part), append(c.times, max(1, len(l.Strips))), append(c.bear, bear)
			}
			leaves += len(b.Leaves)
			stacks = append(stacks, c)
		}
	}
	return stacks, leaves
}

// spareOfHalf is by how much a half of a wedge may be thinner before it is too thin at either
// edge.
func (b *Blank) spareOfHalf(part *PartKind, s *Saw) nm {
	l := &b.Leaves[0]
	over := exact.Whole(part.On(s).Sum()) - exact.Whole(part.Final) // of both edges
	near, far := exact.Whole(l.To-l.From), exact.Whole(*l.FarTo-*l.FarFrom)
	return min(max(near, far)-over-exact.Whole(part.Final), min(near, far)-over-exact.Whole(part.ThinEdge))
}

// kerfInterval is a range of kerfs in which the same leaves are had, by one
// kerf of it.
type kerfInterval struct{ over, chance float64 } // over the planned kerf, nm

// kerfIntervals splits the kerfs that can be, a normal distribution cut off at no
// kerf, where leaves drop out.
func kerfIntervals(stacks []chanceStack, s *Saw, sd quantity.Length) []kerfInterval {
	spread := float64(exact.Whole(sd))
	if spread == 0 {
		return []kerfInterval{{0, 1}}
	}
	least := -float64(exact.Whole(s.Resaw)) / spread // in standard deviations
	below := func(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
	possible := 1 - below(least)
	var at []float64
	for i := range stacks {
		for _, b := range stacks[i].bear {
			if z := b / spread; z > least && z < 8 {
				at = append(at, z)
			}
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	if len(at) >= mostIntervals {
		out := make([]kerfInterval, 0, mostIntervals)
		for i := range mostIntervals {
			share := below(least) + possible*(float64(i)+0.5)/mostIntervals
			out = append(out, kerfInterval{spread * math.Sqrt2 * math.Erfinv(2*share-1), 1.0 / mostIntervals})
		}
		return out
	}
	var out []kerfInterval
	from := least
	for _, z := range append(at, math.Inf(1)) {
		if chance := (below(z) - below(from)) / possible; chance > 0 {
			over := spread * z // a leaf that just bears it is had
			if math.IsInf(z, 1) {
				over = spread * (math.Max(from, least) + 1)
			}
			out = append(out, kerfInterval{over, chance})
		}
		from = z
	}
	return out
}

// setSize is how many pieces make a set of a part: neighbours, or pieces from anywhere.
type setSize struct{ neighbours, pool int }

func runsOf(parts []PartKind) []setSize {
	out := make([]setSize, len(parts))
	pools, _ := pooled(parts)
	for i := range parts {
		if out[i] = (setSize{parts[i].Pieces, 1}); pools[i] {
			out[i] = setSize{1, parts[i].Pieces}
		}
	}
	return out
}

// setsAt is the distribution of the sets of a kind at a kerf, counted up to most.
func setsAt(stacks []chanceStack, over float64, kind int, size setSize, lost float64, most int) []float64 {
	single := runsAt(stacks, over, kind, size.neighbours, lost, most*size.pool)
	out := make([]float64, most+1)
	for n, chance := range single {
		out[n/size.pool] += chance
	}
	return out
}

// runsAt is the distribution of the runs of neighbours of a kind at a kerf.
func runsAt(stacks []chanceStack, over float64, kind, pieces int, lost float64, most int) []float64 {
	total := []float64{1}
	for i := range stacks {
		s := &stacks[i]
		run, times := 0, 1
		for n := 0; n <= len(s.kinds); n++ {
			const dust = 1e-6 // nm; of the division
			if n < len(s.kinds) && s.kinds[n] == kind && over <= s.bear[n]+dust {
				run++
				times = s.times[n] // the same of all leaves of a kind in a blank
				continue
			}
			if run >= pieces {
				total = together(total, spread(setsOfRun(run, pieces, lost), times), most)
			}
			run = 0
		}
	}
	return total
}

// setsOfRun is the distribution of sum of floor(run/pieces) over the unbroken
// runs that are left of n neighbours, each lost with the same chance.
func setsOfRun(n, pieces int, lost float64) []float64 {
	// state[sets*pieces+r]: so many sets, and r good leaves in a row since the last.
	most := n / pieces
	state := make([]float64, (most+1)*pieces)
	next := make([]float64, len(state))
	state[0] = 1
	for range n {
		clear(next)
		for at, chance := range state {
			if chance == 0 {
				continue
			}
			next[at-at%pieces] += chance * lost
			// One more good leaf: the next state, which after the last of a set is
			// the first of the next number of sets.
			if at+1 < len(next) {
				next[at+1] += chance * (1 - lost)
			}
		}
		state, next = next, state
	}
	out := make([]float64, most+1)
	for at, chance := range state {
		out[at/pieces] += chance
	}
	return out
}

// spread is the distribution of so many times a number.
func spread(of []float64, times int) []float64 {
	if times == 1 {
		return of
	}
	out := make([]float64, (len(of)-1)*times+1)
	for n, chance := range of {
		out[n*times] = chance
	}
	return out
}

// together is the distribution of a sum, whatever is over most counted as most.
func together(a, b []float64, most int) []float64 {
	out := make([]float64, min(len(a)+len(b)-1, most+1))
	for i, x := range a {
		for j, y := range b {
			out[min(i+j, most)] += x * y
		}
	}
	return out
}

func cumulated(exactly []float64) PartChance {
	var c PartChance
	sum := 0.0
	for n := len(exactly) - 1; n > 0; n-- {
		sum += exactly[n]
		c.AtLeast = append(c.AtLeast, math.Min(1, sum))
	}
	slices.Reverse(c.AtLeast)
	for n, chance := range c.AtLeast {
		c.Mean += chance
		if chance >= likely-1e-12 {
			c.Likely = n + 1
		}
	}
	return c
}
