package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/moisture"
)

// Estimate is a moisture content from one reading.
type Estimate struct {
	MC     wire.Band `json:"mc" required:"true" description:"percent of ovendry mass"`
	SDPct  float64   `json:"mc_sd_points" required:"true" description:"standard deviation"`
	Method string    `json:"method" required:"true" description:"id of the method, as in GET /v1/methods"`
	Region string    `json:"region" required:"true" enum:"mean,core,shell,spot" description:"the part of the thickness it speaks for"`
	Note   string    `json:"note,omitempty" description:"what else the reading tells; with stays its date"`
}

// Gradient is how much wetter the core is than the shell.
type Gradient struct {
	CoreMinusShell wire.Band `json:"core_minus_shell" required:"true" description:"how much wetter the core is than the shell"`
	Sense          string    `json:"sense" required:"true" enum:"core_wetter,shell_wetter,unknown" description:"unknown: the band holds no difference as well"`
	Detail         string    `json:"detail" required:"true" description:"what it means for the work"`
}

// DescribeEstimate words an estimate, with what else it tells.
func DescribeEstimate(e moisture.Estimate, remark string) Estimate {
	return Estimate{MC: wire.MoistureBandOf(e.MC), SDPct: e.SD.Percent(), Method: e.How, Region: string(e.Place),
		Note: remark}
}

// DescribeGradient words a gradient.
func DescribeGradient(g *moisture.Gradient) *Gradient {
	return &Gradient{CoreMinusShell: wire.PointsBandOf(g.CoreMinusShell), Sense: string(g.Sense), Detail: g.Meaning}
}
