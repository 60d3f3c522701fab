package check

import (
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
)

var infantHoney = &Rule{
	Code: "S122", Title: "Honey for an infant.", Family: Safety, Severity: diag.Warning,
	What:    "The text speaks of babies or infants, and honey is in it, cooked or not.",
	Why:     "Honey can carry spores that make children under twelve months ill, and cooking does not help.",
	Fix:     "Leave the honey out for them.",
	Sources: []string{"Quebec national institute of public health, as seen quoted"},
	Bad: `dish Oat fingers
  serves 4
  about
    Soft enough for a baby to hold.
  gather
    150 g    rolled oats
    40 g     honey
    200 ml   water
  method
    - Stir everything and bake in a tin.
      | oven 170 C | work 5 min | leave 20 min
`,
	At: "7:14",
	Good: `dish Oat fingers
  serves 4
  about
    Soft enough for a baby to hold.
  gather
    150 g    rolled oats
    1        banana, mashed
    200 ml   water
  method
    - Stir everything and bake in a tin.
      | oven 170 C | work 5 min | leave 20 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if !d.who().Infants {
				continue
			}
			r := d.choice.Rule("honey", "infant")
			for _, i := range d.End.Items {
				if at := i.Line.NameAt; (i.Has(larder.Honey) || speaksIn(i.Line.Name, "honey", "honeycomb")) && !speaksIn(i.Line.Name, "honeydew", "honey mushroom") && !seen.again(at) {
					p.cite(p.Report(at, "no honey for children under %s", r.Longest().Length()), r, r.Longest()).
						WithHelp("leave it out, or say in `about` that the dish is not for babies")
				}
			}
		}
	},
}

// speaksOf tells whether one of some words stands in a text in small letters.
func speaksOf(text string, words ...string) bool { return hazard.Speaks(text, words...) }
