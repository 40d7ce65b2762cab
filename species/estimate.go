package species

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"latewood/woodphys/quantity"
	physics "latewood/woodphys/wood"
)

// Estimates stand in for figures of a wood that no source gives. Each is marked
// Estimated, says in its note how it was come by, and has a spread that holds 90 % of the
// woods of which the figure is printed and the estimate can be made as well. A figure
// that is printed has no estimate.
type Estimates struct {
	SpecificGravityGreen, Radial, Tangential, GreenStem, ModulusOfElasticity12 Value
}

// BestGravity returns the basic specific gravity of the wood, printed or estimated.
func (w *Wood) BestGravity() Value {
	return either(w.SpecificGravityGreen, w.Estimates.SpecificGravityGreen)
}

// BestRadial returns the radial shrinkage, printed or estimated.
func (w *Wood) BestRadial() Value { return either(w.Radial, w.Estimates.Radial) }

// BestTangential returns the tangential shrinkage, printed or estimated.
func (w *Wood) BestTangential() Value { return either(w.Tangential, w.Estimates.Tangential) }

// BestModulus returns the modulus of elasticity, printed or estimated.
func (w *Wood) BestModulus() Value {
	return either(w.ModulusOfElasticity12, w.Estimates.ModulusOfElasticity12)
}

func either(printed, estimated Value) Value {
	if printed.Known() {
		return printed
	}
	return estimated
}

// way is one way to estimate a figure.
type way struct {
	of func(*Wood) (float64, bool)
	// source names the relation; how says it for people. both may hold one %s for the
	// genus.
	source, how string
	// gravity is the power of the specific gravity in it, by which the error of an
	// estimated one grows.
	gravity float64
	// from is the figure that it rests on, where that may be a recalled one.
	from func(*Wood) *Value
}

// question is a figure that is estimated where it is missing, by the first way that
// serves; the last one always does.
type question struct {
	unit  string
	known func(*Wood) Optional[float64]
	to    func(*Wood) *Value
	ways  []way
}

// fewest is how many woods of a genus make a mean. Own choice.
const fewest = 2

const (
	relation412 = "Wood Handbook FPL-GTR-282 eq. 4-12 (Stamm 1964), S0 = 26.5 Gb"
	relation49  = "Wood Handbook FPL-GTR-282 eq. 4-9, Sx = S0 (1 - x/MCfs)"
	relation413 = "Wood Handbook FPL-GTR-282 eq. 4-13, solved for Gb"
	relation43  = "Wood Handbook FPL-GTR-282 eq. 4-3, most moisture (1.54 - Gb)/(1.54 Gb)"
	relation511 = "Wood Handbook FPL-GTR-190 table 5-11a, from memory"
	ownMean     = "mean of the other woods of the genus in these tables"
	ownKin      = "share of the genus in these tables, drawn to that of the group"
	ownShare    = "mean share of the group in these tables"
)

// loadEstimates estimates what is missing, each way with the scatter that it has over the
// woods of which the figure is printed.
func (l *loader) loadEstimates() {
	e := &estimator{woods: l.tables.woods, genera: map[string][]*Wood{}}
	for _, w := range e.woods {
		if w.Kind == Species {
			e.genera[genusOf(w)] = append(e.genera[genusOf(w)], w)
		}
	}
	for _, q := range e.questions() {
		e.answer(q)
	}
}

type estimator struct {
	woods  []*Wood
	genera map[string][]*Wood
}

func genusOf(w *Wood) string {
	genus, _, _ := strings.Cut(w.Botanical, " ")
	return genus
}

