package resolve

import (
	"slices"
	"strings"
	"sync"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// Further names of a line: by what its note says of it, and by the words for
// several things at once.

// partsOfFruit are what a note says is wanted of a fruit.
var partsOfFruit = []string{"juice", "zest", "rind", "peel"}

// notedForms adds the names that a line's note gives it. "2 lemons, juice" is
// the lemon juice too; "chicken, breast" the chicken breasts; and of two lines
// of water, "water, cold" is the cold water.
func (b *builder) notedForms(f *finder, l *Line, twice bool) {
	if l.kind != "" {
		f.add(b.cutUp(l.kind).keys, target{line: l}, false)
	}
	if strings.HasPrefix(l.Key, "minced ") && l.item() != nil && l.item().In("meat") {
		f.add([]string{b.fold("mince")}, target{line: l}, false)
		f.add(slices.Concat(b.cutUp(l.Name).keys[1:], []string{b.fold("mince")}), target{line: l}, true)
	}
	note := l.Note.Text
	if note == "" {
		return
	}
	t, name := target{line: l}, b.cutUp(l.Name).keys
	if len(name) == 0 {
		return
	}
	first, _, _ := strings.Cut(note, ",")
	lead := b.cutUp(first)
	if forWhat(note) { // butter for basting, the basting butter
		for i := range name { // the oil for frying, of olive oil
			f.add(slices.Concat(name[i:], lead.keys), t, true)
			if len(lead.keys) == 2 {
				f.add(slices.Concat(lead.keys[1:], name[i:]), t, true)
			}
		}
	}
	said := b.words(note)
	has := func(part string) bool {
		return slices.ContainsFunc(said, func(w word) bool {
			return w.key == part || part == "juice" && w.key == b.fold("juiced") || part == "zest" && w.key == b.fold("zested")
		})
	}
	for _, part := range partsOfFruit {
		if has(b.fold(part)) {
			of := t
			if named := partNamed[b.fold(part)]; l.gives(named) {
				of.part = named
			}
			f.add(slices.Concat(name, []string{b.fold(part)}), of, true)
			f.add([]string{b.fold(part)}, of, false)
		}
	}
	if len(lead.keys) == 1 && isPart(lead.keys[0]) { // chicken, breast
		f.add(slices.Concat(name, lead.keys), t, true)
		f.add(lead.keys, t, false)
	}
	if n := len(lead.keys); n > 0 && n <= 2 && (twice || n == 1 && isKind(lead.words[0].text, l)) {
		f.add(slices.Concat(lead.keys, name), t, true)
		if twice {
			for i := 1; i < len(name); i++ {
				f.add(slices.Concat(lead.keys, name[i:]), t, true)
			}
		} else {
			f.add(lead.keys, t, false)
		}
	}
}

// forWhat tells whether a note says what a thing is for: "for basting".
func forWhat(note string) bool {
	return len(note) > len("for ") && strings.EqualFold(note[:len("for ")], "for ")
}

// isKind tells whether a word before a name makes another known thing of it:
// romaine, of lettuce.
func isKind(word string, l *Line) bool {
	it := l.Item
	kind, ok := larder.Builtin().Find(word + " " + l.Name)
	if !ok {
		kind, ok = larder.Builtin().Find(word)
		return ok && it != nil && kind != it && kind.Counter == it.Counter
	}
	return it != kind
}

// turnedRound is the name of a line that is written from its head: "juice,
// lemon", "pepper, red, ground". The note loses what went into the name.
// ok is false when the two words are not the name of another thing.
func turnedRound(name, note string) (whole, rest string, ok bool) {
	first, rest, _ := strings.Cut(note, ",")
	first = strings.TrimSpace(first)
	if first == "" || strings.Contains(first, " ") || strings.HasSuffix(first, "ed") && first != "red" || first == "ground" || first == "fresh" || first == "frozen" || first == "raw" || first == "minced" {
		return "", "", false
	}
	whole = first + " " + name
	kind, ok := larder.Builtin().Find(whole)
	if it, known := larder.Builtin().Find(name); !ok || known && it == kind {
		return "", "", false
	}
	return whole, strings.TrimSpace(rest), true
}

func cutFold(s, sep string) (before, after string, ok bool) {
	i := quantity.IndexFold(s, sep)
	if i <= 0 || i+len(sep) >= len(s) {
		return "", "", false
	}
	return s[:i], s[i+len(sep):], true
}

// classWord is a word for several things at once, and what the larder calls it.
type classWord struct {
	said, class string
	keys        []string
}

var classWords = sync.OnceValue(func() (out []classWord) {
	for _, w := range [...][2]string{
		{"vegetables", "vegetable"},
		{"veg", "vegetable"},
		{"herbs", "herb"},
		{"fruit", "fruit"},
		{"dried fruit", "dried fruit"},
		{"spices", "spice"},
		{"seasonings", "seasoning"},
		{"flavourings", "flavouring"},
		{"flavorings", "flavouring"},
		{"fat", "fat"},
		{"liquid", "liquid"},
		{"nuts", "nut"},
		{"mushrooms", "mushroom"},
		{"greens", "greens"},
		{"dry ingredients", "dry ingredient"},
		{"meat", "meat"},
		{"fish", "fish"},
		{"shellfish", "shellfish"},
		{"cheese", "cheese"},
		{"pasta", "pasta"},
	} {
		c := classWord{said: w[0], class: w[1]}
		for _, word := range strings.Fields(w[0]) {
			c.keys = append(c.keys, larder.Fold(word))
		}
		out = append(out, c)
	}
	return out
})

// classForms adds "the vegetables", "the seasonings", "the meat": what of the
// list they mean. A line that is called so itself is meant before them.
func (b *builder) classForms(f *finder, lines []*Line) {
	var made []*SubList
	for _, w := range classWords() {
		if f.has(w.keys) {
			continue
		}
		i := slices.IndexFunc(made, func(s *SubList) bool { return s.class == w.class })
		if i < 0 {
			in := classed(lines, w.class)
			if len(in) == 0 {
				continue
			}
			i, made = len(made), append(made, &SubList{Name: w.said, Key: w.said, class: w.class, Lines: in})
		}
		f.add(w.keys, target{sub: made[i]}, true)
	}
}

// classed are the lines of a class of the larder.
func classed(lines []*Line, class string) (out []*Line) {
	for _, l := range lines {
		if it := l.item(); it != nil && !l.Serving && (it.In(class) || class == "spice" && l.spooned(it)) {
			out = append(out, l)
		}
	}
	return out
}

// item is what a line is by the larder, past the words that change nothing of
// it; nil: not known.
func (l *Line) item() *larder.Item {
	if l.Known == nil {
		return nil
	}
	return l.Known.Item
}

// spooned tells whether a herb or root is its ground seed or powder, as the
// spoon says: a teaspoon of coriander.
func (l *Line) spooned(it *larder.Item) bool {
	return (it.Name == "coriander" || it.Name == "ginger") && l.Quantity != nil && l.Quantity.Dim == quantity.Volume
}

// unnamed are words behind a class, or before it, in a sentence that only speaks of
// what went in: "until the vegetables are tender".
var (
	speaksAfter  = wordSet("is are was were has have had should will must may can begin begins start starts look looks turn turns become becomes get gets feel feels on that which")
	speaksBefore = wordSet("until till when once while if as because since so before after than for from of like off remove discard skim lift take strain")
	lifts        = wordSet("remove discard skim lift take strain")
	takesFat     = wordSet("in melt add rub cream heat beat with cut work put")
	takesLiquid  = wordSet("add pour stir whisk beat in with to")
)

// hollows are what is made in a thing that is cooking already.
var hollows = wordSet("slit cut incision hole pocket gash slash hollow well")

// onlySpoken tells whether a class word of n words at i is said of what is there
// already, and takes nothing. What is said of it begins at word first.
func (sc *scanner) onlySpoken(sub *SubList, first, i, n int) bool {
	if end := i + n; end < len(sc.words) && !sc.words[end].stop && speaksAfter[sc.lower(end)] && sc.lower(end) != "on" {
		return true
	}
	for k := first - 1; k > 0 && k >= first-2; k-- { // among the meat
		switch sc.lower(k) {
		case "among", "amongst", "around", "round", "beside", "beneath", "underneath", "between":
			return true
		}
	}
	for k := first - 1; k > 0 && k >= first-3; k-- { // slits in the meat
		if w := sc.lower(k); w == "in" || w == "into" {
			if hollows[sc.words[k-1].key] {
				return true
			}
			break
		}
	}
	if i > 0 && (sc.lower(i-1) == "a" || sc.lower(i-1) == "an") && sc.lower(i+n) == "of" { // a seasoning of salt
		return true
	}
	touched := slices.ContainsFunc(sub.Lines, func(l *Line) bool { return sc.story.touched[l] })
	lead := ""
	for k := first - 1; k >= 0 && k >= first-8 && !sc.words[k+1].opens; k-- {
		w := sc.lower(k)
		if speaksBefore[w] && (touched || !lifts[w]) {
			return true
		}
		if !articles[w] && lead == "" && w != "hot" && w != "melted" && w != "remaining" {
			lead = w
		}
		if sc.words[k].stop || sc.words[k].opens || w == "and" || w == "then" {
			break
		}
	}
	switch sub.class {
	case "fat":
		return !takesFat[lead]
	case "liquid":
		return !takesLiquid[lead]
	}
	return false
}
