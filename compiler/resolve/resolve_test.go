package resolve_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// build resolves one file, or several in txtar-like sections headed by
// "-- name --".
func build(t *testing.T, text string) (*resolve.Model, []diag.Diagnostic) {
	t.Helper()
	files := fstest.MapFS{}
	name := "a.tamis"
	var body strings.Builder
	flush := func() {
		if body.Len() > 0 {
			files[name] = &fstest.MapFile{Data: []byte(body.String())}
		}
		body.Reset()
	}
	for line := range strings.Lines(text) {
		if n, ok := strings.CutPrefix(line, "-- "); ok {
			flush()
			name = strings.TrimSuffix(strings.TrimSpace(n), " --")
			continue
		}
		body.WriteString(line)
	}
	flush()
	tree, err := load.FS(files, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	m := resolve.Build(tree, diags)
	return m, diags.Sorted()
}

func codes(ds []diag.Diagnostic) []string {
	out := []string{}
	for _, d := range ds {
		out = append(out, d.Code)
	}
	return out
}

// reading is what WriteReading says, without the indentation.
func reading(t *testing.T, text string) string {
	t.Helper()
	m, ds := build(t, text)
	require.Empty(t, codes(ds), "%v", ds)
	var b strings.Builder
	resolve.WriteReading(&b, m)
	return b.String()
}

// dish wraps gather and method lines in a dish.
func dish(gather, method string) string {
	indent := func(s string) string {
		var b strings.Builder
		for line := range strings.Lines(s) {
			b.WriteString("    " + line)
		}
		return strings.TrimRight(b.String(), "\n") + "\n"
	}
	return "dish Test\n  serves 4\n  gather\n" + indent(gather) + "  method\n" + indent(method)
}

func TestReadingOfSentences(t *testing.T) {
	tests := []struct {
		name, gather, method string
		want                 []string // lines of the reading, in order
	}{
		{
			"a bare name takes what is left",
			"60 ml herb oil", "- Toss with the herb oil.",
			[]string{"takes all 60 ml herb oil"},
		},
		{
			"a share is of the whole line, the rest of what is left",
			"60 ml herb oil", "- Toss with half the herb oil.\n- Trail the rest of the herb oil over.",
			[]string{"takes 30 ml herb oil, leaves 30 ml", "takes 30 ml herb oil"},
		},
		{
			"half the rest is of what is left",
			"80 g butter", "- Melt half the butter.\n- Stir in half the remaining butter.\n- Add the rest of the butter.",
			[]string{"takes 40 g butter, leaves 40 g", "takes 20 g butter, leaves 20 g", "takes 20 g butter"},
		},
		{
			"thirds come to the whole",
			"1 litre brown stock", "- Pour on a third of the stock.\n- Add the rest of the stock.",
			[]string{"takes 333 ml brown stock, leaves 667 ml", "takes 667 ml brown stock"},
		},
		{
			"an amount of a line",
			"500 ml brown stock", "- Pour on 200 ml of the stock.\n- Add the rest of the stock.",
			[]string{"takes 200 ml brown stock, leaves 300 ml", "takes 300 ml brown stock"},
		},
		{
			"a tail of a name is the name",
			"40 g red bean paste", "- Spread with the paste.",
			[]string{"takes all 40 g red bean paste"},
		},
		{
			"a part word lets the words before it stand for the name",
			"60 g parsley leaves", "- Chop the parsley.",
			[]string{"takes all 60 g parsley leaves"},
		},
		{
			"leg of lamb is the leg and the lamb",
			"2 kg leg of lamb", "- Rub the leg with care.\n- Rest the lamb.",
			[]string{"takes all 2 kg leg of lamb", "speaks of leg of lamb again"},
		},
		{
			"a name said again in one step refers back",
			"30 ml rapeseed oil", "- Heat the oil until the oil shimmers.",
			[]string{"takes all 30 ml rapeseed oil"},
		},
		{
			"a name that is a verb takes nothing",
			"20 g butter\n200 g rice", "- Butter the dish with care.\n- Stir in the rice and the butter.",
			[]string{"takes nothing", "takes all 200 g rice", "takes all 20 g butter"},
		},
		{
			"counted things are taken by number words",
			"3 lemons", "- Squeeze two of the lemons.\n- Slice the remaining lemon.",
			[]string{"takes 2 lemons, leaves 1", "takes 1 lemons"},
		},
		{
			"season takes what is to taste, which never runs out",
			"500 g peas\nsalt | to taste", "- Boil the peas and season.\n- Taste and season.",
			[]string{"takes all 500 g peas", "takes salt to taste", "takes salt to taste"},
		},
		{
			"what is lifted out went in before",
			"800 g beans", "- Simmer the beans.\n- Lift out half of the beans. | sets aside 200 g soft beans",
			[]string{"takes all 800 g beans", "speaks of beans again"},
		},
		{
			"season with names what it takes",
			"500 g peas\nsalt | to taste\nvinegar | to taste", "- Boil the peas and season with salt.\n- Season with vinegar.",
			[]string{"takes all 500 g peas", "takes salt to taste", "takes vinegar to taste"},
		},
		{
			"everything takes all that is left",
			"100 g flour\n50 g sugar", "- Mix everything.",
			[]string{"takes all 100 g flour", "takes all 50 g sugar"},
		},
		{
			"a sub-list's name takes its lines",
			"for the dressing\n  30 ml olive oil\n  10 ml vinegar\n200 g lettuce", "- Whisk the dressing.\n- Toss the lettuce.",
			[]string{"takes all 30 ml olive oil", "takes all 10 ml vinegar", "takes all 200 g lettuce"},
		},
		{
			"some of takes an unmeasured part, and the rest follows",
			"100 g sugar", "- Dust with some of the sugar.\n- Stir in the rest of the sugar.",
			[]string{"takes some of sugar", "takes the rest of sugar"},
		},
		{
			"the margin overrules the prose",
			"100 g butter", "- Fry gently.\n  | uses 20 g butter\n- Beat in the rest of the butter.",
			[]string{"takes 20 g butter, leaves 80 g (by the margin)", "takes 80 g butter"},
		},
		{
			"a product is found by later steps",
			"500 g onions", "- Fry the onions.\n  | makes 300 g golden onions\n- Scatter the golden onions over.",
			[]string{"takes all 500 g onions", "makes 300 g golden onions", "waits for golden onions"},
		},
		{
			"a thing that is only likened to is not asked for",
			"100 g flour", "- Cook the flour until it is the colour of a hazelnut.",
			[]string{"takes all 100 g flour"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := reading(t, dish(tt.gather, tt.method))
			rest := got
			for _, w := range tt.want {
				i := strings.Index(rest, w)
				require.GreaterOrEqual(t, i, 0, "%q is not in what follows of:\n%s", w, got)
				rest = rest[i+len(w):]
			}
		})
	}
}

func TestFindings(t *testing.T) {
	tests := []struct {
		name, text string
		code       string
		at         string // the text underlined
	}{
		{"over-used", dish("100 g butter", "- Melt half the butter.\n- Beat in 80 g of the butter."), "U203", "80 g of the butter"},
		{"used up", dish("100 g butter", "- Melt the butter.\n- Beat in half the butter."), "U204", "half the butter"},
		{"never named", dish("100 g butter\n20 g sugar", "- Melt the butter."), "U201", "sugar"},
		{"left at the end", dish("100 g butter", "- Melt half the butter."), "U202", "100 g butter"},
		{"rest of nothing", dish("100 g butter", "- Melt the rest of the butter."), "U211", "the rest of the butter"},
		{"part then bare", dish("100 g butter", "- Melt 30 g of the butter.\n- Beat in the butter."), "U210", "butter"},
		{"two oils", dish("30 ml rapeseed oil\n30 ml herb oil", "- Add the oil."), "U205", "oil"},
		{"not gathered", dish("100 g flour", "- Mix the flour, then stir in the double cream."), "U206", "double cream"},
		{"gathered by a longer name", dish("1 tsp mustard powder", "- Stir in the mustard."), "U206", "mustard"},
		{"gathered by another name", dish("4 spring onions", "- Slice the scallions."), "U206", "scallions"},
		{"a label nobody offers", dish("100 g flour", "- Mix the flour.\n  | if crunchy"), "U121", "crunchy"},
		{"paused without a pause", dish("100 g flour", "- Mix the flour.\n  | only after a pause"), "U120", "only after a pause"},
		{"meanwhile at the start", dish("100 g flour", "- Mix the flour.\n  | meanwhile"), "U124", "- Mix the flour.\n      | meanwhile"},
		{"gathers itself", "base Oil\n  makes 100 ml\n  gather\n    100 ml oil\n  method\n    - Warm the oil.\n", "U107", "oil"},
		{"two of one name", "dish Soup\ndish soup\n", "U101", "soup"},
		{"gathered twice", dish("10 g salt\n20 g salt", "- Add the salt."), "U104", "salt"},
		{"a menu's unknown dish", "menu Lunch\n  course Main\n    Soop\ndish Soup\n  serves 2\n", "U105", "Soop"},
		{"a menu's unknown kitchen", "menu Lunch\n  at Barn\n  course Main\n    Soup\ndish Soup\n  serves 2\n", "U130", "Barn"},
		{"an option the dish lacks", "menu Lunch\n  course Main\n    Soup, with chives\ndish Soup\n  serves 2\n", "U121", "with chives"},
		{"ahead without a pause", "menu Lunch\n  course Main\n    Soup, ahead\ndish Soup\n  serves 2\n", "U136", "Soup, ahead"},
		{"a cup of nobody's", dish("2 cups flour", "- Mix the flour."), "U103", "2 cups"},
		{"a product two blocks make", "dish A\n  gather\n    1 kg beef\n  method\n    - Roast the beef.\n      | makes 20 g fat\ndish B\n  gather\n    1 kg lamb\n  method\n    - Roast the lamb.\n      | makes 20 g fat\ndish C\n  gather\n    10 g fat\n  method\n    - Melt the fat.\n", "U113", "fat"},
		{"hours that end first", "menu M\n  on the table 2027-09-19 13:00\n  hours 2027-09-18, 20:00 to 2027-09-17 01:00\n  course C\n    Soup\ndish Soup\n  serves 2\n", "U132", "hours 2027-09-18, 20:00 to 2027-09-17 01:00"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, ds := build(t, tt.text)
			require.Contains(t, codes(ds), tt.code)
			for _, d := range ds {
				if d.Code == tt.code {
					require.Equal(t, tt.at, d.At.Span.Text())
					require.NotEmpty(t, d.Message)
					return
				}
			}
		})
	}
}

