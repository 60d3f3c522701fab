package quantity

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Numbers as a writer can write them, above 0.
var genNumber = rapid.Custom(func(t *rapid.T) Number {
	whole := Int(rapid.Int64Range(0, 5000).Draw(t, "whole"))
	switch rapid.IntRange(0, 3).Draw(t, "form") {
	case 0:
		den := rapid.SampledFrom([]int64{2, 3, 4, 6, 8, 16, 7, 5}).Draw(t, "den")
		return whole.Add(Frac(rapid.Int64Range(1, den-1).Draw(t, "num"), den))
	case 1:
		return whole.Add(Frac(rapid.Int64Range(1, 999).Draw(t, "mills"), 1000))
	}
	return whole.Add(Int(1))
})

var genRange = rapid.Custom(func(t *rapid.T) Range {
	low := genNumber.Draw(t, "low")
	if rapid.Bool().Draw(t, "range") {
		return Range{low, low.Add(genNumber.Draw(t, "more"))}
	}
	return Exactly(low)
})

var genUnit = rapid.Custom(func(t *rapid.T) *Unit {
	return rapid.SampledFrom(append(Units(), numberedCan("10", MustUnit("can")))).Draw(t, "unit")
})

func genTerm(units func(*Unit) bool) *rapid.Generator[Term] {
	return rapid.Custom(func(t *rapid.T) Term {
		term := Term{Value: genRange.Draw(t, "value"), Unit: genUnit.Filter(units).Draw(t, "unit")}
		if modifiable(term.Unit) && !strings.HasPrefix(term.Unit.Name, "#") && rapid.Bool().Draw(t, "modified") {
			term.Modifier = rapid.SampledFrom(sizeWords).Draw(t, "modifier")
		}
		return term
	})
}

func anyUnit(*Unit) bool     { return true }
func sizedUnit(u *Unit) bool { _, ok := u.order(); return ok }
func wordUnit(u *Unit) bool  { return u.Dim == Word }

// A measure: one term, or a compound of falling units.
var genMeasure = rapid.Custom(func(t *rapid.T) Measure {
	m := Measure{Terms: []Term{genTerm(anyUnit).Draw(t, "first")}}
	for rapid.IntRange(0, 3).Draw(t, "more") == 0 {
		last := m.Terms[len(m.Terms)-1]
		size, ok := last.Unit.order()
		if !ok {
			break
		}
		smaller := func(u *Unit) bool {
			s, ok := u.order()
			return ok && u.Dim == last.Unit.Dim && s.Less(size)
		}
		found := false
		for _, u := range Units() {
			found = found || smaller(u)
		}
		if !found {
			break
		}
		next := genTerm(smaller).Draw(t, "next")
		next.Value = Exactly(next.Value.Low)
		m.Terms = append(m.Terms, next)
	}
	return m
})

var genAmount = rapid.Custom(func(t *rapid.T) Amount {
	bare := Measure{Terms: []Term{{Value: genRange.Draw(t, "count")}}}
	switch k := AmountKind(rapid.IntRange(0, 4).Draw(t, "kind")); k {
	case Packages:
		return Amount{
			Kind: k, Count: genRange.Draw(t, "count"), Each: Measure{Terms: []Term{genTerm(sizedUnit).Draw(t, "each")}},
			Container: genUnit.Filter(wordUnit).Draw(t, "container"),
		}
	case PerHead:
		a := Amount{Kind: k, Measure: genMeasure.Draw(t, "measure"), PerCovers: rapid.IntRange(1, 999999).Draw(t, "covers")}
		if rapid.Bool().Draw(t, "bare") {
			a.Measure = bare
		}
		if rapid.Bool().Draw(t, "plus") {
			a.Plus = genMeasure.Draw(t, "constant")
		}
		return a
	case Percent:
		return Amount{Kind: k, Percent: genNumber.Draw(t, "percent")}
	case Paired:
		// Equal measures, so that nothing is asked.
		m := Measure{Terms: []Term{genTerm(sizedUnit).Draw(t, "measure")}}
		return Amount{Kind: k, Measure: m, Also: m}
	}
	if rapid.IntRange(0, 4).Draw(t, "bare") == 0 {
		return Amount{Measure: bare}
	}
	return Amount{Measure: genMeasure.Draw(t, "measure")}
})

func TestWrittenIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := genAmount.Draw(t, "amount")
		comma := rapid.Bool().Draw(t, "comma")
		text := a.Text(comma)
		b, n, problems := ReadAmount(text+" zest, grated", Options{DecimalComma: comma})
		require.Empty(t, problems, text)
		require.Equal(t, len(text), n, text)
		require.True(t, a.Equal(b), "%q is read as %q", text, b)
		require.Equal(t, text, b.Text(comma), "formatting twice changes nothing")
	})
}

func TestSpanIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]time.Duration{time.Second, time.Minute, 15 * time.Minute, time.Hour, day, week})
		length := func(label string) time.Duration {
			return time.Duration(rapid.Int64Range(1, 90).Draw(t, label)) * unit.Draw(t, label+" unit")
		}
		s := Span{Low: length("low")}
		s.High = s.Low
		switch rapid.IntRange(0, 4).Draw(t, "form") {
		case 0:
			s.AtLeast = true
		case 1:
			s = Span{Low: OvernightLow, High: OvernightHigh, Overnight: true}
		case 2:
			s.High += length("more")
			s.About = rapid.Bool().Draw(t, "about")
		case 3:
			s.UpTo = s.High + length("most")
		}
		text := s.String()
		back, n, problems := ReadSpan(text, Options{})
		require.Empty(t, problems, text)
		require.Equal(t, len(text), n, text)
		require.Equal(t, s, back, text)
	})
}

// Every day has a name of its own: the second day after is not the day after.
func TestDayText(t *testing.T) {
	for n, want := range map[int]string{0: "the day", -1: "the day before", -2: "2 days before", -9: "9 days before", 1: "the day after", 2: "2 days after"} {
		require.Equal(t, want, DayText(n))
	}
}

// A length is printed as long as it is: 59 h are never two days.
func TestTimeTextIsReadBack(t *testing.T) {
	for written, want := range map[time.Duration]string{
		0: "0 min", 59 * time.Second: "59 s", 90 * time.Second: "1 min 30 s", 80 * time.Minute: "1 h 20 min", 24 * time.Hour: "1 day", 36 * time.Hour: "36 h", 48 * time.Hour: "2 days",
		49 * time.Hour: "49 h", 59 * time.Hour: "59 h", 84 * time.Hour: "3 days 12 h", 96*time.Hour + time.Minute: "4 days 1 min", 14 * day: "2 weeks", -time.Minute: "0 min",
	} {
		require.Equal(t, want, TimeText(written))
	}
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.Int64Range(0, int64(longest/time.Second)).Draw(t, "seconds")) * time.Second
		if rapid.Bool().Draw(t, "whole minutes") {
			d = d.Truncate(time.Minute)
		}
		back, n, problems := ReadSpan(TimeText(d), Options{})
		require.Empty(t, problems, TimeText(d))
		require.Equal(t, len(TimeText(d)), n)
		require.Equal(t, Span{Low: d, High: d}, back, TimeText(d))
		low := time.Duration(rapid.Int64Range(0, int64(d/time.Second)).Draw(t, "low")) * time.Second
		back, _, problems = ReadSpan(TimeRangeText(low, d), Options{})
		require.Empty(t, problems, TimeRangeText(low, d))
		require.Equal(t, Span{Low: low, High: d}, back, TimeRangeText(low, d))
	})
}

func TestTemperatureIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Temperature{Low: rapid.IntRange(-100, 300).Draw(t, "low"), Scale: rapid.SampledFrom([]Scale{Celsius, Fahrenheit}).Draw(t, "scale")}
		v.High = v.Low + rapid.IntRange(0, 100).Draw(t, "more")
		back, n, problems := ReadTemperature(v.String(), Options{})
		require.Empty(t, problems)
		require.Equal(t, len(v.String()), n)
		require.Equal(t, v, back)
	})
}

