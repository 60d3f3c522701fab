package check

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/prose"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// corrections asks about a correction whose figures are not those of the recipe.
var corrections = &Rule{
	Code: "E120", Title: "A correction that is not in the recipe.", Family: Style, Severity: diag.Question,
	What: "A `corrected` line says which amount, time or heat is right, and the recipe still has another, or none.",
	Why:  "Who prints the recipe again prints the old figure, and below it that it is wrong.",
	Fix:  "Put the figure into the list too; what was wrong stands after *not*.",
	Bad: `dish Rye loaf
  serves 8
  corrected 2027-10-03: 12 g salt, not 20
  gather
    600 g    rye flour
    20 g     salt
  method
    - Mix the rye flour and the salt. | work 5 min
`,
	At: "3:25",
	Good: `dish Rye loaf
  serves 8
  corrected 2027-10-03: 12 g salt, not 20
  gather
    600 g    rye flour
    12 g     salt
  method
    - Mix the rye flour and the salt. | work 5 min
`,
	Sources: []string{"the Tamis notation, 2.6"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			for _, c := range r.Own.Notes.Corrected {
				corrected(p, c, r)
			}
		}
		for _, s := range p.Model.Series {
			for _, part := range s.Parts {
				for _, c := range part.Notes.Corrected {
					if of := part.Recipes(); len(of) > 0 {
						corrected(p, c, of...)
					}
				}
			}
			for _, c := range s.Notes.Corrected {
				var of []*resolve.Recipe
				for _, part := range s.Parts {
					of = append(of, part.Recipes()...)
				}
				if len(of) > 0 {
					corrected(p, c, of...)
				}
			}
		}
	},
}

// corrected compares the figures of one correction with a recipe: an amount with the list,
// a time, a heat or an amount of something that is not gathered with all that the block
// says. A figure after "not" is the old one.
func corrected(p *Pass, c resolve.Record, of ...*resolve.Recipe) {
	text := c.Text.Text
	for _, f := range figuresIn(text) {
		if before := strings.Fields(text[:f.from]); len(before) > 0 && strings.EqualFold(before[len(before)-1], "not") {
			continue
		}
		var lines []*resolve.Line // that have another amount
		agrees := false
		for _, r := range of {
			l, same := lineMeant(r, text, f)
			agrees = agrees || same
			if l != nil && !same {
				lines = append(lines, l)
			}
		}
		if agrees {
			continue
		}
		if len(lines) > 0 {
			l := lines[0]
			d := p.Report(partOf(c.Text, f.from, f.to), "the correction says %s of %s, and %s has %s", text[f.from:f.to], l.Name, l.Recipe.Name, l.AmountText)
			for _, l := range lines {
				d.See(l.Span, "gathered here")
			}
			d.WithHelp("put the right figure into the list; what was wrong stands after `not`: `12 g salt, not 20`")
			continue
		}
		if !f.measured || slices.ContainsFunc(of, func(r *resolve.Recipe) bool { return blockSays(r, text, f) }) {
			continue
		}
		name := of[0].Name
		if len(of) > 1 {
			name = "what the part shows"
		}
		p.Report(partOf(c.Text, f.from, f.to), "the correction says %s, and nothing in %s does", text[f.from:f.to], name).
			See(of[0].NameAt, "the recipe").
			WithHelp("put the right figure into the recipe; what was wrong stands after `not`: `12 g salt, not 20`")
	}
}

// wordFigure is a figure in words of the writer's, with its unit.
type wordFigure struct {
	from, to int
	measured bool           // it has a unit: of weight, volume, length, time or heat
	time     *quantity.Span // of a length of time
}

var (
	unitWords = regexp.MustCompile(`^\s?(?:degrees|°\s?[CF]|[CF])\b`)
	withUnit  = regexp.MustCompile(`(\d[\d./]*)(?:\s*(?:to|-|–)\s*(\d[\d./]*))?\s*(°?\s?[A-Za-z]+)`)
)

// figuresIn finds the figures in words, in figures or in words themselves ("two teaspoons",
// "half an hour"); of those in words only what has a unit.
func figuresIn(text string) (out []wordFigure) {
	times := prose.Read(text).Times
	for i := 0; i < len(text); {
		if i > 0 && text[i-1] != ' ' && text[i-1] != '(' {
			i++
			continue
		}
		for len(times) > 0 && times[0].From < i {
			times = times[1:]
		}
		if len(times) > 0 && times[0].From == i {
			t := times[0]
			out = append(out, wordFigure{from: i, to: t.To, measured: true, time: &t.Span})
			i = max(t.To, i+1)
			continue
		}
		word, _, _ := strings.Cut(text[i:], " ")
		if !quantity.BeginsNumber(word) {
			i++
			continue
		}
		f := figureAt(text, i)
		if text[i] < '0' || text[i] > '9' {
			if !f.measured {
				i++
				continue
			}
		}
		out = append(out, f)
		i = max(f.to, i+1)
	}
	return out
}

// figureAt is the figure at a place of a text where a number begins.
func figureAt(text string, i int) wordFigure {
	end := i
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || strings.IndexByte(".,/", text[end]) >= 0 && end+1 < len(text) && text[end+1] >= '0' && text[end+1] <= '9') {
		end++
	}
	f := wordFigure{from: i, to: end}
	if m := unitWords.FindString(text[end:]); end > i && m != "" {
		f.to, f.measured = end+len(m), true
	} else if a, n, problems := quantity.ReadAmount(text[i:], quantity.Options{}); n > 0 && len(problems) == 0 && a.Kind == quantity.Plain {
		f.to = i + n
		for _, t := range a.Measure.Terms {
			f.measured = f.measured || t.Unit != nil
		}
	}
	return f
}

