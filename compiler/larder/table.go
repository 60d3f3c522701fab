package larder

import (
	"embed"
	"io/fs"
	"slices"
	"strings"
	"sync"
)

//go:embed data
var embedded embed.FS

// Table is a larder: all ingredients with their facts. It never changes once read.
type Table struct {
	items      []*Item
	byFold     map[string]*Item
	sources    map[string]*Source
	flags      map[Flag]*FlagInfo
	flagList   []*FlagInfo
	counters   []string
	parts      []string
	verbs      []string
	states     map[string]bool // what a cook brings about: cooked, grated
	plain      map[string]bool // what changes nothing: ripe, organic
	quiet      map[string]bool // no decoys
	groups     map[string][]*Group
	substances map[string]*substance
}

var builtin = sync.OnceValue(func() *Table {
	files, err := fs.Sub(embedded, "data")
	if err != nil {
		panic("larder: " + err.Error())
	}
	t, err := Load(files)
	if err != nil {
		panic("larder: the built-in data cannot be read: " + err.Error()) // the tests read every row
	}
	return t
})

// Builtin is the larder that comes with the program, read once.
func Builtin() *Table { return builtin() }

// Find looks an ingredient up by name, plural or other name, however it is
// written (see Fold). False: not known.
func (t *Table) Find(name string) (*Item, bool) {
	it, ok := t.byFold[Fold(name)]
	return it, ok
}

// Decoy is Find for words of a step: it passes over names that would mislead
// there. These are words for what a dish is about (fish, pastry) and names that begin
// with what the cook did to something in hand, or with a word that changes nothing
// ("the cooked chicken", "the fresh thyme" are more likely those of this dish
// than others from the shop).
func (t *Table) Decoy(words string) (*Item, bool) {
	it, ok := t.Find(words)
	if !ok || t.quiet[Fold(words)] {
		return nil, false
	}
	first, _, more := strings.Cut(strings.TrimSpace(words), " ")
	if first = Fold(first); more && !it.Water && (t.states[first] || t.plain[first]) {
		return nil, false
	}
	return it, true
}

// FindPart looks up what a gather line names when Find does not know the whole
// of it: words that change nothing are left out ("ripe tomatoes"), and a part word
// at the end or before "of" is taken off ("thyme sprigs", "zest of a lemon"). The
// part comes back in its singular; empty: the whole thing.
func (t *Table) FindPart(name string) (it *Item, part string, ok bool) {
	words := strings.Fields(Fold(name))
	if it = t.bare(words); it != nil {
		return it, "", true
	}
	if len(words) < 2 {
		return nil, "", false
	}
	last := len(words) - 1
	if t.isPart(words[last]) {
		if it = t.bare(words[:last]); it != nil {
			return it, words[last], true
		}
	}
	if first := Singular(words[0]); words[1] == "of" && t.isPart(first) {
		rest := words[2:]
		for len(rest) > 1 && (rest[0] == "a" || rest[0] == "an" || rest[0] == "the") {
			rest = rest[1:]
		}
		if it = t.bare(rest); it != nil {
			return it, first, true
		}
	}
	return nil, "", false
}

// bare finds a name, leaving out plain words at its head one by one.
func (t *Table) bare(words []string) *Item {
	for ; len(words) > 0; words = words[1:] {
		if it, ok := t.Find(strings.Join(words, " ")); ok {
			return it
		}
		if !t.plain[words[0]] {
			return nil
		}
	}
	return nil
}

func (t *Table) isPart(word string) bool { return slices.Contains(t.parts, word) }

// Givers are the ingredients that give this one: an egg gives egg white.
func (t *Table) Givers(it *Item) []*Item {
	var out []*Item
	for _, from := range t.items {
		for _, g := range from.Gives {
			if g.Name == it.Name && from != it {
				out = append(out, from)
			}
		}
	}
	return out
}

// Items is every ingredient, in the order of the data files.
func (t *Table) Items() []*Item { return t.items }

// Counters is the closed list of counters, in the order of a walk round the shop.
func (t *Table) Counters() []string { return t.counters }

// Flags is the closed list of flags.
func (t *Table) Flags() []*FlagInfo { return t.flagList }

// Parts is the closed list of part words: if the last word of a name is one
// ("parsley leaves"), the words before it also find the name.
func Parts() []string { return Builtin().parts }

// Verbs is the closed list of names that are also verbs ("Butter the dish").
func Verbs() []string { return Builtin().verbs }
