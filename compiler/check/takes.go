package check

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/ast"
	"tamis/lang/source"
)

// readings are what the sentences of a recipe take: without any choice, and
// then with each further option chosen in turn.
func (p *Pass) readings(r *resolve.Recipe) []*resolve.Reading {
	if r.Reading == nil {
		return nil
	}
	out := []*resolve.Reading{r.Reading}
	for _, c := range r.Choices {
		for _, o := range c.Options[min(1, len(c.Options)):] {
			out = append(out, p.Model.Read(r, map[*resolve.Choice]*resolve.Option{c: o}, nil))
		}
	}
	return out
}

// takesOf are all takes of a step, over every reading, without repeats.
func takesOf(readings []*resolve.Reading, s *resolve.Step) (out []resolve.Take) {
	for _, rd := range readings {
		for _, sr := range rd.Steps {
			if sr.Step != s {
				continue
			}
			for _, t := range sr.Takes {
				if !slices.ContainsFunc(out, func(o resolve.Take) bool {
					return o.Span == t.Span && o.Line == t.Line && o.Product == t.Product
				}) {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

// firstUses finds the first step that takes of each line, in any reading.
func firstUses(readings []*resolve.Reading) map[*resolve.Line]*resolve.Step {
	out := map[*resolve.Line]*resolve.Step{}
	for _, rd := range readings {
		for _, sr := range rd.Steps {
			for _, t := range sr.Takes {
				if t.Line != nil && !t.Refers && (out[t.Line] == nil || sr.Step.Index < out[t.Line].Index) {
					out[t.Line] = sr.Step
				}
			}
		}
	}
	return out
}

// offset is the byte of the text that was written at a place, or -1.
func (s saying) offset(at source.Span) int {
	for i, l := range s.lines {
		if l.Span.File == at.File && at.Start >= l.Span.Start && at.Start <= l.Span.End {
			return s.starts[i] + at.Start - l.Span.Start
		}
	}
	return -1
}

// sentenceSpan is where the sentence begins and ends that byte i stands in.
func (s saying) sentenceSpan(i int) (from, to int) {
	for _, x := range s.sentences() {
		if i >= x[0] && i < x[1] {
			return x[0], x[1]
		}
	}
	return 0, len(s.text)
}

// foldedWords are the words of a name in the form in which sentences are
// searched: each folded by itself.
func foldedWords(name string) []string {
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		name = name[i+1:]
	}
	words := strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" \t\n,.;:()", r) })
	for i, w := range words {
		words[i] = larder.Fold(w)
	}
	return words
}

// headOf is the last folded word of a name: "leek" of "young leeks".
func headOf(name string) string {
	words := foldedWords(name)
	if i := slices.Index(words, "of"); i > 0 {
		words = words[:i]
	}
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}

// hasWord tells whether a folded word stands in a text, in singular or plural.
func hasWord(text, word string) bool {
	for w := range strings.FieldsFuncSeq(text, func(r rune) bool {
		return strings.ContainsRune(" \t\n,.;:!?()–—\"", r)
	}) {
		if larder.Fold(w) == word {
			return true
		}
	}
	return false
}

// lineNote is everything that a line says to the cook besides its name.
func lineNote(l *resolve.Line) string { return lineNoteOf(l.AST) }

func lineNoteOf(l *ast.Line) string {
	return strings.TrimSpace(strings.ToLower(l.Note.Text + " " + l.Brackets.Text))
}

// proseOf is all prose of a step: its sentences and its moments.
func proseOf(s *resolve.Step) string {
	if s.AST == nil {
		return ""
	}
	text := s.AST.Prose.Text
	for _, m := range s.AST.Moments {
		text += " " + m.Prose.Text
	}
	return text
}

// passages are the places of a step where prose stands: itself and its moments.
func passages(s *resolve.Step) (out []saying) {
	if s.AST == nil {
		return nil
	}
	out = append(out, sayingOf(s.AST.Lines))
	for _, m := range s.AST.Moments {
		out = append(out, sayingOf(m.Lines))
	}
	return out
}

// ownLine tells whether a line is written in the recipe itself.
func ownLine(r *resolve.Recipe, l *resolve.Line) bool { return mine(r, l.AST.Pos()) }

// substitutes are the substitutes of a line.
func substitutes(l *resolve.Line) []*ast.Line { return l.AST.Instead }

// eachStepOf calls f for every passage that is written in this recipe: each
// step, and each moment of it.
func (p *Pass) eachStepOf(r *resolve.Recipe, f func(s *resolve.Step, prose saying)) {
	for _, s := range r.Steps {
		if s.AST == nil || !mine(r, s.AST.Pos()) {
			continue
		}
		for _, prose := range passages(s) {
			f(s, prose)
		}
	}
}
