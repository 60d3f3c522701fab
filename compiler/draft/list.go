package draft

import (
	"strings"
	"unicode"

	"tamis/compiler/larder"
	"tamis/lang/format"
	"tamis/lang/quantity"
)

// laid reads a text as a file of the notation and lays it out; ok is false when it has
// errors.
func laid(text string) (out string, ok bool) { return format.Text(text, quantity.Options{}) }

// parses tells whether a text can stand as a field of a dish.
func parses(field string) bool {
	if strings.ContainsAny(field, "\n#") {
		return false
	}
	_, ok := laid("dish X\n  " + field + "\n")
	return ok
}

// gathered is a line of a list as the notation has it: one line, or several where it names
// several things. What would be lost of it stands below as `said`. Nil: it cannot be read.
func gathered(raw string) []string {
	raw = strings.TrimSpace(strings.Trim(strings.TrimSpace(raw), ";"))
	raw = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(raw, ","), " and"))
	if !unitEnds(raw) {
		raw = strings.TrimRight(raw, ".")
	}
	if raw == "" {
		return nil
	}
	raw = inFront(spelt(ungrouped(raw)))
	if raw = inInches(raw); eitherWay.MatchString(raw) || strings.Contains(raw, "″") {
		return quoted(raw)
	}
	tries := []string{raw}
	if k := strings.IndexByte(raw, ':'); k >= 0 {
		tries = append(tries, strings.ReplaceAll(raw, ":", ","))
	}
	if strings.ContainsAny(raw, `*_"`) {
		tries = append(tries, strings.NewReplacer("*", "", "_", "", `"`, "").Replace(raw))
	}
	tries = append(tries, fewer(raw), larder.Capital(fewer(raw)))
	for _, t := range tries {
		head, _, clause := strings.Cut(t, " | ")
		if out, ok := oneLine(t); ok {
			return out
		}
		if clause { // without what was to stand behind the bar
			if out, ok := oneLine(head); ok {
				return withSaid(out, raw)
			}
		}
	}
	return quoted(raw)
}

// quoted is a line that stands as its words, without an amount.
func quoted(raw string) []string {
	name := strings.NewReplacer(`"`, "", "|", "/").Replace(raw)
	if out, ok := oneLine(`"` + name + `"`); ok {
		return out
	}
	return nil
}

// fewer is a line without marks that no name may have.
func fewer(s string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("+", " plus ", ":", ",", "|", ",", `"`, "", "*", "", "_", "", "[", "(", "]", ")").Replace(s)), " ")
}

// unitEnds tells whether a text ends in a unit that was cut short.
func unitEnds(s string) bool {
	last := s[strings.LastIndexByte(s, ' ')+1:]
	_, n := quantity.ReadUnit(last, quantity.Options{})
	return n > 0 && n == len(last)
}

// oneLine reads a line of a list alone.
func oneLine(raw string) ([]string, bool) { return oneLineOf("", raw) }

// oneLineOf reads a line of a list whose head goes on: ", percent of flour".
func oneLineOf(head, raw string) ([]string, bool) {
	first, _, _ := strings.Cut(strings.ToLower(raw), " ")
	switch strings.TrimSuffix(first, ":") {
	case "for", "either", "or", "instead", "said", "-", "#":
		return nil, false
	}
	if strings.HasPrefix(raw, "#") || strings.ContainsRune(raw, '\n') {
		return nil, false
	}
	out, ok := laid("dish X\n  gather" + head + "\n    " + raw + "\n")
	if !ok {
		return nil, false
	}
	_, out, found := strings.Cut(out, "  gather"+head+"\n")
	if !found {
		return nil, false
	}
	var lines []string
	for l := range strings.SplitSeq(strings.TrimRight(out, "\n"), "\n") {
		if !strings.HasPrefix(l, "    ") {
			return nil, false
		}
		lines = append(lines, l[4:])
	}
	return withSaid(lines, raw), true
}

// withSaid adds the words of the source where a line has not got them all.
func withSaid(lines []string, raw string) []string {
	if all := strings.Join(lines, " "); len(lostWords(raw, all)) == 0 && !dropsOne(raw, all) {
		return lines
	}
	return append(lines, `  said "`+strings.NewReplacer(`"`, "'", "|", "/").Replace(raw)+`"`)
}

// told are words that a figure, a unit or the layout stands for.
var told = setOf("of the a an and some plus ea to or about x per for c t ingredient mode method direction instruction preparation procedure time total altogether serve feed sufficient person people yield note tip number servings serving portion size lge lrg lg med sml item product")

// lostWords are the words of a text that another one has not got, in order. Numbers and
// units may be written in another way, and small words that join them go with them.
func lostWords(text, in string) (out []string) {
	have := map[string]int{}
	for _, w := range words(in) {
		have[w]++
	}
	for _, w := range words(text) {
		if have[w] > 0 {
			have[w]--
			continue
		}
		if told[w] || isFigure(w) {
			continue
		}
		if _, n := quantity.ReadUnit(w, quantity.Options{}); n == len(w) {
			continue
		}
		if _, n := quantity.ReadSpokenUnit(w, quantity.Options{}); n == len(w) {
			continue
		}
		out = append(out, w)
	}
	return out
}

// parts are words for parts of a whole, and the dozen.
var parts = setOf("dozen half halves third thirds fourth fourths quarter quarters fifth fifths sixth sixths eighth eighths tenth tenths")

// isFigure tells whether a word is a number.
func isFigure(w string) bool {
	if quantity.IsNumberWord(w) || parts[w] {
		return true
	}
	for _, c := range w {
		if unicode.IsNumber(c) {
			return true
		}
	}
	return false
}

// words cuts a text into folded words.
func words(text string) (out []string) {
	for w := range strings.FieldsFuncSeq(text, func(c rune) bool {
		return !unicode.IsLetter(c) && !unicode.IsNumber(c) && c != '\'' && c != '’' && !unicode.IsMark(c)
	}) {
		w = strings.Trim(strings.ReplaceAll(w, "’", "'"), "'")
		if w != "" {
			out = append(out, larder.Fold(w))
		}
	}
	return out
}
