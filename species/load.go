package species

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"sync"
)

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
