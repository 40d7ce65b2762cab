package store

import (
	"maps"
	"math/rand/v2"
	"slices"
)

// sector is what a disk writes whole or not at all. What of a longer write arrives before
// power is lost is any part of its sectors.
const sector = 512

// wreck follows the steps of a disk and knows at each of them what is surely on it, and
// what may be: all that was done to a file since it was last synced, each on its own and
// in any order.
type wreck struct {
	files   map[int][]byte // as last synced
	pending map[int][]step // writes and truncates since then
	names   map[string]int // as the folder was last synced
	renamed []step         // names made, removed and changed since then
	acked   int            // orders answered
	saved   int            // orders in the backup that was answered; -1: none was
}

func newWreck() *wreck {
	return &wreck{files: map[int][]byte{}, pending: map[int][]step{}, names: map[string]int{}, saved: -1}
}

// follow takes one more step, and reports whether power can be lost after it: not where
// the disk did nothing.
func (w *wreck) follow(s step) bool {
	switch s.deed {
	case creates, removes, renames:
		w.renamed = append(w.renamed, s)
	case writes, truncates:
		w.pending[s.file] = append(w.pending[s.file], s)
	case syncs:
		data := w.files[s.file]
		for _, p := range w.pending[s.file] {
			data = p.on(data)
		}
		w.files[s.file] = data
		delete(w.pending, s.file)
	case syncsFolder:
		for _, r := range w.renamed {
			r.among(w.names)
		}
		w.renamed = nil
	case answers:
		w.acked = s.ack
		return false
	case saves:
		w.saved = s.ack
		return false
	}
	return true
}

// doubtful says that something was done that is not surely on the disk.
func (w *wreck) doubtful() bool { return len(w.pending) > 0 || len(w.renamed) > 0 }

// touches says that something was done to one of the files that is not surely on the disk.
func (w *wreck) touches(files ...string) bool {
	for _, name := range files {
		if number, is := w.names[name]; is && len(w.pending[number]) > 0 {
			return true
		}
	}
	return len(w.renamed) > 0
}

// on is what a write or a truncate makes of a file.
func (s step) on(data []byte) []byte {
	if s.deed == truncates {
		return resized(data, s.at)
	}
	return written(data, s.data, s.at)
}

// among does to names what a step did.
func (s step) among(names map[string]int) {
	switch s.deed {
	case creates:
		names[s.name] = s.file
	case removes:
		delete(names, s.name)
	case renames:
		if number, is := names[s.name]; is {
			names[s.to] = number
			delete(names, s.name)
		}
	default: // nothing is called otherwise
	}
}

// fate is what becomes of what was not synced.
type fate int

const (
	allLost fate = iota
	allKept
	someTorn // each step kept, lost or torn by chance, whatever came before it
	lastTorn // all but the last write kept, and that one torn
	fates
)

// left is the disk as it is found when power is back.
func (w *wreck) left(name string, how fate, r *rand.Rand) *disk {
	d := newDisk(name)
	names := maps.Clone(w.names)
	for _, s := range w.renamed {
		// Names are kept in the order they were made, as far as the journal of the file
		// system came.
		if how == allLost || how == someTorn && r.IntN(2) == 0 {
			break
		}
		s.among(names)
	}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		number := names[name]
		if len(w.pending[number]) == 0 {
			d.names[name] = &diskFile{number: number, data: w.files[number], lent: true}
			continue
		}
		data := slices.Clone(w.files[number])
		for i, p := range w.pending[number] {
			data = p.after(data, how, i == len(w.pending[number])-1, r)
		}
		d.names[name] = &diskFile{number: number, data: data}
	}
	return d
}

// after is a file after power was lost before a step was synced.
func (s step) after(data []byte, how fate, last bool, r *rand.Rand) []byte {
	switch {
	case how == allLost, how == someTorn && r.IntN(3) == 0:
		return data
	case how == allKept, how == lastTorn && !last, s.deed == truncates, how == someTorn && r.IntN(2) == 0:
		return s.on(data)
	}
	return s.torn(data, r)
}

// torn writes some of the sectors of a write, and may leave one that was being written as
// anything.
func (s step) torn(data []byte, r *rand.Rand) []byte {
	for from := 0; from < len(s.data); {
		to := min(len(s.data), from+sector-int(s.at+int64(from))%sector)
		switch part := s.data[from:to]; r.IntN(8) {
		case 0, 1, 2:
		case 3:
			noise := make([]byte, len(part))
			for i := range noise {
				noise[i] = byte(r.Uint32())
			}
			data = written(data, noise, s.at+int64(from))
		default:
			data = written(data, part, s.at+int64(from))
		}
		from = to
	}
	return data
}
