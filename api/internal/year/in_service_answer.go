package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
)

// YearInServiceResult is the year of every part.
type YearInServiceResult struct { //nolint:revive // the contract has this name
	Summary   string                `json:"summary" required:"true" description:"the answer in a sentence"`
	Room      RoomUsed              `json:"room" required:"true" description:"the room as the answer took it"`
	Parts     []PartThroughYear     `json:"parts" required:"true" nullable:"false" description:"the year of each part"`
	Laminates []LaminateThroughYear `json:"laminates,omitempty" description:"the year of each laminate. Left out where none was given"`
	BuildAir  *AirToBuild           `json:"build_air,omitempty" description:"one humidity to build all parts in: halfway between the lowest and the highest of theirs. Left out without parts"`

	// What the drawing and the table take.
	calendar calendar
	lives    *inservice.Lives
	held     []bool // what the parts say of themselves
}

// PartThroughYear is the year of a part.
type PartThroughYear struct {
	ID           string           `json:"id" required:"true" description:"your id of the part, or its position"`
	Name         string           `json:"name,omitempty" description:"your name for the part"`
	Wood         shelf.WoodUsed   `json:"wood" required:"true" description:"the wood, with the figures the answer rests on"`
	Outside      FinishUsed       `json:"outside" required:"true" description:"the finish on face 1"`
	Inside       FinishUsed       `json:"inside" required:"true" description:"the finish on face 2"`
	Factor       shelf.FactorUsed `json:"drying_factor" required:"true" description:"speed of diffusion; fitted to drying boards, so the band is wide for thin parts"`
	TimeConstant float64          `json:"time_constant_days" required:"true" description:"how fast the part nears the air after a step; not the delay of its extremes, which a year holds below three months"`
	Delay        float64          `json:"extremes_delay_days" required:"true" description:"how long after those of its air the driest and the wettest state come, mean of the two"`
	Build        wire.Band        `json:"build_mc" required:"true" description:"moisture content at the build"`
	Driest       PartState        `json:"driest" required:"true" description:"the driest day of the part"`
	Wettest      PartState        `json:"wettest" required:"true" description:"the wettest day of the part"`
	Swing        float64          `json:"swing_mc_points" required:"true" description:"wettest less driest, mean moisture content"`
	Sizes        []SizeInYear     `json:"sizes" required:"true" nullable:"false" description:"thickness, and width and length where they were given"`
	Restraint    *RestrainedPart  `json:"restraint,omitempty" description:"what the part bears across the grain if it cannot move. Left out without a width"`
	BuildAir     AirToBuild       `json:"build_air" required:"true" description:"built in this air, the part moves as far into the dry season as into the wet one"`
	Series       []YearPoint      `json:"series" nullable:"false" detail:"full" description:"every fifth day; every day of a record or with a weekly swing. Left out with ?detail=summary"`

	called string // by people
}

// PartState is the part at an extreme of its year.
type PartState struct {
	Day
	Mean    wire.Band `json:"mean_mc" required:"true" description:"mean moisture content. The band covers the scatter between woods, their history, the drying factor, the finish and the film of air; not an error of the air of the room"`
	Outside float64   `json:"outside_mc_pct" required:"true" description:"moisture content of the outer tenth at the outside, face 1"`
	Inside  float64   `json:"inside_mc_pct" required:"true" description:"moisture content of the outer tenth at the inside, face 2"`
}

// SizeInYear is a dimension at the build and at both extremes.
type SizeInYear struct {
	Dimension    string        `json:"dimension" required:"true" enum:"thickness,width,length" description:"which size of the part"`
	Build        wire.Quantity `json:"build" required:"true" description:"the size at the build"`
	Driest       wire.Band     `json:"driest" required:"true" description:"the size on the driest day"`
	Wettest      wire.Band     `json:"wettest" required:"true" description:"the size on the wettest day"`
	Swing        wire.Band     `json:"swing" required:"true" description:"wettest less driest"`
	EdgeMovement wire.Band     `json:"edge_movement" required:"true" description:"half the swing: how far each edge moves from a seam or a fixing in the middle"`
}

// RestrainedPart is what a part bears that cannot move.
type RestrainedPart struct {
	Stretch wire.Band `json:"stretch" required:"true" description:"strain in percent on the driest day, pulled across the grain"`
	Squeeze wire.Band `json:"squeeze" required:"true" description:"strain in percent on the wettest day, pressed together across the grain"`
	Share   wire.Band `json:"failure_share" required:"true" description:"stretch in percent of 1.5 %, where wood begins to fail across the grain (1.5 to 2 %, from memory); elastic, creep takes off a part in months"`
	Risk    string    `json:"risk" required:"true" enum:"low,moderate,high" description:"risk that the part cracks, by the upper end of the band of failure_share; common practice"`
}

// AirToBuild is the air to build in.
type AirToBuild struct {
	MCPct       float64       `json:"mc_pct" required:"true" description:"moisture content that the wood comes to in it"`
	RH          wire.Band     `json:"rh" required:"true" description:"relative humidity"`
	Temperature wire.Quantity `json:"temperature" required:"true" description:"temperature: that of the air of build_condition, or 20 C"`
}

// YearPoint is the part on a day.
type YearPoint struct { //nolint:revive // the contract has this name
	Day
	Mean    wire.Band `json:"mean_mc" required:"true" description:"mean moisture content"`
	Outside float64   `json:"outside_mc_pct" required:"true" description:"moisture content of the outer tenth at the outside, face 1"`
	Inside  float64   `json:"inside_mc_pct" required:"true" description:"moisture content of the outer tenth at the inside, face 2"`
}

// FinishUsed is a finish as the answer took it.
type FinishUsed struct {
	Name       string    `json:"name,omitempty" enum:"bare,wax,oil,thin_lacquer,lacquer,varnish,shellac,epoxy,impermeable" description:"the name of the finish. Left out: a resistance of your own"`
	Resistance wire.Band `json:"resistance" required:"true" description:"resistance to vapour"`
	Source     string    `json:"source" required:"true" description:"where the resistance comes from"`
}
