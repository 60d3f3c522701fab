package buying_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// list makes the shopping list of a dish for 4 with these gather lines, and
// these larder entries.
func list(t *testing.T, gather, entries string, have ...buying.Have) *buying.List {
	t.Helper()
	text := "larder\n  units metric\n" + entries + "menu M\n  covers 4\n  course C\n    Dish\ndish Dish\n  serves 4\n  gather\n" + gather +
		"  method\n    - Mix everything.\n"
	return listOf(t, text, have...)
}

func listOf(t *testing.T, text string, have ...buying.Have) *buying.List {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	meals := demand.Meals(resolve.Build(tree, diags), demand.Options{}, diags)
	for _, d := range diags.Sorted() {
		require.Less(t, d.Severity, diag.Error, "%s %s", d.Code, d.Message)
	}
	return buying.Build(figures.Of(meals[0], figures.Options{}), have)
}

// row says an item in one line.
func row(it *buying.Item) string {
	s := it.Print() + " " + it.Name
	if p := it.Packs; p != nil {
		s += fmt.Sprintf(": %d × %s", p.Count, p.Each.Print(quantity.Style{}))
		if !p.Spare.IsZero() {
			s += ", " + p.Spare.Print(quantity.Style{}) + " spare"
		}
	}
	if it.Pieces > 0 {
		s += fmt.Sprintf(", about %d", it.Pieces)
	}
	return s
}

