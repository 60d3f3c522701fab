package draft

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/prose"
	"tamis/lang/quantity"
)

// section is the part of a recipe that a piece stands in.
type section int

const (
	anywhere section = iota
	inList
	inMethod
	inNotes
)

// sorting makes recipes of pieces.
type sorting struct {
	*drafting
	cur   *recipe
	sec   section
	after []piece // what comes behind the piece that is sorted
	level int     // of the heading that the title was
	heads []string
	oven  *prose.Heat
	above string // a heading that stands above the next step
}

func (d *drafting) sort(pieces []piece) {
	s := &sorting{drafting: d, cur: &recipe{}}
	for i := range pieces {
		p := &pieces[i]
		s.after = pieces[i+1:]
		switch p.kind {
		case heading:
			s.heading(p, pieces[i+1:])
		case item:
			s.item(p.text)
		case numbered:
			s.numbered(p.text)
		case row:
			if p.names && labelOf(p.cells[0]) != theList && !slices.ContainsFunc(p.cells, startsAmount) {
				s.heads, s.sec = p.cells, inList
				s.cur.comments = append(s.cur.comments, "Columns: "+strings.Join(p.cells, ", "))
				break
			}
			s.row(p.cells)
		case para:
			if p.aside {
				s.cur.comments = append(s.cur.comments, p.text)
				break
			}
			for _, part := range atLabels(p.text) {
				s.para(part)
			}
		}
	}
	s.close()
}

// close puts the recipe by; one of which there is nothing gives its words to the next.
func (s *sorting) close() {
	r := s.cur
	s.cur, s.sec, s.heads, s.oven, s.above = &recipe{}, anywhere, nil, nil, ""
	if r.title == "" && r.empty() && len(r.fields)+len(r.about) == 0 {
		s.cur.comments = r.comments
		if len(r.comments) > 0 {
			s.recipes = append(s.recipes, s.cur)
			s.cur = &recipe{}
		}
		return
	}
	s.recipes = append(s.recipes, r)
}

var (
	forThe  = lazily(`(?i)^for (?:the )?(\S.*?):?$`)
	forSome = lazily(`(?i)\bfor (?:about )?([\p{L}\d -]+?)(?: people| persons| servings| portions)?[.:]?$`)
)

func (s *sorting) heading(p *piece, rest []piece) {
	text := strings.TrimSpace(p.text)
	bare := strings.Trim(text, " .:_*")
	if drawing.MatchString(text) {
		s.cur.comments = append(s.cur.comments, text)
		return
	}
	if greeting.MatchString(text) && !startsAmount(text) {
		s.cur.about = append(s.cur.about, text)
		return
	}
	if strings.HasPrefix(text, "(") && strings.HasSuffix(strings.TrimRight(text, "."), ")") && s.cur.title != "" {
		s.cur.about = append(s.cur.about, text)
		s.yields(strings.Trim(text, "()."))
		return
	}
	if parts := widely.Split(text, -1); len(parts) > 1 && !slices.ContainsFunc(parts[1:], func(p string) bool { return !labelFact(p) }) { // SPREAD      makes 3 c.
		s.heading(&piece{kind: heading, text: parts[0], level: p.level}, rest)
		for _, fact := range parts[1:] {
			s.para(fact)
		}
		return
	}
	l := labelOf(text)
	if l == theList || l == theMethod || l == theNotes {
		if len(lostWords(text, "")) > 0 { // more than `gather` or `method` says
			s.cur.comments = append(s.cur.comments, text)
		}
	}
	switch l {
	case theList:
		if m := forSome.FindStringSubmatch(bare); m != nil {
			s.fact(theServes, m[1], bare)
		}
		if s.cur.listed {
			s.cur.groups = append(s.cur.groups, group{})
		}
		s.sec = inList
		return
	case theMethod:
		s.sec = inMethod
		return
	case theNotes:
		s.sec = inNotes
		return
	case noLabel:
	default:
		return
	}
	if l, _ := labelled(text); l != noLabel {
		for _, part := range atLabels(text) {
			s.para(part)
		}
		return
	}
	if s.ofTheDish(p, bare, rest) {
		s.part(bare, bare, rest)
		return
	}
	deeper := p.level > 0 && s.level > 0 && p.level > s.level
	if m := forThe.FindStringSubmatch(bare); m != nil && len(strings.Fields(bare)) <= 6 {
		s.part(m[1], bare, rest)
		return
	}
	if strings.HasSuffix(text, ":") && s.cur.title != "" || p.level == 9 && (s.cur.title != "" || !s.cur.empty()) || deeper && s.sec != anywhere {
		s.part(bare, bare, rest)
		return
	}
	if deeper && !hasRecipe(rest, p.level) {
		s.cur.about = append(s.cur.about, bare)
		return
	}
	if !s.cur.empty() {
		s.close()
	}
	if s.cur.title != "" { // the head of a chapter
		s.cur.comments = append(s.cur.comments, s.cur.title)
	}
	s.cur.title, s.level, s.sec = text, p.level, anywhere
}

