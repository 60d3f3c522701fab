package check

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var dietWord = &Rule{
	Code: "A104", Title: "A word for a diet, and something in it that is not of that diet.", Family: Allergens, Severity: diag.Warning,
	What:    "A title, a course or an option says vegan, vegetarian, halal, kosher or for coeliacs, or that something is left out, and an ingredient is just that, also through bases. In `about` it is a question, since the sentence may speak of something else; where only the label tells, it is a hint.",
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
			things := sync.OnceValue(d.things) // few say what they are without
			askDiet(p, p.rule.Severity, d.recipe.Name, d.recipe.NameAt, things, seen)
			askOffered(p, d, seen)
			if a := d.recipe.About; a != nil {
				for _, s := range statements(a.Text) {
					askDiet(p, diag.Question, s.Text, s.Span, things, seen)
				}
			}
			for _, c := range d.recipe.Choices {
				for _, o := range c.Options {
					askDiet(p, p.rule.Severity, o.Label, o.LabelAt, func() []hazard.Thing { return hazard.Things(o.Lines) }, seen)
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

// things are all things in a dish: as its menu makes it and what it draws on, else as
// it stands by itself.
func (d *plate) things() []hazard.Thing {
	if d.making != nil {
		return hazard.ThingsIn(d.making)
	}
	return hazard.Things(linesOf(nil, d.recipe))
}

// askOffered compares the title of a dish with what may be taken in place of what it
// gathers: swaps, and the options that nobody has chosen against.
func askOffered(p *Pass, d *plate, seen once) {
	claims := claimsOf(strings.ToLower(d.recipe.Name))
	if len(claims) == 0 {
		return
	}
	offered := hazard.SwapsOf(linesOf(d.making, d.recipe))
	if d.making != nil {
		offered = hazard.Swaps(d.making)
	} else {
		for _, c := range d.recipe.Choices {
			for _, o := range c.Options[1:] {
				offered = append(offered, hazard.Things(o.Lines)...)
			}
		}
	}
	for _, c := range claims {
		span := c.place(d.recipe.NameAt)
		for _, sure := range []bool{true, false} { // where only its label tells, it is a hint
			sev := diag.Hint
			if sure {
				sev = p.rule.Severity
			}
			for _, l := range offered {
				what, is := c.against(l)
				if what == "" || is != sure || seen.again(span) {
					continue
				}
				p.ReportAs(sev, span, "this says %s, and %s, which may be taken instead, %s", c.says, nameIn(l), agree(l, what)).
					See(l.Line.NameAt, "offered here").
					WithHelp("offer something else, or say beside it that it is not of the diet and take the word out of the title")
			}
		}
	}
}

// askMenu compares the titles of a menu and its courses with all that they
// serve.
func askMenu(p *Pass, m *demand.Meal, seen once) {
	for _, c := range m.Menu.Courses {
		askDiet(p, p.rule.Severity, c.Name, c.NameAt, func() []hazard.Thing { return servedIn(m, c) }, seen)
	}
	askDiet(p, p.rule.Severity, m.Menu.Name, m.Menu.NameAt, func() (all []hazard.Thing) {
		for _, c := range m.Menu.Courses {
			all = append(all, servedIn(m, c)...)
		}
		return all
	}, seen)
}

// servedIn are all things in what a course serves.
func servedIn(m *demand.Meal, c *resolve.Course) (out []hazard.Thing) {
	for _, mk := range m.Makings {
		if mk.Serving != nil && mk.Serving.Course == c {
			out = append(out, hazard.ThingsIn(mk)...)
		}
	}
	return out
}

// diet is a claim and what it rules out.
type diet struct {
	words  []string
	flags  []larder.Flag
	things []string // substances
	named  []string // things by their names
	own    []string // words by which a thing calls itself of the diet
	says   string   // what the word promises, for the message
}

var (
	animal  = []larder.Flag{larder.Meat, larder.Fish, larder.Shellfish, larder.Gelatine}
	cereals = []string{"wheat", "rye", "barley", "oats", "gluten"}
	nutKind = []string{"almond", "hazelnut", "walnut", "cashew", "pecan", "Brazil nut", "pistachio", "macadamia", "pine nut", "black walnut", "heartnut", "nuts"}
	plants  = []string{"vegan", "plant", "plant-based", "vegetable", "non-dairy", "dairy-free", "egg-free", "meat-free", "mock", "soya", "soy", "oat", "almond", "coconut"}
)

var diets = []diet{
	{words: []string{"vegan", "vegans", "plant-based", "plant based", "vg"}, flags: append([]larder.Flag{larder.Dairy, larder.Egg, larder.RawEgg, larder.Honey}, animal...), things: []string{"milk", "egg", "fish", "crustacean", "mollusc"}, named: []string{"beeswax", "royal jelly"}, own: []string{"vegan", "plant", "plant-based", "vegetable", "mock"}, says: "vegan"},
	{words: []string{"vegetarian", "vegetarians", "veggie", "meatless"}, flags: append([]larder.Flag{larder.Rennet}, animal...), things: []string{"fish", "crustacean", "mollusc"}, own: []string{"vegan", "plant", "vegetarian", "vegetable", "veggie", "meat-free"}, says: "vegetarian"},
	{words: []string{"pescatarian"}, flags: []larder.Flag{larder.Meat}, own: []string{"vegan", "plant", "vegetarian", "vegetable"}, says: "pescatarian"},
	{words: []string{"coeliac", "coeliacs", "celiac", "celiacs"}, things: cereals, own: []string{"gluten-free", "gluten free"}, says: "that it is for coeliacs"},
	{words: []string{"halal", "halaal", "muslim"}, flags: []larder.Flag{larder.Pork, larder.Alcohol, larder.Gelatine}, own: []string{"halal", "alcohol-free", "alcohol free", "beef gelatine", "fish gelatine", "turkey", "beef", "vegetarian", "vegan", "non-alcoholic"}, says: "halal"},
	{words: []string{"kosher"}, flags: []larder.Flag{larder.Pork, larder.Shellfish}, things: []string{"crustacean", "mollusc"}, named: []string{"eel", "catfish", "shark", "monkfish", "swordfish", "rabbit", "hare"}, own: []string{"kosher", "beef", "turkey", "vegan", "plant"}, says: "kosher"},
	{words: []string{"jain"}, flags: append([]larder.Flag{larder.Egg, larder.RawEgg, larder.Honey}, animal...), things: []string{"egg", "fish", "crustacean", "mollusc"}, named: []string{"onion", "onions", "garlic", "potato", "potatoes", "carrot", "carrots", "ginger", "beetroot", "radish", "shallot", "shallots", "leek", "leeks"}, own: []string{"vegan", "plant"}, says: "Jain"},
}

// without are what a claim to be without something rules out, by the word that
// stands in "…-free", "free from …", "without …" and "no …".
var without = map[string]diet{
	"meat":      {flags: []larder.Flag{larder.Meat}, own: []string{"vegan", "plant", "vegetable", "vegetarian"}, says: "that there is no meat in it"},
	"pork":      {flags: []larder.Flag{larder.Pork}, own: []string{"beef", "turkey", "vegan", "plant", "halal"}, says: "that there is no pork in it"},
	"beef":      {flags: []larder.Flag{larder.Beef}, own: []string{"vegan", "plant"}, says: "that there is no beef in it"},
	"gluten":    {things: cereals, says: "that there is no gluten in it"},
	"wheat":     {things: []string{"wheat"}, own: []string{"gluten-free", "gluten free"}, says: "that there is no wheat in it"},
	"dairy":     {things: []string{"milk"}, own: append([]string{"milk-free"}, plants...), says: "that there is no milk in it"},
	"milk":      {things: []string{"milk"}, own: append([]string{"dairy-free"}, plants...), says: "that there is no milk in it"},
	"lactose":   {things: []string{"milk"}, own: append([]string{"lactose-free", "lactose free", "dairy-free"}, plants...), says: "that there is no lactose in it"},
	"egg":       {things: []string{"egg"}, own: []string{"vegan", "plant", "plant-based"}, says: "that there is no egg in it"},
	"nut":       {things: append([]string{"peanut"}, nutKind...), says: "that there are no nuts in it"},
	"tree nut":  {things: nutKind, own: []string{"nut-free", "nut free"}, says: "that there are no tree nuts in it"},
	"peanut":    {things: []string{"peanut"}, own: []string{"nut-free"}, says: "that there are no peanuts in it"},
	"shellfish": {flags: []larder.Flag{larder.Shellfish}, things: []string{"crustacean", "mollusc"}, own: []string{"vegan", "plant", "vegetarian"}, says: "that there is no shellfish in it"},
	"seafood":   {flags: []larder.Flag{larder.Shellfish, larder.Fish}, things: []string{"crustacean", "mollusc", "fish"}, own: []string{"vegan", "plant", "vegetarian"}, says: "that there is no fish or shellfish in it"},
	"alcohol":   {flags: []larder.Flag{larder.Alcohol}, own: []string{"non-alcoholic", "zero"}, says: "that there is no alcohol in it"},
	"honey":     {flags: []larder.Flag{larder.Honey}, own: []string{"vegan"}, says: "that there is no honey in it"},
	"gelatin":   {flags: []larder.Flag{larder.Gelatine}, own: []string{"vegan", "vegetarian"}, says: "that there is no gelatin in it"},
	"gelatine":  {flags: []larder.Flag{larder.Gelatine}, own: []string{"vegan", "vegetarian"}, says: "that there is no gelatine in it"},
}

// shortFor are the letters that menus write for it.
var shortFor = map[string]string{"gf": "gluten", "df": "dairy", "nf": "nut", "ef": "egg"}

// withoutOf is what a claim to be without a thing rules out: a word of the table, a
// substance of the lists, or a thing of the larder by its name.
func withoutOf(word string) (diet, bool) {
	word = larder.Fold(strings.TrimSpace(word))
	if d, ok := without[word]; ok {
		return d, true
	}
	if s, ok := larder.Builtin().Substance(word); ok {
		d := diet{things: []string{s}, says: "that there is no " + word + " in it"}
		if s == "fish" || s == "crustacean" || s == "mollusc" {
			d.own = []string{"vegan", "plant", "vegetarian"}
		}
		if s == "fish" {
			d.flags = []larder.Flag{larder.Fish}
		}
		return d, true
	}
	if it, ok := larder.Builtin().Find(word); ok && !it.Water && word != "sugar" && word != "fat" && word != "salt" {
		return diet{named: []string{word, larder.Plural(word)}, says: "that there is no " + word + " in it"}, true
	}
	return diet{}, false
}

// claim is a claim with the words that make it: the whole of what is said.
type claim struct {
	diet
	words string
	thing string // that it is said to be without; empty of a diet
}

// calls tells whether a text in small letters claims the same of itself.
func (c claim) calls(low string) bool {
	if c.thing == "" {
		return speaksOf(low, c.words)
	}
	return speaksOf(low, c.thing+"-free", c.thing+" free", "free from "+c.thing, "free of "+c.thing, "without "+c.thing, "no "+c.thing, "no-"+c.thing)
}

// place is where the words of a claim stand in a text; all of it where they do not.
func (c claim) place(at source.Span) source.Span {
	low := strings.ToLower(at.Text())
	if len(low) != len(at.Text()) { // a letter that is longer or shorter when it is small
		return at
	}
	for _, w := range []string{c.words, c.thing} {
		if i := strings.LastIndex(low, w); w != "" && i >= 0 {
			return source.Span{File: at.File, Start: at.Start + i, End: at.Start + i + len(w)}
		}
	}
	return at
}

// claimsOf are the claims of a text in small letters.
func claimsOf(low string) (out []claim) {
	if low == "" {
		return nil
	}
	for _, dt := range diets {
		for _, w := range dt.words {
			if speaksOf(low, w) && !(w == "kosher" && speaksOf(low, "kosher salt", "kosher dill", "kosher pickles")) {
				out = append(out, claim{diet: dt, words: w})
				break
			}
		}
	}
	for _, w := range strings.FieldsFunc(low, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if thing := shortFor[w]; thing != "" {
			if d, ok := withoutOf(thing); ok {
				out = append(out, claim{d, w, thing})
			}
		}
	}
	if !strings.Contains(low, "free") && !strings.Contains(low, "without") && !strings.Contains(low, "no ") && !strings.Contains(low, "no-") && !strings.Contains(low, "less") && !strings.Contains(low, "non-") {
		return out
	}
	words := strings.FieldsFunc(low, func(r rune) bool { return strings.ContainsRune(" ,;:.()/&\t\n", r) })
	add := func(thing, said string) {
		if d, ok := withoutOf(thing); ok {
			out = append(out, claim{d, said, thing})
		}
	}
	for i, w := range words {
		switch {
		case strings.HasSuffix(w, "-free"):
			thing := strings.TrimSuffix(w, "-free")
			if before := len(out); i > 0 {
				if add(words[i-1]+" "+thing, words[i-1]+" "+w); len(out) > before {
					continue // of trees, and not of all nuts
				}
			}
			add(thing, w)
			if j := strings.LastIndexByte(thing, '-'); j > 0 {
				add(strings.ReplaceAll(thing, "-", " "), w)
			}
		case strings.HasPrefix(w, "no-"):
			add(strings.TrimPrefix(w, "no-"), w)
		case w == "eggless":
			add("egg", w)
		case w == "free" && i+1 < len(words) && (words[i+1] == "from" || words[i+1] == "of"), w == "without", w == "no", w == "contains" && i+1 < len(words) && words[i+1] == "no":
			k := i + 1
			if w == "free" || w == "contains" {
				k++
			}
			for n := 0; k < len(words) && n < 8; k, n = k+1, n+1 { // free from milk, eggs and nuts
				if words[k] == "and" || words[k] == "or" || words[k] == "any" || words[k] == "no" {
					continue
				}
				before := len(out)
				if k+1 < len(words) {
					add(words[k]+" "+words[k+1], strings.Join(words[i:k+2], " "))
				}
				if len(out) > before {
					k++ // of trees, and not of all nuts
					continue
				}
				if len(out) == before && !(w == "no" && isSeen(words, k)) {
					add(words[k], strings.Join(words[i:k+1], " "))
				}
				if len(out) == before {
					break
				}
			}
		case w == "free" && i > 0:
			before := len(out)
			if i > 1 {
				add(words[i-2]+" "+words[i-1], words[i-1]+" free")
			}
			if len(out) == before {
				add(words[i-1], words[i-1]+" free")
			}
		}
	}
	return out
}

// isSeen tells whether "no" and a thing say what is to be seen, and not what is in it: "no
// vinegar runs into it", "until no milk is left".
func isSeen(words []string, thing int) bool {
	if thing+1 >= len(words) {
		return false
	}
	next := words[thing+1]
	if (next == "is" || next == "are") && thing+2 < len(words) {
		next = words[thing+2]
	}
	return slices.Contains(sight, next)
}

// sight are words behind a thing that say what becomes of it.
var sight = strings.Fields("runs run ran running flows flow shows show showing visible seen coming remaining dripping sticking lost wasted standing remains remain remaining left comes come sticks stick drips drip oozes ooze escapes escape leaks leak rises rise floats float separates separate clings cling gathers gather seeps seep lies lie sits sit goes go stays stay weeps weep appears appear sinks sink pools pool bubbles bubble")

// askDiet compares the claims of a text with some things.
func askDiet(p *Pass, sev diag.Severity, text string, at source.Span, of func() []hazard.Thing, seen once) {
	low := strings.ToLower(text)
	if strings.Contains(low, "not ") || strings.Contains(low, "non-") {
		return
	}
	made := claimsOf(low)
	if len(made) == 0 {
		return
	}
	things := of()
	for _, c := range made {
		span := c.place(at)
		if seen[span] {
			continue
		}
		label := -1
		for i, l := range things {
			what, sure := c.against(l)
			if what == "" {
				continue
			}
			if !sure {
				if label < 0 {
					label = i
				}
				continue
			}
			seen[span] = true
			p.ReportAs(sev, span, "this says %s, and %s %s", c.says, nameIn(l), agree(l, what)).
				See(l.Line.NameAt, "gathered here").
				WithHelp("change the ingredient, or take the word out; what a maker adds is on its label")
			break
		}
		if c.says == "kosher" && !seen[span] {
			if meat, milk := meatAndMilk(things); meat != nil && milk != nil {
				seen[span] = true
				p.ReportAs(sev, span, "this says kosher, and %s and %s are in one dish", nameIn(*meat), nameIn(*milk)).
					See(milk.Line.NameAt, "gathered here").
					WithHelp("take one of them out, or take the word out; who keeps kosher asks a rabbi")
			}
		}
		if label >= 0 && !seen[span] {
			seen[span] = true
			l := things[label]
			what, _ := c.against(l)
			p.ReportAs(diag.Hint, span, "this says %s, and %s %s", c.says, nameIn(l), what).
				See(l.Line.NameAt, "gathered here").
				WithHelp("read the label of the one that is bought, and name it so that this is clear")
		}
	}
}

// agree puts what is said of a thing into the plural where its name is one.
func agree(l hazard.Thing, what string) string {
	name := l.Line.Name[strings.LastIndexAny(l.Line.Name, " /")+1:]
	if name == "" || larder.Singular(name) == name {
		return what
	}
	for _, v := range [][2]string{{"is ", "are "}, {"holds ", "hold "}, {"counts ", "count "}} {
		if rest, ok := strings.CutPrefix(what, v[0]); ok {
			return v[1] + rest
		}
	}
	return what
}

// nameIn names a thing, and what it comes in.
func nameIn(l hazard.Thing) string {
	if l.Line != l.Top {
		return l.Line.Name + ", in the " + l.Top.Name + ","
	}
	return l.Line.Name
}

// meatAndMilk are the first meat and the first thing with milk.
func meatAndMilk(things []hazard.Thing) (meat, milk *hazard.Thing) {
	for i := range things {
		t := &things[i]
		if meat == nil && t.Item != nil && t.Item.Has(larder.Meat) {
			meat = t
		}
		for _, c := range t.Contains {
			if milk == nil && c.Substance == "milk" && !c.Depends {
				milk = t
			}
		}
	}
	return meat, milk
}

// against says what about a thing is against the diet, and whether it is sure or
// only its label tells; empty: nothing that is known. A thing that calls itself of
// the diet is taken at its word.
func (c claim) against(l hazard.Thing) (what string, sure bool) {
	own := strings.ToLower(l.Line.Name + " " + l.Line.Note.Text + " " + l.Line.Brackets.Text)
	if c.calls(own) {
		return "", false
	}
	for _, n := range c.named {
		if speaksOf(own, n) {
			return "is in it", true
		}
	}
	for _, o := range c.own {
		if speaksOf(own, o) && !known(l, o) {
			return "", false
		}
	}
	for _, t := range c.things {
		for _, k := range l.Contains {
			if k.Substance == t && !k.Depends {
				if larder.Fold(l.Name()) == larder.Fold(k.Named()) {
					return "is in it", true
				}
				return "holds " + k.Named(), true
			}
		}
	}
	if l.Item != nil && !l.Item.Has(larder.Generic) {
		for _, f := range c.flags {
			if l.Item.Has(f) {
				if f == larder.RawEgg {
					f = larder.Egg
				}
				return "counts as " + strings.TrimPrefix(string(f), "animal "), true
			}
		}
	}
	for _, t := range c.things {
		for _, k := range append(l.Contains[:len(l.Contains):len(l.Contains)], l.Perhaps...) {
			if k.Substance == t {
				return "may hold " + k.Named(), false
			}
		}
	}
	return "", false
}

// known tells whether a word that might call a thing of the diet only names its
// kind: almond milk is of almonds, milk chocolate of milk.
func known(l hazard.Thing, word string) bool {
	if l.Item == nil {
		return false
	}
	switch word {
	case "soya", "soy", "oat", "almond", "coconut":
		for _, c := range l.Contains {
			if c.Substance == "milk" && !c.Depends {
				return true // coconut in milk, and almonds in a milk pudding
			}
		}
	}
	return false
}

// statements are the sentences of `about` that state something of the dish itself,
// not of what might be done.
func statements(t resolve.Text) (out []resolve.Text) {
	start := 0
	for i := 0; i <= len(t.Text); i++ {
		if i < len(t.Text) && !strings.ContainsRune(".!?\n", rune(t.Text[i])) {
			continue
		}
		s := strings.TrimSpace(t.Text[start:i])
		start = i + 1
		low := strings.ToLower(s)
		if s == "" || speaksOf(low, "version", "instead", "leave out", "leave the", "swap", "replace", "not", "unless", "if", "for vegans", "for vegetarians", "can", "use", "make it", "may", "nearly", "almost", "option") || speaksOf(low, "guests") && !speaksOf(low, "suitable", "suits", "fit for", "fine for", "right for", "made for") {
			continue
		}
		out = append(out, resolve.Text{Text: s, Span: t.Span})
	}
	return out
}
