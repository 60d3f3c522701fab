package main

import (
	"context"
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
				r := compiler.Compile(context.Background(), tree, compiler.Options{
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
				for _, text := range listed(r) {
					looked[in]++
					require.False(t, foreign.MatchString(text), "seed %d, written in %q, asked for %q, covers %d: %q", seed, written, units, n, text)
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
					out = append(out, textOf(c.Runs), textOf(c.Sub))
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
