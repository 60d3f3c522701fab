package planner

import (
	"context"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/effort"
)

// mealsOf reads a folder through every pass before this one.
func mealsOf(t *testing.T, files fs.FS) ([]*demand.Meal, *diag.List) {
	t.Helper()
	tree, err := load.FS(files, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	diags.AddAll(&tree.Diags)
	return demand.Meals(resolve.Build(tree, diags), demand.Options{}, diags), diags
}

// pinned plans every meal of a folder and gives the breaches of each.
func pinned(t *testing.T, files fs.FS) (out []*pinup) {
	t.Helper()
	meals, _ := mealsOf(t, files)
	for _, m := range meals {
		diags := &diag.List{}
		line := Plan(context.Background(), m, timeline.Options{Known: &known}, diags)
		said := ""
		for _, d := range diags.Sorted() {
			said += d.Message + " " + d.Why + " "
		}
		if line == nil {
			t.Logf("%s: no plan: %s", m.Title, said)
			continue
		}
		out = append(out, breaches(line, said))
	}
	return out
}

// banqueted is pinned of the first menus of chance, each planned once for all tests.
func banqueted(t *testing.T, seed uint64) []*pinup {
	t.Helper()
	if out, ok := banquets[seed]; ok {
		return out
	}
	out := pinned(t, fstest.MapFS{"menu.tamis": {Data: []byte(banquet(seed))}})
	banquets[seed] = out
	return out
}

var banquets = map[uint64][]*pinup{}

// tally adds up breaches by rule.
type tally map[string]int

func (a tally) add(p *pinup) {
	for rule, list := range p.found {
		a[rule] += len(list)
	}
}

func (a tally) String() string {
	var b strings.Builder
	sum := 0
	for _, rule := range sortedKeys(a) {
		fmt.Fprintf(&b, "  %4d  %s\n", a[rule], rule)
		sum += a[rule]
	}
	fmt.Fprintf(&b, "  %4d  in all", sum)
	return b.String()
}

// folders lists the folders of texts below some.
func folders(t *testing.T, roots ...string) (dirs []string) {
	t.Helper()
	for _, root := range roots {
		require.NoError(t, filepath.WalkDir(root, func(path string, entry os.DirEntry, err error) error {
			if err == nil && strings.HasSuffix(path, load.Ending) && !slices.Contains(dirs, filepath.Dir(path)) {
				dirs = append(dirs, filepath.Dir(path))
			}
			return err
		}))
	}
	return dirs
}

// TestPinUp counts what a head chef would strike out, by rule: nothing but what the plan
// itself names, with what was tried to avoid it, and in the examples at most two of a rule.
func TestPinUp(t *testing.T) {
	sets := []struct {
		name  string
		all   tally
		named int
	}{{"the examples", tally{}, 0}, {"the hard menus", tally{}, 0}, {"menus of chance", tally{}, 0}}
	count := func(set int, name string, p *pinup) {
		t.Logf("%s: %s: %d jobs, %v", name, p.line.Meal.Title, len(p.line.Jobs), p.measure)
		if os.Getenv("TAMIS_PINUP") != "" {
			for _, rule := range sortedKeys(p.found) {
				for _, s := range p.found[rule] {
					t.Logf("    %s: %s", rule, s)
				}
			}
		}
		sets[set].all.add(p)
		owned := 0
		for _, list := range p.owned {
			owned += len(list)
		}
		sets[set].named += owned
		if set == 0 {
			assert.LessOrEqual(t, owned, 2, "%s names more than two breaches", name)
		}
	}
	for set, root := range []string{"../../../examples", "../../../testdata/menus"} {
		for _, dir := range folders(t, root) {
			for _, p := range pinned(t, os.DirFS(dir)) {
				count(set, filepath.Base(dir), p)
			}
		}
	}
	rounds := effort.Rounds[uint64](6, 200)
	for seed := range rounds {
		for _, p := range banqueted(t, seed) {
			count(2, fmt.Sprint("chance ", seed), p)
		}
	}
	for _, set := range sets {
		t.Logf("%s: %d breaches that a plan names itself, and besides\n%s", set.name, set.named, set.all)
		for rule, n := range set.all {
			assert.Zero(t, n, "%s, in %s: see TAMIS_PINUP=1", rule, set.name)
		}
	}
}

// banquet is the text of a menu of chance with 3 to 25 dishes.
func banquet(seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 77))
	n := 3 + r.IntN(5)
	if seed%4 == 3 {
		n = 8 + r.IntN(18)
	}
	return banquetOf(r, n, min(6, 1+n/5+r.IntN(2)))
}

