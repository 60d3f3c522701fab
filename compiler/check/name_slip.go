package check

import (
	"iter"
	"math/bits"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

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

// leastSlip is how many letters a name has at least: shorter ones are near many.
const leastSlip = 5

// named is a name with where it was first written.
type named struct {
	key, text string
	recipe    *resolve.Recipe
	line      *resolve.Line // nil: it is the recipe's own
	block     bool
	known     bool
	figures   string // the figures in it: they are never slips of each other
}

func (n *named) at() source.Span {
	if n.line == nil {
		return n.recipe.NameAt
	}
	return n.line.NameAt
}

// slips are names and those among them that are one letter apart.
type slips struct {
	names []*named
	pairs [][2]int32
}

func checkOneLetter(p *Pass) {
	names := namesOf(p)
	if p.Before == nil || p.Before.slips == nil || !slices.EqualFunc(names, p.Before.slips.names, sameName) {
		p.shared.slips = slipsAmong(names)
	} else {
		p.shared.slips = &slips{names, p.Before.slips.pairs}
	}
	for _, pair := range p.shared.slips.pairs {
		p.reportSlip(names[pair[0]], names[pair[1]])
	}
}

var romans = map[string]bool{"i": true, "ii": true, "iii": true, "iv": true, "v": true, "vi": true, "vii": true, "viii": true, "ix": true, "x": true}

// sameName tells whether two names are slips of the same others.
func sameName(n, o *named) bool { return n == o || n.key == o.key && n.known == o.known }

func slipsAmong(names []*named) *slips {
	out := &slips{names: names}
	// Names one letter apart share what is left when a letter is taken out: of
	// one of them, or of both. Rests are told by their number.
	type rest struct {
		number     uint64
		name, next int32 // next is the rest before of the same drawer, from 1; 0: none
	}
	size := 0
	for _, n := range names {
		size += 1 + len(n.key)
	}
	shift := 64 - max(8, bits.Len(uint(size)))
	drawers := make([]int32, 1<<(64-shift))
	rests := make([]rest, 1, 1+size)
	for i := range names {
		near := []int32(nil) // earlier names that share a rest with this one
		for number := range cutsOf(names[i].key) {
			in := &drawers[number*fibonacci>>shift]
			for k := *in; k > 0; k = rests[k].next {
				if o := rests[k]; o.number == number && o.name != int32(i) && !slices.Contains(near, o.name) {
					near = append(near, o.name)
				}
			}
			rests = append(rests, rest{number, int32(i), *in})
			*in = int32(len(rests) - 1)
		}
		for _, o := range near {
			if slip(names[o], names[i]) {
				out.pairs = append(out.pairs, [2]int32{o, int32(i)})
			}
		}
	}
	return out
}

// fibonacci spreads numbers evenly over the drawers of a table: 2⁶⁴ divided by
// the golden ratio.
const fibonacci = 11400714819323198485

// slip tells whether two names are one letter apart: one wrong, missing, added or
// changed with its neighbour. Figures are never slips of each other, nor are two
// names that are both known.
func slip(n, o *named) bool {
	return !(n.known && o.known) && n.figures == o.figures && diag.Distance(n.key, o.key) == 1
}

// reportSlip asks about two names, the first written before the second.
func (p *Pass) reportSlip(n, o *named) {
	wrong, right := o, n
	if !n.known && !n.block && (o.known || o.block) {
		wrong, right = n, o
	}
	p.Report(wrong.at(), "%s and %s differ by one letter", wrong.text, right.text).
		See(right.at(), "written here").
		WithHelp("write both alike, if one thing is meant")
}

// namesOf are the names of what the recipes asked for gather, and of blocks:
// those of the blocks first, each name once.
func namesOf(p *Pass) (out []*named) {
	recipes, noted := p.Recipes(), p.noted()
	seen := make(map[string]bool, 4*len(noted))
	for _, block := range []bool{true, false} {
		for _, of := range noted {
			for i := range of.names {
				n := &of.names[i]
				if (n.line == nil) == block && !seen[n.key] {
					seen[n.key] = true
					out = append(out, n)
				}
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
	for i, n := range out {
		if !n.known && listed[n.key] {
			n := *n
			n.known = true
			out[i] = &n
		}
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
	if last := s[strings.LastIndexByte(s, ' ')+1:]; len(last) < len(s) && romans[last] {
		return last // White sauce II
	}
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
