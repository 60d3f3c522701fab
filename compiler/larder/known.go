package larder

import (
	"slices"
	"strings"
)

// Known is what the larder makes of a name: the one way by which every pass
// knows a thing.
type Known struct {
	Item *Item
	Part string // "sprig" of "thyme sprigs", in its singular; empty: the whole thing
	Name string // the words that were found: "butter" of "soft butter"; folded
	// Left are the words that were left out, in order, folded: what was done to
	// it, how, its size, where it comes from. A form or a state among them
	// ("grated") picks a density as a note does.
	Left []string
	// Changed tells that one of them changes what a measure of the thing weighs,
	// or whether it is raw: cooked, soaked, frozen. What is in it stays.
	Changed bool
}

// Know finds a thing by its name. The whole name comes first. Else words that
// say how, how large, from where or in what state are left out at its head, and
// those of a state at its end ("butter, melted" without its comma); a part word
// at the end or before "of" is taken off ("thyme sprigs", "zest of a lemon"), and so is
// what says only what it is for or where it lies (without).
// False: not known; what its words are may be asked of Within.
func (t *Table) Know(name string) (Known, bool) {
	if k := t.Named(name); k != nil {
		return *k, true
	}
	return Known{}, false
}

// Named is Know; nil: not known. The answer is kept and others have it too.
func (t *Table) Named(name string) *Known {
	if k, ok := t.known.Load(name); ok {
		return k.(*Known)
	}
	var out *Known
	if k, ok := t.know(name); ok {
		k.Left = slices.Clip(k.Left)
		out = &k
	}
	if t.asked.Load() < mostKept {
		t.asked.Add(1)
		t.known.Store(strings.Clone(name), out)
	}
	return out
}

// mostKept bounds the answers of Know that are kept: a book has the same names again and
// again.
const mostKept = 1 << 15

func (t *Table) know(name string) (Known, bool) {
	words := strings.Fields(level(name))
	if k, ok := t.bare(words); ok {
		return k, true
	}
	if other := t.respelt(words); other != nil {
		return t.know(strings.Join(other, " "))
	}
	if k, ok := t.parted(words); ok {
		return k, true
	}
	if k, ok := t.turned(words); ok {
		return k, true
	}
	return t.without(words)
}

// turned finds a thing whose kind stands behind it, as on a label or in a ledger: "mustard
// seeds black", "curry powder mild". The whole of it must be a name then, save what says how.
func (t *Table) turned(words []string) (k Known, ok bool) {
	last := len(words) - 1
	if last < 1 || slices.Contains(words, "of") {
		return k, false
	}
	w := words[last]
	if t.plain[w] || t.leave[w] || t.change[w] {
		k, ok = t.bare(words[:last])
		k.Left, k.Changed = append(k.Left, w), k.Changed || t.change[w]
		return k, ok
	}
	name := w + " " + strings.Join(words[:last], " ")
	k.Item, ok = t.Find(name)
	k.Name = Fold(name)
	return k, ok
}

// shapes are what a thing is cut into or sold as, behind its name.
var shapes = set("chunk cube shaving ribbon matchstick baton trimming offcut half quarter button ring wedge crumble curl sliver piece strip crumb medallion goujon noisette round disc")

// packed are what a thing is sold in, behind its name.
var packed = set("block tin can jar tub pack packet carton bottle wheel ball log bag box sachet punnet tube")

// counted are words that may stand between "of" and a thing: the zest of half a lemon.
var counted = set("a an the half one two three four five six 1 2 3 4 5 6 8 10 12 ½ 1/2 some another both")

// parted finds a thing with a word of its kind or of a part behind it, or a part before
// "of".
func (t *Table) parted(words []string) (Known, bool) {
	if len(words) < 2 {
		return Known{}, false
	}
	last := len(words) - 1
	if is := families[Singular(words[last])]; is != nil {
		if k, ok := t.bare(words[:last]); ok && k.Part == "" && is(k.Item) {
			return k, true
		}
	}
	if part := Singular(words[last]); t.isPart(part) {
		if k, ok := t.bare(words[:last]); ok {
			k.Part = part
			return k, true
		}
	}
	w := Singular(words[last])
	if w == "tin" || w == "can" {
		if k, ok := t.bare(append([]string{"tinned"}, words[:last]...)); ok {
			return k, true
		}
	}
	if shapes[w] || packed[w] {
		if k, ok := t.bare(words[:last]); ok && k.Part == "" {
			k.Left = append(k.Left, words[last])
			return k, true
		}
	}
	return t.partOf(words)
}

