// Package spec holds the notation's reference, notation.md, and the tests that
// keep it true: every example in it is read by the program, and its grammar
// and tables are compared with the program's own.
package spec

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/parse"
	"tamis/lang/source"
)

const (
	page = "notation.md"
	file = "example.tamis"
)

var update = flag.Bool("update", false, "write the codes and messages the program gives into "+page)

// document is notation.md and its tree. Edits are what -update will write.
type document struct {
	text  []byte
	root  ast.Node
	edits []edit
}

type edit struct {
	start, end int
	text       string
}

func readPage(t *testing.T) *document {
	t.Helper()
	raw, err := os.ReadFile(page)
	require.NoError(t, err)
	md := goldmark.New(goldmark.WithExtensions(extension.Table))
	return &document{text: raw, root: md.Parser().Parse(text.NewReader(raw))}
}

// line is the number, from 1, of the line that holds a byte offset.
func (d *document) line(offset int) int {
	return bytes.Count(d.text[:offset], []byte("\n")) + 1
}

func (d *document) replace(start, end int, text string) {
	if string(d.text[start:end]) != text {
		d.edits = append(d.edits, edit{start, end, text})
	}
}

func (d *document) save(t *testing.T) {
	t.Helper()
	if !*update || len(d.edits) == 0 {
		return
	}
	slices.SortFunc(d.edits, func(a, b edit) int { return b.start - a.start })
	out := d.text
	for _, e := range d.edits {
		out = slices.Concat(out[:e.start], []byte(e.text), out[e.end:])
	}
	require.NoError(t, os.WriteFile(page, out, 0o644))
}

// example is a fenced block of the page.
type example struct {
	lang  string
	want  expectation
	body  string
	start int // offset of the first byte of the body
	info  int // offset of the first byte of the info string
	words string
}

// expectation is what stands after `tamis` in an info string.
type expectation struct {
	part  string   // kind of fragment; empty: a whole file
	loose bool     // not laid out as the formatter would
	codes []string // errors, in order
	asks  []string // questions and warnings, in order
}

func parseInfo(words []string) (e expectation, err error) {
	for _, w := range words {
		switch {
		case strings.HasPrefix(w, "part="):
			e.part = strings.TrimPrefix(w, "part=")
			if _, ok := wrappers[e.part]; !ok {
				return e, fmt.Errorf("unknown kind of fragment %q", e.part)
			}
		case strings.HasPrefix(w, "asks="):
			e.asks = strings.Split(strings.TrimPrefix(w, "asks="), ",")
		case w == "loose":
			e.loose = true
		case isCode(w):
			e.codes = append(e.codes, w)
		default:
			return e, fmt.Errorf("unknown word %q after tamis", w)
		}
	}
	return e, nil
}

func (e expectation) String() string {
	words := []string{"tamis"}
	if e.part != "" {
		words = append(words, "part="+e.part)
	}
	if e.loose {
		words = append(words, "loose")
	}
	words = append(words, e.codes...)
	if len(e.asks) > 0 {
		words = append(words, "asks="+strings.Join(e.asks, ","))
	}
	return strings.Join(words, " ")
}

func isCode(w string) bool {
	return len(w) == 4 && 'A' <= w[0] && w[0] <= 'Z' && strings.Trim(w[1:], "0123456789") == ""
}

func (d *document) examples(t *testing.T) []example {
	t.Helper()
	var out []example
	for n := d.root.FirstChild(); n != nil; n = n.NextSibling() {
		fence, ok := n.(*ast.FencedCodeBlock)
		if !ok {
			continue
		}
		require.NotNil(t, fence.Info, "a fenced block without an info string")
		info := fence.Info.Segment
		words := strings.Fields(string(info.Value(d.text)))
		e := example{lang: words[0], info: info.Start, words: string(info.Value(d.text))}
		e.body = string(fence.Lines().Value(d.text))
		require.Positive(t, fence.Lines().Len(), "line %d: an empty block", d.line(info.Start))
		e.start = fence.Lines().At(0).Start
		if e.lang == "tamis" {
			var err error
			e.want, err = parseInfo(words[1:])
			require.NoError(t, err, "line %d", d.line(info.Start))
		}
		out = append(out, e)
	}
	return out
}

