package hazard

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// Eaters are those who eat a dish, as far as the text says.
type Eaters struct {
	Infants  bool // not a year old
	Small    bool // under five
	Pregnant bool
	Frail    bool // old, ill, or children: whom raw food is not for
}

// EatersOf reads who eats from the titles of the dish, its course and its menu, from
// `about`, from the covers and from what the steps say of spoons and months. making and
// meal are nil of a recipe by itself.
func EatersOf(t *Trace, making *demand.Making, meal *demand.Meal) *Eaters {
	e := &Eaters{}
	if t.Reading != nil {
		r := t.Reading.Recipe
		e.read(SignsOf(r.Name))
		if r.About != nil {
			e.read(SignsOf(r.About.Text.Text))
		}
	}
	if making != nil && making.Serving != nil {
		e.read(SignsOf(making.Serving.Course.Name))
	}
	if meal != nil && meal.Menu != nil {
		e.read(SignsOf(meal.Menu.Name))
		e.Frail = e.Frail || meal.Menu.Children > 0
	}
	e.Infants = e.Infants || t.Tells("infants")
	e.Small = e.Small || t.Tells("toddlers")
	e.Pregnant = e.Pregnant || t.Tells("pregnant")
	e.Small = e.Small || e.Infants
	e.Frail = e.Frail || e.Small || e.Pregnant
	return e
}

func (e *Eaters) read(s *Signs) {
	e.Infants = e.Infants || s.Tell("infants")
	e.Small = e.Small || s.Tell("toddlers")
	e.Pregnant = e.Pregnant || s.Tell("pregnant")
	e.Frail = e.Frail || s.Tell("frail")
}

// Chokes are the things on which small children choke and that nothing cuts small.
func (t *Trace) Chokes() (out []*Item) {
	for _, i := range t.End.Items {
		if chokes(i) && !i.Says("cut small") && !t.cutSmall(i) {
			out = append(out, i)
		}
	}
	return out
}

var chokeWords = []string{"grape", "grapes", "cherry tomato", "cherry tomatoes", "baby plum tomatoes", "popcorn", "popping corn", "olives", "frankfurter", "frankfurters", "hot dog", "hot dogs", "cocktail sausages", "chipolatas", "marshmallow", "marshmallows", "boiled sweets", "hard sweets", "jelly cubes", "jelly beans", "cherries", "blueberries", "whole nuts", "lollies", "hard candy", "gobstoppers", "chewing gum", "raw carrot", "raw carrots", "melon balls", "mini eggs", "peanuts", "cashews", "mixed nuts"}

func chokes(i *Item) bool {
	if i.Has(larder.Nut) {
		return true
	}
	name := strings.ToLower(i.Line.Name)
	return hasWord(name, chokeWords...) && !hasWord(name, "juice", "jam", "leaves", "leaf", "jelly", "vinegar", "seed", "oil", "tinned", "glacé", "dried", "spread", "butter")
}

// cutSmall tells whether a step that has a thing in it cuts it or crushes it.
func (t *Trace) cutSmall(i *Item) bool {
	words := strings.Fields(strings.ToLower(i.Line.Name))
	last := words[len(words)-1]
	for _, st := range t.Stages {
		if !i.In(st) || !st.Tells("cut small") {
			continue
		}
		if st.Near("cut small", last, larder.Singular(last), "them", "all", "everything", "mixture") || st.Tells("whizz") {
			return true
		}
	}
	return false
}

var spirits = []string{"gin", "rum", "brandy", "whisky", "whiskey", "vodka", "cognac", "liqueur", "tequila", "kirsch", "calvados", "schnapps", "port", "sherry", "armagnac", "bourbon"}

// Unborn says why a thing is not for the pregnant; empty when nothing is known
// against it.
func Unborn(i *Item) string {
	name := strings.ToLower(i.Line.Name)
	switch {
	case i.Has(larder.Liver), hasWord(name, "liver", "livers", "pâté", "pate", "liver sausage", "cod liver oil", "haggis"):
		return "it is rich in vitamin A, and pâté may carry listeria"
	case hasWord(name, "swordfish", "shark", "marlin", "tilefish", "king mackerel", "bigeye tuna"):
		return "large fish hold mercury"
	case i.Has(larder.Alcohol) && i.Grams() >= 50 && hasWord(name, spirits...):
		return "it holds alcohol, and what is warmed holds it still"
	case i.Heated:
		return ""
	case i.Has(larder.SoftCheese), hasWord(name, "brie", "camembert", "gorgonzola", "roquefort", "stilton", "danish blue", "dolcelatte", "blue cheese", "chèvre"), i.Says("raw milk"):
		return "soft and blue cheese may carry listeria"
	case hasWord(name, "sprouts", "beansprouts", "alfalfa", "cress sprouts") && !hasWord(name, "brussels"):
		return "raw sprouts carry germs"
	case hasWord(name, "smoked salmon", "smoked trout", "gravlax", "gravadlax", "cold-smoked"):
		return "cold-smoked and cured fish may carry listeria"
	case i.Has(larder.Alcohol) && i.Line.Quantity != nil && i.Line.Quantity.Dim == quantity.Volume && i.Grams() >= 50:
		return "it holds alcohol"
	}
	return ""
}
