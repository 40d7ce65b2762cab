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
// GradientOf, as estimates/i/mc_pct and estimates/i/sd_pct. The notes name inputs in the same
// way.
// Accuracy: that of Combine and GradientOf.
//
// Source: rows mc.combine and mc.gradient.
func Gather(estimates []Estimate) (Gathered, error) {
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
	if len(whole) > 0 {
		mean, err := Combine(whole)
		if err != nil {
			return Gathered{}, method.Renamed(err, places...)
		}
		mean.Notes = mean.Notes.Renamed(places...)
		g.Notes.Merge(mean.Notes)
		g.Mean = &mean
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
