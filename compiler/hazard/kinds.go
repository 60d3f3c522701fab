package hazard

import (
	"embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"tamis/compiler/larder"
)

//go:embed data
var embedded embed.FS

// rowsOf are the rows of one of the built-in tables, without its head.
func rowsOf(table string) [][]string {
	f, err := embedded.Open("data/" + table + ".csv")
	if err != nil {
		panic("hazard: " + err.Error())
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		panic("hazard: the built-in " + table + " cannot be read: " + err.Error()) // the tests read every row
	}
	return rows[1:]
}

// kindWords are the words of the kinds, by the last of them.
type kindWords struct {
	names []string // of the kinds
	last  map[string][]kindWord
}

type kindWord struct {
	kind  int
	words []string // folded, each in singular
}

// kinds is the closed list of words by kind.
var kinds = sync.OnceValue(func() kindWords {
	out := kindWords{last: map[string][]kindWord{}}
	for _, row := range rowsOf("kinds") {
		k := slices.Index(out.names, row[0])
		if k < 0 {
			k, out.names = len(out.names), append(out.names, row[0])
		}
		for _, w := range strings.Split(row[1], "/") {
			if words := singulars(larder.Fold(strings.TrimSpace(w))); len(words) > 0 {
				out.last[words[len(words)-1]] = append(out.last[words[len(words)-1]], kindWord{k, words})
			}
		}
	}
	if len(out.names) > 64 {
		panic("hazard: more kinds than bits")
	}
	return out
})

func singulars(folded string) []string {
	words := strings.Fields(folded)
	for i := range words {
		words[i] = larder.Singular(words[i])
	}
	return words
}

// known are the kinds of names that were asked about, as bits. A book says the
// same few thousand names again and again.
var known = struct {
	sync.RWMutex
	bits map[string]uint64
}{bits: map[string]uint64{}}

// mostKnown bounds what is kept, for a program that runs on.
const mostKnown = 1 << 16

// isKind tells whether a name ends in, or is, one of the words of a kind: "brown
// onions" ends in onion. The names that the larder knows the thing by count too.
func isKind(kind, name string) bool {
	known.RLock()
	bits, ok := known.bits[name]
	known.RUnlock()
	if !ok {
		bits = kindsOf(name)
		known.Lock()
		if len(known.bits) >= mostKnown {
			clear(known.bits)
		}
		known.bits[name] = bits
		known.Unlock()
	}
	k := slices.Index(kinds().names, kind)
	return k >= 0 && bits&(1<<k) != 0
}

// kindsOf are all the kinds of a name.
func kindsOf(name string) (bits uint64) {
	table := kinds()
	names := []string{larder.Fold(name)}
	if it, _, ok := larder.Builtin().FindPart(name); ok {
		names = append(names, larder.Fold(it.Name))
	}
	for _, n := range names {
		words := singulars(n)
		for i, w := range words {
			end := i == len(words)-1
			for _, k := range table.last[w] {
				switch kind := table.names[k.kind]; {
				case end && len(k.words) <= len(words) && slices.Equal(words[len(words)-len(k.words):], k.words),
					len(k.words) == 1 && kind != "keeps" && kind != "sweet" && kind != "oil":
					bits |= 1 << k.kind
				}
			}
		}
	}
	return bits
}

// IsFat tells whether a name is of fat, oil or what else keeps by itself.
func IsFat(name string) bool { return isKind("keeps", name) || isKind("oil", name) }
