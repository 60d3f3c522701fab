package demand_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

type fataler interface {
	require.TestingT
	Helper()
}

func meals(t fataler, text string, opt demand.Options) ([]*demand.Meal, []diag.Diagnostic) {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	m := resolve.Build(tree, diags)
	return demand.Meals(m, opt, diags), diags.Sorted()
}

func codes(ds []diag.Diagnostic) []string {
	out := []string{}
	for _, d := range ds {
		out = append(out, d.Code)
	}
	return out
}

const lunch = `menu Lunch
  covers 12
  course Main
    Soup
    Beans, for 6
dish Soup
  serves 6
  gather
    900 g    cucumbers
    60 ml    herb oil
    1        bay leaf     | fixed
    4 g      salt         | scales less
    20 g     rice per cover
  method
    - Blend everything.
dish Beans
  serves 6
  gather
    600 g    green beans
    40 ml    herb oil
  method
    - Toss everything.
base Herb oil
  makes 300 ml
  gather
    330 ml   rapeseed oil
    60 g     parsley
  method
    - Blend everything.
`

func making(t *testing.T, m *demand.Meal, name string) *demand.Making {
	t.Helper()
	for _, x := range m.Makings {
		if x.Recipe.Name == name {
			return x
		}
	}
	t.Fatalf("no making of %s", name)
	return nil
}

func amount(t *testing.T, m *demand.Making, name string) string {
	t.Helper()
	for _, a := range m.Lines {
		if a.Line.Name == name {
			require.NotNil(t, a.Quantity, name)
			return a.Quantity.Value.High.String()
		}
	}
	t.Fatalf("no line %s", name)
	return ""
}

func TestDemandOfASharedBase(t *testing.T) {
	text := strings.Replace(lunch, "    20 g     rice per cover\n", "", 1)
	ms, ds := meals(t, text, demand.Options{})
	require.Empty(t, codes(ds), "%v", ds)
	require.Len(t, ms, 1)
	m := ms[0]

	require.Equal(t, "1800", amount(t, making(t, m, "Soup"), "cucumbers"))
	require.Equal(t, "600", amount(t, making(t, m, "Beans"), "green beans"), "`for 6` replaces the covers")
	require.Equal(t, "1", amount(t, making(t, m, "Soup"), "bay leaf"), "fixed")
	require.Equal(t, "6", amount(t, making(t, m, "Soup"), "salt"), "seasoning: 1 1/2 times at double; common practice, no source")

	oil := making(t, m, "Herb oil")
	require.Equal(t, "160", oil.Supply.Drawn.Value.High.String(), "120 ml for the soup and 40 ml for the beans")
	require.Equal(t, "8/15", oil.Factor.String())
	require.Equal(t, "176", amount(t, oil, "rapeseed oil"))
	require.True(t, oil.Supply.Left.IsZero())
	var draws []string
	for _, d := range oil.Supply.Draws {
		draws = append(draws, d.Quantity.Value.High.String()+" "+d.By.Making.Recipe.Name)
	}
	require.ElementsMatch(t, []string{"120 Soup", "40 Beans"}, draws)

	require.Equal(t, []string{"A", "B", "C"}, []string{making(t, m, "Soup").Letter, making(t, m, "Beans").Letter, oil.Letter})
	require.Same(t, oil, m.Makings[0], "a base stands before what draws on it")
}

func TestCoversOfTheCommandLine(t *testing.T) {
	text := strings.Replace(lunch, "    20 g     rice per cover\n", "", 1)
	ms, _ := meals(t, text, demand.Options{Covers: 30})
	require.Equal(t, "4500", amount(t, making(t, ms[0], "Soup"), "cucumbers"))
	require.Equal(t, "600", amount(t, making(t, ms[0], "Beans"), "green beans"), "a serving with its own number keeps it")
}

