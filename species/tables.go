package species

import (
	"slices"
)

// Tables is all that the package knows. It is built once, never changed
// afterwards, and safe for use by many goroutines.
type Tables struct {
	woods       []*Wood // by id
	woodByID    map[string]*Wood
	stations    []*Station // by id
	stationByID map[string]*Station
	sources     map[string]string
	cautions    []cautionRule
	general     Value // general fibre saturation
	// elasticMeans are those of the broadleaved woods and of the conifers.
	elasticMeans map[Group]ElasticRatios
	bareNames    map[string][]Choice // by the folded name
	recall       []Recall
	version      string
	woodIndex    *index
	placeIndex   *index
	shop         shopTables
}

// DataVersion returns a version of the data: the first 12 hexadecimal digits of
// the SHA-256 over names and contents of all data files. It changes with every
// change of the data and with nothing else.
func (t *Tables) DataVersion() string { return t.version }

// Wood returns the wood with that id. Ids are case-sensitive.
func (t *Tables) Wood(id string) (*Wood, bool) {
	w, ok := t.woodByID[id]
	return w, ok
}

// Woods returns all woods in the order of their ids. The slice is the caller's,
// the woods are shared.
func (t *Tables) Woods() []*Wood { return slices.Clone(t.woods) }

// Station returns the station with that id. Ids are case-sensitive.
func (t *Tables) Station(id string) (*Station, bool) {
	s, ok := t.stationByID[id]
	return s, ok
}

// Stations returns all stations in the order of their ids. The slice is the
// caller's, the stations are shared.
func (t *Tables) Stations() []*Station { return slices.Clone(t.stations) }

// GeneralFibreSaturation returns the fibre saturation (%MC, with spread) for
// woods that have no figure of their own.
func (t *Tables) GeneralFibreSaturation() Value { return t.general }

// Recall returns how the recalled figures of each publication stood when they were held
// against what was found of it in print.
func (t *Tables) Recall() []Recall { return slices.Clone(t.recall) }
