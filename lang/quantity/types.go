// Package quantity knows numbers, units, amounts, times and temperatures as
// cooks write them. It reads them from text, converts them exactly and writes
// them back. It knows nothing of recipes.
//
// Read this file first: it is what is read and printed. number.go has exact numbers and
// units.go the units; the files named read… read them, on the scanner of scan.go; value.go
// reckons with them, and print.go writes them, on the steps of ladder.go.
package quantity

import (
	"strings"
	"time"
)

// Range is a number that may be a doubt or a choice: Low = High for a plain one.
type Range struct{ Low, High Number }

// Exactly is the range from n to n.
func Exactly(n Number) Range { return Range{n, n} }

// IsRange tells whether the two ends differ.
func (r Range) IsRange() bool { return !r.Low.Equal(r.High) }

// Mul scales both ends.
func (r Range) Mul(n Number) Range { return Range{r.Low.Mul(n), r.High.Mul(n)} }

// Dimension is what a unit measures.
type Dimension int

// The dimensions. Word units (clove, sprig, tin) count things and are only
// comparable with themselves; vague units (pinch, knob, glug) have no size.
const (
	None   Dimension = iota // a bare count: 2 onions
	Mass                    // grams
	Volume                  // millilitres
	Length                  // millimetres
	Word                    // clove, sprig, tin, slice
	Vague                   // pinch, splash, handful, knob
	Batch                   // "2 batches" of a base
)

// System says how large cups, spoons and pints are.
type System string

// The systems a folder or a dish can name with `units`. Metric has the 15 ml
// tablespoon, the 5 ml teaspoon and the 250 ml cup.
const (
	NoSystem System = ""
	Metric   System = "metric"
	US       System = "US"
	Imperial System = "imperial"
	AU       System = "AU"
)

// Systems are those that can be named, in the order they are offered.
func Systems() []System { return []System{Metric, US, Imperial, AU} }

// SystemNamed is the system of that name, in any case; ok is false where there is none.
func SystemNamed(name string) (s System, ok bool) {
	for _, s := range Systems() {
		if strings.EqualFold(string(s), strings.TrimSpace(name)) {
			return s, true
		}
	}
	return NoSystem, false
}

// Unit is one unit of the table. Units are compared by pointer; Name is unique.
type Unit struct {
	Name     string // as written after 1: "g", "litre", "clove"
	Plural   string // as written after more: "g", "litres", "cloves"
	Dim      Dimension
	Regional bool // its size depends on the System: cup, pint, fl oz, tbsp
	Digits   bool // may be written against the figure: 200g
	Packs    bool // a container: tin, jar, packet; may end "2 x 400 g tins"

	metric bool              // written with decimals (0.5 kg), not fractions (1/2 lb)
	forms  []string          // other spellings that are read, small letters
	sizes  map[System]Number // in g, ml or mm; NoSystem: the same everywhere
}

// Term is one number with its unit. Unit is nil for a bare count. Modifier is
// a word such as heaped, level or large before the unit ("1 heaped tbsp").
type Term struct {
	Value    Range
	Unit     *Unit
	Modifier string
}

// Measure is a sum of terms of one dimension: 250 g, 2 lb 10 oz, 1 cup plus
// 2 tbsp. Plain measures have one term. An empty Measure is no measure.
type Measure struct{ Terms []Term }

// AmountKind tells the forms of an amount apart.
type AmountKind int

// The kinds of amounts.
const (
	Plain    AmountKind = iota // 250 g · 2 · 1 to 2 tbsp
	Paired                     // 900 g (2 lb): Measure rules, Also is for the reader
	Packages                   // 2 x 400 g tins: Count, Each, Container
	PerHead                    // 120 g per cover plus 200 g · 1 per 4 covers: Measure, PerCovers, Plus
	Percent                    // 65%: Percent
)

// Amount is what stands before a name in a gather list.
type Amount struct {
	Kind      AmountKind
	Measure   Measure // Plain, Paired, PerHead
	Also      Measure // Paired: the second measure
	Count     Range   // Packages
	Each      Measure // Packages
	Container *Unit   // Packages: tin, jar
	PerCovers int     // PerHead: 1 for "per cover"
	Plus      Measure // PerHead: the constant; may be empty
	Percent   Number  // Percent
}

// Span is a length of time. Low = High unless it is a range. About marks
// "about 2 h" and "say 45 min". UpTo, when above High, is a permission: "2 h,
// up to 1 day". AtLeast means no upper end. Overnight is 8 to 14 h.
type Span struct {
	Low, High time.Duration
	UpTo      time.Duration
	About     bool
	AtLeast   bool
	Overnight bool
}

// Scale is C or F.
type Scale byte

// The scales.
const (
	Celsius    Scale = 'C'
	Fahrenheit Scale = 'F'
)

// Temperature is a range of degrees of one scale. A range is a permission.
type Temperature struct {
	Low, High int
	Scale     Scale
}

// Problem is what is wrong with a piece of text. Start and End are byte
// offsets in the text that was given.
type Problem struct {
	Start, End int
	Code       string // see the Q codes of the spec
	Message    string // what is wrong, in a cook's words
	Help       string // what to write instead; may be empty
	Fix        string // text to put in place of [Start,End); may be empty
	Ask        bool   // a question that does not stop a build; otherwise an error
	Hint       bool   // a remark on what was read
	Far        bool   // two readings that lie far apart: an error although there is a Fix
}