// banquetOf is one of so many dishes, for so many cooks.
func banquetOf(r *rand.Rand, n, cooks int) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	names := []string{"Ana", "Ben", "Cleo", "Dov", "Edie", "Finn"}[:cooks]
	line("kitchen Hall\n  cooks %s\n  oven main, %d shelves, preheat 15 min\n  oven small, 1 shelf, preheat 10 min\n  rings %d", strings.Join(names, ", "), 2+n/8, 4+n/4)
	if r.IntN(2) == 0 {
		line("  wash up 10 min, %s", pick("before serving", "after each dish", "every 2 h"))
	}
	line("menu Banquet\n  covers 8\n  on the table 2027-05-02 18:00\n  at Hall\n  hours day before, 14:00 to 19:00\n  hours on the day, 11:00 to 21:00")
	line("  task Lay the table, work 15 min, before First")
	var recipes strings.Builder
	dish := 0
	for c, course := range []string{"First", "Main, 40 min after First", "Sweet, 1 h 30 min after First"} {
		line("  course %s", course)
		for range max(1, (n+c)/3) {
			dish++
			name := fmt.Sprintf("Dish %d", dish)
			line("    %s", name)
			recipes.WriteString(chanceDish(r, name))
		}
	}
	return b.String() + recipes.String()
}

func chanceDish(r *rand.Rand, name string) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	line("dish %s\n  serves 8\n  gather", name)
	things := []string{"onions, finely chopped", "carrots, diced", "garlic, crushed", "celery, sliced", "parsley, chopped", "leeks, sliced", "potatoes, peeled"}
	r.Shuffle(len(things), func(i, k int) { things[i], things[k] = things[k], things[i] })
	main := pick("chicken thighs, trimmed", "red lentils", "butter beans", "salmon, skinned", "cauliflower, in florets")
	line("    1 kg     %s | work %d min", main, 4+r.IntN(10))
	for _, th := range things[:1+r.IntN(3)] {
		line("    300 g    %s | work %d min", th, 2+r.IntN(8))
	}
	thing, _, _ := strings.Cut(main, ",")
	other, _, _ := strings.Cut(things[0], ",")
	line("  method")
	switch r.IntN(5) {
	case 0:
		line("    - Toss the %s with the %s.\n      | work %d min | keeps 1 day, fridge\n    - Dish up.\n      | work 4 min\n  serve cold, within 20 min", thing, other, 8+r.IntN(12))
	case 1:
		line("    - Soften the %s and add the %s.\n      | ring medium | work %d min\n    - Simmer.\n      | ring low | leave %d min\n    - Season.\n      | work 3 min\n  serve hot, within 10 min", other, thing, 5+r.IntN(8), 20+5*r.IntN(8))
	case 2:
		line("    - Spread the %s on a tray with the %s.\n      | work %d min\n    - Roast.\n      | oven %d C | leave %d min\n    - Dish up.\n      | work 4 min\n  serve hot, within 10 min", thing, other, 4+r.IntN(5), 160+10*r.IntN(5), 25+5*r.IntN(6))
	case 3:
		line("    - Cook the %s with the %s.\n      | ring medium | work 6 min | leave %d min\n    - Cool and chill.\n      | only before a pause | work 4 min | leave 40 min | reach 8 C\n    pause up to 1 day, fridge\n    - Bring back until piping hot.\n      | only after a pause | ring medium | work 3 min | leave 10 min | core 75 C\n    - Dish up.\n      | work 3 min\n  serve hot, within 10 min", thing, other, 20+5*r.IntN(6))
	default:
		line("    - Fry the %s with the %s.\n      | ring high | work %d min\n    - Dish up.\n      | work 2 min\n  serve hot, within 5 min", thing, other, 10+r.IntN(12))
	}
	return b.String()
}
