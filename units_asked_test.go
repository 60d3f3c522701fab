package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/lang/quantity"
	"tamis/render/text"
)

// Who has ounces and cups is shown no gram, on any list, at any size; who has
// scales and a jug is shown no ounce. Spoons are everybody's, and cups stay where
// somebody wrote them.
func TestNobodyIsShownOtherUnits(t *testing.T) {
	metric := regexp.MustCompile(`\d ?(g|kg|ml|cl|dl|litres?)\b`)
	other := regexp.MustCompile(`\d ?(oz|lb|fl oz|pints?|quarts?|gallons?)\b`)
	looked := map[quantity.System]int{}
	for seed := range effort.Rounds[uint64](16, 400) {
		written, book := unitsByChance(seed)
		tree, err := load.FS(book, ".", "", "")
		require.NoError(t, err)
		for _, units := range []quantity.System{quantity.NoSystem, quantity.US, quantity.Imperial, quantity.Metric} {
			for _, n := range []int{0, 1, 7, 30, 250} {
				r := compiled(tree, compiler.Options{
					Demand: demand.Options{Covers: n}, Units: units, NoPlan: true, Sheets: []sheets.Kind{sheets.Prep, sheets.Mise, sheets.Shopping},
				})
				in := units
				if in == quantity.NoSystem {
					in = written
				}
				foreign := metric
				if in == quantity.Metric {
					foreign = other
				}
				for _, said := range listed(r) {
					looked[in]++
					require.False(t, foreign.MatchString(said), "seed %d, written in %q, asked for %q, covers %d: %q", seed, written, units, n, said)
				}
			}
		}
	}
	for _, s := range []quantity.System{quantity.US, quantity.Imperial, quantity.Metric} {
		require.Greater(t, looked[s], 1000)
	}
}

// listed is every run of every row of every table.
func listed(r *compiler.Result) (out []string) {
	for _, doc := range r.Documents {
		for i := range doc.Sheets {
			for _, row := range tableRows(&doc.Sheets[i]) {
				for _, c := range row.Cells {
					out = append(out, sheets.Words(c.Runs), sheets.Words(c.Sub))
				}
			}
		}
	}
	return out
}

// unitsByChance is a menu of two dishes in the units of one system.
func unitsByChance(seed uint64) (quantity.System, fs.FS) {
	r := rand.New(rand.NewPCG(seed, 3))
	one := func(list ...string) string { return list[r.IntN(len(list))] }
	units := map[quantity.System][]string{
		quantity.Metric:   {"tsp", "tbsp", "g", "ml", "kg", "litre"},
		quantity.US:       {"tsp", "tbsp", "cups", "oz", "lb", "pint", "fl oz"},
		quantity.Imperial: {"tsp", "tbsp", "oz", "lb", "pint", "fl oz"},
	}
	system := quantity.System(one("metric", "US", "imperial"))
	var b strings.Builder
	fmt.Fprintf(&b, "larder\n  units %s\nmenu Supper\n  covers 8\n  course Main\n    First\n    Second\n", system)
	for _, dish := range []string{"First", "Second"} {
		fmt.Fprintf(&b, "dish %s\n  serves 4\n  gather\n", dish)
		things := []string{"caster sugar", "plain flour", "butter", "milk", "olive oil", "lemon juice", "fine salt", "honey", "rice", "eggs", "cloves garlic"}
		r.Shuffle(len(things), func(i, j int) { things[i], things[j] = things[j], things[i] })
		for _, x := range things[:5] {
			n := one("1", "2", "3", "1/2", "1/3", "1/4", "3/4", "2 1/2", "1 to 2", "2/3", "5", "8")
			if x == "eggs" || x == "cloves garlic" {
				fmt.Fprintf(&b, "    %s %s\n", n, x)
				continue
			}
			fmt.Fprintf(&b, "    %s %s %s\n", n, one(units[system]...), x)
		}
		b.WriteString("  method\n    - Mix everything.\n      | work 5 min\n")
	}
	return system, fstest.MapFS{"menu.tamis": {Data: []byte(b.String())}}
}

// On no sheet of a kitchen that asks for cups and ounces stands a gram, nor a degree
// that its oven and its probe have not, whatever the writer and the rules speak.
func TestEverySheetIsInTheUnitsAsked(t *testing.T) {
	book := `kitchen Yard
  rules UK
  cooks Mo
  oven main, preheat 15 min
  rings 2
  vessel pot, holds 6 litres
larder
  units metric
menu Supper
  covers 6
  on the table 2027-05-08 19:00
  course Main
    Patties
    Broth
base Broth base
  makes 1.5 litres
  keeps 2 days, fridge
  gather
    1 kg     chicken wings
    2 litres water
  method
    - Simmer the wings in the water.
      | ring low | in pot | work 5 min | leave 2 h
    - Strain and cool. | work 5 min | leave 1 h | reach 8 C
dish Patties
  serves 4
  gather
    600 g    minced pork
    2.5 g    fine salt
    10 g     butter
    120 g    plain flour
  method
    - Mix the pork with the salt and the flour, shape into patties of 75 g and dot with the butter.
      | work 10 min | into 8 patties, 75 g each
    - Bake. | oven 200 C | leave 25 min | core 75 C
  serve hot, within 15 min
dish Broth
  serves 4
  gather
    1 litre  broth base
  method
    - Heat the broth base. | ring medium | in pot | watch 10 min | hold hot up to 30 min, above 63 C
  serve hot
`
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(book)}}, ".", "", "")
	require.NoError(t, err)
	metric := regexp.MustCompile(`[0-9½¼¾⅓⅔⅛⅜⅝⅞] ?(g|kg|ml|cl|dl|litres?)\b|[^(0-9-][0-9]+ °C|^°C$`)
	for _, covers := range []int{2, 6, 40} {
		r := compiled(tree, compiler.Options{Demand: demand.Options{Covers: covers}, Units: quantity.US, Sheets: sheets.Kinds()})
		require.Len(t, r.Documents, 1)
		var out bytes.Buffer
		require.NoError(t, text.Write(&out, r.Documents[0], text.Options{}))
		page := strings.Join(strings.Fields(out.String()), " ")
		require.Contains(t, page, "167 °F (75 °C)", "the limits, in both")
		require.Empty(t, metric.FindAllString(page, 5), "covers %d", covers)
		require.NotContains(t, page, " °C Put right", "the head of the log")
	}
}
