package moisture

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var gradientRow = method.Method{
	ID: "mc.gradient", Chapter: "moisture",
	Summary:  "Core minus shell moisture content from two depths, and whether it can be told from zero",
	Equation: "g = MC_core - MC_shell; s^2 = s_c^2 + s_s^2 - 2 r s_c s_s",
	Inputs: []method.Input{
		{Name: "shell_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "core_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "shell_sd_pct", Unit: "%MC", Fitted: method.Range{Low: 0.01, High: 100}, Limit: method.Range{Low: 0, High: 1000}},
		{Name: "core_sd_pct", Unit: "%MC", Fitted: method.Range{Low: 0.01, High: 100}, Limit: method.Range{Low: 0, High: 1000}},
	},
	Accuracy: "that of the two readings; r = 0.72 for readings of one kind of meter and 0.5 for those of another method, whose common error cancels in part",
	Source:   "difference of two normal variables; the correlation is our own choice",
	Checked:  method.Derived,
}

// Sense says which way a moisture gradient runs.
type Sense string

// Senses of a gradient.
const (
	CoreWetter  Sense = "core_wetter"  // still drying
	ShellWetter Sense = "shell_wetter" // taking up moisture
	NotTold     Sense = "unknown"      // the readings cannot tell it from zero
)

// Gradient is the difference of moisture content between core and shell.
type Gradient struct {
	CoreMinusShell quantity.Band[quantity.Moisture] // not cut at zero
	SD             quantity.Moisture
	Sense          Sense
	Meaning        string // for people
	Notes          method.Notes
}

// GradientOf returns core minus shell (both 0 to 2.5) with its band and says
// whether zero lies inside it. A gradient matters for resawing: leaves sawn
// from a piece with a wetter core change shape in the hours to weeks after the
// cut. Accepted for thin instrument stock is 1 to 2 %MC, for
// other stock 3 (common practice, no source).
//
// Errors: out_of_range for shell_mc_pct, core_mc_pct and their SDs. The notes name the inputs
// of the estimates below shell/ and core/.
// Accuracy: from both estimates' SD.
// Source: difference of two normal variables, derived; that readings by one method
// correlate by 0.5, of a meter by 0.72, is our own choice.
func GradientOf(shell, core Estimate) (Gradient, error) {
	var g Gradient
	g.Notes.Merge(shell.Notes.Below("shell"))
	g.Notes.Merge(core.Notes.Below("core"))
	for _, in := range []struct {
		name  string
		value quantity.Moisture
	}{{"shell_mc_pct", shell.MC.Value}, {"core_mc_pct", core.MC.Value}, {"shell_sd_pct", shell.SD}, {"core_sd_pct", core.SD}} {
		if err := g.Notes.Use(&gradientRow, in.name, in.value.Percent()); err != nil {
			return Gradient{}, err
		}
	}
	if shell.Place == Core || core.Place == Shell {
		g.Notes.Warn(method.Warning{Code: method.Assumption, Method: gradientRow.ID, Detail: "the shell estimate says it is of the core, or the core estimate of the shell; are they exchanged?"})
	}
	a, b := float64(shell.SD), float64(core.SD)
	r := correlation(&shell, &core)
	g.SD = quantity.Moisture(math.Sqrt(math.Max(0, a*a+b*b-2*r*a*b)))
	g.CoreMinusShell = quantity.NormalBand(core.MC.Value-shell.MC.Value, g.SD)
	switch {
	case g.CoreMinusShell.Low > 0:
		g.Sense, g.Meaning = CoreWetter, "the core is wetter than the shell: still drying; a leaf sawn now changes shape as it evens out"
	case g.CoreMinusShell.High < 0:
		g.Sense, g.Meaning = ShellWetter, "the shell is wetter than the core: the surface has taken up moisture; wait or read again deeper"
	default:
		g.Sense, g.Meaning = NotTold, "the two readings cannot be told apart within their uncertainty; this is not proof that there is no gradient"
	}
	return g, nil
}
