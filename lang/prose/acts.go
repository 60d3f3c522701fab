package prose

import "strings"

// act is one thing that a sentence has done: its verb, with what the sentence
// says of its fire, its place and its time.
type act struct {
	verb
	name     string
	word     int    // its verb
	said     string // level of the fire, as said
	pan      bool   // a pan or a fire is named, or the verb needs none
	machine  bool   // a mixer, a microwave, a slow cooker: no fire of the kitchen
	times    []*Time
	every    *Time
	constant bool // stirred without a stop
	now      bool // stirred now and then
	few      bool // "for a few minutes"
	batched  bool // "in batches"
	other    bool // a time for another case was said of it
	until    string
	oven     *Heat
	shelf    string // of the oven
	reach    *Heat
	core     *Heat
	place    string
	from, to int // bytes of what is said of it, from its verb on
}

// timed tells whether it is said how long it is done.
func (a *act) timed() bool { return len(a.times) > 0 }

// reaches makes the act reach to byte n.
func (a *act) reaches(n int) { a.to = max(a.to, n) }

var (
	// leads may stand between a verb and the beginning of its clause.
	leads = set("and then or now gently slowly again meanwhile just also next carefully quickly briskly finally immediately at first once more well further blind")
	// behinds follow a verb whose form is a noun's or an adjective's too.
	behinds = set("the a an your it them for in at until till on over gently slowly under both each all uncovered covered well again with without hard to very this these those everything some half about and then briskly together as another overnight off one two three four five six blind min minimum")
	nouns   = set("brown toast stew roast grill steam cream salt smoke press mix roll rest cook boil set dry crisp cool warm whip slice char cover stand cure bubble cut work place return stick weight finish turn heat brine marinade pickle simmer chill poach fry bake")
	governs = set("leave let allow keep continue set put letting leaving")
	machine = set("mixer microwave blender processor airfryer machine")
)

// acts finds what a text has done, in order.
func (r *reader) acts(times []Time) (out []*act) {
	governed := -1 // word of the leave or let of this clause
	behindTime := map[int]bool{}
	for i := range times {
		behindTime[times[i].next] = true
	}
	until := -1 // verbs before this word are in an "until"
	for i := 0; i < len(r.words); i++ {
		w := r.words[i]
		if w.stop != 0 || w.low == "then" {
			governed = -1
			if w.stop == '.' || w.stop == ';' {
				until = -1
			}
		}
		if i < until {
			continue
		}
		switch w.low {
		case "until", "till":
			until = r.untilEnd(i)
			continue
		case "boil", "simmer":
			if r.before(i, "to the", "to a", "to boiling", "up to the", "to a full", "to a gentle", "to a bare", "to a rolling") > 0 && r.brought(i) {
				out = append(out, r.actAt(i, w.low))
				continue
			}
		}
		name := w.low
		if r.before(i, "before you", "before they", "before we") > 0 { // it is done in its own step
			continue
		}
		if _, is := verbs[name]; !is {
			if g := gerunds[name]; g != "" && r.before(i, "keep", "continue", "go on", "carry on") > 0 {
				out = append(out, r.actAt(i, g))
			} else if v := infinitive(name); v != "" && r.before(i, "should be", "must be", "may be", "is then", "are then", "to be") > 0 {
				out = append(out, r.actAt(i, v))
			}
			continue
		}
		if w.glue && i > 0 && (r.low(i-1) == "stir" || r.low(i-1) == "deep" || r.low(i-1) == "shallow" || r.low(i-1) == "pan" || r.low(i-1) == "dry" || r.low(i-1) == "blind") {
			if n := len(out); n > 0 && out[n-1].word == i-1 {
				out = out[:n-1]
			}
			if a := r.actAt(i, name); r.orders(i-1, r.low(i-1)) { // stir-fry is no noun
				out = append(out, a)
			}
			continue
		}
		if w.glue || i+1 < len(r.words) && r.words[i+1].glue && !gluesTo[r.low(i+1)] {
			continue
		}
		if governed >= 0 && i > governed {
			if r.low(i-1) == "the" || r.low(i-1) == "a" || r.low(i-1) == "an" || r.low(i-1) == "and" && adjectives[name] {
				continue
			}
			if g := out[len(out)-1]; g.word == governed && (r.low(i-1) == "to" || r.low(governed) == "let" || r.low(i-1) == "it" || r.low(i-1) == "them" || r.low(i-1) == "and") && !(r.low(i-1) == "to" && !verbs[name].hot() && verbs[name].device != NoDevice) {
				if r.low(i-1) != "and" || verbs[name].kind != Work { // but "leave it and beat"
					*g = *r.actAt(i, name)
					g.word, g.from = governed, r.words[governed].from
					if name == "steam" { // in its own heat
						g.device = NoDevice
					}
					continue
				}
			}
		}
		if !r.orders(i, name) && !behindTime[i] {
			continue
		}
		if r.noAct(i, name) {
			continue
		}
		out = append(out, r.actAt(i, name))
		if governs[name] {
			governed = i
		}
	}
	return out
}

