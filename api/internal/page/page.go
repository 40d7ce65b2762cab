// Package page holds the front page: three files of its own that ask nothing of any
// other host.
package page

import "embed"

// Files are those of the page, by their names.
//
//go:embed index.html page.css page.js
var Files embed.FS
