package woodphys_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// quiet are exported functions that compute nothing of their own and so need no
// source: lists, names, directions, copies and settings.
var quiet = []string{
	"Methods", "String", "Clone", "Basis", "Horizon", "Len", "Plus", "Minus", "Compare", "Regular", "Steps", "Sum",
	"Tangential", "Radial", "Longitudinal", "WidthAt", "ThicknessAt", "Published", "Recall", "Flatsawn", "Band", "Wood",
	"Volume", "CubicNanometres", "Standard", "Coarse", "Fine", "UsualCandidates", "ObservationOf",
}

// Every exported function of a chapter says where what it computes comes from.
func TestExportedFunctionsNameTheirSource(t *testing.T) {
	for _, chapter := range chapters[2:] /* quantity and method compute no physics */ {
		if _, err := os.Stat(chapter); err != nil {
			continue
		}
		files, err := filepath.Glob(filepath.Join(chapter, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, files, chapter)
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
			require.NoError(t, err)
			for _, d := range file.Decls {
				f, ok := d.(*ast.FuncDecl)
				if !ok || !f.Name.IsExported() || slices.Contains(quiet, f.Name.Name) {
					continue
				}
				assert.Contains(t, f.Doc.Text(), "Source:", "%s.%s", chapter, f.Name.Name)
			}
		}
	}
}
