package sawlog

import (
	"math"
	"slices"
	"sort"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/wood"
)

// Pattern is a way to cut a log up.
type Pattern string

// Patterns.
const (
	ThroughAndThrough Pattern = "through_and_through" // parallel cuts
	Quartered         Pattern = "quartered"           // two cuts through the pith, then boards from both sawn faces in turns
	Wedges            Pattern = "wedges"              // equal sectors about the pith
)

// UsualPithClearance is the wood around the pith that is left out unless said otherwise,
// where the pith is to be kept out: the first rings, which shrink and check most. Common
// practice, no source.
const UsualPithClearance = 10 * quantity.Millimetre

// MostBillets is the largest number of billets that Saw answers for.
const MostBillets = 1000

// Question is a log and what is wanted of it.
type Question struct {
	Log     Log
	Pattern Pattern
	Wanted  Wanted

	Kerf, Crosscut quantity.Length // 0 to 20 mm; a kerf of 0 splits
	Turn           quantity.Angle  // of the first cut from level, clockwise; -360 to 360 degrees
	// PithClearance is the wood about the pith that no billet holds; nil where the pith may
	// stay in one.
	PithClearance *quantity.Length
	SapwoodOut    bool          // billets are of heartwood alone
	Drying        *resaw.Drying // nil for billets that are told green
	Weight        *Weight       // nil where the mass is not told
}

// Weight is what the mass of the log follows from.
type Weight struct {
	Wood wood.Wood         // with its specific gravity
	MC   quantity.Moisture // of the log, 0 to 2.5
	SD   quantity.Moisture // its standard deviation
}

// Wanted is what billets are wanted, as large as they are to be once they are dry.
type Wanted struct {
	Thickness    quantity.Length // of a board; of a wedge at its thick edge, at the bark; 1 mm to 2 m
	ThinEdge     quantity.Length // of a wedge, at the edge to the pith, at least; 0 to Thickness
	MinWidth     quantity.Length // what is narrower is left out; 1 mm to 3 m
	MaxWidth     quantity.Length // of a wedge, whose wood towards the pith is cut off beyond it; MinWidth to 3 m, 0 for any
	Length       quantity.Length // of the clear wood; 0 for the whole length of the log
	EndTrim      quantity.Length // lost at each end of a billet, beyond Length
	MinRingAngle quantity.Angle  // of the rings to face 1 over the whole section, 0 to 89 degrees
}

// Plan is a log cut up.
type Plan struct {
	Bolts   []Bolt
	Billets []Billet        // bolt by bolt
	Pitch   quantity.Length // from board to board: thickness and kerf

	GreenThickness, GreenThinEdge quantity.Length // to saw or split

	Lower   *LowerAngle // nil but where the least ring angle alone leaves no billet
	Shorter *Shorter    // nil but where shorter lengths of the log give billets, and these give none

	Volume, BilletVolume quantity.Volume // of the wood without bark, and of all billets, green
	Scales               *Scales         // nil for a half log, which the rules do not know
	Mass                 *quantity.Band[quantity.Mass]
	Notes                method.Notes
}

// LowerAngle is what a log gives where less is asked of the rings.
type LowerAngle struct {
	Billets int            // with no least angle
	Best    quantity.Angle // in whole degrees, at which there still is one
}

// Bolt is a length that the log is crosscut into.
type Bolt struct {
	From, Length quantity.Length // along the log
	Log          Log
	Cuts         []Cut           // along it, in the order in which they are made; none where it gives no billet
	Sectors      int             // of wedges, how many equal ones stand about its pith; a half log holds half of them
	First        quantity.Length // of through and through: where the first board begins, down from the middle and square to the cuts
	Empty        int             // of through and through: slabs between its boards that give no billet
}

// Cut is a cut along a bolt, the middle of its kerf, as it lies on the start end of the bolt, in
// the frame of the log. Each parts one of the pieces that are there by then, from side to side.
type Cut struct{ From, To Point }

// sawing is the work on one question, in metres.
type sawing struct {
	q               *Question
	thickness, thin float64 // green
	minWidth        float64 // dry
	maxWidth        float64 // dry, of wedges; 0 for any
	kerf            float64
	clearance       float64 // less than 0 where the pith may stay
	steepest        float64 // tangent of the least ring angle
	turn            float64
	shrink          shrinkage
	wood            region // what all sections of a bolt have in common
	end             region // its start end, on which cuts are drawn
	pith            pithPath
}

