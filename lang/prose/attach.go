package prose

import (
	"slices"
	"time"
)

// attach gives every act what the text says of it.
func (r *reader) attach(acts []*act, times []Time, heats []Heat) (all []*act, asked []*Time) {
	all = acts
	sentenceOf := func(i int) int { from, _ := r.sentence(i); return from }
	before := func(i int) *act { // the nearest act before word i in its sentence
		s := sentenceOf(i)
		var found *act
		for _, a := range all {
			if a.word < i && a.word >= s {
				found = a
			}
		}
		return found
	}
	near := func(i int) *act {
		if a := before(i); a != nil {
			return a
		}
		_, end := r.sentence(i)
		for _, a := range all {
			if a.word >= i && a.word < end {
				return a
			}
		}
		return nil
	}
	insert := func(a *act) *act {
		at := len(all)
		for k, other := range all {
			if other.word > a.word {
				at = k
				break
			}
		}
		all = append(all[:at:at], append([]*act{a}, all[at:]...)...)
		return a
	}

	all = r.withoutTurns(all, heats)
	for k := range heats {
		h := &heats[k]
		if r.held(h.word) { // "keep hot in a low oven"
			h.Whose = Unknown
		}
		switch h.Whose {
		case Preheat:
			if a := r.bakes(all, h, times); a == nil && r.timedAt(h, times) {
				a = insert(&act{verb: verb{kind: Leave, device: Oven}, name: "oven", word: h.word, from: h.From, pan: true})
				a.oven = h
				a.reaches(h.To)
			}
		case OfOven:
			if r.turnedTo(h) {
				if a := r.bakes(all, h, times); a != nil && a.oven == nil || a != nil && a.oven == h { // drop the oven to 160 C and cook
					a.oven = h
					a.reaches(h.To)
					continue
				}
			}
			a := before(h.word)
			if a != nil && a.device == Ring && a.name != "cook" || a == nil {
				if n := near(h.word); n != nil && n != a && n.device == Oven {
					a = n
				} else if a == nil {
					a = n
				}
			}
			switch {
			case a == nil:
				a = insert(&act{verb: verb{kind: Leave, device: Oven}, name: "oven", word: h.word, from: h.From, pan: true})
			case a.oven != nil && a.oven != h: // then at 160 C
				a = insert(&act{verb: verb{kind: Leave, device: Oven}, name: "oven", word: h.word, from: h.From, pan: true})
			}
			a.oven = h
			a.toOven()
			a.reaches(h.To)
		case OfFood:
			if a := near(h.word); a != nil && r.reached(h.word) && (a.device == Ring) {
				a.reach, a.pan = h, true
				a.reaches(h.To)
			}
		case OfCore:
			if a := near(h.word); a != nil {
				a.core = h
				a.reaches(h.To)
			}
		}
	}

	for i := 0; i < len(r.words); i++ {
		if place, next := r.placeAt(i); place != "" {
			if r.before(i, "out", "taken", "come") == 0 {
				if a := near(i); a != nil && !a.hot() {
					a.place = place
					a.reaches(r.words[next-1].to)
				}
			}
			i = next - 1
			continue
		}
		if level, next := r.levelAt(i); level != "" {
			if a := near(i); a != nil {
				a.said, a.pan = level, true
				a.reaches(r.words[next-1].to)
			}
			i = next - 1
			continue
		}
		switch w := r.low(i); {
		case w == "until" || w == "till":
			end := r.untilEnd(i)
			if a := before(i); a != nil && a.until == "" {
				a.until = r.untilText(i, end)
				a.reaches(r.words[end-1].to)
			}
		case machine[w], w == "cooker" && (r.low(i-1) == "slow" || r.low(i-1) == "pressure" || r.low(i-1) == "rice"), w == "fryer" && r.low(i-1) == "air", w == "speed":
			if a := near(i); a != nil && !r.bracketed(i) {
				a.machine = true
			}
		case pans[w] && w != "heat":
			if a := near(i); a != nil && r.before(i, "the grill") == 0 {
				a.pan = true
			}
		case w == "oven" && r.inOven(i):
			if a := near(i); a != nil && a.toOven() {
				a.reaches(r.words[i].to)
			}
		case w == "grill" && r.under(i):
			if a := near(i); a != nil {
				a.device, a.level, a.kind, a.pan, a.short = Grill, ringWords[r.low(i-1)], Watch, true, false
				if i > 1 && r.words[i-1].glue { // medium-high
					a.level = between(ringWords[r.low(i-2)], a.level)
				}
				a.reaches(r.words[i].to)
			}
		case shelves[w] != "" && (r.low(i+1) == "shelf" || r.low(i+1) == "rack" || r.says(i+1, "of", "the", "oven")):
			if a := near(i); a != nil {
				a.shelf = shelves[w]
			}
		case w == "oil" || w == "fat" || w == "milk":
			if a := before(i); a != nil && a.name == "heat" {
				a.pan = a.pan || r.pannedLater(i)
			}
		case w == "batches" && r.low(i-1) != "of", r.says(i, "at", "a", "time"):
			if a := near(i); a != nil && a.kind == Watch {
				a.batched = true
			}
		case r.says(i, "few", "minutes"), r.says(i, "few", "seconds"), r.says(i, "moment"):
			if a := near(i); a != nil {
				a.few = true
			}
		}
	}
	r.manner(near)

	for k := range times {
		t := &times[k]
		switch {
		case t.Role == Else:
			asked = append(asked, t)
			if a := near(t.word); a != nil {
				a.other = true
			}
		case t.Role == Every:
			if a := near(t.word); a != nil {
				a.every = t
				a.reaches(t.To)
			}
		case t.Role == Base:
			for _, a := range all {
				for _, x := range a.times {
					if x.Role == Per {
						a.times = append(a.times, t)
						a.reaches(t.To)
						break
					}
				}
			}
		case t.Lasting() && t.Span.Low >= aLife: // of those who cook, not of what is cooked
		case t.Lasting():
			a := near(t.word)
			if own := r.atHeat(all, t); own != nil {
				a = own
			}
			if a != nil && t.Brackets && a.timed() && a.times[len(a.times)-1].Span.Overnight && !t.Span.Overnight && t.Span.Low >= shortNight { // overnight (12 to 14 h)
				a.times[len(a.times)-1] = t
				a.reaches(t.To)
				continue
			}
			if a != nil && t.Brackets && a.timed() {
				t.Role = Else
				asked = append(asked, t)
				continue
			}
			if a == nil && r.preheating(t.word) && !r.heatBefore(heats, t.word) {
				continue
			}
			if a == nil && len(all) > 0 {
				for _, other := range all {
					if other.word < t.word {
						a = other
					}
				}
				if a != nil && a.timed() {
					a = nil
				}
			}
			if a == nil {
				a = insert(&act{verb: verb{kind: Leave}, name: "leave", word: t.word, from: t.From, pan: true})
			}
			if s, _ := r.sentence(t.word); r.slow(s, t.word) {
				a.machine = true
			}
			a.times = append(a.times, t)
			a.reaches(t.To)
			if t.word < a.word {
				a.from = min(a.from, t.From)
			}
		}
	}
	return all, asked
}

