package compiler_test

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// cautionsOf are the cautions of the prep sheet of a text's first recipe, by
// their words, with who says so.
// By its letter: who says so stands in one footnote under the last of them.
func cautionsOf(t *testing.T, text string) map[string]string {
	t.Helper()
	r := compileText(t, text, compiler.Options{})
	require.False(t, r.Diags.HasErrors())
	out := map[string]string{}
	for _, s := range (&made{r}).sheets(sheets.Prep) {
		all := cautionsOn(s)
		require.NotEmpty(t, all)
		notes := strings.Split(lettered.ReplaceAllString(all[len(all)-1].Source, "\x00$1: "), "\x00")
		for i, it := range all {
			if i < len(all)-1 {
				require.Empty(t, it.Source, "one footnote")
			}
			out[it.Text] = ""
			if m := marked.FindStringSubmatch(it.Text); m != nil {
				n := slices.IndexFunc(notes, func(s string) bool { return strings.HasPrefix(s, m[2]+": ") })
				require.GreaterOrEqual(t, n, 0, "%s: no note %s in %v", it.Text, m[2], notes)
				out[m[1]] = strings.TrimSuffix(strings.TrimPrefix(notes[n], m[2]+": "), "; ")
			}
		}
	}
	return out
}

var (
	marked   = regexp.MustCompile(`^(.*) \((.)\)$`)
	lettered = regexp.MustCompile(`\b([a-z]|without a letter): `)
)

// cautionsOn are those that a sheet prints at its foot.
func cautionsOn(s *sheets.Sheet) (out []sheets.Caution) {
	for _, b := range s.Blocks {
		if c, ok := b.(*sheets.Cautions); ok {
			out = append(out, c.Items...)
		}
	}
	return out
}

// careOn are their words.
func careOn(s *sheets.Sheet) string {
	var out strings.Builder
	for _, c := range cautionsOn(s) {
		out.WriteString(c.Text + "\n")
	}
	return out.String()
}

const chickenPot = `dish Chicken pot
  rules PRACTICE
  serves 4
  gather
    800 g    chicken thighs
    200 g    basmati rice
    600 ml   water
  method
    - Simmer the chicken thighs and the rice in the water, covered.
      | ring low | leave 35 min | core 75 C | hold hot up to 20 min
    - Cool in shallow trays in iced water.
      | work 5 min | leave 50 min
    pause up to 1 day, fridge
    - Bring back.
      | ring low | watch 12 min | core 82 C
`

// The figures of the printed cautions are those of the practice, with the
// document that the rule of the same name gives.
func TestCautionsFollowThePractice(t *testing.T) {
	for practice, want := range map[string]map[string]string{
		"UK": {
			"Poultry: 75 °C for 30 seconds in the middle, by a clean probe.":                       "UK Food Standards Agency cooking guidance (core time and temperature pairs), as seen quoted",
			"Cool cooked food fast: into the fridge within 90 minutes; keep it at 8 °C or below.":  "East Devon District Council guide; Food Safety and Hygiene (England) Regulations 2013 Sch. 4 para 2",
			"Bring food back once only, to 75 °C for 30 seconds in the middle.":                    "UK Food Standards Agency cooking guidance (core time and temperature pairs), as seen quoted",
			"General cautions: local rules, makers’ instructions and qualified people come first.": "",
		},
		"Scotland": {
			"Bring food back once only, to 82 °C in the middle.": "Food Hygiene (Scotland) Regulations 2006 Sch. 4 para 3; Food Safety (Temperature Control) Regulations 1995 reg. 14",
		},
		"US": {
			"Poultry: 165 °F (74 °C) in the middle, by a clean probe.":                                                                                   "FDA Food Code 2022 3-401.11(A)(3), as seen quoted",
			"Cool cooked food fast: 135 to 70 °F (57 to 21 °C) within 2 hours, to 41 °F (5 °C) within 6 hours in all; keep it at 41 °F (5 °C) or below.": "FDA Food Code 2022 3-501.14(A)(1), as states adopt it; FDA Food Code 2022 3-501.16(A)(2), as states adopt it",
			"What is held hot is held at 135 °F (57 °C) or above.":                                                                                       "FDA Food Code 2022 3-501.16(A)(1), as states adopt it",
			"Rice: once cooked, cool it within the hour, keep it cold a day at most, heat it right through, once.":                                       "UK Food Standards Agency consumer advice, as seen quoted",
		},
		"CA": { // a figure from memory is credited to nobody
			"What is held hot is held at 60 °C or above.": "from memory, no source seen",
		},
	} {
		got := cautionsOf(t, strings.ReplaceAll(chickenPot, "PRACTICE", practice))
		for text, source := range want {
			require.Contains(t, got, text, practice)
			require.Equal(t, source, got[text], "%s: %s", practice, text)
		}
	}
}