func TestRows(t *testing.T) {
	tests := []struct {
		name, gather, larder string
		want                 []string
	}{
		{"a sum over all lines", "    300 g flour xx\n    for the sauce\n      50 g flour xx\n", "", []string{"350 g flour xx"}},
		{"tap water is not bought", "    1 litre water\n    100 g flour xx\n", "", []string{"100 g flour xx"}},
		{"nor a part of a head", "    1 1/4 heads cabbage xx\n", "", []string{"2 heads cabbage xx"}},
		{"nobody sells half a lemon", "    1/2 lemon, sliced\n", "", []string{"1 lemon"}},
		{"the writer's yield makes trimmed weight bought weight", "    750 g celeriac xx\n", "  celeriac xx | yields 75%\n", []string{"1 kg celeriac xx"}},
		{"a line as bought is taken as it is", "    750 g celeriac xx | as sold\n", "  celeriac xx | yields 75%\n", []string{"750 g celeriac xx"}},
		{"a line's own `buy`", "    600 g pumpkin xx | buy 1 kg\n", "", []string{"1 kg pumpkin xx"}},
		{"packs: the least over", "    500 ml cream xx\n", "  cream xx | packs 300 ml or 600 ml\n", []string{"500 ml cream xx: 1 × 600 ml, 100 ml spare"}},
		{"packs: the least over, though it is not the first", "    500 ml cream xx\n", "  cream xx | packs 600 ml or 250 ml\n", []string{"500 ml cream xx: 2 × 250 ml"}},
		{"packs: of as much over, the fewer", "    600 ml cream xx\n", "  cream xx | packs 300 ml or 600 ml\n", []string{"600 ml cream xx: 1 × 600 ml"}},
		{"packs: several of one", "    1.3 litres cream xx\n", "  cream xx | packs 300 ml or 600 ml\n", []string{"1.3 litres cream xx: 5 × 300 ml, 200 ml spare"}},
		{"tins stay tins", "    2 x 400 g tins plum tomatoes\n", "", []string{"2 × 400 g tins plum tomatoes"}},
		{"tins of two lists", "    2 x 400 g tins plum tomatoes\n    for the sauce\n      3 x 400 g tins plum tomatoes\n", "", []string{"5 × 400 g tins plum tomatoes"}},
		{"tins of two sizes", "    2 x 400 g tins plum tomatoes\n    for the sauce\n      1 x 800 g tin plum tomatoes\n", "", []string{"2 × 400 g tins + 1 × 800 g tin plum tomatoes"}},
		{"tins beside what may be dried", "    2 x 400 g tins beans xx\n    for the sauce\n      300 g beans xx\n", "", []string{"2 × 400 g tins + 300 g beans xx"}},
		// 800 g and 1 kg of what comes in tins only are four and a half tins, or five
		{"a weight of what comes in tins only", "    2 x 400 g tins chopped tomatoes\n    for the sauce\n      1 kg chopped tomatoes\n", "  chopped tomatoes | from the tins and jars\n", []string{"5 × 400 g tins chopped tomatoes"}},
		{"part of a tin", "    2 1/2 x 400 g tins beans xx\n", "", []string{"3 × 400 g tins beans xx"}},
		{"a range of tins", "    3 to 4 x 400 g tins beans xx\n", "", []string{"3 to 4 × 400 g tins beans xx"}},
		{"gathered twice, bought twice", "    20 g starch xx\n    30 g starch xx\n", "", []string{"50 g starch xx"}},
		{"weight and number by the larder's piece", "    300 g onion xx\n    for the sauce\n      2 onion xx\n", "  onion xx | piece 150 g\n", []string{"600 g onion xx, about 4"}},
		{"weight and number without: side by side", "    300 g onion xx\n    for the sauce\n      2 onion xx\n", "", []string{"300 g + 2 onion xx"}},
		{"weight and volume by the larder's density: 192 g, rounded up", "    100 g oil xx\n    for the sauce\n      100 ml oil xx\n", "  oil xx | weighs 0.92 g per ml\n", []string{"195 g oil xx"}},
		{"two names, one thing", "    20 g coriander leaves\n    for the sauce\n      10 g cilantro\n", "", []string{"30 g coriander leaves: 1 × 30 g"}},
		{"same as", "    20 g gran's flour xx\n    for the sauce\n      10 g flour xx\n", "  gran's flour xx | same as flour xx\n", []string{"30 g gran's flour xx"}},
		{"48 whites and 48 yolks are 48 eggs", "    48 egg whites\n    48 egg yolks\n", "", []string{"48 egg: 4 × 12"}},
		{"whole eggs besides", "    2 eggs\n    3 egg yolks\n", "", []string{"5 eggs: 1 × 6, 1 spare"}},
		// By hand: a lemon gives 47 ml of juice (larder/data/gives.csv), so 70 ml want 2, beside the 2 that go in.
		{"whole fruit for juice", "    2 lemons, sliced\n    70 ml lemon juice\n", "", []string{"4 lemons"}},
		{"juice the writer buys", "    70 ml lemon juice\n", "  lemon juice | packs 500 ml\n", []string{"70 ml lemon juice: 1 × 500 ml, 430 ml spare"}},
		{"juice at the writer's price", "    70 ml lemon juice\n", "  lemon juice | price 2.00 per litre\n", []string{"70 ml lemon juice"}},
		{"juice from a shop of the writer's", "    70 ml lemon juice\n", "  lemon juice | from the dairy\n", []string{"70 ml lemon juice"}},
		{"juice of which the larder says something else", "    70 ml lemon juice\n", "  lemon juice | keeps 2 days, fridge\n", []string{"2 lemon"}},
		{"cloves come in heads", "    14 cloves garlic\n", "", []string{"14 cloves garlic: 2 × 10 cloves, 6 cloves spare"}},
		{"a priced amount is a pack", "    300 g stuff xx\n", "  stuff xx | price 0.85 per 250 g\n", []string{"300 g stuff xx: 2 × 250 g, 200 g spare"}},
		{"so much for twelve is a box of twelve", "    15 rolls xx\n", "  rolls xx | price 2.40 per 12\n", []string{"15 rolls xx: 2 × 12, 9 spare"}},
		{"by the piece is none", "    15 rolls xx\n", "  rolls xx | price 2.40 per 1\n", []string{"15 rolls xx"}},
		{"herbs by the packet", "    45 g chives\n", "", []string{"45 g chives: 2 × 25 g, 5 g spare"}},
		{"sprigs grow in packets", "    7 sprigs thyme\n", "", []string{"7 sprigs thyme: 1 × 20 sprigs, 13 sprigs spare"}},
		{"cold, soft and melted are one block", "    100 g cold butter\n    50 g soft butter\n    30 g butter, melted\n", "", []string{"180 g butter: 1 × 250 g, 70 g spare"}},
		{"chopped at home", "    60 g roughly chopped coriander\n", "", []string{"60 g coriander: 2 × 30 g"}},
		{"packed into the cup at home", "    200 g packed brown sugar\n", "", []string{"200 g brown sugar"}},
		{"frozen is another thing", "    300 g frozen raspberries\n    150 g raspberries\n", "", []string{"150 g raspberries: 1 × 150 g", "300 g frozen raspberries"}},
		{"by the kilo is none", "    300 g stuff xx\n", "  stuff xx | price 0.85 per kg\n", []string{"300 g stuff xx"}},
		{"potatoes are weighed out", "    3 kg potatoes\n", "", []string{"3 kg potatoes"}},
		{"a bunch is not", "    26 g parsley\n", "", []string{"26 g parsley: 1 × 30 g, 4 g spare"}},
		{"what the writer's larder gives", "    6 crab claws xx\n", "  crab xx | gives 2 crab claws xx\n", []string{"3 crab xx"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, it := range list(t, tt.gather, tt.larder).Items {
				got = append(got, row(it))
			}
			require.Equal(t, tt.want, got)
		})
	}
}