// ofTheDish tells whether a heading that nobody has given a rank names a part of the dish
// above it, as Pastry and Filling do: a list stands below it, and what is above has a title
// and no method yet.
func (s *sorting) ofTheDish(p *piece, bare string, rest []piece) bool {
	r := s.cur
	if p.level != 0 || r.title == "" || len(r.steps) > 0 || len(strings.Fields(bare)) > 3 || len(rest) == 0 || rest[0].kind != item && rest[0].kind != row {
		return false
	}
	return r.listed || components[larder.Fold(larder.Singular(strings.ToLower(lastWord(bare))))]
}

// components are what parts of a dish are called.
var components = setOf("pastry filling dough sauce topping icing frosting base crust marinade dressing stuffing glaze garnish batter syrup custard sponge crumble cream filling coating brine rub broth")

// part begins a list of its own, or says what the next steps are for.
func (s *sorting) part(name, whole string, rest []piece) {
	if s.sec != inMethod && len(rest) > 0 && (rest[0].kind == item || rest[0].kind == row) || s.sec == inList {
		s.cur.groups = append(s.cur.groups, group{title: name})
		s.cur.listed = true
		s.sec = inList
		return
	}
	s.above = whole
}

// hasRecipe tells whether a list stands below a heading before the next one of its rank.
func hasRecipe(rest []piece, level int) bool {
	for _, p := range rest {
		switch p.kind {
		case heading:
			if p.level > 0 && p.level <= level {
				return false
			}
		case item, row, numbered:
			return true
		}
	}
	return false
}

func (s *sorting) item(text string) {
	switch {
	case s.sec == inNotes:
		s.cur.about = append(s.cur.about, text)
	case s.sec == inList, s.sec != inMethod && !endsSentence(text) && (startsAmount(text) || ingredient(text) || len(strings.Fields(text)) <= 6),
		startsAmount(text) && len(strings.Fields(text)) <= 8:
		if l, _ := labelled(text); l > theNotes {
			s.para(text)
			return
		}
		for _, t := range listItems(text) {
			s.cur.line(t)
		}
		if s.sec == anywhere {
			s.sec = inList
		}
	default:
		s.numbered(text)
	}
}

func (s *sorting) numbered(text string) {
	switch {
	case s.sec == inNotes:
		s.cur.about = append(s.cur.about, text)
	case s.sec == inList && startsAmount(text) && !endsSentence(text):
		s.cur.line(text)
	default:
		if l, rest := labelled(text); l == theNotes {
			s.cur.about = append(s.cur.about, rest)
			return
		}
		if text = s.lists(text); text == "" {
			return
		}
		s.sec = inMethod
		s.do(text, true)
	}
}

// row makes a line of the row of a table: the name first, then the first amount there is;
// a second one is for the reader.
func (s *sorting) row(cells []string) {
	if labelOf(cells[0]) == theList {
		s.heads, s.sec = cells, inList
		if lost := lostWords(strings.Join(cells, " "), ""); len(lost) > 0 {
			s.cur.comments = append(s.cur.comments, "Columns: "+strings.Join(cells, ", "))
		}
		return
	}
	name, amounts, buy := strings.TrimSuffix(cells[0], "."), []string(nil), ""
	for i, c := range cells[1:] {
		c = strings.TrimSuffix(strings.TrimSuffix(strings.TrimSpace(c), "."), " each")
		head := ""
		if i+1 < len(s.heads) {
			head = strings.ToLower(s.heads[i+1])
		}
		switch {
		case c == "":
		case head == "issue":
			buy = c
		case strings.Contains(head, "cost") || strings.Contains(head, "calor"):
			s.cur.comments = append(s.cur.comments, cells[0]+": "+head+" "+c)
		case !slices.Contains(amounts, c): // 2 eggs are 2 in every column
			amounts = append(amounts, c)
		}
	}
	if len(s.heads) == 0 && startsAmount(cells[0]) { // the amounts stand first
		s.cur.line(strings.Join(cells, " "))
		return
	}
	if allCaps(name) {
		name = strings.ToLower(name)
	}
	head, note, found := strings.Cut(name, ",")
	line := strings.TrimSpace(head)
	if len(amounts) > 1 {
		line += " (" + strings.Join(amounts[1:], ", ") + ")"
	}
	if found {
		line += ", " + strings.TrimSpace(strings.ReplaceAll(note, ",", ", "))
	}
	if len(amounts) > 0 {
		line = amounts[0] + " " + line
	}
	if buy != "" {
		line += " | buy " + buy
	}
	s.cur.line(line)
	s.sec = inList
}

