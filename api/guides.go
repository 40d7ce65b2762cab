package api

import "embed"

// guides are those of callers, of makers and of whoever runs the service.
//
//go:embed GUIDE.md MAKER.md RACK.md RECIPES.md RUNNING.md VERSIONING.md
var guides embed.FS
