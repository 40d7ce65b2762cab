package api

import (
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// exampleFiles are the example requests, one file each: ROUTE.NAME.json.
var exampleFiles = os.DirFS("examples")

func calculationRoutes() []*route {
	var all []*route
	for i := range routes {
		if routes[i].request != nil {
			all = append(all, &routes[i])
		}
	}
	return all
}

// exampleBodies are the example requests by route path.
func exampleBodies(t testing.TB) map[string][][]byte {
	t.Helper()
	files, err := fs.Glob(exampleFiles, "*.json")
	require.NoError(t, err)
	bodies := map[string][][]byte{}
	for _, file := range files {
		body, err := fs.ReadFile(exampleFiles, file)
		require.NoError(t, err)
		id, _, _ := strings.Cut(file, ".")
		at := slices.IndexFunc(routes, func(r route) bool { return r.id == id })
		require.GreaterOrEqual(t, at, 0, "no route "+id)
		bodies[routes[at].path] = append(bodies[routes[at].path], body)
	}
	return bodies
}

func exampleText(t testing.TB, name string) string {
	t.Helper()
	text, err := fs.ReadFile(exampleFiles, name)
	require.NoError(t, err)
	return string(text)
}
