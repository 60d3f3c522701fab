package check

import (
	"slices"
	"sort"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/source"
)

// readings are what the sentences of a recipe take: without any choice, and
// then with each further option chosen in turn.
func (p *Pass) readings(r *resolve.Recipe) []*resolve.Reading { return r.Readings }

// takesOf are all takes of a step, over every reading, without repeats. Mostly
// the readings agree, and it is the list of one of them: it is not to be changed.
func takesOf(readings []*resolve.Reading, s *resolve.Step) (out []resolve.Take) {
	var seen map[what]bool // made when the list is long
	for _, rd := range readings {
		sr := rd.Of(s)
		if sr == nil {
			continue
		}
		for i, t := range sr.Takes {
			switch {
			case seen == nil && len(out) < 24:
				if slices.ContainsFunc(out, func(o resolve.Take) bool { return whatOf(o) == whatOf(t) }) {
					continue
				}
			default:
				if seen == nil {
					seen = make(map[what]bool, len(out)+len(sr.Takes))
					for _, o := range out {
						seen[whatOf(o)] = true
					}
				}
				if seen[whatOf(t)] {
					continue
				}
				seen[whatOf(t)] = true
			}
			if len(out) == i && (i == 0 || &out[0] == &sr.Takes[0]) {
				out = sr.Takes[: i+1 : i+1] // so far the very list
				continue
			}
			out = append(out, t)
		}
	}
	return out
}

// what is what a take takes, and where.
type what struct {
	at      source.Span
	line    *resolve.Line
	product *resolve.Product
}

func whatOf(t resolve.Take) what { return what{t.Span, t.Line, t.Product} }

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
	i := sort.Search(len(s.lines), func(i int) bool { return s.lines[i].Span.End >= at.Start })
	if i < len(s.lines) && s.lines[i].Span.File == at.File && at.Start >= s.lines[i].Span.Start {
		return s.starts[i] + at.Start - s.lines[i].Span.Start
	}
	return -1
}

// sentenceSpan is where the sentence begins and ends that byte i stands in.
func (s saying) sentenceSpan(i int) (from, to int) {
	all := s.sentences()
	k := sort.Search(len(all), func(k int) bool { return all[k][1] > i })
	if k < len(all) && i >= all[k][0] {
		return all[k][0], all[k][1]
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
		if mayBegin(w, word) && larder.Fold(w) == word {
			return true
		}
	}
	return false
}

// lineNote is everything that a line says to the cook besides its name.
func lineNote(l *resolve.Line) string { return noted(l.Wording) }

func noted(w resolve.Wording) string {
	return strings.TrimSpace(strings.ToLower(w.Note.Text + " " + w.Brackets.Text))
}

// proseOf is all prose of a step: its sentences and its moments.
func proseOf(s *resolve.Step) string {
	text := s.Prose.Text
	for _, m := range s.Moments {
		text += " " + m.Prose.Text
	}
	return text
}

// ownLine tells whether a line is written in the recipe itself.
func ownLine(r *resolve.Recipe, l *resolve.Line) bool { return mine(r, l.Span) }

// eachStepOf calls f for every passage that is written in this recipe: each
// step, and each moment of it.
func (p *Pass) eachStepOf(r *resolve.Recipe, f func(s *resolve.Step, prose saying)) {
	for _, s := range r.Steps {
		if !mine(r, s.Span) {
			continue
		}
		for _, prose := range p.passages(s) {
			f(s, prose)
		}
	}
}
