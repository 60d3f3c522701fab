package check

import (
	"slices"
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// handRule is a hint where a step uses something that hurts cooks, and the text
// has no caution about it. The words of the caution are those of the sheets.
func handRule(code, finding, what, key, bad, at, good string) *Rule {
	c := hazard.Find(key)
	return &Rule{
		Code: code, Title: diag.Sentence(finding), Family: Safety, Severity: diag.Hint,
		What:    what + " The sheets print a caution of their own.",
		Why:     "Whoever stands there may never have done it before.",
		Fix:     "Write a `caution` in the margin of the step, in your own words.",
		Sources: []string{c.Source},
		Bad:     bad, At: at, Good: good,
		Check: func(p *Pass) {
			seen := once{}
			for _, d := range p.dishes() {
				hand := func(st *hazard.Stage) bool { return c.Hand(st) }
				said := func(st *hazard.Stage) bool { return hand(st) && st.Clause(resolve.WordCaution) != nil } // once for every such step
				if i := slices.IndexFunc(d.Stages, hand); i >= 0 && !slices.ContainsFunc(d.Stages, said) {
					st := d.Stages[i]
					at := handAt(st, c)
					if seen.again(at) {
						continue
					}
					p.Report(at, "%s, and the text has no caution", finding).
						Because("%s %s", p.rule.Why, comeFirst).
						WithHelp("write `| caution` with what to mind; the sheets print: %s", c.Text)
				}
			}
		},
	}
}

// handAt is the tool's clause, else the words that speak of it.
func handAt(st *hazard.Stage, c *hazard.Caution) span {
	for _, cl := range st.Step.Margin {
		switch cl.(type) {
		case *resolve.WithTool, *resolve.InVessel:
			if speaksOf(strings.ToLower(cl.Names().Text), c.Words...) {
				return cl.Where()
			}
		}
	}
	return saidAt(st.Step, c.Words...)
}

var handRules = []*Rule{
	handRule("S130", "a mandoline or a slicer is used", "A step uses a mandoline or a slicer.", "mandoline", `dish Potato bake
  serves 4
  gather
    800 g    potatoes, peeled
    300 ml   double cream
  method
    - Slice the potatoes thinly.
      | tool mandoline | work 8 min
    - Layer the potatoes with the cream and bake.
      | oven 170 C | work 5 min | leave 1 h 10 min
`, "8:9", `dish Potato bake
  serves 4
  gather
    800 g    potatoes, peeled
    300 ml   double cream
  method
    - Slice the potatoes thinly.
      | tool mandoline | work 8 min | caution guard on, stop before the stub
    - Layer the potatoes with the cream and bake.
      | oven 170 C | work 5 min | leave 1 h 10 min
`),
	handRule("S131", "something is deep-fried", "A step fries in deep fat.", "deep fat", `dish Fritters
  serves 4
  gather
    400 g    courgettes, in sticks
    1 litre  rapeseed oil
  method
    - Deep-fry the courgettes in the rapeseed oil until crisp.
      | ring high | watch 12 min
`, "7:7", `dish Fritters
  serves 4
  gather
    400 g    courgettes, in sticks
    1 litre  rapeseed oil
  method
    - Deep-fry the courgettes in the rapeseed oil until crisp.
      | ring high | watch 12 min | caution pan half full at most, never left
`),
	handRule("S132", "sugar is boiled", "A step boils sugar to caramel or to a hot syrup.", "sugar", `dish Caramel sauce
  serves 4
  gather
    200 g    caster sugar
    150 ml   double cream
  method
    - Cook the sugar to a dark caramel and stop it with the cream.
      | ring medium | watch 10 min
`, "7:32", `dish Caramel sauce
  serves 4
  gather
    200 g    caster sugar
    150 ml   double cream
  method
    - Cook the sugar to a dark caramel and stop it with the cream.
      | ring medium | watch 10 min | caution it spits when the cream goes in
`),
	handRule("S133", "something hot goes into a blender", "A step blends what has just been heated, in a jug with a lid.", "blender", `dish Carrot soup
  serves 4
  gather
    800 g    carrots, sliced
    1 litre  water
  method
    - Simmer the carrots in the water, covered.
      | ring low | leave 25 min
    - Blend until smooth.
      | tool blender | work 5 min
`, "10:9", `dish Carrot soup
  serves 4
  gather
    800 g    carrots, sliced
    1 litre  water
  method
    - Simmer the carrots in the water, covered.
      | ring low | leave 25 min
    - Blend until smooth.
      | tool blender | work 5 min | caution half full, lid vented
`),
	handRule("S134", "a pressure cooker is used", "A step uses a pressure cooker.", "pressure cooker", `dish Chickpeas
  serves 4
  gather
    300 g    dried chickpeas
    1 litre  water
  method
    - Cook the chickpeas in the water in the pressure cooker.
      | ring medium | leave 40 min
`, "7:46", `dish Chickpeas
  serves 4
  gather
    300 g    dried chickpeas
    1 litre  water
  method
    - Cook the chickpeas in the water in the pressure cooker.
      | ring medium | leave 40 min | caution open it only when it has blown off
`),
	handRule("S135", "a blowtorch is used", "A step uses a blowtorch.", "blowtorch", `dish Scorched meringue
  serves 4
  gather
    100 g    pasteurised egg white
    200 g    caster sugar
  method
    - Whisk the egg white with the sugar until stiff.
      | work 10 min
    - Scorch with a blowtorch.
      | work 3 min
`, "9:21", `dish Scorched meringue
  serves 4
  gather
    100 g    pasteurised egg white
    200 g    caster sugar
  method
    - Whisk the egg white with the sugar until stiff.
      | work 10 min
    - Scorch with a blowtorch.
      | work 3 min | caution metal tray, nothing near that burns
`),
}
