package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// FiguresResult is the movement figures of all parts and pairs.
type FiguresResult struct {
	Summary string        `json:"summary" required:"true"`
	Room    *RoomUsed     `json:"room,omitempty"`
	Parts   []PartFigures `json:"parts" required:"true" nullable:"false"`
	Pairs   []PairFigures `json:"pairs" required:"true" nullable:"false"`
}

// PartFigures are the figures of a part.
type PartFigures struct {
	Name     string         `json:"name" required:"true"`
	Wood     shelf.WoodUsed `json:"wood" required:"true"`
	MadeAt   wire.Band      `json:"build_condition" required:"true"`
	Driest   FigureState    `json:"driest" required:"true"`
	Wettest  FigureState    `json:"wettest" required:"true"`
	PerPoint PerPoint       `json:"per_point" required:"true" description:"change per point of moisture content about the build, in percent of the dimension"`
	Sizes    []SizeFigures  `json:"sizes" required:"true" nullable:"false" description:"thickness, and width and length where given"`
}

// FigureState is the moisture content of a part at an extreme.
type FigureState struct {
	Date string    `json:"date,omitempty" description:"with room: month and day; of a record the whole date"`
	MC   wire.Band `json:"mc" required:"true"`
}

// PerPoint is the movement of a wood in its own directions.
type PerPoint struct {
	Longitudinal wire.Band `json:"longitudinal" required:"true"`
	Radial       wire.Band `json:"radial" required:"true"`
	Tangential   wire.Band `json:"tangential" required:"true"`
}

// SizeFigures are the figures of one dimension of a part.
type SizeFigures struct {
	Dimension string        `json:"dimension" required:"true" enum:"thickness,width,length"`
	PerPoint  wire.Band     `json:"per_point" required:"true" description:"change of this dimension per point of moisture content about the build"`
	Build     wire.Quantity `json:"build" required:"true"`
	Driest    wire.Band     `json:"driest" required:"true"`
	Wettest   wire.Band     `json:"wettest" required:"true"`
	ToDriest  wire.Band     `json:"to_driest" required:"true" description:"driest minus build"`
	ToWettest wire.Band     `json:"to_wettest" required:"true" description:"wettest minus build"`
	Swing     wire.Band     `json:"swing" required:"true" description:"wettest minus driest"`
}

// PairFigures are the figures of a pair.
type PairFigures struct {
	Name       string        `json:"name" required:"true"`
	Possible   bool          `json:"possible" required:"true" description:"a clearance at build exists that stays between least and most in 95 of 100 pairs at each end"`
	Least      wire.Quantity `json:"least_at_build" required:"true" description:"with possible false larger than greatest_at_build"`
	Greatest   wire.Quantity `json:"greatest_at_build" required:"true"`
	Middle     wire.Quantity `json:"middle_at_build" required:"true" description:"the safest"`
	Short      wire.Quantity `json:"short_by" required:"true" description:"by how much most is too small; 0 when possible"`
	ToDriest   wire.Band     `json:"to_driest" required:"true" description:"free difference: how the clearance changes from the build to the driest state; below 0 it closes"`
	ToWettest  wire.Band     `json:"to_wettest" required:"true"`
	WhatItSays string        `json:"what_it_says" required:"true"`
}
