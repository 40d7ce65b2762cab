package serve

import (
	"path"
	"sync"

	"github.com/labstack/echo/v4"

	front "latewood/api/internal/page"
)

var pageMedia = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
}

// PageFile serves a file of the front page.
func PageFile(name string) func(*Desk) echo.HandlerFunc {
	file := sync.OnceValues(func() (*prepared, error) {
		text, err := front.Files.ReadFile(name)
		if err != nil {
			return nil, err
		}
		return prepare(pageMedia[path.Ext(name)], text)
	})
	return func(*Desk) echo.HandlerFunc { return fromCopy(file) }
}
