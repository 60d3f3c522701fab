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
func GasMarkOf(n Number) (GasMark, bool) {
	text := n.Text(false)
	for _, m := range gasMarks {
		if m.Name == text {
			return m, true
		}
	}
	return GasMark{}, false
}

// Exact is the mark's Fahrenheit figure in Celsius, unrounded.
func (m GasMark) Exact() Number { return FtoC(Int(int64(m.Fahrenheit))) }

// GasMarkNear is the mark whose heat, customary or exact, is nearest to t; ok
// is false when t is more than 15 C degrees from every mark.
func GasMarkNear(t Temperature) (GasMark, bool) {
	var best GasMark
	miss := 1e9
	for _, m := range gasMarks {
		have := float64(m.Customary)
		want := t.inCelsius(t.Low)
		if t.Scale == Fahrenheit {
			have = m.Exact().Float()
		}
		if d := max(have-want, want-have); d < miss {
			best, miss = m, d
		}
	}
	return best, miss <= 15
}

// FtoC is the Celsius of a Fahrenheit temperature, exactly.
func FtoC(f Number) Number { return f.Sub(Int(32)).Mul(Frac(5, 9)) }

// CtoF is the Fahrenheit of a Celsius temperature, exactly.
func CtoF(c Number) Number { return c.Mul(Frac(9, 5)).Add(Int(32)) }
