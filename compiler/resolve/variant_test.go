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

const whiteSoup = `dish White soup
  serves 4
  gather
    600 g    leeks
    400 ml   milk
    40 g     butter
  method
    - Melt the butter and soften the leeks.
      | ring low | watch 12 min
    - Pour in half the milk.
      | ring low | leave 15 min
    - Strain.
      | work 3 min
    - Stir in the rest of the milk, as in step 2. Scald the milk pan.
      | work 2 min

dish Other soup
  as White soup, but
`

// variantOf reads whiteSoup with these lines for the other one, and says what is found
// of it by code, and what its steps are and take.
func variantOf(t *testing.T, lines string) (codes []string, steps []string, takes string) {
	t.Helper()
	tree, err := load.FS(fstest.MapFS{"a.tamis": {Data: []byte(whiteSoup + lines)}}, ".", "", "")
	require.NoError(t, err)
	require.Empty(t, tree.Diags.Sorted(), lines)
	diags := &diag.List{}
	m := resolve.Build(tree, diags)
	for _, d := range diags.Sorted() {
		codes = append(codes, d.Code)
	}
	for _, r := range m.Recipes {
		if r.Name != "Other soup" {
			continue
		}
		var all []string
		for _, sr := range r.Reading.Steps {
			steps = append(steps, sr.Step.Prose.Text)
			for _, tk := range sr.Takes {
				if tk.Line != nil && !tk.Refers {
					all = append(all, tk.Part.String()+" "+tk.Line.Name)
				}
			}
		}
		takes = strings.Join(all, ", ")
	}
	return codes, steps, takes
}

func TestVariants(t *testing.T) {
	for _, c := range []struct {
		name, lines string
		codes       []string
		steps       map[int]string // by number, from 1: what they say
		count       int
		takes       string
	}{
		{
			"a thing replaced", "  replace milk with 300 ml cream\n", nil,
			map[int]string{2: "Pour in half the cream.", 4: "Stir in the rest of the cream, as in step 2. Scald the milk pan."},
			4,
			"1 butter, 1 leeks, 1/2 cream, 1/2 cream",
		},
		{
			"a step put in, and numbers that follow", "  after step 1, \"Melt the butter\"\n    - Season.\n      | work 1 min\n", nil,
			map[int]string{2: "Season.", 3: "Pour in half the milk.", 5: "Stir in the rest of the milk, as in step 3. Scald the milk pan."},
			5,
			"1 butter, 1 leeks, 1/2 milk, 1/2 milk",
		},
		{
			"a step before, one replaced and one left out", "  before step 1, \"Melt\"\n    - Season.\n      | work 1 min\n  replace step 1, \"Melt\"\n    - Sweat the leeks in the butter.\n      | ring low | watch 9 min\n  without step 3, \"Strain\"\n", nil,
			map[int]string{1: "Season.", 2: "Sweat the leeks in the butter.", 4: "Stir in the rest of the milk, as in step 3. Scald the milk pan."},
			4,
			"1 leeks, 1 butter, 1/2 milk, 1/2 milk",
		},
		{"left out, and its sentence asked about once", "  without butter\n", []string{"U141"}, map[int]string{1: "Melt the butter and soften the leeks."}, 4, "1 leeks, 1/2 milk, 1/2 milk"},
		{"a step left out that is spoken of", "  without step 2\n  gather\n    300 ml   milk\n", []string{"U211", "U141"}, nil, 3, "1 butter, 1 leeks, 1 milk"},
		{"other words", "  replace step 3, \"Sieve\"\n    - Blend.\n      | work 4 min\n", []string{"U142"}, map[int]string{3: "Strain."}, 4, "1 butter, 1 leeks, 1/2 milk, 1/2 milk"},
		{"the words of another step", "  replace step 2, \"Strain\"\n    - Blend.\n      | work 4 min\n", []string{"U142"}, map[int]string{3: "Blend."}, 4, "1 butter, 1 leeks, 1/2 milk, 1/2 milk"},
		{"no such thing", "  without cream\n", []string{"U143"}, nil, 4, "1 butter, 1 leeks, 1/2 milk, 1/2 milk"},
		{"a thing that is there already", "  replace milk with 20 g butter\n", []string{"U145", "U210"}, nil, 4, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			codes, steps, takes := variantOf(t, c.lines)
			if c.takes != "" {
				require.Equal(t, c.codes, codes)
				require.Equal(t, c.takes, takes)
			} else {
				require.Contains(t, codes, c.codes[0])
			}
			require.Len(t, steps, c.count)
			for n, want := range c.steps {
				require.Equal(t, want, steps[n-1])
			}
		})
	}
}

// Of several blocks the lists are added up, and one may have a method.
func TestLikeSeveralBlocks(t *testing.T) {
	more := "  serves 4\n\nbase Dumplings\n  makes 12 dumplings\n  gather\n    200 g    flour\n    2        eggs\n"
	codes, steps, _ := variantOf(t, more+"\ndish Third\n  as White soup, Dumplings, but\n")
	require.Len(t, steps, 4)
	require.Equal(t, []string{"U201", "U201"}, codes, "flour and eggs are named by no step")
	codes, _, _ = variantOf(t, "  serves 6\n\ndish Third\n  as White soup, Other soup, but\n")
	require.Equal(t, []string{"U144"}, codes)
}

// What is found in the other block is said once, there.
func TestFindingsOfTheOtherBlockAreSaidOnce(t *testing.T) {
	codes, _, _ := variantOf(t, "  serves 6\n\nbase Stock\n  makes 1 litre\n  gather\n    1 kg bones xx\n    2 carrots\n  method\n    - Simmer the bones xx.\n      | ring low | leave 3 h\n\nbase Brown stock\n  as Stock, but\n")
	require.Equal(t, []string{"U201"}, codes)
}
