package check

import (
	"sort"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/prose"
	"tamis/lang/source"
)

// saying is the prose of a step or a moment as one text, with the places its
// words were written at.
type saying struct {
	text   string
	lines  []resolve.Text
	starts []int // where each line begins in text
	known  *told // what was read of it already; nil: nothing
}

// told is what more than one rule wants to know of a saying.
type told struct {
	sentences [][2]int
	clock     *prose.Said // nil: nobody has asked
}

// sayingOf reads written lines as one text, joined by blanks.
func sayingOf(lines []resolve.Text) saying {
	s := saying{lines: lines}
	var b strings.Builder
	for i, l := range lines {
		if i > 0 {
			b.WriteByte(' ')
		}
		s.starts = append(s.starts, b.Len())
		b.WriteString(l.Text)
	}
	s.text = b.String()
	return s
}

// place is where the bytes from and to of the text were written.
func (s saying) place(from, to int) source.Span {
	if len(s.lines) == 0 {
		return source.Span{}
	}
	at := func(off int) int {
		i := max(sort.SearchInts(s.starts, off+1)-1, 0)
		return s.lines[i].Span.Start + off - s.starts[i]
	}
	return s.lines[0].Span.File.Span(at(from), at(max(to-1, from))+1)
}

// find is where a pattern stands, as spans of the text.
func (s saying) find(re *pattern) [][]int { return re.FindAllStringIndex(s.text, -1) }

// sentences are the spans of the sentences of the text.
func (s saying) sentences() [][2]int {
	if s.known != nil {
		return s.known.sentences
	}
	return sentencesOf(s.text)
}

// sentencesOf parts a text behind every mark of an end that blanks follow, with the
// quotes and brackets that are closed there.
func sentencesOf(text string) (out [][2]int) {
	from := 0
	for i := 0; i < len(text); i++ {
		if c := text[i]; c != '.' && c != '!' && c != '?' {
			continue
		}
		end := i + 1
		for end < len(text) && strings.IndexByte(`"')`, text[end]) >= 0 {
			end++
		}
		next := end
		for next < len(text) && strings.IndexByte(" \t\n\f\r", text[next]) >= 0 {
			next++
		}
		if next > end || next == len(text) {
			out = append(out, [2]int{from, next})
			from, i = next, next-1
		}
	}
	if strings.TrimSpace(text[from:]) != "" {
		out = append(out, [2]int{from, len(text)})
	}
	return out
}

// sentenceAt is the sentence that byte i of the text stands in.
func (s saying) sentenceAt(i int) string {
	from, to := s.sentenceSpan(i)
	return s.text[from:to]
}

// clock is what the text says of times and heats.
func (s saying) clock() *prose.Said {
	if s.known == nil {
		return prose.Read(s.text)
	}
	if s.known.clock == nil {
		s.known.clock = prose.Read(s.text)
	}
	return s.known.clock
}

// times are the lengths of time that the text tells, in figures or in words.
func (s saying) times() []prose.Time { return s.clock().Times }

// mine tells whether a place stands in the text of the recipe itself: a step
// that came with `as … but` is judged where it is written.
func mine(r *resolve.Recipe, at source.Span) bool {
	own := r.Span
	return at.File == own.File && at.Start >= own.Start && at.End <= own.End
}

// eachStep calls f for every step that is written in a recipe asked for.
func (p *Pass) eachStep(f func(r *resolve.Recipe, s *resolve.Step, prose saying)) {
	for _, r := range p.Recipes() {
		for _, s := range r.Steps {
			if mine(r, s.Span) {
				f(r, s, p.saying(s))
			}
		}
	}
}

// aboutText is the prose of a recipe's `about`; empty without one.
func aboutText(r *resolve.Recipe) string {
	if r.About == nil {
		return ""
	}
	return r.About.Text.Text
}

// clausesOf are the clauses of a step and of its moments.
func clausesOf(s *resolve.Step) []resolve.Clause {
	out := s.Margin
	for _, m := range s.Moments {
		out = append(out[:len(out):len(out)], m.Margin...)
	}
	return out
}

// firstLine is the first written line of a step, with its dash.
func firstLine(s *resolve.Step) source.Span {
	at := s.Span
	if lines := s.Lines; len(lines) > 0 {
		at.End = lines[0].Span.End
	}
	return at
}

// orTitle is where a field of a recipe stands; the title where it has none.
func orTitle(r *resolve.Recipe, at source.Span) source.Span {
	if at.IsZero() {
		return r.NameAt
	}
	return at
}