// questions in the order in which they build on one another.
func (e *estimator) questions() []question {
	gravity := func(w *Wood) Optional[float64] { return w.SpecificGravityGreen.Optional }
	green := (*Wood).GreenMoisture
	return []question{
		{UnitRatio, gravity, func(w *Wood) *Value { return &w.Estimates.SpecificGravityGreen }, []way{
			{of: gravityFrom12, from: func(w *Wood) *Value { return &w.SpecificGravity12 }, source: relation413, how: "estimated from the specific gravity at 12 %MC"},
			e.genusMean(gravity), e.groupMean(gravity),
		}},
		e.shrinkage("radial", radialOf), e.shrinkage("tangential", tangentialOf),
		{UnitMC, green, func(w *Wood) *Value { return &w.Estimates.GreenStem }, []way{
			e.kinShare(green, mostWater, way{source: relation43 + "; " + ownKin, gravity: -1.5,
				how: "estimated from the specific gravity, by how full of water other woods of the genus %s are when green"}),
			e.shareOf(green, mostWater,
				way{source: relation43 + "; " + ownShare, how: "estimated from the specific gravity, by how full of water green wood of its group is", gravity: -1.5}),
		}},
		{UnitMPa, func(w *Wood) Optional[float64] { return w.ModulusOfElasticity12.Optional },
			func(w *Wood) *Value { return &w.Estimates.ModulusOfElasticity12 }, []way{
				{of: modulusFromGravity, source: relation511, how: "estimated from the specific gravity and the group", gravity: 0.8},
			}},
	}
}

// direction is a direction of shrinkage with its figures.
type direction struct{ total, to12, swelling *Value }

func radialOf(w *Wood) direction {
	return direction{&w.Radial, &w.RadialTo12, &w.SwellingRadial}
}

func tangentialOf(w *Wood) direction {
	return direction{&w.Tangential, &w.TangentialTo12, &w.SwellingTangential}
}

func (e *estimator) shrinkage(name string, of func(*Wood) direction) question {
	known := func(w *Wood) Optional[float64] { return of(w).total.Optional }
	to := func(w *Wood) *Value { return &w.Estimates.Radial }
	if name == "tangential" {
		to = func(w *Wood) *Value { return &w.Estimates.Tangential }
	}
	return question{UnitShrinkage, known, to, []way{
		{of: func(w *Wood) (float64, bool) {
			part, is := of(w).to12.Get()
			return 100 * physics.TotalShrinkage(part/100, 0.12, saturation(w)), is
		}, from: func(w *Wood) *Value { return of(w).to12 }, source: relation49, how: "estimated from the shrinkage from green to 12 %MC"},
		{of: func(w *Wood) (float64, bool) {
			perPoint, is := of(w).swelling.Get()
			return 100 * physics.ShrinkageOfSwelling(perPoint/100, saturation(w)), is
		}, from: func(w *Wood) *Value { return of(w).swelling }, source: relation49, how: "estimated from the movement for one point of moisture"},
		e.shareOf(known, func(w *Wood) float64 { return w.Volumetric.Or(0) },
			way{source: ownShare, how: "estimated from the volumetric shrinkage, by the mean share of the direction in its group"}),
		e.genusMean(known),
		e.shareOf(known, func(w *Wood) float64 { return 100 * physics.VolumetricOf(best(w.BestGravity())) },
			way{source: relation412 + "; " + ownShare, how: "estimated from the specific gravity, by the mean share of the direction in its group", gravity: 1}),
	}}
}

func best(v Value) float64 { return v.Or(0) }

// saturation of the wood as the physics takes it.
func saturation(w *Wood) quantity.Moisture { return quantity.Moisture(w.FibreSaturation.Or(0) / 100) }

func gravityFrom12(w *Wood) (float64, bool) {
	g, is := w.SpecificGravity12.Get()
	return physics.BasicGravity(g), is
}

func modulusFromGravity(w *Wood) (float64, bool) {
	at12, is := w.SpecificGravity12.Get()
	if !is {
		at12 = physics.GravityAt12(best(w.BestGravity()))
	}
	return physics.BendingModulusOf(at12, physics.Group(w.Botany())), true
}

// mostWater is the most water that the wood can hold (%MC).
func mostWater(w *Wood) float64 { return physics.MostMoisture(best(w.BestGravity())).Percent() }

// genusMean is the mean of a figure over the other species of the genus.
func (e *estimator) genusMean(known func(*Wood) Optional[float64]) way {
	return way{source: ownMean, how: "estimated as the mean of the other woods of the genus %s", of: func(w *Wood) (float64, bool) {
		sum, n := 0.0, 0.0
		for _, kin := range e.genera[genusOf(w)] {
			if v, is := known(kin).Get(); is && kin != w {
				sum, n = sum+v, n+1
			}
		}
		return sum / n, n >= fewest
	}}
}

