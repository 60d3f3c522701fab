package check

import (
	"slices"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// filmedWait is the wait after which nobody goes on filming on the same day: common practice,
// no source.
const filmedWait = 4 * time.Hour

// waitsOnCamera finds what a filmed part cannot wait for: a dish stands for hours or days, and
// no copy stands ready that has it behind it. A series is filmed where it has copies at all.
var waitsOnCamera = &Rule{
	Code: "M117", Title: "A wait too long for a day of filming.", Family: Menu, Severity: diag.Hint,
	What:    "A series has copies that stand ready; a dish it shows stands for four hours or more, is worked at again after that, and no copy of it stands ready from there.",
	Why:     "The running order cuts there, and on that day there is nothing to go on with.",
	Fix:     "Name what the step gives (`makes set pie`) and write `copies 1 of ..., as set pie` in the part.",
	Bad:     filmed(""),
	At:      "2:10",
	Good:    filmed("    copies 1 of Jelly, as set jelly\n"),
	Sources: []string{"common practice, no source"},
	After:   Demanded,
	Whole:   true,
	Check: func(p *Pass) {
		for _, s := range p.Series {
			copies := false
			for _, part := range s.Parts {
				copies = copies || len(part.StandIns) > 0
			}
			for _, part := range s.Parts {
				if !copies || s.EatenWith(part.Of) { // for the meal work begins on the days before
					continue
				}
				for _, m := range part.Shown {
					if !keptForMeal(s, part, m) {
						p.waitsIn(part, m)
					}
				}
			}
		}
	},
}

// keptForMeal tells whether a dish of a part is finished at the meal, and waits until then.
func keptForMeal(s *demand.Series, part *demand.Part, m *demand.Making) bool {
	return slices.ContainsFunc(s.Carries, func(c *demand.Carry) bool {
		return c.From == part && c.To == nil && c.Supply == nil && c.Making == m
	})
}

// waitsIn reports the first wait of a dish that its part has no copy for.
func (p *Pass) waitsIn(part *demand.Part, m *demand.Making) {
	steps := m.Reading.Steps
	for i, sr := range steps {
		if i+1 == len(steps) || !worked(steps[i+1:]) {
			return
		}
		for _, sp := range sr.Step.Phases {
			if len(sr.Step.If) > 0 || sp.Kind != resolve.Leave || sp.Fixed == nil || sp.Fixed.Low < filmedWait || caught(part, m.Recipe, sr.Step) {
				continue
			}
			p.Report(part.Of.NameAt, "%s waits %s in step %d, and part %d has no copy that has waited", m.Recipe.Name, quantity.TimeText(sp.Fixed.Low), i+1, part.Of.Number).
				See(sr.Step.Span, "here").
				WithHelp("give what this step makes a name, `makes ...`, and write `copies 1 of %s, as ...` in the part", m.Recipe.Name)
			return
		}
	}
}

// worked tells whether hands are wanted in some of the steps.
func worked(steps []*resolve.StepReading) bool {
	for _, sr := range steps {
		for _, sp := range sr.Step.Phases {
			if sp.Kind != resolve.Leave {
				return true
			}
		}
	}
	return false
}

// caught tells whether a copy of a part has a step behind it.
func caught(part *demand.Part, r *resolve.Recipe, step *resolve.Step) bool {
	for _, c := range part.StandIns {
		if c.Recipe == r && (c.StandIn.Moment == nil || c.StandIn.Moment.Step.Index >= step.Index) {
			return true
		}
	}
	return false
}

// filmed is a series with a copy of one dish, and one of another if that is said.
func filmed(copies string) string {
	makes := ""
	if copies != "" {
		makes = " | makes set jelly"
	}
	return `series Two evenings
  part 1 Jelly
    shows Jelly
` + copies + `    date 2027-03-04
  part 2 Onions
    shows Slow onions
    date 2027-03-05
    copies 1 of Slow onions
larder
  units metric
dish Jelly
  serves 4
  gather
    500 ml   apple juice
    8 g      leaf gelatine
  method
    - Melt the leaf gelatine in the apple juice. | ring low | work 5 min
    - Let it set. | stand 6 h, up to 1 day, fridge` + makes + `
    - Turn it out. | work 2 min
  serve cold, within 20 min
dish Slow onions
  serves 4
  gather
    1 kg     onions
  method
    - Cook the onions, covered. | ring low | work 2 min | leave 40 min
    - Spread on a plate. | work 1 min
`
}
