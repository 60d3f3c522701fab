package check

import (
	"strings"

	"tamis/compiler/load"
	"tamis/compiler/practice"
	"tamis/lang/diag"
)

var practiceUnknown = &Rule{
	Code: "S101", Title: "Rules whose limits are not known.", Family: Safety, Severity: diag.Question,
	What:    "`rules` names a country or a body whose published limits Tamis does not have.",
	Why:     "Limits differ from place to place, and without a known one the strictest seen anywhere is compared with.",
	Fix:     "Name one that is known, or leave the line out and take the strictest.",
	Sources: []string{"the Tamis notation, 2.17", "Regulation (EC) 852/2004 Annex II Chapter IX, which sets no temperatures"},
	Bad: `kitchen Mill
  rules Ruritania
  cooks Ana
`,
	At: "2:3",
	Good: `kitchen Mill
  rules EU-FR
  cooks Ana
`,
	Whole: true,
	Check: func(p *Pass) {
		for _, f := range p.Tree.Files {
			if !p.Tree.Asked(f) {
				continue
			}
			for _, b := range f.Blocks() {
				for _, field := range b.Practices {
					askPractice(p, field)
				}
			}
		}
	},
}

func askPractice(p *Pass, f load.Field) {
	if _, ok := practice.Find(f.Text); ok || strings.TrimSpace(f.Text) == "" {
		return
	}
	var known []string
	for _, k := range practice.Practices() {
		known = append(known, k.Name)
	}
	d := p.Report(f.Span, "no limits are known by the name %s", f.Text)
	if strings.EqualFold(strings.TrimSpace(f.Text), "EU") {
		d.Because("European law sets no temperatures: each country has its own")
		d.WithHelp("name the country: `rules EU-FR`")
		return
	}
	if near := diag.Nearest(f.Text, known); near != "" {
		d.Replace("write "+near, false, f.TextAt, near)
	}
	d.WithHelp("the ones known are %s", strings.Join(known, ", "))
}