// partOf finds a thing behind "of" and a part of it: the zest of half a lemon, the white part
// of 2 leeks, the whites of 3 eggs.
func (t *Table) partOf(words []string) (Known, bool) {
	of := slices.Index(words, "of")
	if of < 1 || of > 3 || of == len(words)-1 {
		return Known{}, false
	}
	head, rest := words[:of], words[of+1:]
	if head[0] == "the" {
		head = head[1:]
	}
	if len(head) == 2 && Singular(head[1]) == "part" {
		head = head[:1]
	}
	if len(head) != 1 || !t.isPart(Singular(head[0])) {
		return Known{}, false
	}
	for len(rest) > 1 && counted[rest[0]] {
		rest = rest[1:]
	}
	part := Singular(head[0])
	if k, ok := t.bare(rest); ok {
		if whole, ok := t.Find(k.Item.Name + " " + part); ok && (part == "white" || part == "yolk") { // an egg white is a thing of its own
			return Known{Item: whole, Name: Fold(whole.Name), Left: k.Left, Changed: k.Changed}, true
		}
		k.Part = part
		return k, true
	}
	return Known{}, false
}

// respelt writes the words of a name as the tables do; nil where they do already.
func (t *Table) respelt(words []string) (out []string) {
	for i, w := range words {
		s, ok := t.spellings[w]
		if ok && (w == "goat" || w == "goats") && (i+1 == len(words) || words[i+1] != "cheese" && words[i+1] != "milk") {
			ok = false
		}
		if ok && s != w {
			if out == nil {
				out = slices.Clone(words)
			}
			out[i] = s
		}
	}
	return out
}

// families are words that say again at the end of a name what kind of thing it is:
// mozzarella cheese, penne pasta, cod fish.
var families = map[string]func(*Item) bool{
	"cheese": func(it *Item) bool { return it.Has(Dairy) },
	"fish":   func(it *Item) bool { return it.Has(Fish) },
	"pasta": func(it *Item) bool {
		return it.Counter == "dry goods" && len(it.Contains) > 0 && it.Contains[0].Substance == "wheat"
	},
	"wine":    func(it *Item) bool { return it.Has(Alcohol) },
	"nut":     func(it *Item) bool { return it.Has(Nut) },
	"sausage": func(it *Item) bool { return it.Has(Meat) },
	"bread":   func(it *Item) bool { return it.Counter == "bakery" },
	"lettuce": func(it *Item) bool { return it.Counter == "greengrocer" },
}

// FindPart is Know for what depends on weight and rawness: a thing whose state
// changes either is known only by its whole name.
func (t *Table) FindPart(name string) (it *Item, part string, ok bool) {
	return t.Named(name).Weighed()
}

// Weighed is the thing where its weight and rawness are those of its name, with the part
// that was named; not so of a nil Known.
func (k *Known) Weighed() (it *Item, part string, ok bool) {
	if k == nil || k.Changed {
		return nil, "", false
	}
	return k.Item, k.Part, true
}

// bare finds a name, leaving out words at its head one by one, then words of a
// state at its end.
func (t *Table) bare(words []string) (k Known, ok bool) {
	for ; len(words) > 0; words = words[1:] {
		if k, ok = t.ended(words, k); ok {
			return k, true
		}
		w := words[0]
		switch {
		case t.plain[w] || t.leave[w]:
		case t.change[w]:
			k.Changed = true
		case w == "and" && len(k.Left) > 0: // peeled and chopped
		default:
			return Known{}, false
		}
		k.Left = append(k.Left, w)
	}
	return Known{}, false
}

// ended finds some words, leaving out those of a state at their end.
func (t *Table) ended(words []string, k Known) (Known, bool) {
	left := slices.Clone(k.Left)
	for n := len(words); n > 0; n-- {
		name := strings.Join(words[:n], " ")
		if it, ok := t.Find(name); ok {
			k.Item, k.Name, k.Left = it, Fold(name), append(left, words[n:]...)
			return k, true
		}
		w := words[n-1]
		switch {
		case n < 2 || !t.states[w]:
			return k, false
		case t.change[w]:
			k.Changed = true
		case !t.leave[w]:
			return k, false
		}
	}
	return k, false
}

// promises are words that say a thing is made without what its other words name.
var promises = []string{"free", "vegan", "vegetarian", "plant", "plant-based", "non-dairy", "dairy-free", "mock", "without", "no", "not", "imitation", "substitute", "alternative", "style"}

// Within are the things that words of an unknown name name, the longest first
// from the left: "hazelnut spread" names hazelnut. It is a guess, for cautions
// only; a name that promises to be without something is not guessed at.
func (t *Table) Within(name string) (out []*Item) {
	words := strings.FieldsFunc(level(name), func(r rune) bool { return r == ' ' || r == '/' || r == '&' })
	for _, w := range words {
		if slices.Contains(promises, w) || strings.HasSuffix(w, "-free") || strings.HasPrefix(w, "non-") {
			return nil
		}
	}
	for i := 0; i < len(words); i++ {
		for n := len(words); n > i; n-- {
			tail := strings.Join(words[i:n], " ")
			it, ok := t.Find(tail)
			if !ok || n-i == 1 && n < len(words) && t.quiet[Fold(tail)] && len(it.Contains) == 0 {
				continue
			}
			if !slices.Contains(out, it) {
				out = append(out, it)
			}
			i = n - 1
			break
		}
	}
	return out
}
