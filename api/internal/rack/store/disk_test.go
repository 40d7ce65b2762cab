package store

import (
	"errors"
	"io"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/ncruces/go-sqlite3"
	"github.com/ncruces/go-sqlite3/util/vfsutil"
	"github.com/ncruces/go-sqlite3/vfs"
)

// played is the file layer of SQLite whose disks lie in memory. The first part of a path
// names the disk.
const played = "played"

func init() { vfs.Register(played, playedVFS{}) }

var (
	disksMu sync.Mutex
	disks   = map[string]*disk{}
)

// disk is a folder of files in memory that writes down what is done to it. It keeps what
// a running system sees; what is left of it after power is lost is told by a wreck.
type disk struct {
	name string
	shm  string // folder for the shared memory of its connections; empty: they open the file alone

	// Faults of the disk.
	idleSync     func(name string) bool // a sync of this file does nothing
	keepsNoNames bool                   // a sync of a new file does not sync its folder

	mu    sync.Mutex
	next  int
	names map[string]*diskFile
	log   []step
	notes bool // keep the log
	full  int  // bytes that still fit; 0: no end
}

type diskFile struct {
	number int
	data   []byte
	lent   bool // the bytes are those of a wreck: they are copied before they are written to
	open   []*handle
}

// own makes the bytes those of the file alone; the lock is held.
func (f *diskFile) own() {
	if f.lent {
		f.data, f.lent = slices.Clone(f.data), false
	}
}

// step is one thing that was done to a disk.
type step struct {
	deed     deed
	file     int
	name, to string // of create, remove and rename
	at       int64  // of a write; size of a truncate
	data     []byte
	ack      int // orders that were answered
}

type deed int

const (
	creates deed = iota
	writes
	truncates
	syncs
	syncsFolder
	removes
	renames
	answers // no step of the disk: an order was answered
	saves   // no step of the disk: a backup of so many orders was answered
)

func newDisk(name string) *disk {
	d := &disk{name: name, names: map[string]*diskFile{}}
	disksMu.Lock()
	defer disksMu.Unlock()
	disks[name] = d
	return d
}

func (d *disk) drop() {
	disksMu.Lock()
	defer disksMu.Unlock()
	delete(disks, d.name)
}

// path is a file of the disk as SQLite is told it.
func (d *disk) path(name string) string { return "/" + d.name + "/" + name }

func diskOf(file string) (*disk, string) {
	first, name, _ := strings.Cut(strings.TrimPrefix(filepath.ToSlash(file), "/"), "/")
	disksMu.Lock()
	defer disksMu.Unlock()
	return disks[first], name
}

// note writes a step down; the lock is held.
func (d *disk) note(s step) {
	if d.notes {
		d.log = append(d.log, s)
	}
}

// said writes down that something was answered.
func (d *disk) said(what deed, n int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.note(step{deed: what, ack: n})
}

// create finds or makes a file; the lock is held.
func (d *disk) create(name string) *diskFile {
	f := d.names[name]
	if f == nil {
		d.next++
		f = &diskFile{number: d.next}
		d.names[name] = f
		d.note(step{deed: creates, file: f.number, name: name})
	}
	return f
}

type playedVFS struct{}

