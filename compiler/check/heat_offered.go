package check

import (
	"cmp"
	"slices"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// offeredClock sums up in one question for a recipe what its clock rests on and
// nobody has confirmed.
var offeredClock = &Rule{
	Code: "H123", Title: "Times and heats that nobody has confirmed.", Family: Heat, Severity: diag.Question,
	What:    "Where a margin says nothing of time, heat or place, they are read from the sentence, or from the note of a gathered line; and a clause with a `?` is a guess. The plan goes by them and prints them with a `?`. A time for another case, behind `or` or `if` or in brackets, is not planned with, and is asked about here.",
	Why:     "A plan is as good as its times, and only who has cooked it knows them.",
	Fix:     "Read them over with `tamis check --read`. `tamis check --fix --offered` writes them into the margins; take away the marks of those that are right.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks gently for about 20 minutes.\n",
	At:      "6:7",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks gently for about 20 minutes. | ring low | leave about 20 min\n",
	Sources: []string{"the Tamis notation, 2.7"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			p.offered(r)
		}
	},
}

// unsure is one place whose words nobody has confirmed.
type unsure struct {
	at   source.Span
	text string
}

func (p *Pass) offered(r *resolve.Recipe) {
	var read, marked, asked []unsure
	fix := diag.Fix{Title: "write them into the margins, each with a `?`", Offered: true}
	for _, o := range r.Offers {
		if !mine(r, o.At) {
			continue
		}
		if o.Margin != "" {
			read = append(read, unsure{o.At, o.Margin})
			fix.Edits = append(fix.Edits, o.Write...)
		}
		for _, t := range o.Asked {
			asked = append(asked, unsure{t.Span, t.Text})
		}
	}
	for _, s := range r.Steps {
		for _, c := range clausesOf(s) {
			if h := c.Where(); resolve.Unconfirmed(c) && mine(r, h) {
				marked = append(marked, unsure{h, h.Text()})
			}
		}
	}
	for _, l := range r.Lines {
		for i := range l.Prep {
			if sp := &l.Prep[i]; sp.Offered && !sp.Said && mine(r, sp.Span) {
				marked = append(marked, unsure{sp.Span, sp.Span.Text()})
			}
		}
	}
	all := slices.Concat(read, marked, asked)
	if len(all) == 0 {
		return
	}
	slices.SortStableFunc(all, func(a, b unsure) int { return cmp.Compare(a.at.Start, b.at.Start) })
	var d *diag.Diagnostic
	at := all[0].at
	switch {
	case len(read)+len(marked) == 0 && len(asked) == 1:
		d = p.Report(at, "%q is for another case, and %s is not planned with it", asked[0].text, r.Name)
	case len(read)+len(marked) == 0:
		d = p.Report(at, "%d times are for other cases, and %s is not planned with them", len(asked), r.Name)
	case len(marked) == 0:
		d = p.Report(at, "the clock of %s is read from %s: is it right", r.Name, sentencesText(len(read)))
	case len(read) == 0:
		d = p.Report(at, "the clock of %s has %s that nobody has confirmed", r.Name, clausesText(len(marked)))
	default:
		d = p.Report(at, "the clock of %s is read from %s, and has %s that nobody has confirmed", r.Name, sentencesText(len(read)), clausesText(len(marked)))
	}
	label := func(u unsure) string {
		if slices.Contains(asked, u) {
			return "not planned with"
		}
		return u.text
	}
	d.Labelled("%s", label(all[0]))
	for i, u := range all[1:] {
		if i == 11 {
			break
		}
		d.See(u.at, "%s", label(u))
	}
	if len(read) > 0 {
		d.Fixes = append(d.Fixes, fix)
		d.WithHelp("`tamis check --fix --offered` writes them into the margins; then take away the marks of those that are right")
	} else if len(marked) > 0 {
		d.WithHelp("take the marks away where it is right")
	}
	if len(asked) > 0 {
		d.WithHelp("for another case write an option, or a step `| only if needed`")
	}
}

func sentencesText(n int) string {
	if n == 1 {
		return "one of its sentences"
	}
	return itoa(n) + " of its sentences"
}

func clausesText(n int) string {
	if n == 1 {
		return "a clause"
	}
	return itoa(n) + " clauses"
}
