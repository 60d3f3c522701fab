package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/lang/quantity"
	"tamis/render/data"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/html"
	"tamis/render/page"
	"tamis/render/runes"
	"tamis/render/text"
	"tamis/testdata/fixture"
)

// Paper, screen, plain text and data say the same: every field of the JSON is
// found in the others, sheet by sheet, in the order it is written.
func TestAllFormatsSayTheSame(t *testing.T) {
	menus, err := filepath.Glob("examples/*/README.md")
	require.NoError(t, err)
	require.NotEmpty(t, menus)
	for i, about := range menus {
		dir := filepath.Dir(about)
		for name, opt := range map[string]compiler.Options{
			"as written": {},
			"for 9, US":  {Demand: demand.Options{Covers: 9}, Units: quantity.US},
		} {
			if opt.Units == quantity.US && i%3 != 1 && !effort.Long() {
				continue
			}
			t.Run(filepath.Base(dir)+" "+name, func(t *testing.T) {
				tree, err := load.Path(dir)
				require.NoError(t, err)
				opt.Sheets = sheets.Kinds()
				agree(t, i+opt.Demand.Covers, compiled(tree, opt).Documents)
			})
		}
	}
}

func TestGeneratedMenusSayTheSame(t *testing.T) {
	for seed := range effort.Rounds[uint64](5, 20) {
		fsys := menuByChance(seed)
		tree, err := load.FS(fsys, ".", "", "")
		require.NoError(t, err)
		r := compiled(tree, compiler.Options{Sheets: sheets.Kinds()})
		require.False(t, r.Diags.HasErrors(), "seed %d: %v", seed, r.Diags.Sorted())
		require.NotEmpty(t, r.Documents)
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) { agree(t, int(seed), r.Documents) })
	}
}

func agree(t *testing.T, n int, docs []*sheets.Document) {
	require.NotEmpty(t, docs)
	for _, doc := range docs {
		var asData, asHTML, asText bytes.Buffer
		require.NoError(t, data.Write(&asData, doc))
		require.NoError(t, html.Write(&asHTML, doc))
		require.NoError(t, text.Write(&asText, doc, text.Options{}))
		said, err := fixture.FromJSON(asData.Bytes())
		require.NoError(t, err)
		require.Len(t, said.Sheets, len(doc.Sheets))
		require.Equal(t, len(doc.Figures), len(said.Figures))

		screen, whole := fixture.FromHTML(asHTML.Bytes())
		agreeWith(t, "screen", said, screen, whole, func(s string) string { return s })
		open := withoutClose(doc)
		papers := []page.Options{{}, {Large: true, Paper: page.Letter}}
		if !effort.Long() { // each document on one of them, in turn
			papers = papers[n%2 : n%2+1]
		}
		for _, opt := range papers {
			doc := doc
			if open != nil { // the order of close rows is held against that of the rows where they are built
				spoken, _ := spokenPages(page.Lay(doc, opt), len(doc.Sheets))
				eachBoard(doc, func(sheet int, ways [][]string) {
					all := strings.ToLower(strings.Join(strings.Fields(spoken[sheet]), ""))
					missing := []string{}
					for _, words := range ways { // one of the ways is on paper, whole
						i := slices.IndexFunc(words, func(w string) bool {
							return !strings.Contains(all, strings.ToLower(runes.Replace(runes.Clean(w), fonts.Set{}.Has, func(rune) {})))
						})
						if i < 0 {
							return
						}
						missing = append(missing, words[i])
					}
					require.Fail(t, "no way to say a board is on paper", "%q of %q", missing, doc.Sheets[sheet].Title)
				})
				doc = open
			}
			paper, whole := spokenPages(page.Lay(doc, opt), len(doc.Sheets))
			agreeWith(t, "paper", said, paper, whole, func(s string) string {
				return runes.Replace(runes.Clean(s), fonts.Set{}.Has, func(rune) {})
			})
		}
		words := wordsOf(asText.String())
		for _, s := range said.Sheets {
			for _, f := range s.Fields {
				for w := range wordsOf(f.Text) {
					require.True(t, words[w], "%q of %q on sheet %s is not in the plain text", w, f.Text, s.ID)
				}
			}
		}
	}
}

