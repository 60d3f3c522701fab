package check

import (
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var kidneyBeans = &Rule{
	Code: "S117", Title: "Dried kidney beans not soaked, or not boiled hard.", Family: Safety, Severity: diag.Warning,
	What:    "Dried beans of the kidney kind are cooked without a soak, without a hard boil of the published length, or in a slow cooker from raw.",
	Why:     "They hold a poison that a soak and a hard boil undo, and that gentle heat makes worse.",
	Fix:     "Soak them overnight, throw the water away, and boil them hard in fresh water before anything else.",
	Sources: []string{"US Food and Drug Administration advice, as seen quoted"},
	Bad: `dish Bean pot
  serves 6
  gather
    500 g    dried red kidney beans
    2 litres water
  method
    - Cover the kidney beans with the water and simmer gently, covered.
      | ring low | work 3 min | leave 2 h
`,
	At: "4:14",
	Good: `dish Bean pot
  serves 6
  gather
    500 g    dried red kidney beans
    2 litres water
  method
    - Soak the kidney beans in cold water.
      | work 2 min | stand overnight, room
    - Throw the water away and boil hard in the water, uncovered.
      | ring high | work 2 min | leave 30 min
    - Simmer until soft, covered.
      | ring low | leave 1 h
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, i := range d.End.Items {
				if i.Base == nil && i.DriedBeans() && !seen.again(i.Line.NameAt) {
					askBeans(p, d, i)
				}
			}
		}
	},
}

func askBeans(p *Pass, d *plate, i *hazard.Item) {
	soak, boil := d.choice.Rule("soak beans", "kidney beans"), d.choice.Rule("boil beans", "kidney beans")
	ls, lb := soak.Longest(), boil.Longest()
	soaked := strings.Contains(strings.ToLower(i.Line.Note.Text), "soak")
	boiled := time.Duration(0)
	for _, st := range d.Stages {
		if !st.After.Contains([]*hazard.Item{i}) {
			continue
		}
		if st.SlowCooker() && boiled < lb.Time {
			p.cite(p.Report(heatAt(st), "dried beans are boiled hard before they go into a slow cooker"), boil, lb).
				WithHelp("boil them hard for %s in fresh water first", lb.Length())
			return
		}
		if c := st.Spell(resolve.WordStand, resolve.WordLeave, resolve.WordRest); c != nil && st.Says("soak", "soaked") && longestOf(c.Fixed) >= ls.Time {
			soaked = true
		}
		if st.Boils() && st.Says("boil", "boiling", "boils") && !st.Says("bring to the boil", "comes to the boil") || st.Heats && st.Step.Level == "high" {
			boiled += max(st.Time, st.SaidTimeOf("boil", "boils", "boiling", "boiled"))
		}
	}
	at := i.Line.NameAt
	switch {
	case !soaked:
		p.cite(p.Report(at, "nothing soaks %s for %s", "the "+i.Line.Name, ls.Length()), soak, ls).
			WithHelp("add a step: `- Soak the %s in cold water, and throw the water away. | stand overnight, room`", i.Line.Name).
			WithHelp("then boil hard for %s in fresh water", lb.Length())
	case boiled < lb.Time && len(d.Stages) > 0:
		p.cite(p.Report(at, "nothing boils %s hard for %s", "the "+i.Line.Name, lb.Length()), boil, lb).
			WithHelp("add a step: `- Boil hard in fresh water. | ring high | leave %s`", lengthOf(lb.Time))
	}
}
