package api

import (
	"embed"
	"path"

	"github.com/labstack/echo/v4"
)

// The front page is made of three files of its own and asks nothing of any
// other host.
//
//go:embed page
var pageFiles embed.FS

var pageMedia = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
}

// pageFile serves one of them.
func pageFile(name string) func(*Service) echo.HandlerFunc {
	return func(*Service) echo.HandlerFunc {
		return func(c echo.Context) error {
			text, err := pageFiles.ReadFile("page/" + name)
			if err != nil {
				return err
			}
			return sendTable(c, pageMedia[path.Ext(name)], text)
		}
	}
}
