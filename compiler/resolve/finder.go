package resolve

import (
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// The name finder: which words of a sentence are names of what is gathered.
//
// Findable are the lines of the list, the sub-lists, and what earlier steps
// make. Each is found by its whole name, by any tail of it ("bean paste",
// "paste"), and, where the last word is a part word such as leaf or clove, by
// the words before it. Every other name the larder or the folder knows is a
// decoy: it matches as itself, so that "olive oil" is never read as the oil
// that was gathered.

// word is one word of a text, with its place.
type word struct {
	*lexeme
	start, end int
	opens      bool // first word of a sentence
	stop       bool // punctuation stands between it and the word before
	glue       bool // a hyphen joins it to the word before
}

// lexeme is a word as it is written, with all that is asked of it by itself: a book has
// few, and each is looked up once.
type lexeme struct {
	text   string
	key    string       // folded
	low    string       // in small letters
	level  string       // as it stands in a folded name before others
	item   *larder.Item // what the larder calls so in a sentence; nil: nothing
	leads  bool         // a longer name of the larder begins with it
	counts bool         // a number may begin with it

	changes changer // how it can change an amount
}

// shorthand are words that are cut short on cards.
var shorthand = map[string]string{"ea": "each", "w": "with"}

// lexeme looks a word up.
func (b *builder) lexeme(text string) *lexeme {
	l := b.lexemes[text]
	if l == nil {
		if full := shorthand[text]; full != "" {
			l = b.lexeme(full)
			b.lexemes[text] = l
			return l
		}
		l = &lexeme{text: text, key: b.fold(text), low: strings.ToLower(text), level: larder.Level(text), counts: quantity.BeginsNumber(text)}
		l.changes = changers[l.low]
		if n := strings.TrimLeft(l.low, "0123456789"); n == "x" && n != l.low { // 2x the garlic
			l.changes = changesByLike
		}
		l.item, _ = larder.Builtin().Decoy(l.key)
		l.leads = larder.Builtin().Leads(l.level)
		b.lexemes[text] = l
	}
	return l
}

// apart cuts hyphenated words into their parts, so that lemon-juice is found
// where lemon juice is gathered. No name begins or ends within one.
func (b *builder) apart(ws []word) []word {
	n := 0
	for _, w := range ws {
		n += strings.Count(w.text, "-")
	}
	if n == 0 {
		return ws
	}
	out := make([]word, 0, len(ws)+n)
	for _, w := range ws {
		if !strings.Contains(w.text, "-") { // as it is: w stands for a longer one
			out = append(out, w)
			continue
		}
		at := w.start
		for k, part := range strings.Split(w.text, "-") {
			if k > 0 {
				at++
			}
			if part != "" {
				out = append(out, word{lexeme: b.lexeme(part), start: at, end: at + len(part), opens: w.opens && k == 0, stop: w.stop && k == 0, glue: k > 0})
			}
			at += len(part)
		}
	}
	return out
}

// tokens cuts a text into words. A hyphen or an apostrophe between letters
// belongs to the word.
func (b *builder) tokens(text string) []word { return b.tokensInto(nil, text) }

// tokensInto is tokens, behind what out holds.
func (b *builder) tokensInto(out []word, text string) []word {
	opens, stop := true, false
	for i := 0; i < len(text); {
		c, n := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsLetter(c) && !unicode.IsNumber(c) {
			switch c {
			case '.', '!', '?', ':':
				opens, stop = true, true
			case ',', ';', '(', ')', '–', '—':
				stop = true
			}
			i += n
			continue
		}
		j := i
		for j < len(text) {
			c, n := utf8.DecodeRuneInString(text[j:])
			if unicode.IsLetter(c) || unicode.IsNumber(c) || c >= utf8.RuneSelf && unicode.IsMark(c) {
				j += n
				continue
			}
			if c != '-' && c != '\'' && c != '’' {
				break
			}
			if next, _ := utf8.DecodeRuneInString(text[j+n:]); !unicode.IsLetter(next) && !unicode.IsDigit(next) {
				break
			}
			j += n
		}
		out = append(out, word{lexeme: b.lexeme(text[i:j]), start: i, end: j, opens: opens, stop: stop})
		opens, stop = false, false
		i = j
	}
	return out
}

// target is what a form stands for: exactly one of the three, or a part of a
// line's things.
type target struct {
	line    *Line
	part    string // yolk, white, juice, zest; "" for the whole
	sub     *SubList
	product *Product
}

// form is one way of saying a name, as folded words.
type form struct {
	words  []string
	target target
	whole  bool
	next   int // the number of the next form with the same first word; 0: none
}

// match is a form found at a place.
type match struct {
	form
	length int // in words
}

// finder holds the forms, each in a chain of those with the same first word.
type finder struct {
	forms []form
	first map[string]int // by the first word, the first of its chain, from 1
}

// finder builds the forms for a recipe with these lines present.
func (b *builder) finder(r *Recipe, lines []*Line, products []*Product) *finder {
	f := b.emptyFinder()
	called := countNames(lines)
	for _, l := range lines {
		b.notedForms(f, l, called[l.Key] > 1)
		if before, after, ok := cutFold(l.Name, " or "); ok { // cream or milk
			f.addName(b.cutUp(before), target{line: l})
			f.addName(b.cutUp(after), target{line: l})
		}
		t := target{line: l}
		if before, after, ok := cutFold(l.Name, " and "); ok && l.Quantity == nil && l.Written == nil && l.Share == nil { // salt and black pepper
			f.addName(b.cutUp(before), t)
			f.addName(b.cutUp(after), t)
		}
		name := l.Name
		if i := strings.LastIndexByte(name, '/'); i >= 0 {
			name = name[i+1:] // "Slow lamb/lamb fat" is said "lamb fat"
		}
		said := b.cutUp(name)
		f.addName(said, t)
		if l.Sub != nil {
			sub := b.cutUp(l.Sub.Name).keys
			f.add(slices.Concat(said.keys, []string{"for", "the"}, sub), t, true)
			f.add(slices.Concat(said.keys, []string{"for"}, sub), t, true) // butter for basting
		}
	}
	for _, s := range r.SubLists {
		if s.Key != "serving" {
			f.add(b.cutUp(s.Name).keys, target{sub: s}, true)
		}
	}
	for _, p := range products {
		f.addName(b.cutUp(p.Name), target{product: p})
	}
	b.partForms(f, lines)
	b.crumbForms(f, lines)
	b.unitForms(f, lines)
	b.classForms(f, lines)
	return f
}

// emptyFinder is one without forms: one that was given back, or a new one.
func (b *builder) emptyFinder() *finder {
	n := len(b.spare)
	if n == 0 {
		return &finder{first: map[string]int{}}
	}
	f := b.spare[n-1]
	b.spare = b.spare[:n-1]
	f.forms = f.forms[:0]
	clear(f.first)
	return f
}

// giveBack takes a finder that nobody uses any more. To clear a large one costs more than
// a new one.
func (b *builder) giveBack(f *finder) {
	if len(f.forms) < 256 {
		b.spare = append(b.spare, f)
	}
}

// countNames is how many lines have each name, where a note may tell them apart.
func countNames(lines []*Line) map[string]int {
	if !slices.ContainsFunc(lines, func(l *Line) bool { return !l.Note.IsZero() }) {
		return nil
	}
	out := make(map[string]int, len(lines))
	for _, l := range lines {
		out[l.Key]++
	}
	return out
}

// words are the words of a name, hyphenated ones apart. They are not to be changed.
func (b *builder) words(name string) []word { return b.cutUp(name).words }

// name is a name cut up into its words.
type name struct {
	words []word
	keys  []string
}

// cutUp cuts a name up. A book has the same names again and again, and each is cut up once.
func (b *builder) cutUp(text string) *name {
	n := b.cut[text]
	if n == nil {
		n = &name{words: slices.Clip(b.apart(b.tokens(text)))}
		n.keys = keysOf(n.words)
		if len(b.cut) >= mostCut {
			clear(b.cut)
		}
		b.cut[text] = n
	}
	return n
}

// mostCut bounds the names that a worker remembers.
const mostCut = 1 << 14

// callers are units that a cook calls the thing by, and that nothing is cut into: the rashers.
var callers = wordSet("rasher sprig clove bulb blade faggot")

// unitForms adds the unit of a line as a name of it, "the rashers" of bacon, where no other
// line has that unit or that word.
func (b *builder) unitForms(f *finder, lines []*Line) {
	for _, l := range lines {
		q := l.Quantity
		if q == nil || q.Dim != quantity.Word || q.Unit == nil || !callers[q.Unit.Name] {
			continue
		}
		key := b.fold(q.Unit.Name)
		alone := f.first[key] == 0 && !slices.ContainsFunc(lines, func(o *Line) bool {
			return o != l && (o.Quantity != nil && o.Quantity.Unit == q.Unit || slices.Contains(strings.Fields(o.Key), key))
		})
		if alone {
			f.add([]string{key}, target{line: l}, false)
		}
	}
}

// crumbForms adds "the crumbs" as a name of breadcrumbs, which are written in one word.
func (b *builder) crumbForms(f *finder, lines []*Line) {
	for _, l := range lines {
		if words := b.cutUp(l.Name).keys; len(words) > 0 && strings.HasSuffix(words[len(words)-1], "crumb") {
			f.add([]string{"crumb"}, target{line: l}, false)
		}
	}
}

func keysOf(ws []word) []string {
	out := make([]string, len(ws))
	for i, w := range ws {
		out[i] = w.key
	}
	return out
}

// addName adds a name with its short forms.
func (f *finder) addName(n *name, t target) {
	ws, words := n.words, n.keys
	f.add(words, t, true)
	for i := 1; i < len(words); i++ {
		if words[i] != "of" && words[i] != "and" && !ws[i].glue {
			f.add(words[i:], t, false)
		}
	}
	head := -1 // words before the part word at the end
	if n := len(words); n > 1 && isPart(words[n-1]) && !ws[n-1].glue {
		head = n - 1
	}
	if i := slices.Index(words, "of"); i > 0 && isPart(words[i-1]) { // leg of lamb
		head = i
	}
	for i := 0; i < head; i++ {
		if !ws[i].glue {
			f.add(words[i:head], t, false)
		}
	}
}

func (f *finder) add(words []string, t target, whole bool) {
	if len(words) == 0 {
		return
	}
	last := 0
	for i := f.first[words[0]]; i > 0; i = f.forms[i-1].next {
		if old := &f.forms[i-1]; old.target == t && slices.Equal(old.words, words) {
			return
		}
		last = i
	}
	f.forms = append(f.forms, form{words: words, target: t, whole: whole})
	if last > 0 {
		f.forms[last-1].next = len(f.forms)
	} else {
		f.first[words[0]] = len(f.forms)
	}
}

// has tells whether something is called by some words.
func (f *finder) has(words []string) bool {
	for i := f.first[words[0]]; i > 0; i = f.forms[i-1].next {
		if slices.Equal(f.forms[i-1].words, words) {
			return true
		}
	}
	return false
}

// at finds the longest forms that begin at word i; with all, every form.
func (f *finder) at(ws []word, i int, all bool) (out []match) {
	best := 0
	if i >= len(ws) || ws[i].glue {
		return nil
	}
	for n := f.first[ws[i].key]; n > 0; n = f.forms[n-1].next {
		fm := &f.forms[n-1]
		if end := i + len(fm.words); end > len(ws) || end < len(ws) && ws[end].glue {
			continue
		}
		ok := true
		for k := 1; k < len(fm.words); k++ {
			if ws[i+k].stop || ws[i+k].key != fm.words[k] {
				ok = false
				break
			}
		}
		switch n := len(fm.words); {
		case !ok:
		case all:
			out = append(out, match{*fm, n})
		case n > best:
			best, out = n, []match{{*fm, n}}
		case n == best:
			out = append(out, match{*fm, n})
		}
	}
	if all {
		return out
	}
	if slices.ContainsFunc(out, func(m match) bool { return m.whole }) { // a whole name beats any short form
		out = slices.DeleteFunc(out, func(m match) bool { return !m.whole })
	}
	return out
}

// decoyAt is the length of the longest known name, not gathered here, that
// begins at word i, and the name as the sentence says it.
func (b *builder) decoyAt(s *Scope, ws []word, i int) (length int, name string) {
	if ws[i].glue {
		return 0, ""
	}
	text, blanks := b.text[:0], 0
	for n := 1; n <= 6 && i+n <= len(ws); n++ {
		w := ws[i+n-1]
		switch {
		case n == 1:
		case w.glue:
			text = append(text, '-')
		default:
			blanks++
			if w.stop || blanks > 3 || blanks == 1 && !b.leadsTo(s, ws[i:i+n-1], text) {
				b.text = text
				return length, name
			}
			text = append(text, ' ')
		}
		text = append(text, w.text...)
		if i+n < len(ws) && ws[i+n].glue {
			continue
		}
		key := w.key
		if n > 1 {
			key = larder.Fold(string(text))
		}
		if it := known(w, n, key); it != nil {
			length, name = n, string(text)
			if it.Water || it.Counter == household || n == 1 && verbNow(ws, i) {
				name = "" // nobody gathers tap water or foil; "Fry the rest"
			}
			continue
		}
		b.asking.name(aRecipe, key)
		for sc := s; sc != nil; sc = sc.Parent {
			if (sc.Recipes[key] != nil || sc.Entries[key] != nil) && !verbNow(ws, i) {
				length, name = n, string(text)
			}
		}
	}
	b.text = text
	return length, name
}

// leadsTo tells whether a longer name that is known in a folder begins with a
// word, whose parts are ws, as it is written.
func (b *builder) leadsTo(s *Scope, ws []word, written []byte) bool {
	word, leads := ws[0].level, ws[0].leads
	if len(ws) > 1 {
		word = larder.Level(string(written))
		leads = larder.Builtin().Leads(word)
	}
	if leads {
		return true
	}
	b.asking.name(aLead, word)
	for ; s != nil; s = s.Parent {
		if s.leads[word] {
			return true
		}
	}
	return false
}

// lead notes the first words of a folder's names.
func (s *Scope) lead() {
	s.leads = map[string]bool{}
	for key := range s.Recipes {
		s.leads[larder.Lead(key)] = true
	}
	for key := range s.Entries {
		s.leads[larder.Lead(key)] = true
	}
	delete(s.leads, "") // the names of one word
}

// household is the counter of what is used and not eaten: foil, muslin, string.
const household = "household"

// verbNow tells whether the word at i stands where a sentence of a method has
// its verb: at its start, or after "and" or "then". "Fry in the oil" speaks of
// no fish.
func verbNow(ws []word, i int) bool {
	if ws[i].opens {
		return true
	}
	return i > 0 && !ws[i].stop && (ws[i-1].key == "and" || ws[i-1].key == "then")
}

// known looks a folded name of n words, of which w is the last, up in the built-in
// larder, leaving out names that mislead in a sentence ("the cooked chicken"); nil: not
// known.
func known(w word, n int, key string) *larder.Item {
	if n == 1 {
		return w.item
	}
	it, _ := larder.Builtin().Decoy(key)
	return it
}

// methodWords are the words of methods that the larder knows, folded: parts of a
// thing, and verbs. They are read when a method first asks: the larder is large.
var methodWords = sync.OnceValue(func() (w struct{ parts, verbs map[string]bool }) {
	w.parts, w.verbs = map[string]bool{}, map[string]bool{}
	for _, s := range larder.Parts() {
		w.parts[larder.Fold(s)] = true
	}
	for _, s := range larder.Verbs() {
		w.verbs[larder.Fold(s)] = true
	}
	return w
})

func isPart(word string) bool { return methodWords().parts[word] }

// isVerb tells whether the single word at i is used as a verb: it opens a
// sentence or follows and/then, or an "or" behind a comma, and what it acts on
// comes next.
func isVerb(ws []word, i int) bool {
	if !methodWords().verbs[ws[i].key] {
		return false
	}
	leads := i > 0 && ws[i].stop && (opening(ws, i) || i+1 < len(ws) && !ws[i+1].stop && (ws[i+1].low == "it" || ws[i+1].low == "them")) // in a large bowl, cream together; grease the tin, flour it
	if !ws[i].opens && !leads && (i == 0 || ws[i-1].key != "and" && ws[i-1].key != "then" && !(ws[i-1].key == "or" && ws[i-1].stop)) {
		return false
	}
	if i+1 >= len(ws) || ws[i+1].stop || ws[i+1].glue || ws[i].glue {
		return false
	}
	switch ws[i+1].low {
	case "the", "a", "an", "each", "both", "your", "them", "it":
		return true
	case "together": // not of salt and sugar together
		return ws[i].opens || leads || i+2 < len(ws) && !ws[i+2].stop && articles[ws[i+2].low]
	}
	if c := ws[i+1].text[0]; c >= '0' && c <= '9' || quantity.IsNumberWord(ws[i+1].text) { // Cream 200 g butter, Butter two tins
		return i+3 < len(ws) && !ws[i+2].stop && !ws[i+3].stop
	}
	return false
}

// opening tells whether the words before i are only where or when the sentence
// begins: "in a large bowl,".
func opening(ws []word, i int) bool {
	k := i - 1
	for k > 0 && !ws[k].opens && !ws[k].stop {
		k--
	}
	switch ws[k].low {
	case "in", "with", "using", "meanwhile", "next", "then", "now", "finally", "first", "once", "when", "after", "while", "if":
		return ws[k].opens
	}
	return false
}
