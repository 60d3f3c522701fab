package compiler_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

func example(t *testing.T, name string, opt compiler.Options) *compiler.Result {
	t.Helper()
	return folder(t, filepath.Join("..", "examples", name), opt)
}

// folders are those that were compiled, and with what options: many tests look at the
// examples, and none changes what was found.
var folders = map[string]*compiler.Result{}

func folder(t *testing.T, dir string, opt compiler.Options) *compiler.Result {
	t.Helper()
	key := fmt.Sprintf("%s %+v", filepath.ToSlash(dir), opt)
	if folders[key] == nil {
		tree, err := load.Path(dir)
		require.NoError(t, err)
		folders[key] = compiledTree(tree, opt)
	}
	return folders[key]
}

func table(t *testing.T, s *sheets.Sheet, n int) *sheets.Table {
	t.Helper()
	for _, b := range s.Blocks {
		if tb, ok := b.(*sheets.Table); ok {
			if n == 0 {
				return tb
			}
			n--
		}
	}
	t.Fatalf("no such table on %s", s.Title)
	return nil
}

// What is gathered on all prep sheets is what goes on the shopping list, before
// trimmings and packs: nothing is dropped and nothing counted twice.
func TestShoppingIsTheSumOfThePrepSheets(t *testing.T) {
	list, err := os.ReadDir("../examples")
	require.NoError(t, err)
	seen := 0
	for _, e := range list {
		if !e.IsDir() || e.Name() == "gallery" {
			continue
		}
		for _, meal := range example(t, e.Name(), compiler.Options{}).Meals {
			bought := map[*demand.Amount]bool{}
			fig := figures.Of(meal, figures.Options{})
			for _, it := range buying.Build(fig, nil).Items {
				sums := map[string]quantity.Number{}
				parts := false // eggs are bought for their whites and their yolks
				for _, u := range it.Uses {
					parts = parts || strings.Contains(u.Amount.Line.Name, "yolk") || strings.Contains(u.Amount.Line.Name, "white")
					require.False(t, bought[u.Amount], "%s: %s is bought twice", meal.Title, it.Name)
					bought[u.Amount] = true
					if q := fig.Line(u.Amount).Quantity; u.Amount.Quantity != nil {
						key := fmt.Sprint(q.Dim, q.Unit)
						sums[key] = sums[key].Add(q.Value.High)
					}
				}
				for _, q := range it.Needs {
					if sum, ok := sums[fmt.Sprint(q.Dim, q.Unit)]; ok && len(sums) == 1 && !parts {
						require.True(t, sum.Equal(q.Value.High), "%s: %s is %s on the prep sheets and %s to buy", meal.Title, it.Name, sum, q.Value.High)
						seen++
					}
				}
			}
			for _, m := range meal.Makings {
				for _, a := range m.Lines {
					home := a.Source != nil || a.Line.Carried != "" || a.Line.Water
					require.Equal(t, !home, bought[a], "%s: %s of %s", meal.Title, a.Line.Name, m.Recipe.Name)
				}
			}
		}
	}
	require.Greater(t, seen, 150, "it compared something")
}

