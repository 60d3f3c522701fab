package draft

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// pieceKind is what a piece of a text is by its look.
type pieceKind int

const (
	para pieceKind = iota
	heading
	item     // of a list
	numbered // of a list of steps
	row      // of a table
)

// piece is a paragraph, a heading, an item of a list or a row of a table, on one line.
type piece struct {
	kind  pieceKind
	text  string
	level int      // of a heading that says so; 0: nobody knows
	cells []string // of a row
	names bool     // of a row: it names the columns
	aside bool     // it is said of the text, and nothing is done in it
}

func wordsOf(pieces []piece) string {
	var b strings.Builder
	for _, p := range pieces {
		b.WriteString(p.text + "\n" + strings.Join(p.cells, "\n") + "\n")
	}
	return b.String()
}

// plain cuts a text that nobody has marked into pieces, by blank lines, by where its lines
// begin, and by what they begin with.
func plain(text string) (out []piece) {
	var block []string
	flush := func() {
		if len(block) > 0 {
			out = append(out, blockOf(block)...)
			block = nil
		}
	}
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.TrimRight(line, " ")
		if line == "" || len(block) == 0 && ruled.MatchString(line) && !strings.ContainsAny(line, "|+") {
			flush()
			continue
		}
		block = append(block, line)
	}
	flush()
	return out
}

var (
	bullet   = lazily(`^\s*(?:[-*•·–—]|o)\s+(\S.*)`)
	counted  = lazily(`^\s*(?:(?i:step)\s*)?(\d{1,2})(?:[.):]|\s)\s*(\S.*)`)
	dotted   = lazily(`^\s*(?:(?i:step)\s*)?\d{1,2}[.):]\s*\S`)
	ruled    = lazily(`^[\s|+=:_*~·.–—-]+$`)
	columned = lazily(`\s{2,}`)
	drawing  = lazily(`^\s*\[(?i:illustration|footnote|picture|photo)[^\]]*\]?$`)
)

