package main

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// menuOfFigures writes a menu in which every kind of amount stands: weights, spoons,
// cups, ounces, tins, bunches, halves of whole things, ranges, sums, two measures of
// one thing, amounts by the cover and such as grow less; lists under heads, one thing
// in several dishes and twice in one; bases by volume, weight, count and batch, drawn
// on by dishes and by other bases; and steps that take all of a line, a share of it,
// so much of it, and the rest.
func menuOfFigures(seed uint64) fs.FS {
	r := rand.New(rand.NewPCG(seed, 23))
	one := func(list ...string) string { return list[r.IntN(len(list))] }
	num := func() string { return fmt.Sprint(1 + r.IntN(12)) }
	part := func() string {
		return one("1/4", "1/3", "1/2", "2/3", "3/4", "1 1/4", "1 1/2", "1 2/3", "2 1/2", "2 3/4")
	}
	units := one("metric", "US", "imperial", "metric")
	weight := func() string {
		if units == "metric" {
			return one(fmt.Sprintf("%d g", 5*(1+r.IntN(200))), fmt.Sprintf("%d g", 1+r.IntN(40)), part()+" kg", fmt.Sprintf("%d to %d g", 40+r.IntN(40), 90+r.IntN(60)), "1.25 kg", "333 g")
		}
		return one(part()+" lb", num()+" oz", "1 lb "+num()+" oz", part()+" oz", "3 to 4 oz", "2 to 2 1/2 lb")
	}
	volume := func() string {
		spoons := one(part()+" tsp", num()+" tsp", part()+" tbsp", num()+" tbsp", "2 to 3 tbsp", "1 heaped tbsp", "1 tbsp plus 1 tsp")
		switch units {
		case "metric":
			return one(spoons, fmt.Sprintf("%d ml", 5*(1+r.IntN(120))), part()+" litres", "400 to 500 ml", "75 ml")
		case "US":
			return one(spoons, part()+" cups", part()+" cups", num()+" fl oz", "1 quart", "1 pint", "1 to 1 1/2 cups", "1 cup plus 2 tbsp")
		}
		return one(spoons, part()+" pints", num()+" fl oz", "1 pint", "1/2 to 3/4 pint")
	}
	type food struct {
		name   string
		amount func() string
	}
	count := func(list ...string) func() string {
		return func() string { return one(append(list, num())...) }
	}
	solid, liquid := weight, volume
	either := func() string {
		if r.IntN(2) == 0 {
			return weight()
		}
		return volume()
	}
	foods := []food{
		{"carrots", solid},
		{"leeks", solid},
		{"plain flour", either},
		{"caster sugar", either},
		{"butter", either},
		{"red lentils", solid},
		{"double cream", liquid},
		{"olive oil", liquid},
		{"whole milk", liquid},
		{"soy sauce", liquid},
		{"honey", either},
		{"ground cumin", liquid},
		{"fine salt", either},
		{"dried oregano", liquid},
		{"lemon juice", liquid},
		{"cocoa powder", either},
		{"eggs", count("1/2", "2 large", "2 to 3")},
		{"egg yolks", count("3")},
		{"egg whites", count("2")},
		{"onions", count("1/2", "2 large", "1 1/2")},
		{"lemons", count("1/2", "1 1/2", "2")},
		{"bay leaves", count("1/2", "2")},
		{"cloves", count("4")},
		{"limes, zested", count("2")},
		{"garlic", count("2 cloves", "1 head", "1 clove")},
		{"thyme", count("3 sprigs", "1 bunch", "1 small bunch")},
		{"coriander", count("1 bunch (30 g)", "2 bunches")},
		{"chopped tomatoes", count("2 x 400 g tins", "1 x 400 g tin", "3 x 14 oz tins")},
		{"white bread", count("4 slices", "1/2 slice")},
		{"plums", count("900 g (2 lb)", "1 lb (450 g)")},
		{"spaghetti", count("100 g per cover", "3 oz per cover", "80 g per cover plus 100 g")},
		{"nutmeg", count("a pinch", "1/4 tsp")},
		{"chillies", count("1 to 2")},
	}
	var b strings.Builder
	bases := []string{}
	recipe := func(head string, yields []string, draws map[string]string) {
		fmt.Fprintf(&b, "%s\n", head)
		for _, y := range yields {
			fmt.Fprintf(&b, "  %s\n", y)
		}
		if r.IntN(5) == 0 {
			b.WriteString("  whole batches\n")
		}
		b.WriteString("  gather\n")
		r.Shuffle(len(foods), func(i, j int) { foods[i], foods[j] = foods[j], foods[i] })
		used := slices.Clone(foods[:3+r.IntN(6)])
		head2 := 0
		if r.IntN(4) == 0 {
			head2 = len(used) // the second list has something of the first again
			used = append(used, used[0], foods[20])
		}
		indent := "    "
		for i, x := range used {
			if head2 > 0 && i == head2 {
				b.WriteString("    for the sauce\n")
				indent = "      "
			}
			name, note, _ := strings.Cut(x.name, ", ")
			if note != "" {
				note = ", " + note
			}
			fmt.Fprintf(&b, "%s%s    %s%s%s\n", indent, x.amount(), name, note, one("", "", "", " | work 3 min", " | scales less", " | whole"))
		}
		var made []string
		for name, amount := range draws {
			made = append(made, name)
			_ = amount
		}
		slices.Sort(made)
		for _, name := range made {
			fmt.Fprintf(&b, "    %s    %s\n", draws[name], name)
		}
		b.WriteString("  method\n")
		var rest []string
		for i, x := range used {
			if head2 > 0 && i >= head2 {
				break
			}
			name, _, _ := strings.Cut(x.name, ", ")
			switch r.IntN(6) {
			case 0:
				fmt.Fprintf(&b, "    - Stir in half the %s. | work 2 min\n", name)
				rest = append(rest, "the rest of the "+name)
			case 1:
				fmt.Fprintf(&b, "    - Stir in a third of the %s. | work 2 min\n", name)
				rest = append(rest, "the remaining "+name)
			case 2:
				fmt.Fprintf(&b, "    - Stir in two thirds of the %s. | work 2 min\n    - Add half of the remaining %s. | work 2 min\n", name, name)
				rest = append(rest, "the rest of the "+name)
			default:
				fmt.Fprintf(&b, "    - Add the %s. | work 2 min\n", name)
			}
		}
		for _, name := range made {
			fmt.Fprintf(&b, "    - Pour in the %s. | work 2 min\n", name)
		}
		if len(rest) > 0 {
			fmt.Fprintf(&b, "    - Finish with %s. | work 2 min\n", strings.Join(rest, " and "))
		}
		b.WriteString("    - Simmer. | ring low | work 2 min | leave 20 min\n")
	}
	draw := func(kind string) string {
		switch kind {
		case "volume":
			return volume()
		case "weight":
			return weight()
		case "count":
			return one("3", "5", "2", "1")
		}
		return one("1/2 batch", "1/3 batch", "1 batch", "5/6 batch")
	}
	kinds := map[string]string{}
	for _, name := range []string{"Green oil", "Pale stock", "Bay cream", "Flatbreads"}[:r.IntN(5)] {
		kind := one("volume", "weight", "batch")
		yield := ""
		switch {
		case name == "Flatbreads":
			kind, yield = "count", "makes "+one("8", "10", "12")
		case kind == "volume":
			yield = map[string]string{"metric": "makes 1.2 litres", "US": "makes 1 quart", "imperial": "makes 1 1/2 pints"}[units]
		case kind == "weight":
			yield = map[string]string{"metric": "makes 900 g", "US": "makes 2 lb", "imperial": "makes 2 lb"}[units]
		default:
			yield = "serves 4"
		}
		draws := map[string]string{}
		if len(bases) > 0 && r.IntN(3) == 0 {
			other := bases[r.IntN(len(bases))]
			draws[strings.ToLower(other)] = draw(kinds[other])
		}
		recipe("base "+name, []string{yield}, draws)
		bases = append(bases, name)
		kinds[name] = kind
	}
	var dishes []string
	for _, name := range []string{"Pot", "Slow roots", "Tart", "Broth"}[:1+r.IntN(4)] {
		draws := map[string]string{}
		for range r.IntN(3) {
			if len(bases) > 0 {
				other := bases[r.IntN(len(bases))]
				draws[strings.ToLower(other)] = draw(kinds[other])
			}
		}
		recipe("dish "+name, []string{fmt.Sprintf("serves %s", one("2", "4", "6", "8", "10", "4 to 6"))}, draws)
		dishes = append(dishes, name)
	}
	covers := 1 + r.IntN(40)
	if r.IntN(2) == 0 {
		covers = 2 * (1 + r.IntN(5)) // often the written size of some
	}
	fmt.Fprintf(&b, "menu Crowd %d\n  covers %d\n  course Main\n", seed, covers)
	for _, d := range dishes {
		fmt.Fprintf(&b, "    %s\n", d)
	}
	fmt.Fprintf(&b, "larder\n  units %s\n", units)
	return fstest.MapFS{"menu.tamis": {Data: []byte(b.String())}}
}

// Each end of a range is shared out for itself; a share is never more at its low end than at
// its high one.
func TestSharesOfARangeStandUpright(t *testing.T) {
	tree, err := load.FS(menuOfFigures(225), ".", "", "")
	require.NoError(t, err)
	c := newTruths()
	opt := compiler.Options{Demand: demand.Options{Covers: 19}, Units: quantity.US, NoPlan: true, Sheets: []sheets.Kind{sheets.Overview, sheets.Prep, sheets.Mise, sheets.Shopping}}
	r := compiled(tree, opt)
	opt.Sheets = []sheets.Kind{sheets.Prep}
	listed := compiled(tree, opt).Documents
	for i, doc := range r.Documents {
		c.document("shares", doc, listed[i], r.Meals, quantity.US, 19)
	}
	require.NotZero(t, c.compared[inSteps])
	require.Empty(t, c.wrong[inSteps])
}
