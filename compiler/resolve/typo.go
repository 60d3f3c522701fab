package resolve

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// A gathered name that no sentence finds may stand there with a letter too many, too
// few, or changed with its neighbour: "haddok", "buter". Then the slip is what is
// asked about, where it is.

// unused asks about a line that no step takes from.
func (rd *reader) unused(l *Line) {
	if at, right := rd.slipFor(l); right != "" {
		rd.diags.Askf("U201", at, "is %q the %s that is gathered", at.Text(), l.Name).
			Because("no step uses %s, and a name that is spelt another way takes nothing", l.Name).
			See(l.NameAt, "gathered here").
			WithHelp("write %q", right).
			Replace("write "+right, false, at, right)
		return
	}
	d := rd.diags.Askf("U201", l.NameAt, "no step of %s uses %s", rd.recipe.Name, l.Name).
		Because("it would be bought and never go in").
		WithHelp("name it in the step where it goes in, or write `| uses %s` in that step's margin", l.Name)
	if l.Quantity == nil && rd.said().seasons {
		d.WithHelp("a step that says `season` takes salt and pepper without an amount, and what is marked `| to taste`")
	}
	d.WithHelp("if it is only for the table, put it under `for serving`")
}

// saidWord is a word of the sentences, where it first stands.
type saidWord struct {
	text string
	at   source.Span
}

// said are the words of a recipe's sentences, each once, cut when first asked for.
type said struct {
	byLetter map[rune][]saidWord // by their first letter, small
	keys     map[string]bool     // the words of what is gathered, folded
	seasons  bool                // some step says to season
}

// said gives what the sentences of the recipe say.
func (rd *reader) said() *said {
	if rd.saidOnce != nil {
		return rd.saidOnce
	}
	s := &said{byLetter: map[rune][]saidWord{}, keys: map[string]bool{}}
	rd.saidOnce = s
	seen := map[string]bool{}
	see := func(lines []Text) {
		for _, line := range lines {
			eachWord(line.Text, func(from, to int) {
				word := line.Text[from:to]
				if seen[word] {
					return
				}
				seen[word] = true
				s.seasons = s.seasons || strings.EqualFold(word, "season")
				r, _ := utf8.DecodeRuneInString(word)
				r = unicode.ToLower(r)
				s.byLetter[r] = append(s.byLetter[r], saidWord{word, line.Span.File.Span(line.Span.Start+from, line.Span.Start+to)})
			})
		}
	}
	for _, st := range rd.recipe.Steps {
		see(st.Lines)
		for _, m := range st.Moments {
			see(m.Lines)
		}
	}
	for _, l := range rd.recipe.Lines {
		for w := range strings.FieldsSeq(l.Key) {
			s.keys[w] = true
		}
	}
	return s
}

// eachWord calls do for each run of letters of a text.
func eachWord(text string, do func(from, to int)) {
	from := -1
	for i, r := range text {
		switch in := unicode.IsLetter(r) || unicode.IsMark(r); {
		case in && from < 0:
			from = i
		case !in && from >= 0:
			do(from, i)
			from = -1
		}
	}
	if from >= 0 {
		do(from, len(text))
	}
}

// slipFor finds a word of the sentences that a word of a line's name was probably
// meant by, and how it is spelt right.
func (rd *reader) slipFor(l *Line) (at source.Span, right string) {
	var names []string
	eachWord(l.Name, func(from, to int) { names = append(names, l.Name[from:to]) })
	if len(names) == 0 {
		return at, ""
	}
	last := names[len(names)-1]
	if slices.Contains(larder.Parts(), larder.Fold(last)) && len(names) > 1 { // leaves of parsley
		names = names[:len(names)-1]
	}
	name := names[len(names)-1]
	first, _ := utf8.DecodeRuneInString(name)
	for _, w := range rd.said().byLetter[unicode.ToLower(first)] {
		if !slipOf(w.text, name) || rd.isName(w.text) {
			continue
		}
		if r, _ := utf8.DecodeRuneInString(w.text); unicode.IsUpper(r) {
			return w.at, larder.Capital(name)
		}
		return w.at, name
	}
	return at, ""
}

// otherWords are no foods, and one letter away from some.
var otherWords = map[string]bool{
	"four": true, "stage": true, "plump": true, "clover": true, "bead": true, "drill": true, "minute": true, "brain": true, "salty": true, "cram": true,
	"beard": true, "prime": true, "peal": true, "rolled": true, "spiced": true, "creamed": true, "whole": true, "while": true,
}

// isName tells whether a word is spelt as something that is gathered or known.
func (rd *reader) isName(word string) bool {
	key := larder.Fold(word)
	if _, known := larder.Builtin().Find(word); known {
		return true
	}
	return rd.said().keys[key]
}

// slipOf tells whether a word is a name with one letter too many, too few, or changed
// with its neighbour; of a long name, with one wrong. Another ending, "buttered", is no
// slip, and a short word with one wrong letter is another word: batter is not butter.
func slipOf(word, name string) bool {
	w, n := []rune(strings.ToLower(word)), []rune(strings.ToLower(name))
	if otherWords[string(w)] {
		return false
	}
	if len(w) > 3 && len(w)+1 < len(n) && string(n[:len(w)]) == string(w) && !isMethodWord(string(w)) && !slices.Contains(endings, string(n[len(w):])) { // the marg, of margarine
		return true
	}
	if len(w) < 4 || len(n) < 4 || w[0] != n[0] || diag.Nearest(word, []string{name}) == "" || larder.Fold(word) == larder.Fold(name) {
		return false
	}
	for _, end := range endings {
		if string(w) == string(n)+end || string(n) == string(w)+end {
			return false
		}
	}
	switch {
	case len(w) == len(n):
		var off []int
		for i := range w {
			if w[i] != n[i] {
				off = append(off, i)
			}
		}
		return len(off) == 2 && off[1] == off[0]+1 && w[off[0]] == n[off[1]] && w[off[1]] == n[off[0]] || len(off) == 1 && len(n) >= 7
	case len(w)+1 == len(n):
		return without(n, w)
	case len(w) == len(n)+1:
		return without(w, n)
	}
	return false
}

// endings make another word of one, and are no slips.
var endings = []string{"y", "s", "es", "ed", "d", "ing", "ly", "er", "r", "like"}

// isMethodWord tells whether a word is a verb or a part of a thing, and no short name.
func isMethodWord(word string) bool {
	key := larder.Fold(word)
	return methodWords().verbs[key] || isPart(key) || readies[key] || putsIn[key]
}

// without tells whether long with one letter left out is short.
func without(long, short []rune) bool {
	i := 0
	for i < len(short) && long[i] == short[i] {
		i++
	}
	return string(long[i+1:]) == string(short[i:])
}
