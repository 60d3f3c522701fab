package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The grid of what can be weighed and the sizes of spoons are common practice,
// no source.
func TestPrintMetric(t *testing.T) {
	for _, c := range []struct{ grams, want string }{
		{"0", "0 g"},
		{"0.3", "0.3 g"},
		{"0.37", "0.4 g"},
		{"0.49", "0.5 g"},
		{"1.2", "1.2 g"},
		{"7.3", "7.5 g"},
		{"10.4", "10 g"},
		{"3.33", "3.5 g"}, // nobody weighs a third of a gram
		{"1.25", "1.3 g"},
		{"5.5", "5.5 g"},
		{"33.1", "33 g"},
		{"62", "62 g"},
		{"63.5", "65 g"},
		{"113.4", "115 g"},
		{"227", "225 g"},
		{"254", "250 g"},
		{"453.6", "450 g"},
		{"996", "1 kg"},
		{"1024", "1.025 kg"},
		{"1234", "1.225 kg"},
		{"2570", "2.55 kg"},
		{"12345", "12.3 kg"},
		{"75123", "75 kg"},
		{"0.0001", "0.0001 g"},
	} {
		require.Equal(t, c.want, Grams(Decimal(c.grams)).Print(Style{}), c.grams)
	}
	require.Equal(t, "1.5 litres", Millilitres(Int(1500)).Print(Style{System: Metric}))
	require.Equal(t, "1 litre", Millilitres(Int(998)).Print(Style{}))
	require.Equal(t, "1,2 kg", Grams(Int(1200)).Print(Style{Comma: true}))
	require.Equal(t, "2.5 cm", Quantity{Dim: Length, Value: Exactly(Int(25))}.Print(Style{}))
	require.Equal(t, "5 mm", Quantity{Dim: Length, Value: Exactly(Int(5))}.Print(Style{}))
	require.Equal(t, "3 dl", Millilitres(Int(300)).Print(Style{Unit: MustUnit("dl")}))
	require.Equal(t, "2.5 dl", Millilitres(Int(251)).Print(Style{Unit: MustUnit("dl")}))
	require.Equal(t, "15 cl", Millilitres(Int(150)).Print(Style{Unit: MustUnit("cl")}))
	require.Equal(t, "33.5 g", Grams(Frac(1000, 30)).Print(Style{Tolerance: Frac(1, 500)}))
}

func TestPrintKeepsTheWritersFamily(t *testing.T) {
	for _, c := range []struct {
		text   string
		system System
		factor Number
		want   string
	}{
		{"3 tsp", Metric, Int(2), "2 tbsp"},
		{"60 ml", Metric, Int(1), "60 ml"},
		{"60 ml", US, Int(1), "60 ml"},
		{"250 g", US, Int(2), "500 g"},
		{"1/2 tsp", US, Int(1), "1/2 tsp"},
		{"1/2 tsp", US, Frac(1, 2), "1/4 tsp"},
		{"1/2 tsp", US, Frac(1, 4), "1/8 tsp"},
		{"1 tsp", US, Int(4), "1 tbsp + 1 tsp"},
		{"1 tsp", AU, Int(4), "1 tbsp"},
		{"2 tbsp", US, Int(2), "4 tbsp"},
		{"2 tbsp", US, Frac(53, 8), "3/4 cup + 1 tbsp"},
		{"2 tbsp", Metric, Frac(53, 8), "200 ml"},
		{"1 cup", US, Frac(9, 8), "1 cup + 2 tbsp"},
		{"1 cup", US, Frac(53, 8), "6 2/3 cups"},
		{"1 cup", Metric, Int(40), "10 litres"},
		{"1 cup", US, Int(40), "2 1/2 gallons"},
		{"1 cup", US, Frac(37, 100), "1/3 cup + 2 tsp"},
		{"1 1/4 lb", US, Frac(348, 100), "4 lb 5 1/2 oz"},
		{"1 lb", Imperial, Frac(1, 2), "1/2 lb"},
		{"4 oz", Imperial, Int(2), "8 oz"},
		{"4 oz", Imperial, Int(5), "1 1/4 lb"},
		{"1 pint", Imperial, Int(3), "3 pints"},
		{"1 pint", Imperial, Frac(1, 4), "1/4 pint"},
		{"1 pint", Imperial, Frac(13, 10), "1 pint + 6 fl oz"},
		{"2 to 3 tbsp", Metric, Int(2), "4 to 6 tbsp"},
		{"2 to 3 tbsp", Metric, Int(30), "0.9 to 1.35 litres"},
		{"2 dessertspoons", Metric, Int(2), "4 dessertspoons"},
		{"2 inches", US, Int(1), "2 inches"},
		{"1 clove", Metric, Int(3), "3 cloves"},
		{"1 bunch", Metric, Frac(1, 2), "1/2 bunch"},
		{"1 pinch", Metric, Frac(1, 4), "1 pinch"},
		{"1 pinch", Metric, Frac(5, 2), "3 pinches"},
		{"1 batch", Metric, Frac(3, 2), "1 1/2 batches"},
	} {
		m := measure(t, c.text)
		q, p := m.Quantity(c.system)
		require1(t, p)
		require.Equal(t, c.want, q.Scale(c.factor).Print(Style{System: c.system, Unit: m.Terms[0].Unit}), "%s x %s, %s", c.text, c.factor, c.system)
	}
}

