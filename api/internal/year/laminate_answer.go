package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// LaminateThroughYear is the year of a laminate.
type LaminateThroughYear struct {
	ID           string             `json:"id" required:"true" description:"your id of the laminate, or its position"`
	Name         string             `json:"name,omitempty" description:"your name for the laminate"`
	Outside      FinishUsed         `json:"outside" required:"true" description:"the finish on face 1"`
	Inside       FinishUsed         `json:"inside" required:"true" description:"the finish on face 2"`
	Layers       []LayerThroughYear `json:"layers" required:"true" nullable:"false" description:"the layers from face 1 down, each with the year of its own moisture"`
	TimeConstant float64            `json:"time_constant_days" required:"true" description:"how fast the whole nears the air after a step, by the mass of its layers; not the delay of its extremes"`
	Delay        float64            `json:"extremes_delay_days" required:"true" description:"how long after those of its air the driest and the wettest state of the whole come, mean of the two"`
	Driest       LaminateState      `json:"driest" required:"true" description:"the driest day of the whole, by mass"`
	Wettest      LaminateState      `json:"wettest" required:"true" description:"the wettest day of the whole, by mass"`
	SwingMC      float64            `json:"swing_mc_points" required:"true" description:"wettest less driest, mean moisture content"`
	Swing        LaminateSwing      `json:"swing" required:"true" description:"wettest less driest; the bands are those of one panel that goes from one to the other"`
	CupExtremes  BendExtremes       `json:"cup_extremes" required:"true" description:"the days when the cup is furthest either way, which are others than the driest and the wettest where one layer leads"`
	BowExtremes  BendExtremes       `json:"bow_extremes" required:"true" description:"the days when the bow is furthest either way"`
	Creep        shelf.CreepLeft    `json:"creep" required:"true" description:"what is left of stress and bend after weeks and months"`
	Series       []LaminatePoint    `json:"series" nullable:"false" detail:"full" description:"every fifth day; every day of a record or with a weekly swing. Left out with ?detail=summary"`

	called string // by people
}

// LayerThroughYear is the year of the moisture of one layer.
type LayerThroughYear struct {
	ID           string           `json:"id" required:"true" description:"your id of the layer, or its position"`
	Name         string           `json:"name,omitempty" description:"your name for the layer"`
	Wood         shelf.WoodUsed   `json:"wood" required:"true" description:"the wood, with the figures the answer rests on"`
	Factor       shelf.FactorUsed `json:"drying_factor" required:"true" description:"speed of diffusion; fitted to drying boards, so the band is wide for thin layers"`
	GlueUp       wire.Band        `json:"glue_up_mc" required:"true" description:"moisture content when it was glued"`
	TimeConstant float64          `json:"time_constant_days" required:"true" description:"how fast the layer nears the air after a step, by its depth below both faces and what is on them"`
	Delay        float64          `json:"extremes_delay_days" required:"true" description:"how long after those of the air its own driest and wettest state come, mean of the two"`
	Driest       FigureState      `json:"driest" required:"true" description:"its own driest state"`
	Wettest      FigureState      `json:"wettest" required:"true" description:"its own wettest state"`
}

// LaminateState is a laminate on its driest or wettest day.
type LaminateState struct {
	Day
	Mean       wire.Band              `json:"mean_mc" required:"true" description:"mean moisture content, by mass"`
	Cup        wire.Band              `json:"cup" required:"true" description:"bend over the width since it was glued flat. Positive: hollow on face 1"`
	Bow        wire.Band              `json:"bow" required:"true" description:"bend over the length since it was glued flat. Positive: hollow on face 1"`
	CornerLift wire.Band              `json:"corner_lift" required:"true" description:"with three corners down, how far the fourth stands up; the sign says which diagonal"`
	Length     wire.Band              `json:"length_change" required:"true" description:"change of the length at mid-thickness since it was glued; positive is swelling"`
	Width      wire.Band              `json:"width_change" required:"true" description:"change of the width at mid-thickness since it was glued; positive is swelling"`
	Layers     []LayerState           `json:"layers" required:"true" nullable:"false" description:"the layers from face 1 down"`
	GlueLines  []shelf.GlueLineStress `json:"glue_lines" required:"true" nullable:"false" description:"the glue between each layer and the next below, from face 1 down"`
}

// LayerState is a layer on that day.
type LayerState struct {
	MC      wire.Band        `json:"mc" required:"true" description:"mean moisture content of the layer"`
	Face1MC float64          `json:"face_1_mc_pct" required:"true" description:"moisture content at its face that looks to face 1, of the straight line through the layer that bends it as its moisture does"`
	Face2MC float64          `json:"face_2_mc_pct" required:"true" description:"the same at its other face"`
	Face1   shelf.FaceStress `json:"face_1" required:"true" description:"at the face of the layer that looks to face 1 of the laminate"`
	Face2   shelf.FaceStress `json:"face_2" required:"true" description:"at its other face"`
}

// LaminateSwing is wettest less driest.
type LaminateSwing struct {
	Cup        wire.Band `json:"cup" required:"true" description:"of the cup; positive: it grows hollow on face 1 towards the wettest day"`
	Bow        wire.Band `json:"bow" required:"true" description:"of the bow; positive: it grows hollow on face 1 towards the wettest day"`
	CornerLift wire.Band `json:"corner_lift" required:"true" description:"of the corner lift"`
	Length     wire.Band `json:"length_change" required:"true" description:"of the length"`
	Width      wire.Band `json:"width_change" required:"true" description:"of the width"`
}

// BendExtremes are the days of a bend that is furthest either way.
type BendExtremes struct {
	Max BendDay `json:"max" required:"true" description:"the day of the greatest bend: most hollow on face 1 or, of work that is hollow on face 2 all year, and the bend negative, least hollow there"`
	Min BendDay `json:"min" required:"true" description:"the day of the least bend: most hollow on face 2, and the bend negative, or, of work that is hollow on face 1 all year, and the bend positive, least hollow there"`
}

// BendDay is a bend on a day.
type BendDay struct {
	Day
	Bend wire.Band `json:"bend" required:"true" description:"the bend then. Positive: hollow on face 1"`
}

// LaminatePoint is the laminate on a day.
type LaminatePoint struct {
	Day
	Mean wire.Band `json:"mean_mc" required:"true" description:"mean moisture content, by mass"`
	Cup  wire.Band `json:"cup" required:"true" description:"bend over the width. Positive: hollow on face 1"`
	Bow  wire.Band `json:"bow" required:"true" description:"bend over the length. Positive: hollow on face 1"`
}
