package shelf

import "latewood/api/internal/wire"

// MoistureProfile is the moisture content of a piece through its thickness.
type MoistureProfile struct {
	Mean  *float64 `json:"mean_mc_pct" validate:"required,gte=3,lte=140" description:"moisture content over the thickness, in percent of the ovendry mass"`
	SD    *float64 `json:"mean_mc_sd_points,omitempty" validate:"omitempty,gte=0.1,lte=50" description:"standard deviation of mean_mc_pct. Left out: 3 % of it, at least 1 point"`
	Shell *float64 `json:"shell_mc_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"of the outer tenth at each face, with core_mc_pct. Left out, both: the wood is taken to have dried down in the first of the stays"`
	Core  *float64 `json:"core_mc_pct,omitempty" validate:"omitempty,gte=1,lte=150" description:"of the middle fifth of the thickness, with shell_mc_pct"`
}

// Joins says which members go together.
func (*MoistureProfile) Joins() wire.Joined {
	return wire.Joined{Needs: map[string][]string{"shell_mc_pct": {"core_mc_pct"}, "core_mc_pct": {"shell_mc_pct"}}}
}
