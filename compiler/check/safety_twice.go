package check

import "tamis/lang/diag"

var reheatTwice = &Rule{
	Code: "S107", Title: "Brought back twice.", Family: Safety, Severity: diag.Warning,
	What:    "Cooked food is chilled and heated, and then chilled and heated again.",
	Why:     "Each spell on the way down and up again gives germs time; food is brought back once.",
	Fix:     "Portion it before it is chilled and bring back only what is served, or leave one of the pauses out.",
	Sources: []string{"UK council advice to homes, as seen quoted"},
	Bad: `dish Mutton pot
  rules UK
  serves 6
  gather
    1 kg     lamb shoulder
    600 ml   water
  method
    - Simmer the lamb in the water.
      | ring low | leave 3 h
    - Cool in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat until piping hot.
      | ring medium | watch 15 min | core 75 C
    - Cool what is over in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat until piping hot again.
      | ring medium | watch 15 min | core 75 C
`,
	At: "19:9",
	Good: `dish Mutton pot
  rules UK
  serves 6
  gather
    1 kg     lamb shoulder
    600 ml   water
  method
    - Simmer the lamb in the water.
      | ring low | leave 3 h
    - Cool in iced water.
      | work 5 min | leave 1 h
    pause up to 1 day, fridge
    - Heat until piping hot.
      | ring medium | watch 15 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				back := st.After.Back
				if !st.Warms || len(back) < 2 || back[len(back)-1] != st || !recooked(st) || seen.again(heatAt(st)) {
					continue
				}
				p.common(p.Report(heatAt(st), "this brings the food back a second time")).
					See(heatAt(back[len(back)-2]), "the first time").
					WithHelp("bring back only what is served, or leave one of the pauses out")
			}
		}
	},
}
