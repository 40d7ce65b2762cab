package woodphys_test

import (
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// chapters in their order: each may import only those before it.
var chapters = []string{"quantity", "method", "air", "sorption", "moisture", "movement", "section", "drying", "readiness", "resaw", "laminate", "inservice"}

// Arrows go down the list of chapters, and no chapter imports anything of the
// project outside woodphys.
func TestArrowsGoDown(t *testing.T) {
	folders, err := os.ReadDir(".")
	require.NoError(t, err)
	for _, folder := range folders {
		if !folder.IsDir() || folder.Name() == "testdata" {
			continue
		}
		rank := slices.Index(chapters, folder.Name())
		require.GreaterOrEqual(t, rank, 0, "%s is not in the list of chapters", folder.Name())
		files, err := filepath.Glob(filepath.Join(folder.Name(), "*.go"))
		require.NoError(t, err)
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
			require.NoError(t, err)
			for _, spec := range parsed.Imports {
				path, err := strconv.Unquote(spec.Path.Value)
				require.NoError(t, err)
				own, is := strings.CutPrefix(path, "latewood/")
				if !is {
					continue
				}
				chapter, inside := strings.CutPrefix(own, "woodphys/")
				assert.True(t, inside, "%s imports %s", file, path)
				other := slices.Index(chapters, chapter)
				assert.True(t, other >= 0 && other < rank, "%s imports %s, which does not come before it", file, path)
			}
		}
	}
}
