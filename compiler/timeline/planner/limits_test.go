package planner

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/timeline"
)

// What binds as it is written: the order of the courses and the gaps between
// them, `hold`, `rest`, `within`. Times are worked out by hand beside each case.

// small is a kitchen with so many cooks and one shelf.
func small(cooks string) string {
	return "\nkitchen K\n  cooks " + cooks + "\n  oven main, 1 shelf\n  rings 4\n  hold hot 10 min\n"
}

// dishOf is a dish of one thing with the steps given.
func dishOf(name, steps, serve string) string {
	return fmt.Sprintf("dish %s\n  serves 4\n  gather\n    1 kg     %s stuff\n  method\n%s  serve %s\n", name, strings.ToLower(name), steps, serve)
}

// served is when a course is served, and when it should be.
func served(t *timeline.Timeline, course string) (served, due timeline.Minute) {
	for _, s := range t.Servings {
		if s.Course == course {
			return s.Served, s.At
		}
	}
	return -1, -1
}

// What is served a written time after a course that is late is as late: by hand,
// the soup takes 92 min from 11:00, so First is at 12:32 and not at 12:00; Second
// 20 min after it, Third 15 min after that. The cheese, which is due by the clock,
// waits for none of them but stands behind all.
func TestLateCoursesKeepTheirGaps(t *testing.T) {
	line, diags := planText(t, `menu M
  covers 4
  on the table 2027-05-02 12:00
  at K
  hours on the day, 11:00 to 15:00
  course First
    Soup
  course Second, 20 min after First
    Steak
  course Third, 15 min after Second
    Plums
  course Cheese, at 12:40
    Cheese, from the shop
  course Coffee, 5 min after Cheese
    Coffee, from the shop
`+dishOf("Soup", "    - Simmer the soup stuff.\n      | ring low | work 2 min | leave 1 h 30 min\n", "hot, within 5 min")+
		dishOf("Steak", "    - Fry the steak stuff.\n      | ring high | work 15 min\n", "hot, within 5 min")+
		dishOf("Plums", "    - Slice the plums stuff.\n      | work 5 min\n", "cold")+small("Ana"))
	require.NotNil(t, line, "%v", diags.Sorted())
	for course, at := range map[string]timeline.Minute{"First": at(12, 32), "Second": at(12, 52), "Third": at(13, 7), "Cheese": at(13, 7), "Coffee": at(13, 12)} {
		served, _ := served(line, course)
		require.Equal(t, at, served, course)
	}
	why := map[string]string{}
	for _, d := range diags.Sorted() {
		require.Equal(t, "P201", d.Code)
		why[strings.Fields(d.Message)[0]] = d.Why
	}
	require.Equal(t, "It is served 20 min after First, which is late.", why["Second"])
	require.Equal(t, "It is served 15 min after Second, which is late.", why["Third"])
	require.Equal(t, "It is not served before Third, which is late.", why["Cheese"])
}

// Two courses at one moment: if the first of them is late, the other is not served
// before it.
func TestCoursesAtOneMoment(t *testing.T) {
	line, _ := planText(t, `menu M
  covers 4
  on the table 2027-05-02 12:00
  at K
  hours on the day, 11:00 to 15:00
  course Meat
    Soup
  course Greens
    Salad
`+dishOf("Soup", "    - Simmer the soup stuff.\n      | ring low | work 2 min | leave 1 h 30 min\n", "hot, within 5 min")+
		dishOf("Salad", "    - Toss the salad stuff.\n      | work 5 min | hold cold up to 30 min\n", "cold")+small("Ana, Ben"))
	require.NotNil(t, line)
	meat, _ := served(line, "Meat")
	greens, _ := served(line, "Greens")
	require.Equal(t, at(12, 32), meat)
	require.Equal(t, meat, greens)
}

// When a step takes longer on the day, the courses after it keep their distance.
func TestReplannedCoursesKeepTheirGaps(t *testing.T) {
	line := onTime(t, `menu M
  covers 4
  on the table 2027-05-02 12:00
  at K
  course First
    Soup
  course Second, 20 min after First
    Salad
`+dishOf("Soup", "    - Simmer the soup stuff.\n      | ring low | work 2 min | leave 1 h 30 min\n", "hot, within 5 min")+
		dishOf("Salad", "    - Toss the salad stuff.\n      | work 5 min | hold cold up to 2 h\n", "cold")+small("Ana, Ben"))
	r := Replan(t.Context(), line, job(line, t, "Simmer the soup stuff"), 30)
	require.NotNil(t, r.Timeline)
	first, due := served(r.Timeline, "First")
	require.GreaterOrEqual(t, first-due, 25)
	second, _ := served(r.Timeline, "Second")
	require.GreaterOrEqual(t, second-first, 20)
}

// limitCase is a meal for which a written limit leaves no plan, with the words
// that name it; the cure makes it possible.
type limitCase struct{ dishes, why string }

