package check

import (
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// readingRules explain what reading an amount, a time or a temperature
// reports. The table of package quantity has the line that is wrong and the
// one that is right; here each becomes a file.
var readingRules = func() (out []*Rule) {
	for _, h := range quantity.CodeTable() {
		more, ok := readingMore[h.Code]
		if !ok {
			continue // a later pass says it under a code of its own
		}
		r := &Rule{
			Code: h.Code, Title: h.Title, Family: Amounts, Severity: diag.Error,
			What: h.Text, Why: more.why, Fix: more.fix, Bad: more.bad, At: more.at, Good: more.good,
			Sources: []string{"the Tamis notation, 2.4"},
		}
		if more.hint {
			r.Severity = diag.Hint
		}
		if more.ask {
			r.Severity = diag.Question
		}
		before, after, at := "", "", ""
		switch h.Code[1] {
		case '1':
			before, after, at = "dish A\n  units metric\n  gather\n    ", "\n", "4:5"
		case '2':
			before, after, at = "dish A\n  method\n    - Wait. | leave ", "\n", "3:21"
			r.Sources[0] = "the Tamis notation, 2.5"
		case '3':
			before, after, at = "dish A\n  method\n    - Bake. | oven ", " | leave 20 min\n", "3:20"
			r.Sources[0] = "the Tamis notation, 2.5"
		}
		if r.Bad == "" {
			r.Bad, r.Good = before+h.Wrong+after, before+h.Right+after
		}
		if r.At == "" {
			r.At = at
		}
		if r.Fix == "" {
			r.Fix = "Write such as `" + h.Right + "`."
		}
		out = append(out, r)
	}
	return out
}()

// moreWords is what the table of package quantity does not say: why it
// matters, and where an example is not simply a line of a list.
type moreWords struct {
	why, fix string
	bad, at  string
	good     string
	ask      bool
	hint     bool
}

var readingMore = map[string]moreWords{
	"Q101": {why: "The cook would have to guess which of the two counts the tins."},
	"Q102": {why: "A kilogram and a half becomes fifteen, or a thousand becomes one."},
	"Q103": {why: "Read as it stands it means less than it begins with."},
	"Q105": {why: "It is most often two figures that ran together."},
	"Q106": {why: "The figure cannot be weighed out as it stands."},
	"Q107": {why: "Ten times too much of one thing spoils a whole pot."},
	"Q108": {why: "Three salads and one salad of three beans are different shopping.", fix: "Write the figure, such as `3 bean salads`, or put quotes round a name.", ask: true},
	"Q109": {why: "The shopping list must say a figure.", hint: true, fix: "Write the figure alone, or a range such as `180 to 220 g flour`."},
	"Q110": {why: "Nobody can buy it."},
	"Q111": {why: "Cups of cakes and little cakes are not bought in the same shop.", fix: "Write such as `2 sticks cinnamon`, or put quotes round the name: `4 \"cup cakes\"`.", at: "4:7"},
	"Q112": {why: "A tablespoon is three teaspoons; one stroke of the pen decides which.", at: "4:7"},
	"Q113": {why: "One tin of 400 g, 400 of them and 400 g out of a tin are three shopping lists."},
	"Q114": {why: "The amounts differ by as many times as there are packages."},
	"Q115": {why: "Half of the readers will cook with the one figure and half with the other.", fix: "Correct one of the two, or leave the second out.", ask: true},
	"Q116": {why: "The sum would be neither."},
	"Q117": {
		why: "Amounts by the head are worked out from the covers of the menu.", fix: "Write `per cover`, or `per 4 covers`.",
		bad: "dish A\n  serves 6\n  gather\n    120 g per 0 covers beef\n", at: "4:15",
		good: "dish A\n  serves 6\n  gather\n    120 g per cover beef\n",
	},
	"Q118": {why: "A unit is scaled and left out of the name; a part of the name is bought.", fix: "Write a unit that is known, such as `3 sprigs dill`, or `frond | measure` in the larder.", ask: true, at: "4:7"},
	"Q119": {why: "With the dash it reads as the beginning of a name."},
	"Q121": {why: "It would stand on the list and never be weighed.", fix: "Take the line out, or write how much it is."},
	"Q122": {why: "Two units in one range may be two amounts."},
	"Q123": {why: "Only one of the two would be bought.", fix: "Write a line for each.", at: "4:11"},
	"Q124": {why: "What is not kept is not on the sheets.", at: "4:7"},
	"Q125": {why: "Six hundred grams would be a thing called 6OO, and nothing would be weighed.", ask: true},
	"Q201": {why: "Forty minutes and forty hours are both found in kitchens."},
	"Q202": {why: "It may be two times."},
	"Q203": {why: "It is most often a slip of the unit."},
	"Q204": {why: "Nobody can tell which end was meant."},
	"Q205": {why: "The planner may choose between the two, and there is nothing to choose."},
	"Q301": {why: "200 C and 200 F are a hot oven and one that dries fruit."},
	"Q302": {why: "The letter tells the scale.", at: "3:24"},
	"Q303": {why: "Below zero the dash is a minus."},
	"Q304": {why: "Nobody can tell which end was meant."},
	"Q305": {why: "No oven and few probes keep to less than a degree."},
	"Q306": {why: "A slip in a temperature ruins the dish, or burns somebody."},

	"Q403": {
		why: "A pint is 473 ml in one country and 568 ml in another.",
		fix: "Write millilitres, or say whose pint it is: `units imperial`.",
		bad: "dish A\n  units metric\n  gather\n    1 pint milk\n", at: "4:5",
		good: "dish A\n  units imperial\n  gather\n    1 pint milk\n",
	},
}
