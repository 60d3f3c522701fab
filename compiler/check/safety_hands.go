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
				for _, st := range d.Stages {
					if !c.Hand(st, d.size()) {
						continue
					}
					if warnedOfHands(st, c, d.size()) {
						break // said once for every such step that follows
					}
					at := handAt(st, c)
					if seen.again(at) {
						break
					}
					p.Report(at, "%s, and the text has no caution", finding).
						Because("%s %s", p.rule.Why, comeFirst).
						WithHelp("write `| caution` with what to mind; the sheets print: %s", c.Text)
					break
				}
			}
		},
	}
}

// size is how many times the written size is made.
func (d *plate) size() float64 {
	if d.making == nil {
		return 1
	}
	return d.making.Factor.Float()
}

// warnedOfHands tells whether the step itself has a caution of this: any, where the
// step calls for no other, else one that speaks of it.
func warnedOfHands(st *hazard.Stage, c *hazard.Caution, size float64) bool {
	said := cautionsOf(st)
	if len(said) == 0 {
		return false
	}
	only := true
	for _, o := range hazard.Cautions() {
		only = only && (o == c || !o.Hand(st, size))
	}
	return only || slices.ContainsFunc(said, func(s string) bool { return speaksOf(strings.ToLower(s), c.Speaks...) })
}

// handAt is the tool's clause, else the words that speak of it.
func handAt(st *hazard.Stage, c *hazard.Caution) span {
	for _, cl := range st.Step.Margin {
		switch cl.(type) {
		case *resolve.WithTool, *resolve.InVessel:
			low := strings.ToLower(cl.Names().Text)
			if speaksOf(low, c.Words...) || slices.ContainsFunc(c.Signs, hazard.SignsOf(low).Tell) {
				return cl.Where()
			}
		}
	}
	words := slices.Clone(c.Words)
	for _, sign := range c.Signs {
		if said := st.SaidBy(sign); said != "" {
			words = append(words, said)
		}
	}
	return saidAt(st.Step, words...)
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
	handRule("S160", "spirit is set alight", "A step pours spirit into a hot pan and lights it, or warms it and lights it.", "flambé", `dish Flamed bananas
  serves 4
  gather
    4        bananas
    50 ml    rum
    30 g     butter
  method
    - Fry the bananas in the butter, add the rum and set it alight.
      | ring high | watch 6 min
`, "8:54", `dish Flamed bananas
  serves 4
  gather
    4        bananas
    50 ml    rum
    30 g     butter
  method
    - Fry the bananas in the butter, add the rum and set it alight.
      | ring high | watch 6 min | caution pan off the flame, lid at hand
`),
	handRule("S161", "water or wet food goes into hot fat", "A step pours water into smoking fat, or drops wet or icy food into it.", "water in fat", `dish Crisp-bottomed dumplings
  serves 4
  gather
    24       dumplings
    40 ml    sunflower oil
    120 ml   water
  method
    - Colour the dumplings in smoking oil, then pour in the water at once and cover.
      | ring high | watch 8 min
`, "8:49", `dish Crisp-bottomed dumplings
  serves 4
  gather
    24       dumplings
    40 ml    sunflower oil
    120 ml   water
  method
    - Colour the dumplings in smoking oil, then pour in the water at once and cover.
      | ring high | watch 8 min | caution it spits: heat down first, lid at hand
`),
	handRule("S162", "a heavy pot of hot food is lifted or drained", "A step lifts, carries or drains more than 16 kg of what is hot, at the size that is made.", "heavy pot", `dish Pasta for the hall
  serves 80
  gather
    8 kg     penne
    50 litres water
  method
    - Boil the penne in the water and drain it.
      | ring high | leave 12 min
`, "7:39", `dish Pasta for the hall
  serves 80
  gather
    8 kg     penne
    50 litres water
  method
    - Boil the penne in the water and drain it.
      | ring high | leave 12 min | caution two lift, or ladle it out
`),
	handRule("S163", "lye or lime is handled", "A step handles lye, caustic soda or slaked lime.", "caustic", `dish Lye rolls
  serves 8
  gather
    8        bread rolls, unbaked
    30 g     lye
    1 litre  water
  method
    - Dissolve the lye in the water, dip the bread rolls and bake.
      | oven 220 C | work 10 min | leave 15 min
`, "8:20", `dish Lye rolls
  serves 8
  gather
    8        bread rolls, unbaked
    30 g     lye
    1 litre  water
  method
    - Dissolve the lye in the water, dip the bread rolls and bake.
      | oven 220 C | work 10 min | leave 15 min | caution gloves and goggles, lye into water
`),
	handRule("S164", "dry ice or liquid nitrogen is handled", "A step handles dry ice or liquid nitrogen.", "dry ice", `dish Misty punch
  serves 10
  gather
    3 litres apple juice
    400 g    dry ice
  method
    - Drop the dry ice into the apple juice.
      | work 3 min
`, "7:16", `dish Misty punch
  serves 10
  gather
    3 litres apple juice
    400 g    dry ice
  method
    - Drop the dry ice into the apple juice.
      | work 3 min | caution gloves, window open, nothing poured until it is all gone
`),
	handRule("S165", "coals burn indoors", "A step lights coals or a barbecue in a room, a tent or a garage.", "coals indoors", `dish Grilled peppers
  serves 4
  gather
    6        red peppers
  method
    - Light the charcoal in the kitchen and char the peppers over it.
      | watch 15 min
`, "6:7", `dish Grilled peppers
  serves 4
  gather
    6        red peppers
  method
    - Light the charcoal in the garden and char the peppers over it.
      | watch 15 min
`),
	handRule("S166", "hot chillies are cut with bare hands", "A step cuts many hot chillies, or any with bare hands.", "hot chillies", `dish Chilli paste
  serves 4
  gather
    200 g    habaneros
    60 ml    vinegar
  method
    - Seed and chop the habaneros and pound them with the vinegar.
      | work 20 min
`, "7:7", `dish Chilli paste
  serves 4
  gather
    200 g    habaneros
    60 ml    vinegar
  method
    - Seed and chop the habaneros and pound them with the vinegar.
      | work 20 min | caution gloves, no hand to the eyes
`),
	handRule("S167", "glass meets sudden heat or cold", "A step takes a glass dish from the freezer to the heat, fills boiling food into cold jars, or sets hot glass on what is cold.", "glass", `base Plum jam
  makes 1.8 kg
  gather
    1 kg     plums
    1 kg     sugar
  method
    - Boil the plums with the sugar to a set.
      | ring high | watch 20 min
    - Ladle it boiling into cold jars.
      | work 10 min
`, "9:24", `base Plum jam
  makes 1.8 kg
  gather
    1 kg     plums
    1 kg     sugar
  method
    - Boil the plums with the sugar to a set.
      | ring high | watch 20 min
    - Ladle it boiling into warm jars.
      | work 10 min
`),
}