// A hold is the last word, also beside a longer `within`, through a base, and for
// what another step takes. Each is cooked by one cook who has an hour's frying to
// do last, so that it would have to be held for an hour.
func TestHoldBinds(t *testing.T) {
	fry := dishOf("Fry", "    - Fry the fry stuff.\n      | ring high | work 60 min\n", "hot, within 5 min")
	mash := func(steps, serve string) string { return dishOf("Mash", steps, serve) + fry }
	boil := "    - Boil the mash stuff.\n      | ring high | work 5 min | leave 30 min\n"
	for name, c := range map[string]limitCase{
		"hold, then a longer within": {
			mash(boil+"    - Mash.\n      | work 8 min | hold hot up to 10 min\n", "hot, within 40 min"),
			"serving Main must come within 10 min of step 2 of Mash",
		},
		"a longer hold, then within": {
			mash(boil+"    - Mash.\n      | work 8 min | hold hot up to 40 min\n", "hot, within 10 min"),
			"serving Main must come within 10 min of step 2 of Mash",
		},
		"hold shorter than what is usual": {
			mash(boil+"    - Mash.\n      | work 8 min | hold warm up to 20 min\n", "warm"),
			"serving Main must come within 20 min of step 2 of Mash",
		},
		"hold of a cold thing": {
			mash("    - Whip the mash stuff.\n      | work 8 min | hold cold up to 15 min\n", "cold"),
			"serving Main must come within 15 min of step 1 of Mash",
		},
		"hold on a base": {
			"base Sauce\n  makes 500 ml\n  gather\n    500 ml   stock\n  method\n    - Boil the stock.\n      | ring high | work 10 min | hold hot up to 10 min\n" +
				"dish Mash\n  serves 4\n  gather\n    500 ml   sauce\n  method\n    - Pour out the sauce.\n      | work 1 min\n  serve hot, within 5 min\n" + fry,
			"step 1 of Mash (Pour out the sauce) must come within 10 min of step 1 of Sauce (Boil the stock)",
		},
	} {
		line, diags := planText(t, "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Mash\n    Fry\n"+c.dishes+small("Ana"))
		require.Nil(t, line, name)
		d := only(t, diags)
		require.Equal(t, "P202", d.Code, name)
		require.Contains(t, d.Why, c.why, name)
		require.Contains(t, d.Why, "the nearest there is:", name)
		require.Contains(t, d.Help, "find one more cook", name)

		// With another cook it is cooked, and the limit kept.
		line, diags = planText(t, "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Mash\n    Fry\n"+c.dishes+small("Ana, Ben"))
		require.NotNil(t, line, "%s: %v", name, diags.Sorted())
		require.Zero(t, line.Late, name)
		audit(t, line)
	}
}

// How much is said: the mash would wait 60 min for the table where 10 are allowed,
// if nothing else gave way.
func TestNearestSaysHowMuch(t *testing.T) {
	line, diags := planText(t, "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Mash\n    Fry\n"+
		dishOf("Mash", "    - Mash the mash stuff.\n      | work 30 min | hold cold up to 10 min\n", "cold")+
		dishOf("Fry", "    - Fry the fry stuff.\n      | ring high | work 60 min\n", "hot, within 1 min")+small("Ana"))
	require.Nil(t, line)
	d := only(t, diags)
	// Of the two the fry waits the least: 30 min for the mash.
	require.Contains(t, d.Why, "the nearest there is: step 1 of Fry (Fry the fry stuff) waits 30 min for the table, where 1 min are allowed")
}

// A rest of hot food is no longer than its `up to`, whatever waits behind it, and
// what comes after a plain rest waits no longer than hot food may. One cook is busy
// with an hour's frying; by hand, 15 + 15 of the rest are all there is.
func TestRestBinds(t *testing.T) {
	menu := "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Roast\n    Fry\n"
	roast := func(rest, serve string) string {
		return dishOf("Roast", "    - Roast the roast stuff.\n      | oven 200 C | watch 1 h\n    - Rest the meat.\n      | "+rest+"\n    - Carve.\n      | work 8 min\n", serve)
	}
	fry := dishOf("Fry", "    - Fry the fry stuff.\n      | ring high | work 60 min\n", "hot, within 15 min")
	for _, c := range []struct {
		rest, why string
		most      int // from the end of the roast to the carving
	}{
		{"rest 15 min, up to 30 min", "step 3 of Roast (Carve) must come within 15 min of step 2 of Roast", 30},
		{"rest 15 min", "step 3 of Roast (Carve) must come within 10 min of step 2 of Roast", 25},
		{"rest 20 min | hold warm up to 25 min", "step 3 of Roast (Carve) must come within 25 min of step 2 of Roast", 45},
	} {
		line, diags := planText(t, menu+roast(c.rest, "hot, within 10 min")+fry+small("Ana"))
		require.Nil(t, line, c.rest)
		require.Contains(t, only(t, diags).Why, c.why)

		line, diags = planText(t, menu+roast(c.rest, "hot, within 10 min")+fry+small("Ana, Ben"))
		require.NotNil(t, line, "%s: %v", c.rest, diags.Sorted())
		require.Zero(t, line.Late)
		audit(t, line)
		roasted, carved := job(line, t, "Roast the roast stuff"), job(line, t, "Carve")
		require.LessOrEqual(t, carved.Start()-roasted.End()-10, c.most, c.rest) // the rest itself may wait 10 min for a hand
	}
	// A pie that is served cold may stand: an hour, as anything cold.
	line, diags := planText(t, menu+roast("rest 15 min", "cold")+fry+small("Ana"))
	require.NotNil(t, line, "%v", diags.Sorted())
	require.Zero(t, line.Late)
}

