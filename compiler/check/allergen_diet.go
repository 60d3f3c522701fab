package check

import (
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var dietWord = &Rule{
	Code: "A104", Title: "A word for a diet, and something in it that is not of that diet.", Family: Allergens, Severity: diag.Warning,
	What:    "A title, a course or an option says vegan, vegetarian, or that something is left out, and an ingredient is just that. In `about` it is a question, since the sentence may speak of something else.",
	Why:     "People choose by that word, and some are ill when it is wrong.",
	Fix:     "Change the ingredient, or take the word out.",
	Sources: []string{noSource, "Regulation (EU) 1169/2011 Annex II, as seen reproduced"},
	Bad: `dish Vegan leek tart
  serves 4
  gather
    600 g    leeks, sliced
    80 g     butter
  method
    - Soften the leeks in the butter, covered.
      | ring low | watch 15 min
`,
	At: "1:6",
	Good: `dish Vegan leek tart
  serves 4
  gather
    600 g    leeks, sliced
    80 ml    olive oil
  method
    - Soften the leeks in the olive oil, covered.
      | ring low | watch 15 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			lines := linesOf(d.making, d.recipe)
			askDiet(p, p.rule.Severity, d.recipe.Name, d.recipe.NameAt, lines, seen)
			if a := d.recipe.About; a != nil {
				for _, s := range claims(a.Text) {
					askDiet(p, diag.Question, s.Text, s.Span, lines, seen)
				}
			}
			for _, c := range d.recipe.Choices {
				for _, o := range c.Options {
					askDiet(p, p.rule.Severity, o.Label, o.LabelAt, o.Lines, seen)
				}
			}
		}
		for _, m := range p.Meals {
			if m.Menu != nil {
				askMenu(p, m, seen)
			}
		}
	},
}

// askMenu compares the titles of a menu and its courses with all that they
// serve.
func askMenu(p *Pass, m *demand.Meal, seen once) {
	var all []*resolve.Line
	for _, c := range m.Menu.Courses {
		var lines []*resolve.Line
		for _, mk := range m.Makings {
			if mk.Serving != nil && mk.Serving.Course == c {
				lines = append(lines, mk.Reading.Lines...)
			}
		}
		askDiet(p, p.rule.Severity, c.Name, c.NameAt, lines, seen)
		all = append(all, lines...)
	}
	askDiet(p, p.rule.Severity, m.Menu.Name, m.Menu.NameAt, all, seen)
}

// diet is a word and what it rules out.
type diet struct {
	words  []string
	flags  []larder.Flag
	things []string // substances
	says   string   // what the word promises, for the message
}

var diets = []diet{
	{[]string{"vegan", "plant-based", "plant based"}, []larder.Flag{larder.Meat, larder.Fish, larder.Shellfish, larder.Dairy, larder.Egg, larder.RawEgg, larder.Honey, larder.Gelatine}, []string{"milk", "egg", "fish", "crustacean", "mollusc"}, "vegan"},
	{[]string{"vegetarian", "veggie", "meatless"}, []larder.Flag{larder.Meat, larder.Fish, larder.Shellfish, larder.Gelatine, larder.Rennet}, []string{"fish", "crustacean", "mollusc"}, "vegetarian"},
	{[]string{"meat-free", "meat free"}, []larder.Flag{larder.Meat}, nil, "that there is no meat in it"},
	{[]string{"gluten-free", "gluten free", "without gluten", "no gluten"}, nil, []string{"wheat", "rye", "barley", "oats", "gluten"}, "that there is no gluten in it"},
	{[]string{"wheat-free", "wheat free", "without wheat"}, nil, []string{"wheat"}, "that there is no wheat in it"},
	{[]string{"dairy-free", "dairy free", "without dairy", "no dairy", "milk-free", "without milk", "lactose-free"}, nil, []string{"milk"}, "that there is no milk in it"},
	{[]string{"egg-free", "egg free", "eggless", "without eggs", "without egg"}, nil, []string{"egg"}, "that there is no egg in it"},
	{[]string{"nut-free", "nut free", "without nuts", "no nuts"}, nil, []string{"almond", "hazelnut", "walnut", "cashew", "pecan", "Brazil nut", "pistachio", "macadamia", "pine nut", "black walnut", "heartnut", "nuts", "peanut"}, "that there are no nuts in it"},
	{[]string{"alcohol-free", "alcohol free", "without alcohol", "no alcohol"}, []larder.Flag{larder.Alcohol}, nil, "that there is no alcohol in it"},
	{[]string{"pescatarian"}, []larder.Flag{larder.Meat}, nil, "pescatarian"},
	{[]string{"halal"}, []larder.Flag{larder.Pork, larder.Alcohol}, nil, "halal"},
}

// askDiet compares the words of a text with what the lines bring.
func askDiet(p *Pass, sev diag.Severity, text string, at source.Span, lines []*resolve.Line, seen once) {
	low := strings.ToLower(text)
	if strings.Contains(low, "not ") || strings.Contains(low, "non-") {
		return
	}
	for _, dt := range diets {
		for _, w := range dt.words {
			if !speaksOf(low, w) {
				continue
			}
			span := at
			if i := strings.Index(strings.ToLower(at.Text()), w); i >= 0 {
				span = source.Span{File: at.File, Start: at.Start + i, End: at.Start + i + len(w)}
			}
			for _, l := range hazard.Things(lines) {
				what := dt.against(l)
				if what == "" || seen.again(span) {
					continue
				}
				name := l.Line.Name
				if l.Line != l.Top {
					name += ", in the " + l.Top.Name + ","
				}
				p.ReportAs(sev, span, "this says %s, and %s %s", dt.says, name, what).
					See(l.Line.NameAt, "gathered here").
					WithHelp("change the ingredient, or take the word out; what a maker adds is on its label")
				break
			}
			break
		}
	}
}

// against says what about a thing is against the diet; empty: nothing that is
// known. A thing that calls itself of the diet is taken at its word.
func (dt diet) against(l hazard.Thing) string {
	own := strings.ToLower(l.Line.Name + " " + l.Line.Note.Text + " " + l.Line.Brackets.Text)
	for _, o := range append([]string{"vegan", "plant", "vegetable", "vegetarian", "non-dairy", "meat-free"}, dt.words...) {
		if speaksOf(own, o) {
			return ""
		}
	}
	for _, c := range l.Contains {
		if c.Depends {
			continue
		}
		for _, t := range dt.things {
			if c.Substance == t {
				return "holds " + c.Named()
			}
		}
	}
	if l.Item == nil || l.Item.Has(larder.Generic) {
		return ""
	}
	for _, f := range dt.flags {
		if l.Item.Has(f) {
			if f == larder.RawEgg {
				f = larder.Egg
			}
			return "counts as " + strings.TrimPrefix(string(f), "animal ")
		}
	}
	return ""
}

// claims are the sentences of `about` that state something of the dish itself,
// not of what might be done.
func claims(t resolve.Text) (out []resolve.Text) {
	start := 0
	for i := 0; i <= len(t.Text); i++ {
		if i < len(t.Text) && !strings.ContainsRune(".!?\n", rune(t.Text[i])) {
			continue
		}
		s := strings.TrimSpace(t.Text[start:i])
		start = i + 1
		low := strings.ToLower(s)
		if s == "" || speaksOf(low, "version", "instead", "leave out", "leave the", "swap", "replace", "not", "unless", "if", "for vegans", "for vegetarians", "can", "use", "make it", "may", "guests", "nearly", "almost", "option") {
			continue
		}
		out = append(out, resolve.Text{Text: s, Span: t.Span})
	}
	return out
}
