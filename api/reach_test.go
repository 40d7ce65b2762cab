package api_test

import (
	"cmp"
	"go/ast"
	"go/build"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
)

const (
	module      = "latewood"
	moduleRoot  = ".." // of this package's folder
	programPath = module + "/cmd/latewood"
	physicsPath = module + "/woodphys/"
)

// program is every declaration of the module outside tests and what it names. What
// it reaches is found by walking those names from main, so that all which compiles
// and yet runs for nobody can be told.
//
// The module and the standard library are type-checked, libraries from elsewhere are
// not. Where x in x.Name comes from one of these every method called Name counts as
// named, as it does where x is an interface; and so do all methods of a type outside
// the chapters, because a library may call them. So this can take something idle for
// reached when a method that is called somewhere has the same name. It takes something
// reached for idle only where reflection, or a library that was handed a value of a
// chapter, calls what no code names.
type program struct {
	info     types.Info
	fset     *token.FileSet
	standard types.Importer
	packages map[string]*types.Package // by path
	bodies   map[types.Object][]ast.Node
	begins   []ast.Node               // run without being named: init, and values given to _
	methods  map[string][]*types.Func // by name
	ofType   map[types.Object][]*types.Func
	values   map[types.Object]ast.Expr // of the variables of a package
}

// readProgram reads the sources of the module, once for all tests.
var readProgram = sync.OnceValues(func() (*program, error) {
	defer func(was bool) { build.Default.CgoEnabled = was }(build.Default.CgoEnabled)
	build.Default.CgoEnabled = false // else reading package net runs cgo
	fset := token.NewFileSet()
	p := &program{
		info: types.Info{Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}},
		fset: fset, standard: importer.ForCompiler(fset, "source", nil), packages: map[string]*types.Package{"unsafe": types.Unsafe},
		bodies: map[types.Object][]ast.Node{}, methods: map[string][]*types.Func{}, ofType: map[types.Object][]*types.Func{},
		values: map[types.Object]ast.Expr{},
	}
	if _, err := p.Import(programPath); err != nil {
		return nil, err
	}
	begins := p.begins // not of a chapter that the program does not import at all
	err := p.readChapters()
	p.begins = begins
	return p, err
})

// readChapters reads the chapters that the program did not import.
func (p *program) readChapters() error {
	root := filepath.Join(moduleRoot, "woodphys")
	return filepath.WalkDir(root, func(folder string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() || folder == root {
			return err
		}
		if sources, err := filepath.Glob(filepath.Join(folder, "*.go")); err != nil || len(sources) == 0 {
			return err
		}
		inside, err := filepath.Rel(root, folder)
		if err == nil {
			_, err = p.Import(physicsPath + filepath.ToSlash(inside))
		}
		return err
	})
}

// Import reads a package of the module or of the standard library. Of one from
// elsewhere it knows the name alone.
func (p *program) Import(of string) (*types.Package, error) {
	if known := p.packages[of]; known != nil {
		return known, nil
	}
	folder, own := strings.CutPrefix(of, module+"/")
	host, _, _ := strings.Cut(of, "/")
	switch {
	case own:
	case !strings.Contains(host, "."):
		return p.standard.Import(of)
	default:
		name := path.Base(of)
		if strings.HasPrefix(name, "v") && len(name) == 2 { // .../echo/v4
			name = path.Base(path.Dir(of))
		}
		empty := types.NewPackage(of, strings.TrimSuffix(name, "-go"))
		empty.MarkComplete()
		p.packages[of] = empty
		return empty, nil
	}
	files, err := p.parse(filepath.Join(moduleRoot, filepath.FromSlash(folder)))
	if err != nil {
		return nil, err
	}
	checker := types.Config{Importer: p, Error: func(error) {}} // the errors are of what comes from elsewhere
	checked, _ := checker.Check(of, p.fset, files, &p.info)
	p.packages[of] = checked
	for _, file := range files {
		for _, d := range file.Decls {
			p.declare(d)
		}
	}
	return checked, nil
}

