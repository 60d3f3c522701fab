package check

import (
	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

// who are those who eat it.
func (d *plate) who() *hazard.Eaters {
	if d.eats == nil {
		d.eats = hazard.EatersOf(d.Trace, d.making, d.meal)
	}
	return d.eats
}

// rawFor is the severity of a finding about raw food: a hint for those who may
// choose, a warning where children, the old, the ill or the pregnant eat.
func (d *plate) rawFor() diag.Severity {
	if d.who().Frail {
		return diag.Warning
	}
	return diag.Hint
}

var choking = &Rule{
	Code: "S155", Title: "Something that small children may choke on.", Family: Safety, Severity: diag.Warning,
	What:    "The text is for children under five, and whole nuts, grapes, cherry tomatoes, olives, popcorn, round sausages, marshmallows or hard sweets are in it, and nothing cuts them small.",
	Why:     "What is round, hard or sticky blocks a small windpipe.",
	Fix:     "Cut round things lengthwise into quarters, grind nuts, and leave popcorn, marshmallows and hard sweets out.",
	Sources: []string{hazard.Find("choking").Source, "Lambeth Council, choking hazards"},
	Bad: `dish Nursery fruit bowl
  serves 8
  gather
    400 g    grapes
    3        bananas
  method
    - Mix the grapes with the bananas.
      | work 5 min
  serve cold
`,
	At: "4:14",
	Good: `dish Nursery fruit bowl
  serves 8
  gather
    400 g    grapes, quartered lengthwise
    3        bananas
  method
    - Mix the grapes with the bananas.
      | work 5 min
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if !d.who().Small {
				continue
			}
			for _, i := range d.Chokes() {
				at := i.Line.NameAt
				if seen.again(at) {
					continue
				}
				p.advised(p.Report(at, "small children may choke on the %s", i.Line.Name), hazard.Find("choking").Source).
					WithHelp("quarter round things lengthwise, grind nuts, and say so in the note; or leave them out for the smallest")
			}
		}
	},
}

var pregnancy = &Rule{
	Code: "S156", Title: "Not for the pregnant.", Family: Safety, Severity: diag.Warning,
	What:    "The text is for pregnant women, and mould-ripened or unpasteurised cheese that no step heats, liver or pâté, shark, swordfish or marlin, cold-smoked fish, raw sprouts or alcohol are in it.",
	Why:     "Listeria, too much vitamin A, mercury and alcohol harm the unborn.",
	Fix:     "Use another thing: hard or pasteurised soft cheese, cooked through, other fish.",
	Sources: []string{hazard.Find("pregnant").Source},
	Bad: `dish Lunch for expectant mothers
  serves 4
  gather
    200 g    chicken liver pâté
    8 slices bread
  method
    - Toast the bread and spread it with the pâté.
      | work 6 min
  serve cold
`,
	At: "4:14",
	Good: `dish Lunch for expectant mothers
  serves 4
  gather
    200 g    mature cheddar
    8 slices bread
  method
    - Toast the bread and top it with the cheddar.
      | work 6 min
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if !d.who().Pregnant {
				continue
			}
			for _, i := range d.End.Items {
				why := hazard.Unborn(i)
				if why == "" || seen.again(i.Line.NameAt) {
					continue
				}
				p.advised(p.Report(i.Line.NameAt, "the pregnant are told to leave the %s: %s", i.Line.Name, why), hazard.Find("pregnant").Source).
					WithHelp("use another thing, and ask a midwife or a doctor where in doubt")
			}
		}
	},
}
