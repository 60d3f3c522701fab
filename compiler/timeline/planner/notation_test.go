package planner

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
)

// Meals written in the notation, through every pass.

// planText plans the one meal of a text.
func planText(t *testing.T, text string) (*timeline.Timeline, *diag.List) {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"meal.tamis": {Data: []byte(text)}}, ".", "", ".")
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	meals := demand.Meals(resolve.Build(tree, diags), demand.Options{}, diags)
	require.NotEmpty(t, meals)
	var b bytes.Buffer
	require.NoError(t, diag.WriteText(&b, diags.Sorted(), diag.TextOptions{}))
	require.False(t, diags.HasErrors(), b.String())
	found := &diag.List{}
	return Plan(context.Background(), meals[0], timeline.Options{}, found), found
}

func onTime(t *testing.T, text string) *timeline.Timeline {
	t.Helper()
	line, diags := planText(t, text)
	require.NotNil(t, line, "%v", diags.Sorted())
	require.Zero(t, line.Late, "%v", diags.Sorted())
	audit(t, line)
	return line
}

// a menu for six at one o'clock in a kitchen with one cook
const atOne = `menu Lunch
  covers 6
  on the table 2027-09-19 13:00
  at Cottage
  course Main
    `

const cottage = `
kitchen Cottage
  cooks Ana
  oven main, 2 shelves, preheat 15 min
  rings 2
  tools blender
  vessel stockpot, holds 6 litres
larder
  units metric
`

// Times that grow: with what is taken, at the size that is cooked; by loads of
// the vessel; the part that does not grow is counted once.
func TestTimesGrow(t *testing.T) {
	line := onTime(t, `menu Lunch
  covers 12
  on the table 2027-09-19 13:00
  at Cottage
  course Main
    Beans
dish Beans
  serves 6
  gather
    600 g    green beans, topped | work 6 min
    3        onions
    30 ml    oil
  method
    - Fry the onions in the oil.
      | ring low | work 2 min plus 3 min per onion
    - Boil the green beans in batches.
      | ring high | in big pan, holds 500 ml | work 1 min plus 4 min per load
    - Toss.
      | work 2 min
`+cottage)
	fry, boil, toss := job(line, t, "Fry the onions in the oil"), job(line, t, "Boil the green beans in batches"), job(line, t, "Toss")
	require.Equal(t, 2+3*6, fry.End()-fry.Start(), "six onions")
	require.Equal(t, 3, boil.Loads, "1200 g at 500 a time")
	require.Equal(t, 1+3*4, boil.End()-boil.Start())
	require.Equal(t, 2, toss.End()-toss.Start(), "a step without `per` does not grow")
	prep := job(line, t, "green beans, topped")
	require.Equal(t, 12, prep.End()-prep.Start())
	require.Equal(t, timeline.PrepJob, prep.Kind)
	require.Contains(t, boil.After, prep)
}

// Several vessels of a kind grow with the covers, and two steps that want more
// of them than there are come one after the other. By hand: 2 trays for 6 are 4
// for 12, of 5 there are; the turnips want 2.
func TestSeveralVessels(t *testing.T) {
	text := `menu Lunch
  covers 12
  on the table 2027-09-19 13:00
  at Cottage
  course Main
    Leeks
    Turnips, for 6
dish Leeks
  serves 6
  gather
    1 kg     leeks
  method
    - Spread out the leeks.
      | in 2 trays | leave 30 min
  serve cold
dish Turnips
  serves 6
  gather
    1 kg     turnips
  method
    - Spread out the turnips.
      | in 2 trays | leave 30 min
  serve cold
` + strings.Replace(cottage, "larder", "  vessel tray, holds 2 litres, 5\nlarder", 1)
	line := onTime(t, text)
	leeks, turnips := job(line, t, "Spread out the leeks"), job(line, t, "Spread out the turnips")
	require.Equal(t, []int{4, 2}, []int{leeks.Vessels, turnips.Vessels})
	require.True(t, leeks.End() <= turnips.Start() || turnips.End() <= leeks.Start(), "not six trays at once of five")
	line = onTime(t, strings.Replace(text, "litres, 5", "litres, 6", 1))
	require.Equal(t, job(line, t, "Spread out the leeks").Start(), job(line, t, "Spread out the turnips").Start())
}