func (playedVFS) Open(name string, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	if name == "" || flags&(vfs.OPEN_TEMP_JOURNAL|vfs.OPEN_TEMP_DB|vfs.OPEN_TRANSIENT_DB|vfs.OPEN_SUBJOURNAL) != 0 {
		return &vfsutil.SliceFile{}, flags, nil
	}
	d, base := diskOf(name)
	if d == nil {
		return nil, flags, sqlite3.CANTOPEN
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.names[base] == nil && flags&vfs.OPEN_CREATE == 0 {
		return nil, flags, sqlite3.CANTOPEN
	}
	h := &handle{disk: d, file: d.create(base), name: base}
	// As the system's layer does: the folder is synced with a new journal.
	h.folder = flags&vfs.OPEN_CREATE != 0 && flags&(vfs.OPEN_MAIN_JOURNAL|vfs.OPEN_SUPER_JOURNAL|vfs.OPEN_WAL) != 0
	if d.shm != "" {
		h.shm = vfs.NewSharedMemory(filepath.Join(d.shm, base+"-shm"), flags)
	}
	h.file.open = append(h.file.open, h)
	return h, flags, nil
}

func (playedVFS) Delete(name string, syncFolder bool) error {
	d, base := diskOf(name)
	if d == nil {
		return sqlite3.IOERR_DELETE_NOENT
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.names[base] == nil {
		return sqlite3.IOERR_DELETE_NOENT
	}
	delete(d.names, base)
	d.note(step{deed: removes, name: base})
	if syncFolder {
		d.note(step{deed: syncsFolder})
	}
	return nil
}

func (playedVFS) Access(name string, _ vfs.AccessFlag) (bool, error) {
	d, base := diskOf(name)
	if d == nil {
		return false, nil
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.names[base] != nil, nil
}

func (playedVFS) FullPathname(name string) (string, error) { return path.Clean(name), nil }

// handle is an open file.
type handle struct {
	disk   *disk
	file   *diskFile
	name   string
	lock   vfs.LockLevel
	folder bool // is synced with the file, once
	shm    vfs.SharedMemory
}

func (h *handle) SharedMemory() vfs.SharedMemory { return h.shm }

func (h *handle) Close() error {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	for i, other := range h.file.open {
		if other == h {
			h.file.open = append(h.file.open[:i:i], h.file.open[i+1:]...)
			break
		}
	}
	if h.shm != nil {
		return h.shm.Close()
	}
	return nil
}

func (h *handle) ReadAt(p []byte, at int64) (int, error) {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	if at >= int64(len(h.file.data)) {
		return 0, io.EOF
	}
	n := copy(p, h.file.data[at:])
	if n < len(p) {
		return n, io.EOF
	}
	return n, nil
}

func (h *handle) WriteAt(p []byte, at int64) (int, error) {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	end := at + int64(len(p))
	if more := int(end) - len(h.file.data); more > 0 && h.disk.full > 0 {
		if h.disk.full -= more; h.disk.full <= 0 {
			h.disk.full = 1
			return 0, sqlite3.FULL
		}
	}
	h.file.own()
	h.file.data = written(h.file.data, p, at)
	if h.disk.notes {
		h.disk.note(step{deed: writes, file: h.file.number, at: at, data: slices.Clone(p)})
	}
	return len(p), nil
}

// written is data with p written at a place.
func written(data, p []byte, at int64) []byte {
	if end := at + int64(len(p)); end > int64(len(data)) {
		data = append(data, make([]byte, end-int64(len(data)))...)
	}
	copy(data[at:], p)
	return data
}

func resized(data []byte, size int64) []byte {
	if size <= int64(len(data)) {
		return data[:size:size]
	}
	return append(data, make([]byte, size-int64(len(data)))...)
}

func (h *handle) Truncate(size int64) error {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	h.file.own()
	h.file.data = resized(h.file.data, size)
	h.disk.note(step{deed: truncates, file: h.file.number, at: size})
	return nil
}

func (h *handle) Sync(vfs.SyncFlag) error {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	if h.disk.idleSync != nil && h.disk.idleSync(h.name) {
		return nil
	}
	h.disk.note(step{deed: syncs, file: h.file.number})
	if h.folder && !h.disk.keepsNoNames {
		h.disk.note(step{deed: syncsFolder})
	}
	h.folder = false
	return nil
}

func (h *handle) Size() (int64, error) {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	return int64(len(h.file.data)), nil
}

// held is the highest lock of the other handles of the file; the lock is held.
func (h *handle) held() (highest vfs.LockLevel) {
	for _, other := range h.file.open {
		if other != h {
			highest = max(highest, other.lock)
		}
	}
	return highest
}

func (h *handle) Lock(level vfs.LockLevel) error {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	held := h.held()
	switch {
	case h.lock >= level:
	case level == vfs.LOCK_SHARED && held >= vfs.LOCK_PENDING,
		level == vfs.LOCK_RESERVED && held >= vfs.LOCK_RESERVED,
		level >= vfs.LOCK_PENDING && held > vfs.LOCK_NONE:
		return sqlite3.BUSY
	default:
		h.lock = level
	}
	return nil
}

func (h *handle) Unlock(level vfs.LockLevel) error {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	h.lock = min(h.lock, level)
	return nil
}

func (h *handle) CheckReservedLock() (bool, error) {
	h.disk.mu.Lock()
	defer h.disk.mu.Unlock()
	return max(h.held(), h.lock) >= vfs.LOCK_RESERVED, nil
}

func (*handle) SectorSize() int { return sector }

func (*handle) DeviceCharacteristics() vfs.DeviceCharacteristic {
	return vfs.IOCAP_POWERSAFE_OVERWRITE // what the system's layer says
}

// playedFiles does to whole files of a disk what the store does beside SQLite.
type playedFiles struct{ *disk }

func (p playedFiles) Exists(file string) (bool, error) { return playedVFS{}.Access(file, 0) }

func (p playedFiles) Make(file string) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.create(path.Base(file))
	return nil
}

func (p playedFiles) Remove(file string) error {
	if err := (playedVFS{}).Delete(file, false); !errors.Is(err, sqlite3.IOERR_DELETE_NOENT) {
		return err
	}
	return nil
}

func (p playedFiles) Rename(from, to string) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	from, to = path.Base(from), path.Base(to)
	p.names[to] = p.names[from]
	delete(p.names, from)
	p.note(step{deed: renames, name: from, to: to})
	return nil
}

func (p playedFiles) Sync(file string) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if f := p.names[path.Base(file)]; f != nil {
		if p.idleSync == nil || !p.idleSync(path.Base(file)) {
			p.note(step{deed: syncs, file: f.number})
		}
		return nil
	}
	if !p.keepsNoNames {
		p.note(step{deed: syncsFolder})
	}
	return nil
}
