package serve

import (
	"time"
)

// Deprecation says that a route goes: each of its replies tells it (RFC 9745, RFC 8594), so
// that whoever joined it to something learns of it without reading.
type Deprecation struct {
	Since   time.Time // from then on there is something better
	Gone    time.Time // from then on it may answer nothing
	Instead string    // the path of what takes its place
}

// ShortestNotice is the time between the two at the least. Own choice; the promise stands in
// VERSIONING.md.
const ShortestNotice = 365 * 24 * time.Hour
