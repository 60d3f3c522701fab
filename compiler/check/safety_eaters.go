package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// eaters are those who eat a dish, as far as the text says.
type eaters struct {
	infants  bool // not a year old
	small    bool // under five
	pregnant bool
	frail    bool // old, ill, or children: whom raw food is not for
}

// who reads who eats from the titles of the dish, its course and its menu, from
// `about`, from the covers and from what the steps say of spoons and months.
func (d *plate) who() *eaters {
	if d.eats != nil {
		return d.eats
	}
	e := &eaters{}
	d.eats = e
	e.read(hazard.SignsOf(d.recipe.Name))
	if a := d.recipe.About; a != nil {
		e.read(hazard.SignsOf(a.Text.Text))
	}
	if d.making != nil && d.making.Serving != nil {
		e.read(hazard.SignsOf(d.making.Serving.Course.Name))
	}
	if d.meal != nil && d.meal.Menu != nil {
		e.read(hazard.SignsOf(d.meal.Menu.Name))
		e.frail = e.frail || d.meal.Menu.Children > 0
	}
	for _, st := range d.Stages {
		e.infants = e.infants || st.Tells("infants")
	}
	e.small = e.small || e.infants
	e.frail = e.frail || e.small || e.pregnant
	return e
}

func (e *eaters) read(s *hazard.Signs) {
	e.infants = e.infants || s.Tell("infants")
	e.small = e.small || s.Tell("toddlers")
	e.pregnant = e.pregnant || s.Tell("pregnant")
	e.frail = e.frail || s.Tell("frail")
}

// rawFor is the severity of a finding about raw food: a hint for those who may
// choose, a warning where children, the old, the ill or the pregnant eat.
func (d *plate) rawFor() diag.Severity {
	if d.who().frail {
		return diag.Warning
	}
	return diag.Hint
}

var choking = &Rule{
	Code: "S155", Title: "Something that small children may choke on.", Family: Safety, Severity: diag.Warning,
	What:    "The text is for children under five, and whole nuts, grapes, cherry tomatoes, olives, popcorn, round sausages, marshmallows or hard sweets are in it, and nothing cuts them small.",
	Why:     "What is round, hard or sticky blocks a small windpipe.",
	Fix:     "Cut round things lengthwise into quarters, grind nuts, and leave popcorn, marshmallows and hard sweets out.",
	Sources: []string{"Lambeth Council, choking hazards"},
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
			if !d.who().small {
				continue
			}
			for _, i := range d.End.Items {
				at := i.Line.NameAt
				if !chokes(i) || i.Says("cut small") || d.cutSmall(i) || seen.again(at) {
					continue
				}
				p.Report(at, "small children may choke on the %s", i.Line.Name).
					Because("%s Advice of a council (Lambeth, choking hazards). %s", p.rule.Why, comeFirst).
					WithHelp("quarter round things lengthwise, grind nuts, and say so in the note; or leave them out for the smallest")
			}
		}
	},
}

var chokeWords = []string{"grape", "grapes", "cherry tomato", "cherry tomatoes", "baby plum tomatoes", "popcorn", "popping corn", "olives", "frankfurter", "frankfurters", "hot dog", "hot dogs", "cocktail sausages", "chipolatas", "marshmallow", "marshmallows", "boiled sweets", "hard sweets", "jelly cubes", "jelly beans", "cherries", "blueberries", "whole nuts", "lollies", "hard candy", "gobstoppers", "chewing gum", "raw carrot", "raw carrots", "melon balls", "mini eggs", "peanuts", "cashews", "mixed nuts"}

func chokes(i *hazard.Item) bool {
	if i.Has(larder.Nut) {
		return true
	}
	name := strings.ToLower(i.Line.Name)
	return speaksOf(name, chokeWords...) && !speaksOf(name, "juice", "jam", "leaves", "leaf", "jelly", "vinegar", "seed", "oil", "tinned", "glacé", "dried", "spread", "butter")
}

// cutSmall tells whether a step that has a thing in it cuts it or crushes it.
func (d *plate) cutSmall(i *hazard.Item) bool {
	words := strings.Fields(strings.ToLower(i.Line.Name))
	last := words[len(words)-1]
	for _, st := range d.Stages {
		if !i.In(st) || !st.Tells("cut small") {
			continue
		}
		if st.Near("cut small", last, larder.Singular(last), "them", "all", "everything", "mixture") || st.Tells("whizz") {
			return true
		}
	}
	return false
}

var pregnancy = &Rule{
	Code: "S156", Title: "Not for the pregnant.", Family: Safety, Severity: diag.Warning,
	What:    "The text is for pregnant women, and mould-ripened or unpasteurised cheese that no step heats, liver or pâté, shark, swordfish or marlin, cold-smoked fish, raw sprouts or alcohol are in it.",
	Why:     "Listeria, too much vitamin A, mercury and alcohol harm the unborn.",
	Fix:     "Use another thing: hard or pasteurised soft cheese, cooked through, other fish.",
	Sources: []string{noSource},
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
			if !d.who().pregnant {
				continue
			}
			for _, i := range d.End.Items {
				why := unborn(i)
				if why == "" || seen.again(i.Line.NameAt) {
					continue
				}
				p.common(p.Report(i.Line.NameAt, "the pregnant are told to leave the %s: %s", i.Line.Name, why)).
					WithHelp("use another thing, and ask a midwife or a doctor where in doubt")
			}
		}
	},
}

// unborn says why a thing is not for the pregnant; empty when nothing is known
// against it.
func unborn(i *hazard.Item) string {
	name := strings.ToLower(i.Line.Name)
	switch {
	case i.Has(larder.Liver), speaksOf(name, "liver", "livers", "pâté", "pate", "liver sausage", "cod liver oil", "haggis"):
		return "it is rich in vitamin A, and pâté may carry listeria"
	case speaksOf(name, "swordfish", "shark", "marlin", "tilefish", "king mackerel", "bigeye tuna"):
		return "large fish hold mercury"
	case i.Heated:
		return ""
	case i.Has(larder.SoftCheese), speaksOf(name, "brie", "camembert", "gorgonzola", "roquefort", "stilton", "danish blue", "dolcelatte", "blue cheese", "chèvre"), i.Says("raw milk"):
		return "soft and blue cheese may carry listeria"
	case speaksOf(name, "sprouts", "beansprouts", "alfalfa", "cress sprouts") && !speaksOf(name, "brussels"):
		return "raw sprouts carry germs"
	case speaksOf(name, "smoked salmon", "smoked trout", "gravlax", "gravadlax", "cold-smoked"):
		return "cold-smoked and cured fish may carry listeria"
	case i.Has(larder.Alcohol) && i.Line.Quantity != nil && i.Line.Quantity.Dim == quantity.Volume && i.Grams() >= 50:
		return "it holds alcohol"
	}
	return ""
}
