package html_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
	"tamis/render/html"
	"tamis/testdata/fixture"
)

func write(t testing.TB, doc *sheets.Document) string {
	var b bytes.Buffer
	require.NoError(t, html.Write(&b, doc))
	return b.String()
}

// node is an element of a page that was read back.
type node struct {
	name  string
	attr  map[string]string
	kids  []*node
	text  string // of a text node
	above *node
}

// read parses what we wrote. Our pages are also well-formed XML but for the
// elements that have no end tag (HTML Standard, 13.1.2), so that the standard
// library can check them.
func read(t testing.TB, page string) *node {
	page = strings.Replace(page, "<!DOCTYPE html>", "", 1)
	page = regexp.MustCompile(`(?s)<style>.*?</style>|<script>.*?</script>`).ReplaceAllString(page, "")
	page = regexp.MustCompile(`<(meta|input)([^>]*)>`).ReplaceAllString(page, "<$1$2/>")
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	d.Strict = true
	root := &node{name: "root"}
	at := root
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		// attributes without a value are the one thing of ours that XML lacks
		require.NoError(t, err)
		switch tok := tok.(type) {
		case xml.StartElement:
			n := &node{name: tok.Name.Local, attr: map[string]string{}, above: at}
			for _, a := range tok.Attr {
				_, twice := n.attr[a.Name.Local]
				require.False(t, twice, "attribute %s twice", a.Name.Local)
				n.attr[a.Name.Local] = a.Value
			}
			at.kids = append(at.kids, n)
			at = n
		case xml.EndElement:
			at = at.above
		case xml.CharData:
			at.kids = append(at.kids, &node{text: string(tok), above: at})
		}
	}
	require.Equal(t, root, at, "an element is not closed")
	return root
}

func (n *node) walk(f func(*node) bool) {
	if !f(n) {
		return
	}
	for _, k := range n.kids {
		k.walk(f)
	}
}

func (n *node) all(name string) (out []*node) {
	n.walk(func(m *node) bool {
		if m.name == name {
			out = append(out, m)
		}
		return true
	})
	return out
}

func (n *node) class(c string) bool {
	return strings.Contains(" "+n.attr["class"]+" ", " "+c+" ")
}

// visible is the words that are seen, without drawings.
func (n *node) visible() string {
	var b strings.Builder
	n.walk(func(m *node) bool {
		if m.name == "svg" || m.class("vh") && m.name != "h2" {
			return false
		}
		if v := m.attr["value"]; m.name == "li" && v != "" {
			b.WriteString(v + ". ") // what the browser numbers it with
		}
		b.WriteString(m.text)
		if m.text != "" {
			b.WriteByte(' ')
		}
		return true
	})
	return b.String()
}

func sections(root *node) (out []*node) {
	for _, s := range root.all("section") {
		if s.class("sheet") {
			out = append(out, s)
		}
	}
	return out
}

func TestEveryFieldIsOnTheScreenInReadingOrder(t *testing.T) {
	doc := fixture.Supper()
	secs := sections(read(t, write(t, doc)))
	require.Len(t, secs, len(doc.Sheets))
	for i, sec := range secs {
		rest, err := fixture.Follow(sec.visible(), fixture.Fields(doc, i))
		require.NoError(t, err, doc.Sheets[i].ID)
		if doc.Sheets[i].Kind == sheets.Timeline {
			continue
		}
		left := strings.Join(rest, "")
		for _, d := range doc.Dishes {
			left = strings.ReplaceAll(left, d.Letter+strings.ReplaceAll(d.Name, " ", ""), "")
		}
		left = strings.NewReplacer("Takecare", "", "Sheets", "", "·", "").Replace(left)
		require.Empty(t, left, "words that the document does not have, on sheet %s", doc.Sheets[i].ID)
	}
}

func TestRandomDocumentsAreWhole(t *testing.T) {
	for seed := range uint64(80) {
		doc := fixture.Random(seed)
		root := read(t, write(t, doc))
		for i, sec := range sections(root) {
			_, err := fixture.Follow(sec.visible(), fixture.Fields(doc, i))
			require.NoError(t, err, "seed %d", seed)
		}
		checkLinks(t, root)
	}
}

