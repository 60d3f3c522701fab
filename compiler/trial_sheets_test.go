package compiler_test

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// T: one truth on every sheet.

// dishOf is a dish of some lines that are all stirred together.
func dishOf(name string, more string, lines ...string) string {
	return "dish " + name + "\n  serves 4\n" + more + "  gather\n    " + strings.Join(lines, "\n    ") +
		"\n  method\n    - Stir everything.\n      | work 5 min\n"
}

// kitchenOf is a kitchen for any menu.
const kitchenOf = `kitchen K
  rules UK
  cooks Ana, Ben
  oven main, 2 shelves
  rings 4
`

// menuOf is a menu of one course.
func menuOf(covers int, dishes ...string) string {
	return fmt.Sprintf("menu M\n  covers %d\n  on the table 2027-06-12 19:00\n  at K\n  hours day before, 08:00 to 21:00\n  hours on the day, 08:00 to 21:00\n  course A\n    %s\n", covers, strings.Join(dishes, "\n    ")) + kitchenOf
}

// everySheet asks for all of them.
var everySheet = compiler.Options{Sheets: sheets.Kinds()}

func triedSheets() (all []tried) {
	const open = true

	// T1: what is in a base, in what a step gives, and in an option is said on every
	// sheet, and so is what is not known.
	fritters := menuOf(4, "Apple fritters") + "dish Apple fritters\n  serves 4\n  gather\n    4 apples\n    100 g bay cream\n  method\n    - Fry the apples.\n      | ring high | work 5 min\n    - Spoon the bay cream over.\n      | work 2 min\n  serve hot, within 10 min\n" +
		"base Bay cream\n  makes 200 g\n  keeps 1 day, fridge\n  gather\n    150 ml double cream\n    50 g grobbins\n  method\n    - Stir the cream with the grobbins.\n      | work 3 min\n"
	for _, kind := range []sheets.Kind{sheets.Prep, sheets.Allergens, sheets.DateLabels} {
		all = append(all, tried{
			number: "T1", what: "an allergen of a base, on " + string(kind), text: fritters, opt: everySheet,
			want: func(t require.TestingT, m *made) {
				for _, s := range m.sheets(kind) {
					if kind != sheets.Prep || s.Title == "Apple fritters" {
						require.Contains(t, sheetWords(s), "milk", s.Title)
					}
				}
			},
		},
			tried{
				number: "T1", what: "what is not known in a base, on " + string(kind), text: fritters, opt: everySheet,
				want: func(t require.TestingT, m *made) {
					for _, s := range m.sheets(kind) {
						require.Contains(t, sheetWords(s), "grobbins", s.Title)
					}
				},
			})
	}
	for line, holds := range map[string]string{"100 g soft butter": "milk", "100 g melted butter": "milk", "1 chopped celery": "celery", "50 g roasted hazelnuts": "hazelnut"} {
		all = append(all, contains("T1", line, holds))
	}
	all = append(all,
		tried{
			number: "T1", what: "what a step of another dish gives", text: menuOf(4, "Curds", "Whey drink") +
				"dish Curds\n  serves 4\n  gather\n    1 litre milk\n  method\n    - Drain the milk.\n      | work 5 min | makes 600 ml whey\n  serve cold\n" +
				"dish Whey drink\n  serves 4\n  gather\n    400 ml whey\n  method\n    - Pour out the whey.\n      | work 2 min\n  serve cold\n",
			want: func(t require.TestingT, m *made) {
				for _, s := range m.sheets(sheets.Prep) {
					require.Contains(t, sheetWords(s), "listed here: milk.", s.Title)
				}
			},
		},
		tried{
			number: "T1", what: "the option that is chosen, and no other", text: menuOf(4, "Pilaf, with walnuts") +
				"dish Pilaf\n  serves 4\n  gather\n    200 g rice\n    either plain\n      20 g butter\n    or with walnuts\n      50 g walnuts\n  method\n    - Cook the rice.\n      | ring low | work 5 min\n    - Fork in the butter.\n      | if plain | work 1 min\n    - Fork in the walnuts.\n      | if with walnuts | work 1 min\n  serve hot\n",
			opt: everySheet, want: func(t require.TestingT, m *made) {
				said := m.words(sheets.Prep)
				require.Contains(t, said, "walnut. Read")
				require.NotRegexp(t, `listed here: [^.]*milk`, said)
			},
		},
	)

	// T2: at its written size a recipe prints what was written.
	for _, w := range [][3]string{
		{"units US", "1/2 tsp salt", ""},
		{"units US", "1/3 tsp salt", ""},
		{"units US", "1/3 oz yeast", ""},
		{"units US", "1 5/8 oz butter", ""},
		{"units US", "1/3 lb butter", ""},
		{"units US", "5/6 cup milk", ""},
		{"units metric", "1/2 tsp salt", ""},
		{"units metric", "1 tbsp oil", ""},
		{"units metric", "1/2 bay leaf", ""},
		{"units metric", "1/2 slice bread", ""},
		{"units US", "11 to 12 quarts water", ""},
		{"units metric", "1 small bunch parsley", ""},
		{"", "1/2 tsp salt", ""},
	} {
		units := w[0]
		if units != "" {
			units = "  " + units + "\n"
		}
		all = append(all, tried{
			number: "T2", what: strings.TrimSpace(w[0] + " " + w[1]), text: dishOf("Trial", units, w[1], "200 g flour"),
			want: func(t require.TestingT, m *made) {
				require.Equal(t, w[1], strings.ReplaceAll(m.listed("")[0], " | ", " "))
			},
		})
	}
	all = append(all,
		tried{number: "T2", what: "a range of portions", text: strings.Replace(menuOf(4, "Trial"), "covers 4", "covers 8", 1) + strings.Replace(dishOf("Trial", "", "200 g flour"), "serves 4", "serves 8 to 9", 1), want: func(t require.TestingT, m *made) {
			require.Contains(t, m.words(sheets.Prep), "8 to 9")
		}})

	// T3: one amount is one figure, wherever it is printed.
	salty := menuOf(7, "One", "Two", "Three")
	for _, n := range []string{"One", "Two", "Three"} {
		salty += dishOf(n, "", "25 g salt", "100 g flour, sifted")
	}
	for _, thing := range []string{"salt", "flour"} {
		all = append(all, tried{
			number: "T3", what: "the same " + thing + " on prep sheet and list of places", text: salty, opt: everySheet,
			want: func(t require.TestingT, m *made) {
				mise := ""
				for _, s := range m.sheets(sheets.Mise) {
					for _, r := range rows(s) {
						if strings.Contains(r, thing) {
							mise += plainly(r) + "\n"
						}
					}
				}
				for i, n := range []string{"One", "Two", "Three"} {
					for _, r := range m.listed(n) {
						if g, of, _ := strings.Cut(r, " | "); strings.HasPrefix(of, thing) {
							require.Regexp(t, fmt.Sprintf(`(?m)^%s \| %s.* \| %c1\b`, regexp.QuoteMeta(g), thing, 'A'+i), mise, n)
						}
					}
				}
			},
		})
	}
	lemons := menuOf(7, "One", "Two") + dishOf("One", "", "2 lemons", "100 g flour") + dishOf("Two", "", "1 lemon", "100 g flour")
	all = append(all, tried{number: "T3", what: "lemons on prep sheet and shopping list", open: open, text: lemons, opt: everySheet, want: func(t require.TestingT, m *made) {
		shop := m.words(sheets.Shopping)
		for _, n := range []string{"One", "Two"} {
			g, _, _ := strings.Cut(m.listed(n)[0], " | ")
			require.Regexp(t, `(^| )`+regexp.QuoteMeta(g)+` (lemons? )?[AB]\b`, shop, n)
		}
	}})
	all = append(all, tried{
		number: "T3", what: "shares of a line come to the line", text: "dish Trial\n  serves 4\n  gather\n    11 sprigs thyme\n    405 g flour\n  method\n    - Strip half the thyme over a third of the flour.\n      | work 5 min\n    - Strew with the rest of the thyme and the rest of the flour.\n      | work 5 min\n",
		want: func(t require.TestingT, m *made) {
			sum := map[string]int{}
			for _, s := range steps(m.sheets(sheets.Prep)[0]) {
				for _, tk := range s.Takes {
					var n int
					_, _ = fmt.Sscanf(plainly(tk.Amount), "%d", &n)
					sum[tk.Name] += n
				}
			}
			require.Equal(t, 11, sum["thyme"]+sum["sprigs thyme"]+sum["thyme sprigs"], "%v", sum)
			require.Equal(t, 405, sum["flour"], "%v", sum)
		},
	})

	// T4: money.
	priced := func(covers int, serving, larder string) string {
		return menuOf(covers, "Big pot", serving) + "larder\n" + larder + "dish Big pot\n  serves 4\n  gather\n    1 kg turnips\n  method\n    - Boil.\n      | ring low | work 5 min\ndish Small pot\n  serves 4\n  gather\n    1 kg leeks\n  method\n    - Boil.\n      | ring low | work 5 min\n"
	}
	const bothPriced = "  turnips | price 2.00 per kg\n  leeks | price 4.00 per kg\n"
	all = append(all,
		tried{
			number: "T4", what: "per cover of the menu, not of the largest dish", text: strings.Replace(priced(10, "Small pot, for 20", bothPriced), "Big pot\n    Small", "Big pot, for 30\n    Small", 1), opt: everySheet,
			want: func(t require.TestingT, m *made) { // 7.5 kg at 2 and 5 kg at 4: 35.00 for ten
				require.Contains(t, m.words(sheets.CostCard), "The meal, and a cover 10 35.00 3.50")
			},
		},
		tried{
			number: "T4", what: "food cost of what a cover is charged", text: strings.Replace(priced(10, "Small pot, for 20", bothPriced), "Big pot\n    Small", "Big pot, for 30\n    Small", 1), opt: compiler.Options{Sheets: sheets.Kinds(), Charge: qty(7)},
			want: func(t require.TestingT, m *made) { require.Contains(t, m.words(sheets.CostCard), "50%") },
		},
		tried{
			number: "T4", what: "no total where a price is missing", text: priced(8, "Small pot", "  turnips | price 2.00 per kg\n"), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				said := m.words(sheets.CostCard)
				require.NotRegexp(t, `Small pot 0\.00`, said)
				require.NotRegexp(t, `The meal, and a cover (\d+ )?\d+\.\d\d \d`, said)
				require.Contains(t, said, "Small pot 8 ? ? leeks")
				require.Contains(t, said, "The meal, and a cover 8 ? ? 4.00 known", "2 kg at 2 is all that is known")
				require.Contains(t, said, "prices are known for 1 of 2 things")
			},
		},
		tried{
			number: "T4", what: "the currency beside the figure", text: priced(8, "Small pot", strings.NewReplacer("2.00 per", "2.00 GBP per", "4.00 per", "4.00 GBP per").Replace(bothPriced)), opt: everySheet,
			want: func(t require.TestingT, m *made) {
				require.Regexp(t, `12\.00 GBP|GBP 12\.00`, m.words(sheets.CostCard))
			},
		},
	)

	// T5: a time is printed as long as it is.
	for _, w := range [][2]string{{"59 h", "2 days 11 h"}, {"84 h", "3 days 12 h"}, {"49 h", "2 days 1 h"}, {"47 h", "47 h"}, {"50 h 20 min", "2 days 2 h 20 min"}, {"3 days", "3 days"}, {"36 h", "36 h"}} {
		all = append(all, tried{
			number: "T5", what: "stand " + w[0], opt: everySheet,
			text: strings.Replace(menuOf(4, "Trial"), "hours day before, 08:00", "hours 5 days before, 06:00 to 21:00\n  hours 4 days before, 06:00 to 21:00\n  hours 3 days before, 06:00 to 21:00\n  hours 2 days before, 06:00 to 21:00\n  hours day before, 06:00", 1) + "dish Trial\n  serves 4\n  gather\n    1 kg plums\n  method\n    - Cover the plums.\n      | work 5 min | stand " + w[0] + ", fridge\n  serve cold\n",
			want: func(t require.TestingT, m *made) {
				exactly := `stand (` + regexp.QuoteMeta(w[0]) + `|` + regexp.QuoteMeta(w[1]) + `), fridge`
				require.Regexp(t, exactly, plainly(strings.Join(steps(m.sheets(sheets.Prep)[0])[0].Look, " | ")))
			},
		})
	}

	// T11: a card alone says every option.
	lemonOr := "  gather\n    200 g sugar\n    either plain\n      20 g butter\n    or with curd\n      50 g lemon curd\n  method\n    - Stir the sugar.\n      | work 5 min\n    - Fork in the butter.\n      | if plain | work 1 min\n    - Fork in the lemon curd.\n      | if with curd | work 1 min\n"
	all = append(all,
		tried{number: "T11", what: "a card", text: "dish Trial\n  serves 4\n" + lemonOr, want: func(t require.TestingT, m *made) {
			require.Regexp(t, `(?i)lemon curd`, m.words(sheets.Prep))
		}},
		tried{number: "T11", what: "the page of a book", text: "dish Other\n  serves 4\ndish Trial\n  serves 4\n" + lemonOr, want: func(t require.TestingT, m *made) {
			require.Regexp(t, `(?i)lemon curd`, m.words())
		}},
		tried{number: "T11", what: "a base", text: "base Trial\n  makes 200 g\n" + lemonOr, want: func(t require.TestingT, m *made) {
			require.Regexp(t, `(?i)lemon curd`, m.words(sheets.Prep))
		}},
	)

	// T12: kitchens.
	roast := "dish Roast\n  serves 4\n  gather\n    1 kg turnips\n  method\n    - Roast the turnips.\n      | oven 200 C | work 5 min | leave 1 h\n  serve hot, within 10 min\n"
	all = append(all,
		tried{
			number: "T12", what: "a menu without `at` is cooked in the only kitchen", text: strings.Replace(menuOf(4, "Roast"), "  at K\n", "", 1) + roast,
			want: func(t require.TestingT, m *made) { require.NotNil(t, m.Meals[0].Kitchen) },
		},
	)
	for what, line := range map[string][2]string{
		"a cook twice":          {"cooks Ana, Ben", "cooks Ana, Ana"},
		"no rings":              {"rings 4", "rings 0"},
		"two ovens of one name": {"oven main, 2 shelves", "oven main, 2 shelves\n  oven main, 1 shelf"},
	} {
		all = append(all, tried{
			number: "T12", what: what, faulty: true, text: strings.Replace(menuOf(4, "Roast"), line[0], line[1], 1) + roast,
			want: func(t require.TestingT, m *made) {
				_, after, _ := strings.Cut(line[1], "\n  ")
				if after == "" {
					after = line[1]
				}
				require.True(t, m.asks(after) || m.asks(line[1]), "%v", m.codes())
			},
		})
	}
	all = append(all, tried{
		number: "T12", what: "an oven at nothing", faulty: true, text: menuOf(4, "Roast") + strings.Replace(roast, "200 C", "0 C", 1),
		want: func(t require.TestingT, m *made) { require.True(t, m.asks("oven 0 C"), "%v", m.codes()) },
	})

	// T13: the night of the clocks. In London the clock went back an hour at two in
	// the morning of 31 October 2027 and forward on 28 March 2027 (tz database).
	zoned := func(zone, serve, hours string) string {
		return "menu M\n  covers 4\n  on the table " + serve + "\n  at K\n  hours " + hours + "\n  course A\n    Ham\n" + strings.Replace(kitchenOf, "  rings 4\n", "  rings 4\n  zone "+zone+"\n", 1) +
			"dish Ham\n  serves 4\n  gather\n    2 kg ham xx\n  method\n    - Set the ham in the oven.\n      | oven 100 C | work 5 min | leave 6 h\n  serve hot, within 10 min\n"
	}
	all = append(all,
		tried{number: "T13", what: "six hours over the night the clocks go back", text: zoned("Europe/London", "2027-10-31 06:00", "2027-10-30, 18:00 to 2027-10-31 07:00"), want: func(t require.TestingT, m *made) {
			j := m.job("Set the ham")
			require.Equal(t, 6*60+5, j.End()-j.Start(), "what passes")
			require.Equal(t, 5*60+5, m.Meals[0].Shown(j.End())-m.Meals[0].Shown(j.Start()), "by the clock on the wall an hour less")
			require.Contains(t, m.words(sheets.Wall), "00:55") // 6 h before 06:00 is 01:00 by the old time
			require.Contains(t, m.words(sheets.Wall), "at 02:00 the clocks go back 1 h")
		}},
		tried{number: "T13", what: "six hours over the night the clocks go forward", text: zoned("Europe/London", "2027-03-28 06:00", "2027-03-27, 18:00 to 2027-03-28 07:00"), want: func(t require.TestingT, m *made) {
			j := m.job("Set the ham")
			require.Equal(t, 6*60+5, j.End()-j.Start(), "what passes")
			require.Equal(t, 7*60+5, m.Meals[0].Shown(j.End())-m.Meals[0].Shown(j.Start()), "by the clock on the wall an hour more")
			require.Contains(t, m.words(sheets.Wall), "22:55") // 6 h before 06:00 is 23:00 by the old time
		}},
		tried{number: "T13", what: "hours from one that comes twice", text: zoned("Europe/London", "2027-10-31 12:00", "on the day, 01:30 to 12:30"), want: func(t require.TestingT, m *made) {
			require.True(t, m.asks("on the day, 01:30 to 12:30"), "%v", m.codes())
			require.Equal(t, 90, m.Meals[0].Menu.Hours[0].From, "the later of the two")
		}},
		tried{number: "T13", what: "hours to one that there is not", text: zoned("Europe/London", "2027-03-28 12:00", "on the day, 01:30 to 12:30"), want: func(t require.TestingT, m *made) {
			require.True(t, m.asks("on the day, 01:30 to 12:30"), "%v", m.codes())
		}},
		tried{number: "T13", what: "no such zone", faulty: true, text: zoned("Europe/Puddlebury", "2027-06-12 19:00", "on the day, 08:00 to 21:00"), want: func(t require.TestingT, m *made) {
			require.True(t, m.asks("Europe/Puddlebury"), "%v", m.codes())
		}},
		tried{number: "T13", what: "an hour that there is not", faulty: true, text: zoned("Europe/London", "2027-03-28 01:30", "2027-03-27, 10:00 to 2027-03-28 07:00"), want: func(t require.TestingT, m *made) {
			require.True(t, m.asks("2027-03-28 01:30"), "%v", m.codes())
		}},
	)

	// T14: who is owed credit.
	all = append(all,
		tried{number: "T14", what: "the link of a dish", text: dishOf("Trial", "  link https://example.org/trial\n", "200 g flour"), want: func(t require.TestingT, m *made) {
			require.Contains(t, m.words(), "example.org/trial")
		}},
		tried{number: "T14", what: "the source of a dish, said once", text: dishOf("Trial", "  source Adapted from a notebook\n", "200 g flour"), want: func(t require.TestingT, m *made) {
			require.Contains(t, m.words(), "dapted from a notebook")
			require.NotContains(t, m.words(), "from Adapted")
		}},
	)
	for _, f := range []string{"source A cupboard of cards", "by Nell Ferry", "link https://example.org/lessons"} {
		_, value, _ := strings.Cut(f, " ")
		value = strings.TrimPrefix(value, "https://")
		all = append(all,
			tried{number: "T14", what: "of a series: " + f, text: "series Two lessons\n  " + f + "\n  part 1 Soup\n    shows Trial\n" + dishOf("Trial", "", "200 g flour"), opt: everySheet, want: func(t require.TestingT, m *made) {
				require.Contains(t, m.words(sheets.Crew), value)
			}},
			tried{number: "T14", what: "of a part: " + f, text: "series Two lessons\n  part 1 Soup\n    shows Trial\n    " + f + "\n" + dishOf("Trial", "", "200 g flour"), opt: everySheet, want: func(t require.TestingT, m *made) {
				require.Contains(t, m.words(sheets.Crew), value)
			}},
			tried{number: "T14", what: "of a book: " + f, text: "book Cards\n  " + f + "\n  chapter All\n    Trial\n    Other\n" + dishOf("Trial", "", "200 g flour") + dishOf("Other", "", "200 g flour"), want: func(t require.TestingT, m *made) {
				require.Contains(t, m.words(), value)
			}},
		)
	}
	return all
}

// sheetWords are the words of one sheet.
func sheetWords(s *sheets.Sheet) string {
	m := &made{&compiler.Result{Documents: []*sheets.Document{{Sheets: []sheets.Sheet{*s}}}}}
	return m.words()
}

// contains is a dish of one line: an allergen is printed for it on its prep
// sheet and in the table.
func contains(number, line, holds string) tried {
	return tried{
		number: number, what: line + " contains " + holds, text: menuOf(4, "Trial") + dishOf("Trial", "", line, "200 g turnips"), opt: everySheet,
		want: func(t require.TestingT, m *made) {
			require.Regexp(t, `Contains, by what is listed here: [^.]*`+holds, m.words(sheets.Prep))
			require.Regexp(t, `Trial [^.]*`+holds, m.words(sheets.Allergens))
			require.NotContains(t, m.words(sheets.Allergens), "not known to the larder")
		},
	}
}
