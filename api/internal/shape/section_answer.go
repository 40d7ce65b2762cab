package shape

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/section"
)

// SectionResult is what becomes of the shape of a section.
type SectionResult struct {
	Wood       shelf.WoodUsed   `json:"wood" required:"true"`
	Summary    string           `json:"summary" required:"true" description:"the answer in a sentence"`
	From       wire.Band        `json:"from_mc" required:"true" description:"moisture content at the start; of levels the mean, with nothing above fibre saturation counted"`
	To         wire.Band        `json:"to_mc" required:"true"`
	Radial     wire.Band        `json:"radial_change" required:"true" description:"along the radius, in percent of the size; positive is swelling"`
	Tangential wire.Band        `json:"tangential_change" required:"true" description:"along the rings"`
	Start      SectionStart     `json:"start" required:"true"`
	Shape      *SectionShape    `json:"shape,omitempty" description:"left out for a section that holds the pith: it has no shape free of stress"`
	Heart      *BoxedHeart      `json:"boxed_heart,omitempty" description:"only for a section that holds the pith"`
	Gradient   *GradientBend    `json:"gradient,omitempty" description:"with levels"`
	Lengthwise *LengthwiseShape `json:"lengthwise_shape,omitempty"`
	Outline    *SectionOutline  `json:"outline,omitempty" description:"middle values; points from the middle of the section, x to the right and y up, anticlockwise from the lower left corner; left out for a section that holds the pith"`

	// What the drawing and the table take.
	report  wire.Reporter
	section section.Section
	heart   *section.Heart
	outline *section.Outline
}

// SectionStart is the section before the change.
type SectionStart struct {
	Width     wire.Quantity `json:"width" required:"true"`
	Thickness wire.Quantity `json:"thickness" required:"true"`
	Pith      PithPlace     `json:"pith" required:"true"`
	Rings     RingAngles    `json:"ring_angles" required:"true" description:"at mid-thickness; 0 along the width, 90 across it"`
}

// PithPlace is where the pith is.
type PithPlace struct {
	Depth  wire.Quantity `json:"depth" required:"true" description:"below the lower face"`
	Offset wire.Quantity `json:"offset" required:"true" description:"to the right of mid-width"`
	Inside bool          `json:"inside" required:"true" description:"a boxed heart"`
}

// RingAngles are the ring angles across a section.
type RingAngles struct {
	Left   float64 `json:"left_deg" required:"true"`
	Middle float64 `json:"middle_deg" required:"true"`
	Right  float64 `json:"right_deg" required:"true"`
}

// FaceCup is the cup of one face.
type FaceCup struct {
	Face         string     `json:"face" required:"true" enum:"lower,upper,left,right"`
	Cup          wire.Band  `json:"cup" required:"true" description:"how far the face departs from straight; positive: its curve opens towards the bark, negative: towards the pith"`
	Sense        string     `json:"sense" required:"true" enum:"hollow_to_the_bark,hollow_to_the_pith,flat" description:"which way the curve opens, with the gradient where there is one"`
	Words        string     `json:"in_words" required:"true"`
	WithGradient *wire.Band `json:"with_gradient,omitempty" description:"the cup and the bend by the gradient together; the band adds both, because they come from one piece"`
}

// SectionShape is the section after the change, free of stress.
type SectionShape struct {
	Faces         []FaceCup    `json:"faces" required:"true" nullable:"false"`
	LowerWidth    wire.Band    `json:"lower_width" required:"true" description:"straight from corner to corner along the lower face"`
	MiddleWidth   wire.Band    `json:"middle_width" required:"true"`
	UpperWidth    wire.Band    `json:"upper_width" required:"true"`
	LeftThick     wire.Band    `json:"left_thickness" required:"true"`
	MiddleThick   wire.Band    `json:"middle_thickness" required:"true"`
	RightThick    wire.Band    `json:"right_thickness" required:"true"`
	Rising        wire.Band    `json:"rising_diagonal" required:"true" description:"lower left to upper right"`
	Falling       wire.Band    `json:"falling_diagonal" required:"true" description:"upper left to lower right; unlike the other where the section goes out of square"`
	Corners       CornerAngles `json:"corners" required:"true"`
	Flat          wire.Band    `json:"planed_flat" required:"true" description:"thickness left when both faces are planed flat over the full width; without any gradient"`
	RippedFlat    wire.Band    `json:"ripped_planed_flat" required:"true" description:"the same for the worse half after ripping down the middle, kerf not counted, without any gradient"`
	HalvesRipped  []RippedHalf `json:"ripped_halves" required:"true" nullable:"false" description:"cup of the wide faces of each half; it does not matter whether the board is ripped before or after it moves"`
	FlatWithLevel *wire.Band   `json:"planed_flat_with_gradient,omitempty" description:"with levels: about what the gradient leaves of planed_flat, taken off both faces over the full width"`
}

// RippedHalf is one half of a section ripped down the middle.
type RippedHalf struct {
	Half  string    `json:"half" required:"true" enum:"left,right"`
	Lower wire.Band `json:"lower_cup" required:"true"`
	Upper wire.Band `json:"upper_cup" required:"true"`
}

// CornerAngles are the corners, 90 degrees before.
type CornerAngles struct {
	LowerLeft  wire.Band `json:"lower_left" required:"true"`
	LowerRight wire.Band `json:"lower_right" required:"true"`
	UpperRight wire.Band `json:"upper_right" required:"true"`
	UpperLeft  wire.Band `json:"upper_left" required:"true"`
}

// BoxedHeart is what happens to a section that holds the pith.
type BoxedHeart struct {
	Opens    bool      `json:"opens" required:"true" description:"a check opens; false: nothing opens, and old checks close"`
	Opening  wire.Band `json:"opening" required:"true" description:"angle by which the full circle fails to close, of one check or shared by several"`
	LowerGap wire.Band `json:"lower_gap" required:"true" description:"how wide one check from the pith square to this side opens there, if it takes all of the opening"`
	UpperGap wire.Band `json:"upper_gap" required:"true"`
	LeftGap  wire.Band `json:"left_gap" required:"true"`
	RightGap wire.Band `json:"right_gap" required:"true"`
	Words    string    `json:"in_words" required:"true"`
}

// GradientBend is the bend by a difference between shell and core.
type GradientBend struct {
	Curvature wire.Band `json:"curvature" required:"true" description:"positive: hollow above"`
	Cup       wire.Band `json:"cup" required:"true" description:"over the width; positive: hollow above"`
	MeanPct   wire.Band `json:"mean_width_change" required:"true"`
	Words     string    `json:"in_words" required:"true"`
}

// LengthwiseShape is how the piece bends and twists along its length.
type LengthwiseShape struct {
	Twist *wire.Band `json:"twist,omitempty" description:"from end to end, in the sense of the spiral where it dries"`
	Crook *wire.Band `json:"crook,omitempty" description:"of the edges over the length; positive: hollow on the right edge"`
	Bow   *wire.Band `json:"bow,omitempty" description:"of the faces over the length; positive: hollow on the upper face"`
}

// SectionOutline is the edge of the section before and after.
type SectionOutline struct {
	Before []OutlinePoint `json:"before" required:"true" nullable:"false"`
	After  []OutlinePoint `json:"after" required:"true" nullable:"false" description:"with the bend by a gradient, if there is one; the middle and the direction of its ring have not moved"`
}

// OutlinePoint is a place on the end grain.
type OutlinePoint struct {
	X    float64 `json:"x" required:"true"`
	Y    float64 `json:"y" required:"true"`
	Unit string  `json:"unit" required:"true"`
}
