package wire

import "regexp"

// IDPattern is that of an id that a caller gives.
const IDPattern = `^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`

// ID is how a caller's id is written.
var ID = regexp.MustCompile(IDPattern)
