package shape

// Places on the drawings.
const (
	LayersTop    = layersTop
	LayersBottom = layersBottom
	SectionRight = sectionRight
)
