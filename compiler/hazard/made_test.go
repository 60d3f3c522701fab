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