func TestAnotherNameIsAskedAboutOnce(t *testing.T) {
	_, ds := build(t, dish("4 spring onions", "- Slice the scallions.\n- Toss the scallions."))
	require.Equal(t, []string{"U206"}, codes(ds), "not also as never used")
	require.Equal(t, "scallions is gathered here as spring onions", ds[0].Message)
	require.Equal(t, "spring onions", ds[0].Fixes[0].Edits[0].Text)
}

func TestNearestRecipeIsOffered(t *testing.T) {
	_, ds := build(t, "menu Lunch\n  course Main\n    Barly pilaf\ndish Barley pilaf\n  serves 2\n")
	require.Equal(t, []string{"U105"}, codes(ds))
	require.Contains(t, ds[0].Help, `did you mean "Barley pilaf"?`)
	require.Equal(t, "Barley pilaf", ds[0].Fixes[0].Edits[0].Text)
}

func TestFoldersSeeWhatEnclosesThem(t *testing.T) {
	m, ds := build(t, `-- book.tamis --
book All
  by nobody
larder
  units metric
base Stock
  makes 1 litre
  gather
    1 litre water
  method
    - Boil the water.
-- soups/leek.tamis --
dish Leek soup
  serves 4
  gather
    500 ml stock
    1 tbsp sauces/Herb oil
  method
    - Heat the stock with the herb oil.
-- sauces/oil.tamis --
base Herb oil
  makes 100 ml
  gather
    100 ml olive oil
  method
    - Blend the olive oil.
`)
	require.Empty(t, codes(ds))
	for _, r := range m.Recipes {
		if r.Name == "Leek soup" {
			require.Equal(t, "Stock", r.Lines[0].From.Name, "an enclosing folder's block")
			require.Equal(t, "Herb oil", r.Lines[1].From.Name, "a path from the root")
			require.Equal(t, "15", r.Lines[1].Quantity.Value.High.String(), "the root's tablespoon holds")
		}
	}
}

