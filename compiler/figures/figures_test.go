package figures_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

func mealOf(t *testing.T, text string, covers int) *demand.Meal {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	meals := demand.Meals(resolve.Build(tree, diags), demand.Options{Covers: covers}, diags)
	require.NotEmpty(t, meals)
	return meals[0]
}

// A dish for six, in the units of its writer, at so many covers: worked by hand.
func TestLines(t *testing.T) {
	for _, c := range []struct {
		units, line string
		covers      int
		asked       quantity.System
		want        string
	}{
		// As it was written, whatever that was.
		{"US", "1/3 tsp salt", 6, "", "⅓ tsp"},
		{"US", "1 5/8 oz butter", 6, "", "1⅝ oz"},
		{"US", "5/6 cup milk", 6, "", "⅚ cup"},
		{"US", "26 oz chickpeas", 6, "", "26 oz"},
		{"imperial", "1/4 peck apples", 6, "", "¼ peck"},
		{"metric", "227 g butter", 6, "", "227 g"},
		{"metric", "1/2 bay leaf", 6, "", "½"},
		{"metric", "1 small bunch parsley", 6, "", "1 small bunch"},
		{"metric", "1 heaped tbsp sugar", 6, "", "1 heaped tbsp"},
		{"metric", "115 g (4 oz) butter", 6, "", "115 g (4 oz)"},
		{"", "1/2 tsp salt", 6, "", "½ tsp"},
		{"US", "1 lb butter", 6, quantity.US, "1 lb"},
		// Made over.
		{"metric", "1 small bunch parsley", 12, "", "2 small bunches"},
		{"metric", "1 heaped tbsp sugar", 12, "", "2 heaped tbsp"},
		{"metric", "115 g (4 oz) butter", 12, "", "230 g (8 oz)"},
		{"", "1 tbsp oil", 18, "", "3 tbsp"},
		{"metric", "1 tbsp oil", 18, quantity.Metric, "3 tbsp"},
		{"US", "1 tbsp oil", 18, quantity.Metric, "3 tbsp"},
		{"metric", "10 g salt", 2, "", "3.5 g"},   // 3.33
		{"metric", "400 g flour", 2, "", "135 g"}, // 133.33
		// Less than an ounce of what was written in grams is spooned, where it is known what a
		// spoon of it weighs; an ounce and its parts stay.
		{"metric", "5.5 g pepper", 6, quantity.US, "2½ tsp"},
		{"metric", "2.5 g fine salt", 6, quantity.US, "½ tsp"},
		{"metric", "10 g butter", 6, quantity.US, "2 tsp"},
		{"metric", "1 to 2 g fine salt", 6, quantity.US, "⅛ to ¼ tsp"},
		{"metric", "25 g stuff xx", 6, quantity.US, "⅞ oz"},
		{"metric", "10 g stuff xx", 6, quantity.US, "⅜ oz"},
		{"metric", "30 g butter", 6, quantity.US, "1 oz"},
		{"US", "3/8 oz butter", 6, "", "⅜ oz"},
		{"US", "1/4 oz dried yeast", 2, "", "½ tsp"}, // 2.36 g
		{"imperial", "1 oz butter", 2, "", "2 tsp"},  // 9.45 g: an eighth too much
		{"imperial", "1/2 oz fine salt", 1, "", "½ tsp"},
		{"imperial", "1/4 peck apples", 12, "", "½ peck"},
		{"US", "11 to 12 quarts water", 12, "", "5½ to 6 gallons"}, // 22 to 24 quarts
		{"metric", "2 to 3 tbsp oil", 12, "", "4 to 6 tbsp"},
		{"metric", "1 bay leaf", 3, "", "1"},
		{"metric", "2 cloves garlic", 5, "", "2 cloves"}, // 1.67
		// Whole, and what it stands for: 3.5 x 15/6 = 8.75 of 50 g; 2 x 7/6 = 2.33.
		{"metric", "3 1/2 eggs", 15, "", "9 [or 8¾: beat and weigh 438 g]"},
		{"US", "3 1/2 eggs", 15, "", "9 [or 8¾: beat and weigh 15½ oz]"},
		{"metric", "2 eggs", 7, "", "2 [use 2⅓: beat and weigh 117 g]"},
		{"metric", "1 egg", 12, "", "2"},
		{"metric", "2 x 400 g tins tomatoes", 9, "", "3 × 400 g tins"},
		{"metric", "2 x 400 g tins tomatoes", 8, "", "3 × 400 g tins [use 2⅔: weigh 1.075 kg]"}, // 1066.67
		{"metric", "3 to 4 x 400 g tins tomatoes", 14, "", "7 to 10 × 400 g tins"},              // 7 to 9.33
		// Parts of one that a cook can cut, the nearest.
		{"metric", "0.406 cabbage", 6, "", "0.406"},
		{"metric", "1 cabbage", 1, "", "⅙"},
		{"metric", "2 1/4 cabbages", 1, "", "⅜"}, // 0.375
		{"metric", "0.203 cabbage", 12, "", "⅜"}, // 0.406
		{"metric", "0.3 cabbage", 12, "", "⅝"},   // 0.6
		{"metric", "2 x 400 g tins tomatoes", 6, quantity.US, "2 × 14 oz tins"},
		{"US", "2 x 14 oz tins tomatoes", 6, quantity.Metric, "2 × 397 g tins"}, // 396.89
		{"US", "1 28-oz can tomatoes", 6, "", "1 × 28 oz can"},
		{"US", "1 28-oz can tomatoes", 12, "", "2 × 28 oz cans"},
		{"metric", "1/2 nutmeg", 2, "", "⅙"},
		{"metric", "1 nutmeg", 3, "", "½"},
		{"metric", "1 cinnamon stick", 2, "", "⅓"},
		{"metric", "4 cloves", 1, "", "1"},
		{"US", "2 oz stuff xx", 1, "", "⅜ oz"}, // 0.333
		// Ginger is cut by half a centimetre.
		{"metric", "3 cm ginger", 4, "", "2 cm"},
		{"metric", "3 cm ginger", 5, "", "2.5 cm"},
		{"metric", "3 cm ginger", 10, "", "5 cm"},
		{"metric", "3 cm ginger", 11, "", "5.5 cm"},
		{"metric", "2 cm ginger", 1, "", "3 mm"},
		// Less than a spoon, a scale or a knife can tell is said in words.
		{"metric", "1/4 tsp nutmeg", 1, "", "1 pinch"},       // 0.21 ml
		{"US", "1/8 tsp nutmeg", 1, "", "1 small pinch"},     // 0.1 ml
		{"metric", "1/4 tsp lemon juice", 1, "", "4 drops"},  // 0.21 ml
		{"US", "1/8 tsp vanilla extract", 2, "", "4 drops"},  // 0.21 ml
		{"metric", "1 g saffron", 1, "", "1 pinch"},          // 0.17 g
		{"metric", "0.01 g saffron", 6, "", "0.01 g"},        // as it was written
		{"metric", "1 tsp nutmeg", 1, "", "⅛ tsp"},           // 0.83 ml
		{"metric", "1/2 lime", 1, "", "a little"},            // 1/12
		{"metric", "1/3 bunch coriander", 1, "", "a little"}, // 1/18
		{"metric", "1 lime", 1, "", "⅙"},
		{"metric", "1/16 to 1 tsp nutmeg", 1, "", "⅛ tsp"}, // the low end is a pinch
		{"US", "1 egg yolk", 1, "", "1 [use ⅙]"},           // 0.1 oz is not weighed
		// A range of whole things stays one of whole things; a half was written.
		{"metric", "1 to 2 chillies", 14, "", "2 to 5"}, // 2.33 to 4.67
		{"metric", "1 to 2 chillies", 3, "", "½ to 1"},
		{"metric", "1 1/2 to 2 onions", 9, "", "2¼ to 3"},
		{"metric", "1 onion", 7, "", "1¼"}, // 1.17
		{"metric", "9 onions", 8, "", "12"},
		{"metric", "3 onions", 2, "", "1"},
		{"metric", "0.375 cabbage", 18, "", "1⅛"},
	} {
		units := ""
		if c.units != "" {
			units = "  units " + c.units + "\n"
		}
		meal := mealOf(t, "dish Trial\n"+units+"  serves 6\n  gather\n    "+c.line+"\n  method\n    - Mix all.\n", c.covers)
		f := figures.Of(meal, figures.Options{Units: c.asked}).Line(meal.Makings[0].Lines[0])
		got := f.String()
		if f.Note != "" {
			got += " [" + f.Note + "]"
		}
		require.Equal(t, c.want, got, "%s, %s, for %d in %q", c.line, c.units, c.covers, c.asked)
	}
}

