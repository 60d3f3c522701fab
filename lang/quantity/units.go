package quantity

import (
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/unicode/norm"
)

// The sizes below are exact. Mass and length: the international pound and yard
// of 1959 (lb = 453.59237 g, inch = 25.4 mm). US volume: the gallon of 231
// cubic inches. Imperial volume: the gallon of 4.54609 litres (UK Weights and
// Measures Act 1985). All agree with the data file of GNU units 2.22. Spoons
// and cups outside the US are conventions: 5, 10, 15 (AU 20) and 250 ml. The
// imperial cup is half an imperial pint, as GNU units has it.
//
// Australia's pint, quart, gallon, gill and fluid ounce are the imperial ones.
// Metric has none of them: "a pint" in a metric folder is an error, because a
// reader may take it for 473, 568 or 600 ml.
var table = []Unit{
	{
		Name: "g", Plural: "g", Dim: Mass, Digits: true, metric: true, sizes: same("1"),
		forms: []string{"gram", "grams", "gramme", "grammes", "gm", "gms"},
	},
	{
		Name: "kg", Plural: "kg", Dim: Mass, Digits: true, metric: true, sizes: same("1000"),
		forms: []string{"kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes", "kgs"},
	},
	{
		Name: "oz", Plural: "oz", Dim: Mass, Digits: true, sizes: same("28.349523125"),
		forms: []string{"ounce", "ounces", "ozs"},
	},
	{
		Name: "lb", Plural: "lb", Dim: Mass, Digits: true, sizes: same("453.59237"),
		forms: []string{"lbs", "pound", "pounds"},
	},

	{
		Name: "ml", Plural: "ml", Dim: Volume, Digits: true, metric: true, sizes: same("1"),
		forms: []string{"mls", "millilitre", "millilitres", "milliliter", "milliliters"},
	},
	{
		Name: "cl", Plural: "cl", Dim: Volume, Digits: true, metric: true, sizes: same("10"),
		forms: []string{"centilitre", "centilitres", "centiliter", "centiliters"},
	},
	{
		Name: "dl", Plural: "dl", Dim: Volume, Digits: true, metric: true, sizes: same("100"),
		forms: []string{"decilitre", "decilitres", "deciliter", "deciliters"},
	},
	{
		Name: "litre", Plural: "litres", Dim: Volume, Digits: true, metric: true, sizes: same("1000"),
		forms: []string{"l", "ltr", "ltrs", "liter", "liters"},
	},
	{
		Name: "tsp", Plural: "tsp", Dim: Volume, Regional: true, Digits: true,
		sizes: spoon(bySystem("5", "4.92892159375", "5", "5")),
		forms: []string{"tsps", "teaspoon", "teaspoons", "teasp", "tspn", "tspns"},
	},
	{
		Name: "dessertspoon", Plural: "dessertspoons", Dim: Volume, Regional: true,
		sizes: bySystem("10", "", "10", "10"),
		forms: []string{"dsp", "dsps"},
	},
	{
		Name: "tbsp", Plural: "tbsp", Dim: Volume, Regional: true, Digits: true,
		sizes: spoon(bySystem("15", "14.78676478125", "15", "20")),
		forms: []string{"tbsps", "tbs", "tablespoon", "tablespoons", "tablesp", "tblsp", "tbls", "tbl", "tbspn", "tbspns"},
	},
	{
		Name: "fl oz", Plural: "fl oz", Dim: Volume, Regional: true, Digits: true,
		sizes: bySystem("", "29.5735295625", "28.4130625", "28.4130625"),
		forms: []string{"fluid ounce", "fluid ounces", "floz"},
	},
	{
		Name: "gill", Plural: "gills", Dim: Volume, Regional: true,
		sizes: bySystem("", "118.29411825", "142.0653125", "142.0653125"),
	},
	{
		Name: "cup", Plural: "cups", Dim: Volume, Regional: true,
		sizes: bySystem("250", "236.5882365", "284.130625", "250"),
	},
	{
		Name: "pint", Plural: "pints", Dim: Volume, Regional: true,
		sizes: bySystem("", "473.176473", "568.26125", "568.26125"),
		forms: []string{"pt", "pts"},
	},
	{
		Name: "quart", Plural: "quarts", Dim: Volume, Regional: true,
		sizes: bySystem("", "946.352946", "1136.5225", "1136.5225"),
		forms: []string{"qt", "qts"},
	},
	{
		Name: "gallon", Plural: "gallons", Dim: Volume, Regional: true,
		sizes: bySystem("", "3785.411784", "4546.09", "4546.09"),
		forms: []string{"gal", "gals"},
	},
	{ // of dry goods: 2 gallons, and in the US 2 dry gallons of 268.8025 cubic inches
		Name: "peck", Plural: "pecks", Dim: Volume, Regional: true,
		sizes: bySystem("", "8809.76754172", "9092.18", "9092.18"),
	},
	{
		Name: "bushel", Plural: "bushels", Dim: Volume, Regional: true,
		sizes: bySystem("", "35239.07016688", "36368.72", "36368.72"),
	},

	{
		Name: "mm", Plural: "mm", Dim: Length, Digits: true, metric: true, sizes: same("1"),
		forms: []string{"millimetre", "millimetres", "millimeter", "millimeters"},
	},
	{
		Name: "cm", Plural: "cm", Dim: Length, Digits: true, metric: true, sizes: same("10"),
		forms: []string{"centimetre", "centimetres", "centimeter", "centimeters"},
	},
	{Name: "inch", Plural: "inches", Dim: Length, sizes: same("25.4")},

	{Name: "clove", Plural: "cloves", Dim: Word},
	{Name: "sprig", Plural: "sprigs", Dim: Word},
	{Name: "sheet", Plural: "sheets", Dim: Word},
	{Name: "slice", Plural: "slices", Dim: Word},
	{Name: "stick", Plural: "sticks", Dim: Word},
	{Name: "head", Plural: "heads", Dim: Word},
	{Name: "stalk", Plural: "stalks", Dim: Word},
	{Name: "bunch", Plural: "bunches", Dim: Word},
	{Name: "leaf", Plural: "leaves", Dim: Word},
	{Name: "rasher", Plural: "rashers", Dim: Word},
	{Name: "blade", Plural: "blades", Dim: Word},
	{Name: "faggot", Plural: "faggots", Dim: Word},
	{Name: "bulb", Plural: "bulbs", Dim: Word},
	{Name: "square", Plural: "squares", Dim: Word},
	{Name: "ear", Plural: "ears", Dim: Word},
	{Name: "tin", Plural: "tins", Dim: Word, Packs: true},
	{Name: "can", Plural: "cans", Dim: Word, Packs: true},
	{Name: "jar", Plural: "jars", Dim: Word, Packs: true},
	{Name: "packet", Plural: "packets", Dim: Word, Packs: true, forms: []string{"pack", "packs", "pkt", "pkts", "package", "packages"}},
	{Name: "sachet", Plural: "sachets", Dim: Word, Packs: true},
	{Name: "bottle", Plural: "bottles", Dim: Word, Packs: true},
	{Name: "tub", Plural: "tubs", Dim: Word, Packs: true},
	{Name: "carton", Plural: "cartons", Dim: Word, Packs: true},
	{Name: "bag", Plural: "bags", Dim: Word, Packs: true},
	{Name: "box", Plural: "boxes", Dim: Word, Packs: true},
	{Name: "punnet", Plural: "punnets", Dim: Word, Packs: true},

	// Measures of old books, of which no two are of one size.
	{Name: "wineglass", Plural: "wineglasses", Dim: Word, forms: []string{"wineglassful", "wineglassfuls", "wineglassesful"}},
	{Name: "teacup", Plural: "teacups", Dim: Word, forms: []string{"teacupful", "teacupfuls", "teacupsful"}},
	{Name: "breakfastcup", Plural: "breakfastcups", Dim: Word, forms: []string{"breakfastcupful", "breakfastcupfuls", "breakfastcupsful"}},
	{Name: "tumbler", Plural: "tumblers", Dim: Word, forms: []string{"tumblerful", "tumblerfuls"}},
	{Name: "saltspoon", Plural: "saltspoons", Dim: Word, forms: []string{"saltspoonful", "saltspoonfuls", "saltspoonsful"}},

	{Name: "knob", Plural: "knobs", Dim: Vague},
	{Name: "handful", Plural: "handfuls", Dim: Vague, forms: []string{"handsful", "fistful", "fistfuls"}},
	{Name: "glug", Plural: "glugs", Dim: Vague},
	{Name: "pinch", Plural: "pinches", Dim: Vague},
	{Name: "splash", Plural: "splashes", Dim: Vague},
	{Name: "dash", Plural: "dashes", Dim: Vague},
	{Name: "drizzle", Plural: "drizzles", Dim: Vague},
	{Name: "squeeze", Plural: "squeezes", Dim: Vague},
	{Name: "drop", Plural: "drops", Dim: Vague},
	{Name: "grain", Plural: "grains", Dim: Vague},
	{Name: "grating", Plural: "gratings", Dim: Vague},
	{Name: "scraping", Plural: "scrapings", Dim: Vague},
	{Name: "dollop", Plural: "dollops", Dim: Vague},
	{Name: "slug", Plural: "slugs", Dim: Vague},

	{Name: "batch", Plural: "batches", Dim: Batch},
}

