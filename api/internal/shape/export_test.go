package shape

// What the tests of this package see besides.
const (
	HollowToBark  = hollowToBark
	HollowToPith  = hollowToPith
	StaysFlat     = staysFlat
	MostCurl      = mostCurl
	PointsPerSide = pointsPerSide
)

// Places on the drawings.
const (
	LayersTop    = layersTop
	LayersBottom = layersBottom
	SectionRight = sectionRight
)