// A time may grow with the pieces a step is shared into. By hand: 24 rolls for 6
// are 48 for 12, at 15 min per 24, and half a minute for each to glaze.
func TestTimesGrowWithPieces(t *testing.T) {
	line := onTime(t, `menu Lunch
  covers 12
  on the table 2027-09-19 13:00
  at Cottage
  course Main
    Rolls
dish Rolls
  serves 6
  gather
    700 g    strong flour
  method
    - Mix the flour.
      | work 10 min
    - Shape into rolls.
      | into 24 rolls | work 15 min per 24 rolls
    - Glaze.
      | work 30 s per roll
`+cottage)
	shape, glaze := job(line, t, "Shape into rolls"), job(line, t, "Glaze")
	require.Equal(t, 30, shape.End()-shape.Start())
	require.Equal(t, 24, glaze.End()-glaze.Start())
}

// A base is made before what draws on it, on a day before where it keeps and a
// night is needed; its strained oil needs nobody at its end.
func TestBaseTheDayBefore(t *testing.T) {
	line := onTime(t, atOne+`Soup
dish Soup
  serves 6
  gather
    60 ml    herb oil
    1 litre  milk
  method
    - Warm the milk.
      | ring low | work 10 min
    - Trail the herb oil over.
      | work 2 min
  serve hot, within 10 min
base Herb oil
  makes 60 ml
  keeps 2 days, fridge
  gather
    66 ml    rapeseed oil
  method
    - Blend the rapeseed oil.
      | tool blender | work 5 min
    - Leave to drip.
      | work 2 min | stand overnight, fridge
`+cottage)
	drip, trail := job(line, t, "Leave to drip"), job(line, t, "Trail the herb oil over")
	require.Less(t, drip.Start(), 0, "the day before")
	require.GreaterOrEqual(t, drip.End()-drip.Start(), 8*60)
	require.LessOrEqual(t, drip.End()-drip.Start(), 14*60+2)
	require.LessOrEqual(t, drip.Phases[0].End, at(21, 0)-timeline.Day, "a cook is there until nine the day before")
	require.Equal(t, at(12, 55), trail.Start())
	require.Contains(t, trail.After, drip)
	require.Equal(t, []string{"blender"}, job(line, t, "Blend the rapeseed oil").Tools)
	require.Contains(t, line.Note, "Work begins before the day of serving")
}

// Moments and repeated attention take hands while a step is left.
func TestMomentsTakeHands(t *testing.T) {
	line := onTime(t, atOne+`Stew
dish Stew
  serves 6
  gather
    1 kg     beef
  method
    - Simmer the beef.
      | ring low | work 1 min every 20 min | leave 1 h
      at 30 min: Skim off the fat. | work 2 min
      at half time: Turn it.
    - Dish up.
      | work 5 min
  serve hot, within 10 min
`+cottage)
	stew := job(line, t, "Simmer the beef")
	require.Equal(t, at(11, 55), stew.Start())
	require.Equal(t, 60, stew.End()-stew.Start())
	require.Equal(t, []string{"Ana"}, stew.Cooks, "it is put on, and nobody stands by it")
	type look struct {
		at   int
		text string
	}
	var seen []look
	for _, touch := range stew.Touches {
		require.Equal(t, []string{"Ana"}, touch.Cooks)
		seen = append(seen, look{touch.Start - stew.Start(), touch.Text})
	}
	require.Equal(t, []look{{20, ""}, {30, "Skim off the fat."}, {30, "Turn it."}, {40, ""}}, seen)
}

// What is drawn off in the middle of a step is there from then on, not from
// its end.
func TestDrawnAtAMoment(t *testing.T) {
	line := onTime(t, atOne+`Roast
    Dumplings
dish Roast
  serves 6
  gather
    2 kg     beef
  method
    - Roast the beef.
      | oven 180 C | work 5 min | leave 2 h
      at 30 min: Spoon off the fat. | sets aside 120 ml beef fat
    - Carve.
      | work 10 min
  serve hot, within 10 min
dish Dumplings
  serves 6
  gather
    120 ml   beef fat
    300 g    flour
  method
    - Rub the beef fat into the flour.
      | work 10 min
    - Steam.
      | ring low | leave 50 min
  serve hot, within 10 min
`+cottage)
	roast, rub := job(line, t, "Roast the beef"), job(line, t, "Rub the beef fat into the flour")
	require.Equal(t, at(10, 40), roast.Start(), "one cook carves, and takes the dumplings off")
	require.Less(t, rub.Start(), roast.End(), "it does not wait for the end of the roast")
	require.GreaterOrEqual(t, rub.Start(), roast.Start()+5+30)
}

