// Package parse reads the text of a file into its tree. It always gives a
// tree, reports every error of the file in one run, and steps over what it
// could not read.
//
// The way of a file: its lines are put into a tree by their indentation
// (layout.go); the words at their beginnings and the places they stand in say
// what they are (words.go); a line that is no prose is lexed by its place
// (rules.go, lexer.go) and goes through the participle grammar of its place
// (grammar.go), whose verdict is kept for each shape of statement (shape.go); what
// comes out is turned into the nodes of package ast. A margin is split at its
// bars first, and each clause is read alone. Prose never reaches a grammar.
package parse

import (
	"strings"
	"sync"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// File reads a file that stands alone: only its own larder says how its
// numbers are written. It never fails; what is wrong is put into diags.
func File(src *source.File, diags *diag.List) *ast.File {
	return FileWith(src, quantity.Options{}, diags)
}

// FileWith reads a file of a folder whose settings are known. Word units of
// the file's own larder are added to those of opt, which is not changed.
func FileWith(src *source.File, opt quantity.Options, diags *diag.List) *ast.File {
	p := newParser(src, diags)
	defer p.done()
	p.opt = Settings(opt, src)
	return p.file()
}

// scratch is room that is wanted while a file is read and not after: one file
// leaves it to the next.
type scratch struct {
	slab   []line
	lines  []*line
	pieces []*piece // statements, and what their tokens stood for
	key    []byte   // the shape of a statement
	facts  []ast.Fact
	firsts []*ast.Lead
}

var scratches = sync.Pool{New: func() any { return new(scratch) }}

// roomy is a file so long that its room is not kept for others.
const roomy = 1 << 16

func newParser(src *source.File, diags *diag.List) *parser {
	return &parser{src: src, text: src.Text, diags: diags, scratch: scratches.Get().(*scratch)}
}

// done leaves the room to the next file, with nothing of this one in it.
func (p *parser) done() {
	s := p.scratch
	p.scratch = nil
	if len(s.slab) > roomy {
		return
	}
	for i := range s.slab {
		s.slab[i] = line{kids: s.slab[i].kids[:0]}
	}
	clear(s.facts[:cap(s.facts)])
	clear(s.firsts[:cap(s.firsts)])
	for _, m := range s.pieces {
		m.p = nil
		clear(m.toks[:cap(m.toks)])
	}
	scratches.Put(s)
}

// parser reads one file.
type parser struct {
	src     *source.File
	text    string
	diags   *diag.List
	opt     quantity.Options
	muted   map[int]bool // offsets of lines of which enough has been said
	newer   bool         // the file is of a newer notation
	stray   foreign      // the last line that was reported as out of place
	dashes  repeated     // bullets in the list being read
	numbers repeated     // numbers in the list being read
	plain   bool         // no verdict is kept or used again, for tests
	*scratch
	amounts  slab[quantity.Amount]
	measures slab[quantity.Measure]
	spans    slab[quantity.Span]
	temps    slab[quantity.Temperature]
}

func (p *parser) span(from, to int) source.Span {
	return source.Span{File: p.src, Start: from, End: to}
}

// err reports an error at [from,to) and returns it for more to be said.
func (p *parser) err(code string, from, to int, format string, args ...any) *diag.Diagnostic {
	if p.quiet(from) {
		return &diag.Diagnostic{}
	}
	return p.diags.Errorf(code, p.src.Span(from, to), format, args...)
}

// mute keeps further errors of a line from being said: one slip, one message.
func (p *parser) mute(l *line) { p.muteAt(l.start) }

func (p *parser) muteAt(at int) {
	if p.muted == nil {
		p.muted = map[int]bool{}
	}
	p.muted[p.lineStart(at)] = true
}

func (p *parser) quiet(at int) bool { return len(p.muted) > 0 && p.muted[p.lineStart(at)] }

func (p *parser) lineStart(at int) int {
	return strings.LastIndexByte(p.text[:min(at, len(p.text))], '\n') + 1
}

// file reads the whole file.
func (p *parser) file() *ast.File {
	f := &ast.File{Source: p.src, Comma: p.opt.DecimalComma}
	if !p.readable() {
		return f
	}
	lines := p.merged(p.scan())
	roots, trailing := p.tree(lines)
	f.Trailing = trailing
	strays := 0
	for i, l := range roots {
		block, stray := p.block(f, l, i == 0, strays > 0)
		if stray {
			strays++
		} else {
			strays = 0
		}
		if block != nil {
			f.Blocks = append(f.Blocks, block)
		}
	}
	return f
}

// meta is the Meta of a line and all below it.
func (p *parser) meta(l *line) ast.Meta {
	return ast.Meta{Span: p.span(l.start, l.last()), Comments: l.comments, Gap: l.gap, Offered: l.offered}
}

// last is where the last line below l ends.
func (l *line) last() int {
	end := l.end
	for n := l; ; {
		if len(n.prose) > 0 {
			end = max(end, n.prose[len(n.prose)-1].end)
		}
		if len(n.kids) == 0 {
			return max(end, n.end)
		}
		n = n.kids[len(n.kids)-1]
	}
}

// content is the text of a line.
func (p *parser) content(l *line) string { return p.text[l.start:l.end] }

// bad is a line, and all below it, that could not be read. Its text is as it
// was written, comments below it too.
func (p *parser) bad(l *line) *ast.Bad {
	m := p.meta(l)
	return &ast.Bad{Meta: m, Text: p.text[l.start:m.Span.End]}
}

// lift moves the comments of lines that are no statements of their own to the
// statement they belong to.
func (p *parser) lift(m *ast.Meta, l *line) {
	m.Comments = append(m.Comments, l.comments...)
	for _, k := range l.kids {
		p.lift(m, k)
	}
}

// noKids reports lines below a line that takes none.
func (p *parser) noKids(l *line, m *ast.Meta, what string) {
	if len(l.kids) == 0 {
		return
	}
	k := l.kids[0]
	for _, k := range l.kids {
		p.lift(m, k)
	}
	d := p.err(codeDeeper, k.start, k.end, "nothing stands below %s", what).
		See(p.span(l.start, l.end), "this line takes no lines below it")
	if l.parent != nil {
		d.Replace("line it up with the line above", false, p.span(k.from, k.start), l.indent)
	}
	d.WithHelp("indent it like the line above, or take it out")
}

// Settings reads what the larders of some files say about reading numbers and
// adds it to opt, which is not changed: `decimal comma`, a language that
// implies it, `units`, and word units marked `measure`.
//
// A loader makes the settings of a scope from the larders of the book's root
// down to the folder, and gives them to FileWith for each file of the folder:
// word units are compared by pointer, so they must be made once.
func Settings(opt quantity.Options, larders ...*source.File) quantity.Options {
	copied := false
	for _, src := range larders {
		if !strings.Contains(src.Text, "arder") && !strings.Contains(src.Text, "ARDER") {
			continue
		}
		inside := false
		name := ""
		for rest := src.Text; rest != ""; {
			var text string
			text, rest, _ = strings.Cut(rest, "\n")
			lead := blanks(text)
			content := text[lead : lead+trimEnd(text[lead:])]
			if content == "" || len(content) > maxLine {
				continue
			}
			if w, _ := LookUp(AtBlock, content); lead == 0 && w != nil {
				inside = w.Text == "larder"
				continue
			}
			if !inside || content[0] == '#' {
				continue
			}
			head, margin, _ := strings.Cut(content, "|")
			head = strings.TrimSpace(head)
			if w, n := LookUp(InLarder, head); w != nil {
				setting(&opt, w.Text, strings.TrimSpace(head[n:]))
				continue
			}
			if head != "" {
				name = strings.Trim(head, `"“”`)
			}
			if word, plural, ok := measureFact(name, margin); ok {
				if _, known := opt.Measures[quantity.Fold(word)]; known {
					continue
				}
				if !copied {
					copied = true
					all := make(map[string]*quantity.Unit, len(opt.Measures)+2)
					for k, u := range opt.Measures {
						all[k] = u
					}
					opt.Measures = all
				}
				u := quantity.NewMeasure(word, plural)
				opt.Measures[quantity.Fold(u.Name)] = u
				opt.Measures[quantity.Fold(u.Plural)] = u
			}
		}
	}
	return opt
}

func setting(opt *quantity.Options, key, value string) {
	switch key {
	case "decimal":
		opt.DecimalComma = strings.EqualFold(value, "comma")
	case "language":
		switch lower(value + "  ")[:2] {
		case "fr", "de", "it", "es", "pt", "nl", "da", "sv", "nb", "nn", "no", "fi", "pl", "cs", "ru", "tr", "el":
			opt.DecimalComma = true
		}
	case "units":
		if s, ok := quantity.SystemNamed(value); ok {
			opt.System = s
		}
	}
}

// measureFact finds `measure`, and a `plural` beside it, in a larder margin.
func measureFact(name, margin string) (word, plural string, ok bool) {
	if name == "" || !strings.Contains(lower(margin), "measure") {
		return "", "", false
	}
	for _, fact := range strings.Split(margin, "|") {
		fact = strings.TrimSpace(fact)
		w, n := LookUp(OnFact, fact)
		switch {
		case w == nil:
		case w.Text == "measure" && n == len(fact):
			ok = true
		case w.Text == "plural":
			plural = tidy(fact[n:])
		}
	}
	return tidy(name), plural, ok
}
