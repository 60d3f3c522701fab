package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

// The conditions of claims to have little or nothing of a nutrient, in grams in 100 g of a
// food: Regulation (EC) 1924/2006, Annex, as seen in a university's table of it; its salt is
// 2.5 times the sodium that the Annex names, 0.12 g and 0.005 g (low sodium from memory).
const (
	lowSugar, noSugar = 5.0, 0.5
	lowSalt, noSalt   = 0.3, 0.0125
	lowFat, noFat     = 3.0, 0.5
)

// nutrient is what a claim is about, with its limits and what of it things bring.
type nutrient struct {
	name    string
	words   []string // as the claims name it
	low, no float64
	of      []share
	drains  bool // some of it goes away with the water
}

// share is about how much of a thing is a nutrient, by weight. From memory, and rounded
// down; what is not listed counts as none, so what comes out is the least there can be.
type share struct {
	words []string
	of    float64
	not   []string
}

var nutrients = []nutrient{
	{name: "sugar", words: []string{"sugar", "sugars"}, low: lowSugar, no: noSugar, of: []share{
		{words: []string{"condensed milk"}, of: 0.5},
		{words: []string{"honey", "syrup", "treacle", "molasses", "nectar", "dulce de leche", "cordial"}, of: 0.6, not: []string{"sugar-free", "honeydew", "honey mushroom"}},
		{words: []string{"jam", "marmalade", "jelly", "curd", "fudge", "toffee", "caramel", "nougat", "marshmallows", "sweets"}, of: 0.4, not: []string{"sugar-free", "bean curd", "milk curd", "jam sugar"}},
		{words: []string{"milk chocolate", "white chocolate"}, of: 0.4},
		{words: []string{"sugar", "jaggery", "panela", "piloncillo", "muscovado", "demerara", "dextrose", "glucose", "fructose"}, of: 0.9, not: []string{"sugar-free", "sugar snap", "sugar snaps", "sugar thermometer", "no sugar", "substitute"}},
	}},
	{name: "salt", words: []string{"salt", "sodium"}, low: lowSalt, no: noSalt, drains: true, of: []share{
		{words: []string{"soy sauce", "soya sauce", "tamari", "shoyu"}, of: 0.1, not: []string{"low-salt", "reduced-salt", "low-sodium"}},
		{words: []string{"fish sauce", "shrimp paste", "anchovy paste", "anchovies"}, of: 0.1},
		{words: []string{"miso", "doubanjiang"}, of: 0.08},
		{words: []string{"stock cube", "stock cubes", "bouillon powder", "stock powder", "bouillon cube", "bouillon cubes"}, of: 0.3, not: []string{"low-salt", "no-salt", "reduced-salt", "low-sodium"}},
		{words: []string{"salt"}, of: 0.95, not: []string{"low-salt", "salt-free", "salt substitute", "salt cod", "salt beef", "salt pork", "salt and pepper", "celery salt", "garlic salt", "no salt"}},
	}},
	{name: "fat", words: []string{"fat"}, low: lowFat, no: noFat, of: []share{
		{words: []string{"butter", "margarine"}, of: 0.7, not: []string{"peanut butter", "almond butter", "butter bean", "butter beans", "cocoa butter", "butternut", "low-fat", "apple butter"}},
		{words: []string{"oil", "ghee", "lard", "dripping", "suet", "shortening", "duck fat", "goose fat", "beef fat"}, of: 0.9, not: []string{"oil-free", "in oil"}},
		{words: []string{"double cream", "heavy cream", "whipping cream", "mayonnaise", "clotted cream"}, of: 0.3, not: []string{"low-fat", "fat-free", "light"}},
	}},
}

