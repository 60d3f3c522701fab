package compiler_test

import (
	"io/fs"
	"strings"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
	"tamis/render/draw"
	"tamis/render/page"
)

// S, X and V: the page, what lies beside a text, and the series.

func qty(n int64) quantity.Number { return quantity.Int(n) }

// laid are the words of each page, on a paper.
func (m *made) laid(paper page.Paper, kinds ...sheets.Kind) (out []string) {
	for _, d := range m.Documents {
		c := *d
		c.Sheets = nil
		for _, s := range d.Sheets {
			for _, k := range kinds {
				if s.Kind == k {
					c.Sheets = append(c.Sheets, s)
				}
			}
		}
		for _, p := range page.Lay(&c, page.Options{Paper: paper}).Pages {
			var b strings.Builder
			for _, op := range p.Ops {
				if t, ok := op.(*draw.Text); ok && t.Field != 0 { // not what stands on every page
					b.WriteString(t.Str + " ")
				}
			}
			out = append(out, plainly(b.String()))
		}
	}
	return out
}

// charts are the charts of a document.
func (m *made) charts() (out []*sheets.Chart) {
	for _, s := range m.sheets(sheets.Timeline) {
		for _, b := range s.Blocks {
			if c, ok := b.(*sheets.Chart); ok {
				out = append(out, c)
			}
		}
	}
	return out
}

func triedPage() (all []tried) {
	const open = true
	add := func(c ...tried) { all = append(all, c...) }

	type place struct {
		letter        string
		number, start int
	}
	add(
		tried{number: "S1", what: "a step is drawn once", text: supper, want: func(t require.TestingT, m *made) {
			lanes := map[place]int{}
			for _, c := range m.charts() {
				for _, p := range c.Panels {
					for _, l := range p.Lanes {
						here := map[place]bool{}
						for _, b := range l.Bars {
							if at := (place{b.Letter, b.Number, b.Start}); b.Number > 0 && !here[at] {
								here[at] = true
								lanes[at]++
							}
						}
					}
				}
			}
			require.NotEmpty(t, lanes)
			for at, n := range lanes {
				require.Equal(t, 1, n, "%s%d", at.letter, at.number)
			}
		}},
		tried{number: "S1", what: "a dish can be followed along one lane", text: supper, want: func(t require.TestingT, m *made) {
			names := map[string]bool{}
			for _, c := range m.charts() {
				for _, p := range c.Panels {
					for _, l := range p.Lanes {
						names[l.Name] = true
					}
				}
			}
			for _, d := range m.Documents[0].Dishes {
				require.True(t, names[d.Name] || names[d.Letter+" "+d.Name], "%s in %v", d.Name, names)
			}
		}},
		tried{number: "S1", what: "no label of a bar is cut short", text: supper, want: func(t require.TestingT, m *made) {
			for _, p := range m.laid(page.A4, sheets.Timeline) {
				require.NotContains(t, p, "…")
			}
		}},
		tried{number: "S1", what: "a supper of two dishes on one page", text: supper, want: func(t require.TestingT, m *made) {
			require.LessOrEqual(t, len(m.laid(page.A4, sheets.Timeline)), 1)
		}},
	)
	cards := "dish Leek pot\n  serves 4\n  gather\n    600 g leeks, sliced\n    60 g butter\n    1 litre vegetable stock\n  method\n    - Melt the butter and soften the leeks.\n      | ring low | watch 12 min\n    - Pour in the stock and simmer.\n      | ring low | leave 15 min\n    - Blend.\n      | work 5 min\n  serve hot\n"
	long := strings.Replace(chickenPot, "PRACTICE", "UK", 1)
	for _, paper := range []page.Paper{page.Card6x4, page.Card5x3} {
		add(tried{number: "S2", what: "no card of headings or cautions alone, of a dish with cautions, " + paper.Name, open: open, text: long, want: func(t require.TestingT, m *made) {
			for _, c := range m.laid(paper, sheets.Prep) {
				require.Regexp(t, `\d (g|ml)|\d min|Simmer|Cool in|Bring back`, c, "stands alone")
			}
		}})
		add(
			tried{number: "S2", what: "no card of headings or cautions alone, " + paper.Name, text: cards, want: func(t require.TestingT, m *made) {
				for _, c := range m.laid(paper, sheets.Prep) {
					body := strings.NewReplacer("Leek pot", "", "Method", "", "What is gathered", "").Replace(c)
					if at := strings.Index(body, "Contains, by what"); at >= 0 {
						body = body[:at]
					}
					require.NotEmpty(t, strings.Trim(body, " !"), "%q stands alone", c)
				}
			}},
			tried{number: "S2", what: "three steps and three things take two cards, " + paper.Name, text: cards, want: func(t require.TestingT, m *made) {
				require.LessOrEqual(t, len(m.laid(paper, sheets.Prep)), 2)
			}},
		)
	}

	simple := dishOf("Trial", "", "200 g flour")
	for name, f := range map[string]*fstest.MapFile{
		".#a.tamis":     {Data: []byte("somewhere"), Mode: fs.ModeSymlink},
		"gone.tamis":    {Data: []byte("nowhere.tamis"), Mode: fs.ModeSymlink},
		"._a.tamis":     {Data: []byte("\x00\x05\x16\x07\x00\x02\x00\x00Mac OS X")},
		"sub/._b.tamis": {Data: []byte("\x00\x05\x16\x07\x00\x02\x00\x00Mac OS X")},
		".a.tamis.swp":  {Data: []byte("\x00\x01")},
		"pipe.tamis":    {Mode: fs.ModeNamedPipe},
	} {
		add(tried{number: "X1", what: name + " beside a text stops nothing", faulty: true, text: simple, beside: fstest.MapFS{name: f}, want: func(t require.TestingT, m *made) {
			require.NotNil(t, m, "nothing was read")
			require.False(t, m.Diags.HasErrors(), "%v", m.codes())
			require.NotEmpty(t, m.Documents)
		}})
	}

	series := "series Two lessons\n  link https://example.org/lessons\n  by Nell Ferry\n  part 1 Soup\n    shows Trial\n    date 2027-08-30\n" + dishOf("Trial", "  source A cupboard of cards\n  link https://example.org/trial\n", "200 g flour")
	for _, owed := range []string{"example.org/lessons", "example.org/trial", "A cupboard of cards", "Nell Ferry"} {
		add(tried{number: "V1", what: "a handout says " + owed, text: series, opt: compiler.Options{Sheets: []sheets.Kind{sheets.Crew}}, want: func(t require.TestingT, m *made) {
			require.Contains(t, m.words(sheets.Crew), owed)
		}})
	}
	return all
}
