package moisture

import (
	"strconv"

	"latewood/woodphys/method"
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
// Errors: those of Combine, counted in the list given ("estimates/3"), and of
// GradientOf, as "estimates".
// Accuracy: that of Combine and GradientOf.
//
// Source: rows mc.combine and mc.gradient.
func Gather(estimates []Estimate) (Gathered, error) {
	var g Gathered
	var whole []Estimate
	var places [][2]string // of each whole one in the list given
	var shell, core *Estimate
	for i := range estimates {
		switch e := &estimates[i]; e.Place {
		case Shell:
			shell = e
		case Core:
			core = e
		case Mean, Spot:
			from, to := "estimates/"+strconv.Itoa(len(whole)), "estimates/"+strconv.Itoa(i)
			whole, places = append(whole, *e), append(places, [2]string{from, to}, [2]string{from + "/", to + "/"})
		}
	}
	if len(whole) > 0 {
		mean, err := Combine(whole)
		if err != nil {
			return Gathered{}, method.Renamed(err, places...)
		}
		g.Notes.Merge(mean.Notes)
		g.Mean = &mean
	}
	if shell != nil && core != nil {
		gradient, err := GradientOf(*shell, *core)
		if err != nil {
			const of = "estimates"
			return Gathered{}, method.Renamed(err, [2]string{"shell_mc_pct", of}, [2]string{"core_mc_pct", of},
				[2]string{"shell_sd_pct", of}, [2]string{"core_sd_pct", of})
		}
		g.Notes.Merge(gradient.Notes)
		g.Gradient = &gradient
	}
	return g, nil
}
