package check

import (
	"strings"

	"tamis/lang/diag"
)

// keptPastPart finds what is made in one part and is past its keeping time on
// the day of the part, or of the meal, that uses it.
var keptPastPart = &Rule{
	Code: "S140", Title: "Past its keeping time in a later part.", Family: Safety, Severity: diag.Warning,
	What:    "Something is made in one part of a series and used in a later part, or at the meal, on a day after it should have been used.",
	Why:     "Parts are days or weeks apart; what was made in one must still be good in the other. Local rules and qualified people come first.",
	Fix:     "Freeze it and write how long it keeps so, make it again nearer the day, or move the date of a part.",
	Bad:     strings.Replace(lessons("part 1 Broth", "part 2 Soup", "made in part 1"), "2027-03-06", "2027-03-11", 1),
	At:      "7:5",
	Good:    lessons("part 1 Broth", "part 2 Soup", "made in part 1"),
	Sources: []string{"University of New Hampshire Extension, date marking (seen as an excerpt)"},
	After:   Demanded,
	Whole:   true,
	Check: func(p *Pass) {
		type use struct{ thing, where string }
		for _, s := range p.Series {
			said := map[use]bool{}
			for _, c := range s.Carries {
				until, known := c.UseBy()
				on, dated := c.On(s)
				if !known || !dated || !on.After(until) {
					continue
				}
				where, at := "on the day of the meal", s.Of.NameAt
				if c.To != nil {
					where, at = "in part "+itoa(c.To.Of.Number), partDate(c.To.Of)
				}
				if said[use{c.Name(), where}] {
					continue
				}
				said[use{c.Name(), where}] = true
				p.Report(at, "%s of part %d is used %s, %s, and should be used by %s", c.Name(), c.From.Of.Number, where, on.Format("2 January"), until.Format("2 January")).
					See(c.Making.Recipe.NameAt, "it keeps %s, %s", c.Keeps.Time.String(), c.Keeps.Place).
					See(partDate(c.From.Of), "made here").
					WithHelp("freeze it and say how long it keeps so, or make it again nearer the day")
			}
		}
	},
}