var genSystem = rapid.SampledFrom([]System{Metric, US, Imperial, AU})

// Quantities of every dimension, above 0, and the style to print them in.
func genQuantity(dims ...Dimension) *rapid.Generator[Quantity] {
	return rapid.Custom(func(t *rapid.T) Quantity {
		q := Quantity{Dim: rapid.SampledFrom(dims).Draw(t, "dim"), Value: genRange.Draw(t, "value")}
		if q.Dim == Word || q.Dim == Vague || q.Dim == Batch {
			q.Unit = genUnit.Filter(func(u *Unit) bool { return u.Dim == q.Dim }).Draw(t, "unit")
		}
		if rapid.Bool().Draw(t, "small") {
			q.Value = q.Value.Mul(Frac(1, 977))
		}
		return q
	})
}

func genStyle(q Quantity) *rapid.Generator[Style] {
	return rapid.Custom(func(t *rapid.T) Style {
		st := Style{System: genSystem.Draw(t, "system"), Glyphs: rapid.Bool().Draw(t, "glyphs")}
		if q.Unit == nil && q.Dim != None && rapid.Bool().Draw(t, "own unit") {
			st.Unit = genUnit.Filter(func(u *Unit) bool { return u.Dim == q.Dim }).Draw(t, "unit")
		}
		return st
	})
}

var everyDim = []Dimension{None, Mass, Volume, Length, Word, Vague, Batch}

func TestScalingByTwoFactors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := genNumber.Draw(t, "a"), genNumber.Draw(t, "b")
		q := genQuantity(everyDim...).Draw(t, "q")
		require.True(t, q.Scale(a).Scale(b).Equal(q.Scale(a.Mul(b))))
		require.True(t, q.Scale(a).Scale(Int(1).Div(a)).Equal(q))
	})
}

func TestSumsDoNotDependOnOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.SampledFrom([]Dimension{None, Mass, Volume, Length}).Draw(t, "dim")
		qs := rapid.SliceOfN(genQuantity(dim), 1, 8).Draw(t, "parts")
		sum := func(qs []Quantity) (s Quantity) {
			for _, q := range qs {
				var p *Problem
				if s, p = s.Add(q); p != nil {
					t.Fatal(p.Message)
				}
			}
			return s
		}
		want := sum(qs)
		require.True(t, want.Equal(sum(rapid.Permutation(qs).Draw(t, "order"))))
		k := genNumber.Draw(t, "k")
		var scaled []Quantity
		for _, q := range qs {
			scaled = append(scaled, q.Scale(k))
		}
		require.True(t, want.Scale(k).Equal(sum(scaled)), "scaling before or after adding is the same")
		left, p := want.Sub(qs[0])
		require.Nil(t, p)
		back, p := left.Add(qs[0])
		require.Nil(t, p)
		if !want.Value.IsRange() {
			require.True(t, back.Equal(want))
		}
	})
}

func TestRoundingStaysNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := genQuantity(everyDim...).Draw(t, "q")
		st := genStyle(q).Draw(t, "style")
		r := Round(q, st)
		require.Positive(t, r.Value.Low.Sign(), "never to nothing")
		require.False(t, r.Value.High.Less(r.Value.Low))
		if q.Dim != Vague && !q.Value.Low.Less(Frac(1, 1000)) { // no kitchen weighs a milligram
			tol := st.tolerance(q.Dim)
			if (q.Dim == None || q.Dim == Word) && tol.Sign() > 0 && q.Value.Low.Less(Int(1)) {
				tol = Max(tol, Frac(1, 5)) // part of one thing
			}
			low := tol
			if q.Dim == Volume || q.Dim == Mass || q.Dim == Length {
				tol, low = nearEnough(q, q.Value.High, tol), nearEnough(q, q.Value.Low, tol)
			}
			require.True(t, within(r.Value.Low, q.Value.Low, low), "%s -> %s", q.Value, r.Value)
			require.True(t, within(r.Value.High, q.Value.High, tol), "%s -> %s", q.Value, r.Value)
		}
		text := q.Print(st)
		require.NotEmpty(t, text)
		require.LessOrEqual(t, strings.Count(text, "+"), 2, "at most two units for each end: %s", text)
	})
}

