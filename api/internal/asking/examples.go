package asking

import (
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/openapi"
)

// Root is the folder of the whole project, whichever package is tested.
var Root = sync.OnceValue(func() string {
	at, err := os.Getwd()
	if err != nil {
		panic(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(at, "go.mod")); err == nil {
			return at
		}
		if at == filepath.Dir(at) {
			panic("no go.mod above the tests")
		}
		at = filepath.Dir(at)
	}
})

// ExampleFiles are the example requests, one file each: PATH.NAME.json.
func ExampleFiles() fs.FS { return os.DirFS(filepath.Join(Root(), "api", "examples")) }

// Calculation is a route that takes a request, as the contract has it.
type Calculation struct {
	ID, Path string
	Heavy    bool
	Streams  bool
}

// Calculations are those of the contract, in the order of their ids.
var Calculations = sync.OnceValue(func() []Calculation {
	var document struct {
		Paths map[string]struct {
			Post *struct {
				ID          string   `json:"operationId"`
				Tags        []string `json:"tags"`
				RequestBody struct{ Content map[string]any }
				Limits      struct{ Heavy bool } `json:"x-limits"`
			}
		}
	}
	text, err := openapi.JSON()
	if err == nil {
		err = json.Unmarshal(text, &document)
	}
	if err != nil {
		panic(err) // a broken build; nothing can be tested
	}
	var all []Calculation
	for path, item := range document.Paths {
		if post := item.Post; post != nil && slices.Contains(post.Tags, "calculations") {
			_, streams := post.RequestBody.Content["application/x-ndjson"]
			all = append(all, Calculation{ID: post.ID, Path: path, Heavy: post.Limits.Heavy, Streams: streams})
		}
	}
	slices.SortFunc(all, func(a, b Calculation) int { return strings.Compare(a.ID, b.ID) })
	return all
})

// ExampleBodies are the example requests by the path of their route.
func ExampleBodies(t testing.TB) map[string][][]byte {
	t.Helper()
	files, err := fs.Glob(ExampleFiles(), "*.json")
	require.NoError(t, err)
	bodies := map[string][][]byte{}
	for _, file := range files {
		body, err := fs.ReadFile(ExampleFiles(), file)
		require.NoError(t, err)
		route, _, _ := strings.Cut(file, ".")
		if route != strings.ToLower(route) { // an operation of the rack, which has several on one path
			continue
		}
		at := slices.IndexFunc(Calculations(), func(c Calculation) bool { return c.Path == "/v1/"+route })
		require.GreaterOrEqual(t, at, 0, "no route "+route)
		path := Calculations()[at].Path
		bodies[path] = append(bodies[path], body)
	}
	return bodies
}

// ExampleText is one example request.
func ExampleText(t testing.TB, name string) string {
	t.Helper()
	text, err := fs.ReadFile(ExampleFiles(), name)
	require.NoError(t, err)
	return string(text)
}
