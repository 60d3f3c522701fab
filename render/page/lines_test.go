package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tamis/compiler/sheets"
	"tamis/render/fonts"
)

func setter() *typesetter {
	return &typesetter{doc: &sheets.Document{}, sz: normal, marks: map[string]int{}, missing: map[rune]bool{}, texts: map[span][]*kept{}, tables: map[*sheets.Table]*needs{}, air: 1}
}

// said is the words of a paragraph as its lines have them.
func said(p para) string {
	var b strings.Builder
	for i, l := range p.lines {
		for k, q := range l.parts {
			if k == 0 && i > 0 && l.gap || k > 0 && !q.glued {
				b.WriteByte(' ')
			}
			b.WriteString(q.text)
		}
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

func TestLinesKeepTheirWidthAndTheirWords(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		ts := setter()
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zé½]{1,9}(-[a-z]{1,5})?`), 1, 60).Draw(r, "words")
		text := strings.Join(words, " ")
		width := rapid.Float64Range(30, 400).Draw(r, "width")
		p := ts.set(width, 1.3, span{text: text, face: fonts.Serif, size: 12})
		for _, l := range p.lines {
			require.LessOrEqual(r, l.width, width+0.01)
		}
		require.Equal(r, text, said(p))
	})
}

func TestAmountsAreNotBrokenFromTheirUnits(t *testing.T) {
	ts := setter()
	for width := 60.0; width < 300; width += 3 {
		p := ts.set(width, 1.3,
			span{text: "Stir in ", face: fonts.Serif, size: 12},
			span{text: "1 1/2 tbsp", face: fonts.SerifBold, size: 12, whole: true},
			span{text: ", then the rest of the oil.", face: fonts.Serif, size: 12})
		found := false
		for _, l := range p.lines {
			for _, q := range l.parts {
				found = found || strings.Contains(q.text, "1\u00a01/2\u00a0tbsp")
			}
		}
		require.True(t, found, "at width %.0f: %q", width, said(p))
	}
}

func TestPunctuationStaysWithItsWord(t *testing.T) {
	p := setter().set(1000, 1.3,
		span{text: "Add ", face: fonts.Serif, size: 12}, span{text: "salt", face: fonts.SerifBold, size: 12}, span{text: ", stir.", face: fonts.Serif, size: 12})
	require.Equal(t, "Add salt, stir.", said(p))
}

func TestTheLastLineIsNotOneShortWord(t *testing.T) {
	ts := setter()
	p := ts.set(150, 1.3, span{text: "Fold the whites into the warm base and stop when no streaks are left in it", face: fonts.Serif, size: 12})
	require.Greater(t, len(p.lines), 1)
	require.Greater(t, p.lines[len(p.lines)-1].width, 0.15*150)
}

func TestAWordWiderThanTheLineIsCut(t *testing.T) {
	long := strings.Repeat("endless", 30)
	p := setter().set(80, 1.3, span{text: "an " + long + " end", face: fonts.Sans, size: 12})
	for _, l := range p.lines {
		require.LessOrEqual(t, l.width, 80.01)
	}
	require.Equal(t, "an "+long+" end", said(p))
}

func TestScriptsWithoutSpacesBreakBetweenLetters(t *testing.T) {
	require.True(t, breakAfter([]rune("梨のタルト"), 1))
	require.False(t, breakAfter([]rune("tart"), 1))
}

// A hyphen or a stroke ends a line between two letters only, a dash anywhere.
func TestAHyphenEndsALineBetweenLetters(t *testing.T) {
	for _, c := range []struct {
		text string
		want bool
	}{{"a-b", true}, {"a/b", true}, {"a‐b", true}, {"a—b", true}, {"1—2", true}, {"1-2", false}, {"a-2", false}, {"1/b", false}, {"a b", false}} {
		require.Equal(t, c.want, breakAfter([]rune(c.text), 1), c.text)
	}
	require.False(t, breakAfter([]rune("-a"), 0), "nothing stands before it")
	require.False(t, breakAfter([]rune("a-"), 1), "nothing stands behind it")
	require.False(t, breakAfter([]rune("a-1b"), 1), "nor the letter after")
	require.False(t, breakAfter([]rune("b1-a"), 2), "nor the one before")
	require.True(t, breakAfter([]rune("1a-b1"), 2))
}

func TestFiguresStayWithTheirUnitInSentences(t *testing.T) {
	ts := setter()
	for width := 80.0; width < 300; width += 3 {
		p := ts.set(width, 1.3, span{text: "Cook until it has been at 70 °C for 2 minutes, or 75 °C for 30 seconds, in 4 even-handed ways.", face: fonts.Sans, size: 12})
		for _, l := range p.lines {
			text := l.parts[len(l.parts)-1].text
			require.NotRegexp(t, `\b(70|2|75|30)$`, text, "at width %.0f", width)
		}
	}
}
