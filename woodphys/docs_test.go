package woodphys_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// quiet are exported functions that compute nothing of their own and so need no
// source: lists, names, directions, copies and settings.
var quiet = []string{
	"Methods", "String", "Basis", "Horizon", "Len", "Plus", "Minus", "Compare", "Steps", "Sum",
	"Tangential", "Radial", "Longitudinal", "WidthAt", "ThicknessAt", "Published", "Band",
	"Volume", "Standard", "Coarse", "UsualCandidates", "ObservationOf",
}

// oneWord is a source that names none.
var oneWord = regexp.MustCompile(`^\s*(\w+|none needed)\.?\s*$`)

// Every exported function of a chapter says where what it computes comes from, how
// good it is, and what it refuses. A source is more than a word: it names a
// publication, a relation or a row of the registry. A plain number among the
// arguments is named, because only the comment can tell its unit.
func TestExportedFunctionsSayWhatTheyRestOn(t *testing.T) {
	for _, chapter := range chapters[2:] /* quantity and method compute no physics */ {
		for _, f := range exported(t, chapter) {
			doc, name := f.Doc.Text(), chapter+"."+f.Name.Name
			assert.True(t, strings.HasPrefix(doc, f.Name.Name+" "), "%s: the comment begins with the name", name)
			if returnsError(f) {
				assert.Contains(t, strings.ToLower(doc), "errors:", "%s: errors", name)
			}
			if slices.Contains(quiet, f.Name.Name) {
				continue
			}
			_, source, found := strings.Cut(doc, "Source:")
			assert.True(t, found, "%s: source", name)
			assert.False(t, oneWord.MatchString(source), "%s: a source of more than a word, not %q", name, source)
			assert.Contains(t, strings.ToLower(doc), "accuracy:", "%s: accuracy", name)
			for _, p := range plainNumbers(f) {
				assert.Regexp(t, `\b`+p+`\b`, doc, "%s: what %s is, and its unit", name, p)
			}
		}
	}
}

// exported are the exported functions and methods of a chapter.
func exported(t *testing.T, chapter string) []*ast.FuncDecl {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(chapter, "*.go"))
	require.NoError(t, err)
	require.NotEmpty(t, files, chapter)
	var found []*ast.FuncDecl
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		require.NoError(t, err)
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Name.IsExported() {
				found = append(found, f)
			}
		}
	}
	return found
}

func returnsError(f *ast.FuncDecl) bool {
	if f.Type.Results == nil {
		return false
	}
	return slices.ContainsFunc(f.Type.Results.List, func(r *ast.Field) bool { return named(r.Type, "error") })
}

// plainNumbers are the names of the arguments that carry no unit in their type.
func plainNumbers(f *ast.FuncDecl) []string {
	var names []string
	for _, field := range f.Type.Params.List {
		if named(field.Type, "float64") {
			for _, name := range field.Names {
				names = append(names, name.Name)
			}
		}
	}
	return names
}

func named(e ast.Expr, name string) bool {
	id, ok := e.(*ast.Ident)
	return ok && id.Name == name
}
