package check

import (
	"strings"

	"tamis/compiler/practice"
	"tamis/lang/ast"
	"tamis/lang/diag"
)

var practiceUnknown = &Rule{
	Code: "S101", Title: "a practice whose limits are not known", Family: Safety, Severity: diag.Query,
	What:    "`practice` names a country or a body whose published limits Tamis does not have.",
	Why:     "Limits differ from place to place, and without a known one the strictest seen anywhere is compared with.",
	Fix:     "Name one that is known, or leave the line out and take the strictest.",
	Sources: []string{"the Tamis notation, 2.17", "Regulation (EC) 852/2004 Annex II Chapter IX, which sets no temperatures"},
	Bad: `kitchen Mill
  practice Ruritania
  cooks Ana
`,
	At: "2:3",
	Good: `kitchen Mill
  practice EU-FR
  cooks Ana
`,
	Check: func(p *Pass) {
		for _, f := range p.Tree.Files {
			if !p.Tree.Asked(f) {
				continue
			}
			for _, b := range f.AST.Blocks {
				for _, c := range commons(b) {
					if c.Key == "practice" {
						askPractice(p, c)
					}
				}
			}
		}
	},
}

func askPractice(p *Pass, c *ast.Common) {
	if _, ok := practice.Find(c.Text.Text); ok || strings.TrimSpace(c.Text.Text) == "" {
		return
	}
	var known []string
	for _, k := range practice.Practices() {
		known = append(known, k.Name)
	}
	d := p.Report(c.Pos(), "no limits are known of practice %s", c.Text.Text)
	if strings.EqualFold(strings.TrimSpace(c.Text.Text), "EU") {
		d.Because("European law sets no temperatures: each country has its own")
		d.WithHelp("name the country: `practice EU-FR`")
		return
	}
	if near := diag.Nearest(c.Text.Text, known); near != "" {
		d.Replace("write "+near, false, c.Text.Span, near)
	}
	d.WithHelp("the ones known are %s", strings.Join(known, ", "))
}
