package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/moisture"
)

// Estimate is a moisture content from one reading.
type Estimate struct {
	MC     wire.Band `json:"mc" required:"true" description:"percent of ovendry mass"`
	SDPct  float64   `json:"mc_sd_points" required:"true"`
	Method string    `json:"method" required:"true"`
	Place  string    `json:"place" required:"true" enum:"mean,core,shell,spot" description:"the part of the thickness it speaks for"`
	Remark string    `json:"remark,omitempty"`
}

// Gradient is how much wetter the core is than the shell.
type Gradient struct {
	CoreMinusShell wire.Band `json:"core_minus_shell" required:"true" description:"points of moisture content"`
	Sense          string    `json:"sense" required:"true" enum:"core_wetter,shell_wetter,unknown"`
	Meaning        string    `json:"meaning" required:"true"`
}

// DescribeEstimate words an estimate, with what else it tells.
func DescribeEstimate(e moisture.Estimate, remark string) Estimate {
	return Estimate{MC: wire.MoistureBandOf(e.MC), SDPct: e.SD.Percent(), Method: e.How, Place: string(e.Place),
		Remark: remark}
}

// DescribeGradient words a gradient.
func DescribeGradient(g *moisture.Gradient) *Gradient {
	return &Gradient{CoreMinusShell: wire.PointsBandOf(g.CoreMinusShell), Sense: string(g.Sense), Meaning: g.Meaning}
}
