package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// mutant is one change of one file: the bytes from..to are replaced.
type mutant struct {
	file, text string
	from, to   int
	with       string
	name       string // what a named change is about
}

func (m mutant) line() int { return 1 + strings.Count(m.text[:m.from], "\n") }

// source is the line that is changed, without its indentation.
func (m mutant) source() string {
	from := strings.LastIndexByte(m.text[:m.from], '\n') + 1
	end := strings.IndexByte(m.text[from:], '\n')
	if end < 0 {
		end = len(m.text) - from
	}
	return strings.TrimSpace(m.text[from : from+end])
}

func (m mutant) change() string {
	short := func(s string) string {
		if s = strings.Join(strings.Fields(s), " "); len(s) > 60 {
			return s[:57] + "..."
		}
		return s
	}
	if m.with == "" {
		return "without `" + short(m.text[m.from:m.to]) + "`"
	}
	return "`" + short(m.text[m.from:m.to]) + "` -> `" + short(m.with) + "`"
}

func (m mutant) String() string {
	s := fmt.Sprintf("%s:%d: %s", m.file, m.line(), m.change())
	if m.name != "" {
		s += "  [" + m.name + "]"
	}
	return s
}

// key finds the change again when lines have moved.
func (m mutant) key() string {
	return m.file + " ¦ " + m.source() + " ¦ " + m.change()
}

func (m mutant) mutated() string { return m.text[:m.from] + m.with + m.text[m.to:] }

// swapped are the operators and names that stand in for each other.
var swapped = map[token.Token]string{
	token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">", token.EQL: "!=", token.NEQ: "==",
	token.LAND: "||", token.LOR: "&&", token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*",
}

var renamed = map[string]string{
	"Ceil": "Floor", "Floor": "Ceil", "Round": "Floor", "RoundUp": "RoundDown", "RoundDown": "RoundUp",
	"min": "max", "max": "min", "Min": "Max", "Max": "Min", "Add": "Sub", "Sub": "Add", "Mul": "Div", "Div": "Mul",
	"Before": "After", "After": "Before", "Less": "Equal", "true": "false", "false": "true",
}

// mutantsOf are all changes of the files of a folder, in the order they stand.
func mutantsOf(dir string) ([]mutant, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var out []mutant
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		m, err := mutantsIn(filepath.ToSlash(file), string(text))
		if err != nil {
			return nil, err
		}
		out = append(out, m...)
	}
	return out, nil
}

// mutantsIn are the changes within the functions of a file.
func mutantsIn(file, text string) ([]mutant, error) {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, file, text, 0)
	if err != nil {
		return nil, err
	}
	at := func(p token.Pos) int { return set.Position(p).Offset }
	var out []mutant
	put := func(from, to token.Pos, with string) {
		out = append(out, mutant{file: file, text: text, from: at(from), to: at(to), with: with})
	}
	look := func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			if v, err := strconv.Atoi(n.Value); n.Kind == token.INT && err == nil {
				put(n.Pos(), n.End(), strconv.Itoa(v+1))
			}
		case *ast.BinaryExpr:
			if with, ok := swapped[n.Op]; ok && !isText(n.X) && !isText(n.Y) {
				put(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), with)
			}
		case *ast.UnaryExpr:
			if n.Op == token.NOT || n.Op == token.SUB {
				put(n.OpPos, n.OpPos+1, "")
			}
		case *ast.Ident:
			if with, ok := renamed[n.Name]; ok {
				put(n.Pos(), n.End(), with)
			}
		case *ast.IfStmt:
			put(n.Cond.Pos(), n.Cond.End(), "!("+text[at(n.Cond.Pos()):at(n.Cond.End())]+")")
		case *ast.BranchStmt:
			if n.Label == nil && n.Tok == token.CONTINUE {
				put(n.Pos(), n.End(), "break")
			}
		case *ast.BlockStmt:
			for _, s := range n.List {
				if droppable(s) {
					put(s.Pos(), s.End(), "")
				}
			}
		}
		return true
	}
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil {
			ast.Inspect(fn.Body, look)
		}
	}
	return out, nil
}

func isText(e ast.Expr) bool {
	lit, ok := e.(*ast.BasicLit)
	return ok && lit.Kind == token.STRING
}

// droppable tells whether a statement can be left out: it does something, and
// declares nothing.
func droppable(s ast.Stmt) bool {
	switch s := s.(type) {
	case *ast.ExprStmt, *ast.IncDecStmt, *ast.BranchStmt:
		return true
	case *ast.AssignStmt:
		return s.Tok != token.DEFINE
	}
	return false
}
