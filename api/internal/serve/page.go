package serve

import (
	"net/http"
	"path"
	"sync"

	"github.com/labstack/echo/v4"

	front "latewood/api/internal/page"

	"latewood/api/internal/refuse"
)

var pageMedia = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".json": "application/json",
}

// The files of the front page, prepared when the first is asked for: of a service that keeps
// a rack, and of one that keeps none.
var (
	pageFiles     = sync.OnceValues(func() (map[string]*prepared, error) { return preparePage(front.Files) })
	rackPageFiles = sync.OnceValues(func() (map[string]*prepared, error) { return preparePage(front.RackFiles) })
)

func preparePage(of func() (map[string][]byte, error)) (map[string]*prepared, error) {
	files, err := of()
	if err != nil {
		return nil, err
	}
	all := map[string]*prepared{}
	for name, text := range files {
		if all[name], err = prepare(pageMedia[path.Ext(name)], text); err != nil {
			return nil, err
		}
	}
	return all, nil
}

func (d *Desk) sendPageFile(c echo.Context, name string) error {
	all := pageFiles
	if d.rack != nil {
		all = rackPageFiles
	}
	files, err := all()
	if err != nil {
		return err
	}
	file, is := files[name]
	if !is {
		return refuse.New(http.StatusNotFound, "the front page has no such file")
	}
	return file.send(c)
}

// PageFile serves one file of the front page.
func PageFile(name string) func(*Desk) echo.HandlerFunc {
	return func(d *Desk) echo.HandlerFunc {
		return func(c echo.Context) error { return d.sendPageFile(c, name) }
	}
}

// PageFiles serves them all by their names.
func PageFiles(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error { return d.sendPageFile(c, c.Param("*")) }
}
