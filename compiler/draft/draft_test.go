package draft_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler/draft"
	"tamis/lang/quantity"
)

func made(name, text string) *draft.Result {
	out, err := draft.Make(context.Background(), name, text, draft.Options{})
	if err != nil {
		return &draft.Result{}
	}
	return out
}

// The shapes of a Recipe in JSON-LD. text.json has the properties of the example on
// schema.org's page of the type, as seen quoted in public repositories (author a string,
// instructions one text, InteractionCounter, NutritionInformation, a diet); the others are
// from memory: the type as an IRI and `ingredients`, which came before recipeIngredient;
// a prefix, @list, QuantitativeValue, ItemList with directions and tips.
func TestShapesOfSchemaOrg(t *testing.T) {
	for name, want := range map[string][]string{
		"text.json": {
			"dish Tin gingerbread\n", "  by Wim Koster\n", "  makes 1 loaf\n", "3 to 4   pieces stem ginger, chopped\n", "3/4 cup  black treacle\n", "# nutrition fatContent: 8 grams fat\n", "# To cook: 1 h\n",
			"| oven 170 C ? | leave 1 h ?\n", "userInteractionCount: 140\n",
		},
		"old.json":  {"dish Mint tea\n", "  serves 4 ?\n", "  takes 8 min\n", "    1 bunch  mint\n", "    - Boil the water.\n", "| leave 5 min ?\n"},
		"list.json": {"dish Bean paste\n", "  makes 400 g\n", "    1        lemon, juiced\n", "Soak the beans overnight. Soft water is kinder to them.\n", "| leave overnight ?\n", "| ring low ? | leave 1 h 15 min ?\n"},
	} {
		b, err := os.ReadFile(filepath.Join("../../testdata/draft/schema", name))
		require.NoError(t, err)
		r := made(name, string(b))
		assert.Equal(t, draft.JSONLD, r.Kind)
		for _, w := range want {
			assert.Contains(t, r.Text, w, name)
		}
		assert.Empty(t, read(t, r.Text).errors, name)
	}
}

// A Recipe that the elements of a page mark, as the Microdata example on schema.org's page of
// the type does (as seen quoted in public repositories), is read as one in JSON-LD is.
func TestMicrodata(t *testing.T) {
	b, err := os.ReadFile("../../testdata/draft/schema/marked.html")
	require.NoError(t, err)
	r := made("marked.html", string(b))
	assert.Equal(t, draft.HTML, r.Kind)
	for _, w := range []string{
		"dish Tin gingerbread & pears\n", "  by Wim Koster\n", "  makes 1 loaf\n", "3 to 4   pieces stem ginger, chopped\n", "3/4 cup  black treacle\n",
		"# nutrition fatContent: 8 grams fat\n", "# To cook: 1 h\n", "    - Heat the oven to 170 C. Stir everything together.\n", "| oven 170 C ? | leave 1 h ?\n", "userInteractionCount: 140\n",
	} {
		assert.Contains(t, r.Text, w)
	}
	assert.NotContains(t, r.Text, "Elsewhere")
	assert.Empty(t, read(t, r.Text).errors)

	r = made("x.html", `<html><body><div itemscope itemtype="https://schema.org/Recipe"><h1 itemprop="name">Tea</h1></div><p>Ingredients</p><ul><li>1 lemon</li></ul></body></html>`)
	assert.Contains(t, r.Text, "1        lemon", "a mark without a list says nothing")
}

// What is certain is written bare, what is read from a sentence has a mark, and what would
// be a guess, a sum or a double of ours is not written.
func TestNoFigureOfOurs(t *testing.T) {
	for _, c := range []struct{ text, has, not string }{
		{"Fry the onions until golden.", "| ring medium ?\n", "say"},
		{"Fry the steaks 3 minutes a side.", "| ring medium ?\n", "6 min"},
		{"Boil the beans for 20 minutes, add the salt and boil for 10 minutes more.", "leave 20 min ?", "30 min"},
		{"Simmer an hour, stirring now and then.", "ring low ?", "every 10"},
		{"Hold for no more than 1 hour.", "Hold for", "0 min"},
		{"Bake at 350 F for 25 minutes.", "oven 350 F ?", "180"},
		{"Chill overnight in the fridge.", "stand overnight, fridge ?", "8"},
	} {
		r := made("x.txt", "Supper\n\n"+c.text+"\n")
		assert.Contains(t, r.Text, c.has, c.text)
		assert.NotContains(t, r.Text, c.not, c.text)
	}
}