var gluesTo = set("fry roast bake")

// actAt makes an act of a verb at word i.
func (r *reader) actAt(i int, name string) *act {
	v := verbs[name]
	a := &act{verb: v, name: name, word: i, from: r.words[i].from, to: r.words[i].to, place: v.place, pan: !v.pan}
	if i > 0 && r.words[i].glue && r.low(i-1) == "stir" {
		a.level = "high"
	}
	return a
}

// infinitive leads from "simmered" to simmer; empty when it is no participle.
func infinitive(low string) string {
	for _, end := range []string{"ed", "d"} {
		stem, ok := strings.CutSuffix(low, end)
		if !ok {
			continue
		}
		if _, is := verbs[stem]; is {
			return stem
		}
		if n := len(stem); n > 2 && stem[n-1] == stem[n-2] {
			if _, is := verbs[stem[:n-1]]; is {
				return stem[:n-1]
			}
		}
	}
	if stem, ok := strings.CutSuffix(low, "ied"); ok {
		if _, is := verbs[stem+"y"]; is {
			return stem + "y"
		}
	}
	if low == "left" {
		return "leave"
	}
	return ""
}

// brought tells whether the boil at word i is one that something is brought to.
func (r *reader) brought(i int) bool {
	from, _ := r.sentence(i)
	for k := i; k >= from && i-k < 14; k-- {
		switch r.low(k) {
		case "bring", "return", "heat", "raise":
			return true
		}
		if r.stops(k) == ';' {
			return false
		}
	}
	return false
}

// orders tells whether the verb at word i is an order, and no noun.
func (r *reader) orders(i int, name string) bool {
	if i == 0 || r.stops(i) == '.' || r.stops(i) == ';' {
		return true
	}
	lead := r.stops(i) != 0 || leads[r.low(i-1)]
	if !lead {
		return false
	}
	if r.stops(i) == 0 && (r.low(i-1) == "and" || r.low(i-1) == "or") || r.stops(i) == ',' {
		if nouns[name] {
			k := i + 1
			_, isTime, _ := r.spanAtSafe(k)
			return r.stops(k) != 0 && !r.listed(i) || behinds[r.low(k)] && !(r.low(k) == "and" && r.listed(i)) || isTime || k < len(r.words) && isNumeral(r.text[r.words[k].from:])
		}
		return true
	}
	return true
}

// listed tells whether word i closes a list of things: "butter, pepper and salt."
func (r *reader) listed(i int) bool {
	return r.low(i) == "salt" || r.low(i) == "cream" || r.low(i) == "stew" || r.low(i) == "brine" || r.low(i) == "marinade" || r.low(i) == "toast" || r.low(i) == "pickle"
}

func (r *reader) spanAtSafe(i int) (span, bool, int) {
	if i >= len(r.words) {
		return span{}, false, i
	}
	s, n, ok := r.spanAt(i)
	return s, ok, n
}

