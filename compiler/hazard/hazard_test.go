package hazard_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// trace follows the first recipe of a text.
func trace(t *testing.T, text string) *hazard.Trace {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	m := resolve.Build(tree, diags)
	require.False(t, diags.HasErrors(), "%v", diags.Sorted())
	return hazard.NewTracer().Recipe(m.Recipes[0])
}

const stew = `dish Stew
  serves 4
  gather
    800 g    braising beef
    500 ml   water
  method
    - Simmer the beef in the water.
      | ring low | leave 2 h
    - Cool in iced water.
      | work 5 min | leave 1 h
    - Cover.
      | work 2 min
    pause up to 1 day, fridge
    - Bring back to the boil.
      | only after a pause | ring medium | watch 10 min
    - Keep at a simmer.
      | not after a pause | ring low | leave 5 min
`

func TestFoodIsFollowed(t *testing.T) {
	tr := trace(t, stew)
	require.Len(t, tr.Stages, 4, "what a dish does that does not pause is left out")
	hot, cooled, cover, back := tr.Stages[0], tr.Stages[1], tr.Stages[2], tr.Stages[3]
	require.True(t, hot.Heats)
	require.Equal(t, hazard.Hot, hot.After.Warmth)
	require.True(t, hot.After.Cooked)
	require.False(t, hot.Warms, "it is cooked, not brought back")
	require.True(t, cooled.Cools)
	require.False(t, cooled.Heats)
	require.Equal(t, hazard.Cooled, cooled.After.Warmth)
	require.Equal(t, hazard.Cooled, cover.After.Warmth, "a lid changes nothing")
	require.Len(t, tr.Breaks, 1)
	require.Equal(t, hazard.Cooled, tr.Breaks[0].Pot.Warmth)
	require.Equal(t, hazard.Chilled, back.Before.Warmth, "it waited in the fridge")
	require.True(t, back.Warms)
	require.True(t, back.Boils())
	require.Len(t, tr.End.Back, 1)
}

func TestBasesBringWhatIsInThem(t *testing.T) {
	tr := trace(t, `dish Pie
  serves 4
  gather
    400 g    raw filling
    400 g    cooked filling
  method
    - Layer the raw filling and the cooked filling and bake.
      | oven 180 C | work 5 min | leave 30 min

base Raw filling
  makes 400 g
  gather
    400 g    minced pork
  method
    - Season the minced pork.
      | work 5 min

base Cooked filling
  makes 400 g
  keeps 1 day, fridge
  gather
    500 g    chicken thighs
  method
    - Roast the chicken thighs.
      | oven 200 C | leave 40 min
    - Cool quickly on trays.
      | work 4 min | leave 40 min
`)
	require.Len(t, tr.End.Items, 2)
	pork, chicken := tr.End.Items[0], tr.End.Items[1]
	require.Equal(t, "raw filling", pork.Line.Name, "the line of the dish")
	require.Equal(t, "minced pork", pork.Name)
	require.True(t, pork.Is(hazard.Mince))
	require.False(t, pork.Is(hazard.Pork), "the limit of mince is the higher one")
	require.False(t, pork.Before)
	require.True(t, chicken.Before, "its base has cooked it")
	require.True(t, tr.Stages[0].Warms, "cooked chicken out of the fridge is brought back")
	require.Equal(t, []hazard.Kind{hazard.Mince}, tr.Raw())
}

// A strand beside a step has its own pot until the next plain step.
func TestStrandsAreApart(t *testing.T) {
	tr := trace(t, `dish Salad
  serves 4
  gather
    300 g    natural yoghurt
    10 g     cumin seeds
    200 g    cucumbers
  method
    - Drain the cucumbers.
      | work 4 min | leave 20 min
    - Toast the cumin seeds.
      | meanwhile | ring medium | work 4 min
    - Stir the cucumbers and cumin seeds into the yoghurt.
      | work 4 min
    - Chill.
      | stand 2 h, fridge
`)
	require.Len(t, tr.Stages[0].After.Items, 1)
	require.Len(t, tr.Stages[1].After.Items, 1)
	require.Len(t, tr.Stages[2].After.Items, 3)
	require.False(t, tr.End.Cooked, "toasted seeds make no cooked dish")
	require.Equal(t, hazard.Chilled, tr.End.Warmth)
}

func TestWordsThatHeat(t *testing.T) {
	heats := func(sentence string) bool {
		return trace(t, "dish A\n  serves 2\n  gather\n    4        eggs\n  method\n    - "+sentence+"\n").Stages[0].Heats
	}
	require.True(t, heats("Fry the eggs."))
	require.True(t, heats("Beat the eggs, then cook gently."))
	require.True(t, heats("Cover the eggs and simmer."))
	require.False(t, heats("Beat the eggs while the oven heats."))
	require.False(t, heats("Slice the boiled eggs."))
	require.False(t, heats("Beat the eggs for the fry-up."))
}

