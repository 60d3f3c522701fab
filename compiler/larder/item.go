package larder

import (
	"slices"
	"strings"

	"tamis/lang/quantity"
)

// Source is where a fact comes from.
type Source struct {
	Key   string // short name used in the data files
	Title string // as printed beside the fact
}

// Fact is one thing known, with where it comes from.
type Fact[T any] struct {
	Value      T
	Source     *Source
	Ref        string // item number in the source, such as "NDB 11282"; may be empty
	FromMemory bool   // nobody looked it up: a lead, not evidence
	Note       string // what to mind: how the cup is filled, second opinions
}

// From is the source as printed: `USDA SR28 (2015), NDB 11282`.
func (f Fact[T]) From() string {
	if f.Ref == "" {
		return f.Source.Title
	}
	return f.Source.Title + ", " + f.Ref
}

// Item is one ingredient. Items are shared: read them, never change them.
type Item struct {
	Name   string
	Plural string   // the name when there are several; equal to Name for a mass
	Other  []string // other names of the same thing

	Counter  string   // of the shop, one of Counters; empty for tap water
	Cupboard bool     // kept in the house: salt, oil, flour
	Water    bool     // from the tap: never bought
	Flags    []Flag   // with what they imply, sorted
	Classes  []string // words for several things at once: vegetable, herb, seasoning
	Contains []Content
	Source   *Source        // of the facts above, save what it contains
	Evidence Fact[struct{}] // of what it contains: an Annex, or memory

	Densities []Density
	Pieces    []Piece
	Yields    []Yield
	Packs     []Pack
	Gives     []Given
	Keeps     Fact[int] // days that it keeps cold as it is bought; 0: as long as anyone needs
}

// Density is grams per millilitre of one form.
type Density struct {
	Form    string // chopped, grated, packed, sifted; empty: as it comes
	Usual   bool   // the one to use if nothing is said
	GPerML  Fact[quantity.Number]
	Grams   quantity.Number // as printed in the source: so many grams …
	Measure string          // … in this: "US cup", "1/4 US cup", "ml"
}

// Piece is the weight of one, or of one part of it.
type Piece struct {
	Part     string // clove, stick, sprig, bunch, juice; empty: a whole one
	Size     string // small, medium, large; empty: no size told
	Practice string // US, UK: whose sizes; empty: anyone's
	Usual    bool   // the one to use for this part if no size is said
	Bought   bool   // weighed as bought; else after trimming
	Grams    Fact[quantity.Number]
	Range    quantity.Range // where the source gives two ends; Grams is their middle
}

// Yield is the edible part over what is bought, in per cent.
type Yield struct {
	State    string // what was done: peeled, boned, in shell; empty: the usual trimming
	Practice string // UK, US: as it is sold there; empty: anywhere else
	Usual    bool   // the one to use if nothing is said
	Percent  Fact[quantity.Number]
}

// Pack is how a thing is usually sold.
type Pack struct {
	Amount    quantity.Number
	Unit      string // g, ml or each
	Container string // tin, jar, bottle, packet; may be empty
	Region    string // UK or US
	Source    *Source
}

// Given is what one of a thing gives: an egg, one egg white and one egg yolk;
// a head of garlic, ten cloves.
type Given struct {
	Per    string // part that gives: head; empty: a whole one
	Name   string // of the ingredient given, which may be the same
	Amount Fact[quantity.Number]
	Unit   string // each, g, ml or a part: clove
}

// Density picks the density for a form, which may be a whole note ("finely
// chopped"): the form all of whose words stand in it, else the usual one.
// False: not known, and not to be guessed.
func (it *Item) Density(note string) (*Density, bool) {
	return pick(it.Densities, note, func(d *Density) (string, bool) { return d.Form, d.Usual })
}

// Yield picks the yield for a state, which may be a whole note ("peeled and
// diced"): the state all of whose words stand in it, else the usual one. As it is sold
// under a practice comes first: a British leek loses less than one with long tops. EU and
// UK share theirs. False: not known, and not to be guessed.
func (it *Item) Yield(note, practice string) (*Yield, bool) {
	if practice = Practice(practice); practice == "EU" {
		practice = "UK"
	}
	var all, theirs []Yield
	for _, y := range it.Yields {
		switch y.Practice {
		case "":
			all = append(all, y)
		case practice:
			theirs = append(theirs, y)
		}
	}
	for _, y := range all {
		if !slices.ContainsFunc(theirs, func(o Yield) bool { return o.State == y.State }) {
			theirs = append(theirs, y)
		}
	}
	return pick(theirs, note, func(y *Yield) (string, bool) { return y.State, y.Usual })
}

func pick[T any](list []T, note string, key func(*T) (string, bool)) (*T, bool) {
	if len(list) == 0 {
		return nil, false
	}
	said := map[string]bool{}
	for _, w := range strings.FieldsFunc(note, func(r rune) bool { return strings.ContainsRune(" ,;.()-\u00A0", r) }) {
		said[Fold(w)] = true
	}
	var best *T
	most := 0
	for i := range list {
		form, usual := key(&list[i])
		words := strings.Fields(form)
		all := len(words) > most
		for _, w := range words {
			all = all && (said[Fold(w)] || w == "and" || w == "or")
		}
		switch {
		case all:
			best, most = &list[i], len(words)
		case best == nil && usual:
			best = &list[i]
		}
	}
	return best, best != nil
}

// PieceGrams is the weight of a whole one of a size; an empty size is the
// usual one. False: not known.
func (it *Item) PieceGrams(size string) (*Piece, bool) { return it.Piece("", size, "") }

// Piece is the weight of a part (clove, sprig; empty: a whole one) of a size
// (empty: the usual). Where sizes differ by practice, as those of eggs do, those
// of the practice asked for come first, then those that bear no practice, then any.
// EU and UK share their sizes. False: not known.
func (it *Item) Piece(part, size, practice string) (*Piece, bool) {
	part, size, practice = Fold(part), Fold(size), Practice(practice)
	if practice == "EU" {
		practice = "UK"
	}
	var best *Piece
	most := 0
	for i := range it.Pieces {
		p := &it.Pieces[i]
		if p.Part != part || size != "" && p.Size != size || size == "" && !p.Usual {
			continue
		}
		rank := 1
		switch p.Practice {
		case practice:
			rank = 3
		case "":
			rank = 2
		}
		if rank > most {
			best, most = p, rank
		}
	}
	return best, best != nil
}

// Has tells whether the item carries a flag.
func (it *Item) Has(f Flag) bool {
	for _, g := range it.Flags {
		if g == f {
			return true
		}
	}
	return false
}