func TestAsButReplacesLines(t *testing.T) {
	m, ds := build(t, `base Pale roux
  makes 200 g
  keeps 7 days, fridge
  gather
    100 g    butter
    100 g    plain flour
  method
    - Melt the butter and stir in the flour.
base Nut roux
  as Pale roux, but
  makes 220 g
  gather
    120 g    plain flour
    5 g      curry powder
  method
    - Melt the butter and stir in the flour and the curry powder.
`)
	require.Empty(t, codes(ds))
	var r *resolve.Recipe
	for _, x := range m.Recipes {
		if x.Name == "Nut roux" {
			r = x
		}
	}
	var lines []string
	for _, l := range r.Lines {
		lines = append(lines, l.Quantity.Value.High.String()+" "+l.Name)
	}
	require.Equal(t, []string{"100 butter", "120 plain flour", "5 curry powder"}, lines)
	require.Equal(t, "220", r.Makes.Quantity.Value.High.String())
	require.Equal(t, "fridge", r.Keeps.Place, "what is not said again holds")
}

func TestBakersPercentages(t *testing.T) {
	weights := func(head string) map[string]string {
		m, ds := build(t, head+`
  method
    - Mix everything.
`)
		require.Empty(t, codes(ds))
		out := map[string]string{}
		for _, l := range m.Recipes[0].Lines {
			out[l.Name] = l.Quantity.Value.High.String()
		}
		return out
	}
	// 12 pieces of 540 g are 6480 g; the percentages add up to 180.
	require.Equal(t, map[string]string{"strong flour": "3600", "water": "2880"}, weights(`dish Loaf
  serves 12
  makes 12 pieces, 540 g each
  gather, percent of strong flour
    100%     strong flour
    80%      water`))
	require.Equal(t, map[string]string{"strong flour": "800", "rye flour": "200", "water": "650"}, weights(`dish Loaf
  serves 12
  gather, percent of strong flour, rye flour
    800 g    strong flour
    200 g    rye flour
    65%      water`))
}

