package prose

import (
	"strings"

	"tamis/lang/quantity"
)

// Whose says what has a temperature.
type Whose int

// Whose heat it may be.
const (
	OfOven  Whose = iota // of an oven that something is in
	Preheat              // of an oven that is heated, and holds nothing yet
	OfFood               // oil, syrup, milk: until it is so hot
	OfCore               // the middle
	Unknown              // nobody says
)

// Heat is a temperature, a mark or the word of an oven in a text. Several
// scales of one heat, 180C/160C fan/gas 4, are one.
type Heat struct {
	From, To  int // bytes of the text
	Whose     Whose
	Heat      quantity.Heat
	Low, High float64   // in Celsius of an oven without a fan
	Others    []Reading // what the other scales come to, one by one

	word, next int
}

// Reading is one figure of a heat that was said in several scales.
type Reading struct {
	From, To  int
	Heat      quantity.Heat
	Low, High float64 // in Celsius as it stands
}

// ovenWords are how old and new books call an oven, and the word of the margin.
var ovenWords = map[string]string{
	"slow": "slow", "cool": "slow", "low": "slow", "gentle": "slow", "moderate": "moderate", "medium": "moderate", "hot": "hot", "quick": "hot", "brisk": "hot", "sharp": "hot",
}

// heats reads all temperatures in the text.
func (r *reader) heats() (out []Heat) {
	for i := 0; i < len(r.words); {
		one, next, ok := r.heatAt(i)
		if !ok {
			i++
			continue
		}
		h := Heat{From: one.From, To: one.To, word: i, next: next, Others: []Reading{one}}
		for { // 180C/160C fan/gas 4
			k := next
			if k >= len(r.words) || !strings.ContainsRune("/(,", rune(r.stops(k))) && r.low(k) != "or" && r.low(k) != "fan" {
				break
			}
			if r.low(k) == "or" {
				k++
			}
			more, e, ok := r.heatAt(k)
			if !ok || r.stops(k) == ',' && more.Heat.Gas == "" && !more.Heat.Fan && one.Heat.Word == "" && !h.bracketed(r, k) {
				break
			}
			h.Others = append(h.Others, more)
			h.To, h.next, next = more.To, e, e
		}
		main := h.Others[0]
		for _, o := range h.Others { // a figure says more than a word
			if !o.Heat.Fan && o.Heat.Word == "" {
				main = o
				break
			}
		}
		h.Heat, h.Low, h.High = main.Heat, main.Low, main.High
		if h.Heat.Fan {
			h.Low, h.High = h.Low+quantity.FanOffset, h.High+quantity.FanOffset
		}
		h.Whose = r.whose(&h)
		out = append(out, h)
		i = next
	}
	return out
}

func (h *Heat) bracketed(r *reader, k int) bool { return r.bracketed(k) }

// heatAt reads one temperature, mark or oven word at word i.
func (r *reader) heatAt(i int) (h Reading, next int, ok bool) {
	w := r.words[i]
	switch {
	case w.low == "gas":
		k := i + 1
		if r.low(k) == "mark" {
			k++
		} else if r.low(k) == "down" || r.low(k) == "up" || r.low(k) == "oven" {
			k++
		}
		if r.low(k) == "to" && (k > i+1 || r.turned(i)) { // turn the gas to 2
			k++
		}
		if k >= len(r.words) || r.stops(k) != 0 || !isNumeral(r.text[r.words[k].from:]) {
			return h, i, false
		}
		n, size, _ := quantity.ReadNumber(r.text[r.words[k].from:], quantity.Options{Prose: true})
		g, known := quantity.GasMarkOf(n)
		if !known {
			return h, i, false
		}
		c := float64(g.Customary)
		return Reading{w.from, r.words[k].from + size, quantity.Heat{Gas: g.Name}, c, c}, r.at(k, r.words[k].from+size), true
	case w.low == "fan":
		k := i + 1
		if r.low(k) == "oven" {
			k++
		}
		if r.low(k) == "at" {
			k++
		}
		if k < len(r.words) && r.words[k].stop == 0 {
			if t, e, is := r.degreesAt(k); is {
				t.Heat.Fan, t.From = true, w.from
				return t, e, true
			}
		}
		return h, i, false
	case ovenWords[w.low] != "":
		return r.ovenAt(i)
	}
	h, next, ok = r.degreesAt(i)
	if ok && r.low(next) == "fan" && strings.ContainsRune("\x00(", rune(r.stops(next))) {
		k := next + 1
		if r.low(k) == "oven" {
			k++
		}
		if _, _, other := r.degreesAt(min(k, len(r.words)-1)); !other || r.stops(k) != 0 || k >= len(r.words) { // "200 C (fan 180 C)": the other one
			h.Heat.Fan, h.To = true, r.words[next].to
			next++
		}
	}
	return h, next, ok
}