func TestPrintInASystem(t *testing.T) {
	for _, c := range []struct {
		q      Quantity
		system System
		want   string
	}{
		{Grams(Int(500)), US, "1 lb 1 1/2 oz"},
		{Grams(Int(28)), US, "1 oz"},
		{Grams(Int(5)), US, "0.18 oz"}, // an American kitchen has no gram
		{Grams(Decimal("5.5")), US, "0.2 oz"},
		{Millilitres(Int(250)), US, "1 cup + 1 tbsp"},
		{Millilitres(Int(240)), US, "1 cup"},
		{Millilitres(Int(15)), US, "1 tbsp"},
		{Millilitres(Int(600)), Imperial, "1 pint + 1 fl oz"},
		{Millilitres(Int(568)), Imperial, "1 pint"},
		{Millilitres(Int(150)), Imperial, "5 1/4 fl oz"},
		{Millilitres(Int(250)), AU, "250 ml"},
		{Millilitres(Int(250)), NoSystem, "250 ml"},
	} {
		require.Equal(t, c.want, c.q.Print(Style{System: c.system}), "%s %s", c.q.plain(), c.system)
	}
}

// A cook with spoons and cups is never sent for a scale: by hand, of a recipe for
// 6 made for 9 1/2 (19/12 of it).
func TestSpoonsStaySpoons(t *testing.T) {
	tsp, _ := teaspoon.Base(US)
	cups, _ := cup.Base(US)
	made := Frac(19, 12)
	for _, c := range []struct {
		n    Number
		unit *Unit
		want string
	}{
		{tsp, teaspoon, "1 1/2 tsp"},                 // 1.58
		{tsp.Div(Int(2)), teaspoon, "3/4 tsp"},       // 0.79
		{tsp.Mul(Frac(5, 3)), teaspoon, "2 3/4 tsp"}, // 2.64
		{cups.Mul(Int(5)), cup, "8 cups"},            // 7.92, and not 2 quarts of bread
		{cups.Mul(Int(20)), cup, "2 gallons"},        // 31.67
	} {
		q := Quantity{Dim: Volume, Value: Exactly(c.n.Mul(made))}
		require.Equal(t, c.want, q.Print(Style{System: US, Unit: c.unit}))
	}
	q := Quantity{Dim: Volume, Value: Exactly(tsp.Mul(made))}
	require.Equal(t, "1.58 tsp", q.Print(Style{System: US, Unit: teaspoon, Tolerance: Frac(1, 200)}), "a formula keeps to its own tolerance")
}

func TestPrintCounts(t *testing.T) {
	for _, c := range []struct{ n, want string }{
		{"1", "1"},
		{"1.5", "1 1/2"},
		{"0.5", "1/2"},
		{"0.25", "1/4"},
		{"1.2", "1 1/4"},
		{"2.6", "2 1/2"},
		{"3.9", "4"},
		{"10.3", "10"},
		{"10.5", "10 1/2"},
		{"1.37", "1 1/3"},
		{"0.6", "5/8"},
		{"0.5833", "5/8"},
		{"0.87", "3/4"},
		{"0.9", "1"},
		{"0.3", "1/3"},
		{"0.21", "1/4"},
		{"0.15", "1/6"},
		{"0.406", "3/8"},
		{"0.02", "0.02"},
		{"0.37", "3/8"},
		{"1.11", "1"},
		{"0", "0"},
		{"24.8", "25"},
	} {
		require.Equal(t, c.want, Pieces(Decimal(c.n)).Print(Style{}), c.n)
	}
	require.Equal(t, "1½", Pieces(Frac(3, 2)).Print(Style{Glyphs: true}))
	require.Equal(t, "2–3", Quantity{Value: Range{Int(2), Int(3)}}.Print(Style{Dash: true}))
	require.Equal(t, "2 to 3", Quantity{Value: Range{Int(2), Int(3)}}.Print(Style{}))
	require.Equal(t, "3", Quantity{Value: Range{Decimal("2.9"), Int(3)}}.Print(Style{}), "a range that rounding closes")
	require.Equal(t, "-1 1/2", Pieces(Frac(-3, 2)).Print(Style{}))
}