// Saw returns the billets of a log, each as wide as the wood allows, with the place of
// each. Through and through the position of the first cut is the one that gives the most
// wood, of fifty; quarters begin with the better of their two faces; wedges are as many
// as there can be, of an even number of sectors, so that the first cut goes through the whole
// log, and in powers of two where they are split. Where no billet can be had there
// is none, and no error.
//
// Errors: out_of_range of the inputs of row sawlog.billets; conflict for bark or sapwood
// that leaves nothing, a pith outside the wood, a thin edge above the thick one, a length
// that the log does not have; too_much_work beyond MostBillets; those of
// movement.StrainsBetween and moisture.WeightOf.
// Accuracy: see the row; sizes green follow the middle of the shrinkage, from which pieces
// of a wood stray by 15 %.
//
// Source: row sawlog.billets; patterns are common practice.
func Saw(q Question) (Plan, error) {
	var plan Plan
	plan.Notes.Rest(rowPlan)
	if err := q.check(&plan.Notes); err != nil {
		return plan, err
	}
	s := sawing{q: &q, kerf: float64(q.Kerf), turn: turnOf(q.Turn), clearance: -1, minWidth: float64(q.Wanted.MinWidth),
		maxWidth: float64(q.Wanted.MaxWidth),
		steepest: q.Wanted.MinRingAngle.Tan()}
	if q.PithClearance != nil {
		s.clearance = math.Max(float64(*q.PithClearance), s.kerf/2)
	}
	if err := s.green(&plan); err != nil {
		return plan, err
	}
	if err := q.bolts(&plan); err != nil {
		return plan, err
	}
	if most := q.slots(plan.GreenThickness) * len(plan.Bolts); most > MostBillets {
		return plan, s.tooMany(most, len(plan.Bolts))
	}
	for i := range plan.Bolts {
		s.take(&plan, i)
	}
	plan.Lower, plan.Shorter = s.lower(&plan), s.shorter(&plan)
	plan.Volume = q.Log.Volume()
	for i := range plan.Billets {
		b := &plan.Billets[i]
		plan.BilletVolume += quantity.Volume(b.Length * b.Width * (b.Thickness + b.FarThickness) / 2)
	}
	if w := q.Weight; w != nil {
		weight, err := moisture.WeightOf(plan.Volume, w.Wood, w.MC, w.SD)
		if err != nil {
			return plan, err
		}
		plan.Mass = &weight.Mass
		plan.Notes.Merge(weight.Notes)
	}
	return plan, plan.scale(&q.Log)
}

// tooMany is the error of a log that would give so many billets, from so many lengths: with the
// least thickness of which it gives no more than are answered.
func (s *sawing) tooMany(billets, bolts int) error {
	e := &method.Error{Code: method.TooMuchWork, Input: "thickness",
		Detail: "the log would give some " + strconv.Itoa(billets) + " billets; " + strconv.Itoa(MostBillets) + " are answered at most"}
	const step = quantity.Millimetre / 100
	thick := func(steps int) quantity.Length { return quantity.Length(steps) * step }
	const most = 200_000 // steps: 2 m, the most that a billet may be wanted
	least := sort.Search(most, func(steps int) bool {
		return s.q.slots(thick(steps)/quantity.Length(s.shrink.tangential))*bolts <= MostBillets
	})
	if least < most {
		e.Limit = method.AtLeast(thick(least).AtLeast("mm"))
		e.Detail += "; thickness must be " + e.Limit.String()
	}
	return e
}

// turnOf is a turn as it is set, rad: to a ten-thousandth of a degree, so that what is meant to
// be level or upright is.
func turnOf(a quantity.Angle) float64 {
	return float64(quantity.Angle(math.Round(a.Degrees()*1e4)/1e4) * quantity.Degree)
}

// take cuts up one bolt.
func (s *sawing) take(plan *Plan, i int) {
	bolt := &plan.Bolts[i].Log
	ring := 0.0
	if s.q.SapwoodOut {
		ring = float64(s.q.Log.Sapwood)
	}
	s.wood, s.end, s.pith = regionOf(bolt, ring), endOf(bolt), pithOf(bolt)
	var out cutUp
	switch s.q.Pattern {
	case Quartered:
		out = s.quarters()
	case Wedges:
		out = s.wedges()
	default:
		out = s.boards()
	}
	for j := range out.shapes {
		b := s.billet(&out.shapes[j])
		b.Bolt, b.Length = i, bolt.Length
		plan.Billets = append(plan.Billets, b)
	}
	if len(out.shapes) == 0 {
		out = cutUp{}
	}
	to := &plan.Bolts[i]
	to.Cuts, to.Sectors, to.First, to.Empty = out.cuts, out.sectors, quantity.Length(out.first), out.empty
	plan.Pitch = quantity.Length(s.thickness + s.kerf)
}

