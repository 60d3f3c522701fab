package check

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/source"
)

var oneLetter = &Rule{
	Code: "U313", Title: "names one letter apart", Family: Names, Severity: diag.Query,
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
	Check:   checkOneLetter,
}

// named is a name with where it was first written.
type named struct {
	key, text string
	at        source.Span
	block     bool
	known     bool
}

func checkOneLetter(p *Pass) {
	names := namesOf(p)
	// Names one letter apart share what is left when a letter is taken out: of
	// one of them, or of both.
	buckets := map[string][]int{}
	for i, n := range names {
		for _, cut := range cutsOf(n.key) {
			buckets[cut] = append(buckets[cut], i)
		}
	}
	done := map[[2]int]bool{}
	for i, n := range names {
		for _, cut := range cutsOf(n.key) {
			for _, j := range buckets[cut] {
				o := names[j]
				if j <= i || done[[2]int{i, j}] || n.known && o.known || !oneSlip(n.key, o.key) {
					continue
				}
				done[[2]int{i, j}] = true
				wrong, right := o, n
				if n.known || n.block {
					wrong, right = o, n
				} else if o.known || o.block {
					wrong, right = n, o
				}
				p.Report(wrong.at, "%s and %s differ by one letter", wrong.text, right.text).
					See(right.at, "written here").
					WithHelp("write both alike, if one thing is meant")
			}
		}
	}
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
		out = append(out, named{key, name, at, block, known})
	}
	recipes := p.Recipes()
	for _, r := range recipes {
		add(r.Name, r.AST.Title.Span, true)
	}
	for _, r := range recipes {
		for _, l := range r.Lines {
			if ownLine(r, l) {
				add(l.Name, l.AST.Name.Span, l.From != nil)
			}
		}
	}
	for i := range out { // what the writer's larder lists is known too
		for _, r := range recipes {
			if r.Scope.Entry(out[i].key) != nil {
				out[i].known = true
				break
			}
		}
	}
	return out
}

// cutsOf are a word and every form of it with one letter left out.
func cutsOf(key string) []string {
	out := []string{key}
	for i, c := range key {
		out = append(out, key[:i]+key[i+utf8.RuneLen(c):])
	}
	return out
}

// oneSlip tells whether two names are one letter apart: one wrong, missing,
// added or changed with its neighbour. Figures are never slips of each other.
func oneSlip(a, b string) bool {
	if diag.Distance(a, b) != 1 {
		return false
	}
	figures := func(s string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsDigit(r) {
				return r
			}
			return -1
		}, s)
	}
	return figures(a) == figures(b)
}