// What most houses keep is looked for there, as long as a house has so much of
// it. By packs.csv: plain flour in bags of 500 g, salt in tubs of 750 g.
func TestCupboard(t *testing.T) {
	for _, c := range []struct {
		line string
		want bool
	}{
		{"200 g plain flour", true},
		{"3 kg plain flour", false},
		{"60 g salt", true},
		{"2 kg salt", false},
		{"salt | to taste", true},
		{"2 x 400 g tins chopped tomatoes", true},
		{"10 x 400 g tins chopped tomatoes", false},
		{"4 tins chopped tomatoes", false},
		{"30 black peppercorns", true},
		{"400 black peppercorns", false},
		{"10 g ground turmeric", true},
		{"85 g ground turmeric", false},
	} {
		require.Equal(t, c.want, list(t, "    "+c.line+"\n", "").Items[0].Cupboard, c.line)
	}
}

func TestWhatIsInTheHouseComesOff(t *testing.T) {
	l := list(t, "    500 g flour xx\n    100 g sugar xx\n", "",
		buying.Have{Name: "flour xx", Quantity: quantity.Grams(quantity.Int(200))},
		buying.Have{Name: "sugar xx", Quantity: quantity.Grams(quantity.Int(900))},
		buying.Have{Name: "saffron", Quantity: quantity.Grams(quantity.Int(1))})
	require.Equal(t, "300 g flour xx", row(l.Items[0]))
	require.True(t, l.Items[1].Buy[0].IsZero(), "more than enough: nothing is bought, not less than nothing")
	require.Equal(t, []string{"saffron"}, l.Unused)
}

func TestCost(t *testing.T) {
	l := list(t, "    500 g flour xx\n    3 leeks xx\n    200 ml milk xx\n    5 g yeast xx\n", `  flour xx
    | price 1.20 per kg
  leeks xx
    | price 0.45 each
  milk xx
    | price 0.90 per litre
`)
	require.Len(t, l.Costs, 1)
	// 0.60 + 1.35 + 0.18
	require.Equal(t, "213/100", l.Costs[0].Amount.String())
	require.Len(t, l.Unpriced, 1, "an unknown price is listed, never nothing")
	require.Equal(t, "yeast xx", l.Unpriced[0].Name)
}

// What is used is one sum, what is carried home another. By hand: 300 of 1000 g at
// 1.20 a kilo is 0.36, and the till takes two bags of 250 g, 0.60; half a lemon at
// 0.40 is 0.20, and nobody sells half of one; 5 of the box of six eggs at 0.35.
func TestWhatTheTillTakes(t *testing.T) {
	l := list(t, "    300 g stuff xx\n    1/2 lemon\n    5 eggs\n", `  stuff xx | price 1.20 EUR per kg | packs 250 g
  lemon | price 0.40 EUR each
  egg | price 0.35 EUR each
`)
	require.Equal(t, []buying.Cost{{Amount: quantity.Decimal("2.31"), Currency: "EUR"}}, l.Costs) // 0.36 + 0.20 + 1.75
	require.Equal(t, []buying.Cost{{Amount: quantity.Decimal("3.10"), Currency: "EUR"}}, l.Till)  // 0.60 + 0.40 + 2.10
}

// By the dozen: 15 eggs at 2.40 for 12 are used for 3.00, and the till takes two boxes.
func TestPriceOfADozen(t *testing.T) {
	l := list(t, "    15 eggs\n", "  egg | price 2.40 GBP per dozen\n")
	require.Equal(t, []buying.Cost{{Amount: quantity.Decimal("3.00"), Currency: "GBP"}}, l.Costs)
	require.Equal(t, []buying.Cost{{Amount: quantity.Decimal("4.80"), Currency: "GBP"}}, l.Till)
}

// Yolks and whites are those of the same eggs: what is needed is eggs.
func TestEggsOfYolksAndWhites(t *testing.T) {
	l := list(t, "    7 egg yolks\n    5 egg whites\n", "")
	require.Len(t, l.Items, 1)
	require.Equal(t, "7", l.Items[0].Needed())
	require.Equal(t, "12", l.Items[0].Packs.Each.Print(quantity.Style{}))
	l = list(t, "    7 egg yolks\n    5 egg whites\n    3 eggs\n", "")
	require.Equal(t, "10", l.Items[0].Needed())
}

