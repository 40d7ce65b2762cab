package woodphys_test

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
)

// chapters in their order: each may import only those before it.
var chapters = []string{"quantity", "method", "wood", "air", "sorption", "moisture", "movement", "section", "drying",
	"readiness", "seasoning", "resaw/exact", "resaw", "resaw/match", "resaw/plan/simplex", "resaw/plan/guillotine", "resaw/plan",
	"sawlog", "timing",
	"laminate", "inservice"}

// apart are chapters that do not know each other, though one stands after the other.
var apart = [][2]string{{"resaw/plan", "resaw/match"}, {"resaw/match", "resaw/plan"}}

// Arrows go down the list of chapters, folders within folders included, and no chapter
// imports anything of the project outside woodphys.
func TestArrowsGoDown(t *testing.T) {
	seen := map[string]bool{}
	require.NoError(t, fs.WalkDir(os.DirFS("."), ".", func(file string, _ fs.DirEntry, err error) error {
		chapter := path.Dir(file)
		if err != nil || path.Ext(file) != ".go" || strings.HasSuffix(file, "_test.go") || chapter == "." {
			return err
		}
		rank := slices.Index(chapters, chapter)
		require.GreaterOrEqual(t, rank, 0, "%s is not in the list of chapters", chapter)
		seen[chapter] = true
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, spec := range parsed.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			own, is := strings.CutPrefix(imported, "latewood/")
			if !is {
				continue
			}
			other, inside := strings.CutPrefix(own, "woodphys/")
			assert.True(t, inside, "%s imports %s", file, imported)
			below := slices.Index(chapters, other)
			assert.True(t, below >= 0 && below < rank, "%s imports %s, which does not come before it", file, imported)
			assert.NotContains(t, apart, [2]string{chapter, other}, "%s imports %s", file, imported)
		}
		return nil
	}))
	assert.Len(t, seen, len(chapters), "a chapter of the list has no file")
}
