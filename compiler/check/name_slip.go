package check

import (
	"cmp"
	"iter"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var oneLetter = &Rule{
	Code: "U313", Title: "Names one letter apart.", Family: Names, Severity: diag.Question,
	What: "Two names of things that are gathered, or one of them and a dish or base, differ by one letter or one accent. Two that the larder knows both are passed over.",
	Why:  "They would be two things on the shopping list, and a base that is misspelt is bought instead of made.",
	Fix:  "Write both alike.",
	Bad: `dish Buttered rye
  serves 8
  gather
    16 slices rye bread
    120 g    dil butter
  method
    - Spread the rye bread with the dil butter. | work 8 min

base Dill butter
  makes 280 g
  gather
    250 g    butter, soft
    30 g     dill leaves, chopped
  method
    - Beat the dill leaves into the butter. | work 6 min
`,
	At: "5:14",
	Good: `dish Buttered rye
  serves 8
  gather
    16 slices rye bread
    120 g    dill butter
  method
    - Spread the rye bread with the dill butter. | work 8 min

base Dill butter
  makes 280 g
  gather
    250 g    butter, soft
    30 g     dill leaves, chopped
  method
    - Beat the dill leaves into the butter. | work 6 min
`,
	Sources: []string{"the Tamis notation, 2.3"},
	Whole:   true,
	Check:   checkOneLetter,
}

// named is a name with where it was first written.
type named struct {
	key, text string
	at        source.Span
	block     bool
	known     bool
	figures   string // the figures in it: they are never slips of each other
}

func checkOneLetter(p *Pass) {
	names := namesOf(p)
	// Names one letter apart share what is left when a letter is taken out: of
	// one of them, or of both. Rests that are alike have the same number, and
	// stand together when the numbers are sorted.
	type rest struct {
		number uint64
		name   int32
	}
	size := 0
	for _, n := range names {
		size += 1 + len(n.key)
	}
	rests := make([]rest, 0, size)
	for i, n := range names {
		for number := range cutsOf(n.key) {
			rests = append(rests, rest{number, int32(i)})
		}
	}
	slices.SortFunc(rests, func(a, b rest) int { return cmp.Or(cmp.Compare(a.number, b.number), cmp.Compare(a.name, b.name)) })
	done := map[[2]int32]bool{}
	for from := 0; from < len(rests); {
		to := from + 1
		for to < len(rests) && rests[to].number == rests[from].number {
			to++
		}
		for a := from; a < to; a++ {
			for b := a + 1; b < to; b++ {
				if pair := [2]int32{rests[a].name, rests[b].name}; pair[0] != pair[1] && !done[pair] && slip(names[pair[0]], names[pair[1]]) {
					done[pair] = true
					p.reportSlip(names[pair[0]], names[pair[1]])
				}
			}
		}
		from = to
	}
}

// slip tells whether two names are one letter apart: one wrong, missing, added or
// changed with its neighbour. Figures are never slips of each other, nor are two
// names that are both known.
func slip(n, o named) bool {
	return !(n.known && o.known) && n.figures == o.figures && diag.Distance(n.key, o.key) == 1
}

// reportSlip asks about two names, the first written before the second.
func (p *Pass) reportSlip(n, o named) {
	wrong, right := o, n
	if !n.known && !n.block && (o.known || o.block) {
		wrong, right = n, o
	}
	p.Report(wrong.at, "%s and %s differ by one letter", wrong.text, right.text).
		See(right.at, "written here").
		WithHelp("write both alike, if one thing is meant")
}

// namesOf are the names of what the recipes asked for gather, and of blocks.
func namesOf(p *Pass) (out []named) {
	seen := map[string]bool{}
	add := func(name string, at source.Span, block bool) {
		if i := strings.LastIndexByte(name, '/'); i >= 0 {
			name = name[i+1:]
		}
		key := larder.Fold(name)
		if seen[key] || utf8.RuneCountInString(key) < 5 {
			return
		}
		seen[key] = true
		_, known := larder.Builtin().Find(name)
		out = append(out, named{key, name, at, block, known, figuresOf(key)})
	}
	recipes := p.Recipes()
	for _, r := range recipes {
		add(r.Name, r.NameAt, true)
	}
	for _, r := range recipes {
		for _, l := range r.Lines {
			if ownLine(r, l) {
				add(l.Name, l.NameAt, l.From != nil)
			}
		}
	}
	listed := map[string]bool{} // by the writer's larders
	seenScope := map[*resolve.Scope]bool{}
	for _, r := range recipes {
		for sc := r.Scope; sc != nil && !seenScope[sc]; sc = sc.Parent {
			seenScope[sc] = true
			for key := range sc.Entries {
				listed[key] = true
			}
		}
	}
	for i := range out {
		out[i].known = out[i].known || listed[out[i].key]
	}
	return out
}

// cutsOf are numbers for a word and every form of it with one letter left out;
// a figure is never left out.
func cutsOf(key string) iter.Seq[uint64] {
	return func(yield func(uint64) bool) {
		if !yield(numberOf(fnvStart, key)) {
			return
		}
		before := uint64(fnvStart)
		for i, n := 0, 0; i < len(key); i += n {
			var c rune
			c, n = utf8.DecodeRuneInString(key[i:])
			if !unicode.IsDigit(c) && !yield(numberOf(before, key[i+n:])) {
				return
			}
			before = numberOf(before, key[i:i+n])
		}
	}
}

// numberOf goes on with the FNV-1a hash of a text.
func numberOf(hash uint64, text string) uint64 {
	for i := range len(text) {
		hash = (hash ^ uint64(text[i])) * 1099511628211
	}
	return hash
}

const fnvStart = 14695981039346656037

func figuresOf(s string) string {
	if !strings.ContainsFunc(s, unicode.IsDigit) {
		return ""
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, s)
}
