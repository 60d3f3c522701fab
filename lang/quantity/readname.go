package quantity

import "strings"

// strange looks at what follows a bare count for a unit that is none.
func (r *reader) strange(i int, a Amount, j int) (Amount, int) {
	r.zero(i, j, a.Measure)
	if r.opt.Prose {
		return a, j
	}
	k := r.blanks(j)
	if b, n, ok := r.weighing(a.Measure.Terms[0].Value, j); ok {
		return b, n
	}
	for _, w := range [...]string{"nos", "nos.", "no.", "pcs", "pcs.", "pc", "pc.", "ea", "each"} { // 2 nos. onions
		if e := k + len(w); e < len(r.s) && strings.EqualFold(r.s[k:e], w) && isBlank(rune(r.s[e])) && r.after(e) == aName && !(w == "each" && manyNames(r.s[e:])) {
			return a, e
		}
	}
	r.each(j)
	line := r.s[k:]
	if cut := strings.IndexAny(line, ",|("); cut >= 0 {
		line = line[:cut]
	}
	if line = strings.TrimRight(line, " \t"); hasAnySuffix(Fold(line), " and a half", " and a quarter") { // an egg and a half
		r.ask(CodeWords, i, k+len(line), "the fraction stands after the name, and is not counted", "write the whole number before it, such as `1 1/2 eggs`", "")
		return a, j
	}
	e := r.wordEnd(k)
	w := r.s[k:e]
	if c, _ := r.runeAt(e + 1); r.byteAt(e) == '.' && e-k < 6 && isBlank(c) { // 1 c. sugar
		e++
	}
	if _, pe, ok := r.oneOf(k, "piece", "pieces", "lump", "lumps"); ok && r.isOf(pe) && r.after(pe) == aName { // a piece of butter
		a.Measure.Terms[0].Unit = pieceUnit
		return a, pe
	}
	if t, end, ok := r.described(a.Measure.Terms[0].Value, i, k); ok {
		a.Measure.Terms[0] = t
		return a, end
	}
	if cut := IndexFold(line, " of "); cut > 0 {
		if head := strings.Fields(line[:cut]); len(head) == 2 && holders[Fold(head[1])] {
			r.ask(CodeUnknownWord, k, k+cut, "`"+line[:cut]+"` may be a measure, and nobody can tell how much it holds", "write such as `200 g` or `1 cup`; for a measure of your own put `"+line[:cut]+" | measure` in the larder", "")
		}
	}
	next := r.blanks(e)
	if next == e || r.after(e) != aName || r.s[e-1] != '.' && !r.atEnd(e) {
		return a, j
	}
	v := a.Measure.Terms[0].Value
	if w == "in" && r.s[e-1] == '.' {
		a.Measure.Terms[0].Unit = MustUnit("inch")
		return a, e
	}
	if w == "c" { // 1 c. sugar
		a.Measure.Terms[0].Unit = MustUnit("cup")
		return a, e
	}
	if unit, ok := letters[w]; ok {
		u := MustUnit(unit)
		right := u.For(v)
		r.problem(CodeLetter, k, e, "`"+w+"` is no unit", "write `"+right+"`"+letterHelp[w], right)
		a.Measure.Terms[0].Unit = u
		return a, e
	}
	low := Fold(w)
	if unit, ok := misspelt[low]; ok {
		u := MustUnit(unit)
		a.Measure.Terms[0].Unit = u
		return a, e
	}
	switch {
	case w == "m" || w == "M":
		r.problem(CodeLetter, k, e, "`"+w+"` is no unit", "write `cm` or `mm`", "")
	case w == "C":
		right := MustUnit("cup").For(v)
		r.problem(CodeLetter, k, e, "`C` is a degree", "write `"+right+"` if that is meant", right)
		a.Measure.Terms[0].Unit = MustUnit("cup")
		return a, e
	case w == "F":
		r.problem(CodeLetter, k, e, "`"+w+"` is a degree, not an amount", "write a unit such as `cups`", "")
	case low == "dozen":
		a.Measure.Terms[0].Value = v.Mul(Int(12))
		return a, e
	case low == "doz" && r.s[e-1] == '.':
		a.Measure.Terms[0].Value = v.Mul(Int(12))
		return a, e
	case len(low) >= 4 && strings.HasSuffix(low, "s") && !hasAnySuffix(low, "ss", "us", "is") && ascii(low) && !notUnits[low] &&
		Int(1).Less(v.High):
		one := singular(low)
		r.ask(CodeUnknownWord, k, e, "`"+w+"` may be a unit or part of the name",
			"for a unit put `"+one+" | measure` in the larder; otherwise put a comma after the name, or quotes round it", "")
	}
	return a, j
}

// holders are things to measure with of no known size: two small bowls of rice.
var holders = map[string]bool{
	"bowl": true, "bowls": true, "cup": true, "cups": true, "mug": true, "mugs": true, "plate": true, "plates": true, "ladle": true, "ladles": true,
	"scoop": true, "scoops": true, "glass": true, "glasses": true, "basket": true, "baskets": true, "bucket": true, "buckets": true,
}

// manyNames tells whether the rest of a line names several things, each of which
// is meant.
func manyNames(text string) bool {
	if bar := strings.IndexByte(text, '|'); bar >= 0 {
		text = text[:bar]
	}
	return strings.ContainsRune(text, ',') || strings.Contains(text, " and ")
}