func TestTheOnlyKitchenOfTheFolder(t *testing.T) {
	menu := "menu M\n  covers 4\n  course C\n    Bread, from the shop\n\n"
	one, two := "kitchen Small\n  rings 2\n\n", "kitchen Large\n  rings 6\n\n"
	kitchen := func(text string) string {
		m, _ := build(t, text)
		if m.Menus[0].Kitchen == nil {
			return ""
		}
		return m.Menus[0].Kitchen.Name
	}
	require.Equal(t, "Small", kitchen(menu+one), "a menu that names none uses the only one")
	require.Equal(t, "", kitchen(menu+one+two), "of two, neither")
	require.Equal(t, "Large", kitchen(strings.Replace(menu, "covers 4", "covers 4\n  at Large", 1)+one+two))
	require.Equal(t, "", kitchen(menu))
}

// Two of one name in a kitchen, and a kitchen without a ring, are refused: no plan can
// tell the two apart, or cook on nothing. Two of a tool are two, and a vessel says how many.
func TestKitchensThatCannotBe(t *testing.T) {
	for lines, code := range map[string]string{
		"cooks Ana, Ana":                           "M120",
		"cooks Ana, Ben, ANA":                      "M120",
		"cooks Ana\n  cooks Ana":                   "M120",
		"oven main\n  oven main, 2 shelves":        "M120",
		"oven Main\n  oven main, gas":              "M120",
		"vessel pan, holds 2 litres\n  vessel pan": "M120",
		"rings 0":                       "M122",
		"tools whisk, whisk":            "",
		"vessel pan, holds 2 litres, 2": "",
		"cooks Ana\n  oven Ana\n  vessel ana\n  tools ana": "",
	} {
		tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte("kitchen Hut\n  " + lines + "\n")}}, ".", "", "")
		require.NoError(t, err)
		diags := &diag.List{}
		resolve.Build(tree, diags)
		var errors []string
		for _, d := range diags.Sorted() {
			if d.Severity == diag.Error {
				errors = append(errors, d.Code)
			}
		}
		if code == "" {
			require.Empty(t, errors, lines)
			continue
		}
		require.Equal(t, []string{code}, errors, lines)
	}
}
