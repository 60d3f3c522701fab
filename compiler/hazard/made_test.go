package hazard_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// Of bases that each draw on both of the level below, every one is gone through once: by
// its ways there would be a million millions of what the lowest two bring.
func TestEachBaseIsGoneThroughOnce(t *testing.T) {
	const levels = 40
	var b strings.Builder
	draw := func(level int) {
		for _, x := range "ab" {
			fmt.Fprintf(&b, "    10 ml    stock %c%d\n", x, level)
		}
	}
	b.WriteString("dish Soup\n  serves 4\n  gather\n")
	draw(0)
	b.WriteString("  method\n    - Heat it.\n      | work 5 min\n")
	for level := range levels {
		for _, x := range "ab" {
			fmt.Fprintf(&b, "base Stock %c%d\n  makes 1 litre\n  gather\n    100 ml    milk\n      instead 100 ml oat cream\n", x, level)
			if level < levels-1 {
				draw(level + 1)
			}
			b.WriteString("  method\n    - Heat it.\n      | work 5 min\n")
		}
	}
	b.WriteString("menu M\n  covers 4\n  course One\n    Soup\n")
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(b.String())}}, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	m := resolve.Build(tree, diags)
	meals := demand.Meals(m, demand.Options{}, diags)
	require.Len(t, meals, 1)
	soup := meals[0].Makings[0]
	for _, mk := range meals[0].Makings {
		if mk.Serving != nil {
			soup = mk
		}
	}
	require.Len(t, hazard.Swaps(soup), 2*levels)
	require.Len(t, hazard.ThingsIn(soup), 2+2*2*(levels-1), "by each of the two lines of the soup")
	require.Len(t, hazard.AllThings(soup.Reading), 2+2*2*(levels-1))
}

// What was made in an earlier part holds what it was made of: a base by its list, a
// by-product by that of its block.
func TestWhatWasMadeInAnEarlierPartHoldsItsThings(t *testing.T) {
	text := `series Two evenings
  part 1 Butter and broth
    shows Caper butter
    shows Poached bird
    date 2027-06-26
  part 2 Trout
    shows Trout
    date 2027-07-17
base Caper butter
  makes 200 g
  keeps 8 weeks, freezer
  gather
    200 g    butter
    20 g     capers
  method
    - Beat everything. | work 5 min
dish Poached bird
  serves 4
  gather
    1        chicken
    100 g    celery
    2 litres water
  method
    - Poach the chicken with the celery in the water. | ring low | leave 1 h | core 75 C
    - Strain. | work 5 min | makes 1 litre bird broth | keeps 8 weeks, freezer
dish Trout
  serves 4
  gather
    4        trout fillets
    120 g    caper butter                      | made in part 1
    200 ml   bird broth                        | made in part 1
  method
    - Poach the trout fillets in the bird broth, with the caper butter. | ring low | leave 10 min
`
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(text)}}, ".", "", "")
	require.NoError(t, err)
	m := resolve.Build(tree, &diag.List{})
	var trout *resolve.Recipe
	for _, r := range m.Recipes {
		if r.Name == "Trout" {
			trout = r
		}
	}
	holds := map[string]string{}
	for _, th := range hazard.AllThings(trout.Reading) {
		require.True(t, th.Known, th.Name())
		for _, c := range th.Contains {
			holds[c.Substance] = th.Top.Name
		}
	}
	require.Equal(t, map[string]string{"fish": "trout fillets", "milk": "caper butter", "celery": "bird broth"}, holds)
}