// adjectives that stand before a unit: two fat cloves, a good glug.
var adjectives = map[string]bool{
	"fat": true, "big": true, "good": true, "generous": true, "thick": true, "thin": true, "plump": true, "juicy": true, "nice": true, "healthy": true,
	"decent": true, "fresh": true, "tiny": true, "little": true, "long": true, "short": true, "full": true, "hefty": true, "thumb-sized": true,
	"bite-sized": true, "walnut-sized": true, "hazelnut-sized": true, "fist-sized": true,
}

// described reads "generous tbsp", "fat cloves" or "good pinch" at k, where a
// word that is no size stands between the number v (or an article) from i and
// its unit.
func (r *reader) described(v Range, i, k int) (Term, int, bool) {
	e := r.wordEnd(k)
	if r.byteAt(e) == '-' {
		e = r.wordEnd(e + 1)
	}
	b := r.blanks(e)
	if e == k || b == e {
		return Term{}, k, false
	}
	word := strings.ToLower(r.s[k:e])
	if _, pe, ok := r.oneOf(b, "piece", "pieces", "lump", "lumps", "chunk", "chunks"); ok && (adjectives[word] || IsSize(word)) && r.isOf(pe) && r.after(pe) == aName {
		return Term{Value: v, Unit: pieceUnit, Modifier: word}, pe, true // a thumb-sized piece of ginger
	}
	if t, end, ok := r.sizedLike(v, k); ok {
		return t, end, true
	}
	u, _, end, ok := r.unit(b)
	if !ok || !modifiable(u) || r.after(end) != aName || u.Dim != Vague && u.Dim != Volume && !(adjectives[word] && u.Dim == Word) {
		return Term{}, k, false
	}
	if u.Dim != Volume {
		return Term{Value: v, Unit: u, Modifier: word}, end, true
	}
	if !adjectives[word] && !fillingWords[word] && !hasAnySuffix(word, "ed", "ly", "ing") {
		r.ask(CodeUnknownWord, k, end, "`"+r.s[k:end]+"` may be a measure of its own, and is counted as "+u.For(v), "write `"+u.For(v)+"` alone, or another measure; for one of your own put `"+r.s[k:end]+" | measure` in the larder", "")
		return Term{Value: v, Unit: u}, end, true
	}
	r.hint(CodeMisspelt, k, e, "`"+r.s[k:e]+"` is not kept before `"+u.For(v)+"`", "the sizes kept are small, medium, large, heaped, level, rounded and scant")
	return Term{Value: v, Unit: u}, end, true
}

// sizedLike reads "lemon-sized ball of", "small lime sized lump of" at k: so many pieces.
func (r *reader) sizedLike(v Range, k int) (Term, int, bool) {
	from := k
	for range 3 {
		e := r.wordEnd(k)
		if e == k {
			return Term{}, k, false
		}
		dash := r.byteAt(e) == '-'
		next := r.blanks(e)
		if dash {
			next = e + 1
		}
		_, se, ok := r.oneOf(next, "sized", "size")
		if !ok || next == e && !dash {
			if k = r.blanks(e); k == e {
				return Term{}, k, false
			}
			continue
		}
		b := r.blanks(se)
		_, pe, ok := r.oneOf(b, "ball", "balls", "lump", "lumps", "piece", "pieces", "chunk", "chunks", "nugget", "nuggets", "nut", "bit", "bits", "slice", "slices")
		if !ok || b == se || !r.isOf(pe) || r.after(pe) != aName {
			return Term{}, k, false
		}
		return Term{Value: v, Unit: pieceUnit, Modifier: strings.ToLower(strings.TrimRight(r.s[from:e], " ")) + "-sized"}, pe, true
	}
	return Term{}, k, false
}

// fillingWords say how a spoon or a cup is filled.
var fillingWords = map[string]bool{"heaping": true, "bare": true, "brimming": true, "overflowing": true, "flat": true, "struck": true, "standard": true, "metric": true, "measuring": true, "light": true, "firm": true, "not-quite-full": true}

// pieceUnit counts pieces that an adjective tells the size of.
var pieceUnit = NewMeasure("piece", "pieces")

// IsSize tells whether a word says how large one of several things is.
func IsSize(word string) bool { return word == "small" || word == "large" || word == "medium" }

// misspelt are abbreviations met in manuscripts that are not in the table.
var misspelt = map[string]string{
	"gr": "g", "grs": "g", "grm": "g", "grms": "g", "kilogr": "kg", "mil": "ml", "lt": "litre", "ltre": "litre", "cc": "ml",
	"pkg": "packet", "pkgs": "packet", "pck": "packet", "btl": "bottle", "gall": "gallon",
	"clv": "clove", "bnch": "bunch",
}

var letters = map[string]string{"T": "tbsp", "t": "tsp", "in": "inch", "In": "inch"}

var letterHelp = map[string]string{
	"T": "; a capital alone is too easily misread", "t": "; a small letter alone is too easily misread",
	"in": "; `in` is the word before a vessel", "In": "; `in` is the word before a vessel",
}

// notUnits end in s and begin names.
var notUnits = map[string]bool{"brussels": true, "cos": true, "swiss": true, "chips": true, "peas": true, "oats": true}

func singular(w string) string {
	switch {
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case hasAnySuffix(w, "oaves", "alves", "eaves", "elves"): // loaves, halves, leaves
		return w[:len(w)-3] + "f"
	case hasAnySuffix(w, "ches", "shes", "xes", "sses"):
		return w[:len(w)-2]
	}
	return strings.TrimSuffix(w, "s")
}