// A little of what is dry is looked for in the house first; not where the writer
// says who sells it.
func TestLittleIsLookedForInTheHouse(t *testing.T) {
	l := list(t, "    20 g cornflour\n    900 g plain flour\n    25 g rolled oats\n", "  rolled oats | from the mill\n")
	house := map[string]bool{}
	for _, it := range l.Items {
		house[it.Name] = it.Cupboard
	}
	require.True(t, house["cornflour"])
	require.False(t, house["rolled oats"])
}

// Yolks are bought as eggs, so they cost what eggs cost.
func TestPartsHaveTheFactsOfTheWhole(t *testing.T) {
	l := list(t, "    4 egg yolks\n", "  egg | gives 1 egg white and 1 egg yolk | price 0.35 each\n")
	require.Empty(t, l.Unpriced)
	require.Equal(t, "7/5", l.Costs[0].Amount.String()) // 4 × 0.35
}

func TestHowItIsCountedIsSaid(t *testing.T) {
	l := list(t, "    300 g onion xx\n    for the sauce\n      2 onion xx\n", "  onion xx | piece 150 g | yields 80%\n")
	require.Contains(t, l.Items[0].How, buying.Note{Text: "80% of what is bought goes in (the larder)"})
	require.Contains(t, l.Items[0].How, buying.Note{Text: "each counted as 150 g (the larder)", Shown: true})
}

// What a whole leaves is said, of one as of several.
func TestPartsLeftOverAreSaid(t *testing.T) {
	l := list(t, "    3 egg yolks\n    2 egg whites\n", "")
	require.Equal(t, "3 egg: 1 × 6, 3 spare", row(l.Items[0]))
	require.Contains(t, l.Items[0].How, buying.Note{Text: "1 egg white left over", Shown: true})
	require.NotContains(t, fmt.Sprint(l.Items[0].How), "egg yolk left over")
}

func TestJuiceIsOneThing(t *testing.T) {
	require.Contains(t, list(t, "    70 ml lemon juice\n", "").Items[0].How, buying.Note{Text: "70 ml lemon juice", Shown: true})
	require.Contains(t, list(t, "    6 egg yolks\n", "").Items[0].How, buying.Note{Text: "6 egg yolks", Shown: true})
}

// The zest and the juice of one fruit are not bought twice, however they are
// written; a fruit that is sliced is neither.
func TestZestAndJuiceComeFromOneFruit(t *testing.T) {
	tests := []struct {
		gather string
		want   string
		how    string
	}{
		{"    1 lemon, zested\n    40 ml lemon juice\n", "1 lemon", "1 for the zest"},
		{"    zest of 1 orange\n    juice of 2 oranges\n", "2 orange", "2 for the juice"},
		{"    2 tsp lemon zest\n    2 lemons, juiced\n", "2 lemon", "2 tsp lemon zest"},
		{"    1 tbsp grated orange zest\n    2 oranges, sliced\n", "3 orange", "1 tbsp grated orange zest"},
		{"    1 lime, zested and juiced\n    30 ml lime juice\n", "2 lime", "30 ml lime juice"},
		{"    50 ml lemon juice\n    50 ml fresh lemon juice\n", "3 lemon", "50 ml fresh lemon juice"}, // 100/47
		{"    94 g lemon juice\n", "2 lemon", "94 g lemon juice"},                                      // 244 g a cup: 91 ml
	}
	for _, tt := range tests {
		l := list(t, tt.gather, "")
		require.Len(t, l.Items, 1, tt.gather)
		require.Equal(t, tt.want, l.Items[0].Print()+" "+l.Items[0].Key, tt.gather)
		require.Contains(t, l.Items[0].How, buying.Note{Text: tt.how, Shown: true}, tt.gather)
	}
}

// What the shop has: a tin of peas is no frozen pea, a price for five pounds is a bag of
// five pounds however it is measured, and a few spoons of a herb are bought by the packet.
func TestAsTheShopHasIt(t *testing.T) {
	l := list(t, "    2 x 400 g tins peas\n", "")
	require.Equal(t, "tins and jars", l.Items[0].Counter)
	l = list(t, "    300 g peas\n", "")
	require.Equal(t, "freezer", l.Items[0].Counter)
	l = list(t, "    500 ml plain flour\n", "  plain flour | price 3 per 1.5 kg\n")
	require.Equal(t, 1, l.Items[0].Packs.Count)
	require.Equal(t, "1.5 kg", l.Items[0].Packs.Label.Print(quantity.Style{}))
	require.Equal(t, "3", l.Items[0].Till.Amount.Text(false))
	l = list(t, "    3 tsp thyme leaves\n", "") // 3 g
	require.Equal(t, "packet", l.Items[0].Packs.Container)
	require.Equal(t, 1, l.Items[0].Packs.Count)
}

