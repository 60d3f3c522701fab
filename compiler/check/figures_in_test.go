package check

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Figures are found in figures and in words, each once and in order, whatever stands about them.
func TestFiguresInWords(t *testing.T) {
	for text, want := range map[string][]string{
		"bake for 1 1/2 hours at 180 C, not 2 hours": {"1 1/2 hours", "180 C", "2 hours"},
		"an hour and a half":                         {"an hour and a half"},
		"two teaspoons of yeast and 3 eggs":          {"two teaspoons", "3"},
		"a loaf, ~2 hours later":                     nil,
		"half of you, one of us":                     nil,
		"½ tsp salt (or 3 g of it)":                  {"½ tsp", "3 g"},
		"2–3 days, or 35-40min":                      {"2–3 days", "35-40min"},
		"page 12":                                    {"12"},
		"":                                           nil,
	} {
		var got []string
		last := 0
		for _, f := range figuresIn(text) {
			require.True(t, f.from >= last && f.to > f.from && f.to <= len(text), "%s: %d to %d", text, f.from, f.to)
			got, last = append(got, text[f.from:f.to]), f.to
		}
		require.Equal(t, want, got, text)
	}
}

// No text is too odd for it.
func FuzzFiguresIn(f *testing.F) {
	for _, s := range []string{"1 1/2 hours", "two or three minutes (½)", "half an\u00a0hour", "2 h30", "a dozen days' work at 5,5 °C"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		last := 0
		for _, x := range figuresIn(s) {
			if x.from < last || x.to <= x.from || x.to > len(s) {
				t.Fatalf("%q: %d to %d after %d", s, x.from, x.to, last)
			}
			last = x.to
		}
	})
}
