package draft

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// An amount may stand behind its name, "Milk ........ 2 pints", "trout side 1.2kg". Read from
// the front, such lines would give each thing the amount of the one before it.

// parting is what may stand between a name and its amount.
var parting = lazily(`\s*[.…·_]{3,}\s*|\s{2,}|\s*[,:]\s+|\s+[–—-]+\s+|\s+`)

// behindItsName parts a line that names a thing and then says how much of it. sure: nobody
// would read it otherwise.
func behindItsName(s string) (amount, name string, sure bool) {
	s = strings.TrimSpace(s)
	if !unitEnds(s) {
		s = strings.TrimRight(s, ".")
	}
	if c := s[:min(len(s), 1)]; c == "" || strings.ContainsAny(s, `|;"`) || strings.IndexByte("0123456789(-", c[0]) >= 0 || len(s) > 120 || startsAmount(s) {
		return "", "", false
	}
	if l, _ := labelled(s); l != noLabel || labelOf(s) != noLabel {
		return "", "", false
	}
	for _, m := range parting.FindAllStringIndex(s, -1) {
		head, mark, rest := strings.TrimSpace(s[:m[0]]), s[m[0]:m[1]], s[m[1]:]
		if head == "" || len(strings.Fields(head)) > 8 || strings.Contains(head, ". ") || ends[strings.ToLower(lastWord(head))] && !states[strings.ToLower(lastWord(head))] {
			continue
		}
		if first, _, _ := strings.Cut(strings.ToLower(head), " "); imperatives[first] && !ingredient(head) && !ingredient(first) {
			return "", "", false
		}
		bare, ok := soMuch(rest)
		wide := strings.TrimSpace(mark) != "" && strings.TrimSpace(mark) != "," || len(mark) > 1 && strings.TrimSpace(mark) == ""
		switch {
		case ok && (!bare || wide):
			return rest, head, true
		case bare && !wide:
			return rest, head, false
		}
		if amount, rest := partOf(rest); amount != "" { // chopped small
			return amount, head + ", " + rest, true
		}
		if n, noun, two := strings.Cut(rest, " "); two && !strings.Contains(noun, " ") { // juniper 10 berries
			if count, _ := soMuch(n); count && ingredient(head+" "+noun) {
				return n, head + " " + noun, wide
			}
		}
	}
	return "", "", false
}

// partOf parts a weight or a measure from how the thing is, "200g chopped small", "100 g (cold)".
func partOf(s string) (amount, how string) {
	a, n, _ := quantity.ReadAmount(spelt(s), quantity.Options{})
	if n == 0 || spelt(s) != s || !weighs(a) || measuresSize(a) {
		return "", ""
	}
	how = strings.TrimSpace(s[n:])
	first, _, _ := strings.Cut(strings.ToLower(strings.Trim(how, "(,)")), " ")
	if first == "" || !states[first] && !strings.HasSuffix(first, "ed") {
		return "", ""
	}
	return strings.TrimSpace(s[:n]), strings.TrimSpace(strings.TrimPrefix(how, ","))
}

// soMuch tells whether words are an amount and nothing else, and whether that is a mere count.
func soMuch(s string) (count, ok bool) {
	s = spelt(s)
	for _, lead := range []string{"about ", "ca. ", "ca ", "approx. ", "approx "} {
		s = strings.TrimPrefix(s, lead)
	}
	a, n, _ := quantity.ReadAmount(s+" x", quantity.Options{})
	if n < len(s) || a.IsZero() || a.IsNone() || measuresSize(a) {
		return false, false
	}
	return bare(a), true
}

// namesFirst tells whether the lines of a list have their amounts behind their names.
func namesFirst(lines []string) bool {
	sure, maybe := 0, 0
	for _, l := range lines {
		if amount, _, ok := behindItsName(l); ok {
			sure++
		} else if amount != "" || ingredient(strings.TrimSpace(l)) {
			maybe++
		} else if s := strings.TrimSpace(l); endsSentence(s) && len(strings.Fields(s)) > 8 || startsAmount(s) {
			return false
		}
	}
	return sure > 1 && (sure+maybe)*2 > len(lines)
}

// turned puts the amount before the name, where the lines about it do.
func turned(s string) string {
	if amount, name, _ := behindItsName(s); amount != "" {
		return amount + " " + name
	}
	return s
}

// Units that are written in fewer letters than anybody else writes them.
var (
	shortUnits = lazily(`(\d|[½¼¾⅓⅔⅛])(c|C|T|t|Tb|tb|pt|qt)(?:\.|\b)( |$)`)
	grams      = lazily(`(?i)(\d) ?(?:grs?|gms?)\b\.?`)
	hashed     = lazily(`(\d|[½¼¾])#( |$)`)
	shortSize  = lazily(`(?i)^(\d+)x? (lge|lrg|lg|med|sml|sm)\.? `)
	eachOfThem = lazily(`(?i)^([\d½¼¾⅓⅔⅛/ -]+\w+\.?) ea\.? (?:of )?(.+)$`)
	andHalf    = lazily(`(\d) ?& ?(\d/\d|[½¼¾])`)
)

// spelt writes 2T, 500gr, 2# and 1&1/2 as the notation has them.
func spelt(s string) string {
	s = andHalf.ReplaceAllString(s, "$1 $2")
	if m := eachOfThem.FindStringSubmatch(s); m != nil { // 1/2 tsp ea. salt & pepper
		s = m[1] + " each " + strings.ReplaceAll(m[2], " & ", " and ")
	}
	s = hashed.ReplaceAllString(s, "$1 lb$2")
	s = grams.ReplaceAllString(s, "$1 g")
	s = shortSize.ReplaceAllStringFunc(s, func(m string) string {
		p := shortSize.FindStringSubmatch(m)
		return p[1] + " " + map[string]string{"l": "large", "m": "medium", "s": "small"}[strings.ToLower(p[2][:1])] + " "
	})
	return shortUnits.ReplaceAllStringFunc(s, func(m string) string {
		p := shortUnits.FindStringSubmatch(m)
		return p[1] + " " + map[string]string{"c": "cup", "C": "cup", "T": "tbsp", "t": "tsp", "Tb": "tbsp", "tb": "tbsp", "pt": "pint", "qt": "quart"}[p[2]] + p[3]
	})
}

// listByAmounts are the things of a paragraph that is nothing but amounts of things, parted
// by commas; nil: it is something else.
func listByAmounts(text string) []string {
	if len(sentences(text)) > 1 {
		return nil
	}
	items := runInList(text)
	if len(items) < 3 {
		return nil
	}
	with := 0
	for _, it := range items {
		if startsAmount(it) {
			with++
		} else if !ingredient(it) {
			return nil
		}
	}
	if with < 3 || with*2 < len(items) {
		return nil
	}
	return items
}

// doneByVerb tells whether the points of a list say what to do, and none of them an amount.
func doneByVerb(items []string) bool {
	verbs := 0
	for _, it := range items {
		if startsAmount(it) {
			return false
		}
		first := strings.ToLower(strings.Trim(strings.Fields(it + " x")[0], ".,:;"))
		if imperatives[first] && !ingredient(it) && len(strings.Fields(it)) > 1 {
			if _, known := larder.Builtin().Know(first); !known {
				verbs++
			}
		}
	}
	return verbs > 0 && verbs*2 > len(items)
}
