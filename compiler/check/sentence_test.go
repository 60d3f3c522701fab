package check

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
	"tamis/testdata/bigbook"
)

// lines makes written lines of some text.
func lines(texts ...string) []resolve.Text {
	whole := ""
	for _, t := range texts {
		whole += t + "\n"
	}
	f := source.New("x.tamis", whole)
	var out []resolve.Text
	at := 0
	for _, t := range texts {
		out = append(out, resolve.Text{Text: t, Span: f.Span(at, at+len(t))})
		at += len(t) + 1
	}
	return out
}

// What a sentence says of how long the step lasts, and what it says of other
// times.
func TestTimesOfTheStep(t *testing.T) {
	for text, want := range map[string][]string{
		"Simmer for 20 minutes.": {"20 minutes"},
		"Simmer for about 20 minutes, then rest for a further 5 min.": {"about 20 minutes", "a further 5 min"},
		"Bake 35-40 minutes.":                                     {"35-40 minutes"},
		"Bake for 35 to 40 minutes until gold.":                   {"35 to 40 minutes"},
		"Cook for an hour and a half, or half an hour at a boil.": {"an hour and a half"},
		"Leave to stand for 1 1/2 hours.":                         {"1 1/2 hours"},
		"Leave it overnight.":                                     {"overnight"},
		"Chill in the fridge overnight, covered.":                 {"overnight"},
		"Stir in the overnight ferment.":                          nil,
		"Drain the beans that were soaked overnight.":             nil,
		"It keeps for 3 days in the fridge.":                      nil,
		"Take it out of the fridge 2 hours before serving.":       nil,
		"Stir every 10 minutes.":                                  nil,
		"After 20 minutes turn it.":                               nil,
		"Serve within 10 minutes.":                                nil,
		"Cook for the last 10 minutes without the lid.":           nil,
		"Add the 2-minute noodles.":                               nil,
		"Cut into 12 pieces of 75 g.":                             nil,
		"Freeze for up to 3 months.":                              nil,
		"If it is not done, cook for 10 minutes more.":            nil,
	} {
		s := sayingOf(lines(text))
		var got []string
		for _, x := range s.times() {
			if lasts(&x) {
				got = append(got, s.text[x.From:x.To])
			}
		}
		require.Equal(t, want, got, text)
	}
}

// Temperatures in sentences, in Celsius, and whether they are an oven's.
func TestDegreesOfASentence(t *testing.T) {
	type heat struct {
		words string
		low   int
		oven  bool
		fan   bool
	}
	for text, want := range map[string][]heat{
		"Bake at 180 C.":                         {{"180 C", 180, true, false}},
		"Bake at 180°C (160°C fan).":             {{"180°C", 180, true, false}, {"160°C fan", 160, true, true}},
		"Bake at 200 C (fan 180 C).":             {{"200 C", 200, true, false}, {"fan 180 C", 180, true, true}},
		"Bake at 350 F.":                         {{"350 F", 176, true, false}},
		"Bake at 180C/160C fan/gas 4.":           {{"180C", 180, true, false}, {"160C fan", 160, true, true}, {"gas 4", 180, true, false}},
		"Bake in a moderately hot oven.":         {{"moderately hot oven", 190, true, false}},
		"Heat the oil to 180 C.":                 {{"180 C", 180, false, false}},
		"Preheat the oven to 200 C.":             {{"200 C", 200, false, false}},
		"Boil the syrup to 118 C.":               {{"118 C", 118, false, false}},
		"Cook until the middle reaches 75 C.":    {{"75 C", 75, false, false}},
		"Bake at 140 C until set in the middle.": {{"140 C", 140, true, false}},
		"Add 200 ml cream and 3 cloves.":         nil,
	} {
		s := sayingOf(lines(text))
		var got []heat
		for _, d := range s.degrees() {
			got = append(got, heat{s.text[d.from:d.to], int(d.low), d.isOven(), d.fan})
		}
		require.Equal(t, want, got, text)
	}
}

// A time that runs over the end of a line is found where it was written.
func TestPlaceOverTwoLines(t *testing.T) {
	s := sayingOf(lines("Simmer for 20", "minutes, and stir."))
	x := s.times()
	require.Len(t, x, 1)
	at := s.place(x[0].From, x[0].To)
	require.Equal(t, "20\nminutes", at.Text())
	require.Equal(t, source.Position{Line: 1, Column: 12}, at.Position())
}

func TestSentences(t *testing.T) {
	s := sayingOf(lines("Heat to 62.5 C. Stir! Is it set?", "Serve"))
	var got []string
	for _, x := range s.sentences() {
		got = append(got, s.text[x[0]:x[1]])
	}
	require.Equal(t, []string{"Heat to 62.5 C. ", "Stir! ", "Is it set? ", "Serve"}, got)
}

// Sentences end where the expression of the notation page says: at a mark, with the quotes
// and brackets closed there, and a blank or the end behind it.
func TestSentencesEndAtMarks(t *testing.T) {
	end := regexp.MustCompile(`[.!?]["')]*(\s+|$)`)
	texts := []string{"", " ", "One.", "One. Two", "1.5 kg at 180 C. Stir!", "(So.) \"Well?\"  Then ...go on.\n Last  ", "End.)", ".. . .", "é. ü.x \t."}
	for _, text := range (bigbook.Book{Recipes: 20, Seed: 4}).Files() {
		texts = append(texts, text)
	}
	for _, text := range texts {
		var want [][2]int
		from := 0
		for _, m := range end.FindAllStringIndex(text, -1) {
			want = append(want, [2]int{from, m[1]})
			from = m[1]
		}
		if strings.TrimSpace(text[from:]) != "" {
			want = append(want, [2]int{from, len(text)})
		}
		require.Equal(t, want, sentencesOf(text), text)
	}
}

// A small word twice is found in any case and over any blanks, and nothing else is.
func TestSmallWordTwice(t *testing.T) {
	for text, want := range map[string]int{
		"Soften the the leeks.":           1,
		"The  the leeks go in in butter.": 1, // "go in in time" is right
		"Stir and AND and serve.":         2,
		"Bake it.  It is done.":           0,
		"The then, the.":                  0,
		"Add the two two pears.":          0,
		"as is is best":                   1,
		"a-a":                             0,
	} {
		var list diag.List
		p := &Pass{rule: doubleWord, diags: &list}
		p.doubled(sayingOf(lines(text)))
		require.Equal(t, want, list.Len(), text)
	}
}