func TestSupply(t *testing.T) {
	base := func(makes, extra string) string {
		return "base Stock\n  makes " + makes + "\n" + extra + "  gather\n    2 litres water\n  method\n    - Boil the water.\n"
	}
	menu := "menu M\n  covers 4\n  course C\n    Soup\ndish Soup\n  serves 4\n  gather\n    %s stock\n  method\n    - Heat the stock.\n"
	tests := []struct {
		name, text   string
		codes        []string
		factor, left string
	}{
		{"as much as is drawn", fmt.Sprintf(menu, "500 ml") + base("2 litres", ""), nil, "1/4", "0"},
		{"whole batches leave some", fmt.Sprintf(menu, "500 ml") + base("2 litres", "  whole batches\n"), nil, "1", "1500"},
		{"batches as a unit", fmt.Sprintf(menu, "2 batches") + base("2 litres", ""), nil, "2", "0"},
		{
			"portions of what says for how many it is",
			fmt.Sprintf(menu, "6") + strings.Replace(base("", ""), "  makes \n", "  serves 12\n", 1), nil, "1/2", "0",
		},
		{
			"batches of what serves more or less",
			fmt.Sprintf(menu, "2 batches") + strings.Replace(base("", ""), "  makes \n", "  serves 7 to 8\n", 1), nil, "2", "0",
		},
		{
			"an amount of what says how much a portion is",
			fmt.Sprintf(menu, "900 ml") + strings.Replace(base("", ""), "  makes \n", "  serves 12, 150 ml each\n", 1), nil, "1/2", "0",
		},
		{
			"batches of what does not say how much it makes",
			strings.Replace(fmt.Sprintf(menu, "1 1/2 batches"), "serves 4", "serves 2", 1) + strings.Replace(base("", ""), "  makes \n", "", 1), nil, "3", "0",
		},
		{
			"weight of what is made by volume, with the larder's help",
			fmt.Sprintf(menu, "510 g") + base("2 litres", "") + "larder\n  stock | weighs 1.02 g per ml\n", nil, "1/4", "0",
		},
		{
			"pieces by their weight",
			"menu M\n  covers 4\n  course C\n    Soup\ndish Soup\n  serves 4\n  gather\n    1.08 kg dough\n  method\n    - Bake the dough.\n" +
				"base Dough\n  makes 12 pieces, 540 g each\n  gather\n    6 kg strong flour\n  method\n    - Knead the flour.\n", nil, "1/6", "0",
		},
		{"no amount: a question", fmt.Sprintf(menu, "") + base("2 litres", ""), []string{"D103"}, "1", "2000"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			ms, ds := meals(t, tt.text, demand.Options{})
			require.ElementsMatch(t, tt.codes, codes(ds))
			s := ms[0].Supplies[0]
			require.Equal(t, tt.factor, s.Making.Factor.String())
			require.Equal(t, tt.left, s.Left.Value.High.String())
		})
	}
}

func TestDemandErrors(t *testing.T) {
	dish := func(name, line string) string {
		return "dish " + name + "\n  serves 4\n  gather\n    " + line + "\n  method\n    - Mix everything.\n"
	}
	base := func(name, makes, line string) string {
		return "base " + name + "\n" + makes + "  gather\n    " + line + "\n  method\n    - Mix everything.\n"
	}
	menu := func(dishes ...string) string {
		return "menu M\n  covers 4\n  course C\n    " + strings.Join(dishes, "\n    ") + "\n"
	}
	tests := []struct {
		name, text, code, at string
		says                 []string // words of the message or its help
	}{
		{
			"a cycle names its path",
			menu("Soup") + dish("Soup", "100 ml oil") + base("Oil", "  makes 100 ml\n", "50 ml paste") + base("Paste", "  makes 50 ml\n", "10 ml oil"),
			"D110", "oil",
			[]string{"Oil → Paste → Oil"},
		},
		{
			"a base that does not say what it makes",
			menu("Soup") + dish("Soup", "100 ml oil") + base("Oil", "", "100 ml olive oil"),
			"D104", "Oil",
			[]string{"makes 300 ml"},
		},
		{
			"weight against volume without a density",
			menu("Soup") + dish("Soup", "100 g brine") + base("Brine", "  makes 100 ml\n", "100 ml vinegar"),
			"D105", "100 g",
			[]string{"weighs 1.02 g per ml"},
		},
		{
			"a by-product that runs short",
			menu("Roast", "Potatoes") + "dish Roast\n  serves 4\n  gather\n    2 kg goose\n  method\n    - Roast the goose.\n      | makes 200 g goose fat\n" + dish("Potatoes", "300 g goose fat"),
			"D107", "300 g goose fat",
			[]string{"100 g of goose fat is short"},
		},
		{
			"a by-product of what is not cooked",
			menu("Potatoes") + "dish Roast\n  serves 4\n  gather\n    2 kg goose\n  method\n    - Roast the goose.\n      | makes 200 g goose fat\n" + dish("Potatoes", "100 g goose fat"),
			"D106", "goose fat",
			[]string{"not made for this meal"},
		},
		{
			"a dish that does not say how many it serves",
			menu("Soup") + strings.Replace(dish("Soup", "1 kg leeks"), "  serves 4\n", "", 1),
			"D101", "Soup",
			[]string{"serves 6"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, ds := meals(t, tt.text, demand.Options{})
			for _, d := range ds {
				if d.Code != tt.code {
					continue
				}
				require.Equal(t, tt.at, d.At.Span.Text())
				all := d.Message + " " + strings.Join(d.Help, " ")
				for _, s := range tt.says {
					require.Contains(t, all, s)
				}
				return
			}
			t.Fatalf("no %s among %v", tt.code, codes(ds))
		})
	}
}