func TestExamples(t *testing.T) {
	d := readPage(t)
	defer d.save(t)
	all := d.examples(t)
	for i, e := range all {
		line := d.line(e.info)
		switch e.lang {
		case "tamis":
		case "message":
			require.True(t, i > 0 && all[i-1].lang == "tamis" && all[i-1].want.part == "", "line %d: a message follows a whole file", line)
			continue
		case "reading":
			t.Run(fmt.Sprintf("line %d", line), func(t *testing.T) { d.checkReading(t, all[:i], e) })
			continue
		case "ebnf":
			continue
		default:
			t.Errorf("line %d: unknown kind of block %q", line, e.lang)
			continue
		}
		t.Run(fmt.Sprintf("line %d", line), func(t *testing.T) {
			w := wrappers[e.want.part]
			found := read(w.wrap(e.body))
			if e.want.part == "" {
				found = compile(t, e.body)
			}
			got := e.want
			got.codes, got.asks = codes(found)
			var msg *example
			if i+1 < len(all) && all[i+1].lang == "message" {
				msg = &all[i+1]
			}
			if len(e.want.codes) > 0 {
				require.NotEmpty(t, got.codes, "this is wrong, and the program says nothing")
			}
			if *update {
				d.replace(e.info, e.info+len(e.words), got.String())
				if laidOut, _ := format.Source(source.New(file, e.body)); e.want.part == "" && !e.want.loose {
					d.replace(e.start, e.start+len(e.body), laidOut)
				}
				if msg != nil {
					d.replace(msg.start, msg.start+len(msg.body), messages(found))
				}
				return
			}
			require.Equal(t, e.want.String(), got.String(), messages(found))
			if laidOut, _ := format.Source(source.New(file, e.body)); e.want.part == "" && !e.want.loose {
				require.Equal(t, laidOut, e.body, "not laid out as the formatter would")
			}
			if msg != nil {
				require.Equal(t, msg.body, messages(found))
			}
		})
	}
}

// checkReading compares what the steps of a recipe take with the page: a
// reading is of the last file before it that holds the recipe of its first line.
func (d *document) checkReading(t *testing.T, before []example, e example) {
	title, _, _ := strings.Cut(e.body, "\n")
	for _, of := range slices.Backward(before) {
		if of.lang != "tamis" || of.want.part != "" || !strings.Contains("\n"+of.body, "\n"+title+"\n") {
			continue
		}
		var b strings.Builder
		resolve.WriteReading(&b, passes(t, of.body).Model)
		got := b.String()
		if i := strings.Index(got, title+"\n"); i >= 0 {
			got = got[i:]
		}
		if i := strings.Index(got, "\n\n"); i >= 0 {
			got = got[:i+1]
		}
		if *update {
			d.replace(e.start, e.start+len(e.body), got)
			return
		}
		require.Equal(t, e.body, got)
		return
	}
	t.Fatalf("no file before line %d holds %q", d.line(e.start), title)
}

// read parses a file and gives what was found.
func read(content string) []diag.Diagnostic {
	var list diag.List
	parse.File(source.New(file, content), &list)
	return list.Sorted()
}

// compile gives what every pass finds in a file.
func compile(t *testing.T, content string) []diag.Diagnostic {
	t.Helper()
	return passes(t, content).Diags.Sorted()
}

// passes puts a file through every pass, planning too.
func passes(t *testing.T, content string) *compiler.Result {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{file: {Data: []byte(content)}}, ".", "", "")
	require.NoError(t, err)
	return compiler.Compile(context.Background(), tree, compiler.Options{PlanAll: true})
}

// codes are the codes of the errors, and those of the questions and warnings, in
// the order of their places.
func codes(found []diag.Diagnostic) (errors, asks []string) {
	for _, f := range found {
		switch f.Severity {
		case diag.Error:
			errors = append(errors, f.Code)
		case diag.Question, diag.Warning:
			asks = append(asks, f.Code)
		}
	}
	return errors, asks
}

// messages prints findings as the program does, without those that are only
// hints.
func messages(found []diag.Diagnostic) string {
	found = slices.DeleteFunc(slices.Clone(found), func(d diag.Diagnostic) bool { return d.Severity == diag.Hint })
	var b strings.Builder
	_ = diag.WriteText(&b, found, diag.TextOptions{})
	return b.String()
}