// An oven goes from one heat to another while the food stays in; nothing else
// is put in at a heat it does not allow.
func TestTwoHeatsInOneStep(t *testing.T) {
	line := onTime(t, atOne+`Loaf
    Crumble
dish Loaf
  serves 6
  gather
    1 kg     dough
  method
    - Bake the dough.
      | oven 220 C for 20 min then 180 C | work 5 min | leave 1 h
    - Cool.
      | rest 30 min
dish Crumble
  serves 6
  gather
    1 kg     plums
  method
    - Bake the plums.
      | oven 170 to 190 C | work 5 min | leave 30 min
  serve warm, within 1 h
`+cottage)
	loaf, crumble := job(line, t, "Bake the dough"), job(line, t, "Bake the plums")
	require.Len(t, line.Heats, 2)
	require.Equal(t, 220, line.Heats[0].Celsius)
	require.Equal(t, 180, line.Heats[1].Celsius)
	require.GreaterOrEqual(t, crumble.Start()+5, loaf.Start()+25, "not while the oven is at 220")
}

// The writer's limits: within, hold, and times before serving.
func TestWrittenLimits(t *testing.T) {
	line := onTime(t, `menu Lunch
  covers 6
  on the table 2027-09-19 13:00
  at Cottage
  task Lay the table, work 20 min, before Main
  task Clear away, work 10 min, after Main
  course Main
    Souffle
    Gravy
    Salad
dish Souffle
  serves 6
  gather
    6        eggs
  method
    - Bake the eggs.
      | oven 200 C | work 5 min | leave 20 min
    - Carry out.
      | work 1 min | within 1 min
  serve hot, within 5 min
dish Gravy
  serves 6
  gather
    500 ml   stock
  method
    - Boil the stock.
      | ring high | work 15 min | hold hot up to 1 h, above 63 C
  serve hot, within 10 min
dish Salad
  serves 6
  gather
    300 g    leaves
  method
    - Take the leaves out of the cold.
      | work 1 min | start 30 min before serving
  serve at room temperature
`+cottage)
	bake, carry := job(line, t, "Bake the eggs"), job(line, t, "Carry out")
	require.LessOrEqual(t, carry.Start()-bake.End(), 1)
	require.LessOrEqual(t, at(13, 0)-carry.End(), 5)
	require.Equal(t, at(12, 30), job(line, t, "Take the leaves out of the cold").Start())
	gravy := job(line, t, "Boil the stock")
	require.LessOrEqual(t, at(13, 0)-gravy.End(), 60)
	table := job(line, t, "Lay the table")
	require.LessOrEqual(t, table.End(), at(13, 0))
	require.Equal(t, timeline.TaskJob, table.Kind)
	require.Equal(t, at(13, 1), job(line, t, "Clear away").Start(), "the one cook serves first")
}

// A step after a named moment, or after the start, does not wait for the step
// before it; serving waits for every step.
func TestAfter(t *testing.T) {
	line := onTime(t, atOne+`Plate
dish Plate
  serves 6
  gather
    1 kg     ham
    500 ml   cream
  method
    - Boil the ham.
      | ring low | leave 1 h | makes boiled ham
    - Whip the cream.
      | any time | work 10 min | makes whipped cream
    - Slice the ham.
      | after boiled ham | work 10 min
  serve warm, within 1 h
`+cottage)
	boil, whip, slice := job(line, t, "Boil the ham"), job(line, t, "Whip the cream"), job(line, t, "Slice the ham")
	require.Equal(t, []*timeline.Job{boil}, slice.After)
	require.Empty(t, whip.After)
	require.LessOrEqual(t, slice.Start()-boil.End(), 10)
	require.LessOrEqual(t, whip.End(), at(13, 0))
}

// Without a serving time there is no clock: 0 is the first serving.
func TestWithoutAClock(t *testing.T) {
	line := onTime(t, `menu Lunch
  covers 6
  course First
    Soup
  course Main, 30 min after First
    Bread
dish Soup
  serves 6
  gather
    1 litre  stock
  method
    - Heat the stock.
      | ring high | work 10 min
  serve hot, within 10 min
dish Bread
  serves 6
  gather
    1 kg     dough
  method
    - Bake the dough.
      | oven 220 C | leave 40 min
  serve warm, within 5 min
larder
  units metric
`)
	require.False(t, line.Clock)
	require.Equal(t, -10, job(line, t, "Heat the stock").Start())
	require.Equal(t, -15, job(line, t, "Bake the dough").Start(), "the same cook puts it in")
	require.Equal(t, 25, job(line, t, "Bake the dough").End())
	require.Equal(t, []string{"Cook"}, line.Cooks)
	require.Equal(t, -30, line.Heats[0].Preheat)
	require.Contains(t, line.Note, "No kitchen is named")
}