// turned tells whether the verb just before word i turns a fire up or down, or sets it.
func (r *reader) turned(i int) bool {
	for k := i - 1; k >= 0 && k >= i-3 && r.stops(k+1) == 0; k-- {
		if turns[r.low(k)] {
			return true
		}
	}
	return false
}

// turns are verbs of changing an oven's heat.
var turns = set("turn lower reduce drop raise increase set bring knock")

// ovenAt reads "moderately hot oven", "oven, slow".
func (r *reader) ovenAt(i int) (h Reading, next int, ok bool) {
	word := ovenWords[r.low(i)]
	from := i
	switch r.low(i - 1) {
	case "very":
		if from--; word == "slow" || word == "hot" {
			word = "very " + word
		}
	case "moderately", "fairly", "pretty", "rather":
		if from--; word == "slow" || word == "hot" {
			word = "moderately " + word
		}
	}
	k := i + 1
	if r.low(k) != "oven" || r.stops(k) != 0 {
		return h, i, false
	}
	n, known := quantity.HeatNamed(word)
	if !known {
		return h, i, false
	}
	return Reading{r.words[from].from, r.words[k].to, quantity.Heat{Word: word}, float64(n.Celsius.Low), float64(n.Celsius.High)}, k + 1, true
}

// leastFahrenheit is what no oven gets to in Celsius, so that "350 degrees"
// without a scale has one meaning.
const leastFahrenheit = 300

// leastFan is the least that an oven with a fan, which says Celsius, is set to.
const leastFan = 50

// bareHeat tells whether a figure stands behind "at" in the words from one to another that may
// be degrees, nobody says of what, and other ones than an oven was set to.
func (r *reader) bareHeat(from, to int, other *Heat) bool {
	for k := from; k < to; k++ {
		if r.low(k) != "at" || k+1 >= to || r.stops(k+1) != 0 || !isNumeral(r.text[r.words[k+1].from:]) {
			continue
		}
		n, size, _ := quantity.ReadNumber(r.text[r.words[k+1].from:], quantity.Options{Prose: true})
		if size == 0 || r.words[k+1].from+size != r.words[k+1].to || n.Float() < hottestFood || n.Float() > 550 {
			continue
		}
		if _, isTime, _ := r.spanAtSafe(k + 1); !isTime && int(n.Float()) != other.Heat.Temp.Low && int(n.Float()) != other.Heat.Temp.High {
			return true
		}
	}
	return false
}

// degreesAt reads degrees at word i: 180 C, 180°, 350 degrees F.
func (r *reader) degreesAt(i int) (h Reading, next int, ok bool) {
	w := r.words[i]
	if w.text(r)[0] < '0' || w.text(r)[0] > '9' {
		return h, i, false
	}
	t, n, _ := quantity.ReadTemperature(r.text[w.from:], quantity.Options{Prose: true})
	if v, size, _ := quantity.ReadNumber(r.text[w.from:w.to], quantity.Options{Prose: true}); n == 0 && size == w.to-w.from && r.low(i+1) == "fan" && r.stops(i+1) == 0 && v.Float() >= leastFan && v.Float() < leastFahrenheit { // at 150 fan
		t, n = quantity.Temperature{Low: int(v.Float()), High: int(v.Float()), Scale: quantity.Celsius}, size
	}
	if n == 0 {
		return h, i, false
	}
	next = r.at(i, w.from+n)
	if t.Scale == 0 {
		if l := r.low(next - 1); l != "degrees" && l != "degree" && l != "deg" || t.Low < leastFahrenheit || t.Low > 550 {
			return h, i, false
		}
		t.Scale = quantity.Fahrenheit
	}
	return Reading{w.from, w.from + n, quantity.Heat{Temp: t}, Celsius(t.Low, t.Scale), Celsius(t.High, t.Scale)}, next, true
}

