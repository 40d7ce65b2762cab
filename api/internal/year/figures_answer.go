package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// AssemblyMovementResult is the movement figures of all parts and pairs.
type AssemblyMovementResult struct {
	Summary string         `json:"summary" required:"true" description:"the answer in a sentence"`
	Room    *RoomUsed      `json:"room,omitempty" description:"the room as the answer took it. Left out without a room"`
	Parts   []PartFigures  `json:"parts" required:"true" nullable:"false" description:"figures of each part"`
	Pairs   []PairFigures  `json:"pairs" required:"true" nullable:"false" description:"figures of each pair; none where none was given"`
	Glued   []GluedFigures `json:"glued_joints,omitempty" description:"figures of each glued joint. Left out where none was given"`
}

// PartFigures are the figures of a part.
type PartFigures struct {
	ID       string         `json:"id" required:"true" description:"your id of the part, or its position"`
	Name     string         `json:"name,omitempty" description:"your name for the part"`
	Wood     shelf.WoodUsed `json:"wood" required:"true" description:"the wood, with the figures the answer rests on"`
	Build    wire.Band      `json:"build_mc" required:"true" description:"moisture content at the build"`
	Driest   FigureState    `json:"driest" required:"true" description:"the driest state"`
	Wettest  FigureState    `json:"wettest" required:"true" description:"the wettest state"`
	PerPoint PerPoint       `json:"per_point" required:"true" description:"change per point of moisture content about the build, in percent of the size"`
	Sizes    []SizeFigures  `json:"sizes" required:"true" nullable:"false" description:"thickness, and width and length where they were given"`

	called string // by people
}

// FigureState is the moisture content of a part at an extreme.
type FigureState struct {
	Day
	MC wire.Band `json:"mc" required:"true" description:"moisture content"`
}

// Day is a day of the room.
type Day struct {
	DayOfYear string `json:"day_of_year,omitempty" description:"month and day, such as --01-23, of a year like every other. Left out with date, and where no room was given"`
	Date      string `json:"date,omitempty" format:"date" description:"the date, of a record. Left out with day_of_year, and where no room was given"`
}

// PerPoint is the movement of a wood in its own directions.
type PerPoint struct {
	Longitudinal wire.Band `json:"longitudinal" required:"true" description:"along the grain"`
	Radial       wire.Band `json:"radial" required:"true" description:"across the rings"`
	Tangential   wire.Band `json:"tangential" required:"true" description:"along the rings"`
}

// SizeFigures are the figures of one dimension of a part.
type SizeFigures struct {
	Dimension string        `json:"dimension" required:"true" enum:"thickness,width,length" description:"which size of the part"`
	PerPoint  wire.Band     `json:"per_point" required:"true" description:"change of this size per point of moisture content about the build"`
	Build     wire.Quantity `json:"build" required:"true" description:"the size at the build"`
	Driest    wire.Band     `json:"driest" required:"true" description:"the size in the driest state"`
	Wettest   wire.Band     `json:"wettest" required:"true" description:"the size in the wettest state"`
	ToDriest  wire.Band     `json:"to_driest" required:"true" description:"driest less build"`
	ToWettest wire.Band     `json:"to_wettest" required:"true" description:"wettest less build"`
	Swing     wire.Band     `json:"swing" required:"true" description:"wettest less driest"`
}

// PairFigures are the figures of a pair.
type PairFigures struct {
	ID        string         `json:"id" required:"true" description:"your id of the pair, or its position"`
	Name      string         `json:"name,omitempty" description:"your name for the pair"`
	Feasible  bool           `json:"feasible" required:"true" description:"a clearance at the build exists that stays between min_clearance and max_clearance in 95 of 100 pairs at each end"`
	AtBuild   BuildClearance `json:"build_clearance" required:"true" description:"the clearance to build in. Where the pair is not feasible there is none: min is then what never binds, max what never gapes, and no clearance is both"`
	Short     wire.Quantity  `json:"short_by" required:"true" description:"by how much max_clearance is too small; 0 where the pair is feasible"`
	ToDriest  wire.Band      `json:"to_driest" required:"true" description:"how the clearance changes from the build to the driest state; below 0 it closes"`
	ToWettest wire.Band      `json:"to_wettest" required:"true" description:"how the clearance changes from the build to the wettest state; below 0 it closes"`
	AsMade    *PairAsMade    `json:"as_made,omitempty" description:"what becomes of the pair by the sizes of both sides as they were given. Left out where both are the same: one size, of which the clearance is still to be taken"`
	Detail    string         `json:"detail" required:"true" description:"how to fit the pair, in words; of a pair that is not feasible why, and what to change"`

	called string // by people
}

// said is what a drawing says of the pair.
func (p *PairFigures) said() string {
	if p.AsMade == nil {
		return p.Detail
	}
	return "with the sizes given " + p.AsMade.Detail + "; else " + p.Detail
}

// PairAsMade is what becomes of a pair by its sizes.
type PairAsMade struct {
	Verdict   string        `json:"verdict" required:"true" enum:"too_large,binds,may_bind,gapes,fits" description:"too_large: the inner part does not go in at the build; binds: the clearance closes; may_bind: it comes below min_clearance in more than 5 of 100 pairs; gapes: it comes above max_clearance in more than 5 of 100 pairs; fits: it keeps both limits. The first that is so"`
	Clearance wire.Quantity `json:"clearance" required:"true" description:"at the build: outer less inner; below 0 the inner part is too large"`
	Driest    wire.Band     `json:"driest" required:"true" description:"clearance in the driest state"`
	Wettest   wire.Band     `json:"wettest" required:"true" description:"clearance in the wettest state"`
	Detail    string        `json:"detail" required:"true" description:"the same in words, with what to do"`
}

// BuildClearance is the clearance of a pair at the build.
type BuildClearance struct {
	Min   wire.Quantity `json:"min" required:"true" description:"the least that serves; larger than max where the pair is not feasible"`
	Usual wire.Quantity `json:"usual" required:"true" description:"what to build: the least, and 0.2 mm for the bench; halfway between both where there is no room for that; min where the pair is not feasible"`
	Max   wire.Quantity `json:"max" required:"true" description:"the greatest that serves"`
}