func same(size string) map[System]Number {
	return map[System]Number{NoSystem: Decimal(size)}
}

func bySystem(metric, us, imperial, au string) map[System]Number {
	m := make(map[System]Number, 4)
	for s, size := range map[System]string{Metric: metric, US: us, Imperial: imperial, AU: au} {
		if size != "" {
			m[s] = Decimal(size)
		}
	}
	return m
}

// spoon gives a spoon its metric size where nobody says whose it is: a third
// of a millilitre is nothing to stop a cook for. Only Australia's tablespoon
// is another thing, and its writers must say so.
func spoon(sizes map[System]Number) map[System]Number {
	sizes[NoSystem] = sizes[Metric]
	return sizes
}

var spellings = func() map[string]*Unit {
	m := make(map[string]*Unit, 4*len(table))
	for i := range table {
		u := &table[i]
		for _, f := range append([]string{u.Name, u.Plural}, u.forms...) {
			m[f] = u
		}
	}
	return m
}()

// Units lists the whole table, in its order. The caller must not change it.
func Units() []*Unit {
	all := make([]*Unit, len(table))
	for i := range table {
		all[i] = &table[i]
	}
	return all
}

// Fold is the form under which words are compared: NFC, small letters.
func Fold(word string) string {
	for i := range len(word) {
		if word[i] >= 0x80 {
			return strings.ToLower(norm.NFC.String(word))
		}
	}
	return strings.ToLower(word)
}