// The mise-en-place list holds each line of the prep sheets once, and its
// printed amounts are theirs: worked by hand, harvest lunch.
func TestMiseIsTheSumOfThePrepSheets(t *testing.T) {
	r := example(t, "harvest-lunch", compiler.Options{})
	got := rows(sheetOf(t, r.Documents[0], sheets.Mise, ""))
	// Lamb 600 g (for 12), pilaf 300 g (for 12), stock 1.5 kg for 10 l: 2.5 l want 375 g.
	require.Contains(t, got, "600 g | onions, thickly sliced | B2 14:00")
	require.Contains(t, got, "300 g | onions, finely chopped | C1 12:20")
	require.Contains(t, got, "375 g | onions, halved in their skins | G1 12:10")
	require.Contains(t, got, "1.5 litres | brown stock | C2 12:30")
	var salt []string
	for _, row := range got {
		if strings.Contains(row, "fine salt") {
			salt = append(salt, row)
		}
	}
	require.ElementsMatch(t, []string{"16 g | fine salt | A1 10:00", "36 g | fine salt | B1 13:30", "10 g | fine salt | C2 12:30", "3.5 g | fine salt | E1 19:15"}, salt,
		"a box for each weighing, as the prep sheets say, and as a scale can weigh")
	var groups []string
	for _, g := range table(t, sheetOf(t, r.Documents[0], sheets.Mise, ""), 0).Groups {
		groups = append(groups, g.Title)
		last := ""
		for _, row := range g.Rows {
			_, by, _ := strings.Cut(runText(row.Cells[3].Runs), " ")
			require.LessOrEqual(t, last, by, "%s: in order of when it is wanted", g.Title)
			last = by
		}
	}
	require.Equal(t, []string{"Saturday 18 September · Ana", "Sunday 19 September · Ana", "Sunday 19 September · Jo"}, groups)
	n := 0
	for _, m := range r.Meals[0].Makings {
		for _, a := range m.Lines {
			if !a.Line.Water {
				n++
			}
		}
	}
	mentions := 0
	for _, row := range table(t, sheetOf(t, r.Documents[0], sheets.Mise, ""), 0).Groups {
		for _, x := range row.Rows {
			for _, run := range x.Cells[3].Runs {
				if regexp.MustCompile(`^[A-Z]$`).MatchString(run.Text) {
					mentions++
				}
			}
		}
	}
	require.Equal(t, n, mentions, "each line of each dish once")
}

// The log runs by day and clock, and every row has who sets its target and
// room for what was found.
func TestTemperatureLogRunsByTheClock(t *testing.T) {
	r := example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.TempLog}})
	tb := table(t, &r.Documents[0].Sheets[0], 0)
	var days []string
	for _, g := range tb.Groups {
		days = append(days, g.Title)
		last := ""
		for _, row := range g.Rows {
			at := runText(row.Cells[0].Runs)
			require.LessOrEqual(t, last, at, "in order of time")
			last = at
		}
	}
	require.Equal(t, []string{"Saturday 18 September", "Sunday 19 September", "What else was probed"}, days)
	got := strings.Join(rows(&r.Documents[0].Sheets[0]), "\n")
	require.Contains(t, got, "Middle of the food: at least 90 °C (Slow lamb, step 3 · the recipe)")
	require.Contains(t, got, "Cooling ends: down to 8 °C (Brown stock, step 4 · the recipe; UK rules: into the fridge within 90 minutes)")
	require.Contains(t, got, "Reheated, in the middle: at least 75 °C (Slow lamb, step 6 · the recipe)")
	require.Contains(t, got, "Held hot: above 63 °C (Barley pilaf, step 4 · the recipe)")
	require.Contains(t, got, "Fridge: 8 °C or below (by its own thermometer · UK rules)")
	require.Len(t, tb.Columns, 6)
	for _, c := range tb.Columns[3:] {
		require.Equal(t, sheets.PencilColumn, c.Kind, "%s is for a pen", c.Title)
	}
	// Its limits stand with their sources where the whole pack has none, and else one line only.
	cares := func(r *compiler.Result) int {
		for _, s := range r.Documents[0].Sheets {
			if s.Kind == sheets.TempLog {
				return len(s.Blocks[len(s.Blocks)-1].(*sheets.Cautions).Items)
			}
		}
		return -1
	}
	require.Equal(t, 4, cares(r))
	require.Equal(t, 1, cares(example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.Overview, sheets.TempLog}})))
}

