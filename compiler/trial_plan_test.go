package compiler_test

import (
	"fmt"
	"slices"
	"strings"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
)

// P: a plan to pin up unchanged.

// lunch is a menu at noon of courses written out, in a kitchen written out.
func lunch(kitchen, menu, dishes string) string {
	return "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n" + menu + "kitchen K\n" + kitchen + dishes
}

// cooked is a dish of one thing and some steps.
func cooked(name, thing, serve string, steps ...string) string {
	return "dish " + name + "\n  serves 4\n  gather\n    1 kg " + thing + "\n" + methodOf(steps) + "  serve " + serve + "\n"
}

// methodOf is a method of some steps, each a sentence and its margin, or a pause.
func methodOf(steps []string) string {
	text := "  method\n"
	for _, s := range steps {
		if strings.HasPrefix(s, "pause") {
			text += "    " + s + "\n"
			continue
		}
		said, margin, _ := strings.Cut(s, " | ")
		text += "    - " + said + "\n      | " + margin + "\n"
	}
	return text
}

const plainKitchen = "  cooks A\n  oven main, 1 shelf\n  rings 4\n"

// between are the minutes from the end of one job to the start of another.
func (m *made) between(first, then string) int { return m.job(then).Start() - m.job(first).End() }

// served is when a course goes out.
func (m *made) served(course string) int {
	for _, s := range m.line().Servings {
		if s.Course == course {
			return s.Served
		}
	}
	panic("no course " + course)
}

// refused checks that a meal has no plan because of a limit, and that it is said by
// how much it is missed.
func refused(t require.TestingT, m *made, limit string) {
	for _, d := range m.Diags.Sorted() {
		if d.Code == "P202" {
			require.Contains(t, d.Why, limit)
			require.Contains(t, d.Why, "the nearest there is: ")
			return
		}
	}
	require.Fail(t, "no plan and no word", "%v", m.codes())
}