// A list that sentences make: each amount is the sentence's own, and one that is said twice
// is a sum as it was said.
func TestListOfSentences(t *testing.T) {
	for text, want := range map[string][]string{
		"Shred eight grapefruit and five limes, and drown them in a crock with three quarts of water.": {"8        grapefruit", "5        limes", "3 quarts water"},
		"Rub 1/3 cup butter into the flour. Melt 1/2 cup butter and pour it over.":                     {"1/3 cup plus 1/2 cup butter", "flour"},
		"Stuff a ten-pound turkey with the sage.":                                                      {"10 lb    turkey", "sage"},
		"Take a pound and a half of shin of beef and half a lemon.":                                    {"1 1/2 lb shin of beef", "1/2      lemon"},
		"Peel one quart of even-sized, red-skinned onions.":                                            {"1 quart  even-sized, red-skinned onions"},
	} {
		r := made("x.txt", text)
		for _, w := range want {
			assert.Contains(t, r.Text, "    "+w+"\n", text)
		}
	}
	for text, not := range map[string]string{
		"Cut the dough into 24 pieces and bake for four hours.": "    24",
		"Roast 2 kg beef from 3 to 4-1/2 hours.":                "hours\n",
		"Put it on a tin sheet.":                                "1 tin",
		"Roll it out two inches thick.":                         "    2",
	} {
		assert.NotContains(t, made("x.txt", text).Text, not, text)
	}
}

// A label that runs on into a whole paragraph takes none of its words with it.
func TestLabelsLoseNothing(t *testing.T) {
	for _, text := range []string{
		"_Quantities required for a large pot._--Half a lb. of roux loosened in a stockpot with three quarts of broth. Set it over the heat and beat it until it bubbles.",
		"Ingredients for a hungry crew of sailors in bad weather:\n2 leeks\n",
		"You'll need:\n\n2 leeks\n3 eggs\n",
		"Notes for the next time\n\nUse a larger pan.",
		"PICKLED WALNUTS. Gather a hundred green walnuts while a pin will pass through every one of them.",
	} {
		assert.Empty(t, missing(text, made("x.txt", text).Text), text)
	}
}

// Whose cups they are is a guess with a mark, unless it was asked for.
func TestWhoseCups(t *testing.T) {
	for text, want := range map[string]string{
		"2 cups flour\n1 stick butter\n":   "  units US ?\n",
		"1 pint milk\n4 oz. sugar\n":       "  units imperial ?\n",
		"200 g flour\nBake at 150 C.\n":    "",
		"200 g flour\n2 cups milk\n50 g x": "  units metric ?\n",
	} {
		got := made("x.txt", text).Text
		if want == "" {
			assert.NotContains(t, got, "units", text)
			continue
		}
		assert.Contains(t, got, want, text)
	}
	r, err := draft.Make(context.Background(), "x.txt", "2 cups flour\n1 pint milk\n", draft.Options{Units: quantity.AU})
	require.NoError(t, err)
	assert.Contains(t, r.Text, "  units AU\n")
}

// FuzzDraft: whatever comes in, what comes out is a text of the notation without errors,
// laid out, with every word of the text.
func FuzzDraft(f *testing.F) {
	names, err := filepath.Glob("../../testdata/draft/*.*")
	if err != nil {
		f.Fatal(err)
	}
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			f.Fatal(err)
		}
		if filepath.Ext(n) != ".csv" {
			f.Add(string(b))
		}
	}
	for _, s := range []string{
		"", "#", "# a\n\n|x|y|\n|-|-|\n|1 g|2|", "for the\n- either\nor\nsaid \"x\"", "\"a | b\": c (d\n\n1 x: y | z\n2 x", "{\"@type\":\"Recipe\",\"name\":[]}", "Title\n\n1. at 5: go\n2. when x say y: z",
		"1 egg\n\nServes: 4 | 5\n\nTime: 3", "dish X\n  serves 4\n", "<ul><li>2 eggs<li>a: b | c</ul>", "A\n\n" + strings.Repeat("a ", 300), "2 400 g flour\nsaid\n- \n1.\n\n\n*\n", "Makes 0\nServes 99999999999999999999",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4000 {
			return
		}
		r := made("x.txt", text)
		g := read(t, r.Text)
		if len(g.errors) > 0 {
			t.Fatalf("%s %s in\n%s", g.errors[0].Code, g.errors[0].Message, r.Text)
		}
		if again := formatted(t, r.Text); again != r.Text {
			t.Fatalf("not laid out:\n%s", r.Text)
		}
	})
}

// What a Recipe states of its yield comes before what a sentence of it says, wherever it
// stands, and it is said that they differ.
func TestYieldThatIsStated(t *testing.T) {
	for _, y := range []string{`4`, `"4"`, `"Serves 4"`, `["4", "4 servings"]`} {
		for _, text := range []string{
			`{"@type":"Recipe","name":"Pie","recipeInstructions":"Beat the eggs. Serves 2.","recipeYield":` + y + `}`,
			`{"@type":"Recipe","name":"Pie","recipeYield":` + y + `,"recipeInstructions":["Beat the eggs.","Serves 2."]}`,
		} {
			r := made("x.json", text)
			assert.Contains(t, r.Text, "  serves 4", text)
			assert.NotContains(t, r.Text, "  serves 2", text)
			assert.Contains(t, strings.Join(r.Told, "\n"), "Serves 2", text)
		}
	}
}

