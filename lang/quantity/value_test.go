package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func amountOf(t testing.TB, text string) Amount {
	t.Helper()
	a, n, problems := ReadAmount(text, Options{Alone: true})
	require.Empty(t, problems, text)
	require.Equal(t, len(text), n, text)
	return a
}

func TestAmountQuantity(t *testing.T) {
	for _, c := range []struct {
		text   string
		covers int
		dim    Dimension
		low    string
		high   string
	}{
		{"250 g", 4, Mass, "250", "250"},
		{"1.2 kg", 4, Mass, "1200", "1200"},
		{"2 lb 10 oz", 4, Mass, "1190.67997125", "1190.67997125"},
		{"2 to 3 tbsp", 4, Volume, "30", "45"},
		{"1 cup plus 2 tbsp", 4, Volume, "280", "280"},
		{"900 g (2 lb)", 4, Mass, "900", "900"},
		{"2 x 400 g tins", 4, Mass, "800", "800"},
		{"2 to 3 x 400 g tins", 4, Mass, "800", "1200"},
		{"120 g per cover plus 200 g", 10, Mass, "1400", "1400"},
		{"1 per 4 covers", 10, None, "2.5", "2.5"},
		{"1 to 2 per cover", 10, None, "10", "20"},
		{"120 g per cover", 0, Mass, "0", "0"},
		{"120 g per cover plus 200 g", -3, Mass, "200", "200"},
		{"3", 4, None, "3", "3"},
		{"6 cloves", 4, Word, "6", "6"},
		{"1 pinch", 4, Vague, "1", "1"},
		{"2 batches", 4, Batch, "2", "2"},
		{"10 cm", 4, Length, "100", "100"},
	} {
		q, p := amountOf(t, c.text).Quantity(Metric, c.covers)
		require1(t, p)
		require.Equal(t, c.dim, q.Dim, c.text)
		require.True(t, q.Value.Equal(Range{Decimal(c.low), Decimal(c.high)}), "%s: %s", c.text, q.Value)
	}
	q, _ := amountOf(t, "2 x 400 g tins").Quantity(Metric, 4)
	require.Equal(t, "2", q.Packs.Count.String())
	require.Equal(t, "tin", q.Packs.Container.Name)
	require.True(t, q.Packs.Each.Equal(Grams(Int(400))))

	_, p := amountOf(t, "65%").Quantity(Metric, 4)
	require.Equal(t, CodePercent, p.Code)
	for _, text := range []string{"1 cup", "2 x 1 pint bottles", "1 cup per cover", "1 g per cover plus 1 cup"} {
		_, p = amountOf(t, text).Quantity(NoSystem, 4)
		require.NotNil(t, p, text)
	}
}

func TestAddAndSub(t *testing.T) {
	tins, _ := amountOf(t, "2 x 400 g tins").Quantity(Metric, 1)
	more, _ := amountOf(t, "1 x 400 g tin").Quantity(Metric, 1)
	sum, p := tins.Add(more)
	require1(t, p)
	require.Equal(t, "3", sum.Packs.Count.String())
	require.True(t, sum.Equal(Grams(Int(1200))))
	sum, p = tins.Add(Grams(Int(50)))
	require1(t, p)
	require.Nil(t, sum.Packs, "loose grams are in no tin")

	lemons := Quantity{Value: Range{Int(2), Int(3)}}
	left, p := lemons.Sub(Pieces(Int(1)))
	require1(t, p)
	require.Equal(t, "1 to 2", left.Value.String())
	left, p = Pieces(Int(2)).Sub(lemons)
	require1(t, p)
	require.Equal(t, "-1 to 0", left.Value.String())
	n, p := lemons.Cmp(Pieces(Int(3)))
	require1(t, p)
	require.Zero(t, n, "things are bought by the larger end")

	var nothing Quantity
	sum, p = nothing.Add(Grams(Int(5)))
	require1(t, p)
	require.True(t, sum.Equal(Grams(Int(5))))
	require.True(t, nothing.IsZero())
}

func TestKindsDoNotMix(t *testing.T) {
	cloves, _ := Of(Int(2), MustUnit("clove"), Metric)
	sprigs, _ := Of(Int(2), MustUnit("sprig"), Metric)
	for _, c := range []struct {
		a, b Quantity
		says string
		help string
	}{
		{Grams(Int(200)), Millilitres(Int(50)), "200 g and 50 ml cannot be added: one is a weight, the other a volume", "weighs"},
		{Grams(Int(200)), cloves, "one is a weight, the other a number of cloves", "piece"},
		{Pieces(Int(3)), Grams(Int(200)), "3 and 200 g cannot be added: one is a number of pieces, the other a weight", "piece"},
		{cloves, sprigs, "2 cloves and 2 sprigs cannot be added", "one unit"},
	} {
		_, p := c.a.Add(c.b)
		require.NotNil(t, p)
		require.Equal(t, CodeKinds, p.Code)
		require.Contains(t, p.Message, c.says)
		require.Contains(t, p.Help, c.help)
		_, p = c.a.Sub(c.b)
		require.NotNil(t, p)
		_, p = c.a.Cmp(c.b)
		require.NotNil(t, p)
		_, p = c.a.Ratio(c.b)
		require.NotNil(t, p)
		_, p = Spread(c.a, c.a, []Quantity{c.b}, Style{})
		require.NotNil(t, p)
	}
	_, p := Grams(Int(1)).Ratio(Grams(Int(0)))
	require.NotNil(t, p, "nothing cannot be divided by")
}

func TestBridges(t *testing.T) {
	// Source: USDA SR28 NDB 20081, 125 g a US cup of flour; NDB 11282, a medium
	// onion of 110 g.
	cup, _ := MustUnit("cup").Base(US)
	flour := Int(125).Div(cup)
	m, p := Millilitres(cup).AsMass(flour)
	require1(t, p)
	require.True(t, m.Equal(Grams(Int(125))))
	v, p := m.AsVolume(flour)
	require1(t, p)
	require.True(t, v.Equal(Millilitres(cup)))

	onions, p := Pieces(Int(3)).AsWeight(Int(110))
	require1(t, p)
	require.True(t, onions.Equal(Grams(Int(330))))
	count, p := onions.AsCount(Int(110), nil)
	require1(t, p)
	require.True(t, count.Equal(Pieces(Int(3))))
	clove := MustUnit("clove")
	cloves, p := Grams(Int(15)).AsCount(Int(5), clove)
	require1(t, p)
	require.Equal(t, "3 cloves", cloves.Print(Style{}))

	for _, bad := range []func() (Quantity, *Problem){
		func() (Quantity, *Problem) { return Millilitres(Int(5)).AsMass(Int(0)) },
		func() (Quantity, *Problem) { return Pieces(Int(5)).AsMass(Int(1)) },
		func() (Quantity, *Problem) { return Pieces(Int(5)).AsWeight(Int(0)) },
		func() (Quantity, *Problem) { return Millilitres(Int(5)).AsWeight(Int(3)) },
		func() (Quantity, *Problem) { return Millilitres(Int(5)).AsCount(Int(3), nil) },
		func() (Quantity, *Problem) { return Grams(Int(5)).AsCount(Int(0), nil) },
	} {
		_, p := bad()
		require.NotNil(t, p)
		require.NotEmpty(t, p.Message)
	}
}

func TestRoughSpoons(t *testing.T) {
	for text, rough := range map[string]bool{"1 heaped tbsp": true, "1 scant cup": true, "1 level tsp": false, "1 tbsp": false, "1 rounded tsp": true} {
		require.Equal(t, rough, quantityOf(t, text, Metric).Rough, text)
	}
}
