package check

import (
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var slowReheat = &Rule{
	Code: "S138", Title: "Brought back in a slow cooker.", Family: Safety, Severity: diag.Warning,
	What:    "Food that was cooked and chilled is heated again in a slow cooker.",
	Why:     "A slow cooker takes hours to get there, and all that time the food is lukewarm.",
	Fix:     "Bring it back on the hob or in the oven, and then keep it hot in the slow cooker.",
	Sources: []string{noSource},
	Bad: `dish Pulled beef
  rules UK
  serves 8
  gather
    2 kg     beef brisket
    500 ml   water
  method
    - Braise the brisket in the water, covered.
      | oven 140 C | leave 4 h
    - Pull apart and cool in shallow trays in iced water.
      | work 15 min | leave 1 h
    pause up to 1 day, fridge
    - Warm in the slow cooker.
      | tool slow cooker | leave 3 h | core 75 C
`,
	At: "14:9",
	Good: `dish Pulled beef
  rules UK
  serves 8
  gather
    2 kg     beef brisket
    500 ml   water
  method
    - Braise the brisket in the water, covered.
      | oven 140 C | leave 4 h
    - Pull apart and cool in shallow trays in iced water.
      | work 15 min | leave 1 h
    pause up to 1 day, fridge
    - Heat in the oven, covered.
      | oven 180 C | leave 40 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				if !st.Warms || !st.SlowCooker() {
					continue
				}
				at := saidAt(st.Step, "slow cooker", "crockpot", "crock pot")
				if c := st.Clause(resolve.WordTool, resolve.WordIn); c != nil && speaksOf(strings.ToLower(c.Names().Text), "slow cooker") {
					at = c.Where()
				}
				if seen.again(at) {
					continue
				}
				p.common(p.Report(at, "a slow cooker is not for bringing food back")).
					WithHelp("heat it on the hob or in the oven first")
			}
		}
	},
}
