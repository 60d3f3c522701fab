package bidi

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/unicode/bidi"
)

// seen is s as it stands on paper, capitals for letters that run to the left:
// the notation of the examples of UAX #9, where Hebrew is written in capitals.
func seen(s string) string {
	text := []rune(s)
	for i, r := range text {
		if r >= 'A' && r <= 'Z' {
			text[i] = 'א' + r - 'A'
		}
	}
	levels, _ := Levels(text)
	var b strings.Builder
	for _, i := range Order(levels) {
		one := string(text[i])
		if levels[i]&1 == 1 {
			one = Backwards(one)
		}
		for _, r := range one {
			if r >= 'א' && r <= 'ת' {
				r = r - 'א' + 'A'
			}
			b.WriteRune(r)
		}
	}
	return b.String()
}

func TestOrder(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"plain words", "plain words"},
		// UAX #9, section 3.4, "Reordering Resolved Levels", rule L2 (from memory)
		{"car means CAR.", "car means RAC."},
		{"CAR MEANS car.", ".car SNAEM RAC"},
		// the table of amounts and the sentence of a step
		{"450 g ABC", "450 g CBA"}, // the first letter is Latin
		{"ADD 450 ABC", "CBA 450 DDA"},
		{"to ABC 450 DEF and go", "to FED 450 CBA and go"},
		{"ABC (DEF)", "(FED) CBA"},
		{"say ABC (hot), DEF", "say CBA (hot), FED"},
		{"A b (c) -", "- b (c) A"}, // N0 c1: what stands before the bracket is Latin too
		{"A (c) B", "B (c) A"},
	} {
		require.Equal(t, c.want, seen(c.in), c.in)
	}
}

// The library knows direction, not level: where it and we read the same text,
// every character must run the same way.
func TestDirectionsAgreeWithTheLibrary(t *testing.T) {
	letters := []rune("abאבגש 12,.-%°–/ا١é\u05b0") // brackets: TestOrder
	r := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		text := make([]rune, 1+r.IntN(14))
		for i := range text {
			text[i] = letters[r.IntN(len(letters))]
		}
		levels, base := Levels(text)
		want := directions(t, string(text))
		for i := range text {
			if text[i] == ' ' && i == len(text)-1 || allBlank(text[i:]) {
				continue // L1: blanks at the end of a line are not drawn
			}
			require.Equal(t, want[i], levels[i]&1, "%q, character %d, levels %v base %d", string(text), i, levels, base)
		}
	}
}

func allBlank(text []rune) bool {
	return !slices.ContainsFunc(text, func(r rune) bool { return r != ' ' })
}

func directions(t *testing.T, s string) (out []int) {
	var p bidi.Paragraph
	_, err := p.SetString(s)
	require.NoError(t, err)
	o, err := p.Order()
	require.NoError(t, err)
	out = make([]int, len([]rune(s)))
	for i := range o.NumRuns() {
		run := o.Run(i)
		from, to := run.Pos()
		for k := from; k <= to; k++ {
			if run.Direction() == bidi.RightToLeft {
				out[k] = 1
			}
		}
	}
	return out
}

func TestMarksStayBehindTheirLetters(t *testing.T) {
	// shin with its dot, vav, lamed, mem
	require.Equal(t, "\u05dd\u05dc\u05d5\u05e9\u05c1", Backwards("\u05e9\u05c1\u05d5\u05dc\u05dd"))
	require.Equal(t, "(ג)א", Backwards("א(ג)"))
}

func TestMixed(t *testing.T) {
	require.False(t, Mixed("450 g crème, Щи, ψωμί, 梨"))
	require.True(t, Mixed("450 g חומוס"))
}