// checkLinks makes sure that ids are unique and that what points to one finds it.
func checkLinks(t testing.TB, root *node) {
	ids := map[string]bool{}
	root.walk(func(n *node) bool {
		if id := n.attr["id"]; id != "" {
			require.False(t, ids[id], "id %s twice", id)
			ids[id] = true
		}
		return true
	})
	root.walk(func(n *node) bool {
		for _, a := range []string{"for", "aria-labelledby"} {
			if v, ok := n.attr[a]; ok {
				require.True(t, ids[v], "%s=%s leads nowhere", a, v)
			}
		}
		if h := n.attr["href"]; strings.HasPrefix(h, "#") {
			require.True(t, ids[h[1:]], "%s leads nowhere", h)
		}
		return true
	})
}

func TestPageIsSelfContained(t *testing.T) {
	page := write(t, fixture.Supper())
	root := read(t, page)
	checkLinks(t, root)
	require.NotContains(t, page, "<link")
	require.NotContains(t, page, "src=")
	require.NotContains(t, page, "@import")
	require.NotContains(t, page, "url(")
	require.Equal(t, "en-GB", root.all("html")[0].attr["lang"])
	require.Equal(t, "Bell ringers’ supper", root.all("title")[0].visible()[:len("Bell ringers’ supper")])
	require.Len(t, root.all("h1"), 1)
	require.Len(t, root.all("main"), 1)
}

// WCAG 2.2, 1.3.1 and 2.4.6: headings step down by one.
func TestHeadingsStepDownByOne(t *testing.T) {
	level := 0
	read(t, write(t, fixture.Supper())).walk(func(n *node) bool {
		if len(n.name) == 2 && n.name[0] == 'h' && n.name[1] >= '1' && n.name[1] <= '6' {
			l := int(n.name[1] - '0')
			require.LessOrEqual(t, l, level+1, n.visible())
			require.NotEmpty(t, strings.TrimSpace(n.visible()))
			level = l
		}
		return true
	})
	require.GreaterOrEqual(t, level, 2)
}

// WCAG 2.2, 1.3.1: tables say what their columns and rows are.
func TestTablesHaveCaptionsAndScopes(t *testing.T) {
	tables := read(t, write(t, fixture.Supper())).all("table")
	require.NotEmpty(t, tables)
	for _, tb := range tables {
		require.Equal(t, "caption", first(tb).name)
		for _, h := range tb.all("th") {
			require.Contains(t, []string{"col", "row", "rowgroup"}, h.attr["scope"])
		}
	}
}

func first(n *node) *node {
	for _, k := range n.kids {
		if k.name != "" {
			return k
		}
	}
	return nil
}

func TestEveryBoxHasALabel(t *testing.T) {
	root := read(t, write(t, fixture.Supper()))
	labels := map[string]*node{}
	for _, l := range root.all("label") {
		labels[l.attr["for"]] = l
	}
	boxes := root.all("input")
	require.NotEmpty(t, boxes)
	for _, b := range boxes {
		l := labels[b.attr["id"]]
		require.NotNil(t, l)
		var words strings.Builder
		l.walk(func(n *node) bool { words.WriteString(n.text); return true })
		require.NotEmpty(t, strings.TrimSpace(words.String()))
	}
}

func TestChartHasTheSameInWordsAndALinkToTheRunSheet(t *testing.T) {
	doc := fixture.Supper()
	root := read(t, write(t, doc))
	sec := sections(root)[1]
	chart := doc.Sheets[1].Blocks[0].(*sheets.Chart)
	require.Contains(t, sec.visible(), chart.Text)
	found := false
	for _, a := range sec.all("a") {
		found = found || a.attr["href"] == "#run"
	}
	require.True(t, found)
	var drawn strings.Builder
	for _, s := range sec.all("svg") {
		if s.attr["role"] == "img" {
			require.NotEmpty(t, s.attr["aria-label"])
		}
		for _, x := range s.all("text") {
			x.walk(func(n *node) bool { drawn.WriteString(n.text); return true })
			drawn.WriteByte('\n')
		}
	}
	for _, p := range chart.Panels {
		for _, l := range p.Lanes {
			require.Contains(t, drawn.String(), l.Name+"\n")
		}
	}
}

