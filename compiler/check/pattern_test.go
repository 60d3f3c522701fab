package check

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/larder"
	"tamis/lang/effort"
	"tamis/testdata/bigbook"
)

// TestPatternsTurnNothingAway puts every pattern of the rules to every line of
// the rules' own examples, of the corpus and of a drawn book: where the
// expression matches, the test before it must let the text through.
func TestPatternsTurnNothingAway(t *testing.T) {
	var lines []string
	for _, r := range All {
		lines = append(lines, strings.Split(r.Bad+r.Good, "\n")...)
	}
	files, err := filepath.Glob("../../testdata/check/*.txtar")
	require.NoError(t, err)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		lines = append(lines, strings.Split(string(text), "\n")...)
	}
	for _, text := range (bigbook.Book{Recipes: effort.Rounds(3, 30), Seed: 7}).Files() {
		lines = append(lines, strings.Split(text, "\n")...)
	}
	for _, l := range lines[:400] { // no word is whole any more
		lines = append(lines, strings.ReplaceAll(l, " ", ""))
	}
	lines = append(lines, strings.ToUpper(strings.Join(lines[:400], " ")), "\u017Fimmer", "ba\u212Ae", "")
	require.Greater(t, len(patterns), 80)
	matched, tested, whole, led := 0, 0, 0, 0
	for _, p := range patterns {
		p.may("")
		if p.test != nil {
			tested++
		}
		if p.lead != nil {
			led++
		}
		if p.test != nil && p.test.whole {
			whole++
		}
		for _, l := range lines {
			matches := p.re().MatchString(l)
			found, sure := p.look(l)
			if matches {
				matched++
			}
			if matches && !found || sure && !matches {
				t.Fatalf("it matches: %t, it may: %t, it is sure to: %t\n%s\n%s", matches, found, sure, p.expr, l)
			}
			if found && p.lead != nil {
				require.Equal(t, p.re().FindAllStringSubmatchIndex(l, -1), p.FindAllStringSubmatchIndex(l, -1), "%s\n%s", p.expr, l)
			}
		}
	}
	require.Greater(t, whole, 20, "an expression of words alone is not run")
	require.Greater(t, led, 40, "an expression that begins with words is tried where they stand")
	require.Greater(t, matched, 1000)
	require.Greater(t, tested, 80, "an expression of words has a test before it")
}

// An edge of a word is written "|" here, and "=" before the words where they are all
// there is to match.
func TestNeededWords(t *testing.T) {
	for expr, want := range map[string][]string{
		`(?i)\bseason\b`:                      {"=|season|"},
		`(?i)\b(?:pour|ladle)(?: in)? the \w`: {"|ladle in the ", "|ladle the ", "|pour in the ", "|pour the "},
		`(?i)\bsteps? (\d+)\b`:                {"|step ", "|steps "},
		`(?i)\b(souffl|caf)é`:                 {"|caf", "|souffl"},
		`(?i)\b(ice|soak(ed)?)\b`:             {"=|ice|", "=|soak|", "=|soaked|"},
		`(?i)in(to)? \b`:                      {"in ", "into "},
		`\bIce\b`:                             {"|ice|"},
		`(?i)\b[ab]c`:                         {"=|ac", "=|bc"},
		`\b[ab]c`:                             {"|ac", "|bc"},
		`(?i)lid|lidded`:                      {"=lid"},
		`a|b*`:                                nil,
		`\w+ing\b`:                            {"ing|"},
		`[.!?]["')]*(\s+|$)`:                  {"!", ".", "?"},
		`(x|y)?z`:                             {"z"},
	} {
		p := mustCompile(expr)
		p.may("")
		var got []string
		if p.test != nil {
			for _, n := range slices.Concat(p.test.words[:]...) {
				w := n.word
				if n.start {
					w = "|" + w
				}
				if n.end {
					w += "|"
				}
				if p.test.whole {
					w = "=" + w
				}
				got = append(got, w)
			}
		}
		require.ElementsMatch(t, want, got, expr)
	}
}

// What matches begin with, written like that; none where that is not known.
func TestLeadingWords(t *testing.T) {
	for expr, want := range map[string][]string{
		`(?i)\b(lift\w*|set\w* \w* ?aside|out of)\b`: {"|lift", "|out of", "|set"},
		`(?i)\b(?:reserv(?:e|ing)|keep back)\w+`:     {"|keep back", "|reserve", "|reserving"},
		`(?i)\bor,? in(to)?$`:                        {"|or in", "|or, in"},
		`(?i)(?:^|[.;:] |\band )butter`:              nil, // the beginning of a text is not that of what is left of it
		`(?i)\w+ing\b`:                               nil,
		`(?i)(the )?onions?`:                         {"onion", "the onion"},
		`(?i)\b[’']s`:                                nil,
		`(?i)crème`:                                  {"cr"},
		`\Bfoo+`:                                     nil,
	} {
		p := mustCompile(expr)
		p.may("")
		var got []string
		if p.lead != nil {
			for _, n := range slices.Concat(p.lead.words[:]...) {
				w := n.word
				if n.start {
					w = "|" + w
				}
				if n.end {
					w += "|"
				}
				got = append(got, w)
			}
		}
		require.ElementsMatch(t, want, got, expr)
	}
}

// The words of a text are those of the expression, and folding keeps their first
// letter: containsWord relies on both.
func TestTitleWords(t *testing.T) {
	titleWord := regexp.MustCompile(`[\p{L}]+(?:['’-][\p{L}]+)*`)
	texts := []string{"", "Shepherd's pie", "leek-and-potato soup- ", "Crème d’Isigny, 2-3", "a--b 'c' d-", "ä-ß’ü", "x-\xffy"}
	for _, text := range (bigbook.Book{Recipes: 20, Seed: 3}).Files() {
		texts = append(texts, text)
	}
	for _, it := range larder.Builtin().Items() {
		texts = append(texts, it.Name+" "+larder.PluralName(it.Name)+" "+strings.Join(it.Other, " "))
	}
	for _, text := range texts {
		var got []string
		for at, w := range titleWords(text) {
			require.Equal(t, w, text[at:at+len(w)])
			got = append(got, w)
		}
		require.Equal(t, titleWord.FindAllString(text, -1), got, text)
		for _, w := range got {
			for part := range strings.SplitSeq(w, "-") {
				if part[0] < 0x80 {
					require.Equal(t, lowByte(part[0]), larder.Fold(part)[0], part)
				}
			}
		}
	}
}