// The steps take of a line what its list says.
func TestTakesComeToTheLine(t *testing.T) {
	for _, c := range []struct {
		line, steps string
		covers      int
		want        string
	}{
		{"11 sprigs thyme", "Strip half the thyme.\nStrew with the rest of the thyme.", 4, "11 sprigs: 6 sprigs + 5 sprigs"},
		{"405 g flour", "Sift a third of the flour.\nSift the rest of the flour.", 4, "405 g: 135 g + 270 g"},
		{"100 g flour", "Sift a third of the flour.\nSift the rest of the flour.", 4, "100 g: 33 g + 67 g"},
		{"240 g butter", "Melt all but 40 g of the butter.\nStir in the rest of the butter.", 8, "480 g: 400 g + 80 g, all but 80 g"},
		{"240 g butter", "Melt all but 40 g of the butter.\nStir in the rest of the butter.", 3, "180 g: 150 g + 30 g, all but 30 g"},
		{"300 ml milk", "Whisk in 2 tbsp of the milk.\nPour on the rest of the milk.", 8, "600 ml: 4 tbsp + 540 ml"},
		// A tin is shared out by what the list says it is, a litre's third to the millilitre, a
		// few grams by tenths; parts of one thing by the eighth.
		{"1 x 400 g tin tomatoes", "Stir in a third of the tomatoes.\nStir in the rest of the tomatoes.", 5, "1 × 400 g tin: 130 g + 270 g"},
		{"2/3 litre milk", "Whisk in a third of the milk.\nPour on the rest of the milk.", 4, "⅔ litre: 222 ml + 445 ml"},
		{"5 g yeast", "Crumble a third of the yeast.\nStir in the rest of the yeast.", 4, "5 g: 1.5 g + 3.5 g"},
		{"7 lemons", "Slice half the lemons.\nSqueeze the rest of the lemons.", 1, "1¾: ⅞ + ⅞"},
		{"1 lemon", "Slice five sixths of the lemon.\nSqueeze the rest of the lemon.", 1, "¼: ¼ + a little"},    // 0.208 and 0.042
		{"150 g sugar", "Beat in 100 g of the sugar.\nStrew over 50 g of the sugar.", 7, "260 g: 175 g + 85 g"}, // 262.5: 175 and 87.5
	} {
		text := "dish Trial\n  units metric\n  serves 4\n  gather\n    " + c.line + "\n  method\n"
		for _, s := range strings.Split(c.steps, "\n") {
			text += "    - " + s + "\n"
		}
		meal := mealOf(t, text, c.covers)
		m := meal.Makings[0]
		set := figures.Of(meal, figures.Options{})
		got, but := set.Line(m.Lines[0]).Text+":", ""
		for i, sr := range m.Reading.Steps {
			for k := range sr.Takes {
				taken := set.Take(m, &sr.Takes[k])
				if i > 0 {
					got += " +"
				}
				got += " " + taken.Text
				if taken.But.Text != "" {
					but = ", all but " + taken.But.Text
				}
			}
		}
		require.Equal(t, c.want, got+but)
	}
}

