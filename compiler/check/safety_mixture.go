package check

import (
	"time"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var mixtureLong = &Rule{
	Code: "S115", Title: "A mixture that keeps longer than one of its parts.", Family: Safety, Severity: diag.Warning,
	What:    "A dish or a base is said to keep longer than a base or a prepared thing in it, which is not heated again.",
	Why:     "A mixture is no younger than its oldest part.",
	Fix:     "Give it the time of the part that keeps the shortest.",
	Sources: []string{"FDA Food Code 2022, 3-501.17(D), as states adopt it"},
	Bad: `base Trout filling
  rules US
  makes 500 g
  keeps 4 days, fridge
  gather
    300 g    smoked trout fillets
    200 g    dill cream
  method
    - Fold the trout into the dill cream.
      | work 5 min

base Dill cream
  makes 200 g
  keeps 2 days, fridge
  gather
    180 ml   soured cream
    20 g     dill leaves
  method
    - Stir the dill into the soured cream.
      | work 5 min
`,
	At: "4:3",
	Good: `base Trout filling
  rules US
  makes 500 g
  keeps 2 days, fridge
  gather
    300 g    smoked trout fillets
    200 g    dill cream
  method
    - Fold the trout into the dill cream.
      | work 5 min

base Dill cream
  makes 200 g
  keeps 2 days, fridge
  gather
    180 ml   soured cream
    20 g     dill leaves
  method
    - Stir the dill into the soured cream.
      | work 5 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, s := range d.stays() {
				part := shortest(s, d)
				if part == nil || seen.again(s.at) {
					continue
				}
				at := part.Line.NameAt
				keep, _ := keepOf(part)
				p.cite(p.Report(s.at, "this keeps %s, and the %s in it %s", lengthOf(s.time), part.Line.Name, lengthOf(keep)), d.choice.Rule("mix", "any"), d.choice.Rule("mix", "any").Shortest()).
					See(at, "it is gathered here").
					WithHelp("write %s or less", lengthOf(keep))
			}
		}
	},
}

// shortest is the base in a mixture that keeps the shortest in the same place,
// if that is less than the mixture and nothing heats it after it was added.
func shortest(s stay, d *plate) (least *hazard.Item) {
	for _, i := range s.pot.Items {
		keep, place := keepOf(i)
		if keep == 0 || place != s.place || keep >= s.time || !s.pot.Grows() || d.heatedWith(i) {
			continue
		}
		if least != nil {
			if now, _ := keepOf(least); now <= keep {
				continue
			}
		}
		least = i
	}
	return least
}

// keepOf is how long and where a part keeps: the base that it is, or the line
// once it is prepared. 0: nobody says.
func keepOf(i *hazard.Item) (time.Duration, string) {
	if from := i.Line.From; from != nil && from.Keeps != nil {
		return from.Keeps.Time.High, from.Keeps.Place
	}
	if k := i.Line.Keeps; k != nil {
		return longestOf(&k.Time), k.Place
	}
	return 0, ""
}

// heatedWith tells whether a step of this recipe heats an item.
func (d *plate) heatedWith(i *hazard.Item) bool {
	for _, st := range d.Stages {
		if st.Heats && st.After.Contains([]*hazard.Item{i}) {
			return true
		}
	}
	return false
}
