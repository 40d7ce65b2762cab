package drying

import "latewood/woodphys/method"

// Methods returns the rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{&rowDiffusivity, &rowSlab, &rowExposure, &rowFrost, &rowHysteresis, &rowClimate, &rowRisk, &rowFactor, &rowPace, &rowThickness, &rowTaper, &rowRectangle, &rowEnds, &rowEndGrain, &rowStack}
}