func TestWhatGermsGrowIn(t *testing.T) {
	end := func(lines string) hazard.Pot {
		return trace(t, "dish A\n  serves 2\n  gather\n"+lines+"  method\n    - Simmer everything.\n      | ring low | leave 20 min\n").End
	}
	require.True(t, end("    1 kg     potatoes\n").Grows())
	require.True(t, end("    300 ml   double cream\n    100 g    caster sugar\n").Grows())
	require.False(t, end("    1 kg     plums\n    1 kg     caster sugar\n").Grows(), "jam")
	require.False(t, end("    1 kg     onions\n    500 ml   cider vinegar\n").Grows(), "pickle")
	require.True(t, end("    2 kg     lentils\n    50 g     caster sugar\n").Grows(), "a spoonful keeps nothing")
	require.True(t, end("    1 kg     potatoes\n    20 ml    lime juice\n").Grows())
	require.False(t, end("    200 g    butter\n    200 g    plain flour\n").Grows(), "roux")
	require.True(t, end("    300 g    basmati rice\n").Rice())
}

// Carried over, tinned and cooked things are not raw.
func TestWhatIsNotRaw(t *testing.T) {
	for _, line := range []string{
		"400 g    chicken  | left from Saturday", "400 g    cooked chicken", "400 g    chicken, roasted", "1 x 400 g tin tuna", "100 g    smoked salmon",
		"500 ml   chicken stock", "60 g     duck fat",
	} {
		tr := trace(t, "dish A\n  serves 2\n  gather\n    "+line+"\n  method\n    - Stir everything.\n")
		require.Len(t, tr.End.Items, 1, line)
		require.Empty(t, tr.End.Items[0].Kinds, line)
	}
	tr := trace(t, "dish A\n  serves 2\n  gather\n    400 g    speckled guinea fowl joints\n  method\n    - Stir everything.\n")
	require.True(t, tr.End.Items[0].Is(hazard.Poultry), "a name that the larder does not know")
}

// The cautions are few words, promise nothing, and say who is behind them.
func TestCautionsAreShortAndPromiseNothing(t *testing.T) {
	promise := regexp.MustCompile(`(?i)\bsafe(ly)?\b|\bfree from\b|-free\b`)
	keys := map[string]bool{}
	for _, c := range hazard.Cautions() {
		require.False(t, keys[c.Key])
		keys[c.Key] = true
		require.NotRegexp(t, promise, c.Text)
		require.LessOrEqual(t, len(c.Text), 130, c.Key)
		require.Regexp(t, `\.$`, c.Text)
		require.Regexp(t, `, as seen quoted$|^common practice, no source$`, c.Source, c.Key)
	}
	require.Panics(t, func() { hazard.Find("no such thing") })
}

func TestHandsAreFoundByToolAndWord(t *testing.T) {
	keys := func(sentence, margin string) (out []string) {
		tr := trace(t, "dish A\n  serves 2\n  gather\n    500 g    carrots\n    500 ml   water\n  method\n    - Simmer the carrots in the water.\n      | ring low | leave 20 min\n    - "+sentence+"\n      | "+margin+"\n")
		for _, c := range hazard.Cautions() {
			if c.Hand(tr.Stages[1], 1) {
				out = append(out, c.Key)
			}
		}
		return out
	}
	require.Equal(t, []string{"blender"}, keys("Make a puree.", "tool blender | work 3 min"))
	require.Empty(t, keys("Make a puree.", "tool stick blender | work 3 min"))
	require.Empty(t, keys("Cool in iced water.", "work 3 min"))
	require.Equal(t, []string{"mandoline"}, keys("Slice on the mandoline.", "work 3 min"))
	require.Equal(t, []string{"deep fat"}, keys("Deep-fry in batches.", "ring high | watch 3 min"))
	require.Equal(t, []string{"blowtorch"}, keys("Scorch with the blowtorch.", "work 3 min"))
	require.Equal(t, []string{"dry ice"}, keys("Drop in a piece of solid carbon dioxide.", "work 3 min"), "it is said, though nobody gathers it")
}

// A circle of bases is followed once, and ends.
func TestCirclesEnd(t *testing.T) {
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte("base One\n  makes 1 kg\n  gather\n    1 kg     two\n  method\n    - Stir the two.\n\nbase Two\n  makes 1 kg\n  gather\n    1 kg     one\n  method\n    - Stir the one.\n")}}, ".", "", "")
	require.NoError(t, err)
	m := resolve.Build(tree, &diag.List{})
	tracer := hazard.NewTracer()
	for _, r := range m.Recipes {
		tr := tracer.Recipe(r)
		require.True(t, tr == nil || !slices.ContainsFunc(tr.Stages, func(s *hazard.Stage) bool { return s == nil }))
	}
}

// What rests on a heat that nobody has confirmed is unsure, its own or that of a base
// it draws on: the safety rules look at it without them too.
func TestWhatRestsOnAnOfferIsUnsure(t *testing.T) {
	const dish = "dish Pie\n  serves 4\n  gather\n    300 g filling\n    500 g leeks\n  method\n    - Fold the filling into the leeks.%s\n"
	const base = "base Filling\n  makes 300 g\n  gather\n    300 g minced beef\n  method\n    - Cook the minced beef"
	for text, want := range map[string]bool{
		dish + base + ".\n      | ring high | watch 10 min\n":                                     false,
		dish + base + " in the oven at 180 C for 40 minutes.\n":                                   true,
		strings.Replace(dish, "%s", " Bake at 200 C for 30 minutes.", 1) + base + ".\n":           true,
		strings.Replace(dish, "%s", "\n      | work 5 min", 1) + base + ".\n      | work 5 min\n": false,
	} {
		text = strings.Replace(text, "%s", "", 1)
		require.Equal(t, want, trace(t, text).Unsure, text)
	}
}
