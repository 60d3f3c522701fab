package resolve

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// Parts of one thing that are used apart: the yolks and the whites of eggs, the
// juice and the zest of a fruit. The same egg gives both, so the whites of two
// eggs cost nothing when the yolks of four went in before.

// fruits give juice and zest.
var fruits = wordSet("lemon lime orange grapefruit clementine mandarin tangerine")

// partNamed are the words of a part, by their folded form.
var partNamed = map[string]string{"yolk": "yolk", "white": "white", "juice": "juice", "zest": "zest", "rind": "zest", "peel": "zest"}

var partsSaid = []string{"yolk", "white", "juice", "zest", "rind", "peel"}

// head is the last word of a line's name.
func (l *Line) head() string { return l.Key[strings.LastIndexByte(l.Key, ' ')+1:] }

// gives tells whether a line is of things that have such a part.
func (l *Line) gives(part string) bool {
	if l.Quantity == nil || l.Quantity.Dim != quantity.None {
		return false
	}
	head := l.head()
	switch part {
	case "yolk", "white":
		return head == "egg"
	}
	return fruits[head]
}

// partForms adds the names of the parts of what is gathered whole, where the
// part itself is not gathered: "the yolks", "egg whites", "lemon juice".
func (b *builder) partForms(f *finder, lines []*Line) {
	ends := map[string]bool{} // the last two words of each name
	for _, l := range lines {
		if i := strings.LastIndexByte(l.Key, ' '); i > 0 {
			ends[l.Key[strings.LastIndexByte(l.Key[:i], ' ')+1:]] = true
		}
	}
	for _, said := range partsSaid {
		part := partNamed[said]
		for _, l := range lines {
			if !l.gives(part) {
				continue
			}
			head := l.head()
			if ends[head+" "+said] {
				continue
			}
			t := target{line: l, part: part}
			f.add([]string{head, said}, t, true)
			if head == "egg" {
				f.add([]string{said}, t, false)
			}
		}
	}
}

// whiteSaid tells whether the word "white" at i is said of eggs: "until white"
// and "the white pith" are not.
func (sc *scanner) whiteSaid(i int) bool {
	if strings.HasSuffix(sc.lower(i), "s") {
		return true
	}
	return i > 0 && (sc.lower(i-1) == "the" || sc.lower(i-1) == "one") && (i+1 >= len(sc.words) || sc.words[i+1].stop || fillerStops[sc.lower(i+1)] || sc.lower(i+1) == "stiffly" || sc.lower(i+1) == "lightly")
}

// partsBefore are the parts that stand before the phrase that begins at word i:
// "the grated zest and juice of".
func (sc *scanner) partsBefore(i int) (parts []string) {
	if i < 2 || sc.lower(i-1) != "of" || sc.words[i-1].stop {
		return nil
	}
	for k := i - 2; k >= 0; k-- {
		part := partNamed[sc.words[k].key]
		switch {
		case part != "":
			parts = append(parts, part)
		case sc.lower(k) == "and" || articles[sc.lower(k)] || sc.lower(k) == "grated" || sc.lower(k) == "finely" || sc.lower(k) == "pared" || sc.lower(k) == "strained":
		default:
			return parts
		}
		if sc.words[k].stop || sc.words[k].opens {
			return parts
		}
	}
	return parts
}

// partsOf are the parts of its line that the name n words long at i speaks of: by
// its form, by what stands before the phrase, or all that the line's note has.
func (sc *scanner) partsOf(t target, first int) []string {
	if t.part != "" {
		return []string{t.part}
	}
	parts := sc.partsBefore(first)
	for _, p := range parts {
		if !t.line.gives(p) {
			return nil
		}
	}
	return parts
}

// separated is how much of a line was parted into yolks and whites, none of which went in yet.
const separated = "separated"

// separates notes that so much of a line was parted by what leads up to word i:
// "separate four of the eggs".
func (sc *scanner) separates(l *Line, t Take, i int) {
	if !l.gives("yolk") || t.Refers || t.Unmeasured || t.All {
		return
	}
	for k := i - 1; k >= 0; k-- {
		if sc.words[k].key == "separate" {
			if sc.story.parts == nil {
				sc.story.parts = map[target]quantity.Number{}
			}
			for _, part := range []string{"", separated} {
				at := target{line: l, part: part}
				sc.story.parts[at] = sc.story.parts[at].Add(t.Part)
			}
			return
		}
		if sc.words[k].opens || sc.words[k].stop {
			return
		}
	}
}

// takeParts takes parts of a line: what was opened for another part of it
// before, and only then more of it.
func (rd *reader) takeParts(st *story, l *Line, t Take, w *wanted, parts []string) Take {
	if st.parts == nil {
		st.parts = map[target]quantity.Number{}
	}
	opened := st.parts[target{line: l}]
	free, had := opened, quantity.Number{}
	for _, p := range parts {
		have := st.parts[target{line: l, part: p}]
		free, had = quantity.Min(free, opened.Sub(have)), quantity.Max(had, have)
	}
	left, touched := st.left[l], st.touched[l]
	all := left.Add(free)
	if apart := st.parts[target{line: l, part: separated}]; w == nil && had.IsZero() && apart.Sign() > 0 { // "separate four of the eggs; beat the yolks": of those four
		all = quantity.Min(free, apart)
	}
	st.left[l], st.touched[l] = all, had.Sign() > 0
	again := had.Sign() > 0 && w == nil
	t = rd.resolveTake(st, l, t, w, again)
	st.touched[l] = st.touched[l] || touched
	if t.Refers || t.Unmeasured {
		st.left[l] = left
		return t
	}
	used := all.Sub(st.left[l])
	fresh := quantity.Max(used.Sub(free), quantity.Number{})
	st.left[l] = left.Sub(fresh)
	st.parts[target{line: l}] = opened.Add(fresh)
	for _, p := range parts {
		k := target{line: l, part: p}
		st.parts[k] = st.parts[k].Add(used)
	}
	if !fresh.Equal(used) {
		t.Of, t.Part = used, fresh
		t.Refers = fresh.IsZero()
	}
	return t
}

// onceEach keeps one meaning of each line: the part that was said where several
// parts of it were gathered, "zest and juice of 1 lemon", else the line.
func onceEach(ms []match) (out []match) {
	for _, m := range ms {
		i := slices.IndexFunc(out, func(o match) bool { return m.target.line != nil && o.target.line == m.target.line })
		if i < 0 {
			out = append(out, m)
			continue
		}
		if several := strings.Contains(m.target.line.Note.Text, " and "); (m.target.part != "") == several {
			out[i] = m
		}
	}
	return out
}
