package check

import (
	"fmt"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/testdata/bigbook"
)

// A rule that is not Whole finds in a book what it finds in its recipes one at a
// time: else what is kept of it from one edit to the next would be wrong.
func TestRulesLookAtOneRecipeAtATime(t *testing.T) {
	fsys := fstest.MapFS{}
	for name, text := range (bigbook.Book{Recipes: 150, Seed: 12, Chapter: 30}).Files() {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	tree, err := load.FS(fsys, ".", "", "")
	require.NoError(t, err)
	diags := &diag.List{}
	model := resolve.Build(tree, diags)
	p := Pass{Tree: tree, Model: model, Meals: demand.Meals(model, demand.Options{Findings: true}, diags)}
	p.shared = sharedBy(&p)
	p.plates = sync.OnceValue(func() []*plate { return p.followed(hazard.NewTracer()) })
	parts := p.parts()
	for _, x := range parts {
		x.run(p, Demanded, hazard.NewTracer())
	}
	joined, found := join(parts, Demanded), 0
	for i, r := range All {
		if r.Check == nil || r.Whole || r.After > Demanded {
			continue
		}
		once, each := &diag.List{}, &diag.List{}
		own := p
		own.rule, own.diags = r, once
		r.Check(&own)
		if r.Family == Safety {
			(&part{meals: p.Meals}).sure(own.confirmed(hazard.NewTracer()), r, once, 0)
		}
		for _, d := range joined[i] {
			each.Add(*d)
		}
		require.Equal(t, brief(once), brief(each), "%s: mark it Whole", r.Code)
		found += each.Len()
	}
	require.Greater(t, found, 150, "rules find something in this book")
}

func brief(l *diag.List) (out []string) {
	for _, d := range l.Sorted() {
		out = append(out, fmt.Sprintf("%s:%d: %s %s", d.At.Span.File.Name, d.At.Span.Start, d.Code, d.Message))
	}
	return out
}