// lineMeant is the line of a recipe that a figure is of, and whether it has that amount; nil
// where the recipe gathers nothing of that name.
func lineMeant(r *resolve.Recipe, text string, f wordFigure) (line *resolve.Line, agrees bool) {
	a, n, problems := quantity.ReadAmount(text[f.from:], quantity.Options{System: r.System})
	if n == 0 || len(problems) > 0 || a.Kind != quantity.Plain {
		return nil, false
	}
	q, problem := a.Measure.Quantity(r.System)
	if problem != nil {
		return nil, false
	}
	rest := strings.ToLower(strings.TrimPrefix(strings.TrimSpace(text[f.from+n:]), "of "))
	for _, l := range r.Lines {
		if !begins(rest, strings.ToLower(l.Name)) || l.Quantity == nil || l.Quantity.Dim != q.Dim {
			continue
		}
		if l.Quantity.Value.High.Equal(q.Value.High) && l.Quantity.Value.Low.Equal(q.Value.Low) {
			return l, true
		}
		if line == nil {
			line = l
		}
	}
	return line, false
}

// blockSays tells whether a figure stands anywhere in a block, but in its corrections.
func blockSays(r *resolve.Recipe, text string, f wordFigure) bool {
	want := withUnit.FindStringSubmatch(text[f.from:f.to])
	if r.Span.File == nil || f.time == nil && want == nil {
		return true
	}
	for line := range strings.Lines(r.Span.File.Text[r.Span.Start:r.Span.End]) {
		switch {
		case strings.HasPrefix(strings.TrimSpace(line), "corrected "):
		case f.time != nil:
			for _, t := range prose.Read(line).Times {
				if o := t.Span; f.time.Low == o.Low || f.time.High == o.High || f.time.High == o.UpTo {
					return true
				}
			}
		default:
			for _, m := range withUnit.FindAllStringSubmatch(line, -1) {
				if (m[1] == want[1] || m[2] == want[1]) && shortUnit(m[3]) == shortUnit(want[3]) {
					return true
				}
			}
		}
	}
	return false
}

// shortUnit is a unit in its shortest form, for comparing: "C" of "degrees" and "° C".
func shortUnit(u string) string {
	u = strings.TrimSpace(strings.TrimLeft(u, "° "))
	switch strings.ToLower(strings.TrimSuffix(u, "s")) {
	case "degree", "c":
		return "C"
	}
	return u
}

// partOf is the place of some of the words of a field; of all of it where they cannot be told
// in the file: words that run on over lines are set in there.
func partOf(t resolve.Text, from, to int) source.Span {
	at := t.Span
	if at.File == nil {
		return at
	}
	raw, words := at.File.Text[at.Start:at.End], t.Text[from:to]
	if raw == t.Text {
		return at.File.Span(at.Start+from, at.Start+to)
	}
	i := -1
	for n := strings.Count(t.Text[:from], words); n >= 0; n-- {
		next := strings.Index(raw[i+1:], words)
		if next < 0 {
			return at
		}
		i += 1 + next
	}
	return at.File.Span(at.Start+i, at.Start+i+len(words))
}

// begins tells whether a text begins with a name, whole or in its other number.
func begins(text, name string) bool {
	words, names := strings.Fields(strings.Map(letterOrSpace, text)), strings.Fields(name)
	return len(words) >= len(names) && larder.Fold(strings.Join(words[:len(names)], " ")) == larder.Fold(name)
}

func letterOrSpace(r rune) rune {
	if strings.ContainsRune(",;:.()", r) {
		return ' '
	}
	return r
}

// unsureFields asks about fields that nobody has confirmed.
var unsureFields = &Rule{
	Code: "E121", Title: "Fields that nobody has confirmed.", Family: Style, Severity: diag.Question,
	What:    "Fields of a file end in a `?`: they are a guess, and planned and printed as they stand. Said once a file, at the first.",
	Why:     "Every amount and the whole plan follow from them.",
	Fix:     "Take the marks away where the fields are right.",
	Bad:     "dish Leek pot\n  serves 4 ?\n",
	At:      "2:3",
	Good:    "dish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.6"},
	Whole:   true,
	Check: func(p *Pass) {
		byFile := map[*source.File][]resolve.Text{}
		var files []*source.File
		for _, f := range p.Model.Unsure {
			if byFile[f.Span.File] == nil {
				files = append(files, f.Span.File)
			}
			byFile[f.Span.File] = append(byFile[f.Span.File], f)
		}
		for _, f := range files {
			list := byFile[f]
			what := "`" + list[0].Text + "` is not confirmed yet"
			if n := len(list) - 1; n > 0 {
				what = fmt.Sprintf("`%s` and %d more of this file are not confirmed yet", list[0].Text, n)
			}
			d := p.Report(list[0].Span, "%s", what)
			for _, o := range list[1:min(len(list), 6)] {
				d.See(o.Span, "this one too")
			}
			d.WithHelp("take the `?` away where it is right")
		}
	},
}