func (w word) text(r *reader) string { return r.text[w.from:w.to] }

// Celsius is n degrees of a scale in Celsius.
func Celsius(n int, scale quantity.Scale) float64 {
	if scale == quantity.Fahrenheit {
		return quantity.FtoC(quantity.Int(int64(n))).Float()
	}
	return float64(n)
}

// hottestFood is as hot as the middle of anything gets, in C; only fat and
// sugar get hotter.
const hottestFood = 105

var (
	middles = set("core middle centre center inside thermometer probe thickest internal")
	liquids = set("oil fat fryer sugar syrup caramel jam lard dripping milk cream custard water chocolate butter tallow fry marmalade jelly toffee fudge sauce stock wine")
	heatsIt = set("heat preheat pre light warm turn get set switch have bring fire")
)

// whose says what has a temperature, by the words of its clause.
func (r *reader) whose(h *Heat) Whose {
	from, to := r.sentence(h.word)
	if h.Heat.Word != "" || h.Heat.Gas != "" || h.Heat.Fan {
		if r.preheats(from, h.word) {
			return Preheat
		}
		return OfOven
	}
	if r.preheats(from, h.word) {
		return Preheat
	}
	clause := h.word
	for clause > from && r.words[clause].stop == 0 {
		clause--
	}
	liquid := func(a, b int) bool {
		for k := a; k < b; k++ {
			if liquids[r.low(k)] {
				return true
			}
		}
		return false
	}
	// "until the middle reads 56 C", "75 C in the middle"
	for k := clause; h.Low <= hottestFood && k < to && k <= h.next+4; k++ {
		if middles[r.low(k)] && (k < h.word || r.stops(k) == 0) {
			return OfCore
		}
	}
	oven, cooked := false, false
	for k := from; k < to; k++ {
		switch r.low(k) {
		case "oven", "bake", "roast", "baking", "roasting", "shelf", "rack":
			oven = true
		case "cook", "cooking":
			cooked = true
		}
	}
	switch {
	case oven && h.Low > hottestFood && !r.deepFried(from, h.word):
		return OfOven
	case h.Low > hottestFood && r.before(h.word, "at") > 0 && r.tinned(from, h.word) && !r.fried(from, to):
		return OfOven
	case liquid(from, to):
		return OfFood
	case h.Low > hottestFood && r.before(h.word, "at") > 0 && !r.slow(from, to) && !r.fried(from, to):
		return OfOven
	case cooked && h.Low > hottestFood && r.before(h.word, "at") > 0 && !r.slow(from, to):
		return OfOven
	case oven && h.Low > 60 && !r.reached(h.word):
		return OfOven
	}
	return Unknown
}

// fried tells whether something is done in a pan or in fat in the words from one to another.
func (r *reader) fried(from, to int) bool {
	for k := from; k < to; k++ {
		switch w := r.low(k); {
		case w == "fry" || w == "frying" || w == "griddle" || w == "grill" || w == "sear", machine[w], pans[w] && w != "heat" && w != "casserole" && w != "pot":
			return true
		}
	}
	return false
}

// tinned tells whether a tin or a tray is named in the words from one to another.
func (r *reader) tinned(from, to int) bool {
	for k := from; k < to; k++ {
		switch r.low(k) {
		case "tin", "tins", "tray", "trays", "sheet", "mould", "moulds", "ramekins", "dish":
			return true
		}
	}
	return false
}

// deepFried tells whether fat is what is so hot though an oven is named.
func (r *reader) deepFried(from, i int) bool {
	for k := from; k < i; k++ {
		if (r.low(k) == "fry" || r.low(k) == "oil") && i-k < 5 {
			return true
		}
	}
	return false
}

// reached tells whether a temperature is what something gets to: "until 82 C", "reaches 82 C".
func (r *reader) reached(i int) bool {
	return r.before(i, "until", "till", "reaches", "reach", "reads", "reading", "is", "hits", "registers", "shows", "until it is", "to") > 0
}

