package page

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/testdata/fixture"
)

func foreign() *typesetter {
	t := setter()
	t.opt.Fonts = fixture.Fonts()
	return t
}

func plainText(s string) span { return span{text: s, face: fonts.Serif, size: 10} }

// words is the runs of a paragraph, as they are read.
func words(p para) (out []*draw.Text) {
	for _, o := range p.ops(0, 0, 1) {
		out = append(out, o.(*draw.Text))
	}
	return out
}

func TestHebrewStandsFromTheRight(t *testing.T) {
	ty := foreign()
	p := ty.set(1000, 1.2, plainText("soak חומוס 450 ו (שתי) cups"))
	require.Len(t, p.lines, 1)
	x := map[string]*draw.Text{}
	var read []string
	for _, w := range words(p) {
		x[strings.TrimSpace(w.Str)] = w
		read = append(read, w.Str)
	}
	require.Equal(t, "soakחומוס450ו(שתי)cups", strings.Join(strings.FieldsFunc(strings.Join(read, ""), unicode.IsSpace), ""), "the runs come as they are read")
	require.Less(t, x["soak"].X, x["ו"].X)
	require.Less(t, x["ו"].X, x["450"].X, "what is read later stands further left")
	require.Less(t, x["450"].X, x["חומוס"].X)
	require.LessOrEqual(t, x["חומוס"].X+x["חומוס"].W, x["cups"].X+0.01)
	require.True(t, x["חומוס"].Left)
	require.False(t, x["450"].Left, "figures run to the right")
	require.InDelta(t, p.lines[0].width, x["cups"].X+x["cups"].W, 0.5, "nothing is lost or laid over another")
}

func TestAHebrewParagraphBeginsAtTheRight(t *testing.T) {
	p := foreign().set(80, 1.2, plainText("שלום שלום שלום שלום שלום שלום שלום, שלום א"))
	require.Greater(t, len(p.lines), 2)
	right := map[float64]float64{}
	for _, w := range words(p) {
		right[w.Y] = max(right[w.Y], w.X+w.W)
	}
	for y, r := range right {
		require.InDelta(t, p.width(), r, 0.01, "the line at %v", y)
	}
	require.Equal(t, 1, len(words(foreign().set(120, 1.2, plainText("only Latin words")))))
}

func TestJapaneseBreaksBetweenCharacters(t *testing.T) {
	ty := foreign()
	p := ty.set(52, 1.2, plainText("あいうえおの「タルト」は、一切ぬ。ッルー"))
	require.Greater(t, len(p.lines), 2)
	all := ""
	for _, l := range p.lines {
		s := ""
		for _, q := range l.parts {
			s += q.text
		}
		require.LessOrEqual(t, l.width, 52.0)
		first := []rune(s)[0]
		require.NotContains(t, "、。」ッー", string(first), "line %q", s)
		require.False(t, strings.HasSuffix(s, "「"), "line %q", s)
		all += s
	}
	require.Equal(t, "あいうえおの「タルト」は、一切□。ッルー", all)
	require.True(t, ty.missing['ぬ'])
}

func TestThaiKeepsVowelsWithTheirConsonants(t *testing.T) {
	text := []rune("น้ำแข็ง") // ice
	for i := range text {
		if betweenWide(text, i) {
			require.NotContains(t, "้ำ็", string(text[i+1]))
			require.NotEqual(t, 'แ', text[i])
		}
	}
}

func TestMissingLettersWithAFont(t *testing.T) {
	doc := fixture.Supper()
	require.Contains(t, string(Lay(doc, Options{}).Missing), "梨")
	require.NotContains(t, string(Lay(doc, Options{Fonts: fixture.Fonts()}).Missing), "梨")
}

// What the writer's font has to be drawn with is used on the chart too.
func TestForeignNamesOnTheChart(t *testing.T) {
	doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{ID: "c", Kind: sheets.Timeline, Title: "Chart", Blocks: []sheets.Block{
		&sheets.Chart{Panels: []sheets.Panel{{End: 240, Lanes: []sheets.Lane{{Name: "Ann 梨 שלום", Rows: 1, Bars: []sheets.Bar{{Start: 0, End: 120, Kind: sheets.WorkBar, Letter: "A", Number: 1, Label: "梨 and pear"}}}}}}},
	}}}}
	set := fixture.Fonts()
	found := ""
	for _, p := range Lay(doc, Options{Fonts: set}).Pages {
		checkPages(t, &Book{Pages: []*Page{p}}, "chart")
		for _, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok {
				require.True(t, w.Face.HasAll(w.Str), "%q in %s", w.Str, w.Face.Name())
				if w.Face.Own() != nil {
					found += w.Str
				}
			}
		}
	}
	require.Contains(t, found, "梨")
	require.Contains(t, found, "שלום")
}