// Bread on a rack, and what cools on its way to the table, are no cooked food that is put
// away: nobody is asked to have them in the fridge within ninety minutes.
func TestWhatIsNotPutAwayIsNotLoggedAsCooling(t *testing.T) {
	logged := func(text string) (all string) {
		for _, sheet := range pages(t, text, compiler.Options{Sheets: []sheets.Kind{sheets.RunSheet, sheets.TempLog}}).Sheets {
			if sheet.Kind == sheets.TempLog {
				all = strings.Join(rows(&sheet), "\n")
			}
		}
		return all
	}
	dish := func(list, steps string) string {
		return "menu Trial\n  covers 4\n  on the table 2027-05-08 19:00\n  course Main\n    Trial dish\n\ndish Trial dish\n  serves 4\n  gather\n    " + list + "\n  method\n" + steps + "  serve cold, within 30 min\n"
	}
	const potatoes = "    - Boil the potatoes.\n      | ring high | work 2 min | leave 20 min\n    - Drain, and cool on a tray.\n      | work 2 min | leave 30 min\n"
	require.NotContains(t, logged(dish("1 kg potatoes", potatoes)), "Cooling", "on its way to the table")
	require.Contains(t, logged(dish("1 kg potatoes", potatoes+"    - Cover and chill.\n      | work 2 min | stand 3 h, fridge\n")), "Cooling ends")
	const loaf = "    - Mix the flour, water and yeast, and prove.\n      | work 10 min | leave 1 h\n    - Bake.\n      | oven 220 C | work 2 min | leave 40 min | core 95 C\n    - Cool on a rack.\n      | work 2 min | leave 1 h\n"
	bread := logged(dish("1 kg strong flour\n    600 g water\n    10 g dried yeast", loaf))
	require.Contains(t, bread, "at least 95 °C")
	require.NotContains(t, bread, "Cooling")
}

// What is made raw and then boiled is raw no more: the step that shares it out does not list
// "raw dumplings" to be taken.
func TestWhatWasCookedIsNotListedRaw(t *testing.T) {
	r := example(t, "dumpling-supper", compiler.Options{Sheets: []sheets.Kind{sheets.Prep}})
	var taking []string
	for _, s := range r.Documents[0].Sheets {
		for _, b := range s.Blocks {
			steps, ok := b.(*sheets.Steps)
			if !ok {
				continue
			}
			for _, it := range steps.Items {
				if st, ok := it.(*sheets.Step); ok && slices.ContainsFunc(st.Takes, func(k sheets.Take) bool { return k.Name == "raw dumplings" }) {
					taking = append(taking, runText(st.Runs))
				}
			}
		}
	}
	require.Len(t, taking, 1)
	require.Contains(t, taking[0], "Boil the raw dumplings")
}

// One dish writes 1 egg and another 4 eggs: the box that is bought has eggs in it.
func TestABoxHoldsEggs(t *testing.T) {
	r := example(t, "regatta-picnic", compiler.Options{Sheets: []sheets.Kind{sheets.Shopping}})
	for _, d := range r.Documents {
		for i := range d.Sheets {
			if list := strings.Join(rows(&d.Sheets[i]), "\n"); strings.Contains(list, "1 box") {
				require.Regexp(t, `1 box[^\n]*\| eggs`, list)
				return
			}
		}
	}
	require.Fail(t, "no box is bought")
}

// A cut and a temperature behind a name are in the same units on every sheet: the run sheet
// said 2 cm dice where the list of what is cut said inches.
func TestNotesAreInTheUnitsAskedForOnEverySheet(t *testing.T) {
	const text = "menu Trial\n  covers 4\n  on the table 2027-05-08 19:00\n  course Main\n    Hash\n\ndish Hash\n  serves 4\n  gather\n    1 kg potatoes, in 2 cm dice | work 8 min\n    200 ml water, at 28 C\n    2 onions, cut 1 1/2 cm thick | work 4 min\n  method\n    - Fry the potatoes and onions in the water.\n      | ring high | work 2 min | leave 20 min\n  serve hot, within 10 min\n"
	for _, c := range []struct {
		units     quantity.System
		has, none []string
	}{
		{quantity.NoSystem, []string{"in 2 cm dice", "at 28 °C", "cut 1½ cm thick"}, []string{"inch", "28 C", "1 1/2"}},
		{quantity.US, []string{"in ¾ inch dice", "at 82 °F"}, []string{"2 cm", "28 "}},
	} {
		d := pages(t, text, compiler.Options{Sheets: sheets.Kinds(), PlanAll: true, Units: c.units})
		all := ""
		for i := range d.Sheets {
			all += strings.Join(rows(&d.Sheets[i]), "\n") + "\n"
		}
		for _, e := range d.Events {
			all += e.Cut + "\n"
		}
		for _, want := range c.has {
			require.Contains(t, all, want)
		}
		for _, not := range c.none {
			require.NotContains(t, all, not)
		}
	}
}