func TestLeftoverByProductIsNamed(t *testing.T) {
	ms, ds := meals(t, `menu M
  covers 8
  course C
    Roast
    Potatoes
dish Roast
  serves 4
  gather
    2 kg     goose
  method
    - Roast the goose.
      | makes 200 g goose fat
dish Potatoes
  serves 8
  gather
    1 kg     potatoes
    150 g    goose fat
  method
    - Fry the potatoes in the goose fat.
`, demand.Options{})
	require.Empty(t, codes(ds))
	s := ms[0].Supplies[0]
	require.Equal(t, "400", s.Made.Value.High.String(), "it scales with its dish")
	require.Equal(t, "150", s.Drawn.Value.High.String(), "and is not driven by what draws on it")
	require.Equal(t, "250", s.Left.Value.High.String())
}

// Random graphs of bases: what a base makes is the sum of its draws, at every
// level, exactly, in whatever order the blocks are written.
func TestDemandEqualsTheSumOfDraws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "bases")
		var blocks []string
		for i := range n {
			var lines []string
			for j := i + 1; j < n; j++ { // only later bases: no cycles
				if rapid.Bool().Draw(t, "edge") {
					lines = append(lines, fmt.Sprintf("    %d ml base %c", rapid.IntRange(1, 500).Draw(t, "ml"), 'a'+j))
				}
			}
			lines = append(lines, fmt.Sprintf("    %d g thing %c", rapid.IntRange(1, 500).Draw(t, "g"), 'a'+i))
			blocks = append(blocks, fmt.Sprintf("base Base %c\n  makes %d ml\n  gather\n%s\n  method\n    - Mix everything.\n",
				'a'+i, rapid.IntRange(1, 900).Draw(t, "makes"), strings.Join(lines, "\n")))
		}
		dishes := rapid.IntRange(1, 4).Draw(t, "dishes")
		menu := fmt.Sprintf("menu M\n  covers %d\n  course C\n", rapid.IntRange(1, 40).Draw(t, "covers"))
		for d := range dishes {
			menu += fmt.Sprintf("    Dish %d\n", d)
			var lines []string
			for j := range n {
				if rapid.Bool().Draw(t, "draw") {
					lines = append(lines, fmt.Sprintf("    %d ml base %c", rapid.IntRange(1, 500).Draw(t, "ml"), 'a'+j))
				}
			}
			lines = append(lines, "    1 kg flour")
			blocks = append(blocks, fmt.Sprintf("dish Dish %d\n  serves %d\n  gather\n%s\n  method\n    - Mix everything.\n",
				d, rapid.IntRange(1, 12).Draw(t, "serves"), strings.Join(lines, "\n")))
		}
		one, ds := meals(t, menu+strings.Join(blocks, ""), demand.Options{})
		require.Empty(t, codes(ds))
		made := map[string]string{}
		for _, s := range one[0].Supplies {
			sum := quantity.Number{}
			for _, m := range one[0].Makings { // an own sum, over the lines
				for _, a := range m.Lines {
					if a.Source == s.Making {
						sum = sum.Add(a.Quantity.Value.High)
					}
				}
			}
			require.True(t, sum.Equal(s.Made.Value.High), "%s: %s drawn, %s made", s.Name, sum, s.Made.Value.High)
			made[s.Name] = s.Made.Value.High.String()
		}
		blocks = rapid.Permutation(blocks).Draw(t, "order")
		two, _ := meals(t, strings.Join(blocks, "")+menu, demand.Options{})
		for _, s := range two[0].Supplies {
			require.Equal(t, made[s.Name], s.Made.Value.High.String(), "the order of blocks does not matter")
		}
	})
}

// Scaling by a then by b is scaling by ab, to the last digit.
func TestScalingTwiceIsScalingOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.IntRange(1, 60).Draw(t, "a"), rapid.IntRange(1, 60).Draw(t, "b")
		text := func(serves, grams int) string {
			return fmt.Sprintf("dish D\n  serves %d\n  gather\n    %d g flour\n  method\n    - Mix the flour.\n", serves, grams)
		}
		once, _ := meals(t, text(1, 7), demand.Options{Covers: a * b})
		twice, _ := meals(t, text(a, 7*a), demand.Options{Covers: a * b})
		require.Equal(t, once[0].Makings[0].Lines[0].Quantity.Value.High.String(), twice[0].Makings[0].Lines[0].Quantity.Value.High.String())
	})
}
