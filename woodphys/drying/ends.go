package drying

import (
	"context"
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// EndSeal is how the ends of the stock were kept.
type EndSeal string

// Kinds of ends.
const (
	SealedFresh EndSeal = "sealed_fresh" // coated within hours of cutting
	SealedLate  EndSeal = "sealed_late"  // coated after the ends had begun to dry
	BareEnds    EndSeal = "bare"
)

// Factors by which a coat divides the flux through fresh end grain: 5 to 20 (from
// memory); 10 is used for a fresh coat, 5 for a late one.
const (
	freshCoat = 10.0
	lateCoat  = 5.0
)

// coats are the kinds of ends with that factor.
var coats = map[EndSeal]float64{SealedFresh: freshCoat, SealedLate: lateCoat, BareEnds: 1}

// CheckReach is how far checks usually run in from each end, for planning.
type CheckReach struct {
	Low, High quantity.Length
	// Plan is a trim that is usually enough; Squares is the size of those that check up to
	// High when they are dried too fast; Inside is how far and more checks run inside oak
	// and walnut. Each is 0 where nothing is published of it.
	Plan, Squares, Inside quantity.Length
	Checked               method.Checked
}

// UsualCheckReach returns the length usually lost at each end. Of sealed ends it
// is a trim to plan (common practice; sealing while fresh avoids about 99 % of
// end checking, read); of others the way to the first sticker. Oak and walnut may
// check inside for 300 mm and more (read), splits from growth stress as well; squares of 75
// mm sealed late and dried too fast up to 100 mm (read).
//
// Errors: *method.Error with input "end_seal".
// Accuracy: planning figures of the trade.
//
// Source: extension bulletins on end coating (read) and common practice, as the
// row drying.ends says.
func UsualCheckReach(seal EndSeal) (CheckReach, error) {
	mm := quantity.Millimetre
	switch seal {
	case SealedFresh:
		return CheckReach{Low: 10 * mm, High: 25 * mm, Checked: method.Practice}, nil
	case SealedLate:
		return CheckReach{Low: 50 * mm, High: 100 * mm, Plan: 75 * mm, Squares: 75 * mm, Checked: method.Practice}, nil
	case BareEnds:
		return CheckReach{Low: 50 * mm, High: 75 * mm, Inside: 300 * mm, Checked: method.Practice}, nil
	}
	return CheckReach{}, &method.Error{Code: method.Unknown, Input: "end_seal", Limit: method.OneOf(SealedFresh, SealedLate, BareEnds), Detail: "end_seal must be sealed_fresh, sealed_late or bare"}
}

// alongOverAcross is about how many times as fast moisture goes along the grain as across it, near
// the hygroscopic range (Siau 1984, Transport Processes in Wood, ch. 7, from memory: 10 to 15 at
// 10 %MC, less in wet wood), and leastShare the share of the time from which on it is worth telling.
const (
	alongOverAcross = 12.0
	leastShare      = 0.8
)

// ThroughEnds returns about which share (0 to 1) of the time that a board dries in through its faces
// a piece of a thickness and a length (both above 0) with open ends takes, and whether that is so much
// less that it is short: some seven times as long as it is thick, and shorter.
//
// Accuracy: a factor of 2; the film of the air and a wet core make the gain less.
//
// Source: product of solutions (Newman 1931), whose rates add up: 1/T^2 across the grain and 12/L^2
// along it; the ratio is from memory.
func ThroughEnds(thickness, length quantity.Length) (share float64, short bool) {
	slender := float64(thickness / length)
	share = 1 / (1 + alongOverAcross*slender*slender)
	return share, share < leastShare
}

var rowEnds = method.Method{
	ID: "drying.ends", Chapter: "drying",
	Summary:  "How far from each end the wood is ahead of the middle, and how far checks usually run",
	Equation: "ahead(x) = (M_middle - M_e)(1 - Y(x)), Y from diffusion along the grain alone with D_L; depth where ahead falls to the given points",
	Inputs: []method.Input{
		{Name: "length", Unit: "mm", Fitted: method.Range{Low: 300, High: 4000}, Limit: method.Range{Low: 50, High: 12000}},
		{Name: "ahead_pct", Unit: "%", Fitted: method.Range{Low: 0.5, High: 5}, Limit: method.Range{Low: 0.1, High: 20}},
	},
	Accuracy: "a factor of 2: D_L is an upper estimate and the product rule holds for constant D only; published: about 1 to 2 thicknesses",
	Source:   siauSource + "; Newman 1931 for the product rule; a coat divides the flux by 5 to 20 (from memory)", Checked: method.Memory,
}

// EndZone is how far the ends are ahead of the middle.
type EndZone struct {
	Depth  quantity.Length   // from each end; 0 when nowhere ahead by so much, half the length at most
	AtEnd  quantity.Moisture // estimate at the very end
	Middle quantity.Moisture // mean moisture content far from the ends
	Reach  CheckReach
	Notes  method.Notes
}

// Of the run along the grain.
const (
	alongCells = 60
	// referenceDays is the time over which a coat divides the loss of a bare end by
	// its factor, in steady air of 20 C and 65 %RH; assumed.
	referenceDays = 7
)

// EndZone returns how far from each end of stock of a length (50 to 12 000 mm)
// the wood is ahead of the middle by at least ahead (0.1 to 20 %MC) at the end of
// the job's phases. The drying factor counts along the grain too. A coat is an
// added resistance that divides the first week's loss of a bare end in air of 20
// degC and 65 %RH by 10 (fresh) or 5 (late).
//
// Errors: as Solver.Run; input "length", "ahead_pct", "end_seal".
// Accuracy: a factor of 2, see the row.
//
// Source: row drying.ends.
func (s *Solver) EndZone(ctx context.Context, job *Job, length quantity.Length, seal EndSeal, ahead quantity.Moisture) (EndZone, error) {
	z := EndZone{}
	if err := z.Notes.Use(&rowEnds, "length", length.Millimetres()); err != nil {
		return EndZone{}, err
	}
	if err := z.Notes.Use(&rowEnds, "ahead_pct", ahead.Percent()); err != nil {
		return EndZone{}, err
	}
	reach, err := UsualCheckReach(seal)
	if err != nil {
		return EndZone{}, err
	}
	z.Reach = reach
	long := *job
	long.Times, long.Depths, long.StopAt, long.Ends = nil, nil, 0, nil
	start, middle, err := s.middle(ctx, &long)
	if err != nil {
		return EndZone{}, err
	}
	z.Middle = middle.Final
	z.Notes.Merge(middle.Notes)

	if long.Transport, err = newTransport(job.Transport.wood, alongGrain); err != nil {
		return EndZone{}, err
	}
	long.Thickness, long.Profile, long.Initial, long.Cells = length, nil, start, alongCells
	resistance, err := endResistance(ctx, s.Work, &long, seal)
	if err != nil {
		return EndZone{}, err
	}
	long.Phases = make([]Phase, len(job.Phases))
	for i, p := range job.Phases {
		p.Exposure.CoatResistance += resistance
		long.Phases[i] = p
	}
	along := Solver{Work: s.Work}
	if _, err := along.run(ctx, &long, method.Notes{}); err != nil {
		return EndZone{}, err
	}
	rest := float64(long.Transport.wood.curve(quantity.Celsius(along.air.c)).Surface(along.air.rh))
	lead := func(x float64) float64 { // at x from the end, as a share of the length
		if math.Abs(float64(start)-rest) < 1e-3 {
			return 0
		}
		left := (float64(along.MoistureAt(x)) - rest) / (float64(start) - rest)
		return (float64(z.Middle) - rest) * (1 - min(max(left, 0), 1))
	}
	z.AtEnd = z.Middle - quantity.Moisture(lead(0))
	const points = 2000
	for i := range points + 1 {
		x := 0.5 * math.Pow(float64(i)/points, 2)
		if math.Abs(lead(x)) < float64(ahead) {
			break
		}
		z.Depth = quantity.Length(x) * length
	}
	return z, nil
}

// middle runs the job across the grain and returns the mean at its start too.
func (s *Solver) middle(ctx context.Context, job *Job) (quantity.Moisture, Course, error) {
	c, err := s.Run(ctx, job)
	return c.Final + c.Lost, c, err
}

// endResistance returns the resistance of the coat in s/m.
func endResistance(ctx context.Context, work *Work, job *Job, seal EndSeal) (float64, error) {
	factor := coats[seal]
	if factor == 1 {
		return 0, nil
	}
	const c, rh = 20.0, 0.65
	climate, err := Constant(quantity.Celsius(c), rh)
	if err != nil {
		return 0, err
	}
	bare := *job
	bare.Initial, bare.History = 0.6, NoHysteresis
	bare.Phases = []Phase{{Length: referenceDays * quantity.Day, Climate: climate, Exposure: OpenStack()}}
	s := Solver{Work: work}
	course, err := s.run(ctx, &bare, method.Notes{})
	if err != nil {
		return 0, err
	}
	t := quantity.Celsius(c)
	// j = G rho_w L lost/t; R = rho_v,sat (1 - H)/j
	flux := s.density * s.half * float64(course.Lost) / (referenceDays * day)
	drive := air.SaturationPressureOverWater(t).Pascals() / (vapourConstant * t.Kelvin()) * (1 - rh)
	return (factor - 1) * drive / flux, nil
}