const nasty = `"><script>alert(1)</script><img src=x onerror=alert(1)>' onmouseover='x' &amp; </style></title>`

func TestHostileTextStaysText(t *testing.T) {
	runs := []sheets.Run{{Text: nasty, Link: "javascript:alert(1)"}, {Text: nasty, Link: "https://example.org/\"><script>"}, {Text: nasty, Link: "JavaScript:x"}, {Text: "x", Link: "#" + nasty}}
	doc := &sheets.Document{
		Title: nasty, Language: nasty, Revision: nasty, By: nasty, Covers: nasty, Dishes: []sheets.Mark{{Letter: nasty, Name: nasty}},
		Sheets: []sheets.Sheet{{ID: nasty, Title: nasty, Letter: nasty, Kind: sheets.Kind(nasty), Facts: []string{nasty}, Contents: true, Blocks: []sheets.Block{
			&sheets.Heading{Text: nasty, Note: nasty},
			&sheets.Prose{Paras: []sheets.Para{{Runs: runs}, {Kind: sheets.Subhead, Runs: runs}}},
			&sheets.Table{Columns: []sheets.Column{{Title: nasty, Kind: sheets.TickColumn}, {Title: nasty}}, Groups: []sheets.Group{{Title: nasty, Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: runs}, {Runs: runs, Sub: runs}, {Runs: runs}}}}}}},
			&sheets.Steps{Items: []sheets.StepItem{&sheets.Step{Clock: nasty, Who: nasty, When: nasty, Runs: runs, Margin: []string{nasty}, Takes: []sheets.Take{{Amount: nasty, Name: nasty, Note: nasty, Link: nasty}}}, &sheets.Break{Text: nasty}}},
			&sheets.Chart{Text: nasty, Note: nasty, Panels: []sheets.Panel{{Title: nasty, End: 60, Flags: []sheets.Flag{{At: 5, Label: nasty}}, Lanes: []sheets.Lane{{Name: nasty, Bars: []sheets.Bar{{End: 9, Letter: nasty, Label: nasty, Kind: sheets.BarKind(nasty)}}}}}}},
			&sheets.Cautions{Items: []sheets.Caution{{Text: nasty, Source: nasty}}},
			&sheets.List{Tick: true, Items: [][]sheets.Run{runs}},
		}}, {ID: nasty}},
	}
	page := write(t, doc)
	require.Equal(t, 1, strings.Count(page, "<script"), "only our own")
	require.NotContains(t, page, "<img")
	require.NotContains(t, strings.ToLower(page), "href=\"javascript")
	root := read(t, page)
	checkLinks(t, root)
	root.walk(func(n *node) bool {
		for a := range n.attr {
			require.False(t, strings.HasPrefix(a, "on"), "%s has %s", n.name, a)
		}
		return true
	})
	for i, sec := range sections(root)[:1] {
		_, err := fixture.Follow(strings.ReplaceAll(sec.visible(), "·", ""), fixture.Fields(doc, i)[:2])
		require.NoError(t, err)
	}
}

func TestSameBytesTwice(t *testing.T) {
	require.Equal(t, write(t, fixture.Supper()), write(t, fixture.Supper()))
}

func TestEmptyDocument(t *testing.T) {
	root := read(t, write(t, &sheets.Document{}))
	require.Contains(t, root.visible(), "Nothing to print.")
	require.Equal(t, "en", root.all("html")[0].attr["lang"])
}

func FuzzText(f *testing.F) {
	f.Add(nasty)
	f.Add("\x00\xff\ufffe👩\u200d🍳")
	f.Fuzz(func(t *testing.T, s string) {
		doc := &sheets.Document{Title: s, Sheets: []sheets.Sheet{{ID: s, Title: s, Blocks: []sheets.Block{
			&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: s, Link: s}, {Text: s, Link: "https://" + s}}}}},
			&sheets.Table{Columns: []sheets.Column{{Title: s}}, Groups: []sheets.Group{{Title: s, Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: s}}}}}}}}},
		}}}}
		checkLinks(t, read(t, write(t, doc)))
	})
}