var labelWithin = lazily(`[_*]{1,2}(\p{L}[\p{L} ]{2,30}?)\.?[_*]{1,2}(?:\.|,|:)?(?:--|—|:|\s)`)

// atLabels cuts a paragraph before every label that stands in it.
func atLabels(text string) (out []string) {
	from := 0
	for _, m := range labelWithin.FindAllStringSubmatchIndex(text, -1) {
		if m[0] > from && labelOf(text[m[2]:m[3]]) != noLabel && strings.TrimSpace(text[from:m[0]]) != "" {
			out = append(out, strings.TrimSpace(text[from:m[0]]))
			from = m[0]
		}
	}
	rest := strings.TrimSpace(text[from:])
	if parts := widely.Split(rest, -1); len(parts) > 1 {
		facts := 0
		for _, p := range parts {
			if l, _ := labelled(p); l > theNotes {
				facts++
			}
		}
		if facts == len(parts) {
			return append(out, parts...)
		}
		if facts > 0 && len(strings.Fields(rest)) <= 5*len(parts) && !endsSentence(rest) { // by whom, for how many
			return append(out, parts...)
		}
	}
	return append(out, rest)
}

var widely = lazily(`\s{3,}|\s*\|\s*|\s+[•·]\s+`)

var greeting = lazily(`(?i)^(?:my )?(?:dear|dearest|hello|hi|love|with love|lots of love|all my love|yours|kisses|cheers|all the best|warmly|affectionately|kind regards|best wishes|ps|p\.s)\b.{0,50}$`)

func (s *sorting) para(text string) {
	if drawing.MatchString(text) || ruled.MatchString(text) {
		s.cur.comments = append(s.cur.comments, text)
		return
	}
	if greeting.MatchString(text) && !startsAmount(text) {
		s.cur.about = append(s.cur.about, text)
		return
	}
	if l := labelOf(text); (l == theList || l == theMethod || l == theNotes) && len(strings.Fields(text)) <= 8 {
		s.heading(&piece{kind: heading, text: text}, nil)
		return
	}
	l, rest := labelled(text)
	if l == otherTime && len(s.cur.steps) > 0 && lengthOf.MatchString(text) {
		l = noLabel // "Cook 35 minutes" is done there
	}
	switch l {
	case theList:
		s.sec = inMethod // what follows in another paragraph
		first, more := rest, ""
		if all := sentences(rest); len(all) > 1 {
			first, more = all[0], strings.TrimSpace(rest[len(all[0]):])
		}
		if items := runInList(first); items != nil {
			if s.cur.listed {
				s.cur.groups = append(s.cur.groups, group{})
			}
			for _, it := range items {
				s.cur.line(it)
			}
			if more != "" {
				s.do(more, false)
			}
			return
		}
		if m := forSome.FindStringSubmatch(text[:len(text)-len(rest)]); m != nil {
			s.cur.comments = append(s.cur.comments, text[:len(text)-len(rest)])
		}
		s.do(rest, false)
		return
	case theMethod:
		s.sec = inMethod
		s.do(rest, false)
		return
	case theNotes:
		s.cur.about = append(s.cur.about, text)
		return
	case noLabel:
	default:
		s.fact(l, rest, text)
		return
	}
	switch {
	case s.sec == inNotes:
		s.cur.about = append(s.cur.about, text)
	case s.sec == inList && !s.cur.listed:
		all := sentences(text)
		if items := runInList(all[0]); items != nil {
			for _, it := range items {
				s.cur.line(it)
			}
			if rest := strings.TrimSpace(text[len(all[0]):]); rest != "" {
				s.sec = inMethod
				s.do(rest, false)
			}
			return
		}
		s.do(text, false)
	default:
		if items := listByAmounts(text); items != nil && len(s.cur.steps) == 0 {
			for _, it := range items {
				s.cur.line(it)
			}
			s.sec = inMethod
			return
		}
		if s.sec == anywhere && !s.cur.listed && len(s.cur.steps) == 0 && !orders(text) && listComes(s.after) {
			s.cur.about = append(s.cur.about, text) // what somebody tells before the list
			s.yields(text)
			return
		}
		s.do(s.lists(text), false)
	}
}

