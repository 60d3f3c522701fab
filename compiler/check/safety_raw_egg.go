package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var rawEgg = &Rule{
	Code: "S119", Title: "Egg that is served raw.", Family: Safety, Severity: diag.Hint,
	What:    "A dish is served with egg in it that no step heats, and the text has no caution about it. Where children, the old, the ill or the pregnant eat, it is a warning.",
	Why:     "Raw egg is not for everybody: small children, the old, the pregnant and the ill are told to leave it.",
	Fix:     "Write a `caution`, or use pasteurised egg and say so.",
	Sources: []string{noSource},
	Bad: `dish Chocolate mousse
  serves 4
  gather
    200 g    dark chocolate
    4        eggs, separated
  method
    - Melt the chocolate over hot water.
      | ring low | watch 6 min
    - Beat in the egg yolks, fold in the whipped egg whites and spoon into glasses.
      | work 12 min | uses eggs
  serve cold
`,
	At: "5:14",
	Good: `dish Chocolate mousse
  serves 4
  gather
    200 g    dark chocolate
    4        eggs, separated
  method
    - Melt the chocolate over hot water.
      | ring low | watch 6 min
    - Beat in the egg yolks, fold in the whipped egg whites and spoon into glasses.
      | work 12 min | uses eggs | caution raw egg: ask your guests
  serve cold
`,
	Check: func(p *Pass) {
		served(p, hazard.Egg, func(d *plate, at span, i *hazard.Item) {
			p.common(p.ReportAs(d.rawFor(), at, "no step heats %s", "the "+i.Line.Name)).
				WithHelp("say so to those who eat it: `| caution raw egg`, or use pasteurised egg and say so in the note")
		})
	},
}

// served calls f for raw things of a kind that a dish brings to the table
// unheated, where the writer gives no caution. What a base brings counts in the
// dish that draws on it.
func served(p *Pass, k hazard.Kind, f func(d *plate, at span, i *hazard.Item)) {
	seen := once{}
	for _, d := range p.frailFirst() {
		if d.recipe.Base || len(d.Stages) == 0 {
			continue
		}
		for _, i := range d.End.Items {
			at := i.Line.NameAt
			note := strings.ToLower(i.Line.Note.Text)
			if !i.Is(k) || k == hazard.Egg && !d.RawEgg(i) || k != hazard.Egg && i.Heated || strings.Contains(note, "pasteuri") || k == hazard.Egg && lion(d, i) || strings.Contains(note, "frozen") || d.HotPoured(i) || d.warned(i) || seen.again(at) {
				continue
			}
			f(d, at, i)
		}
	}
}

// lion tells whether eggs are of the British scheme of which the food agency says,
// since 2017, that all may eat them raw, where British rules hold: advice of the NHS, as seen quoted.
func lion(d *plate, i *hazard.Item) bool {
	p := d.choice.Practice
	return p != nil && strings.HasPrefix(p.Name, "UK") && speaksIn(i.Line.Name+" "+i.Line.Note.Text, "lion")
}
