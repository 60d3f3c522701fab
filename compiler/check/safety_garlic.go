package check

import (
	"tamis/lang/diag"
)

var garlicOil = &Rule{
	Code: "S111", Title: "Garlic or herbs in oil, on the shelf or for long.", Family: Safety, Severity: diag.Warning,
	What:    "Garlic, herbs, chillies or vegetables lie in oil, and that keeps out of the fridge, or in it for longer than the published figure.",
	Why:     "No air reaches what lies under oil, and the germ that makes botulism grows there without any sign.",
	Fix:     "Keep it in the fridge for a day or two, dated, or freeze it; or strain the oil while it is hot.",
	Sources: []string{"US state extension advice of 2020, as seen quoted", "University of Idaho Extension, 2013, as seen quoted"},
	Bad: `base Garlic oil
  rules US
  makes 300 ml
  keeps 2 weeks, cool place
  gather
    6 cloves garlic
    300 ml   olive oil
  method
    - Crush the garlic into the olive oil.
      | work 5 min
`,
	At: "4:3",
	Good: `base Garlic oil
  rules US
  makes 300 ml
  keeps 2 days, fridge
  gather
    6 cloves garlic
    300 ml   olive oil
  method
    - Crush the garlic into the olive oil.
      | work 5 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, s := range append(d.stays(), d.left()...) {
				if !d.InOil(s.pot) || s.place == "freezer" {
					continue
				}
				r := d.choice.Rule("keep", "garlic in oil")
				l := r.Shortest()
				shelf := s.place != "fridge"
				if s.time <= l.Time && !(shelf && s.time > halfDay) || seen.again(s.at) {
					continue
				}
				if shelf {
					p.cite(p.Report(s.at, "garlic, herbs or vegetables in oil are not for the shelf"), r, l).
						WithHelp("write `%s, fridge`, and date the jar; the figure is %s in the fridge", lengthOf(min(s.time, l.Time)), l.Length())
					continue
				}
				p.cite(p.Report(s.at, "%s for something in oil; the figure is %s in the fridge", lengthOf(s.time), l.Length()), r, l).
					WithHelp("write %s or less, date the jar, or freeze it", lengthOf(l.Time))
			}
		}
	},
}