// withoutClose is a document whose boards have their rows alone; nil when they have no
// others.
func withoutClose(doc *sheets.Document) *sheets.Document {
	out, any := *doc, false
	out.Sheets = slices.Clone(doc.Sheets)
	for i, s := range out.Sheets {
		out.Sheets[i].Blocks = slices.Clone(s.Blocks)
		for k, b := range s.Blocks {
			if board, ok := b.(*sheets.Board); ok && board.Close != nil {
				open := *board
				open.Close, any = nil, true
				out.Sheets[i].Blocks[k] = &open
			}
		}
	}
	if !any {
		return nil
	}
	return &out
}

// eachBoard calls f for each board of a document with the words of its rows, and of each
// of the ways to say them in fewer.
func eachBoard(doc *sheets.Document, f func(sheet int, ways [][]string)) {
	for i, s := range doc.Sheets {
		for _, b := range s.Blocks {
			board, ok := b.(*sheets.Board)
			if !ok {
				continue
			}
			var ways [][]string
			for _, rows := range append([][]sheets.BoardRow{board.Rows}, board.Close...) {
				var words []string
				for _, r := range rows {
					words = append(words, strings.Fields(r.Bar)...)
					for _, p := range slices.Concat(r.Cells...) {
						words = append(words, strings.Fields(p.Words+" "+p.Mark+" "+p.Until+" "+p.Looks)...)
					}
				}
				ways = append(ways, words)
			}
			f(i, ways)
		}
	}
}

// agreeWith looks for all that the data says in the texts of the sheets, as
// they can be set.
func agreeWith(t *testing.T, where string, said *fixture.Document, sheetTexts []string, whole string, set func(string) string) {
	t.Helper()
	tight := func(s string) string { return strings.Join(strings.Fields(s), "") }
	all := tight(whole)
	for _, s := range said.Front {
		require.Contains(t, all, tight(set(s)), "%s", where)
	}
	require.Len(t, sheetTexts, len(said.Sheets), where)
	byID := map[string]string{}
	shopping := ""
	for i, s := range said.Sheets {
		list := slices.Clone(s.Fields)
		for k := range list {
			list[k].Text = set(list[k].Text)
		}
		if where == "paper" && s.Kind == string(sheets.Leaf) { // which goes on its sheet without pictures, if it must
			list = slices.DeleteFunc(list, func(f fixture.Field) bool { return f.Loose })
		}
		if where == "paper" {
			require.NoError(t, fixture.FollowRows(sheetTexts[i], list), "%s, sheet %s", where, s.ID)
		} else {
			_, err := fixture.Follow(sheetTexts[i], list)
			require.NoError(t, err, "%s, sheet %s", where, s.ID)
		}
		byID[s.ID] = tight(sheetTexts[i])
		if s.Kind == string(sheets.Shopping) {
			shopping = byID[s.ID]
		}
		for _, d := range s.Drawn {
			for w := range wordsOf(set(d)) { // a long name is broken over lines
				require.Contains(t, strings.ToLower(all), w, "%s: %q is drawn on sheet %s", where, d, s.ID)
			}
		}
	}
	for _, f := range said.Figures {
		sheet := byID[f.Sheet]
		if f.Of == "buy" {
			sheet = shopping
		}
		if sheet == "" || f.Of == "left" && strings.HasPrefix(f.Text, "0") { // "nothing" is said
			continue
		}
		require.Contains(t, sheet, tight(set(f.Text)), "%s: the figure %+v", where, f)
	}
}

// spokenPages is what a book says, sheet by sheet in the order it is drawn,
// which is that of the file, and everything on its pages.
func spokenPages(b *page.Book, n int) (bySheet []string, whole string) {
	list := make([][]*draw.Text, n)
	var all strings.Builder
	for _, p := range b.Pages {
		for n, o := range p.Ops {
			if w, ok := o.(*draw.Text); ok {
				all.WriteString(w.Str + " ")
				if w.Field > 0 {
					i := p.SheetOf(n)
					list[i] = append(list[i], w)
				}
			}
		}
	}
	for _, words := range list {
		var s strings.Builder
		for _, w := range words {
			s.WriteString(w.Str + " ")
		}
		bySheet = append(bySheet, s.String())
	}
	return bySheet, all.String()
}

func wordsOf(s string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) }) {
		out[w] = true
	}
	return out
}