// A countdown needs no clock. Without a time of serving every sheet counts, the
// bars of the chart too, and the half hour before is not "the day before".
func TestCountsWithoutAServingTime(t *testing.T) {
	text := strings.Replace(supper, "  on the table 2027-05-08 19:00\n", "", 1)
	text = regexp.MustCompile(`(?m)^  hours.*\n`).ReplaceAllString(text, "")
	d := pages(t, text, compiler.Options{Sheets: sheets.Kinds(), PlanAll: true})
	for _, kind := range []sheets.Kind{sheets.Countdown, sheets.RunSheet} {
		s := sheetOf(t, d, kind, "")
		tb := table(t, s, 0)
		require.Len(t, tb.Groups, 1)
		require.Equal(t, "The day", tb.Groups[0].Title)
		require.Regexp(t, `^T−\d+:\d\d$`, runText(tb.Groups[0].Rows[0].Cells[0].Runs))
		all := strings.Join(rows(s), "\n")
		require.Contains(t, all, "T | A B | Serve: Leek pie, Greens")
		require.Contains(t, all, "T+1:00 | Serve: Lemon sorbet")
	}
	for _, b := range sheetOf(t, d, sheets.Timeline, "").Blocks {
		if c, ok := b.(*sheets.Chart); ok {
			require.Len(t, c.Panels, 1)
			p := c.Panels[0]
			require.Equal(t, "T", p.Time(p.Flags[0].At))
			require.Equal(t, "T+1:00", p.Time(p.Flags[len(p.Flags)-1].At))
		}
	}
}

// With a clock the countdown agrees with the run sheet, day by day.
func TestCountdownAgreesWithTheRunSheet(t *testing.T) {
	r := example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.Countdown}})
	tb := table(t, &r.Documents[0].Sheets[0], 0)
	require.Equal(t, "The day before", tb.Groups[0].Title)
	require.Equal(t, "T−1 day", tb.Groups[0].Note)
	require.Equal(t, "The day", tb.Groups[1].Title)
	want := map[string]bool{}
	for _, j := range r.Timelines[0].Jobs { // served at 13:00
		n := 13*60 - j.Start()
		switch {
		case n > 0:
			want[fmt.Sprintf("T−%d:%02d", n/60, n%60)] = true
		case n == 0:
			want["T"] = true
		default:
			want[fmt.Sprintf("T+%d:%02d", -n/60, -n%60)] = true
		}
	}
	got := map[string]bool{}
	for _, g := range tb.Groups {
		for _, row := range g.Rows {
			got[runText(row.Cells[0].Runs)] = true
		}
	}
	for at := range want {
		require.True(t, got[at], "a job begins at %s", at)
	}
}

// Peaks of pots and rings are those of the plan, counted minute by minute.
func TestPeaksAreThoseOfThePlan(t *testing.T) {
	for _, name := range []string{"harvest-lunch", "village-hall-curry", "dumpling-supper"} {
		r := example(t, name, compiler.Options{Sheets: []sheets.Kind{sheets.Vessels}})
		most := map[int]int{}
		line := r.Timelines[0]
		for m := -5 * 24 * 60; m < 2*24*60; m++ {
			n := 0
			for _, j := range line.Jobs {
				if j.Step != nil && j.Start() <= m && m < j.End() {
					n += j.Rings
				}
			}
			day := (m + 5*24*60) / (24 * 60)
			most[day] = max(most[day], n)
		}
		peak := 0
		for _, n := range most {
			peak = max(peak, n)
		}
		require.Regexp(t, fmt.Sprintf(`Rings \| %d of \d`, peak), strings.Join(rows(&r.Documents[0].Sheets[0]), "\n"), name)
	}
	r := example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.Vessels}})
	got := rows(&r.Documents[0].Sheets[0])
	require.Contains(t, got, "12:50–12:58 | Rings | 3 of 4 | C 2 wide pan, B 7 wide pan, D 1 stockpot")
	require.Contains(t, got, "2 | wide pan (2 in the kitchen, holds 6 litres) | 12:45–13:05: C 1, B 7 | B 7 · C 1, 2 · F 1")
}

// lessThanAnOunce are grams that stay grams, since no kitchen scale shows 9/16 oz.
var lessThanAnOunce = regexp.MustCompile(`\b([0-9]|1[0-9]|2[0-8])(\.5)? g\b`)

