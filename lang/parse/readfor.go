package parse

// What is read besides the words of the table, because cooks write it and it has
// one meaning. The formatter writes the word of the table.

// readFor are words that begin a line or a clause.
var readFor = []struct {
	in   Place
	text string // as it is written
	word string // what it is read for
}{
	{InMenu, "ready", "on the table"},
	{InMenu, "serve", "on the table"},
	{InMenu, "practice", "rules"},
	{InRecipe, "practice", "rules"},
	{InKitchen, "practice", "rules"},
	{OnServing, "store-bought", "from"},
	{OnLine, "store-bought", "from"},
	{OnLine, "hands-on", "work"},
	{OnLine, "hands-off", "leave"},
	{OnStep, "hands-on", "work"},
	{OnStep, "hands-off", "leave"},
	{OnStep, "after a pause", "only after a pause"},
	{OnStep, "before a pause", "only before a pause"},
	{OnStep, "if paused", "only after a pause"},
	{OnStep, "if pausing", "only before a pause"},
	{OnStep, "unless paused", "not after a pause"},
	{OnStep, "unless pausing", "not before a pause"},
	{OnStep, "larder", "cool place"},
	{OnStep, "cellar", "cool place"},
	{OnStep, "burner", "ring"},
	{OnStep, "burners", "rings"},
	{OnStep, "hob", "ring"},
	{OnStep, "stove", "ring"},
	{OnStep, "gas", "ring"},
	{OnStep, "chill", "stand"},
	{OnStep, "refrigerate", "stand"},
}

// ReadFor lists what is read for a word of the table, each with what the formatter writes:
// "hob", "ring".
func ReadFor() (out [][2]string) {
	for _, r := range readFor {
		out = append(out, [2]string{r.text, r.word})
	}
	for _, j := range joins {
		out = append(out, [2]string{j.text, j.word})
	}
	return out
}

// joins are words within a line or a clause.
var joins = []struct{ text, word string }{
	{"medium-high", "medium to high"}, {"medium-low", "low to medium"}, {"larder", "cool place"}, {"cellar", "cool place"}, {"hands-on", "work"},
}

// joinedBy is the joining word of a rule that a text begins with, or one that is
// read for it, and how much of the text it is; 0 when there is none.
func joinedBy(small []string, text string) (string, int) {
	c := lowerByte(text[0])
	for _, j := range joins {
		if c == j.text[0] && contains(small, j.word) {
			if n := matchGroup(text, j.text); n > 0 {
				return j.word, n
			}
		}
	}
	for _, word := range small {
		if c == word[0] {
			if n := matchGroup(text, word); n > 0 {
				return word, n
			}
		}
	}
	return "", 0
}

// onlyIf tells whether a word that is read for another means it here: `gas low` is a
// ring and `gas 4` an oven, `hob 2 h` nobody knows what, and nothing is chilled for no time.
func onlyIf(said, rest string) bool {
	switch said {
	case "serve": // `serve hot` belongs to a dish
		return rest != "" && startsNumber(rest)
	case "burner", "burners", "hob", "stove", "gas":
		if rest == "" {
			return false
		}
		_, n := joinedBy(levelWords, rest)
		return n > 0
	case "chill", "refrigerate":
		return startsNumber(rest) || matchGroup(rest, "overnight") > 0 || matchGroup(rest, "about") > 0 || matchGroup(rest, "at least") > 0
	}
	return true
}

// saidFor completes a piece whose word was read for another: what is left unsaid
// there is said by the word itself.
func (s *piece) saidFor(said string) {
	switch said {
	case "store-bought":
		if len(s.toks) == 1 {
			s.addWord(tWord, s.end, "the")
			s.toks = append(s.toks, tok{text: "shop", kind: tName, at: s.end})
		}
	case "chill", "refrigerate":
		if len(s.toks) == 2 && s.toks[1].kind == tTime {
			s.toks = append(s.toks, tok{text: ",", kind: tComma, at: s.end})
			s.addWord(tWord, s.end, "fridge")
		}
	}
}
