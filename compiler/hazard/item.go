package hazard

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Kind is what a raw thing is, for a limit of cooking.
type Kind string

// The kinds that have limits of their own. The words are those of the limits.
const (
	Poultry  Kind = "poultry"
	Mince    Kind = "mince"
	Pork     Kind = "pork"
	Fish     Kind = "fish"
	Egg      Kind = "egg"
	Stuffing Kind = "stuffing"
)

// Item is one thing in the pot, as one line of the list brings it.
type Item struct {
	Line *resolve.Line // of the recipe looked at, also for what a base brings
	Name string        // of the thing itself: with a base, what the base was made of
	Base *resolve.Recipe
	it   *larder.Item // nil: not known
	mass float64      // about how many grams the list has, see gramsOf

	Kinds    []Kind // raw kinds; none for what was cooked before it came
	Strong   bool   // meat, fish, egg, dairy, rice: germs grow in it fast
	Plant    bool   // cooked vegetables, pulses, grains
	Sour     bool
	Sweet    bool
	Leftover bool // carried over, cooked and chilled
	Heated   bool // heat was put to it
	Before   bool // by the base that it comes with
	used     bool // it was put in a pot of its walk
}

// Has tells whether the larder puts a flag on it.
func (i *Item) Has(f larder.Flag) bool { return i.it != nil && i.it.Has(f) }

// Is tells whether it is raw of a kind.
func (i *Item) Is(k Kind) bool { return slices.Contains(i.Kinds, k) }

// IsKind tells whether its name is one of a list of words: keeps, plant, sour,
// sweet, oil, garlic, cured, bones, live.
func (i *Item) IsKind(kind string) bool { return isKind(kind, i.Name) }

// gramsOf is about how much of a thing its list has; a millilitre counts as a
// gram. 0 when nobody can say.
func gramsOf(l *resolve.Line) float64 {
	q := l.Quantity
	if q == nil {
		return 0
	}
	n := q.Value.High.Float()
	switch q.Dim {
	case quantity.Mass, quantity.Volume:
		return n
	case quantity.None:
		if g, _, ok := l.PieceGrams(); ok {
			return n * g.Float()
		}
	}
	return 0
}

// done are words of a name or a note that say a thing is not raw any more.
var done = []string{"cooked", "roast", "roasted", "boiled", "leftover", "left-over", "tinned", "canned", "poached", "fried", "pasteurised", "pasteurized", "smoked salmon", "smoked trout", "smoked mackerel", "hard-boiled", "confit", "toasted"}

// NewItem reads one line of a list that is bought or carried over.
func NewItem(l *resolve.Line) *Item {
	i := &Item{Line: l, Name: l.Name, Leftover: l.Carried != ""}
	i.it, _, _ = larder.Builtin().FindPart(l.Name)
	said := strings.ToLower(l.Name + " " + l.Note.Text + " " + l.Brackets.Text)
	cooked := i.Leftover || Tinned(l) || hasWord(said, done...)
	if i.it != nil {
		i.flags(cooked)
	} else {
		i.words(strings.ToLower(l.Name), cooked)
	}
	keeps := isKind("keeps", l.Name) || i.it != nil && i.it.Counter == "spices"
	if keeps {
		i.Strong = false
	}
	i.Plant = !i.Strong && !keeps && isKind("plant", l.Name)
	i.Sour = isKind("sour", l.Name)
	i.Sweet = isKind("sweet", l.Name)
	if i.Plant || i.Sour || i.Sweet {
		i.mass = gramsOf(l)
	}
	if i.Leftover && !keeps && !i.Plant {
		i.Strong = i.Strong || i.it == nil && !i.Sour && !i.Sweet && !isKind("oil", l.Name)
	}
	return i
}

func (i *Item) flags(cooked bool) {
	for f, k := range map[larder.Flag]Kind{larder.RawPoultry: Poultry, larder.RawMince: Mince, larder.RawPork: Pork, larder.RawFish: Fish, larder.RawEgg: Egg} {
		if !cooked && i.it.Has(f) {
			i.Kinds = append(i.Kinds, k)
		}
	}
	if i.Is(Mince) && i.Is(Pork) { // the limit of mince is the higher one
		i.Kinds = slices.DeleteFunc(i.Kinds, func(k Kind) bool { return k == Pork })
	}
	slices.Sort(i.Kinds)
	if !cooked && len(i.Kinds) > 0 && hasWord(strings.ToLower(i.Name), "stuffing") {
		i.Kinds = append(i.Kinds, Stuffing)
	}
	i.Strong = slices.ContainsFunc([]larder.Flag{larder.Meat, larder.Fish, larder.Shellfish, larder.Dairy, larder.Egg, larder.RawEgg, larder.Rice, larder.SoftCheese}, i.it.Has)
}

// words reads a name that the larder does not know.
func (i *Item) words(name string, cooked bool) {
	if hasWord(name, "stock", "broth", "fat", "dripping", "sauce", "powder", "cube", "seasoning", "vegan", "vegetarian", "bouillon", "paste") {
		i.Strong = hasWord(name, "stock", "broth") && hasWord(name, "chicken", "beef", "lamb", "duck", "ham", "fish", "veal")
		return
	}
	poultry := hasWord(name, "chicken", "turkey", "duck", "goose", "guinea fowl", "poussin", "quail")
	mince := hasWord(name, "mince", "minced", "ground beef", "ground pork", "ground lamb", "ground turkey", "burger", "burgers", "sausage", "sausages", "meatballs")
	pork := hasWord(name, "pork")
	fish := hasWord(name, "fish", "salmon", "cod", "haddock", "trout", "hake", "mackerel", "tuna")
	i.Strong = poultry || mince || pork || fish || hasWord(name, "beef", "lamb", "veal", "ham", "prawn", "prawns", "crab", "rice", "cream", "milk", "yoghurt", "yogurt", "custard")
	if cooked || hasWord(name, "smoked") {
		return
	}
	for _, k := range []struct {
		is   bool
		kind Kind
	}{{poultry, Poultry}, {mince, Mince}, {pork && !mince, Pork}, {fish, Fish}} {
		if k.is {
			i.Kinds = append(i.Kinds, k.kind)
		}
	}
}

// Tinned tells whether a line is of tins or jars: cooked by their maker.
func Tinned(l *resolve.Line) bool {
	a := l.Written
	if a == nil {
		return false
	}
	if a.Kind == quantity.Packages {
		return true
	}
	for _, t := range a.Measure.Terms {
		if t.Unit != nil && (t.Unit.Name == "tin" || t.Unit.Name == "can" || t.Unit.Name == "jar") {
			return true
		}
	}
	return false
}

// hasWord tells whether one of some words stands in a text in small letters, as
// whole words.
func hasWord(text string, words ...string) bool {
	_, ok := findWord(text, words...)
	return ok
}

// findWord finds the first place in a text at which one of some words stands.
func findWord(text string, words ...string) (at int, ok bool) {
	best := -1
	for _, w := range words {
		for from := 0; ; {
			i := strings.Index(text[from:], w)
			if i < 0 {
				break
			}
			i += from
			if !letter(text, i-1) && !letter(text, i+len(w)) {
				if best < 0 || i < best {
					best = i
				}
				break
			}
			from = i + 1
		}
	}
	return best, best >= 0
}

func letter(text string, i int) bool {
	return i >= 0 && i < len(text) && (text[i] >= 'a' && text[i] <= 'z' || text[i] >= 0x80)
}