// No gram or litre where other units were asked for, and none where a folder
// writes cups: but for what a shop sells and what the writer's sentences say.
func TestOtherUnitsReachEverySheet(t *testing.T) {
	metric := regexp.MustCompile(`\d ?(g|kg|ml|litres?)\b`)
	for _, name := range []string{"harvest-lunch", "village-hall-curry", "dumpling-supper", "bakery-morning"} {
		r := example(t, name, compiler.Options{Units: quantity.US, Sheets: sheets.Kinds()})
		d, words := r.Documents[0], []string{}
		for _, m := range r.Meals[0].Makings {
			for _, sr := range m.Reading.Steps {
				words = append(words, sr.Step.Line, "", sr.Step.Title, "")
			}
		}
		said := strings.NewReplacer(words...)
		for i := range d.Sheets {
			s := &d.Sheets[i]
			for _, f := range s.Facts {
				require.NotRegexp(t, metric, f, "%s, %s", name, s.Title)
			}
			if s.Kind == sheets.Shopping {
				continue // packs are sold as they are sold
			}
			for _, row := range rows(s) {
				row = lessThanAnOunce.ReplaceAllString(said.Replace(row), "")
				require.NotRegexp(t, metric, row, "%s, %s", name, s.Title)
			}
		}
	}
	for _, doc := range example(t, "evening-class", compiler.Options{}).Documents {
		for i := range doc.Sheets {
			if s := &doc.Sheets[i]; s.Kind == sheets.Prep {
				for _, f := range s.Facts {
					require.NotRegexp(t, metric, f, s.Title)
				}
			}
		}
	}
}

// The list of sheets stands on the front before the cautions, so that it is on
// the first page.
func TestContentsStandBeforeCautions(t *testing.T) {
	d := example(t, "harvest-lunch", compiler.Options{Sheets: []sheets.Kind{sheets.Overview}}).Documents[0]
	before, after := d.Sheets[0].Around()
	require.NotEmpty(t, before)
	require.IsType(t, &sheets.Cautions{}, after[0])
}

// What is bought ready stands among the allergens, with its label to be read.
func TestAllergensNameWhatIsBought(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.Allergens}})
	got := rows(&d.Sheets[0])
	require.Contains(t, got, "Lemon sorbet (from the shop · read the label of Lemon sorbet)")
	require.NotContains(t, strings.ToLower(strings.Join(got, "\n")), "free from")
}

// The printed costs of the dishes add up to the printed whole.
func TestCostsAddUp(t *testing.T) {
	for _, name := range []string{"harvest-lunch", "village-hall-curry"} {
		s := &example(t, name, compiler.Options{Sheets: []sheets.Kind{sheets.CostCard}}).Documents[0].Sheets[0]
		cents := func(text string) (n int) {
			_, err := fmt.Sscan(strings.Replace(text, ".", "", 1), &n)
			require.NoError(t, err, text)
			return n
		}
		known := func(c sheets.Cell) int { // where a price is missing, what is known of it
			if text := runText(c.Runs); text != "?" {
				return cents(text)
			}
			if len(c.Sub) == 0 {
				return 0
			}
			return cents(runText(c.Sub))
		}
		sum := 0
		for _, row := range table(t, s, 0).Groups[0].Rows {
			n := known(row.Cells[3])
			if row.Strong {
				require.Equal(t, sum, n, name)
			}
			sum += n
		}
	}
}