// Several loads: the first is held until the last is out, and that is said where
// `hold` allows less. By hand: three loads of 20 min, so 40.
func TestHoldOfLoads(t *testing.T) {
	text := func(hold string) string {
		return "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Buns\ndish Buns\n  serves 4\n  gather\n    3 kg     buns\n  method\n" +
			"    - Bake the buns.\n      | oven 200 C | in tin, holds 1 litre | work 1 min | leave 20 min per load | " + hold + "\n  serve hot, within 5 min\n" + small("Ana")
	}
	line, diags := planText(t, text("hold hot up to 10 min"))
	require.NotNil(t, line, "%v", diags.Sorted())
	d := only(t, diags)
	require.Equal(t, "P110", d.Code)
	require.Regexp(t, `^the first of 3 loads is held 4\d min, and .hold. allows 10 min$`, d.Message)
	line, diags = planText(t, text("hold hot up to 1 h"))
	require.NotNil(t, line)
	require.Empty(t, diags.Sorted())
}

// A strand keeps its own word too: what is done meanwhile and held for 5 min is not
// done before another dish has had the cook for 45 min.
func TestHoldOfStrand(t *testing.T) {
	text := "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  course Main\n    Pie\n    Fry\n" +
		dishOf("Fry", "    - Fry the fry stuff.\n      | ring high | work 45 min\n", "hot, within 5 min") +
		dishOf("Pie", "    - Bake the pie stuff.\n      | oven 200 C | work 2 min | leave 1 h\n    - Fry the top.\n      | meanwhile | ring high | work 5 min | hold hot up to 5 min\n    - Put it on.\n      | work 2 min\n", "hot, within 5 min")
	line, diags := planText(t, text+small("Ana"))
	require.Nil(t, line)
	require.Contains(t, only(t, diags).Why, "step 3 of Pie (Put it on) must come within 5 min of step 2 of Pie (Fry the top)")
	line = onTime(t, text+small("Ana, Ben"))
	top, on := job(line, t, "Fry the top"), job(line, t, "Put it on")
	require.LessOrEqual(t, on.Start()-top.End(), 5)
}

// What is either the one way or the other is not counted twice: two dishes need
// one pot, each for an hour and a half with a rest in the fridge in between. Either
// may be first, so the chain is of one dish after the other, never round and round.
func TestChainOfEitherOrder(t *testing.T) {
	stew := func(name string) string {
		return dishOf(name, "    - Boil the "+strings.ToLower(name)+" stuff.\n      | ring low | in pot | work 5 min | leave 55 min\n    - Stir.\n      | ring low | in pot | work 30 min\n", "hot, within 5 min")
	}
	for _, dishes := range [][]string{{"Beans", "Peas"}, {"Beans", "Peas", "Leeks"}} {
		text := "menu M\n  covers 4\n  on the table 2027-05-02 12:00\n  at K\n  hours on the day, 11:30 to 13:00\n  course Main\n"
		for _, d := range dishes {
			text += "    " + d + "\n"
		}
		for _, d := range dishes {
			text += stew(d)
		}
		line, diags := planText(t, text+small("Ana, Ben")+"  vessel pot, holds 9 litres\n")
		if line != nil {
			require.NotZero(t, line.Late)
		}
		var why []string
		for _, d := range diags.Sorted() {
			why = append(why, d.Why)
		}
		// 60 + 30 of one dish before the 60 + 30 of another.
		require.Contains(t, strings.Join(why, "\n"), "to the table it takes at least 3 h, so that it would have to begin by 09:00")
	}
}

// What a step makes may wait as long as it `keeps`, with a name or without: by hand, 75 min
// of work before a pie of an hour do not fit between 11:30 and 13:00, and the filled pie
// keeps a day, so it is filled the day before. Where it keeps two hours it is late.
func TestWhatHasNoNameKeeps(t *testing.T) {
	pie := func(keeps string) string {
		return `kitchen K
  cooks A
  oven main, 2 shelves
menu M
  covers 12
  on the table 2027-05-02 13:00
  at K
  hours day before, 14:00 to 18:00
  hours on the day, 11:30 to 15:00
  course Main
    Pie
` + writtenDish("Pie", "    600 g parsnips, diced | work 20 min\n    300 g pastry\n", "hot, within 15 min",
			"Fill the pastry with the parsnips. | work 50 min | "+keeps, "Bake. | oven 180 C | work 5 min | leave 50 min")
	}
	for _, makes := range []string{"", "makes filled pie | "} {
		line := onTime(t, pie(makes+"keeps 1 day, fridge"))
		require.Less(t, job(line, t, "Fill the pastry with the parsnips").End(), 0)
	}
	line, _ := planText(t, pie("keeps 2 h, room"))
	require.NotNil(t, line)
	require.Positive(t, line.Late)
}