// lower is what there is with a lower ring angle, where that angle leaves no billet.
func (s *sawing) lower(plan *Plan) *LowerAngle {
	if len(plan.Billets) > 0 || s.steepest <= 0 {
		return nil
	}
	billets := func(degrees int) int {
		other, out := *s, Plan{Bolts: slices.Clone(plan.Bolts)}
		other.steepest = (quantity.Angle(degrees) * quantity.Degree).Tan()
		for i := range out.Bolts {
			other.take(&out, i)
		}
		return len(out.Billets)
	}
	all := billets(0)
	if all == 0 {
		return nil
	}
	first := sort.Search(int(s.q.Wanted.MinRingAngle.Degrees())+1, func(degrees int) bool { return billets(degrees) == 0 })
	return &LowerAngle{Billets: all, Best: quantity.Angle(max(0, first-1)) * quantity.Degree}
}

// cutUp is what a bolt gives.
type cutUp struct {
	shapes  []shape
	cuts    []Cut
	sectors int
	first   float64
	empty   int
}

// area is what the billets hold.
func (c *cutUp) area() float64 {
	sum := 0.0
	for i := range c.shapes {
		sum += c.shapes[i].width * (c.shapes[i].near + c.shapes[i].far) / 2
	}
	return sum
}

// billet tells a shape.
func (s *sawing) billet(c *shape) Billet {
	length := func(v float64) quantity.Length { return quantity.Length(v) }
	middle := s.middleAngle(c)
	b := Billet{Width: length(c.width), Thickness: length(c.near), FarThickness: length(c.far),
		DryWidth: length(c.width * s.shrink.across(middle)), DryThickness: length(c.near * s.shrink.tangential),
		Near: c.edges[0], Far: c.edges[1], MiddleAngle: quantity.Angle(middle), lying: c.lying}
	b.Pith = pointOf(c.in(s.pith[0]))
	from, to := vec{math.Inf(1), math.Inf(1)}, vec{math.Inf(-1), math.Inf(-1)}
	least := math.Inf(1)
	for _, p := range s.pith {
		in := c.in(p)
		from = vec{math.Min(from.y, in.y), math.Min(from.z, in.z)}
		to = vec{math.Max(to.y, in.y), math.Max(to.z, in.z)}
		least = math.Min(least, c.leastAngle(p))
	}
	if from.y < c.width-dust && to.y > dust {
		least = 0
	}
	b.PithFrom, b.PithTo, b.HoldsPith, b.LeastAngle = pointOf(from), pointOf(to), c.holds(from, to), quantity.Angle(least)
	for i, p := range c.corners() {
		b.Corners[i] = pointOf(p)
	}
	return b
}

// middleAngle is the ring angle in the middle of a shape at its start.
func (s *sawing) middleAngle(c *shape) float64 {
	return ringAngle(vec{c.width / 2, (c.near + c.far) / 4}, c.in(s.pith[0]))
}

// wideEnough reports whether a shape is as wide as wanted once it is dry.
func (s *sawing) wideEnough(c *shape) bool {
	return c.width > 0 && c.width*s.shrink.across(s.middleAngle(c)) >= s.minWidth-1e-9
}

// Most returns how many billets there may be at most.
//
// Accuracy: an upper bound, of a few times as many as there are. Source: derived by
// geometry: no two billets overlap; along a line across the log there are no more boards
// than it is long, twice where the pith parts them; thick edges of wedges lie side by side
// within the bark.
func (q *Question) Most() int {
	w, bolts := &q.Wanted, 1
	if each := w.Length + 2*w.EndTrim; w.Length > 0 {
		bolts = int((q.Log.Length+q.Crosscut)/(each+q.Crosscut) + 1e-9)
	}
	return bolts * q.slots(w.Thickness)
}

// slots is how many billets of a thickness there may be of a bolt, at most.
func (q *Question) slots(thickness quantity.Length) int {
	wide := float64(max(q.Log.Start, q.Log.End))
	across, thin := wide/float64(thickness+q.Kerf), thickness
	var most float64
	switch q.Pattern {
	case Quartered:
		most = 2*across + 4
	case Wedges:
		most, thin = min(mostSectors, math.Pi*wide/float64(thickness)), q.Wanted.ThinEdge
	default:
		most = 2*across + 2
	}
	smallest := float64(q.Wanted.MinWidth) * float64(thickness+thin) / 2
	if most = math.Min(most, math.Pi/4*wide*wide/smallest); q.Log.Half {
		most = most/2 + 1
	}
	return int(most)
}
