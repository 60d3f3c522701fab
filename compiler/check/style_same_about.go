package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// sameAbout hints at one headnote on two dishes.
var sameAbout = &Rule{
	Code: "E115", Title: "The same headnote twice.", Family: Style, Severity: diag.Hint,
	What:    "Two dishes or bases have the same text in `about`, word for word.",
	Why:     "It was mostly copied and never changed.",
	Fix:     "Write what is true of this one.",
	Bad:     "dish Leek pot\n  serves 4\n  about\n    My aunt made it every Sunday of the winter.\n\ndish Onion pot\n  serves 4\n  about\n    My aunt made it every Sunday of the winter.\n",
	At:      "8:3",
	Good:    "dish Leek pot\n  serves 4\n  about\n    My aunt made it every Sunday of the winter.\n\ndish Onion pot\n  serves 4\n  about\n    In summer it was this one instead.\n",
	Sources: []string{"a book editors' conference paper of 2016 (seen as an excerpt)"},
	Whole:   true,
	Check: func(p *Pass) {
		first := map[string]*resolve.Recipe{}
		for i, r := range p.Recipes() {
			text := p.noted()[i].about
			if len(text) < 30 {
				continue
			}
			have := first[text]
			if have == nil {
				first[text] = r
				continue
			}
			at := r.About.Span
			at.End = min(at.End, at.Start+len("about"))
			p.Report(at, "%s has the headnote of %s, word for word", r.Name, have.Name).
				See(have.NameAt, "the other").WithHelp("write what is true of this one")
		}
	},
}
