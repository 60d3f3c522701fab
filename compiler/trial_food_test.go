package compiler_test

import (
	"strings"

	"github.com/stretchr/testify/require"

	"tamis/compiler/larder"
	"tamis/compiler/sheets"
)

// F and D: food that hurts, and what the larder knows.

// found is a text in which a rule must speak.
func found(number, what, text string, open bool, codes ...string) tried {
	return tried{number: number, what: what, open: open, text: text, want: func(t require.TestingT, m *made) {
		require.True(t, m.finds(codes...), "%v of %v", codes, m.codes())
	}}
}

// quiet is a text in which none of some rules may speak.
func quiet(number, what, text string, open bool, codes ...string) tried {
	return tried{number: number, what: what, open: open, text: text, want: func(t require.TestingT, m *made) {
		require.False(t, m.finds(codes...), "%v", m.codes())
	}}
}

// cookery is a dish by UK practice of some lines and some steps, each of which
// is a sentence and its margin.
func cookery(gathered string, steps ...string) string {
	text := "dish Trial\n  rules UK\n  serves 4\n  gather\n"
	for _, l := range strings.Split(gathered, "; ") {
		text += "    " + l + "\n"
	}
	return text + methodOf(steps) + "  serve hot, within 15 min\n"
}

func triedFood() (all []tried) {
	add := func(c ...tried) { all = append(all, c...) }

	// F1: an adjective hides no allergen.
	for line, holds := range map[string]string{
		"200 g raw peanuts": "peanut", "200 g whole peanuts": "peanut", "200 g crushed peanuts": "peanut", "200 g unsalted peanuts": "peanut",
		"200 g roughly chopped peanuts": "peanut", "4 organic eggs": "egg", "200 ml fresh milk": "milk", "200 g ripe Brie": "milk", "4 beaten eggs": "egg",
		"200 g frozen prawns": "prawn", "200 g lightly toasted walnuts": "walnut", "50 g best unsalted butter": "milk", "200 ml cold milk": "milk",
		"100 g freshly grated Parmesan": "milk", "100 g finely crushed, roasted almonds": "almond", "2 large free-range eggs": "egg",
	} {
		if strings.Contains(line, ",") {
			line = strings.ReplaceAll(line, ",", "")
		}
		add(contains("F1", line, holds))
	}
	add(
		tried{
			number: "F1", what: "a price does not make a thing known", text: menuOf(4, "Trial") + "larder\n  grobbins | price 2.00 per kg\n" + dishOf("Trial", "", "200 g grobbins"), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				require.Contains(t, m.words(sheets.Allergens), "not known to the larder: grobbins")
			},
		},
		tried{
			number: "F1", what: "another name is what it is the name of", text: menuOf(4, "Trial") + "larder\n  grobbins | same as butter\n" + dishOf("Trial", "", "200 g grobbins"), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				require.Contains(t, m.words(sheets.Allergens), "milk")
				require.Contains(t, m.words(sheets.Prep), "listed here: milk")
			},
		},
		tried{
			number: "F1", what: "another name of what nobody knows", text: menuOf(4, "Trial") + "larder\n  grobbins | same as wurzles\n" + dishOf("Trial", "", "200 g grobbins"), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				require.Contains(t, m.words(sheets.Allergens), "not known to the larder: grobbins")
			},
		},
		tried{
			number: "F1", what: "what the writer says of it makes it known", text: menuOf(4, "Trial") + "larder\n  grobbins | contains milk\n" + dishOf("Trial", "", "200 g grobbins"), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				require.NotContains(t, m.words(sheets.Allergens), "not known to the larder")
			},
		},
		found("F1", "a name that promises, and whole peanuts", strings.Replace(cookery("200 g whole peanuts; 100 g sugar", "Boil the peanuts with the sugar. | ring low | work 5 min"), "dish Trial", "dish Nut-free brittle", 1), false, "A104"),
		found("F1", "a name that promises, and raw peanuts", strings.Replace(cookery("200 g raw peanuts; 100 g sugar", "Boil the peanuts with the sugar. | ring low | work 5 min"), "dish Trial", "dish Nut-free brittle", 1), false, "A104"),
	)

	// F2: what a label must tell is not what is in it.
	for _, line := range []string{"50 ml stock powder", "2 stock cubes", "100 g dark chocolate", "50 g curry powder", "100 g sausages"} {
		add(tried{
			number: "F2", what: line, text: menuOf(4, "Trial") + dishOf("Trial", "", line, "200 g turnips"), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				it, _, ok := larder.Builtin().FindPart(strings.Join(strings.Fields(line)[len(strings.Fields(line))-2:], " "))
				if !ok {
					it, _, ok = larder.Builtin().FindPart(strings.Fields(line)[len(strings.Fields(line))-1])
				}
				require.True(t, ok)
				said := m.words(sheets.Prep)
				sure := ""
				if _, after, ok := strings.Cut(said, "Contains, by what is listed here: "); ok {
					sure, _, _ = strings.Cut(after, ".")
				}
				for _, a := range it.Allergens("UK") {
					if a.Depends {
						require.NotContains(t, sure, a.Named(), "only a label can tell")
						require.Regexp(t, `Only a label can tell: [^.]*`+a.Named(), said)
					}
				}
			},
		})
	}

	// F3: a caution speaks of its own step and its own danger.
	const slices = "Slice the chicken breasts over the cabbage. | work 5 min"
	shaved := cookery("600 g chicken breasts; 1 white cabbage", "Shave the cabbage on the mandoline. | tool mandoline | work 5 min | caution guard on", slices)
	add(
		found("F3", "a guard on a mandoline, and raw chicken", shaved, false, "S102"),
		found("F3", "hot fat that spits, and raw chicken", cookery("600 g chicken breasts; 200 g lard", "Melt the lard. | ring low | work 5 min | caution hot fat spits", "Slice the chicken breasts into it off the heat. | work 5 min"), false, "S102"),
		found("F3", "a caution on a line of the list, and raw chicken", cookery("600 g chicken breasts; 1 pheasant | caution may contain shot", "Roast the pheasant. | oven 200 C | leave 1 h | core 75 C", slices), false, "S102"),
		found("F3", "bones in the fish, and honey for babies", strings.Replace(cookery("600 g cod; 20 g honey", "Fry the cod with the honey. | ring low | work 5 min | core 63 C | caution mind the bones"), "dish Trial", "dish Fish for babies", 1), false, "S122"),
		quiet("F3", "raw chicken, and said so on its line", cookery("600 g chicken breasts | caution served raw; 1 white cabbage", "Slice the chicken breasts over the cabbage. | work 5 min"), false, "S102"),
		found("F3", "bones said of raw chicken", cookery("600 g chicken breasts; 1 white cabbage", "Slice the chicken breasts over the cabbage. | work 5 min | caution mind the chicken bones"), false, "S102"),
		found("F3", "hot fat said of raw egg", strings.Replace(cookery("4 eggs; 200 g sugar; 200 ml oil", "Fry the sugar in the oil. | ring high | work 5 min | caution hot fat spits", "Whisk in the eggs off the heat. | work 5 min"), "serve hot", "serve cold", 1), false, "S119"),
		quiet("F3", "raw, and said so", cookery("4 eggs; 200 g sugar", "Whisk the eggs with the sugar. | work 5 min | caution the egg is raw"), false, "S119"),
	)

	// F4: food left out is food left out, in whatever words.
	const simmer = "Simmer the chicken in the water. | ring low | leave 1 h 30 min | core 75 C"
	const again = "Bring to the boil. | ring high | watch 20 min | core 75 C"
	for _, out := range []string{
		"Cover and leave overnight. | leave 12 h", "Stand the pan on the porch till the next day. | work 2 min | leave 12 h", "Put the lid on. | leave overnight",
		"Cover and set aside. | leave 12 h", "Leave on the table. | rest 8 h", "Leave, lid on. | rest 6 h", "Set in the cold shed. | leave 10 h", "Stand it by. | stand 12 h, cool place",
	} {
		add(found("F4", "cooked chicken: "+out, cookery("1 chicken; 3 litres water", simmer, out, again), false, "S118"))
	}
	for _, out := range []string{"Leave the chicken overnight. | stand overnight, room", "Leave the chicken in the brine. | leave 12 h", "Leave the chicken, covered. | rest 8 h"} {
		add(found("F4", "raw chicken: "+out, cookery("600 g chicken thighs; 1 litre water; 60 g salt", strings.Replace(out, "chicken", "chicken thighs in the water and salt", 1), "Roast. | oven 200 C | leave 40 min | core 75 C"), false, "S118"))
	}
	add(
		found("F4", "cream horns", strings.Replace(cookery("300 ml double cream; 12 pastry horns", "Whip the cream and fill the horns. | work 5 min", "Set out. | rest 8 h"), "serve hot", "serve cold", 1), false, "S118"),
		found("F4", "potatoes in foil", cookery("8 potatoes", "Wrap the potatoes in foil and bake. | oven 200 C | leave 1 h", "Leave in their foil. | rest 6 h"), false, "S118"),
		quiet("F4", "in the fridge", cookery("1 chicken; 3 litres water", simmer, "Cool in iced water. | work 5 min | leave 1 h | reach 8 C", "Chill. | stand overnight, fridge", again), false, "S118"),
		quiet("F4", "left in the fridge by its words", cookery("1 chicken; 3 litres water", simmer, "Cool in iced water. | work 5 min | leave 1 h | reach 8 C", "Chill overnight. | fridge | leave 12 h", again), false, "S118"),
		quiet("F4", "left to bake", cookery("1 kg beef brisket; 1 litre water", "Put the brisket and the water in a slow oven overnight. | oven 100 C | work 5 min | leave 10 h"), false, "S118"),
		quiet("F4", "bread that proves", cookery("500 g strong flour; 5 g dried yeast; 300 ml water", "Knead everything. | work 10 min", "Leave to rise, covered. | leave 12 h", "Bake. | oven 220 C | leave 40 min"), false, "S118"),
		quiet("F4", "beans that soak", cookery("500 g dried chickpeas; 2 litres water", "Soak the chickpeas in the water. | leave 12 h", "Boil. | ring high | leave 1 h 30 min"), false, "S118"),
		quiet("F4", "a roast that rests", cookery("2 kg beef topside", "Roast the beef. | oven 180 C | leave 1 h 30 min", "Rest. | rest 30 min"), false, "S118"),
		quiet("F4", "jam in jars", cookery("1 kg plums; 1 kg sugar", "Boil the plums with the sugar. | ring high | watch 30 min", "Pot and leave overnight. | work 10 min | leave 12 h"), false, "S118"),
	)

	// F5: fire is heat.
	for _, way := range []string{
		"Grill the chicken over charcoal. | work 5 min | watch 20 min | core 75 C", "Cook the chicken in the tandoor. | watch 20 min | core 75 C", "Barbecue the chicken. | watch 20 min | core 75 C",
		"Smoke the chicken in the smoker. | watch 4 h | core 75 C", "Hold the bagged chicken in the water bath. | leave 2 h | core 75 C", "Lay the chicken over the embers. | watch 20 min | core 75 C",
		"Spit-roast the chicken. | watch 1 h | core 75 C", "Air-fry the chicken. | leave 40 min | core 75 C",
	} {
		add(quiet("F5", way, cookery("1 chicken; 50 ml oil", way), false, "S102"))
		low := strings.Replace(way, "core 75 C", "core 55 C", 1)
		add(found("F5", low, cookery("1 chicken; 50 ml oil", low), false, "S103"))
	}

	// T6: act and word.
	add(
		found("T6", "cold water to cook in is no cooling", cookery("1 chicken; 3 litres water", "Cover the chicken with cold water and simmer. | ring low | leave 1 h 30 min | core 75 C", "pause up to 1 day, fridge", again), false, "S108"),
		found("T6", "cold water in a second sentence is no cooling", cookery("1 chicken; 3 litres water", "Simmer the chicken in the water. Let it down with cold water. | ring low | leave 1 h 30 min | core 75 C", "pause up to 1 day, fridge", again), false, "S108"),
		found("T6", "a splash of cold water is no cooling", cookery("1 chicken; 3 litres water", simmer, "Thin with a splash of cold water. | work 2 min", "pause up to 1 day, fridge", again), false, "S108"),
		found("T6", "served with a cold drink", cookery("1 chicken; 3 litres water", simmer, "Skim, with a bowl of cold water and ice by you for the spoon. | work 2 min", "pause up to 1 day, fridge", again), false, "S108"),
		quiet("T6", "the pan stands in cold water", cookery("1 chicken; 3 litres water", simmer, "Stand the pan in cold water until it has lost its heat. | work 5 min | leave 1 h", "pause up to 1 day, fridge", again), false, "S108"),
		quiet("T6", "iced water until cold", cookery("1 chicken; 3 litres water", simmer, "Set in iced water until cold. | work 5 min | leave 1 h", "pause up to 1 day, fridge", again), false, "S108"),
		tried{
			number: "T6", what: "no row of cooling for a step that cooks", opt: everySheet, text: menuOf(4, "Trial") + cookery("1 kg potatoes; 200 ml milk; 3 litres water", "Boil the potatoes in the milk. | ring high | leave 20 min", "Cover with cold water and bring back to the boil. | ring high | leave 20 min | uses water"),
			want: func(t require.TestingT, m *made) { require.NotContains(t, m.words(sheets.TempLog), "Cooling begins") },
		},
	)
	const soaks = "Turn the chicken thighs in the soy sauce and leave to marinate. | work 4 min | stand 2 h, fridge"
	const grills = "Grill the chicken. | grill high | watch 15 min | core 75 C"
	for _, c := range []struct {
		said string
		open bool
	}{{"Serve with the marinade spooned over.", false}, {"Spoon the marinade over. Discard any unused marinade.", false}, {"Brush with the marinade, then throw the rest away.", false}, {"Drizzle the marinade on and drain off the fat.", false}} {
		add(found("T6", "a raw marinade: "+c.said, cookery("600 g chicken thighs; 60 ml soy sauce", soaks, grills, c.said+" | work 2 min"), c.open, "S137"))
	}
	add(
		quiet("T6", "a marinade that is thrown away", cookery("600 g chicken thighs; 60 ml soy sauce", soaks, "Lift out the chicken and discard the marinade. | work 2 min", grills), false, "S137"),
		quiet("T6", "a marinade that is boiled", cookery("600 g chicken thighs; 60 ml soy sauce", soaks, grills, "Boil the marinade hard and spoon it over. Discard any unused marinade. | ring high | watch 4 min"), false, "S137"),
	)
	for _, w := range []struct {
		hold string
		code bool
		open bool
	}{{"hold cold up to 2 h, below 15 C", true, false}, {"hold cold up to 2 h, below 12 C", true, false}, {"hold cold up to 2 h, below 8 C", false, false}, {"hold cold up to 2 h, below 5 C", false, false}, {"hold cold up to 2 h, above 5 C", true, false}} {
		text := strings.Replace(cookery("600 g cooked prawns; 200 ml mayonnaise", "Stir the prawns into the mayonnaise. | work 5 min | "+w.hold), "serve hot", "serve cold", 1)
		if w.code {
			add(found("T6", w.hold, text, w.open, "S141"))
		} else {
			add(quiet("T6", w.hold, text, w.open, "S141"))
		}
	}
	for _, c := range []struct{ what, gathered, step string }{
		{"dal held hot", "500 g red lentils; 2 litres water; 50 g sugar", "Simmer the lentils in the water with the sugar. | ring low | leave 40 min | hold hot up to 2 h, above 63 C"},
		{"dal with lime held hot", "500 g red lentils; 2 litres water; 20 ml lime juice", "Simmer the lentils in the water with the lime juice. | ring low | leave 40 min | hold hot up to 2 h, above 63 C"},
		{"jam held hot", "1 kg plums; 1 kg sugar", "Boil the plums with the sugar. | ring high | leave 40 min | hold hot up to 2 h, above 63 C"},
	} {
		add(tried{number: "T6", what: c.what + " prints its caution", text: cookery(c.gathered, c.step), want: func(t require.TestingT, m *made) {
			require.Contains(t, m.words(sheets.Prep), "What is held hot is held at 63 C or above")
		}})
	}
	frozenStock := func(keeps, step string) string {
		return cookery("1 litre brown stock; 400 g carrots", step+" | ring low | leave 20 min") +
			"base Brown stock\n  rules UK\n  makes 1 litre\n  keeps " + keeps + "\n  gather\n    1 kg beef bones\n    2 litres water\n  method\n    - Simmer the bones in the water.\n      | ring low | leave 4 h\n    - Cool in iced water.\n      | work 5 min | leave 1 h | reach 8 C\n"
	}
	add(
		found("T6", "a stock out of the freezer asks how it thaws", frozenStock("12 weeks, freezer", "Stir the carrots into the brown stock."), false, "S142"),
		quiet("T6", "a stock that is thawed", strings.Replace(frozenStock("12 weeks, freezer", "Stir the carrots into the brown stock."), "method\n    - Stir", "method\n    - Thaw the brown stock.\n      | thaw 12 h, fridge\n    - Stir", 1), false, "S142"),
		quiet("T6", "a stock out of the fridge", frozenStock("2 days, fridge", "Stir the carrots into the brown stock."), false, "S142"),
	)

	// D1 and D2: what the built-in larder says.
	knows := func(number, name, is string) {
		add(tried{number: number, what: name + " is " + is, text: dishOf("Trial", "", "200 g turnips"), want: func(t require.TestingT, m *made) {
			k, ok := larder.Builtin().Know(name)
			require.True(t, ok, "not known")
			require.Equal(t, is, k.Item.Name)
		}})
	}
	for name, holds := range map[string]string{
		"Shaoxing wine": "wheat", "kamut": "wheat", "emmer": "wheat", "einkorn": "wheat", "triticale": "wheat",
	} {
		add(tried{number: "D1", what: name + " contains " + holds, text: dishOf("Trial", "", "200 g turnips"), want: func(t require.TestingT, m *made) {
			it, _, ok := larder.Builtin().FindPart(name)
			require.True(t, ok, "not known")
			var has []string
			for _, a := range it.Contains {
				if !a.Depends {
					has = append(has, a.Substance)
				}
			}
			require.Contains(t, has, holds, "by its nature")
		}})
	}
	for name, may := range map[string]string{"bottled lemon juice": "sulphites", "bottled lime juice": "sulphites", "lime juice": "sulphites", "desiccated coconut": "sulphites", "prawn": "sulphites", "barbecue sauce": "soya", "red pesto": "egg"} {
		add(tried{number: "D1", what: name + " may contain " + may, text: dishOf("Trial", "", "200 g turnips"), want: func(t require.TestingT, m *made) {
			it, ok := larder.Builtin().Find(name)
			require.True(t, ok, "not known")
			require.Contains(t, it.Contains, larder.Content{Substance: may, Depends: true})
		}})
	}
	add(tried{number: "D1", what: "every row of allergens says how it was seen", text: dishOf("Trial", "", "200 g turnips"), want: func(t require.TestingT, m *made) {
		n := 0
		for _, it := range larder.Builtin().Items() {
			if e := it.Evidence; e.Source == nil || e.FromMemory != (e.Source.Key == "memory") {
				n++
			}
		}
		require.Zero(t, n, "rows with no evidence")
	}})
	for name, is := range map[string]string{
		"soft butter": "butter", "softened butter": "butter", "melted butter": "butter", "chopped celery": "celery", "toasted almonds": "almond", "roasted hazelnuts": "hazelnut",
		"crushed garlic": "garlic", "beaten eggs": "egg", "organic eggs": "egg", "fresh milk": "milk", "ripe tomatoes": "tomato",
	} {
		knows("D2", name, is)
	}
	for _, name := range []string{"peppers", "red peppers", "diced peppers"} {
		add(tried{number: "D2", what: name + " are no spice", text: dishOf("Trial", "", "200 g turnips"), want: func(t require.TestingT, m *made) {
			if it, _, ok := larder.Builtin().FindPart(name); ok {
				require.NotEqual(t, "black pepper", it.Name)
			}
		}})
	}
	return all
}
