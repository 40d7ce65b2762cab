package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
)

// InServiceResult is the year of every part.
type InServiceResult struct {
	Summary string            `json:"summary" required:"true" description:"the answer in a sentence"`
	Room    RoomUsed          `json:"room" required:"true"`
	Parts   []PartThroughYear `json:"parts" required:"true" nullable:"false"`
	BuildAt *AirToBuild       `json:"build_at,omitempty" description:"one humidity for all parts: halfway between the lowest and the highest of theirs"`

	// What the drawing and the table take.
	calendar calendar
	lives    *inservice.Lives
	held     []bool // what the parts say of themselves
}

// PartThroughYear is the year of a part.
type PartThroughYear struct {
	Name     string           `json:"name" required:"true"`
	Wood     shelf.WoodUsed   `json:"wood" required:"true"`
	Outside  FinishUsed       `json:"outside" required:"true"`
	Inside   FinishUsed       `json:"inside" required:"true"`
	Factor   shelf.FactorUsed `json:"drying_factor" required:"true" description:"speed of diffusion; fitted to drying boards, so wide for thin parts"`
	LagDays  float64          `json:"lag_days" required:"true" description:"time constant: about how far the part is behind air that changes slowly"`
	MadeAt   wire.Band        `json:"build_condition" required:"true" description:"moisture content at the build"`
	Driest   PartState        `json:"driest" required:"true"`
	Wettest  PartState        `json:"wettest" required:"true"`
	SwingPct float64          `json:"swing_points" required:"true" description:"wettest minus driest, points of moisture content"`
	Sizes    []SizeInYear     `json:"sizes" required:"true" nullable:"false" description:"of the dimensions given"`
	Held     *HeldPart        `json:"held,omitempty" description:"with width: what the part bears across the grain if it cannot move"`
	BuildAt  AirToBuild       `json:"build_at" required:"true" description:"built in this air, the part moves as far into the dry season as into the wet one"`
	Series   []YearPoint      `json:"series" required:"true" nullable:"false" description:"every fifth day; every day of a record or with a weekly swing"`
}

// PartState is the part at an extreme of its year.
type PartState struct {
	Date       string    `json:"date" required:"true" description:"month and day; of a record the whole date"`
	Mean       wire.Band `json:"mean" required:"true" description:"the band covers the scatter between woods, their history, the drying factor, the finish and the film of air; not an error of the air of the room"`
	OutsidePct float64   `json:"outside_pct" required:"true" description:"outer tenth at the outer face"`
	InsidePct  float64   `json:"inside_pct" required:"true" description:"outer tenth at the other face"`
}

// SizeInYear is a dimension at the build and at both extremes.
type SizeInYear struct {
	Dimension string        `json:"dimension" required:"true" enum:"thickness,width,length"`
	Build     wire.Quantity `json:"build" required:"true"`
	Driest    wire.Band     `json:"driest" required:"true"`
	Wettest   wire.Band     `json:"wettest" required:"true"`
	Swing     wire.Band     `json:"swing" required:"true" description:"wettest minus driest"`
	EdgeWay   wire.Band     `json:"edge_way" required:"true" description:"half the swing: how far each edge moves from a seam or a fixing in the middle"`
}

// HeldPart is what a part bears that cannot move.
type HeldPart struct {
	StretchPct wire.Band `json:"stretch" required:"true" description:"at the driest, pulled across the grain"`
	SqueezePct wire.Band `json:"squeeze" required:"true" description:"at the wettest, pressed together"`
	Share      wire.Band `json:"share_of_failure" required:"true" description:"stretch in percent of 1.5 %, where wood begins to fail across the grain (1.5 to 2 %, from memory); elastic, creep takes off a part in months"`
	Danger     string    `json:"danger" required:"true" enum:"low,moderate,high" description:"by the upper end of the band; common practice"`
}

// AirToBuild is the air to build in.
type AirToBuild struct {
	MCPct       float64       `json:"mc_pct" required:"true"`
	RH          wire.Band     `json:"rh" required:"true"`
	Temperature wire.Quantity `json:"temperature" required:"true" description:"that of the air of build_condition, or 20 C"`
}

// YearPoint is the part on a day.
type YearPoint struct { //nolint:revive // the contract has this name
	Date       string    `json:"date" required:"true"`
	Mean       wire.Band `json:"mean" required:"true"`
	OutsidePct float64   `json:"outside_pct" required:"true"`
	InsidePct  float64   `json:"inside_pct" required:"true"`
}

// FinishUsed is a finish as the answer took it.
type FinishUsed struct {
	Name       string  `json:"name" required:"true"`
	Resistance float64 `json:"resistance_s_per_m" required:"true"`
	Low        float64 `json:"low_s_per_m" required:"true" description:"5 % of cases lie below"`
	High       float64 `json:"high_s_per_m" required:"true" description:"5 % of cases lie above"`
	Source     string  `json:"source" required:"true"`
}
