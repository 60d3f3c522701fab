package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// All changes are woven into one copy of the sources, so that the tests are
// built once: a function that is changed begins by asking which change is made
// now, and goes into the changed copy of its body. The bodies are closures, so
// the compiler refuses what it would refuse of the change by itself (a return
// that is missing, a name that is not used).
const (
	nowVar     = "mutantNow"
	reachedFun = "mutantReached"
)

// asker is the file that is added to a package: it reads which change is made
// now, and notes which changes a test comes by.
const asker = `package %s

import (
	"fmt"
	"os"
	"strconv"
	"sync/atomic"
)

var ` + nowVar + `, mutantNoted = func() (int, bool) {
	b, _ := os.ReadFile(%q)
	n, err := strconv.Atoi(string(b))
	return n, err != nil
}()

var mutantSeen [%d]atomic.Bool

func ` + reachedFun + `(id int) {
	if mutantNoted && !mutantSeen[id].Swap(true) {
		if f, err := os.OpenFile(%q, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600); err == nil {
			fmt.Fprintln(f, id)
			f.Close()
		}
	}
}
`

// place is a spot of a file, and what is put in there.
type place struct {
	at   int
	text string
}

// weave writes the changed sources below dir and returns what they replace.
// The number of a change is its index plus one. A change that can be woven into
// no function is told.
func weave(dir string, muts map[int]mutant, now, reached string) (map[string]string, []int, error) {
	files := map[string][]int{}
	most := 0
	for id, m := range muts {
		files[m.file] = append(files[m.file], id)
		most = max(most, id)
	}
	over := map[string]string{}
	var lost []int
	for file, ids := range files {
		slices.Sort(ids)
		text := muts[ids[0]].text
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, file, text, 0)
		if err != nil {
			return nil, nil, err
		}
		var in []place
		for _, id := range ids {
			p, ok := weaveOne(set, tree, file, id, muts[id])
			if !ok {
				lost = append(lost, id)
			}
			in = append(in, p...)
		}
		slices.SortStableFunc(in, func(a, b place) int { return b.at - a.at })
		for _, p := range in {
			text = text[:p.at] + p.text + text[p.at:]
		}
		if err := lay(dir, over, file, text); err != nil {
			return nil, nil, err
		}
		zz := filepath.ToSlash(filepath.Join(filepath.Dir(file), "zz_mutants.go"))
		if err := lay(dir, over, zz, fmt.Sprintf(asker, tree.Name.Name, now, most+1, reached)); err != nil {
			return nil, nil, err
		}
	}
	return over, lost, nil
}

// lay writes a file that lies over another.
func lay(dir string, over map[string]string, file, text string) error {
	whole, err := filepath.Abs(file)
	if err != nil {
		return err
	}
	name := filepath.Join(dir, strings.ReplaceAll(file, "/", "_"))
	over[whole] = name
	return os.WriteFile(name, []byte(text), 0o600)
}

// weaveOne is what is put in for one change: the way into the changed body, and
// the note that the changed place is come by.
func weaveOne(set *token.FileSet, tree *ast.File, file string, id int, m mutant) ([]place, bool) {
	at := func(p token.Pos) int { return set.Position(p).Offset }
	for _, d := range tree.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if !ok || fn.Body == nil || m.from <= at(fn.Body.Lbrace) || m.to > at(fn.Body.Rbrace) {
			continue
		}
		from, to := at(fn.Body.Lbrace), at(fn.Body.Rbrace)+1
		body := m.text[from:m.from] + m.with + m.text[m.to:to]
		back := func(offset int) string {
			return fmt.Sprintf("\n//line %s:%d\n", filepath.Base(file), 1+strings.Count(m.text[:offset], "\n"))
		}
		var b strings.Builder
		fmt.Fprintf(&b, "\nif %s == %d {\n//line mutant_%d.go:1\n", nowVar, id, id)
		if r := fn.Type.Results; r != nil && len(r.List) > 0 {
			fmt.Fprintf(&b, "return func() %s %s()", m.text[at(r.Pos()):at(r.End())], body)
		} else {
			fmt.Fprintf(&b, "func() %s()\nreturn", body)
		}
		b.WriteString("\n}" + back(from+1))
		spot := at(around(fn.Body, func(p token.Pos) bool { return at(p) <= m.from }, func(p token.Pos) bool { return at(p) >= m.to }))
		return []place{{spot, fmt.Sprintf("%s(%d);%s", reachedFun, id, back(spot))}, {from + 1, b.String()}}, true
	}
	return nil, false
}

// around is where the innermost statement begins that holds a change.
func around(body *ast.BlockStmt, begins, ends func(token.Pos) bool) token.Pos {
	spot := body.List[0].Pos()
	ast.Inspect(body, func(n ast.Node) bool {
		var list []ast.Stmt
		switch n := n.(type) {
		case *ast.BlockStmt:
			list = n.List
		case *ast.CaseClause:
			list = n.Body
		case *ast.CommClause:
			list = n.Body
		}
		for _, s := range list {
			_, clause := s.(*ast.CaseClause)
			_, comm := s.(*ast.CommClause)
			if !clause && !comm && begins(s.Pos()) && ends(s.End()) {
				spot = s.Pos()
			}
		}
		return true
	})
	return spot
}