// listComes tells whether the list of the dish stands below.
func listComes(rest []piece) bool {
	for _, p := range rest {
		switch {
		case p.kind == item, p.kind == row, p.kind == heading && labelOf(p.text) == theList:
			return true
		case p.kind == heading || p.kind == numbered:
			return false
		}
	}
	return false
}

// lists takes from a paragraph the sentences that are lists, "Pastry: 500 g flour, 250 g
// butter and 80 ml water.", and gives back the others.
func (s *sorting) lists(text string) string {
	var left strings.Builder
	for _, sentence := range sentences(text) {
		m := nameOfList.FindStringSubmatch(strings.TrimSpace(sentence))
		if m == nil {
			left.WriteString(sentence)
			continue
		}
		items := listByAmounts(m[2])
		if items == nil {
			left.WriteString(sentence)
			continue
		}
		if l := strings.ToLower(m[1]); strings.HasPrefix(l, "per ") || labelOf(l) == theList { // it is no part
			s.cur.comments = append(s.cur.comments, m[1])
			m[1] = ""
		}
		s.cur.groups = append(s.cur.groups, group{title: m[1]})
		for _, it := range items {
			if in := doneIn.FindStringSubmatch(it); in != nil && startsAmount(in[3]) { // and what it is done in
				s.cur.line(in[1] + ", " + in[2] + " " + in[3])
				it = in[3]
			}
			s.cur.line(it)
		}
	}
	return left.String()
}

// doneIn is a thing of a list with another: "4 shallots sweated in 60 g butter".
var doneIn = lazily(`^(.+?),? (\p{L}+ed (?:in|with|over)) (.+)$`)

// nameOfList is what a list in a sentence is for.
var nameOfList = lazily(`^(?:and )?(?:[Ff]or )?(?:the )?(\p{L}[\p{L} ]{2,24}?)(?::| [–—-]) (\S.*)$`)

// fact places what a label says: how many it serves, how long it takes.
func (s *sorting) fact(l label, rest, whole string) {
	r := s.cur
	if all := sentences(rest); len(all) > 1 && l != theTime { // "Serves 6. Eaten cold."
		s.fact(l, all[0], strings.TrimSpace(whole[:len(whole)-len(rest)]+all[0]))
		r.about = append(r.about, strings.TrimSpace(rest[len(all[0]):]))
		return
	}
	rest = strings.Trim(rest, " .")
	try := func(field string) bool {
		if !parses(field + " ?") {
			return false
		}
		r.field(field, l != theServes || !strings.HasPrefix(strings.ToLower(whole), "serve"))
		if lost := lostWords(whole, field); len(lost) > 0 {
			r.comments = append(r.comments, whole)
		}
		return true
	}
	switch l {
	case theTitle:
		if r.title == "" || r.empty() {
			if r.title != "" {
				r.comments = append(r.comments, r.title)
			}
			r.title = rest
			return
		}
	case theServes, theMakes:
		if m := soManyOf.FindStringSubmatch(rest); m != nil && try("serves "+m[1]+", "+m[2]+" each") {
			return
		}
		if n := serves(rest); n != "" && (l == theServes || !strings.Contains(n, "to") && people.FindStringSubmatch(rest) != nil && !manyThings(rest)) {
			if try("serves " + n) {
				return
			}
		}
		if m := forPeople.FindStringSubmatch(rest); m != nil {
			if n := serves(m[1]); n != "" && try("serves "+n) {
				return
			}
		}
		if made := cupsAlone.ReplaceAllString(strings.TrimPrefix(rest, "for "), "$1 cups"); try("makes "+made) || try("makes "+strings.TrimPrefix(made, "about ")) {
			return
		}
	case thePortion:
		for i := range r.fields {
			f := &r.fields[i]
			if strings.HasPrefix(f.text, "serves ") && !strings.Contains(f.text, ",") && parses(f.text+", "+rest+" each") {
				f.text += ", " + rest + " each"
				return
			}
		}
	case theTime:
		at := rest
		for _, lead := range []string{"altogether,", "altogether", "about", "in all", "total"} {
			at = strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(strings.ToLower(at), lead), lead))
		}
		if sp, n, _ := quantity.ReadSpan(at, quantity.Options{}); n > 0 && strings.TrimSpace(at[n:]) == "" && try("takes "+sp.String()) {
			return
		}
		if said := prose.Read(at); len(said.Times) == 1 && said.Times[0].From == 0 && said.Times[0].To == len(at) && try("takes "+said.Times[0].Span.String()) {
			return
		}
		r.comments = append(r.comments, whole)
		r.lasts(rest)
		return
	case theOven:
		if said := prose.Read(whole); len(said.Heats) > 0 {
			s.oven = &said.Heats[0]
			r.steps = append(r.steps, step{text: whole, margin: ""})
			return
		}
	}
	r.comments = append(r.comments, whole)
}

