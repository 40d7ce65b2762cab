package main

import "runtime/debug"

// How the server keeps its memory, unless GOGC or GOMEMLIMIT say otherwise. It
// holds some 20 MiB that stay and makes much that is short-lived; with the usual
// 100 % it would collect a hundred times a second at full load, and every
// hundredth request would wait for that. api/RUNNING.md has the figures. The
// limit keeps rare large batches within 160 MiB by collecting sooner.
const (
	garbagePercent = 400
	memoryLimit    = 116 << 20 // bytes of the heap and all else that is Go's
)

func (p *program) tuneMemory() {
	if p.getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePercent)
	}
	if p.getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
}
