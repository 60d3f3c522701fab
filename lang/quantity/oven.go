package quantity

// GasMark is one mark of a British gas oven. Customary is the Celsius of
// British tables, Fahrenheit the mark's own figure (25 F degrees a mark from
// 275 F at mark 1, halving below); the two are not exact conversions of each
// other, and no standard stands behind either. Fan is customary, 20 C degrees
// below. Word is the name of that heat in the same tables.
type GasMark struct {
	Name       string // "1/4", "1/2", "1" … "9"
	Customary  int    // C
	Fahrenheit int
	Fan        int // C
	Word       string
}

// Source: customary British oven table (several reference copies agree); the
// Fahrenheit column also in the data file of GNU units 2.22.
var gasMarks = []GasMark{
	{"1/4", 110, 225, 90, "very slow"},
	{"1/2", 130, 250, 110, "very slow"},
	{"1", 140, 275, 120, "slow"},
	{"2", 150, 300, 130, "slow"},
	{"3", 165, 325, 145, "moderate"},
	{"4", 180, 350, 160, "moderate"},
	{"5", 190, 375, 170, "moderately hot"},
	{"6", 200, 400, 180, "moderately hot"},
	{"7", 220, 425, 200, "hot"},
	{"8", 230, 450, 210, "hot"},
	{"9", 240, 475, 220, "very hot"},
}

// GasMarks is the table, coolest first.
func GasMarks() []GasMark { return append([]GasMark(nil), gasMarks...) }

// GasMarkOf finds a mark by what a writer put after `gas`: 6, 1/2.
func GasMarkOf(n Number) (GasMark, bool) { return gasMarkNamed(n.Text(false)) }

func gasMarkNamed(name string) (GasMark, bool) {
	for _, m := range gasMarks {
		if m.Name == name {
			return m, true
		}
	}
	return GasMark{}, false
}

// Exact is the mark's Fahrenheit figure in Celsius, unrounded.
func (m GasMark) Exact() Number { return FtoC(Int(int64(m.Fahrenheit))) }

// GasMarkNear is the mark whose heat is nearest to t in t's own scale, by the
// middle of a range; ok is false when t is more than 15 C degrees (27 F
// degrees) from every mark.
func GasMarkNear(t Temperature) (GasMark, bool) {
	var best GasMark
	nearest := -1
	limit := 15 * 2
	if t.Scale == Fahrenheit {
		limit = 27 * 2
	}
	for _, m := range gasMarks {
		have := m.Customary
		if t.Scale == Fahrenheit {
			have = m.Fahrenheit
		}
		d := 2*have - t.Low - t.High
		if d = max(d, -d); nearest < 0 || d < nearest {
			best, nearest = m, d
		}
	}
	return best, nearest <= limit
}

// FtoC is the Celsius of a Fahrenheit temperature, exactly.
func FtoC(f Number) Number { return f.Sub(Int(32)).Mul(Frac(5, 9)) }

// CtoF is the Fahrenheit of a Celsius temperature, exactly.
func CtoF(c Number) Number { return c.Mul(Frac(9, 5)).Add(Int(32)) }

// FanOffset is how many C degrees lower a fan oven is set. NSW Government
// healthy-kids conversion chart; common practice in the UK and Australia. A
// difference of 20 C degrees is 36 F degrees.
const FanOffset = 20

// leastFan is the heat below which a fan makes no difference: warming plates,
// drying herbs. Common practice, no source.
const leastFan = 100

// FanOven is what a fan oven is set to, in C, for the heat of an oven without.
func FanOven(celsius int) int {
	if celsius < leastFan {
		return celsius
	}
	return celsius - FanOffset
}

// PlainOven is what an oven without a fan is set to, in C, for a fan oven's heat.
func PlainOven(fan int) int {
	if fan+FanOffset < leastFan {
		return fan
	}
	return fan + FanOffset
}

// NamedHeat is an oven heat given by a word.
type NamedHeat struct {
	Word       string
	Celsius    Temperature
	Fahrenheit Temperature
}

// Source: NSW Government healthy-kids conversion chart, oven temperatures. The
// words of British tables differ by a step: see GasMark.Word.
var namedHeats = []NamedHeat{
	{"very slow", Temperature{120, 120, Celsius}, Temperature{250, 250, Fahrenheit}},
	{"slow", Temperature{140, 150, Celsius}, Temperature{275, 300, Fahrenheit}},
	{"moderately slow", Temperature{160, 160, Celsius}, Temperature{325, 325, Fahrenheit}},
	{"moderate", Temperature{180, 180, Celsius}, Temperature{350, 350, Fahrenheit}},
	{"moderately hot", Temperature{190, 190, Celsius}, Temperature{375, 375, Fahrenheit}},
	{"hot", Temperature{200, 230, Celsius}, Temperature{400, 450, Fahrenheit}},
	{"very hot", Temperature{250, 260, Celsius}, Temperature{475, 500, Fahrenheit}},
}

// HeatNamed finds a heat by its word, in any case.
func HeatNamed(word string) (NamedHeat, bool) {
	w := Fold(word)
	for _, h := range namedHeats {
		if h.Word == w {
			return h, true
		}
	}
	return NamedHeat{}, false
}
