package check

import (
	"tamis/lang/diag"
)

var reheatLow = &Rule{
	Code: "S106", Title: "Brought back to less than the limit.", Family: Safety, Severity: diag.Warning,
	What:    "Food that was cooked and chilled is heated again to less than the published figure of the rules.",
	Why:     "What has grown while it stood lives through lukewarm.",
	Fix:     "Raise the `core` of the step that heats it.",
	Sources: []string{"UK Food Standards Agency cooking guidance, as seen quoted", "Food Hygiene (Scotland) Regulations 2006 Sch. 4 para 3", "FDA Food Code 2022, 3-403.11(A), as states adopt it", "University of Illinois extension"},
	Bad: `dish Beef stew
  rules Scotland
  serves 4
  gather
    800 g    braising beef
    500 ml   water
  method
    - Simmer the beef in the water until tender.
      | ring low | leave 2 h 30 min
    - Spread in shallow trays and cool in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat through, stirring.
      | ring medium | watch 10 min | core 75 C
`,
	At: "14:38",
	Good: `dish Beef stew
  rules Scotland
  serves 4
  gather
    800 g    braising beef
    500 ml   water
  method
    - Simmer the beef in the water until tender.
      | ring low | leave 2 h 30 min
    - Spread in shallow trays and cool in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat through, stirring.
      | ring medium | watch 10 min | core 82 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for i, st := range d.Stages {
				if !st.Warms || !recooked(st) || st.Boils() && st.Step.Core == nil {
					continue
				}
				r, atHome := d.reheatRule(i)
				core := d.laterCore(i)
				if core == nil || len(r.Sets) == 0 {
					continue
				}
				l := r.Short(*core.Step.Core.Temp, coreTime(core.Step.Core))
				if l == nil || seen.again(core.Step.Core.Span) {
					continue
				}
				p.citeReheat(p.ReportAs(softer(diag.Warning, r), core.Step.Core.Span, "what is brought back wants %s in the middle", l.Core()), r, l, atHome).
					WithHelp("write `core %s`", coreText(r, l))
			}
		}
	},
}