// Prices that name no currency are in that of the others; of two, nobody can say.
func TestOneCurrencyIsEverybodys(t *testing.T) {
	entries := "  flour xx | price 2 per kg\n  salt xx | price 1 EUR per kg\n"
	l := list(t, "    1 kg flour xx\n    1 kg salt xx\n", entries)
	require.Equal(t, []buying.Cost{{Amount: quantity.Int(3), Currency: "EUR"}}, l.Costs)
	require.Equal(t, l.Costs, l.Till)
	l = list(t, "    1 kg flour xx\n    1 kg salt xx\n    1 kg oil xx\n", entries+"  oil xx | price 4 GBP per kg\n")
	require.Len(t, l.Costs, 3)
}

// What is needed of a pack is the sum of what the lines say, and with what is spare the
// pack; what one line needs is what that line says.
func TestNeededIsTheSumOfTheLines(t *testing.T) {
	l := list(t, "    65 g butter\n    for the glaze\n      144 g butter\n    72 g rice xx\n", "  butter | packs 250 g\n")
	require.Equal(t, "209 g", l.Items[0].Needed())
	require.Equal(t, "41 g", l.Items[0].Packs.Spare.Print(quantity.Style{}))
	require.Equal(t, "72 g", l.Items[1].Print())

	// 78 g at 55 per cent are 141.8 g: nobody weighs tenths of what is trimmed anyway
	l = list(t, "    48 g parsley\n    for the oil\n      30 g parsley\n", "  parsley | yields 55% | packs 100 g\n")
	require.Equal(t, "145 g", l.Items[0].Needed())
}

// What the sentences squeeze or slice is not zested alone.
func TestAFruitWhoseSentenceAsksMoreIsWhole(t *testing.T) {
	text := "menu M\n  covers 4\n  course C\n    Dish\ndish Dish\n  serves 4\n  gather\n    1 lemon, zested\n    40 ml lemon juice\n    200 g rice\n" +
		"  method\n    - Stir the zest of the lemon into the rice and serve the lemon in wedges.\n    - Add the lemon juice.\n"
	require.Equal(t, "2", listOf(t, text).Items[0].Print())
	text = strings.Replace(text, "serve the lemon in wedges", "toss the lemon in", 1) // the juice that is said is that of the other line
	require.Equal(t, "1", listOf(t, text).Items[0].Print())
}

func TestCountersInOrder(t *testing.T) {
	l := list(t, "    5 g salt\n    100 g butter\n    2 leeks\n    300 g stuff xx\n    200 g thing xx\n", "  thing xx | from the market stall\n")
	var got []string
	for _, it := range l.Items {
		got = append(got, it.Counter)
	}
	require.Equal(t, "greengrocer", got[0])
	require.Equal(t, "dairy", got[1])
	require.Equal(t, buying.CounterElsewhere, got[3])
	require.True(t, l.Items[4].Cupboard, "salt is in the house")
}

// `buy 3 lb whole chicken` puts another thing on the list, and `from` another counter;
// of two sellers one thing is two, and what is in the house comes off either.
func TestBoughtUnderAnotherName(t *testing.T) {
	l := list(t, "    600 g chicken meat xx | buy 1.5 kg whole chicken xx\n    200 g butter xx | from the Dairy\n    for the sauce\n      100 g butter xx\n", "  whole chicken xx | price 8 per kg | from Low Farm\n")
	got := map[string]string{}
	for _, it := range l.Items {
		got[it.Name+" from "+it.Counter] = it.Buy[0].Print(quantity.Style{System: quantity.Metric})
	}
	require.Equal(t, map[string]string{
		"whole chicken xx from low farm": "1.5 kg", "butter xx from dairy": "200 g", "butter xx from elsewhere": "100 g",
	}, got)
	chicken := l.Items[slices.IndexFunc(l.Items, func(it *buying.Item) bool { return it.Name == "whole chicken xx" })]
	require.NotNil(t, chicken.Cost, "the price of what is bought")
	require.Equal(t, "12", chicken.Cost.Amount.Text(false))
}
