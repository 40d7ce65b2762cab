package species

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"sync"
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

var once = sync.OnceValues(Load)

// Default returns the tables of the embedded data, parsed at the first call and
// shared by all later ones. An error means that the embedded data is broken; it
// names the file and the line.
func Default() (*Tables, error) { return once() }

// Load parses the embedded data into new tables. The error joins everything
// that is wrong with the data, each with its file and line.
func Load() (*Tables, error) { return load(embedded) }

func load(files fs.FS) (*Tables, error) {
	t := &Tables{woodByID: map[string]*Wood{}, stationByID: map[string]*Station{}, sources: map[string]string{}}
	version, err := dataVersion(files)
	if err != nil {
		return nil, err
	}
	t.version = version
	l := &loader{files: files, tables: t}
	l.loadSources()
	// Woods and places know nothing of one another: each is read by a loader of its own.
	places, read := &loader{files: files, tables: t}, sync.WaitGroup{}
	read.Go(func() {
		places.loadStations()
		places.loadShop()
		t.placeIndex = indexStations(t.stations)
		t.shop.plateIndex = indexPlates(t.shop.plates)
	})
	l.loadCautions()
	l.loadWoods()
	t.woodIndex = indexWoods(t.woods, t.bareNames)
	read.Wait()
	if err := errors.Join(append(l.problems, places.problems...)...); err != nil {
		return nil, fmt.Errorf("species data: %w", err)
	}
	return t, nil
}

// dataVersion hashes names and contents of all data files in the order of names.
func dataVersion(files fs.FS) (string, error) {
	names, err := fs.Glob(files, "data/*.csv")
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	for _, name := range names {
		content, err := fs.ReadFile(files, name)
		if err != nil {
			return "", err
		}
		sum.Write(fmt.Appendf(nil, "%s %d\n", name, len(content)))
		sum.Write(content)
	}
	return hex.EncodeToString(sum.Sum(nil))[:12], nil
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