// noAct tells whether a verb is not what is done to food here: "heat the oven",
// "reduce the heat", "keep hot", "set the timer".
func (r *reader) noAct(i int, name string) bool {
	next := r.low(i + 1)
	switch name {
	case "reduce":
		if next == "the" || next == "heat" || next == "to" {
			switch r.low(i + 2) {
			case "heat", "temperature", "flame", "oven", "fire", "a", "low":
				return true
			}
			return next == "heat"
		}
	case "heat", "warm", "set", "turn", "reheat":
		for k := i + 1; k < len(r.words) && k < i+6 && (r.stops(k) == 0); k++ {
			if r.low(k) == "oven" && !r.putIn(i, k) || r.low(k) == "grill" || r.low(k) == "plates" || r.low(k) == "timer" {
				return true
			}
		}
	case "keep":
		switch next {
		case "hot", "warm", "stirring", "an", "some":
			return true
		}
		for k := i + 1; k < len(r.words) && r.stops(k) == 0 && k < i+5; k++ {
			if r.low(k) == "hot" || r.low(k) == "warm" || r.low(k) == "back" {
				return true
			}
		}
	case "let":
		return next == "down" || next == "us"
	case "leave":
		return next == "out" || next == "behind"
	case "cook", "grill", "roast", "toast", "stew":
		return r.low(i+1) == "s"
	}
	return false
}

// untilEnd is the word at which what "until" says at word i is over.
func (r *reader) untilEnd(i int) int {
	k := i + 1
	for ; k < len(r.words); k++ {
		if r.words[k].stop != 0 && k > i+1 || r.low(k) == "then" {
			return k
		}
		if r.low(k) == "and" {
			next := r.low(k + 1)
			if next == "then" || verbs[next].kind != noKind && !adjectives[next] || next == "serve" || next == "add" || next == "remove" || next == "take" {
				return k
			}
		}
		if k > i+1 {
			if _, is, _ := r.spanAtSafe(k); is {
				return k
			}
			switch r.low(k) {
			case "about", "around", "for":
				if _, is, _ := r.spanAtSafe(k + 1); is {
					return k
				}
			}
		}
	}
	return k
}

// untilText is what "until" says, as a margin can hold it; empty when it cannot.
func (r *reader) untilText(i, end int) string {
	if end <= i+1 || end-i > 9 {
		return ""
	}
	text := r.text[r.words[i+1].from:r.words[end-1].to]
	if strings.ContainsAny(text, ",|()\":?") {
		return ""
	}
	return text
}

// placeAt reads "in the fridge", "at room temperature" at word i.
func (r *reader) placeAt(i int) (place string, next int) {
	switch r.low(i) {
	case "in", "into", "to", "inside", "at", "on":
	default:
		return "", i
	}
	if r.low(i) == "at" || r.low(i) == "on" {
		if n := r.any(i, "at room temperature", "at kitchen temperature", "on the side", "on the worktop", "on the counter", "on the work surface", "on the bench", "on the table"); n > 0 {
			return "room", i + n
		}
		return "", i
	}
	k := i + 1
	if r.low(k) == "the" || r.low(k) == "a" || r.low(k) == "an" || r.low(k) == "your" {
		k++
	}
	cold, warm := false, false
	for ; ; k++ {
		switch r.low(k) {
		case "cold", "cool", "dark", "dry", "airy":
			cold = true
			continue
		case "warm", "sunny", "draughtless", "draught", "free", "airing":
			warm = true
			continue
		}
		break
	}
	if r.stops(k) != 0 && !(cold || warm) {
		return "", i
	}
	switch r.low(k) {
	case "fridge", "refrigerator":
		return "fridge", k + 1
	case "freezer":
		return "freezer", k + 1
	case "larder", "pantry", "cellar":
		return coolPlace, k + 1
	case "place", "spot", "room", "corner", "cupboard":
		switch {
		case warm:
			return "warm place", k + 1
		case cold:
			return coolPlace, k + 1
		}
	}
	return "", i
}

// coolPlace is the word of the margin for it.
const coolPlace = "cool place"