// All that the cost card of the Saturday stall says, worked by hand from the
// amounts of expected.csv and the prices of the larder. Of the milk 720 g are
// 720 / 1.03 = 699.03 ml.
//
//	strong flour 8236.48 g at 1.05 a kilo  8.6483    sunflower seeds 192 g at 6     1.1520
//	rye flour 720 g at 1.20                0.8640    pumpkin seeds 144 g at 9.50    1.3680
//	butter 208.8 g at 8.40                 1.7539    dried yeast 48.87 g at 9       0.4398
//	whole milk 699.03 ml at 1.20 a litre   0.8388    caster sugar 72 g at 1.60      0.1152
//	fine salt 177.36 g at 0.80             0.1419    in all                        15.3219
//
// The ferment is 1.5923 of flour and 0.0273 of yeast, 1.6196; of its 3036 g the
// tin loaf takes 1296, the rye round 1200, the rolls 540: 0.6914, 0.6402, 0.2881.
//
//	tin loaf   3.4020 + 0.1750 + 0.0622 + 0.5443 + 0.6914                      4.8749, for 12: 0.4062
//	rye round  1.7640 + 0.8640 + 0.1080 + 0.0480 + 1.1520 + 1.3680 + 0.6402    5.9442, for 8: 0.7430
//	rolls      1.8900 + 0.8388 + 0.1152 + 0.1296 + 0.0317 + 1.2096 + 0.2881    4.5030, for 48: 0.0938
//
// Rounded each for itself they come to 15.31: the cent goes to the loaf, which
// lost most. A cover of the 24 is 15.3219 / 24 = 0.6384. The till takes 9 kg of flour in six
// bags 9.45, 1.5 kg of rye 1.80, a block of butter 2.10, two pints of milk 1.3632, a
// tin of yeast 1.125, and what is weighed out, as printed: salt 177.5 g 0.1420,
// sunflower 1.1520, pumpkin 1.3680, sugar 0.1152; 18.6154 in all.
func TestCostsByHand(t *testing.T) {
	s := &example(t, "bakery-morning", compiler.Options{Sheets: []sheets.Kind{sheets.CostCard}}).Documents[0].Sheets[0]
	require.Equal(t, []string{
		"A | White tin loaf | 12 | 4.88 | 0.41", "B | Seeded rye round | 8 | 5.94 | 0.74", "C | Morning rolls | 48 | 4.50 | 0.09",
		"The meal, and a cover | 24 | 15.32 | 0.64", "D | Overnight ferment | 1.62",
		"The meal, and a cover | 24 | 18.62 | 0.78",
	}, rows(s))
}

// Rings stand beside the oven's times, for the wall above the hob.
func TestOvenSheetHasTheRings(t *testing.T) {
	d := pages(t, supper, compiler.Options{Sheets: []sheets.Kind{sheets.OvenDoor}})
	groups := table(t, &d.Sheets[0], 0).Groups
	require.Equal(t, "Rings, 4 in all", groups[len(groups)-1].Title)
	require.Contains(t, strings.Join(rows(&d.Sheets[0]), "\n"), "B | Greens (Boil the greens in plenty of water) | ring high")
}

// A sum is printed where it guides: not of a list on which most things have no
// price.
func TestASumOnlyWhereMostHaveAPrice(t *testing.T) {
	facts := func(name string) (all string) {
		for _, d := range example(t, name, compiler.Options{}).Documents {
			for _, s := range d.Sheets {
				all += strings.Join(s.Facts, " · ") + "\n"
				for _, b := range s.Blocks {
					if h, ok := b.(*sheets.Heading); ok {
						all += h.Note + "\n"
					}
				}
			}
		}
		return all
	}
	require.Contains(t, facts("harvest-lunch"), "prices are known for 27 of 33 things: what is used of these costs 121.25; at the till 135.11")
	require.NotContains(t, facts("evening-class"), "costs ")
}

// What stands in the larder for days before the meal has a label, by what its
// step allows: filled on Tuesday 2 March, 8 weeks on is Tuesday 27 April.
func TestALabelForWhatStands(t *testing.T) {
	d := example(t, "village-hall-curry", compiler.Options{Sheets: []sheets.Kind{sheets.DateLabels, sheets.RunSheet}}).Documents[0]
	got := strings.Join(rows(sheetOf(t, d, sheets.DateLabels, "")), "\n")
	require.Regexp(t, `E \| Tomato and ginger chutney.*made Tue 2 Mar 20:59 \| use by Tue 27 Apr 20:59`, got)

	// The onions stay in their pot on the ring between two steps; nobody takes
	// them off.
	run := strings.Join(rows(sheetOf(t, d, sheets.RunSheet, "")), "\n")
	require.NotRegexp(t, `Golden onions, step 1[^\n]*off the ring`, run)
	require.NotRegexp(t, `Golden onions, step 2[^\n]*off the ring`, run, "who spreads them at that minute does")
	require.Regexp(t, `Baked rice, step 4[^\n]* 12:\d\d`, run)
}