func TestPrintAsWritten(t *testing.T) {
	for text, want := range map[string]string{
		"1 1/2 tsp": "1½ tsp", "2 to 3 cups": "2–3 cups", "900 g (2 lb)": "900 g (2 lb)", "2 x 400 g tins": "2 × 400 g tins",
		"1 cup plus 2 tbsp": "1 cup + 2 tbsp", "2 lb 10 oz": "2 lb 10 oz", "1 heaped tbsp": "1 heaped tbsp", "1.5 kg": "1.5 kg",
		"120 g per cover plus 200 g": "120 g per cover plus 200 g", "1 per 4 covers": "1 per 4 covers", "65%": "65%", "3 tsp": "3 tsp", "227 g": "227 g",
	} {
		require.Equal(t, want, amountOf(t, text).Print(Style{Glyphs: true, Dash: true}), text)
	}
}

func TestExact(t *testing.T) {
	require.Equal(t, "227 g", Grams(Int(227)).Print(Style{Exact: true}))
	require.Equal(t, "0.6", Pieces(Decimal("0.6")).Print(Style{Exact: true}))
	cup, _ := MustUnit("cup").Base(US)
	require.Equal(t, "1 cup + 2 tbsp", Millilitres(cup.Mul(Frac(9, 8))).Print(Style{Exact: true, System: US}))
}

func TestSpread(t *testing.T) {
	print := func(parts []Quantity) (out []string) {
		for _, p := range parts {
			out = append(out, p.Print(Style{Exact: true}))
		}
		return out
	}
	grams := func(n ...string) (out []Quantity) {
		for _, x := range n {
			out = append(out, Grams(Decimal(x)))
		}
		return out
	}
	got, p := Spread(Grams(Int(1000)), Round(Grams(Int(1000)), Style{}), grams("333.3", "333.3", "333.4"), Style{})
	require1(t, p)
	require.Equal(t, []string{"330 g", "330 g", "340 g"}, print(got))
	sum := Number{}
	for _, q := range got {
		sum = sum.Add(q.Value.High)
	}
	require.Equal(t, "1000", sum.String())

	got, p = Spread(Grams(Int(912)), Round(Grams(Int(912)), Style{}), grams("12", "900"), Style{})
	require1(t, p)
	require.Equal(t, []string{"12 g", "898 g"}, print(got), "the total prints as 910 g")

	// 1 of 3 onions is not in the list: the rest counts as a part of its own.
	got, p = Spread(Pieces(Int(3)), Round(Pieces(Int(3)), Style{}), []Quantity{Pieces(Int(1)), Pieces(Int(1))}, Style{})
	require1(t, p)
	require.Equal(t, []string{"1", "1"}, print(got))

	got, p = Spread(Pieces(Int(2)), Round(Pieces(Int(2)), Style{}), []Quantity{Pieces(Frac(2, 3)), Pieces(Frac(2, 3)), Pieces(Frac(2, 3))}, Style{})
	require1(t, p)
	require.Equal(t, []string{"2/3", "2/3", "2/3"}, print(got))

	got, p = Spread(Grams(Int(0)), Round(Grams(Int(0)), Style{}), nil, Style{})
	require1(t, p)
	require.Empty(t, got)
	got, p = Spread(Quantity{Value: Range{Int(2), Int(4)}}, Round(Quantity{Value: Range{Int(2), Int(4)}}, Style{}), []Quantity{{Value: Range{Int(1), Int(2)}}, {Value: Range{Int(1), Int(2)}}}, Style{})
	require1(t, p)
	require.Equal(t, []string{"1 to 2", "1 to 2"}, print(got))
}