// parse reads the files of a folder that are compiled here and are no tests.
func (p *program) parse(folder string) ([]*ast.File, error) {
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, name := range names {
		if built, err := build.Default.MatchFile(folder, filepath.Base(name)); err != nil {
			return nil, err
		} else if !built || strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(p.fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	if len(files) == 0 {
		return nil, &fs.PathError{Op: "read", Path: folder, Err: fs.ErrNotExist}
	}
	return files, nil
}

// declare notes what a declaration at the top of a file names.
func (p *program) declare(d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		f, _ := p.info.Defs[d.Name].(*types.Func)
		if f == nil || d.Name.Name == "init" && d.Recv == nil {
			p.begins = append(p.begins, d)
			return
		}
		p.bodies[f] = []ast.Node{d}
		if d.Recv != nil {
			p.methods[f.Name()] = append(p.methods[f.Name()], f)
			if owner := receiver(f); owner != nil {
				p.ofType[owner] = append(p.ofType[owner], f)
			}
		}
	case *ast.GenDecl:
		for _, spec := range d.Specs {
			switch s := spec.(type) {
			case *ast.TypeSpec:
				p.bodies[p.info.Defs[s.Name]] = []ast.Node{s}
			case *ast.ValueSpec:
				p.declareValues(s)
			}
		}
	}
}

func (p *program) declareValues(s *ast.ValueSpec) {
	for i, name := range s.Names {
		if name.Name == "_" {
			p.begins = append(p.begins, s)
			continue
		}
		object := p.info.Defs[name]
		if len(s.Values) != len(s.Names) { // several from one call, or none
			p.bodies[object] = []ast.Node{s}
			continue
		}
		p.bodies[object], p.values[object] = []ast.Node{s.Values[i]}, s.Values[i]
		if s.Type != nil {
			p.bodies[object] = append(p.bodies[object], s.Type)
		}
	}
}

// receiver is the type whose method f is.
func receiver(f *types.Func) types.Object {
	of := f.Signature().Recv().Type()
	if pointer, is := of.(*types.Pointer); is {
		of = pointer.Elem()
	}
	if named, is := of.(*types.Named); is {
		return named.Origin().Obj()
	}
	return nil
}

// reached returns what the program comes to from main. It does not look into what
// skip names.
func (p *program) reached(skip func(types.Object) bool) map[types.Object]bool {
	seen := map[types.Object]bool{}
	var open []types.Object
	reach := func(o types.Object) {
		if _, own := p.bodies[o]; own && !seen[o] {
			seen[o] = true
			open = append(open, o)
		}
	}
	for _, node := range p.begins {
		p.names(node, reach)
	}
	reach(p.packages[programPath].Scope().Lookup("main"))
	for len(open) > 0 {
		o := open[len(open)-1]
		open = open[:len(open)-1]
		if skip(o) {
			continue
		}
		for _, node := range p.bodies[o] {
			p.names(node, reach)
		}
		if !inChapter(o) {
			for _, m := range p.ofType[o] {
				reach(m)
			}
		}
	}
	return seen
}

// names hands reach everything that node names.
func (p *program) names(node ast.Node, reach func(types.Object)) {
	every := func(name string) {
		for _, m := range p.methods[name] {
			reach(m)
		}
	}
	ast.Inspect(node, func(n ast.Node) bool {
		if s, is := n.(*ast.SelectorExpr); is && p.info.Uses[s.Sel] == nil && !p.isPackage(s.X) {
			every(s.Sel.Name)
		}
		id, is := n.(*ast.Ident)
		if !is {
			return true
		}
		switch o := p.info.Uses[id].(type) {
		case *types.Func:
			o = o.Origin()
			if of := o.Signature().Recv(); of != nil && types.IsInterface(of.Type()) {
				every(o.Name())
			}
			reach(o)
		case *types.Var, *types.TypeName, *types.Const:
			reach(o)
		}
		return true
	})
}

// isPackage reports whether x is the name of an imported package.
func (p *program) isPackage(x ast.Expr) bool {
	id, is := x.(*ast.Ident)
	if !is {
		return false
	}
	_, is = p.info.Uses[id].(*types.PkgName)
	return is
}

func inChapter(o types.Object) bool {
	return o.Pkg() != nil && strings.HasPrefix(o.Pkg().Path(), physicsPath)
}

// nameOf is a declaration as its callers write it, such as air.State.DewPoint.
func nameOf(o types.Object) string {
	name := o.Name()
	if f, is := o.(*types.Func); is && f.Signature().Recv() != nil {
		if owner := receiver(f); owner != nil {
			name = owner.Name() + "." + name
		}
	}
	return o.Pkg().Name() + "." + name
}

// ofChapters are the declarations of the chapters, by file and line.
func (p *program) ofChapters() []types.Object {
	var found []types.Object
	for o := range p.bodies {
		if inChapter(o) {
			found = append(found, o)
		}
	}
	slices.SortFunc(found, func(a, b types.Object) int {
		x, y := p.fset.Position(a.Pos()), p.fset.Position(b.Pos())
		return cmp.Or(cmp.Compare(x.Filename, y.Filename), cmp.Compare(x.Line, y.Line))
	})
	return found
}

// says reports whether a value holds text as one of its strings.
func says(value ast.Expr, text string) bool {
	found := false
	ast.Inspect(value, func(n ast.Node) bool {
		if s, is := n.(*ast.BasicLit); is && s.Kind == token.STRING {
			got, err := strconv.Unquote(s.Value)
			found = found || err == nil && got == text
		}
		return !found
	})
	return found
}