// groupMean is the geometric mean of a figure over all broadleaved woods or conifers.
func (e *estimator) groupMean(known func(*Wood) Optional[float64]) way {
	return e.shareOf(known, func(*Wood) float64 { return 1 },
		way{source: "mean of the group in these tables", how: "estimated as the mean of its group; nothing else is known"})
}

// shareOf is a base times the geometric mean, over the woods of the group, of the figure
// over that base.
func (e *estimator) shareOf(known func(*Wood) Optional[float64], base func(*Wood) float64, named way) way {
	sums, counts := map[Group]float64{}, map[Group]float64{}
	fit := func() {
		for _, w := range e.woods {
			if v, is := known(w).Get(); is && base(w) > 0 {
				sums[w.Botany()] += math.Log(v / base(w))
				counts[w.Botany()]++
			}
		}
	}
	named.of = func(w *Wood) (float64, bool) {
		if len(counts) == 0 { // not before what it builds on is estimated
			fit()
		}
		b := base(w)
		return b * math.Exp(sums[w.Botany()]/counts[w.Botany()]), b > 0
	}
	return named
}

// answer fills in the figure of each wood that lacks it.
func (e *estimator) answer(q question) {
	spreads := make([]float64, len(q.ways))
	for _, w := range e.woods {
		if q.known(w).Known() {
			continue
		}
		i := slices.IndexFunc(q.ways, func(one way) bool { _, serves := one.of(w); return serves })
		if i < 0 {
			continue
		}
		if spreads[i] == 0 {
			spreads[i] = e.scatter(q, q.ways[i])
		}
		value, _ := q.ways[i].of(w)
		*q.to(w) = estimated(w, q, q.ways[i], value, spreads[i])
	}
}

// scatter is the root mean square of ln(estimate/figure) over the woods of which the
// figure is printed.
func (e *estimator) scatter(q question, one way) float64 {
	sum, n := 0.0, 0.0
	for _, w := range e.woods {
		known, is := q.known(w).Get()
		if value, serves := one.of(w); is && serves {
			sum, n = sum+math.Pow(math.Log(value/known), 2), n+1
		}
	}
	if n < fewestTried {
		return unsure
	}
	return math.Max(leastScatter, math.Sqrt(sum/n))
}

const (
	// leastScatter is the least that an estimate is unsure of, as a share. Own choice.
	leastScatter = 0.05
	// fewestTried is how many woods tell how far a way strays; unsure is what it is taken
	// to stray where they are fewer. Own choice.
	fewestTried, unsure = 5, 0.3
	// recalledShare is what a recalled figure adds to the doubt of an estimate. Own choice:
	// recalled densities of one wood stray by a tenth.
	recalledShare = 0.08
)

// digits of an estimate: it has no more.
const digits = 3

func estimated(w *Wood, q question, one way, value, share float64) Value {
	if g := w.Estimates.SpecificGravityGreen; one.gravity != 0 && g.Known() {
		share = math.Hypot(share, one.gravity*g.Spread.Or(0)/quantity.Z90/best(g))
	}
	if one.from != nil && one.from(w).Checked == Memory {
		share, one.how = math.Hypot(share, recalledShare), one.how+", which is recalled"
	}
	round := func(v float64) float64 {
		scale := math.Pow(10, digits-1-math.Floor(math.Log10(v)))
		return math.Round(v*scale) / scale
	}
	how := one.how
	if strings.Contains(how, "%s") {
		how = fmt.Sprintf(how, genusOf(w))
	}
	value = round(value)
	return Value{
		Optional: Known(value), Unit: q.unit, Spread: Known(round(quantity.Z90 * share * value)),
		Source: "estimate of this project: " + one.source, Checked: Estimated,
		Note: fmt.Sprintf("%s; 90 %% of such estimates are right within %.0f %%", how, 100*quantity.Z90*share),
	}
}