func indent(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// blockOf are the pieces of lines that stand together.
func blockOf(lines []string) []piece {
	if f := factsOf(lines); f != nil {
		return f
	}
	if t := tableOf(lines); t != nil {
		return t
	}
	if n := stepsOf(lines); n != nil {
		return n
	}
	lines = inOneColumn(lines)
	if namesFirst(lines) {
		var out []piece
		for _, p := range itemsOf(lines) {
			if p.kind == item {
				p.text = turned(p.text)
			}
			out = append(out, p)
		}
		return out
	}
	first := strings.TrimSpace(lines[0])
	if len(lines) > 1 && !endsSentence(first) && !bullet.MatchString(lines[0]) && !startsAmount(first) {
		// a heading that stands close upon its list or its text
		rest := lines[1:]
		if len(rest) > 1 && len(strings.Fields(first)) <= 8 && labelOf(first) == noLabel && namesFirst(rest) {
			if _, _, behind := behindItsName(first); !behind {
				return append([]piece{{kind: heading, text: first}}, blockOf(rest)...)
			}
		}
		if fact := strings.TrimSpace(rest[0]); len(rest) > 2 && len(strings.Fields(first)) <= 8 && (forCovers.MatchString(strings.Trim(fact, "()")) || labelFact(fact)) && listed(rest[1:]) {
			return append([]piece{{kind: heading, text: first}, {kind: para, text: strings.Trim(fact, "()")}}, blockOf(rest[1:])...)
		}
		if p := headOf(lines); p != nil {
			return p
		}
		if strings.HasSuffix(first, ":") && len(strings.Fields(first)) <= 8 || labelOf(first) != noLabel && len(strings.Fields(first)) <= 4 ||
			allLabelled(rest) || listed(rest) && len(rest) > 1 && startsAmount(strings.TrimSpace(rest[0])) && len(strings.Fields(first)) <= 8 || allCaps(first) && !allCaps(strings.TrimSpace(rest[0])) {
			return append([]piece{{kind: heading, text: first}}, blockOf(rest)...)
		}
	}
	if listed(lines) {
		return itemsOf(lines)
	}
	text := joined(lines)
	if len(lines) == 2 && allCaps(lines[0]) && allCaps(lines[1]) && !endsSentence(first) {
		return []piece{{kind: heading, text: first}, {kind: heading, text: strings.TrimSpace(lines[1])}}
	}
	if len(lines) <= 2 && isHeading(text) {
		return []piece{{kind: heading, text: text}}
	}
	if m := inCapitals.FindStringSubmatch(text); m != nil && labelOf(m[1]) == noLabel && len(strings.Fields(m[2])) > 8 && len(m[1]) > 5 {
		return []piece{{kind: heading, text: m[1]}, {kind: para, text: m[2]}}
	}
	return []piece{{kind: para, text: text}}
}

// inOneColumn puts the right half of a list in two columns below the left one, where every
// line that has two halves has a thing in each, and an amount of one.
func inOneColumn(lines []string) []string {
	var left, right []string
	for _, l := range lines {
		halves := farApart.Split(strings.TrimSpace(l), -1)
		switch {
		case len(halves) == 1:
			left = append(left, l)
		case len(halves) == 2 && thing(halves[0]) && thing(halves[1]) && (startsAmount(halves[0]) || startsAmount(halves[1])):
			left, right = append(left, halves[0]), append(right, halves[1])
		default:
			return lines
		}
	}
	if len(right) == 0 || len(right)*2 < len(lines) {
		return lines
	}
	return append(left, right...)
}

var farApart = lazily(`\s{3,}`)

// thing tells whether a few words may be a thing of a list: with an amount, if any, before it.
func thing(s string) bool {
	_, only := soMuch(s)
	return !only && len(strings.Fields(s)) <= 8 && !endsSentence(s) && labelOf(s) == noLabel && !labelFact(s)
}

// labelFact tells whether a short line is a label with what it says.
func labelFact(s string) bool {
	l, _ := labelled(s)
	return l > theNotes && len(strings.Fields(s)) <= 10
}

// headOf are the lines of a head, each by itself: a number, a title, for how many. Nil: they
// are none.
func headOf(lines []string) (out []piece) {
	heads, facts := 0, 0
	for i, l := range lines {
		s := strings.TrimSpace(l)
		switch {
		case len(strings.Fields(s)) > 10, endsSentence(s), startsAmount(s), bullet.MatchString(l):
			return nil
		case labelFact(s):
			facts++
			for _, part := range atLabels(s) {
				out = append(out, piece{kind: para, text: part})
			}
		case allCaps(s):
			heads++
			out = append(out, piece{kind: heading, text: s})
		case i == 0 && heads+facts == 0:
			out = append(out, piece{kind: para, text: s, aside: true})
		default:
			return nil
		}
	}
	if facts == 0 || heads != 1 {
		return nil
	}
	return out
}

// inCapitals is a title that stands in one line with what it is the title of.
var inCapitals = lazily(`^(?:\d{1,4}[.)]? )?(\p{Lu}[\p{Lu}'’,& -]{3,70})\.\s*(?:--+|—)?\s*(\S.*)$`)

func allLabelled(lines []string) bool {
	for _, s := range lines {
		if l, _ := labelled(strings.TrimSpace(s)); l <= theNotes {
			return false
		}
	}
	return true
}

// factsOf are lines that each begin with a label, "Number of servings 100"; nil: they do not.
func factsOf(lines []string) (out []piece) {
	n := 0
	for _, l := range lines {
		s := strings.TrimSpace(l)
		if l, rest := labelled(s); l != noLabel && (l > theMethod || !sentenceLike(rest)) {
			n++
			out = append(out, piece{kind: para, text: s})
			continue
		}
		if len(out) == 0 {
			return nil
		}
		out[len(out)-1].text = joined([]string{out[len(out)-1].text, s})
	}
	if n < 2 || n*2 < len(lines) {
		return nil
	}
	return out
}

func joined(lines []string) string {
	var b strings.Builder
	for i, l := range lines {
		l = strings.TrimSpace(l)
		if i > 0 && !brokenWord(b.String()) {
			b.WriteByte(' ')
		}
		b.WriteString(l)
	}
	return b.String()
}

// brokenWord tells whether a line ends in the hyphen of a word that goes on.
func brokenWord(s string) bool {
	n := len(s)
	return n > 1 && s[n-1] == '-' && s[n-2] >= 'a' && s[n-2] <= 'z'
}

func allCaps(s string) bool {
	letters := 0
	for _, c := range s {
		if unicode.IsLower(c) {
			return false
		}
		if unicode.IsLetter(c) {
			letters++
		}
	}
	return letters > 2
}

// endsSentence tells whether a line ends as a sentence does, and not with a short word that
// was cut.
func endsSentence(s string) bool {
	s = strings.TrimRight(s, `"')”’_`)
	if s == "" || !strings.ContainsAny(s[len(s)-1:], ".!?;,") {
		return false
	}
	if s[len(s)-1] != '.' {
		return true
	}
	last := s[strings.LastIndexByte(s, ' ')+1:]
	_, n := quantity.ReadUnit(last, quantity.Options{})
	return n < len(last)-1
}

// startsAmount tells whether a line begins as one of a list does: with an amount.
func startsAmount(s string) bool {
	a, n, _ := quantity.ReadAmount(s, quantity.Options{Prose: true})
	if n == 0 {
		a, n, _ = quantity.ReadAmount(s, quantity.Options{})
	}
	return n > 0 && !a.IsZero()
}

// listed tells whether lines are those of a list, and not of a paragraph that was broken.
func listed(lines []string) bool {
	amounts, short, ends, longest, items := 0, 0, 0, 0, 0
	for _, l := range lines {
		if bullet.MatchString(l) {
			return bullet.MatchString(lines[0])
		}
		s := strings.TrimSpace(l)
		longest = max(longest, len(s))
		if startsAmount(s) {
			amounts++
		}
		if len(strings.Fields(s)) <= 6 {
			short++
		}
		if endsSentence(s) {
			ends++
		}
		items++
	}
	switch {
	case len(lines) == 1:
		s := strings.TrimSpace(lines[0])
		return amounts == 1 && !numberedTitle.MatchString(s) && len(strings.Fields(s)) <= 9 && !endsSentence(s) && !strings.Contains(s, ". ")
	case amounts*2 >= items:
		return longest <= 90 && ends*2 <= items || longest <= 60
	}
	known := 0
	for _, l := range lines {
		if startsAmount(strings.TrimSpace(l)) || ingredient(strings.TrimSpace(l)) {
			known++
		}
	}
	return short == items && ends == 0 && (amounts > 0 || known*2 >= items)
}

// ingredient tells whether words name something to eat.
func ingredient(s string) bool {
	if cut := strings.IndexAny(s, ",(;"); cut > 0 {
		s = s[:cut]
	}
	_, ok := larder.Builtin().Know(strings.TrimSuffix(strings.TrimSpace(s), "."))
	return ok
}

// itemsOf are the lines of a list; one that goes on is told by where it begins.
func itemsOf(lines []string) (out []piece) {
	in, kind := indent(lines[0]), item
	var points []string
	for _, l := range lines {
		if m := bullet.FindStringSubmatch(l); m != nil {
			points = append(points, m[1])
		}
	}
	if doneByVerb(points) {
		kind = numbered
	}
	for i, l := range lines {
		s := strings.TrimSpace(l)
		if m := bullet.FindStringSubmatch(l); m != nil {
			out = append(out, piece{kind: kind, text: m[1]})
			continue
		}
		if i > 0 && len(out) > 0 {
			before := out[len(out)-1].text
			open := strings.Count(before, "(") > strings.Count(before, ")")
			runs := strings.HasSuffix(before, ",") || strings.HasSuffix(before, " and") || strings.HasSuffix(before, " or") || brokenWord(before)
			if open || !startsAmount(s) && (indent(l) > in+1 || runs) || bullet.MatchString(lines[0]) {
				out[len(out)-1].text = joined([]string{before, s})
				continue
			}
		}
		if strings.HasSuffix(s, ":") && len(strings.Fields(s)) <= 6 {
			out = append(out, piece{kind: heading, text: s, level: 9})
			continue
		}
		out = append(out, piece{kind: item, text: s})
	}
	return out
}

// stepsOf are lines that are numbered from one on; nil: they are not.
func stepsOf(lines []string) (out []piece) {
	next := 0
	for i, l := range lines {
		m := counted.FindStringSubmatch(l)
		if m != nil && (next == 0 || m[1] == strconv.Itoa(next)) && (dotted.MatchString(l) || sentenceLike(m[2])) {
			if next == 0 && i > 0 {
				return nil
			}
			if next == 0 {
				next, _ = strconv.Atoi(m[1]) // two figures at most
			}
			next++
			out = append(out, piece{kind: numbered, text: m[2]})
			continue
		}
		if len(out) == 0 {
			return nil
		}
		out[len(out)-1].text = joined([]string{out[len(out)-1].text, l})
	}
	if len(out) == 1 && !dotted.MatchString(lines[0]) {
		return nil
	}
	for _, p := range out {
		if dotted.MatchString(lines[0]) && sentenceLike(p.text) || endsSentence(p.text) {
			return out
		}
	}
	return nil
}

// sentenceLike tells whether a text begins with a capital and is longer than a name.
func sentenceLike(s string) bool {
	c, _ := utf8.DecodeRuneInString(s)
	return unicode.IsUpper(c) && len(strings.Fields(s)) > 2
}

// tableOf are the rows of a table drawn with bars or blanks; nil: it is none.
func tableOf(lines []string) (out []piece) {
	bars, rules := 0, 0
	for _, l := range lines {
		if strings.Contains(l, "|") {
			bars++
		}
		if ruled.MatchString(l) {
			rules++
		}
	}
	if bars > 1 && bars+rules*2 > len(lines) {
		return barred(lines)
	}
	if items := underHeads(lines); items != nil {
		return items
	}
	head := columned.Split(strings.TrimSpace(lines[0]), -1)
	if len(lines) < 2 || len(head) < 2 || labelOf(head[0]) != theList {
		return nil
	}
	out = append(out, piece{kind: row, cells: head})
	for _, l := range lines[1:] {
		cells := columned.Split(strings.TrimSpace(l), -1)
		out = append(out, piece{kind: row, cells: cells})
	}
	return out
}

// heads are what the columns of a kitchen's table are called, in the order in which a line
// of a list has what stands in them.
var heads = []map[string]bool{
	setOf("qty quantity amount weight measure"), setOf("unit units uom"), setOf("ingredient ingredients item product commodity what"), setOf("prep preparation method notes note remarks cut"),
}

// underHeads are the lines of a table whose amounts stand in a column of their own, with
// the unit in another; each cell belongs to the head it stands below. Nil: it is none.
func underHeads(lines []string) (out []piece) {
	var place, begins []int // of each column: which of the heads it is, and where it begins
	found := map[int]bool{}
	for _, m := range columnOf.FindAllStringIndex(lines[0], -1) {
		is := slices.IndexFunc(heads, func(h map[string]bool) bool { return h[strings.ToLower(strings.Trim(lines[0][m[0]:m[1]], " .:"))] })
		if is < 0 {
			return nil
		}
		place, begins, found[is] = append(place, is), append(begins, m[0]), true
	}
	if len(place) < 2 || !found[0] || !found[2] || len(lines) < 2 {
		return nil
	}
	out = append(out, piece{kind: para, text: "Columns: " + strings.Join(columned.Split(strings.TrimSpace(lines[0]), -1), ", "), aside: true})
	for _, l := range lines[1:] {
		var cells [4]string
		for _, m := range columnOf.FindAllStringIndex(l, -1) {
			col := 0
			for i, b := range begins {
				if m[0] >= b-1 {
					col = i
				}
			}
			cells[place[col]] = strings.TrimSpace(cells[place[col]] + " " + l[m[0]:m[1]])
		}
		if cells[0] == "" && cells[1] != "" { // to taste, as needed
			cells[1], cells[3] = "", strings.Trim(cells[3]+", "+cells[1], ", ")
		}
		text := strings.Join(strings.Fields(strings.Join(cells[:3], " ")), " ")
		if cells[3] != "" {
			text += ", " + cells[3]
		}
		out = append(out, piece{kind: item, text: text})
	}
	return out
}

// columnOf is what stands in a column: words with no more than a blank between them.
var columnOf = lazily(`\S+(?: \S+)*`)

func barred(lines []string) (out []piece) {
	base := -1
	for _, l := range lines {
		if ruled.MatchString(l) {
			continue
		}
		raw := strings.Split(strings.Trim(l, "|"), "|")
		cells := make([]string, len(raw))
		for i, c := range raw {
			cells[i] = strings.TrimSpace(c)
		}
		if base < 0 {
			base = indent(raw[0])
		}
		if n := len(out); n > 1 && (cells[0] == "" || indent(raw[0]) > base+1) {
			for i, c := range cells {
				if i < len(out[n-1].cells) && c != "" {
					out[n-1].cells[i] = strings.TrimSpace(joined([]string{out[n-1].cells[i], c}))
				}
			}
			continue
		}
		out = append(out, piece{kind: row, cells: cells})
	}
	return out
}

// isHeading tells whether a short line that stands alone is one.
func isHeading(s string) bool {
	words := len(strings.Fields(s))
	if words <= 18 && !strings.Contains(s, ". ") && capitalHead(s) {
		return true
	}
	if words == 0 || words > 10 || startsAmount(s) && words > 1 && !numberedTitle.MatchString(s) || drawing.MatchString(s) || runIn.MatchString(s) {
		return false
	}
	if allCaps(s) {
		return true
	}
	if strings.HasSuffix(s, ".") && words <= 7 && titleCase(s) {
		return true
	}
	return !endsSentence(s)
}

// capitalHead tells whether the first words of a line are in capitals, as a title's are.
func capitalHead(s string) bool {
	f := strings.Fields(headNumber.ReplaceAllString(s, ""))
	return len(f) > 2 && allCaps(f[0]+f[1]) && len(f[0]) > 2 && !runIn.MatchString(s) && !startsAmount(s)
}

var numberedTitle = lazily(`^\d{1,4}\s*[—.–-]+\s*\p{Lu}`)

// titleCase tells whether all words but the small ones begin with capitals.
func titleCase(s string) bool {
	for w := range strings.FieldsSeq(s) {
		if c, _ := utf8.DecodeRuneInString(w); unicode.IsLower(c) && len(w) > 3 {
			return false
		}
	}
	return true
}