// A recipe by itself is planned at its written size, to be ready at 0.
func TestRecipeAlone(t *testing.T) {
	line, diags := planText(t, `dish Toast
  serves 2
  gather
    4        slices bread
    20 g     butter
  method
    - Toast the bread.
    - Spread the butter.
      | work 2 min
    - Serve.
larder
  units metric
`)
	require.NotNil(t, line)
	audit(t, line)
	require.Equal(t, 0, line.Servings[0].At)
	require.True(t, job(line, t, "Toast the bread").Assumed)
	require.False(t, job(line, t, "Spread the butter").Assumed)
	all := diags.Sorted()
	require.Len(t, all, 1, "one question a recipe")
	require.Equal(t, "P101", all[0].Code)
	require.Equal(t, diag.Question, all[0].Severity)
	require.Contains(t, all[0].Message, "2 steps of Toast have no time")
}

// More than the kitchen has is an error at the step, and planned with what
// there is.
func TestMoreThanThereIs(t *testing.T) {
	line, diags := planText(t, atOne+`Banquet
dish Banquet
  serves 6
  gather
    1 kg     beef
  method
    - Sear the beef.
      | 3 rings high | work 10 min | with 2 cooks
    - Roast the beef.
      | oven 200 C, 3 shelves | work 5 min | leave 30 min
`+cottage)
	require.NotNil(t, line)
	var codes, texts []string
	for _, d := range diags.Sorted() {
		codes = append(codes, d.Code)
		texts = append(texts, d.Message)
	}
	require.Equal(t, []string{"P104", "P104", "P104"}, codes)
	require.Contains(t, texts, "step 1 of Banquet (Sear the beef) wants 3 rings, and Cottage has 2")
	require.Contains(t, texts, "step 1 of Banquet (Sear the beef) wants 2 cooks, and Cottage has 1")
	require.Contains(t, texts, "step 2 of Banquet (Roast the beef) wants 3 shelves, and Cottage has 2")
}

// A moment in a night's cure asks nobody to get up.
func TestMomentAtNight(t *testing.T) {
	line := onTime(t, atOne+`Fish
dish Fish
  serves 6
  gather
    1 kg     salmon
  method
    - Salt the salmon.
      | work 10 min | leave 12 h to 14 h | fridge
      at half time: Turn it.
    - Slice.
      | work 10 min
  serve cold
`+cottage)
	cure := job(line, t, "Salt the salmon")
	require.Len(t, cure.Touches, 1)
	require.Empty(t, cure.Touches[0].Cooks)
	require.Equal(t, 10+7*60, cure.Touches[0].Start-cure.Start())
	require.Less(t, cure.Start(), at(21, 0)-timeline.Day)
}

// What is only taken by a step that brings the dish back is prepared only when
// the dish is paused; what a later step takes as well is always prepared.
func TestPreparedWhenPaused(t *testing.T) {
	text := func(hours string) string {
		return menuOf(hours, "    Slow beef\n") + `dish Slow beef
  serves 6
  gather
    2 kg     beef
    1 litre  stock, warmed | work 3 min
    20 g     parsley, chopped | work 4 min
  method
    - Braise the beef.
      | oven 150 C | work 10 min | leave 3 h
    pause up to 1 day, fridge
    - Bring it back in half the stock with half the parsley.
      | only after a pause | oven 150 C | work 5 min | leave 40 min
    - Slice, and strew with the rest of the parsley.
      | work 10 min
  serve hot, within 15 min
` + cottage
	}
	one := onTime(t, text("  hours day before, 15:00 to 20:00\n  hours on the day, 08:00 to 14:00\n"))
	require.Empty(t, one.Paused)
	require.NotContains(t, titles(one.Jobs), "stock, warmed")
	require.Contains(t, titles(one.Jobs), "parsley, chopped")
	two := onTime(t, text("  hours day before, 15:00 to 20:00\n  hours on the day, 11:00 to 14:00\n"))
	require.Len(t, two.Paused, 1)
	require.Contains(t, titles(two.Jobs), "stock, warmed")
	require.Contains(t, titles(two.Jobs), "parsley, chopped")
}