// aLife is a time that no step of a meal takes.
const aLife = 365 * 24 * time.Hour

// shortNight is how long "overnight" is at least, where hours in brackets say how long.
const shortNight = 5 * time.Hour

// withoutTurns leaves out what only turns the heat: "then reduce to gas 4".
func (r *reader) withoutTurns(all []*act, heats []Heat) []*act {
	out := all[:0:0]
	for _, a := range all {
		turning := false
		for k := range heats {
			h := &heats[k]
			if turns[a.name] && (h.Whose == OfOven || h.Whose == Preheat) && h.word > a.word && h.word-a.word <= 6 && r.stops(h.word) == 0 {
				turning = true
			}
		}
		if !turning {
			out = append(out, a)
		}
	}
	return out
}

// bakes puts what the sentence goes on to do, "and cook for an hour", into an oven that it
// has just set to a heat; nil: nothing of the kind.
func (r *reader) bakes(all []*act, h *Heat, times []Time) *act {
	_, end := r.sentence(h.word)
	for _, a := range all {
		if a.word < h.next || a.word >= end {
			continue
		}
		if a.device == Oven {
			return a
		}
		timed := false
		for k := range times {
			timed = timed || times[k].Lasting() && times[k].word > a.word && times[k].word < a.word+6 && times[k].word < end
		}
		if _, level := r.levelNear(a.word, end); !timed || level || a.name != "cook" && a.name != "give" && a.name != "leave" && a.name != "continue" {
			return nil
		}
		a.oven = h
		a.toOven()
		return a
	}
	return nil
}

// levelNear tells whether a level of a fire is said between two words.
func (r *reader) levelNear(from, to int) (string, bool) {
	for k := from; k < to; k++ {
		if level, next := r.levelAt(k); level != "" && next > k+1 {
			return level, true
		}
	}
	return "", false
}

// timedAt tells whether a time stands right behind a heat that an oven is turned to: "reduce
// to gas 4 for a further 40 minutes".
func (r *reader) timedAt(h *Heat, times []Time) bool {
	if !r.turned(h.word) && r.before(h.word, "to") == 0 {
		return false
	}
	for k := range times {
		t := &times[k]
		if t.Lasting() && t.word >= h.next && t.word <= h.next+1 && r.stops(h.next) == 0 && r.low(h.next) == "for" {
			return r.turnedTo(h)
		}
	}
	return false
}

// turnedTo tells whether an oven that is hot is turned up or down to a heat.
func (r *reader) turnedTo(h *Heat) bool {
	from, _ := r.sentence(h.word)
	for b := h.word; b >= from && b > h.word-6; b-- {
		if turns[r.low(b)] && r.low(b) != "set" && r.low(b) != "bring" {
			return true
		}
	}
	return false
}