// preheats tells whether the words between from and i, in one clause, heat an
// oven in which nothing is yet.
func (r *reader) preheats(from, i int) bool {
	heated := -1
	for k := i; k >= from; k-- {
		if heatsIt[r.low(k)] && (k == from || r.stops(k) != 0 || r.low(k-1) == "and" || r.low(k-1) == "then" || r.low(k-1) == "meanwhile" || r.low(k-1) == "to" || r.low(k-1) == "down" || r.low(k-1) == "up" || r.low(k-1) == "now") {
			heated = k
			break
		}
		if r.stops(k) == ';' {
			break
		}
	}
	if heated < 0 {
		return false
	}
	for k := heated; k < min(i+3, len(r.words)) && (k <= i || r.stops(k) == 0); k++ {
		if r.low(k) == "oven" {
			return !r.putIn(heated, k)
		}
	}
	// "turn down to 160 C", "turn it up to 220 C" behind an oven
	return r.low(heated) == "turn" && (r.low(heated+1) == "down" || r.low(heated+1) == "up" || r.low(heated+2) == "down" || r.low(heated+2) == "up" || r.says(heated+1, "the", "heat"))
}

// putIn tells whether "set" at word k puts something into the oven at word oven: "set the jar
// in a slow oven".
func (r *reader) putIn(k, oven int) bool {
	if r.low(k) != "set" {
		return false
	}
	for e := k + 2; e < oven; e++ {
		if r.low(e) == "in" || r.low(e) == "into" || r.low(e) == "inside" {
			return true
		}
	}
	return false
}

// ringWords are the levels of a fire.
var ringWords = map[string]string{
	"low": "low", "gentle": "low", "slow": "low", "soft": "low", "small": "low", "lowest": "low",
	"medium": "medium", "moderate": "medium", "middling": "medium", "clear": "medium", "steady": "medium",
	"high": "high", "strong": "high", "brisk": "high", "fierce": "high", "hot": "high", "fast": "high", "full": "high", "sharp": "high", "highest": "high", "quick": "high", "bright": "high",
}

// fires are what a level stands before.
var fires = set("heat flame ring gas fire hob burner hotplate stove")

// adverbs say how hot a thing is cooked.
var adverbs = map[string]string{
	"gently": "low", "slowly": "low", "softly": "low", "briskly": "high", "fiercely": "high", "rapidly": "high", "hard": "high", "furiously": "high",
}

// levelAt reads "over a low heat", "on a medium-high flame", "gently" at word i.
func (r *reader) levelAt(i int) (level string, next int) {
	if l := adverbs[r.low(i)]; l != "" {
		return l, i + 1
	}
	switch r.low(i) {
	case "over", "on", "at":
	default:
		return "", i
	}
	k := i + 1
	if r.low(k) == "a" || r.low(k) == "the" {
		k++
	}
	for r.low(k) == "very" || r.low(k) == "fairly" || r.low(k) == "nice" {
		k++
	}
	level = ringWords[r.low(k)]
	if level == "" || r.stops(k) != 0 {
		return "", i
	}
	k++
	if k < len(r.words) && r.words[k].glue && ringWords[r.low(k)] != "" { // medium-high
		level = between(level, ringWords[r.low(k)])
		k++
	} else if r.low(k) == "to" && ringWords[r.low(k+1)] != "" {
		level = between(level, ringWords[r.low(k+1)])
		k += 2
	}
	if fires[r.low(k)] && r.stops(k) == 0 {
		return level, k + 1
	}
	if r.low(i) == "over" || r.stops(k) == 0 && r.low(k) != "for" && r.low(k) != "until" || r.low(i) == "at" {
		return "", i // "over high walls", "on high shelves"
	}
	return level, k
}

// between is the level between two, in the word of the margin for it.
func between(a, b string) string {
	switch {
	case a != b && a != "low" && b != "low":
		return "medium to high"
	case a != b && a != "high" && b != "high":
		return "low to medium"
	}
	return a
}

// pans tell that something stands on a fire.
var pans = set("pan saucepan frying-pan skillet casserole wok pot stockpot hob stove fire flame heat ring griddle frying")