// However long a line, a word or a title is, and however deep a page is nested, its words
// are in the draft.
func TestNothingTooLong(t *testing.T) {
	long := strings.Repeat("leeks ", 13000)
	for name, text := range map[string]string{
		"word.txt":   "Pie\n\n2 eggs\n\n" + strings.Repeat("a", 70000) + "\n",
		"title.md":   "# " + long + "\n\n- 2 eggs\n",
		"item.md":    "# Pie\n\n- " + long + "\n",
		"json.json":  `{"@type":"Recipe","name":"Pie","recipeInstructions":"` + strings.Repeat("a", 70000) + `"}`,
		"deep.html":  "<html><body>" + strings.Repeat("<div>", 20000) + "<p>Beat the eggs with leeks</p>" + strings.Repeat("</div>", 20000),
		"words.html": "<p>" + long + "</p><h2>" + strings.Repeat("a", 70000) + "</h2>",
	} {
		r := made(name, text)
		assert.Empty(t, read(t, r.Text).errors, name)
		assert.GreaterOrEqual(t, strings.Count(strings.ToLower(r.Text), "leeks"), strings.Count(text, "leeks"), name)
		assert.GreaterOrEqual(t, strings.Count(r.Text, "a"), strings.Count(text, "a")-80, name)
	}
}

// What is of the site and not of the page is neither gathered nor a dish, and its words are
// kept.
func TestBesideThePage(t *testing.T) {
	r := made("x.html", `<body><header><p>The Long Spoon</p></header><nav><ul><li>Cakes</li><li>Soups</li></ul></nav>
<main><header><h1>Leek soup</h1></header><h2>Ingredients</h2><ul><li>3 leeks</li></ul><h2>Method</h2><p>Boil the leeks for 20 minutes.</p></main>
<aside><h2>More like this</h2><ul><li>2 onions</li></ul></aside><footer><p>Printed on Monday</p></footer></body>`)
	body, _, _ := strings.Cut(r.Text, "# Left over:")
	assert.Contains(t, body, "dish Leek soup\n")
	assert.Equal(t, 1, strings.Count(r.Text, "dish "))
	assert.Equal(t, 1, r.Lines)
	for _, w := range []string{"The Long Spoon", "Cakes", "Soups", "More like this", "2 onions", "Printed on Monday"} {
		assert.NotContains(t, body, w)
		assert.Contains(t, r.Text, w)
	}
}

// What the sentences of a dish use and its text lists nowhere is gathered in that dish, also
// where a base stands before it.
func TestUnlistedBehindABase(t *testing.T) {
	r := made("x.txt", "Stock\n\nMakes 2 litres\n\nIngredients\n\n1 kg bones\n2 litres water\n\nMethod\n\nBoil the bones in the water for 2 hours.\n\n"+
		"Leek soup\n\nServes 4\n\nTake 1 litre stock and bring it to the boil. Slice the leeks and add them. Simmer for 20 minutes.\n")
	base, soup, _ := strings.Cut(r.Text, "dish Leek soup\n")
	assert.Contains(t, base, "base Stock\n")
	assert.NotContains(t, base, "leeks")
	assert.Contains(t, soup, "    1 litre  stock\n    leeks\n")
}

// Many recipes of one name are told apart by a few letters each, and in time that grows with
// their number.
func TestManyOfOneName(t *testing.T) {
	page := "Soup number\n\n2 onions\n1 carrot\n\nChop and boil for 20 min. Serve.\n\n"
	made, err := draft.Make(context.Background(), "x.txt", strings.Repeat(page, 60), draft.Options{})
	require.NoError(t, err)
	seen := map[string]bool{}
	for l := range strings.Lines(made.Text) {
		if name, ok := strings.CutPrefix(l, "dish "); ok {
			require.False(t, seen[name], name)
			require.Less(t, len(name), len("Soup number again")+5)
			seen[name] = true
		}
	}
	require.Len(t, seen, 60)
	require.Empty(t, invented(page, made.Text))
}

// A yield that says two things says both, and a section keeps its name beside that of its
// first step. Common practice of pages, no source.
func TestTwoYieldsAndASection(t *testing.T) {
	page := `{"@type":"Recipe","name":"X","recipeYield":%q,"recipeIngredient":["200 g peas"],"recipeInstructions":[
		{"@type":"HowToSection","name":"The night before","itemListElement":[{"@type":"HowToStep","name":"Soak","text":"Cover the peas with water."}]}]}`
	for said, want := range map[string][]string{
		"Makes about 16 small fritters (serves 4)": {"  makes about 16 small fritters", "  serves 4"},
		"4 servings (8 pancakes)":                  {"  serves 4"},
		"12 muffins; serves 6":                     {"  makes 12 muffins", "  serves 6"},
	} {
		made, err := draft.Make(t.Context(), "x.json", fmt.Sprintf(page, said), draft.Options{})
		require.NoError(t, err)
		for _, w := range want {
			require.Contains(t, made.Text, w, "%s\n%s", said, made.Text)
		}
		require.Contains(t, made.Text, "# The night before: Soak\n")
		require.NotContains(t, made.Text, "Left over")
	}
}