var lowClaim = &Rule{
	Code: "A106", Title: "A word for little or no sugar, salt or fat, and the list has more.", Family: Allergens, Severity: diag.Warning,
	What:    "A title, a course or a sentence of `about` says low in sugar, salt or fat, or without them, and what is gathered brings more than a food that is sold with that word may have, also through bases. What dishes lose in cooking is not counted, nor salt that may go away with the water.",
	Why:     "Some people have to live by that word.",
	Fix:     "Take the word out, or use less.",
	Sources: []string{"Regulation (EC) 1924/2006, Annex, as seen in a university's table of it", noSource},
	Bad: `dish Low-salt greens
  serves 4
  gather
    500 g    pak choi
    60 ml    soy sauce
  method
    - Steam the pak choi and pour over the soy sauce.
      | ring high | watch 5 min
`,
	At: "1:6",
	Good: `dish Low-salt greens
  serves 4
  gather
    500 g    pak choi
    20 ml    lime juice
  method
    - Steam the pak choi and pour over the lime juice.
      | ring high | watch 5 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			d.askLow(p, p.rule.Severity, d.recipe.Name, d.recipe.NameAt, seen)
			if a := d.recipe.About; a != nil {
				for _, s := range statements(a.Text) {
					d.askLow(p, diag.Question, s.Text, s.Span, seen)
				}
			}
			if d.making != nil && d.making.Serving != nil {
				c := d.making.Serving.Course
				d.askLow(p, p.rule.Severity, c.Name, c.NameAt, seen)
				if d.meal != nil && d.meal.Menu != nil {
					d.askLow(p, p.rule.Severity, d.meal.Menu.Name, d.meal.Menu.NameAt, seen)
				}
			}
		}
	},
}

// askLow compares a text that says low in something, or without it, with the list.
func (d *plate) askLow(p *Pass, sev diag.Severity, text string, at span, seen once) {
	low := strings.ToLower(text)
	if strings.Contains(low, "not ") {
		return
	}
	for _, n := range nutrients {
		limit, said := n.claimed(low)
		if said == "" {
			continue
		}
		grams, all, most := n.in(d)
		if most == nil || all <= 0 || grams*100/all <= limit || seen.again(at) {
			continue
		}
		p.ReportAs(sev, at, "this says %s, and %s alone is %s in the %s of what goes in", said, nameOfItem(most), gramText(n.brings(most)), gramText(all)).
			Because("%s A food sold with that word has at most %s of %s in 100 g (Regulation (EC) 1924/2006, Annex, as seen in a university's table of it). %s", p.rule.Why, gramText(limit), n.name, comeFirst).
			See(most.Line.NameAt, "gathered here").
			WithHelp("take the word out, or use less")
	}
}

// claimed is the limit that a text in small letters puts on itself, and its words.
func (n *nutrient) claimed(low string) (limit float64, said string) {
	low = strings.ReplaceAll(low, "-", " ")
	for _, w := range n.words {
		for _, s := range []string{w + " free", w + "less", "no " + w, "no added " + w, "without " + w, "without added " + w, "without any " + w, "without any added " + w, "free from " + w, "free of " + w, "zero " + w, "zero added " + w, "nil " + w} {
			if speaksOf(low, s) {
				return n.no, s
			}
		}
		for _, s := range []string{"low " + w, "lower " + w, "low in " + w, "low in added " + w, "very low in " + w, "little " + w, "poor in " + w, "hardly any " + w} {
			if speaksOf(low, s) {
				return n.low, s
			}
		}
	}
	if n.name == "sugar" && speaksOf(low, "unsweetened") {
		return n.no, "unsweetened"
	}
	return 0, ""
}

// in is the least there is of a nutrient in what goes in, and how much goes in at all,
// in grams, with the thing that brings the most of it. Salt is not counted where a step
// drains: it may have been that of the water.
func (n *nutrient) in(d *plate) (grams, all float64, most *hazard.Item) {
	drained := n.drains && d.Tells("lift pot")
	for _, i := range d.End.Items {
		g := n.brings(i)
		if drained && isSalt(i) {
			g = 0
		}
		grams += g
		all += i.Grams()
		if g > 0 && (most == nil || g > n.brings(most)) {
			most = i
		}
	}
	return grams, all, most
}

// brings is the least that a thing brings of a nutrient, in grams.
func (n *nutrient) brings(i *hazard.Item) float64 {
	name := strings.ToLower(i.Name + ", " + i.Line.Note.Text)
	for _, s := range n.of {
		if speaksOf(name, s.words...) && !speaksOf(name, s.not...) {
			return i.Grams() * s.of
		}
	}
	return 0
}

// nameOfItem names a thing, and what it comes in.
func nameOfItem(i *hazard.Item) string {
	if i.Base != nil {
		return i.Name + ", in the " + i.Line.Name + ","
	}
	return i.Line.Name
}