// Without a practice the strictest figures are printed, and one line says so.
func TestCautionsWithoutPractice(t *testing.T) {
	got := cautionsOf(t, strings.Replace(chickenPot, "  rules PRACTICE\n", "", 1))
	require.Contains(t, got, "Bring food back once only, to 82 °C in the middle.")
	require.Contains(t, got, "No rules are named: the figures are the strictest seen. General cautions: local rules, makers’ instructions and qualified people come first.")
	require.Contains(t, got, "What is held hot is held at 63 °C or above.")
	require.Contains(t, got, "Cool cooked food fast: into the fridge within 90 minutes; keep it at 3 °C or below.")
}

// A plain cake needs few words: what is in it, and who comes first.
func TestCautionsStayFew(t *testing.T) {
	got := cautionsOf(t, `dish Pound cake
  serves 8
  gather
    200 g    butter
    200 g    caster sugar
    4        eggs
    200 g    plain flour
  method
    - Beat the butter and sugar, beat in the eggs and fold in the flour.
      | work 15 min
    - Bake.
      | oven 170 C | leave 50 min
`)
	require.Len(t, got, 2)
	require.Contains(t, got, "Contains, by what is listed here: egg, milk, wheat. Read every label for what makers add, and ask your guests.")
}

// On every sheet of every example: each caution once, short, promising nothing,
// and the last one defers.
func TestCautionsOfExamples(t *testing.T) {
	dirs, err := filepath.Glob("../examples/*/*.tamis")
	require.NoError(t, err)
	promise := regexp.MustCompile(`(?i)\bsafe(ly)?\b|\bfree from\b|-free\b`)
	seen := map[string]bool{}
	n := 0
	for _, f := range dirs {
		dir := filepath.Dir(f)
		if seen[dir] {
			continue
		}
		seen[dir] = true
		for _, doc := range compile(t, dir).Documents {
			for _, s := range doc.Sheets {
				for _, b := range s.Blocks {
					c, ok := b.(*sheets.Cautions)
					if !ok || s.Kind != sheets.Prep && s.Kind != sheets.Overview {
						continue
					}
					n++
					texts := map[string]bool{}
					for _, it := range c.Items {
						require.False(t, texts[it.Text], "%s: twice: %s", s.Title, it.Text)
						texts[it.Text] = true
						require.NotRegexp(t, promise, it.Text, s.Title)
						require.LessOrEqual(t, len([]rune(it.Text)), 200, "%s: %s", s.Title, it.Text)
					}
					require.LessOrEqual(t, len(c.Items), 9, "%s: too many for one sheet", s.Title)
					require.Contains(t, c.Items[len(c.Items)-1].Text, "come first.", s.Title)
				}
			}
		}
	}
	require.Greater(t, n, 20)
}

// What only the label of a substitute can tell is said of it, beside what it holds for certain.
func TestLabelsOfSubstitutes(t *testing.T) {
	got := cautionsOf(t, "dish Leek soup\n  rules UK\n  serves 4\n  gather\n    1 kg leeks\n    1 litre chicken stock\n      instead 2 stock cubes\n  method\n    - Simmer the leeks in the chicken stock.\n      | ring low | leave 30 min\n  serve hot\n")
	text := ""
	for c := range got {
		text += c + "\n"
	}
	require.Contains(t, text, "With stock cubes instead: by its label perhaps")
	require.Contains(t, text, "celery")
}
