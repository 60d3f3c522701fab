package check

import (
	"fmt"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// corrections asks about a correction whose figures are not those of the recipe.
var corrections = &Rule{
	Code: "E120", Title: "A correction that is not in the recipe.", Family: Style, Severity: diag.Question,
	What: "A `corrected` line says how much of something is right, and the list still has another amount.",
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
					for _, r := range part.Recipes() {
						corrected(p, c, r)
					}
				}
			}
		}
	},
}

// corrected compares the amounts of one correction with the list of a recipe. A figure
// after "not" is the old one.
func corrected(p *Pass, c resolve.Record, r *resolve.Recipe) {
	text := c.Text.Text
	start := c.Text.Span.Start
	for i := 0; i < len(text); {
		if text[i] < '0' || text[i] > '9' || i > 0 && text[i-1] != ' ' {
			i++
			continue
		}
		a, n, problems := quantity.ReadAmount(text[i:], quantity.Options{System: r.System})
		if n == 0 || len(problems) > 0 || a.Kind != quantity.Plain {
			i++
			continue
		}
		from, to := i, i+n
		i += n
		if before := strings.Fields(text[:from]); len(before) > 0 && strings.EqualFold(before[len(before)-1], "not") {
			continue
		}
		q, problem := a.Measure.Quantity(r.System)
		if problem != nil {
			continue
		}
		for _, l := range r.Lines {
			name := strings.ToLower(l.Name)
			rest := strings.ToLower(strings.TrimPrefix(strings.TrimSpace(text[to:]), "of "))
			if !begins(rest, name) || l.Quantity == nil || l.Quantity.Dim != q.Dim || l.Quantity.Value.High.Equal(q.Value.High) && l.Quantity.Value.Low.Equal(q.Value.Low) {
				continue
			}
			at := c.Text.Span
			if f := at.File; f != nil && f.Text[at.Start:at.End] == text { // the words as they were written
				at = f.Span(start+from, start+to)
			}
			p.Report(at, "the correction says %s of %s, and %s has %s", text[from:to], l.Name, r.Name, l.AmountText).
				See(l.Span, "gathered here").
				WithHelp("put the right figure into the list; what was wrong stands after `not`: `12 g salt, not 20`")
			break
		}
	}
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