var (
	cupsAlone = lazily(`^([\d½¼¾/ -]*[\d½¼¾]) ?c\.?$`)
	soManyOf  = lazily(`^(\d+) ?[x×] ?(\d.*)$`)
	forPeople = lazily(`(?i)^(?:.*\b)?for (?:about )?([\p{L}\d -]+?) (?:persons?|people|servings|portions|covers)\b`)
	things    = lazily(`(?i)^\D*\d+\s+\p{L}`)
)

// manyThings tells whether a yield is of things that are made: 24 biscuits.
func manyThings(s string) bool {
	if m := things.FindString(s); m == "" {
		return false
	}
	for _, w := range []string{"person", "people", "serving", "portion", "cover", "helping"} {
		if strings.Contains(strings.ToLower(s), w) {
			return false
		}
	}
	return true
}

// listItems are the things that a line of a list names: one, but for "salt, pepper and
// nutmeg".
func listItems(text string) []string {
	text = strings.TrimSpace(text)
	if startsAmount(text) || strings.ContainsAny(text, "(|") {
		return []string{text}
	}
	parts := strings.Split(strings.ReplaceAll(strings.TrimSuffix(text, "."), " and ", ", "), ",")
	if len(parts) < 2 || len(parts) == 2 && !strings.ContainsRune(text, ',') && !strings.Contains(strings.ToLower(text), "salt") && !strings.Contains(strings.ToLower(text), "pepper") {
		return []string{text} // oil and vinegar may be one thing
	}
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
		if !ingredient(parts[i]) {
			return []string{text}
		}
	}
	return parts
}

var states = setOf(strings.Join(larder.States(), " "))

// clings are words that go on with what stands before a comma.
var clings = setOf(`or which that when if not as with without in for to but
say each weighing cut more well just preferably of by from at though such only
very the according all both plus too off on where until ie eg`)

// runInList are the things of a list that is written as a sentence; nil: it is none.
func runInList(text string) []string {
	text = strings.TrimRight(strings.TrimSpace(text), " .")
	var raw []string
	depth, from := 0, 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '(':
			depth++
		case c == ')':
			depth--
		case depth > 0:
		case (c == ',' || c == ';') && i+1 < len(text) && text[i+1] == ' ':
			raw = append(raw, text[from:i])
			from = i + 1
		case c == ' ' && strings.HasPrefix(text[i:], " and ") && startsAmount(text[i+5:]) && len(text[from:i]) > 3:
			raw = append(raw, text[from:i])
			from = i + 4
		}
	}
	raw = append(raw, text[from:])
	var out []string
	sure := 0
	for i, p := range raw {
		p = strings.TrimSpace(p)
		bare := strings.TrimSpace(strings.TrimPrefix(p, "and "))
		first, _, _ := strings.Cut(strings.ToLower(bare), " ")
		amount := startsAmount(bare) && first != "the"
		switch {
		case p == "":
		case i > 0 && len(out) > 0 && !amount && (clings[first] && !strings.HasPrefix(bare, "the juice") && !strings.HasPrefix(bare, "the rind") && !strings.HasPrefix(bare, "the yolk") && !strings.HasPrefix(bare, "the white") ||
			!ingredient(bare) && (states[first] || strings.HasSuffix(first, "ed") || strings.HasSuffix(first, "ing") || strings.HasSuffix(first, "ly"))):
			out[len(out)-1] += ", " + p
		default:
			if amount || ingredient(bare) {
				sure++
			}
			out = append(out, strings.TrimPrefix(bare, "the "))
		}
	}
	if len(out) == 0 || sure*2 < len(out) || len(raw) < 3 && len(strings.Fields(text)) > 7*len(raw) {
		return nil
	}
	return out
}
