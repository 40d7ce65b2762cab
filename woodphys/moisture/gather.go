package moisture

import (
	"math"
	"slices"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Gathered is what estimates of one piece say together.
type Gathered struct {
	Mean     *Estimate // of the whole section; nil where no estimate speaks for it
	Gradient *Gradient // nil unless both shell and core were estimated
	Notes    method.Notes
}

// Gather returns what estimates of one piece, none to 1000, say together: those that
// speak for the whole section or for a spot are combined, the last of the shell and the
// last of the core give the gradient.
//
// Errors: those of Combine, counted in the list given ("estimates/3"); contradictory for
// "estimates/i" of a core that no plank of such a mean has; and those of GradientOf, as estimates/i/mc_pct and estimates/i/sd_pct. The notes name inputs in the same
// way.
// Accuracy: that of Combine and GradientOf.
//
// Source: rows mc.combine and mc.gradient.
func Gather(estimates []Estimate) (Gathered, error) { return gather(estimates, false) }

// GatherWhole is Gather where the mean is asked for: where none but the weight and the size of the
// piece speaks for it, shell and core do, and beside these the core alone as well.
//
// Errors: as Gather.
// Accuracy: as Gather; of the mean between shell and core, as a parabola has it, within a sixth of
// what they are apart; of that of the core alone within an eighth of it.
//
// Source: as Gather; integration of a parabola.
func GatherWhole(estimates []Estimate) (Gathered, error) { return gather(estimates, true) }

func gather(estimates []Estimate, fill bool) (Gathered, error) {
	var g Gathered
	var whole []Estimate
	var places [][2]string // of each whole one in the list given
	shell, core := -1, -1
	for i := range estimates {
		switch e := &estimates[i]; e.Place {
		case Shell:
			shell = i
		case Core:
			core = i
		case Mean, Spot:
			from, to := "estimates/"+strconv.Itoa(len(whole)), "estimates/"+strconv.Itoa(i)
			whole, places = append(whole, *e), append(places, [2]string{from, to}, [2]string{from + "/", to + "/"})
		}
	}
	if fill && core >= 0 && (shell >= 0 || len(whole) > 0) && !slices.ContainsFunc(whole, fine) {
		mean := aroundCore(&estimates[core])
		if shell >= 0 {
			mean = between(&estimates[shell], &estimates[core])
		}
		from, to := "estimates/"+strconv.Itoa(len(whole)), "estimates/"+strconv.Itoa(core)
		whole, places = append(whole, mean), append(places, [2]string{from, to}, [2]string{from + "/", to + "/"})
	}
	if len(whole) > 0 {
		mean, err := Combine(whole)
		if err != nil {
			return Gathered{}, method.Renamed(err, places...)
		}
		mean.Notes = mean.Notes.Renamed(places...)
		g.Notes.Merge(mean.Notes)
		g.Mean = &mean
	}
	if g.Mean != nil && core >= 0 {
		if err := coreBeside(g.Mean, &estimates[core]); err != nil {
			return Gathered{}, method.Renamed(err, [2]string{"core", "estimates/" + strconv.Itoa(core)})
		}
	}
	if shell >= 0 && core >= 0 {
		gradient, err := GradientOf(estimates[shell], estimates[core])
		names := [][2]string{}
		for part, i := range map[string]int{"shell": shell, "core": core} {
			of := "estimates/" + strconv.Itoa(i)
			names = append(names, [2]string{part + "_mc_pct", of + "/mc_pct"}, [2]string{part + "_sd_pct", of + "/sd_pct"},
				[2]string{part + "/", of + "/"})
		}
		if err != nil {
			return Gathered{}, method.Renamed(err, names...)
		}
		gradient.Notes = gradient.Notes.Renamed(names...)
		g.Notes.Merge(gradient.Notes)
		g.Gradient = &gradient
	}
	return g, nil
}

// fine reports an estimate that tells more than green from dry.
func fine(e Estimate) bool { return e.How != densityRow.ID }

// Of the mean between shell and core: the share of the way from the outer tenth at a face to the
// middle fifth at which a parabola has its mean, 0.599 (a profile that has not yet come to the
// middle has it further in, one of a wet core and a dry skin further out), and the standard
// deviation of that share. By integration, derived; the deviation is our own choice.
const (
	meanBetween   = 0.6
	meanBetweenSD = 0.15
)

// between is the mean of the section that shell and core leave open.
func between(shell, core *Estimate) Estimate {
	a, b := (1-meanBetween)*float64(shell.SD), meanBetween*float64(core.SD)
	apart := core.MC.Value - shell.MC.Value
	e := Estimate{How: core.How, Place: Mean}
	e.set(shell.MC.Value+meanBetween*apart, quantity.Moisture(hypot(math.Sqrt(a*a+b*b+2*correlation(shell, core)*a*b), meanBetweenSD*float64(apart))))
	return e
}

// Of the mean by the core alone: a share of it, and the standard deviation of that. In a plank that
// dries it is 2/3 of the core, of a parabola whose face holds nothing, to all of it, in one at rest.
// Derived; the deviation is our own choice.
const (
	meanOfCore   = 0.83
	meanOfCoreSD = 0.12
)

// aroundCore is the mean of the section that a core leaves open.
func aroundCore(core *Estimate) Estimate {
	e := Estimate{How: core.How, Place: Mean}
	e.set(meanOfCore*core.MC.Value, quantity.Moisture(hypot(meanOfCore*float64(core.SD), meanOfCoreSD*float64(core.MC.Value))))
	return e
}

// Of a core beside the mean of a plank. Through a plank that dries the moisture content falls ever
// more steeply to a face that holds 0 or more, so that the mean is no less than half of the core;
// in one that takes it up from the air it rises so to a face at fibre saturation at most, and the
// mean lies no further from the core than a third of the way there, as of a parabola, which a
// profile that has not yet come to the middle lies below. By symmetry of diffusion, derived.
const (
	leastOfCore   = 0.5
	mostOfUptake  = 1.0 / 3
	coreDeviation = 2.33 // of 1 in 100, as contradictionLevel
)

// coreBeside refuses a core that no plank of such a mean has.
func coreBeside(mean, core *Estimate) error {
	sd := coreDeviation * quantity.Moisture(hypot(float64(mean.SD), float64(core.SD)))
	m, c := mean.MC.Value, core.MC.Value
	least, most := leastOfCore*c, c+mostOfUptake*max(sorption.NominalFibreSaturation-c, 0)
	var why string
	switch {
	case m > most+sd:
		why = "So dry a core is in no plank of that mean: one that dries is wettest there, and one that takes up moisture from the air " +
			"would hold up to " + quantity.FormatNumber(most.Percent(), 1) + " %"
	case m < least-sd:
		why = "So wet a core is in no plank of that mean, which would hold at least " + quantity.FormatNumber(least.Percent(), 1) + " %"
	default:
		return nil
	}
	return &method.Error{Code: method.Contradictory, Input: "core", Detail: quantity.FormatNumber(c.Percent(), 1) + " %MC in the core contradicts " +
		quantity.FormatNumber(m.Percent(), 1) + " %MC over the thickness; one of them is wrong. " + why}
}