// atHeat is the act of the heat that a time stands right before: "1½ hours at 160 C".
func (r *reader) atHeat(all []*act, t *Time) *act {
	for _, a := range all {
		if h := a.oven; h != nil && h.word == t.next+1 && r.low(t.next) == "at" && r.stops(t.next) == 0 && r.stops(h.word) == 0 {
			return a
		}
	}
	return nil
}

// heatBefore tells whether a heat of the oven stands just before word i.
func (r *reader) heatBefore(heats []Heat, i int) bool {
	return slices.ContainsFunc(heats, func(h Heat) bool { return h.Whose == OfOven && h.word < i && i-h.next < 3 })
}

// inOven are verbs that are done in an oven where one is named with them.
var inOven = set("cook dry heat warm brown braise stew reheat simmer toast finish")

// toOven puts an act into an oven that is named with it, where it may be done in one.
func (a *act) toOven() bool {
	if a.device == Oven || !plainVerbs[a.name] && !inOven[a.name] {
		return false
	}
	a.device, a.kind, a.pan, a.short = Oven, Leave, true, false
	return true
}

// shelves are the places of an oven.
var shelves = map[string]string{"top": "top", "upper": "top", "highest": "top", "middle": "middle", "centre": "middle", "bottom": "bottom", "lower": "bottom", "lowest": "bottom"}

// held tells whether the sentence of word i only keeps something hot.
func (r *reader) held(i int) bool {
	from, _ := r.sentence(i)
	for k := i; k >= from; k-- {
		if (r.low(k) == "keep" || r.low(k) == "hold") && r.holdState(k) != "" {
			return true
		}
	}
	return false
}

// preheating tells whether the sentence of word i heats an oven.
func (r *reader) preheating(i int) bool {
	from, to := r.sentence(i)
	for k := from; k < to; k++ {
		if r.low(k) == "oven" && r.preheats(from, k) {
			return true
		}
	}
	return false
}

// slow tells whether a machine that cooks by itself is named before word i.
func (r *reader) slow(from, i int) bool {
	for k := from; k < i; k++ {
		if r.low(k) == "cooker" || r.low(k) == "microwave" {
			return true
		}
	}
	return false
}

// inOven tells whether the oven at word i is one that something goes into.
func (r *reader) inOven(i int) bool {
	for k := i - 1; k >= 0 && k > i-5 && r.stops(k+1) == 0; k-- {
		switch r.low(k) {
		case "in", "into", "to", "inside":
			return true
		case "of", "from", "off", "out":
			return false
		}
	}
	return false
}

// under tells whether something goes under the grill at word i.
func (r *reader) under(i int) bool {
	for k := i - 1; k >= 0 && k > i-5 && r.stops(k+1) == 0; k-- {
		if r.low(k) == "under" || r.low(k) == "beneath" || r.low(k) == "below" {
			return true
		}
	}
	return false
}

func (r *reader) pannedLater(i int) bool {
	_, end := r.sentence(i)
	for k := i; k < end; k++ {
		if pans[r.low(k)] {
			return true
		}
	}
	return false
}

var (
	stirs  = set("stirring whisking beating tossing turning shaking basting skimming moving scraping stir whisk beat toss turn shake baste stirred")
	always = []string{"constantly", "continuously", "continually", "all the time", "the whole time", "without stopping", "without ceasing", "without a stop", "without pause", "all the while", "unceasingly", "ceaselessly"}
	often  = []string{"now and then", "now and again", "occasionally", "often", "frequently", "from time to time", "once or twice", "a few times", "regularly", "sometimes", "at intervals", "several times", "every now and then", "every so often"}
)

// manner reads how an act is stirred.
func (r *reader) manner(near func(int) *act) {
	for i := range r.words {
		n := r.any(i, always...)
		if n == 0 && !(r.low(i) == "stirring" && r.before(i, "keep", "never stop") > 0) && !r.says(i, "ceasing", "to", "stir") {
			if k := r.any(i, often...); k > 0 && r.stirred(i, i+k) {
				if a := near(i); a != nil {
					a.now = true
					a.reaches(r.words[i+k-1].to)
				}
			}
			continue
		}
		if n == 0 {
			n = 1
		}
		if r.stirred(i, i+n) || r.low(i) == "stirring" || r.low(i) == "ceasing" {
			if a := near(i); a != nil {
				a.constant = true
				a.reaches(r.words[i+n-1].to)
			}
		}
	}
}

// stirred tells whether a word of stirring stands by words i to next.
func (r *reader) stirred(i, next int) bool {
	for k := i - 1; k >= 0 && k >= i-5; k-- {
		if stirs[r.low(k)] {
			return true
		}
		if r.stops(k) == '.' {
			break
		}
	}
	for k := next; k < len(r.words) && k < next+3 && r.stops(k) == 0; k++ {
		if stirs[r.low(k)] {
			return true
		}
	}
	return false
}
