package compiler_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/quantity"
)

// spoken holds what must be true of any sentence: the parts of a line that steps
// take never come to more than the line without a finding, no figure is
// accounted for twice, and the sentence prints at any size.
func spoken(t *testing.T, sentences ...string) {
	text := "dish Trial\n  serves 4\n  makes 24 pieces\n  units US\n  gather\n    240 g butter\n    6 eggs\n    2 cups milk\n    3 lemons\n    4 cloves garlic\n    500 g flour\n    salt\n  method\n"
	for _, s := range sentences {
		s = strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == '\n' || r == '\r' || r == '|' || r == 0 }), " ")
		text += "    - " + s + "\n"
	}
	tree, err := load.FS(fstest.MapFS{"trial.tamis": {Data: []byte(text)}}, ".", "", "")
	if err != nil {
		return
	}
	r := compiler.Compile(context.Background(), tree, compiler.Options{NoPlan: true, Demand: demand.Options{Covers: 9}, Sheets: []sheets.Kind{sheets.Prep}})
	if len(r.Model.Recipes) != 1 || r.Model.Recipes[0].Reading == nil {
		return
	}
	asked := map[string]bool{}
	for _, d := range r.Diags.Sorted() {
		if d.Severity >= diag.Question {
			asked[d.Code] = true
		}
	}
	sum := map[*resolve.Line]quantity.Number{}
	for _, step := range r.Model.Recipes[0].Reading.Steps {
		for _, x := range step.Takes {
			require.GreaterOrEqual(t, x.Part.Sign(), 0, text)
			require.GreaterOrEqual(t, x.But.Sign(), 0, text)
			if x.Line != nil && !x.Refers && !x.Unmeasured {
				sum[x.Line] = sum[x.Line].Add(x.Part)
			}
			for _, f := range step.Figures {
				apart := f.At.End <= x.AmountAt.Start || x.AmountAt.End <= f.At.Start || x.AmountAt.File == nil
				require.True(t, apart, "%s: %q is taken, and a figure too: %q %q", text, f.At.Text(), x.AmountAt.Text(), x.NameAt.Text())
			}
		}
		for i, f := range step.Figures {
			require.NotEmpty(t, f.At.Text(), text)
			require.True(t, i == 0 || step.Figures[i-1].At.End <= f.At.Start, "%s: %q twice", text, f.At.Text())
		}
	}
	for l, all := range sum {
		require.False(t, quantity.Int(1).Less(all) && !asked["U203"] && !asked["U204"], "%s: %s of %s is taken", text, all, l.Name)
	}
}

func FuzzSentence(f *testing.F) {
	for _, s := range []string{
		"Beat all but two of the eggs.", "Mix 2 tbsp each of the butter and milk, less one.", "½ of half the rest of 1-1/2 cups of a third egg at a time",
		"Do not add the milk, or half a dozen eggs in each of 24 cases", "a pound and a half of 3 or 4 cloves, keeping back six", "the other two more lemons", "1 lb. of", "half-half-half",
	} {
		f.Add(s, "Add the rest of the "+s)
	}
	f.Fuzz(func(t *testing.T, one, two string) {
		if len(one)+len(two) < 400 {
			spoken(t, one, two)
		}
	})
}

func TestAnySentence(t *testing.T) {
	words := strings.Fields("the a an of half third two-thirds one two three 2 1/2 ½ 3/4 dozen half-dozen couple pair both all but less except keeping back rest remaining other more another " +
		"each every at time in into with and or not without before adding until butter eggs egg milk lemon lemons garlic cloves clove flour salt water yolks white juice pound cup cups tbsp oz. g 200 " +
		"ml litre some most few little handful nearly up to about cases pieces shape cut divide set aside reserve , . ; to no instead everything ingredients")
	rounds := effort.Rounds(600, 1500)
	rng := rand.New(rand.NewPCG(7, 11))
	for range rounds {
		sentence := func() string {
			var b strings.Builder
			for range 3 + rng.IntN(12) {
				w := words[rng.IntN(len(words))]
				if b.Len() > 0 && !strings.Contains(",.;", w) {
					b.WriteByte(' ')
				}
				b.WriteString(w)
			}
			return b.String()
		}
		spoken(t, sentence(), sentence())
	}
}
