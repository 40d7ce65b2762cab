package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// The memory of the service, as the unit and the manifest set it, and what it promises
// to keep within.
const (
	cageBytes   = 192 << 20
	mostMiB     = 160
	cgroupTwo   = "/sys/fs/cgroup"
	cgroupOne   = "/sys/fs/cgroup/memory"
	unitOfCages = "latewood-chaos-"
)

// cage is a memory cgroup of this command's own, of cageBytes and without swap. Where the
// machine allows none its folder is empty, and the memory is only watched.
type cage struct {
	folder, failures string
}

// newCage makes one.
func newCage() *cage {
	name := unitOfCages + strconv.Itoa(os.Getpid())
	for _, kind := range []struct{ root, limit, failures string }{
		{cgroupTwo, "memory.max", "memory.events"},
		{cgroupOne, "memory.limit_in_bytes", "memory.failcnt"},
	} {
		folder := filepath.Join(kind.root, name)
		if os.Mkdir(folder, 0o755) != nil {
			continue
		}
		if os.WriteFile(filepath.Join(folder, kind.limit), []byte(strconv.Itoa(cageBytes)), 0o600) != nil {
			_ = os.Remove(folder)
			continue
		}
		_ = os.WriteFile(filepath.Join(folder, "memory.swap.max"), []byte("0"), 0o600) // where there is such a file
		return &cage{folder: folder, failures: kind.failures}
	}
	return &cage{}
}

func (c *cage) String() string {
	if c.folder == "" {
		return "no memory cgroup can be made here: the memory is watched"
	}
	return fmt.Sprintf("in a memory cgroup of %d MiB", cageBytes>>20)
}

// enter is what a shell does to be in the cage; what it then runs is as well.
func (c *cage) enter() string {
	if c.folder == "" {
		return ""
	}
	return "echo $$ >" + filepath.Join(c.folder, "cgroup.procs")
}

// remove takes the cage away when nothing is in it any more.
func (c *cage) remove() {
	for range 100 {
		if c.folder == "" || os.Remove(c.folder) == nil {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// memoryOf reads a line of the status of a process, in MiB.
func memoryOf(process int, key string) (float64, error) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", process))
	if err != nil {
		return 0, err
	}
	for line := range strings.Lines(string(text)) {
		var kib float64
		if n, _ := fmt.Sscanf(line, key+": %f kB", &kib); n == 1 {
			return kib / 1024, nil
		}
	}
	return 0, errors.New("no " + key)
}
