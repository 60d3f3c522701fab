package hazard

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"tamis/lang/quantity"
)

// Poison is a thing that harms by what it is, not by what grows in it: a row of
// data/poisons.csv.
type Poison struct {
	Key     string
	Undo    string        // heat, boil, dose; none: nothing undoes it
	Long    time.Duration // so long, at least
	steam   time.Duration // in steam, where that is another
	AHead   float64       // grams a head, for dose
	Text    string
	Source  string // as printed: who, and how it was seen; or that nobody was
	is, but string // signs
}

var poisons = sync.OnceValue(func() (out []*Poison) {
	for _, r := range rowsOf("poisons") {
		p := &Poison{Key: r[0], Undo: r[3], Text: r[6], Source: r[7], is: "poison " + r[0], but: "no poison " + r[0]}
		long, steam, _ := strings.Cut(r[4], " steam ")
		p.Long, p.steam = minutes(long), minutes(steam)
		p.AHead, _ = strconv.ParseFloat(r[5], 64)
		switch {
		case r[9] == "from memory":
			p.Source = "common practice, no source"
		case strings.HasPrefix(r[8], "secondary"):
			p.Source += ", as seen quoted"
		}
		out = append(out, p)
	}
	return out
})

func minutes(s string) time.Duration {
	n, _ := strconv.Atoi(s)
	return time.Duration(n) * time.Minute
}

// PoisonOf is the poison that a line brings by its name and its note; nil when it
// brings none.
func PoisonOf(i *Item) *Poison {
	s := i.said
	if !s.poisons() {
		return nil
	}
	for _, p := range poisons() {
		if s.Tell(p.is) && !s.Tell(p.but) && !(i.Cooked && (p.Undo == "heat" || p.Undo == "boil")) {
			return p
		}
	}
	return nil
}

// poisons tells whether a text has the sign of any poison.
func (s *Signs) poisons() bool {
	for _, f := range signs().poison {
		if s.bits[f/64]&(1<<(f%64)) != 0 {
			return true
		}
	}
	return false
}

// Undone tells whether a method undoes a poison in a thing.
func (p *Poison) Undone(t *Trace, i *Item) bool {
	took := time.Duration(0)
	for _, st := range t.Stages {
		if !st.Heats || st.N < i.in {
			continue
		}
		if p.Undo == "boil" && !st.Boils() && !st.Thorough() && !st.Tells("pressure") {
			continue
		}
		t := max(st.Time, st.Allowed())
		if p.steam > 0 && st.Says("steam") {
			t = time.Duration(float64(t) * float64(p.Long) / float64(p.steam))
		}
		took += t
		if st.Time == 0 && len(st.Step.Phases) == 0 {
			return true // nobody says how long: it is not for this to ask
		}
	}
	return took > 0 && took >= p.Long
}

// Poisoned is a thing with the poison that it brings and that nothing undoes.
type Poisoned struct {
	Item   *Item
	Poison *Poison
}

// Poisons are the things of a recipe's own list that bring a poison which its method
// does not undo.
func (t *Trace) Poisons() (out []Poisoned) {
	for _, i := range t.End.Items {
		if i.Base != nil {
			continue // said where the base is made
		}
		x := PoisonOf(i)
		if x == nil {
			x = t.poisonSaid(i)
		}
		if x != nil && !t.undoes(x, i) {
			out = append(out, Poisoned{i, x})
		}
	}
	return out
}

// undoes tells whether a method makes a poisonous thing a food, or there is so
// little of it that it does not matter.
func (t *Trace) undoes(x *Poison, i *Item) bool {
	r := t.Reading.Recipe
	switch x.Undo {
	case "none":
		return false
	case "dose":
		q := i.Line.Quantity
		if q == nil || q.Dim != quantity.Mass && q.Dim != quantity.Volume {
			return true
		}
		heads := 4.0
		if s := r.Serves; s != nil && s.Low.Float() > 0 {
			heads = s.Low.Float()
		}
		return i.Grams()/heads <= x.AHead
	}
	last := len(t.Stages) - 1
	if r.Base && r.ServeHow == nil && last >= 0 && !t.Stages[last].Heats && x.Undo == "heat" && r.About != nil && hasWord(strings.ToLower(r.About.Text.Text), "cook", "boil", "bake") {
		return true // it says that it is cooked where it goes
	}
	return x.Undone(t, i)
}

// poisonSaid is a poison that only a step speaks of: the leaves of the rhubarb.
func (t *Trace) poisonSaid(i *Item) *Poison {
	name := strings.ToLower(i.Line.Name)
	if !t.Tells("leafy toxin", "greened") || !hasWord(name, "rhubarb", "potato", "potatoes", "kidney beans") {
		return nil
	}
	for _, st := range t.Stages {
		if !st.Tells("leafy toxin", "greened") || !i.In(st) {
			continue
		}
		switch {
		case st.Tells("leafy toxin") && hasWord(name, "rhubarb"):
			return PoisonNamed("rhubarb leaves")
		case st.Tells("greened") && hasWord(name, "potato", "potatoes") && !hasWord(name, "sweet"):
			return PoisonNamed("green potatoes")
		case st.Says("sprout", "sprouted") && i.Has("dried kidney beans"):
			return PoisonNamed("kidney beans raw")
		}
	}
	return nil
}

// Foraged are the things that were gathered in the wild, by their own words, the title
// or a step, and of which nobody says who knows them.
func (t *Trace) Foraged() (out []*Item) {
	all := sync.OnceValue(func() bool {
		r := t.Reading.Recipe
		title := r.Name
		if r.About != nil {
			title += ". " + r.About.Text.Text
		}
		return SignsOf(title).Tell("foraged") || t.Tells("foraged")
	})
	wild := sync.OnceValue(func() bool {
		return slices.ContainsFunc(t.End.Items, func(o *Item) bool {
			return o.Says("foraged") || hasWord(strings.ToLower(o.Line.Name), "wild", "fungi")
		})
	})
	for _, i := range t.End.Items {
		name, own := strings.ToLower(i.Line.Name), i.Says("foraged")
		switch {
		case i.Base != nil || i.Says("trusted"):
		case own, hasWord(name, growsWild...) && all() && (hasWord(name, "wild", "mixed", "fungi") || !wild()):
			out = append(out, i)
		}
	}
	return out
}

var growsWild = []string{"mushroom", "mushrooms", "fungi", "fungus", "ceps", "chanterelles", "boletes", "puffball", "nettles", "garlic", "ramsons", "leaves", "greens", "herbs", "roots", "parsnips", "parsnip", "carrots", "berries", "seaweed", "samphire", "mussels", "cockles", "clams", "oysters", "limpets", "winkles", "razor clams", "flowers", "elderflowers", "sorrel", "dandelion", "hawthorn", "rosehips", "sloes", "acorns", "chestnuts", "horseradish", "celery"}

// PoisonNamed finds a poison by its key; it panics on a key that is not in the
// table.
func PoisonNamed(key string) *Poison {
	for _, p := range poisons() {
		if p.Key == key {
			return p
		}
	}
	panic("hazard: no poison " + key)
}