// cellCode is the text of the first code span in a table cell, its escaped
// bars made plain, and whether there is one.
func (d *document) cellCode(cell ast.Node) (code string, start int, ok bool) {
	var span *ast.CodeSpan
	for n := cell.FirstChild(); n != nil && span == nil; n = n.NextSibling() {
		span, _ = n.(*ast.CodeSpan)
	}
	if span == nil {
		return "", 0, false
	}
	start = -1
	for n := span.FirstChild(); n != nil; n = n.NextSibling() {
		if seg, ok := n.(*ast.Text); ok {
			if start < 0 {
				start = seg.Segment.Start
			}
			code += string(seg.Segment.Value(d.text))
		}
	}
	return strings.ReplaceAll(code, `\|`, "|"), start, true
}

// plain is the text of a cell.
func (d *document) plain(cell ast.Node) string {
	var b strings.Builder
	_ = ast.Walk(cell, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if seg, ok := n.(*ast.Text); ok && entering {
			b.Write(seg.Segment.Value(d.text))
		}
		return ast.WalkContinue, nil
	})
	return strings.TrimSpace(b.String())
}

// table is a table of the page: its heading and rows of cells.
type table struct {
	head []string
	rows [][]ast.Node
}

func (d *document) tables() []table {
	var out []table
	for n := d.root.FirstChild(); n != nil; n = n.NextSibling() {
		tab, ok := n.(*tables.Table)
		if !ok {
			continue
		}
		var out1 table
		for r := tab.FirstChild(); r != nil; r = r.NextSibling() {
			var cells []ast.Node
			for c := r.FirstChild(); c != nil; c = c.NextSibling() {
				cells = append(cells, c)
			}
			if r.Kind() == tables.KindTableHeader {
				for _, c := range cells {
					out1.head = append(out1.head, d.plain(c))
				}
				continue
			}
			out1.rows = append(out1.rows, cells)
		}
		out = append(out, out1)
	}
	return out
}

func TestTablesOfExamples(t *testing.T) {
	d := readPage(t)
	defer d.save(t)
	seen := 0
	for _, tab := range d.tables() {
		column := slices.Index(tab.head, "Example")
		if column < 0 {
			continue
		}
		w, ok := rowWrappers[tab.head[0]]
		require.True(t, ok, "no place is known for the examples of a table headed %q", tab.head[0])
		for _, row := range tab.rows {
			code, start, ok := d.cellCode(row[column])
			require.True(t, ok, "a row of %q without an example: %s", tab.head[0], d.plain(row[0]))
			seen++
			t.Run(fmt.Sprintf("line %d", d.line(start)), func(t *testing.T) {
				found := read(w.wrap(code))
				errors, asks := codes(found)
				require.Empty(t, errors, "%s\n%s", code, messages(found))
				require.Empty(t, asks, "%s\n%s", code, messages(found))
			})
		}
	}
	require.Greater(t, seen, 100, "the tables of examples were not found")
}

func TestTablesOfMistakes(t *testing.T) {
	d := readPage(t)
	defer d.save(t)
	seen := 0
	for _, tab := range d.tables() {
		if len(tab.head) != 3 || tab.head[1] != "Code" || !strings.HasPrefix(tab.head[0], "Written") {
			continue
		}
		w, ok := rowWrappers[tab.head[0]]
		require.True(t, ok, "no place is known for the examples of a table headed %q", tab.head[0])
		for _, row := range tab.rows {
			code, start, ok := d.cellCode(row[0])
			require.True(t, ok, "a row of %q without an example", tab.head[0])
			seen++
			t.Run(fmt.Sprintf("line %d", d.line(start)), func(t *testing.T) {
				found := read(w.wrap(code))
				errors, asks := codes(found)
				got := strings.Join(append(errors, asks...), " ")
				require.NotEmpty(t, got, "%s\nis a mistake, and the program says nothing", code)
				if text, ok := row[1].FirstChild().(*ast.Text); ok && *update {
					d.replace(text.Segment.Start, text.Segment.Stop, got)
				} else {
					require.Equal(t, d.plain(row[1]), got, "%s\n%s", code, messages(found))
				}
				instead, _, ok := d.cellCode(row[2])
				require.True(t, ok, "nothing is said to be written instead")
				found = read(w.wrap(instead))
				errors, asks = codes(found)
				require.Empty(t, append(errors, asks...), "%s\n%s", instead, messages(found))
			})
		}
	}
	require.Greater(t, seen, 10, "the tables of mistakes were not found")
}
