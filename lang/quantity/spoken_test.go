package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestReadSpoken(t *testing.T) {
	for _, c := range []struct{ text, value, rest string }{
		{"two of the eggs", "2", " of the eggs"},
		{"twenty-two of", "22", " of"},
		{"twenty two eggs", "22", " eggs"},
		{"a dozen eggs", "12", " eggs"},
		{"half a dozen eggs", "6", " eggs"},
		{"a half-dozen eggs", "6", " eggs"},
		{"2 dozen rolls", "24", " rolls"},
		{"a couple of", "2", " of"},
		{"two hundred grams", "200", " grams"},
		{"one and a half lemons", "3/2", " lemons"},
		{"one and one-half cups", "3/2", " cups"},
		{"two and one-fourth cups", "9/4", " cups"},
		{"1-1/2 cups", "3/2", " cups"},
		{"1½ cups", "3/2", " cups"},
		{"one half and one third", "1/2 part", " and one third"},
		{"½ of the butter", "1/2 part", " of the butter"},
		{"half the butter", "1/2 part", " the butter"},
		{"two-thirds of", "2/3 part", " of"},
		{"three-fourths cup", "3/4 part", " cup"},
		{"a quarter of a pound", "1/4 part", " of a pound"},
		{"half a pound", "1/2 part", " a pound"},
		{"half-cup of", "1/2 part", "-cup of"},
		{"a pound and a half", "1 a", " pound and a half"},
		{"an egg", "1 a", " egg"},
		{"two or three eggs", "2 to 3", " eggs"},
		{"3 to 4 eggs", "3 to 4", " eggs"},
		{"3-4 eggs", "3 to 4", " eggs"},
		{"200g flour", "200", "g flour"},
		{"third of the", "", ""},
		{"seven-up", "7", "-up"},
		{"70% chocolate", "", ""},
		{"2nd pan", "", ""},
		{"onerous work", "", ""},
		{"a-la-mode beef", "", ""},
	} {
		s, n := ReadSpoken(c.text, Options{})
		if c.value == "" {
			require.Zero(t, n, c.text)
			continue
		}
		got := s.Value.Low.String()
		if s.Value.IsRange() {
			got += " to " + s.Value.High.String()
		}
		if s.Part {
			got += " part"
		}
		if s.Article {
			got += " a"
		}
		require.Equal(t, c.value, got, c.text)
		require.Equal(t, c.rest, c.text[n:], c.text)
	}
}

func TestReadSpokenUnit(t *testing.T) {
	for text, want := range map[string]string{
		"pounds of": "lb of", "lb. of malt": "lb  of malt", "lb. Stir": "lb . Stir", "cupfuls of": "cup  of", "cupful": "cup ", "tablespoonfuls": "tbsp ",
		"teaspoonful of": "tsp  of", "ounce": "oz ", "quarts water": "quart  water", "handful": "handful ", "handfuls": "handful ", "beautiful": "",
	} {
		u, n := ReadSpokenUnit(text, Options{})
		got := ""
		if u != nil {
			got = u.Name + " " + text[n:]
		}
		if want == "lb of" {
			want = "lb  of"
		}
		require.Equal(t, want, got, text)
	}
}

// Whoever asks first whether a number may begin with a word misses none.
func TestBeginsNumber(t *testing.T) {
	words := strings.Fields("a A an An half Half one Two twelve thirteen twenty ninety dozen score the third quarter couple pair 2 ½ 1½ ⅓ 1/2 2.5 0 00 two-thirds one's half's oné twenty- 2nd 7up another onetwo hundred nine")
	for _, w := range words {
		for _, behind := range []string{"", " dozen", "-half", " and a half cups", ", then", "’s", " a dozen", "/2 of", ". "} {
			if _, n := ReadSpoken(w+behind, Options{}); n > 0 {
				require.True(t, BeginsNumber(w), w+behind)
			}
		}
	}
	for _, w := range []string{"the", "onion", "oneself", "dozen", "third", "Stir", "ée", ""} {
		require.False(t, BeginsNumber(w), w)
	}
}
