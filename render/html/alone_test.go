package html_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/testdata/fixture"
)

// links are the addresses that the writer of a document gave.
func links(doc *sheets.Document) map[string]bool {
	out := map[string]bool{}
	runs := func(list []sheets.Run) {
		for _, r := range list {
			out[r.Link] = true
		}
	}
	for _, s := range doc.Sheets {
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case *sheets.Prose:
				for _, p := range b.Paras {
					runs(p.Runs)
				}
			case *sheets.List:
				for _, i := range b.Items {
					runs(i)
				}
			case *sheets.Table:
				for _, g := range b.Groups {
					for _, r := range g.Rows {
						for _, c := range r.Cells {
							runs(c.Runs)
							runs(c.Sub)
						}
					}
				}
			case *sheets.Steps:
				for _, i := range b.Items {
					if st, ok := i.(*sheets.Step); ok {
						runs(st.Runs)
						for _, m := range st.Moments {
							runs(m.Runs)
						}
						for _, k := range st.Takes {
							out[k.Link] = true
						}
					}
				}
			}
		}
	}
	return out
}

// One file and no network: nothing is fetched, and the policy of the page
// forbids it. What leads away is what the writer wrote.
func TestNothingIsFetched(t *testing.T) {
	docs := []*sheets.Document{fixture.Supper()}
	for seed := range uint64(30) {
		docs = append(docs, fixture.Random(seed))
	}
	away := 0
	for _, doc := range docs {
		text := write(t, doc)
		for _, s := range []string{"@import", "url(", "<link", "<iframe", "<object", "<embed", "<base", "http-equiv=\"refresh\"", "fetch(", "XMLHttpRequest", "WebSocket", "importScripts", "sendBeacon"} {
			require.NotContains(t, text, s)
		}
		require.Contains(t, text, `content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src 'sha256-`)
		given := links(doc)
		read(t, text).walk(func(n *node) bool {
			for a, v := range n.attr {
				switch a {
				case "src", "srcset", "poster", "action", "formaction", "data", "background", "ping", "xlink:href":
					require.Fail(t, "something is fetched", "%s %s=%q", n.name, a, v)
				case "href":
					if !strings.HasPrefix(v, "#") {
						away++
						require.Equal(t, "a", n.name)
						require.True(t, given[v], "%q is no link of the writer's", v)
					}
				}
			}
			return true
		})
	}
	require.Positive(t, away)
}

func TestTextThatRunsToTheLeftIsSetOff(t *testing.T) {
	runs := []sheets.Run{{Text: "חומוס, 450 g"}}
	doc := &sheets.Document{Title: "ארוחה", Language: "he", Sheets: []sheets.Sheet{{ID: "a", Title: "Soup חומוס", Facts: []string{"for 4"}, Blocks: []sheets.Block{
		&sheets.Prose{Paras: []sheets.Para{{Runs: runs}, {Runs: []sheets.Run{{Text: "Latin"}}}}},
		&sheets.Table{Columns: []sheets.Column{{Title: "What"}}, Groups: []sheets.Group{{Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: runs}}}}}}},
		&sheets.Steps{Items: []sheets.StepItem{&sheets.Step{Number: 1, Runs: runs, Takes: []sheets.Take{{Amount: "450 g", Name: "חומוס"}}, Margin: []string{"work 5 min"}}}},
	}}}}
	text := write(t, doc)
	require.Contains(t, text, `<html lang="he">`)
	seen := map[string]int{}
	read(t, text).walk(func(n *node) bool {
		if n.name == "title" {
			return false
		}
		var own strings.Builder
		for _, k := range n.kids {
			own.WriteString(k.text)
		}
		if strings.ContainsAny(own.String(), "חא") {
			require.Equal(t, "auto", n.attr["dir"], "%s: %s", n.name, own.String())
			seen[n.name]++
		} else if strings.TrimSpace(own.String()) != "" {
			require.Empty(t, n.attr["dir"], own.String())
		}
		return true
	})
	for _, name := range []string{"h1", "p", "th", "span"} {
		require.Positive(t, seen[name], name)
	}
}

// A field without words needs no name of its column on a narrow screen.
func TestEmptyFieldsAreNotNamed(t *testing.T) {
	doc := &sheets.Document{Sheets: []sheets.Sheet{{ID: "a", Title: "A", Blocks: []sheets.Block{&sheets.Table{
		Columns: []sheets.Column{{Title: "What"}, {Title: "Note"}},
		Groups:  []sheets.Group{{Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "x"}}}, {Runs: []sheets.Run{{Text: ""}}}}}}}},
	}}}}}
	require.False(t, strings.Contains(write(t, doc), " data-label="))
}