// What is made covers what is drawn, in the drawers' own figures; shares of it
// come to it. By hand: 700 and 880 of 1580; two thirds and one of 400.
func TestSupplies(t *testing.T) {
	base := "base Green oil\n  makes 300 ml\n  gather\n    300 ml oil\n  method\n    - Warm the oil.\n"
	dish := func(name, line string) string {
		return "dish " + name + "\n  serves 4\n  gather\n    " + line + "\n  method\n    - Stir the green oil.\n"
	}
	menu := "menu M\n  covers 7\n  course C\n    One\n    Two\n"
	meal := mealOf(t, menu+base+dish("One", "400 ml green oil")+dish("Two", "503 ml green oil"), 0)
	set := figures.Of(meal, figures.Options{})
	s := set.Supply(meal.Supplies[0])
	require.Equal(t, "700 ml", s.Draws[0].Text)
	require.Equal(t, "880 ml", s.Draws[1].Text) // 880.25
	require.Equal(t, "1.58 litres", s.Made.Text)
	require.True(t, s.Left.Quantity.IsZero())

	// 32 fl oz less 7 1/4 and 24 3/4: what is left is never more than there is.
	meal = mealOf(t, "larder\n  units US\n"+menu+strings.Replace(base, "makes 300 ml", "makes 1 quart", 1)+dish("One", "1 3/4 fl oz green oil")+dish("Two", "2 1/3 fl oz green oil"), 0)
	set = figures.Of(meal, figures.Options{Units: quantity.Imperial})
	s = set.Supply(meal.Supplies[0])
	require.False(t, s.Made.Quantity.Value.High.Less(s.Drawn.Quantity.Value.High.Add(s.Left.Quantity.Value.High)), "%s made, %s drawn, %s left", s.Made.Text, s.Drawn.Text, s.Left.Text)

	meal = mealOf(t, strings.Replace(menu, "covers 7", "covers 4", 1)+strings.Replace(base, "makes 300 ml", "makes 400 ml", 1)+
		dish("One", "a third of the green oil")+dish("Two", "the rest of the green oil"), 0)
	set = figures.Of(meal, figures.Options{})
	s = set.Supply(meal.Supplies[0])
	require.Equal(t, "400 ml", s.Made.Text)
	require.Equal(t, []string{"130 ml", "270 ml"}, []string{s.Draws[0].Text, s.Draws[1].Text})
}
