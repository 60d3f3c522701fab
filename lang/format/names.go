package format

import (
	"strings"
	"unicode"

	"tamis/lang/ast"
	"tamis/lang/parse"
	"tamis/lang/quantity"
)

// title writes a name where any words may stand.
func title(n ast.Name) string {
	if n.Quoted && !plain(n.Text, everyWord) {
		return `"` + n.Text + `"`
	}
	return n.Text
}

// ref writes a name that begins a line.
func ref(n ast.Name) string {
	if n.Quoted && !plain(n.Text, firstWord) {
		return `"` + n.Text + `"`
	}
	return n.Text
}

// gatherName writes the name of a gathered line.
func gatherName(l *ast.Line) string {
	if l.Name.Quoted && !(plain(l.Name.Text, firstWord) && !unitLike(l)) {
		return `"` + l.Name.Text + `"`
	}
	return l.Name.Text
}

// unitLike tells whether the first of several words of a name might be taken
// for a unit after a count: fronds dill.
func unitLike(l *ast.Line) bool {
	first, _, more := strings.Cut(l.Name.Text, " ")
	return l.Amount != nil && more && strings.HasSuffix(first, "s")
}

// Which words of a name are looked at for meaning something to the notation.
const (
	everyWord = iota // among the words of a clause or field
	firstWord        // at the beginning of a line
)

// plain tells whether a name needs no quotes: it is made of letters and single
// blanks, and its words mean nothing to the notation where it stands. Where
// that is in doubt, the writer's quotes stay.
func plain(name string, which int) bool {
	for i, w := range strings.Split(name, " ") {
		if w == "" || !letters(w) {
			return false
		}
		low := strings.ToLower(w)
		switch low {
		case "or", "and", "taste", "optional":
			return false
		}
		if which == firstWord && i > 0 {
			continue
		}
		if reserved[low] && (which == everyWord || !heats[low]) {
			return false
		}
		if _, unit := quantity.UnitNamed(low); unit {
			return false
		}
	}
	return true
}

// heats mean something behind `oven`, `ring` and `hold` only.
var heats = map[string]bool{"slow": true, "hot": true, "warm": true, "cold": true, "very": true, "high": true, "low": true, "top": true, "bottom": true, "middle": true}

// letters tells whether a word is letters with at most a hyphen or apostrophe
// between them.
func letters(w string) bool {
	before := false
	for i, r := range w {
		letter := unicode.IsLetter(r) || unicode.IsMark(r) && i > 0
		if !letter && (!before || r != '-' && r != '\'' && r != '’') {
			return false
		}
		before = letter
	}
	return before
}

// reserved are all words of the notation, and words that amounts and shares
// are written with.
var reserved = func() map[string]bool {
	m := map[string]bool{}
	texts := parse.Joining()
	for _, w := range parse.Words() {
		texts = append(texts, w.Text)
	}
	texts = append(texts, `a an x load half third quarter some most all remaining remainder little one two three four five six seven eight
		nine ten eleven twelve twenty dozen few small large heaped level rounded scant paused pausing cover approx approximately around
		roughly circa ca couple bit lot degrees overnight least me`)
	for _, w := range strings.Fields(strings.Join(texts, " ")) {
		m[w] = true
	}
	return m
}()