// IndexFold is strings.Index for a part in small ASCII letters, in any case. What it
// gives is a place in s itself: a folded text may be longer or shorter.
func IndexFold(s, part string) int {
	for i := 0; i+len(part) <= len(s); i++ {
		k := 0
		for k < len(part) && lowerByte(s[i+k]) == part[k] {
			k++
		}
		if k == len(part) {
			return i
		}
	}
	return -1
}

func lowerByte(c byte) byte {
	if c >= 'A' && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

// UnitNamed finds a unit by any form in which it is written: "g", "Grams",
// "fl oz", "leaves". The letters T, t, c and m are never units, nor is "in".
func UnitNamed(written string) (*Unit, bool) {
	u, ok := spellings[Fold(written)]
	return u, ok
}

// MustUnit is UnitNamed for tables in code: it panics on a word that is no unit.
func MustUnit(name string) *Unit {
	u, ok := UnitNamed(name)
	if !ok {
		panic("quantity: no such unit: " + name)
	}
	return u
}

// NewMeasure makes a word unit of a larder's `measure` line, to be put into
// Options.Measures under Fold of both its forms. An empty plural is guessed.
func NewMeasure(name, plural string) *Unit {
	if plural == "" {
		plural = PluralOf(name)
	}
	return &Unit{Name: name, Plural: plural, Dim: Word}
}

// PluralOf is the regular English plural of the last word of a name.
func PluralOf(name string) string {
	low := strings.ToLower(name)
	switch {
	case name == "":
		return ""
	case hasAnySuffix(low, "s", "x", "z", "ch", "sh"):
		return name + "es"
	case strings.HasSuffix(low, "leaf"), strings.HasSuffix(low, "loaf"):
		return name[:len(name)-1] + "ves"
	case strings.HasSuffix(low, "y") && !hasAnySuffix(low, "ay", "ey", "oy", "uy"):
		return name[:len(name)-1] + "ies"
	}
	return name + "s"
}

func hasAnySuffix(s string, suffixes ...string) bool {
	return slices.ContainsFunc(suffixes, func(x string) bool { return strings.HasSuffix(s, x) })
}

// Base is the exact size of one unit in g, ml or mm. It is false for units
// without a size (words, vague ones, batches), for a regional unit when the
// system is not known (spoons apart), and for one the system does not have (a metric pint).
func (u *Unit) Base(s System) (Number, bool) {
	if u == nil {
		return Number{}, false
	}
	if u.Regional {
		n, ok := u.sizes[s]
		return n, ok
	}
	n, ok := u.sizes[NoSystem]
	return n, ok
}

// order is a size by which the units of one dimension can be ranked whatever
// the system; it is no size to reckon with.
func (u *Unit) order() (Number, bool) {
	for _, s := range []System{NoSystem, US, Imperial} {
		if n, ok := u.sizes[s]; ok {
			return n, true
		}
	}
	return Number{}, false
}

// For is the unit's written form beside an amount: the plural above 1.
func (u *Unit) For(r Range) string {
	if Int(1).Less(r.High) {
		return u.Plural
	}
	return u.Name
}

// Numbered cans ("#10 cans") are made when first met. Units are compared by
// pointer, so each is kept.
var numbered struct {
	sync.Mutex
	units map[string]*Unit
}

func numberedCan(number string, container *Unit) *Unit {
	name := "#" + number + " " + container.Name
	numbered.Lock()
	defer numbered.Unlock()
	if u, ok := numbered.units[name]; ok {
		return u
	}
	if numbered.units == nil {
		numbered.units = make(map[string]*Unit)
	}
	u := &Unit{Name: name, Plural: "#" + number + " " + container.Plural, Dim: Word, Packs: true}
	numbered.units[name] = u
	return u
}
