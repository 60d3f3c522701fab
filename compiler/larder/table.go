package larder

import (
	"embed"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
)

//go:embed data
var embedded embed.FS

// Table is a larder: all ingredients with their facts. It never changes once read.
type Table struct {
	items      []*Item
	byFold     map[string]*Item
	leads      map[string]bool  // first words of the names of more than one
	several    map[string]*Item // plurals that mean another thing than their singular: peppers
	sources    map[string]*Source
	flags      map[Flag]*FlagInfo
	flagList   []*FlagInfo
	counters   []string
	parts      []string
	scraps     []string // parts that only names have: tops, cores, shells
	verbs      []string
	states     map[string]bool   // what a cook brings about: cooked, grated
	plain      map[string]bool   // what changes nothing: ripe, organic
	leave      map[string]bool   // what is left out of a name to know the thing: soft, roughly, French
	change     map[string]bool   // the same, but a measure of it weighs other, or it is raw no more: cooked
	quiet      map[string]bool   // no decoys
	spellings  map[string]string // other ways to write a word, and that of the tables
	groups     map[string][]*Group
	substances map[string]*substance
	givers     map[string][]*Item // by the name of what they give
	known      sync.Map           // string to *Known: what Know was asked
	asked      atomic.Int32       // how much of it is kept
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
// written (see Fold). A plural that means another thing than its singular
// (peppers, and pepper) is told from it. False: not known.
func (t *Table) Find(name string) (*Item, bool) { return t.FindFolded(Fold(name), name) }

// FindFolded is Find for a name that was folded already, into key.
func (t *Table) FindFolded(key, name string) (*Item, bool) {
	it, ok := t.byFold[key]
	if ok && len(key) < len(name) {
		if many, other := t.several[level(name)]; other {
			return many, true
		}
	}
	if !ok && strings.IndexByte(key, ' ') > 0 && !ascii(key) { // crème fraiche, with one of its accents
		it, ok = t.byFold[plainLetters(key)]
	}
	return it, ok
}

// Leads tells whether a name of more than one word begins with a word, which is
// levelled. Most words of a sentence begin none, so that nothing more need be
// looked up for them.
func (t *Table) Leads(word string) bool { return t.leads[word] }

// Decoy is Find for words of a step: it passes over names that would mislead
// there. These are words for what a dish is about (fish, pastry) and names that begin
// with what the cook did to something in hand, or with a word that changes nothing
// ("the cooked chicken", "the fresh thyme" are more likely those of this dish
// than others from the shop).
func (t *Table) Decoy(words string) (*Item, bool) {
	key := Fold(words)
	it, ok := t.FindFolded(key, words)
	if !ok || t.quiet[key] {
		return nil, false
	}
	first, _, more := strings.Cut(strings.TrimSpace(words), " ")
	if first = Fold(first); more && !it.Water && (t.states[first] || t.plain[first]) {
		return nil, false
	}
	return it, true
}

// isPart tells whether a word names a part of a thing: one that sentences take by itself, or
// what falls off it, as leek tops.
func (t *Table) isPart(word string) bool {
	return slices.Contains(t.parts, word) || slices.Contains(t.scraps, word)
}

// Givers are the ingredients that give this one: an egg gives egg white.
func (t *Table) Givers(it *Item) []*Item {
	return slices.DeleteFunc(slices.Clone(t.givers[it.Name]), func(from *Item) bool { return from == it })
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
