package check

import (
	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var sourInMetal = &Rule{
	Code: "S168", Title: "Sour food in bare metal.", Family: Safety, Severity: diag.Hint,
	What:    "Food with vinegar, wine, tomatoes or other sour things cooks or stands in bare copper, brass, zinc or aluminium. Jam, which is sugar for its larger part, is not asked about.",
	Why:     "What is sour takes up the metal, and much of it makes people ill.",
	Fix:     "Use steel, enamel or glass, or say that the vessel is lined.",
	Sources: []string{"FDA Food Code 2022, 4-101.14 and 4-101.15, as states adopt it; of aluminium common practice, no source"},
	Bad: `dish Pickled onions
  serves 8
  gather
    1 kg     small onions
    1 litre  malt vinegar
  method
    - Simmer the onions in the malt vinegar in a copper pan.
      | ring low | leave 10 min
  serve cold
`,
	At: "7:50",
	Good: `dish Pickled onions
  serves 8
  gather
    1 kg     small onions
    1 litre  malt vinegar
  method
    - Simmer the onions in the malt vinegar in a steel pan.
      | ring low | leave 10 min
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		c := hazard.Find("metal")
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				said := st.SaidBy("bare metal")
				if !st.SourInMetal() || seen.again(saidAt(st.Step, said)) {
					continue
				}
				p.advised(p.Report(saidAt(st.Step, said), "what is sour takes up the metal of this vessel"), c.Source).
					WithHelp("use steel, enamel or glass, or write `lined` where it is")
			}
		}
	},
}
