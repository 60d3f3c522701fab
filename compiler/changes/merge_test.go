package changes_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/changes"
	"tamis/compiler/load"
)

const fish = `dish Fish with citron
  serves 4
  gather
    4        trout
    1        citron
    40 g     butter
    10 g     salt
  method
    - Salt the trout. | work 5 min
    - Fry the trout in the butter. | ring high | work 10 min
    - Rest on a warm plate.
      | leave 5 min
  serve hot
`

const salsa = `base Green oil
  makes 200 ml
  gather
    200 ml   olive oil
    30 g     parsley
  method
    - Blend the parsley with the olive oil. | work 5 min
`

// broken is what is wrong with two branches put together: each is edits of the book, old
// and new text by turns, and together carries out both.
func broken(t *testing.T, files map[string]string, ours, theirs []string) (out []string) {
	t.Helper()
	edit := func(files map[string]string, edits []string) map[string]string {
		n := map[string]string{}
		for name, text := range files {
			n[name] = text
		}
		for i := 0; i < len(edits); i += 2 {
			done := false
			for name, text := range n {
				if done = done || edits[i+1] != "" && strings.Contains(text, edits[i+1]); strings.Contains(text, edits[i]) {
					n[name], done = strings.ReplaceAll(text, edits[i], edits[i+1]), true
				}
			}
			require.True(t, done, edits[i])
		}
		return n
	}
	texts := map[string]*string{}
	for name, text := range edit(edit(files, ours), theirs) {
		texts[name] = &text
	}
	tree, err := load.Texts(t.Context(), "", texts)
	require.NoError(t, err)
	m := changes.Merge{
		Base: compiled(t, files), Together: compiler.Compile(t.Context(), tree, compiler.Options{NoPages: true}),
		Branches: [2]changes.Branch{{Name: "ours", Result: compiled(t, edit(files, ours))}, {Name: "theirs", Result: compiled(t, edit(files, theirs))}},
	}
	for _, d := range m.Broken().Sorted() {
		out = append(out, fmt.Sprintf("%d: %s; %s", d.At.Span.Position().Line, d.Message, d.Why))
	}
	return out
}

func TestWhatTwoBranchesBreak(t *testing.T) {
	one := map[string]string{"fish.tamis": fish}
	two := map[string]string{"fish.tamis": fish, "oil.tamis": salsa}
	for _, c := range []struct {
		name         string
		files        map[string]string
		ours, theirs []string
		want         []string // of each finding a part; nil: none
	}{
		{"nothing clashes", one, []string{"10 g     salt", "12 g     salt"}, []string{"Rest on", "Keep on"}, nil},
		{"the same on both", one, []string{"10 g     salt", "12 g     salt"}, []string{"10 g     salt", "12 g     salt"}, nil},
		{
			"a name in a sentence", one,
			[]string{"1        citron", "1        lemon"},
			[]string{"    - Rest on", "    - Squeeze the citron over the fish. | work 1 min\n    - Rest on"},
			[]string{"11: citron is called lemon in ours, and theirs still says citron here"},
		},
		{
			"the other way round", one,
			[]string{"    - Rest on", "    - Squeeze the citrons over it. | work 1 min\n    - Rest on"},
			[]string{"1        citron", "1        lemon"},
			[]string{"11: citron is called lemon in theirs, and ours still says citrons here"},
		},
		{
			"a base", two,
			[]string{"base Green oil", "base Herb oil"},
			[]string{"10 g     salt\n", "10 g     salt\n    20 ml    green oil\n", "    - Rest on", "    - Drizzle with the green oil. | work 1 min\n    - Rest on"},
			[]string{"8: Green oil is called Herb oil in ours, and theirs still says green oil here", "12: Green oil is called Herb oil in ours"},
		},
		{
			"a base that is gone", two,
			[]string{salsa, ""},
			[]string{"10 g     salt\n", "10 g     salt\n    20 ml    green oil\n", "    - Rest on", "    - Drizzle with the green oil. | work 1 min\n    - Rest on"},
			[]string{"8: in theirs green oil is made by base Green oil; together nothing makes it"},
		},
		{
			"more than there is", one,
			[]string{"    - Rest on", "    - Brush with 15 g of the butter. | work 1 min\n    - Rest on", "in the butter.", "in 25 g of the butter."},
			[]string{"Salt the trout.", "Salt the trout, and rub with 10 g of the butter."},
			[]string{"15 g of butter is asked for"},
		},
		{
			"an amount for another number", one,
			[]string{"serves 4", "serves 8", "4        trout", "8        trout", "40 g     butter", "80 g     butter", "1        citron", "2        citrons"},
			[]string{"10 g     salt", "12 g     salt"},
			[]string{"7: 12 g of salt is by theirs, where the recipe serves 4; ours has made it over, and it serves 8"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := broken(t, c.files, c.ours, c.theirs)
			require.Len(t, got, len(c.want), "%s", strings.Join(got, "\n"))
			for i, w := range c.want {
				require.Contains(t, got[i], w)
			}
		})
	}
}
