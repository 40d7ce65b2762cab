package woodphys_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
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
		packages, err := parser.ParseDir(token.NewFileSet(), chapter, func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, parser.ParseComments)
		require.NoError(t, err)
		for _, p := range packages {
			for _, file := range p.Files {
				for _, d := range file.Decls {
					f, ok := d.(*ast.FuncDecl)
					if !ok || !f.Name.IsExported() || slices.Contains(quiet, f.Name.Name) {
						continue
					}
					text := f.Doc.Text()
					assert.Contains(t, text, "Source:", "%s.%s", chapter, f.Name.Name)
				}
			}
		}
	}
}
