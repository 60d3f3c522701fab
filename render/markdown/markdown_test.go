package markdown_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/render/markdown"
)

func html(t *testing.T, doc *sheets.Document) string {
	var b, out bytes.Buffer
	require.NoError(t, markdown.Write(&b, doc))
	require.NoError(t, goldmark.New(goldmark.WithExtensions(extension.Table, extension.TaskList)).Convert(b.Bytes(), &out))
	return out.String()
}

// Signs of Markdown in what somebody wrote stay signs: goldmark, which reads it as everybody
// does, makes no heading, list, link or markup of them.
func TestMarksAreLiteral(t *testing.T) {
	for _, text := range []string{"# no heading", "- no item", "1. no number", "a * b * c", "_low_", "[x](y)", "<b>", "a | b", "`code`", "~~gone~~", "> said", "&amp;", `\*`} {
		doc := &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{Title: "S", Blocks: []sheets.Block{
			&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: text}}}}},
			&sheets.Table{Columns: []sheets.Column{{Title: "A"}, {Title: "B"}}, Groups: []sheets.Group{{Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: text}}}, {Runs: []sheets.Run{{Text: "next"}}}}}}}}},
		}}}}
		got := html(t, doc)
		shown := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(text)
		require.Contains(t, got, "<p>"+shown+"</p>", text)
		require.Contains(t, got, "<td>"+shown+"</td>\n<td>next</td>", text)
	}
}

// So they do at the beginning of an item, a quotation or a step.
func TestFirstSignsAreLiteral(t *testing.T) {
	for _, text := range []string{"# no heading", "- no item", "1. no number", "+ more", "> said"} {
		runs := []sheets.Run{{Text: text}}
		got := html(t, &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{Title: "S", Blocks: []sheets.Block{
			&sheets.Prose{Paras: []sheets.Para{{Kind: sheets.Item, Runs: runs}}},
			&sheets.Prose{Paras: []sheets.Para{{Kind: sheets.Quote, Runs: runs}}},
			&sheets.Steps{Items: []sheets.StepItem{&sheets.Step{Number: 1, Runs: runs}}},
		}}}})
		require.Equal(t, 3, strings.Count(got, strings.ReplaceAll(text, ">", "&gt;")), got)
	}
}

// Neighbours of one style are one: no mark of it is read as text.
func TestNeighboursOfOneStyle(t *testing.T) {
	got := html(t, &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{Title: "S", Blocks: []sheets.Block{
		&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: "A", Style: sheets.Strong}, {Text: "1", Style: sheets.Thing}, {Text: " to "}, {Text: "b", Style: sheets.Emph}, {Text: "c", Style: sheets.Emph}}}}},
	}}}})
	require.Contains(t, got, "<p><strong>A1</strong> to <em>bc</em></p>")
}

// The index of a book and the head of a leaf stand in Markdown too, with where a thing is
// found and where a part is to be watched.
func TestBooksAndLeaves(t *testing.T) {
	got := html(t, &sheets.Document{Title: "T", Sheets: []sheets.Sheet{{Title: "S", Blocks: []sheets.Block{
		&sheets.Masthead{Series: "Two evenings", Part: "part 1 of 2", Watch: "example.org/two", Link: "https://example.org/two"},
		&sheets.Alphabet{Letters: []sheets.Letter{{Letter: "L", Entries: []sheets.Entry{
			{Name: "Leek pie", At: []sheets.Run{{Text: "Leek pie", Style: sheets.Strong, Link: "#a"}, {Text: "Supper", Link: "#b"}}},
			{Name: "lemons", Note: "in many of the recipes"},
		}}}},
	}}}})
	require.Contains(t, got, "<p>Two evenings, part 1 of 2</p>\n<p>Watch it at <a href=\"https://example.org/two\">example.org/two</a></p>")
	require.Contains(t, got, "<h3>L</h3>\n<ul>\n<li>Leek pie: Supper</li>\n<li>lemons: in many of the recipes</li>\n</ul>")
}

// A lunch as Markdown: its sheets are headings, its lists tables, its steps numbered as on
// paper.
func TestExample(t *testing.T) {
	tree, err := load.Path("../../examples/harvest-lunch")
	require.NoError(t, err)
	r := compiler.Compile(context.Background(), tree, compiler.Options{})
	require.Len(t, r.Documents, 1)
	got := html(t, r.Documents[0])
	require.Contains(t, got, "<h1>Harvest lunch</h1>")
	for _, s := range r.Documents[0].Sheets {
		require.Contains(t, got, s.Title+"</h2>")
	}
	steps, tables := 0, 0
	for _, s := range r.Documents[0].Sheets {
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case *sheets.Steps:
				for _, i := range b.Items {
					if _, ok := i.(*sheets.Step); ok {
						steps++
					}
				}
			case *sheets.Table, *sheets.Board:
				tables++
			case *sheets.Chart:
				tables += len(b.Panels)
			}
		}
	}
	require.Equal(t, tables, strings.Count(got, "<table>"))
	numbered := 0
	for _, list := range strings.Split(got, "<ol")[1:] {
		list, _, _ = strings.Cut(list, "</ol>")
		numbered += strings.Count(list, "<li>") - strings.Count(list, "<ul>\n<li>")
	}
	require.GreaterOrEqual(t, numbered, steps)
}
