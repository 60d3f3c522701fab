package compiler_test

import (
	"strings"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
)

// R: reading what people write. Every text here is ours.

// reading is a dish whose only sentence is tried: what it takes of each line.
func reading(number, gathered, sentence string, open bool, takes ...string) tried {
	text := "dish Trial\n  serves 4\n  units US\n  gather\n"
	for _, l := range strings.Split(gathered, "; ") {
		text += "    " + l + "\n"
	}
	text += "  method\n    - " + sentence + "\n      | work 5 min\n"
	return tried{number: number, what: gathered + ": " + sentence, open: open, faulty: true, text: text, want: func(t require.TestingT, m *made) {
		for _, w := range takes {
			line, part, _ := strings.Cut(w, "=")
			require.Equal(t, part, m.part(0, line), line)
		}
	}}
}

// doubled is a dish of four made for eight: the sentence, or the list, either
// grows or is asked about.
func doubled(number, what, body, written, grown string, open bool) tried {
	return tried{
		number: number, what: what, open: open, faulty: true,
		text: "dish Trial\n  serves 4\n  units US\n" + body, opt: compiler.Options{Demand: demand.Options{Covers: 8}},
		want: func(t require.TestingT, m *made) {
			if m.asks(written) {
				return
			}
			said := m.sentence("", 0) + "\n" + strings.Join(m.listed(""), "\n")
			require.Contains(t, said, grown)
			require.NotContains(t, said, written)
		},
	}
}

