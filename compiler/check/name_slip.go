package check

import (
	"iter"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
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
	figures   string // the figures in it: they are never slips of each other
}

func checkOneLetter(p *Pass) {
	names := namesOf(p)
	// Names one letter apart share what is left when a letter is taken out: of
	// one of them, or of both.
	buckets := map[string][]int32{}
	for i, n := range names {
		for cut := range cutsOf(n.key) {
			buckets[cut] = append(buckets[cut], int32(i))
		}
	}
	done := map[[2]int32]bool{}
	for k, n := range names {
		i := int32(k)
		for cut := range cutsOf(n.key) {
			for _, j := range buckets[cut] {
				if j <= i {
					continue
				}
				o := names[j]
				if n.known && o.known || done[[2]int32{i, j}] || n.figures != o.figures || diag.Distance(n.key, o.key) != 1 {
					continue
				}
				done[[2]int32{i, j}] = true
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

// cutsOf are a word and every form of it with one letter left out. Words of
// different figures share none.
func cutsOf(key string) iter.Seq[string] {
	return func(yield func(string) bool) {
		if !yield(key) {
			return
		}
		for i, c := range key {
			if unicode.IsDigit(c) {
				continue
			}
			if !yield(key[:i] + key[i+utf8.RuneLen(c):]) {
				return
			}
		}
	}
}

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