func triedPlan() (all []tried) {
	const open = true
	add := func(c ...tried) { all = append(all, c...) }

	for _, c := range []struct {
		after string
		least int
	}{{"20 min after First", 20}, {"5 min after First", 5}, {"1 h after First", 60}} {
		add(tried{
			number: "P1", what: "a late course pushes the next, " + c.after, faulty: true,
			text: lunch(plainKitchen, "  hours on the day, 11:00 to 14:00\n  course First\n    Slow soup\n  course Second, "+c.after+"\n    Steak\n",
				cooked("Slow soup", "stock xx", "hot, within 5 min", "Simmer the stock. | ring low | work 2 min | leave 1 h 30 min")+
					cooked("Steak", "beef steak", "hot, within 5 min", "Fry the steak. | ring high | work 15 min")),
			want: func(t require.TestingT, m *made) {
				require.GreaterOrEqual(t, m.served("Second")-m.served("First"), c.least)
			},
		})
	}

	mash := func(hold, within string) string {
		return lunch(plainKitchen, "  course Main\n    Mash\n    Fry up\n",
			cooked("Mash", "potatoes", "hot, within "+within, "Boil the potatoes. | ring high | work 5 min | leave 30 min", "Mash the potatoes. | work 8 min | "+hold)+
				cooked("Fry up", "parsnips", "hot, within 5 min", "Fry the parsnips. | ring high | work 1 h"))
	}
	for _, c := range []struct {
		hold, within string
		most         int
	}{{"hold hot up to 10 min", "40 min", 10}, {"hold hot up to 5 min", "20 min", 5}, {"hold hot up to 1 h 10 min", "20 min", 20}, {"hold hot up to 1 h 10 min", "1 h 10 min", 70}} {
		add(tried{number: "P2", what: "mash with " + c.hold + ", within " + c.within, faulty: true, text: mash(c.hold, c.within), want: func(t require.TestingT, m *made) {
			if m.line() == nil {
				refused(t, m, fmt.Sprintf("serving Main must come within %d min of step 2 of Mash", c.most))
				return
			}
			wait := m.served("Main") - m.job("Mash the").End()
			require.True(t, wait <= c.most || m.line().Late > 0, "it waits %d minutes and is on time", wait)
		}})
	}
	for _, c := range []struct {
		rest string
		most int
	}{{"rest 15 min, up to 30 min", 30}, {"rest 20 min, up to 40 min", 40}} {
		add(tried{
			number: "P2", what: "beef with " + c.rest, faulty: true,
			text: lunch("  cooks A\n  oven main, 1 shelf\n  rings 4\n  hold hot 10 min\n", "  course Main\n    Roast\n    Pudding\n",
				cooked("Roast", "beef", "hot, within 10 min", "Roast the beef. | oven 200 C | work 5 min | leave 1 h", "Rest the beef. | "+c.rest, "Carve. | work 8 min")+
					cooked("Pudding", "batter xx", "hot, within 5 min", "Bake the batter. | oven 200 C | work 2 min | leave 1 h 10 min")),
			want: func(t require.TestingT, m *made) {
				if m.line() == nil {
					refused(t, m, fmt.Sprintf("step 3 of Roast (Carve) must come within %d min of step 2 of Roast", c.most/2))
					return
				}
				out := m.job("Carve").Start() - m.job("Roast the beef").End()
				require.True(t, out <= c.most+10 || m.line().Late > 0, "%d minutes out of the oven before it is carved", out)
			},
		})
	}

	twoHeats := func(slack string) string {
		return lunch(plainKitchen, "  course Main\n    Pie\n", cooked("Pie", "pastry xx", "hot, within 10 min", "Bake the pastry hot. | oven 220 C | work 2 min | leave 15 min", "Turn down and bake on. | oven 160 C | leave 40 min"+slack))
	}
	add(tried{number: "P3", what: "two steps in one oven at two heats", faulty: true, text: twoHeats(" | within 1 min"), want: func(t require.TestingT, m *made) {
		said := ""
		for _, d := range m.Diags.Sorted() {
			for _, f := range d.Fixes {
				said += f.Title + "\n"
			}
		}
		require.True(t, m.line() != nil && m.line().Late == 0 || strings.Contains(said, "220 C for 15 min then 160 C"), "%v %s", m.codes(), said)
	}})
	add(tried{number: "P3", what: "no gap while the oven is turned down", faulty: true, text: twoHeats(""), want: func(t require.TestingT, m *made) {
		require.NotNil(t, m.line())
		require.LessOrEqual(t, m.between("Bake the pastry hot", "Turn down"), 1)
	}})

	roast := lunch("  cooks Ana, Ben\n  oven main, 1 shelf\n  rings 4\n", "  course Main\n    Roast\n", cooked("Roast", "turnips", "hot, within 10 min", "Roast the turnips. | oven 200 C | leave 1 h", "Boil up. | ring high | leave 10 min"))
	for what, want := range map[string]string{"who puts it in": `(?i)put[^.]*in\b[^.]*\b(Ana|Ben)|(Ana|Ben)[^.]*put[^.]*\bin\b`, "who takes it out": `(?i)take[^.]*out[^.]*\b(Ana|Ben)|(Ana|Ben)[^.]*take[^.]*out|\bout 1\d:\d\d (Ana|Ben)`, "who lights the oven": `(?i)heat the oven[^.]*\b(Ana|Ben)|(Ana|Ben)[^.]*heat the oven`, "the oven is turned off": `(?i)oven off|turn off the oven`} {
		add(tried{number: "P4", what: what, text: roast, opt: everySheet, want: func(t require.TestingT, m *made) {
			require.Regexp(t, want, m.words(sheets.RunSheet))
		}})
	}
	add(tried{
		number: "P4", what: "taking a pot off is one row", opt: everySheet, text: lunch("  cooks Ana, Ben\n  rings 4\n", "  course Main\n    Pot\n", cooked("Pot", "turnips", "hot, within 10 min", "Boil the turnips. | ring high | work 2 min | leave 20 min", "Take off the heat and mash. | work 5 min")),
		want: func(t require.TestingT, m *made) {
			said := strings.ToLower(m.words(sheets.RunSheet))
			require.LessOrEqual(t, strings.Count(said, "off the ring")+strings.Count(said, "off the heat"), 1)
		},
	})

	onions := lunch("  cooks A\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Soup\n    Stew\n    Salad\n",
		cooked("Soup", "onions, finely chopped | work 4 min", "hot, within 10 min", "Simmer the onions. | ring low | work 5 min | leave 30 min | hold hot up to 30 min", "Ladle out. | work 4 min")+
			cooked("Stew", "onions, finely chopped | work 4 min", "hot, within 10 min", "Stew the onions. | ring low | work 10 min | leave 2 h", "Dish up. | work 4 min")+
			cooked("Salad", "onions, finely chopped | work 4 min", "cold, within 10 min", "Toss the onions. | work 3 min"))
	add(tried{number: "P5", what: "what the list says is cut once is cut once", text: onions, opt: everySheet, want: func(t require.TestingT, m *made) {
		starts := map[int]bool{}
		var jobs []*timeline.Job
		for _, j := range m.line().Jobs {
			if j.Kind == timeline.PrepJob {
				starts[j.Start()] = true
				jobs = append(jobs, j)
			}
		}
		slices.SortFunc(jobs, func(a, b *timeline.Job) int { return a.Start() - b.Start() })
		for i := 1; i < len(jobs); i++ {
			require.LessOrEqual(t, jobs[i].Start()-jobs[i-1].End(), 5, "one spell at the board")
		}
	}})

	add(
		tried{
			number: "P6", what: "cold work is not left to the last while a cook stands idle",
			text: lunch("  cooks A\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Salad\n    Fry up\n",
				cooked("Salad", "beetroot", "cold, within 4 h", "Peel and slice the beetroot. | work 30 min | keeps 1 day, fridge", "Dish up. | work 2 min")+cooked("Fry up", "parsnips", "hot, within 5 min", "Fry the parsnips. | ring high | work 30 min")),
			want: func(t require.TestingT, m *made) {
				require.GreaterOrEqual(t, m.job("Fry the parsnips").Start()-m.job("Peel and slice").End(), 30, "there are hours to spare")
			},
		},
		tried{
			number: "P6", what: "what may stand longer stands longer, and does not start late", open: open,
			text: lunch("  cooks A\n  oven main, 1 shelf, preheat 15 min\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Bread\n",
				cooked("Bread", "dough xx", "warm, within 2 h", "Leave the dough to rise. | work 2 min | leave 1 h", "Shape. | work 10 min", "Bake. | oven 220 C | leave 30 min")),
			want: func(t require.TestingT, m *made) {
				j := m.job("Leave the dough")
				require.Equal(t, j.End(), m.job("Shape").Start(), "it is left as long as it was said to be")
				require.LessOrEqual(t, m.job("Leave the dough").Start(), 9*60, "and begun when hands are free")
			},
		},
		tried{
			number: "P6", what: "a cake that may wait a day is made the day before",
			text: lunch("  cooks A\n  oven main, 1 shelf\n  rings 4\n", "  hours day before, 14:00 to 18:00\n  hours on the day, 08:00 to 14:00\n  course Main\n    Cake\n    Fry up\n",
				cooked("Cake", "batter xx", "at room temperature", "Bake the batter. | oven 180 C | work 10 min | leave 40 min", "pause up to 2 days, room", "Cut. | work 5 min")+cooked("Fry up", "parsnips", "hot, within 5 min", "Fry the parsnips. | ring high | work 1 h")),
			want: func(t require.TestingT, m *made) { require.Negative(t, m.job("Bake the batter").Start()) },
		},
		tried{
			number: "P6", what: "a break in a long day",
			text: lunch("  cooks A\n  rings 4\n", "  hours on the day, 05:00 to 14:00\n  course Main\n    Fry up\n", cooked("Fry up", "parsnips", "cold, within 1 h", "Peel the parsnips. | work 3 h | keeps 1 day, fridge", "Slice. | work 3 h | keeps 1 day, fridge", "Dish up. | work 30 min")),
			want: func(t require.TestingT, m *made) {
				require.Contains(t, strings.ToLower(m.words(sheets.RunSheet)), "break")
			},
		},
	)

	for _, w := range []string{"work 1 h", "watch 1 h"} {
		add(tried{
			number: "P7", what: "plain " + w + " is not exact", text: lunch(plainKitchen, "  hours on the day, 11:00 to 14:00\n  course Main\n    Fry up\n", cooked("Fry up", "parsnips", "hot, within 5 min", "Fry the parsnips. | ring high | "+w)),
			want: func(t require.TestingT, m *made) {
				require.NotNil(t, m.line().Odds, "how sure is it")
				require.Less(t, m.line().Odds.OnTime, m.line().Odds.Runs)
			},
		})
	}

	late := lunch("  cooks A\n  oven main, 1 shelf\n  rings 4\n", "  hours on the day, 10:00 to 14:00\n  course Main\n    Ham\n  course Coffee, 30 min after Main\n    Coffee, from the shop\n",
		cooked("Ham", "ham xx", "hot, within 10 min", "Soak. | leave 1 h", "Boil the ham. | ring low | work 5 min | leave 1 h 30 min"))
	// The trial's own case was a menu of eleven dishes; small ones hold.
	add(
		tried{number: "P8", what: "what is bought is never late by itself", faulty: true, text: late, want: func(t require.TestingT, m *made) {
			for _, d := range m.Diags.Sorted() {
				require.NotContains(t, d.Message, "Coffee (", "nobody has to make it")
			}
		}},
		tried{number: "P8", what: "a late plan begins at once", faulty: true, text: late, want: func(t require.TestingT, m *made) {
			require.Equal(t, 10*60, m.line().Jobs[0].Start())
			require.Equal(t, 35+35, m.line().Late, "the ham, and the coffee half an hour after it")
		}},
		tried{number: "P8", what: "longer hours do not make it later", faulty: true, text: strings.Replace(late, "10:00 to", "09:00 to", 1), want: func(t require.TestingT, m *made) {
			require.Zero(t, m.line().Late)
		}},
	)

	// One after the other at one blender takes 10, 3 and 10 minutes, then an hour:
	// either may be first, and neither waits for the other twice.
	for _, n := range []int{2, 3} {
		dishes, menu := "", ""
		for i, thing := range []string{"turnips", "parsnips", "carrots"}[:n] {
			name := fmt.Sprintf("Mash %c", 'A'+i)
			menu += "    " + name + "\n"
			dishes += cooked(name, thing, "hot, within 1 h", "Blend the "+thing+". | tool blender | work 10 min", "Simmer. | ring low | leave 1 h")
		}
		add(tried{
			number: "P9", what: fmt.Sprintf("%d dishes at one blender take no longer than they take", n), faulty: true,
			text: lunch("  cooks A, B\n  tools blender, washed in 3 min\n  rings 4\n", "  hours on the day, 11:30 to 14:00\n  course Main\n"+menu, dishes), want: func(t require.TestingT, m *made) {
				said := ""
				for _, d := range m.Diags.Sorted() {
					said += d.Why
				}
				require.Contains(t, said, "it takes at least 1 h")
				require.NotRegexp(t, `at least ([2-9] h|\d+ days)`, said)
			},
		})
	}

	add(
		tried{
			number: "P15", what: "a step that nothing waits for is done before its follower",
			text: lunch("  cooks A, B\n  oven main, 2 shelves\n  rings 4\n", "  hours on the day, 08:00 to 14:00\n  course Main\n    Pie\n",
				"dish Pie\n  serves 4\n  gather\n    1 kg pastry xx\n    400 g mushrooms\n  method\n    - Roll the pastry.\n      | work 10 min | makes rolled pastry\n    - Fry the mushrooms.\n      | ring high | work 20 min\n    - Bake the pie.\n      | after rolled pastry | oven 200 C | leave 40 min\n  serve hot, within 10 min\n"),
			want: func(t require.TestingT, m *made) {
				ok := m.job("Fry the mushrooms").End() <= m.job("Bake the pie").Start()
				require.True(t, ok || m.asks("Fry the mushrooms"), "fried after the pie is in, and nothing said: %v", m.codes())
			},
		},
	)

	washing := func(wash string) string {
		return lunch("  cooks A\n  rings 4\n  "+wash+"\n", "  hours on the day, 06:00 to 14:00\n  course Main\n    Salad\n",
			cooked("Salad", "beetroot", "cold, within 8 h", "Peel the beetroot. | work 2 h 30 min | keeps 1 day, fridge", "Slice. | work 2 h | keeps 1 day, fridge", "Dish up. | work 20 min"))
	}
	washes := func(m *made) (n int) {
		for _, j := range m.line().Jobs {
			if j.Kind == timeline.WashJob {
				n++
			}
		}
		return n
	}
	add(
		tried{number: "P16", what: "rounds every two hours of cold work", faulty: true, text: washing("wash up 15 min, every 2 h"), want: func(t require.TestingT, m *made) {
			require.NotNil(t, m.line(), "%v", m.codes())
			require.Positive(t, washes(m), "%v", m.codes())
		}},
		tried{
			number: "P16", what: "what is left until after serving has its row", faulty: true, opt: everySheet,
			text: lunch("  cooks A\n  rings 4\n  wash up 15 min, after each dish\n", "  hours on the day, 06:00 to 14:00\n  course Main\n    Fry up\n", cooked("Fry up", "parsnips", "hot, within 5 min", "Fry the parsnips. | ring high | work 30 min")),
			want: func(t require.TestingT, m *made) {
				require.Regexp(t, `(?i)1[2-4]:\d\d[^.]{0,20}wash`, m.words(sheets.RunSheet))
			},
		},
	)
	return all
}
