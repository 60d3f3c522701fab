package main

import (
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// layers is the order in which packages may import each other: a package may
// import those above it, never one below, so that text knows nothing of
// kitchens, meaning nothing of pages, and pages nothing of parsing.
var layers = []string{
	"lang/effort",
	"lang/cores",
	"lang/source",
	"lang/diag",
	"lang/quantity",
	"lang/ast",
	"lang/parse",
	"lang/format",
	"lang/prose",
	"lang/outline",
	"lang/textmate",
	"compiler/sheets",
	"compiler/picture",
	"compiler/load",
	"compiler/larder",
	"compiler/resolve",
	"compiler/demand",
	"compiler/figures",
	"compiler/buying",
	"compiler/plan",
	"compiler/timeline",
	"compiler/timeline/problem",
	"compiler/timeline/washing",
	"compiler/timeline/answer",
	"compiler/timeline/attempt",
	"compiler/timeline/advice",
	"compiler/timeline/planner",
	"compiler/practice",
	"compiler/hazard",
	"compiler/events",
	"compiler/filming",
	"compiler/check",
	"compiler/sheets/chart",
	"compiler/sheets/build",
	"compiler",
	"compiler/changes",
	"compiler/desk",
	"compiler/draft",
	"render",
	"compiler/preview",
	".",
}

// layerOf is a package's place in the order; the packages below render are one
// layer, in which the ones that draw import the ones that lay out.
func layerOf(dir string) int {
	if strings.HasPrefix(dir, "render") {
		dir = "render"
	}
	return slices.Index(layers, dir)
}

// withoutTree tells whether a package is of a pass after resolve, which reads
// the model and never the tree.
func withoutTree(dir string) bool {
	return layerOf(dir) > layerOf("compiler/resolve")
}

// readsNoTree holds a file to what resolve gives: no import of the tree, and no
// field of a loaded file that leads to it.
func readsNoTree(t *testing.T, name string) {
	f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
	require.NoError(t, err)
	for _, imp := range f.Imports {
		require.NotEqual(t, `"tamis/lang/ast"`, imp.Path.Value, "%s reads the syntax tree; what it wants of the text belongs in compiler/resolve", name)
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			require.NotEqual(t, "AST", s.Sel.Name, "%s reads the syntax tree", name)
		}
		return true
	})
}

// aFile is a name of a file in a package's own words, or the one that they stand in.
var aFile = regexp.MustCompile(`\b[a-z]\w*\.go\b|(?i)\bthis file\b`)

// saysWhereToBegin holds a package to words of its own, and one of several files to
// saying which of them is read first, and to naming none that is not there.
func saysWhereToBegin(t *testing.T, dir string, p *build.Package) {
	doc := ""
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(dir, name), nil, parser.PackageClauseOnly|parser.ParseComments)
		require.NoError(t, err)
		doc += f.Doc.Text()
	}
	require.NotEmpty(t, doc, "%s has no words of its own", dir)
	if dir == "." || len(p.GoFiles) < 4 {
		return
	}
	named := aFile.FindAllString(doc, -1)
	require.NotEmpty(t, named, "%s does not say which of its files to read first", dir)
	for _, name := range named {
		if strings.HasSuffix(name, ".go") {
			require.FileExists(t, filepath.Join(dir, name), "%s speaks of it", dir)
		}
	}
}

func TestPackagesImportOneWay(t *testing.T) {
	seen := 0
	err := filepath.WalkDir(".", func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		switch d.Name() {
		case "testdata", "examples", "spec", "node_modules", "work":
			return fs.SkipDir
		}
		if strings.HasPrefix(d.Name(), ".") && dir != "." {
			return fs.SkipDir
		}
		p, err := build.ImportDir(dir, 0)
		if _, none := err.(*build.NoGoError); none {
			return nil
		}
		require.NoError(t, err, dir)
		seen++
		saysWhereToBegin(t, dir, p)
		at := layerOf(filepath.ToSlash(dir))
		require.GreaterOrEqual(t, at, 0, "%s has no place in the order of layers", dir)
		if withoutTree(filepath.ToSlash(dir)) {
			for _, name := range p.GoFiles {
				readsNoTree(t, filepath.Join(dir, name))
			}
		}
		for _, imp := range p.Imports {
			below, ours := strings.CutPrefix(imp, "tamis/")
			if !ours {
				continue
			}
			require.LessOrEqual(t, layerOf(below), at, "%s imports %s", dir, below)
			if strings.HasPrefix(filepath.ToSlash(dir), "compiler/sheets") {
				require.NotEqual(t, "compiler/timeline", below, "%s: paper is made of events, not of a plan", dir)
			}
			if dir == "render/plantext" && below == "compiler/events" {
				continue // the terminal prints what happens, as the sheets do
			}
			if strings.HasPrefix(dir, "render") && strings.HasPrefix(below, "compiler") {
				require.Equal(t, "compiler/sheets", below, "%s: a renderer reads pages and nothing else", dir)
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, seen, 15)
}

// The top level holds the folders of the map, the command's own files, and what git, Go and
// readers look for there.
func TestTheTopLevelHoldsWhatTheMapNames(t *testing.T) {
	held := []string{"lang", "compiler", "render", "examples", "spec", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE"}
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	for _, e := range entries {
		name := e.Name()
		if slices.Contains(held, name) || strings.HasPrefix(name, ".") || filepath.Ext(name) == ".go" {
			continue
		}
		if slices.Contains([]string{"tamis", "sheets", "print"}, name) || slices.Contains([]string{".test", ".prof", ".out"}, filepath.Ext(name)) {
			continue // what is built or printed here, which .gitignore names
		}
		t.Errorf("%s lies at the top level, and the map does not name it", name)
	}
}