func TestCascade(t *testing.T) {
	for _, c := range []struct {
		q      Quantity
		system System
		want   string
	}{
		{Millilitres(Int(1234)), Metric, "1 litre plus 234 ml"},
		{Grams(Decimal("2345.6")), Metric, "2 kg 346 g"},
		{Grams(Int(1000)), US, "2 lb 3 1/4 oz"},
		{Millilitres(Int(1000)), Imperial, "1 pint plus 15 fl oz"},
		{Millilitres(Decimal("0.01")), US, "1/4 tsp"}, // never to nothing
		{Millilitres(Decimal("14.7")), US, "1 tbsp"},  // a full unit carries over
		{Grams(Int(0)), Metric, ""},
	} {
		m, p := Cascade(c.q, c.system)
		require1(t, p)
		require.Equal(t, c.want, m.String())
	}
	_, p := Cascade(Pieces(Int(3)), US)
	require.NotNil(t, p)
	require.Contains(t, p.Message, "cannot be split")
}

// What is printed in parts adds up to what is printed of all; in measures that
// two units cannot say, to a little more and never less. By hand.
func TestTotals(t *testing.T) {
	cup, _ := MustUnit("cup").Base(US)
	tbsp, _ := MustUnit("tbsp").Base(US)
	tsp, _ := MustUnit("tsp").Base(US)
	for _, c := range []struct {
		sum  Quantity
		st   Style
		want string
	}{
		{Grams(Int(45 + 41)), Style{}, "86 g"},
		{Grams(Int(1350 + 27)), Style{}, "1.377 kg"},
		{Grams(Int(150).Add(mustBase(ounce, NoSystem).Mul(Int(4)))), Style{}, "263.4 g"}, // 263.398
		{Millilitres(cup.Add(tbsp).Add(tbsp)), Style{System: US, Unit: MustUnit("cup")}, "1 cup + 2 tbsp"},
		{Millilitres(cup.Add(tbsp).Add(tsp)), Style{System: US, Unit: MustUnit("cup")}, "1 cup + 4 tsp"},
		{Millilitres(tbsp.Mul(Int(2)).Add(tsp.Mul(Frac(1, 4)))), Style{System: US, Unit: MustUnit("tbsp")}, "2 tbsp + 1/4 tsp"},
		{Grams(mustBase(pound, NoSystem).Add(mustBase(ounce, NoSystem).Mul(Int(3)))), Style{Unit: MustUnit("lb")}, "1 lb 3 oz"},
		{Pieces(Frac(7, 2).Add(Frac(1, 3))), Style{}, "3 5/6"},
		{Millilitres(Frac(1067, 976)), Style{System: US}, "0.23 tsp"}, // 1/4 tsp is 1.2323, an eighth more than the sum 1.2299
		// parts that are too much for spoons are said by the jug, and so is what they come to
		{Millilitres(Int(300 + 250)), Style{System: Metric, Unit: MustUnit("tsp")}, "550 ml"},
		{Millilitres(Int(90 + 75)), Style{System: Metric, Unit: MustUnit("tbsp")}, "165 ml"},
		{Millilitres(mustBase(fluidOunce, Imperial).Mul(Frac(77, 4))), Style{System: Imperial, Unit: MustUnit("tsp")}, "19 1/4 fl oz"},
		// half a cup is too much to say of what eight cups and a bit can say
		{Millilitres(cup.Mul(Frac(35, 4)).Add(tsp)), Style{System: US, Unit: MustUnit("tsp")}, "8 3/4 cups + 1 tsp"},
		{Millilitres(Frac(71, 8)), Style{System: Metric, Unit: MustUnit("tsp")}, "1.8 tsp"}, // 2 tsp are an eighth too much
		{Grams(Frac(70+25+80, 100)), Style{}, "1.75 g"},                                     // 0.7 + 0.25 + 0.8
	} {
		text, came := c.sum.Total(c.st)
		require.Equal(t, c.want, text)
		require.False(t, came.Value.High.Less(c.sum.Value.High), "%s is less than its parts", text)
	}
	rapid.Check(t, func(t *rapid.T) {
		q := genQuantity(Mass, Volume).Draw(t, "q")
		q.Value = Exactly(Max(q.Value.High, Int(1)))
		_, came := q.Total(genStyle(q).Draw(t, "style"))
		require.False(t, came.Value.High.Less(q.Value.High))
		require.False(t, q.Value.High.Mul(Frac(9, 8)).Less(came.Value.High))
	})
}
