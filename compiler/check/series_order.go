package check

import (
	"strconv"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// partsInOrder asks about two parts of one number, and about dates that do not
// run as the numbers do.
var partsInOrder = &Rule{
	Code: "M113", Title: "Parts of a series out of order.", Family: Menu, Severity: diag.Question,
	What:    "Two parts have one number, or a part is dated before the part with the number below.",
	Why:     "What is carried over goes by the numbers: `made in part 1`. Mostly a figure is a slip.",
	Fix:     "Number the parts in the order of their days.",
	Bad:     strings.Replace(lessons("part 1 Broth", "part 2 Soup", "made in part 1"), "2027-03-06", "2027-03-02", 1),
	At:      "7:5",
	Good:    lessons("part 1 Broth", "part 2 Soup", "made in part 1"),
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, s := range p.Model.Series {
			if !s.Asked {
				continue
			}
			for i, part := range s.Parts {
				if i == 0 {
					continue
				}
				last := s.Parts[i-1]
				switch {
				case part.Number == last.Number:
					p.Report(part.NameAt, "there are two parts with the number %d", part.Number).
						See(last.NameAt, "the first is here").WithHelp("number them one after another")
				case part.Date != nil && last.Date != nil && part.Date.Before(*last.Date):
					p.Report(partDate(part), "part %d is on %s, before part %d on %s", part.Number, part.Date.Format("2 January 2006"), last.Number, last.Date.Format("2 January 2006")).
						See(partDate(last), "that date").WithHelp("correct a date, or number the parts in the order of their days")
				}
			}
		}
	},
}

func itoa(n int) string { return strconv.Itoa(n) }

// partDate is where a part says its date; without one, its title.
func partDate(p *resolve.Part) source.Span {
	if p.DateAt.IsZero() {
		return p.NameAt
	}
	return p.DateAt
}