func triedReading() (all []tried) {
	const open = true
	const butter, sugar, eggs = "1 cup butter; 2 cups oats", "8 lb sugar; 2 cups oats", "4 eggs; 2 cups oats"
	r1 := func(gathered, sentence string, takes ...string) {
		all = append(all, reading("R1", gathered, sentence, false, takes...))
	}
	closed := func(number, gathered, sentence string, takes ...string) {
		all = append(all, reading(number, gathered, sentence, false, takes...))
	}
	r1(butter, "Work two tablespoons of the butter into the oats.", "butter=1/8", "oats=all")
	r1(butter, "Rub three tablespoons butter into the oats.", "butter=3/16")
	r1(butter, "Work one-half of the butter into the oats.", "butter=1/2")
	r1(butter, "Work one-third of the butter into the oats.", "butter=1/3")
	r1(butter, "Work two-thirds of the butter into the oats.", "butter=2/3")
	r1(butter, "Work three-fourths of the butter into the oats.", "butter=3/4")
	r1(butter, "Work three-quarters of the butter into the oats.", "butter=3/4")
	r1(butter, "Work half a cup of the butter into the oats.", "butter=1/2")
	r1(butter, "Work a quarter of a cup of butter into the oats.", "butter=1/4")
	r1(butter, "Work one-quarter cup butter into the oats.", "butter=1/4")
	r1(butter, "Work all but 2 tbsp of the butter into the oats.", "butter=7/8")
	r1(butter, "Work the butter, less 2 tbsp, into the oats.", "butter=7/8", "oats=all")
	r1("4 lb flour", "Tip in a pound of the flour.", "flour=1/4")
	r1("4 lb flour", "Tip in half a pound of the flour.", "flour=1/8")
	r1(eggs, "Beat a couple of the eggs into the oats.", "eggs=1/2")
	r1("24 eggs", "Beat a dozen eggs.", "eggs=1/2")
	r1("24 eggs", "Beat half a dozen eggs.", "eggs=1/4")
	r1(eggs, "Beat all but one of the eggs into the oats.", "eggs=3/4")
	r1(sugar, "Add four pounds sugar to the oats.", "sugar=1/2")
	r1("4 quarts water", "Pour on two quarts water.", "water=1/2")
	closed("R1", butter, "Work 2 tbsp of the butter into the oats.", "butter=1/8", "oats=all")
	closed("R1", butter, "Work half the butter into the oats.", "butter=1/2")
	closed("R1", butter, "Work a third of the butter into the oats.", "butter=1/3")
	closed("R1", "4 lb flour", "Tip in 1 pound flour.", "flour=1/4")
	closed("R1", eggs, "Beat two of the eggs into the oats.", "eggs=1/2")

	all = append(all,
		doubled("R2", "a weight that is also drawn", "  gather\n    2 kg potatoes\n  method\n    - Lift out 1.2 kg of the potatoes.\n      | work 5 min | sets aside 1.2 kg firm potatoes\n", "1.2 kg of the", "2.4 kg", false),
		doubled("R2", "a weight drawn out of a pot", "  gather\n    2 kg potatoes\n  method\n    - Simmer. Lift out 1.2 kg of the floury ones.\n      | ring low | work 5 min | uses potatoes | sets aside 1.2 kg firm potatoes\n", "1.2 kg of the", "2.4 kg", false),
		doubled("R2", "pieces that are shaped", "  gather\n    2 kg mash xx\n  method\n    - Shape into 12 flat cakes.\n      | work 5 min\n", "12 flat", "24 flat", false),
		doubled("R2", "pieces over an into", "  gather\n    2 kg dough xx\n  method\n    - Cut into 20 biscuits.\n      | work 5 min | into 20 biscuits\n", "20 biscuits", "40 biscuits", false),
		doubled("R2", "a volume kept back over a yield", "  gather\n    3 quarts broth xx\n  method\n    - Reserve 2 quarts.\n      | work 5 min | makes 2 quarts clear broth\n", "2 quarts", "4 quarts", false),
		doubled("R2", "water that is not gathered", "  gather\n    2 kg potatoes\n  method\n    - Boil the potatoes in 2 litres of water.\n      | ring high | work 5 min\n", "2 litres of water", "4 litres", false),
		doubled("R2", "a number in words", "  gather\n    8 lb sugar\n  method\n    - Tip in eight pounds sugar.\n      | work 5 min\n", "eight pounds", "16", false),
		doubled("R2", "a number in words of water", "  gather\n    4 quarts water\n  method\n    - Pour on four quarts water.\n      | work 5 min\n", "four quarts", "2 gallons", false),
		// What stands in one place of many does not grow.
		tried{
			number: "R2", what: "so many to a tray stays", text: "dish Trial\n  serves 4\n  gather\n    24 buns\n  method\n    - Set the buns on trays, 8 to a tray.\n      | work 5 min\n",
			opt: compiler.Options{Demand: demand.Options{Covers: 8}}, want: func(t require.TestingT, m *made) {
				require.Contains(t, m.sentence("", 0), "8 to a tray")
			},
		},

		doubled("R3", "juice of half a lemon", listOf("juice of half a lemon"), "1/2 | lemon, juice", "1 | lemon, juice", false),
		doubled("R3", "juice of 2 lemons", listOf("juice of 2 lemons"), "2 lemons, juice", "4 | lemons, juice", false),
		doubled("R3", "zest and juice of 1 lemon", listOf("zest and juice of 1 lemon"), "1 lemon, zest and juice", "2 | lemons, zest and juice", false),
		doubled("R3", "eggs plus a yolk", listOf("3 eggs plus 1 yolk"), "1 egg yolk", "2 egg yolks", false),
		doubled("R3", "juice of an orange", listOf("juice of an orange"), "1 orange, juice", "2 | oranges, juice", false),
	)
	add := func(number, gathered, sentence string, takes ...string) {
		all = append(all, reading(number, gathered, sentence, open, takes...))
	}
	closed("R3", "1 lemon, juiced; 200 g sugar", "Stir half the lemon juice into the sugar.", "lemon=1/2")
	closed("R3", "2 oranges, zested; 200 g sugar", "Rub half the orange zest into the sugar.", "oranges=1/2")

	closed("R4", "1 tsp salt; 1 tsp pepper; 4 eggs", "Beat the eggs with salt and pepper.", "salt=all", "pepper=all", "eggs=all")
	closed("R4", "1 tsp salt; 1 tsp pepper; 4 eggs", "Beat the eggs with the salt and pepper.", "salt=all", "pepper=all")
	closed("R4", "300 ml water; 1 cup oats", "Pour hot water over the oats.", "water=all", "oats=all")
	closed("R4", "300 ml water; 1 cup oats", "Cover the oats with the cold water.", "water=all")
	closed("R4", "300 ml water; 1 cup oats", "Pour boiling water over the oats.", "water=all")
	closed("R4", "2 egg yolks; 200 ml cream", "Beat the yolks of the eggs into the cream.", "egg yolks=all")
	closed("R4", "1 egg yolk; 200 ml cream", "Beat the yolk of one egg into the cream.", "egg yolk=all")
	closed("R4", "2 egg whites; 100 g sugar", "Whip the whites of eggs with the sugar.", "egg whites=all")
	closed("R4", "50 ml lemon juice; 100 g sugar", "Stir the lemon-juice into the sugar.", "lemon juice=all")
	for _, c := range [][2]string{
		{"Season the eggs, but use no pepper.", "pepper"},
		{"Beat the eggs. Serve with mutton, pork chops.", "mutton"},
		{"Beat the eggs. Serve with mutton, pork chops.", "pork chops"},
	} {
		all = append(all, tried{
			number: "R4", what: c[0] + " asks nothing of " + c[1], faulty: true,
			text: "dish Trial\n  serves 4\n  gather\n    4 eggs\n  method\n    - " + c[0] + "\n      | work 5 min\n",
			want: func(t require.TestingT, m *made) { require.False(t, m.asks(c[1]), "%v", m.codes()) },
		})
	}

	all = append(all,
		tried{
			number: "R19", what: "a spoon in each case", faulty: true,
			text: "dish Trial\n  serves 24\n  units metric\n  gather\n    8 tbsp jam\n  method\n    - Put 1 tsp of the jam in each case.\n      | work 5 min | into 24 cases\n",
			opt:  compiler.Options{Demand: demand.Options{Covers: 48}}, want: func(t require.TestingT, m *made) {
				if m.asks("1 tsp") {
					return
				}
				said := m.sentence("", 0)
				require.Regexp(t, `1 tsp|5 ml`, said, "each case still gets one")
				require.NotContains(t, said, "10 ml")
			},
		})
	closed("R19", "300 ml milk; 2 cups oats", "Toast the oats. Do not add the milk yet.", "milk=none", "oats=all")
	closed("R19", "300 ml milk; 2 cups oats", "Toast the oats without the milk.", "milk=none")
	closed("R19", "300 ml milk; 2 cups oats", "Toast the oats before adding the milk.", "milk=none")
	all = append(all, tried{
		number: "R19", what: "half of two is asked about", faulty: true, text: "dish Trial\n  serves 4\n  gather\n    200 g butter\n    200 g sugar\n  method\n    - Beat half the butter and sugar.\n",
		want: func(t require.TestingT, m *made) {
			require.True(t, m.asks("half the butter and sugar"), "%v", m.codes())
		},
	})
	closed("R19", "200 g butter; 200 g sugar", "Beat a third of the butter and the sugar.", "butter=1/3", "sugar=all")
	closed("R19", "1 cup oil; 1 cup vinegar", "Whisk 2 tbsp each of the oil and vinegar.", "oil=1/8", "vinegar=1/8")
	closed("R19", "1 litre milk; 500 g sugar", "Add 100 ml milk, or 50 g sugar.", "sugar=none")
	closed("R19", "4 eggs; 200 g sugar", "Beat the eggs into the sugar, one egg at a time.", "eggs=all")
	closed("R19", "4 eggs; 200 g sugar", "Beat in, one egg at a time.", "eggs=all")

	closed("R20", "1 lb butter; 2 cups oats", "Work ½ pound of the butter into the oats.", "butter=1/2")
	closed("R20", "1 cup butter; 2 cups oats", "Work ¼ cup of the butter into the oats.", "butter=1/4")
	closed("R20", "3 lb butter; 2 cups oats", "Work 1½ pounds of the butter into the oats.", "butter=1/2")
	closed("R20", "4 lb butter; 2 cups oats", "Work 1 lb. of the butter into the oats.", "butter=1/4")
	closed("R20", "4 lb butter; 2 cups oats", "Work 3 lbs. of the butter into the oats.", "butter=3/4")
	closed("R20", "8 oz butter; 2 cups oats", "Work 2 oz. butter into the oats.", "butter=1/4")
	closed("R20", "1 gallon milk; 2 cups oats", "Pour a quart of the milk over the oats.", "milk=1/4")
	closed("R20", "8 oz butter; 2 cups oats", "Work an ounce of the butter into the oats.", "butter=1/8")
	closed("R20", "1 cup butter; 2 cups oats", "Work a large tablespoonful of the butter into the oats.", "butter=1/16")
	closed("R20", "1 pint milk; 2 cups oats", "Pour 1/2 a pint of the milk over the oats.", "milk=1/2")
	closed("R20", "3 pints milk; 2 cups oats", "Pour 1-1/2 pints of the milk over the oats.", "milk=1/2")
	closed("R20", "1 tsp salt; 2 cups oats", "Toast the oats without salt.", "salt=none", "oats=all")
	closed("R20", "2 egg whites; 100 g sugar", "Whip the white of an egg with the sugar.", "egg whites=1/2")
	closed("R20", "500 g beef; 2 onions", "Brown the meat with the onions.", "beef=all")
	add("R20", "200 ml Madeira; 2 onions", "Pour the wine over the onions.", "Madeira=all")
	closed("R20", "200 g flour; 1 tsp cinnamon; 1 tsp cloves", "Sift the flour with the spices.", "cinnamon=all", "cloves=all")
	closed("R20", "200 g flour; 10 g baking powder; 2 eggs", "Sift the dry ingredients.", "flour=all", "baking powder=all", "eggs=none")
	for _, idiom := range [][2]string{{"Stir until smooth as cream.", "cream"}, {"Beat as light as butter.", "butter"}} {
		all = append(all, tried{
			number: "R20", what: "an idiom: " + idiom[0], faulty: true,
			text: "dish Trial\n  serves 4\n  gather\n    4 eggs\n  method\n    - Break the eggs. " + idiom[0] + "\n      | work 5 min\n",
			want: func(t require.TestingT, m *made) { require.False(t, m.asks(idiom[1]), "%v", m.codes()) },
		})
	}
	return all
}

func listOf(line string) string {
	return "  gather\n    " + line + "\n    200 g sugar\n  method\n    - Stir everything.\n      | work 5 min\n"
}
