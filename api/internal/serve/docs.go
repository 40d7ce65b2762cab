package serve

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"regexp"
	"sync"

	"github.com/labstack/echo/v4"
	"github.com/swaggest/swgui"
	"github.com/swaggest/swgui/v5/static"
	"github.com/swaggest/swgui/v5emb"

	"latewood/api/internal/refuse"
	"latewood/openapi"
)

// ContractJSON serves the committed contract.
func ContractJSON(*Desk) echo.HandlerFunc { return fromCopy(contractJSON) }

// ContractYAML serves the same as YAML.
func ContractYAML(*Desk) echo.HandlerFunc { return fromCopy(contractYAML) }

// The contract is prepared when it is first asked for.
var (
	contractJSON = sync.OnceValues(func() (*prepared, error) {
		text, err := openapi.JSON()
		if err != nil {
			return nil, err
		}
		return prepare(echo.MIMEApplicationJSON, text)
	})
	contractYAML = sync.OnceValues(func() (*prepared, error) { return prepare("application/yaml", openapi.YAML()) })
)

// Licences shows the licences of what the program is linked with.
func Licences(d *Desk) echo.HandlerFunc {
	if d.licences == nil {
		return func(echo.Context) error {
			return refuse.New(http.StatusNotFound, "this service was not told of any licences")
		}
	}
	return fromCopy(sync.OnceValues(func() (*prepared, error) { return prepare("text/plain; charset=utf-8", d.licences) }))
}

// fromCopy serves a prepared copy.
func fromCopy(copied func() (*prepared, error)) echo.HandlerFunc {
	return func(c echo.Context) error {
		p, err := copied()
		if err != nil {
			return err
		}
		return p.send(c)
	}
}

// docsBrowser takes a token (Authorize) and forgets it with its page.
var docsBrowser = v5emb.NewWithConfig(swgui.Config{SettingsUI: map[string]string{"validatorUrl": "null", "persistAuthorization": "false"}})("latewood", "/openapi.json", "/docs/")

// Docs serves the browsable contract. Its assets are inside the program.
func Docs(*Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		if c.Request().URL.Path == "/docs" {
			return c.Redirect(http.StatusMovedPermanently, "/docs/")
		}
		if name := c.Param("*"); !inDocsBrowser(name) {
			return refuse.New(http.StatusNotFound, "there is no "+c.Request().URL.Path+"; the browsable contract is at /docs/")
		}
		leaveSeat(c)
		docsBrowser.ServeHTTP(c.Response(), c.Request())
		return nil
	}
}

// inDocsBrowser reports whether the name is that of its page, or of a file of it.
func inDocsBrowser(name string) bool {
	for _, file := range []string{name, name + ".gz"} {
		if info, err := fs.Stat(static.FS, file); err == nil && !info.IsDir() {
			return true
		}
	}
	return name == ""
}

var inlineParts = regexp.MustCompile(`(?s)<(script|style)>(.*?)</(?:script|style)>`)

// policyDocs lets the page of the browsable contract run its own scripts and the
// few lines inside it, which are named by their hashes, and nothing else.
var policyDocs = docsPolicy()

func docsPolicy() []string {
	page := httptest.NewRecorder()
	docsBrowser.ServeHTTP(page, httptest.NewRequestWithContext(context.Background(), http.MethodGet, "/docs/", http.NoBody))
	sources := map[string]string{}
	for _, part := range inlineParts.FindAllStringSubmatch(page.Body.String(), -1) {
		hash := sha256.Sum256([]byte(part[2]))
		sources[part[1]] += " 'sha256-" + base64.StdEncoding.EncodeToString(hash[:]) + "'"
	}
	return []string{"default-src 'none'; script-src 'self'" + sources["script"] + "; style-src 'self'" + sources["style"] +
		"; img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}
}