// nearEnough is how far a measure of v may be off: 3%; 4% of a jug; a few grams
// or spoons more, and between two small spoons a third.
func nearEnough(q Quantity, v, tol Number) Number {
	switch {
	case q.Dim == Mass && v.Less(Int(15)):
		return Frac(1, 6) // eighths of an ounce
	case q.Dim == Length && !v.Less(Int(10)):
		return Frac(1, 8) // half centimetres
	case q.Dim == Volume && v.Less(Int(5)):
		return Frac(1, 3)
	case q.Dim == Volume && v.Less(mostSpooned) && q.Value.IsRange():
		return Frac(1, 5) // both ends in one unit, so in half spoons at most
	case q.Dim == Volume && v.Less(mostSpooned):
		return Frac(1, 8)
	case v.Less(Int(10)):
		return Frac(1, 10)
	case v.Less(mostSpooned):
		return spoonTolerance
	case q.Dim == Volume:
		return jugTolerance
	}
	return tol
}

// What is printed says what Round says: read back, it has the same value.
func TestPrintedValueIsRoundedValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := genQuantity(Mass, Volume, Length).Draw(t, "q")
		q.Value = Exactly(q.Value.High)
		st := genStyle(q).Draw(t, "style")
		text := q.Print(st)
		m, n, problems := ReadMeasure(text, Options{})
		if q.Value.High.Less(Frac(1, 100)) { // finer than the reader reads
			return
		}
		require.Empty(t, problems, text)
		require.Equal(t, len(text), n, text)
		back, p := m.Quantity(st.System)
		require.Nil(t, p)
		require.True(t, back.Equal(Round(q, st)), "%s prints as %q but rounds to %s", q.Value, text, Round(q, st).Value)
		exact := st
		exact.Exact = true
		require.Equal(t, back.Value.High.String(), Round(back, exact).Value.High.String())
	})
}

func TestSpreadAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.SampledFrom([]Dimension{None, Mass, Volume}).Draw(t, "dim")
		parts := rapid.SliceOfN(genQuantity(dim), 1, 7).Draw(t, "parts")
		var total Quantity
		for i := range parts {
			parts[i].Value = Exactly(parts[i].Value.High)
			total, _ = total.Add(parts[i])
		}
		st := genStyle(total).Draw(t, "style")
		got, p := Spread(total, Round(total, st), parts, st)
		require.Nil(t, p)
		var sum Quantity
		for i, g := range got {
			require.Positive(t, g.Value.High.Sign(), "a part of %s came to nothing", parts[i].Value)
			sum, _ = sum.Add(g)
		}
		require.True(t, sum.Equal(Round(total, st)), "%s, not %s", sum.Value, Round(total, st).Value)
	})
}

func TestCascadeAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := genQuantity(Mass, Volume, Length).Draw(t, "q")
		s := genSystem.Draw(t, "system")
		m, p := Cascade(q, s)
		require.Nil(t, p)
		back, p := m.Quantity(s)
		require.Nil(t, p)
		units, step := cascadeUnits(q.Dim, s)
		grain := mustBase(units[len(units)-1], s).Mul(step)
		require.False(t, grain.Less(miss(back.Value.High, q.Value.High)), "%s -> %s", q.Value, m)
		for i, term := range m.Terms {
			require.Positive(t, term.Value.Low.Sign())
			if i > 0 {
				above := m.Terms[i-1].Unit
				require.True(t, term.Value.Low.Mul(mustBase(term.Unit, s)).Less(mustBase(above, s)), m.String())
			}
		}
		again, n, problems := ReadMeasure(m.String(), Options{})
		require.Empty(t, problems)
		require.Equal(t, len(m.String()), n)
		require.True(t, again.Equal(m))
	})
}
