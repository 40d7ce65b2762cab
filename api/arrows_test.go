package api_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// rooms are the folders below api, each with the other folders of api it may import.
// A question (cut, dry, mill, moist, shape, year) knows no other question, and nothing of
// HTTP; what two of them need stands in shelf or in a chapter.
var rooms = map[string][]string{
	".": {"internal/refuse", "internal/serve", "internal/shelf", "internal/wire", "internal/cut", "internal/dry", "internal/mill", "internal/moist", "internal/shape", "internal/year",
		"internal/rack", "internal/rack/photo", "internal/rack/store"},
	"internal/wire":    {},
	"internal/shelf":   {"internal/wire"},
	"internal/drawing": {"internal/wire"},
	"internal/cut":     {"internal/wire", "internal/shelf", "internal/drawing"},
	"internal/dry":     {"internal/wire", "internal/shelf", "internal/drawing"},
	"internal/mill":    {"internal/wire", "internal/shelf", "internal/drawing"},
	"internal/moist":   {"internal/wire", "internal/shelf"},
	"internal/shape":   {"internal/wire", "internal/shelf", "internal/drawing"},
	"internal/year":    {"internal/wire", "internal/shelf", "internal/drawing"},
	"internal/rack":    {"internal/wire", "internal/shelf", "internal/drawing", "internal/rack/photo", "internal/rack/store"},
	"internal/page":    {},
	"internal/ledger":  {},
	"internal/fair":    {},
	"internal/refuse":  {"internal/wire"},
	"internal/decode":  {"internal/wire", "internal/refuse"},
	"internal/serve":   {"internal/wire", "internal/refuse", "internal/decode", "internal/shelf", "internal/page", "internal/ledger", "internal/fair"},

	"internal/rack/photo":           {},
	"internal/rack/store":           {}, // the only room that knows a database
	"internal/rack/store/storetest": {"internal/rack/store"},

	"internal/contract":      {"internal/wire", "internal/refuse", "internal/serve"},
	"client":                 {},
	"client/generate":        {},
	"client/recipes/planner": {"client"},
	"internal/asking":        {".", "internal/refuse", "internal/serve", "internal/drawing", "internal/rack", "internal/rack/store", "internal/rack/store/storetest"},
}

// onlyTests are the rooms that no part of the program imports.
var onlyTests = []string{"internal/contract", "internal/asking", "internal/rack/store/storetest", "client", "client/recipes/planner"}

// knowHTTP are the rooms that may speak of HTTP.
var knowHTTP = []string{".", "client", "internal/refuse", "internal/decode", "internal/serve", "internal/contract", "internal/asking"}

// source is a file of the program, not of its tests, with what it imports.
type source struct {
	file, folder string
	imports      []string
}

// sourcesBelow are the sources of a folder of the project at any depth; folder and
// file are told from there.
func sourcesBelow(t *testing.T, root string) []source {
	t.Helper()
	var all []source
	tree := os.DirFS(path.Join(asking.Root(), root))
	require.NoError(t, fs.WalkDir(tree, ".", func(file string, _ fs.DirEntry, err error) error {
		if err != nil || path.Ext(file) != ".go" || strings.HasSuffix(file, "_test.go") || strings.Contains(file, "testdata/") {
			return err
		}
		text, err := fs.ReadFile(tree, file)
		require.NoError(t, err)
		parsed, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ImportsOnly)
		require.NoError(t, err)
		one := source{file: file, folder: path.Dir(file)}
		for _, spec := range parsed.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			one.imports = append(one.imports, imported)
		}
		all = append(all, one)
		return nil
	}))
	require.NotEmpty(t, all)
	return all
}

// roomOf is the folder below api that an import path names.
func roomOf(imported string) (room string, is bool) {
	if imported == "latewood/api" {
		return ".", true
	}
	return strings.CutPrefix(imported, "latewood/api/")
}

// Arrows between the rooms of the service run one way, at any depth of folders.
func TestArrowsOfTheRooms(t *testing.T) {
	for _, s := range sourcesBelow(t, "api") {
		allowed, known := rooms[s.folder]
		require.True(t, known, "%s is no room of api; say what it may import", s.folder)
		for _, imported := range s.imports {
			if room, is := roomOf(imported); is {
				assert.Contains(t, allowed, room, "%s imports %s", s.file, imported)
				assert.False(t, slices.Contains(onlyTests, room) && !slices.Contains(onlyTests, s.folder), "%s is for tests; %s imports it", room, s.file)
			}
			http := imported == "net/http" || strings.HasPrefix(imported, "github.com/labstack/")
			assert.False(t, http && !slices.Contains(knowHTTP, s.folder), "%s imports %s: only serve knows HTTP", s.file, imported)
		}
	}
}

// What lies below the service knows nothing of it: tables know no physics, physics
// knows neither tables nor files.
func TestArrowsBelowTheService(t *testing.T) {
	for root, never := range map[string][]string{
		"woodphys": {"latewood/api", "latewood/species", "latewood/openapi", "latewood/cmd", "net/http", "os", "io/fs", "embed", "math/rand"},
		"species":  {"latewood/api", "latewood/openapi", "latewood/cmd", "net/http", "os"},
		"openapi":  {"latewood/"},
		"cmd":      {"latewood/api/internal", "latewood/species", "latewood/woodphys", "github.com/labstack/"},
	} {
		for _, s := range sourcesBelow(t, root) {
			for _, imported := range s.imports {
				for _, forbidden := range never {
					assert.False(t, imported == forbidden || strings.HasPrefix(imported, strings.TrimSuffix(forbidden, "/")+"/"), "%s/%s imports %s", root, s.file, imported)
				}
			}
		}
	}
}
