package html

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

const nasty = `Soup </script><script>alert(1)</script> "&' --> <!-- ]]>`

func nastyBook() *sheets.Document {
	recipe := func(id, title, thing string) sheets.Sheet {
		return sheets.Sheet{ID: id, Kind: sheets.Prep, Title: title, Chapter: "Soups & <b>", Facts: []string{"serves 4 <"}, Blocks: []sheets.Block{
			&sheets.Prose{Paras: []sheets.Para{{Runs: []sheets.Run{{Text: "also called Broth <i>", Style: sheets.Quiet}}}, {Runs: []sheets.Run{{Text: "A story of " + nasty}}}}},
			&sheets.Table{Plain: true, Columns: []sheets.Column{{Kind: sheets.AmountColumn}, {Kind: sheets.TextColumn, Weight: 3}}, Groups: []sheets.Group{{Rows: []sheets.Row{{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: "30 g"}}}, {Runs: []sheets.Run{{Text: thing, Style: sheets.Thing, Link: "#b"}, {Link: "#b", Page: ", p. #"}}}}}}}}},
			&sheets.Steps{Items: []sheets.StepItem{&sheets.Step{Number: 1, Runs: []sheets.Run{{Text: "Stir with care."}}}}},
			&sheets.Cautions{Items: []sheets.Caution{{Text: "Hot <liquids>."}}},
		}}
	}
	return &sheets.Document{Title: nasty, Bound: true, Language: "en-GB", Sheets: []sheets.Sheet{
		{ID: "title", Kind: sheets.TitlePage, Title: nasty, Facts: []string{"by <Ana>"}},
		{ID: "imprint", Kind: sheets.Imprint, Title: "How to read"},
		{ID: "contents", Kind: sheets.Contents, Title: "Contents"},
		{ID: "c", Kind: sheets.Chapter, Title: "Soups & <b>", Chapter: "Soups & <b>"},
		recipe("a", nasty, "leeks <"), recipe("b", "Éclairs", "choux"), recipe("d", "Index", "ink"), recipe("e", "éclairs!", "cream"), recipe("f", "餃子", "flour"), recipe("h", "Smørrebrød", "rye"), recipe("i", "Œufs à la coque", "eggs"), recipe("g", "Con", "corn"),
		{ID: "index", Kind: sheets.Index, Title: "Index", Blocks: []sheets.Block{&sheets.Alphabet{Letters: []sheets.Letter{{Letter: "E", Entries: []sheets.Entry{{Name: "Éclairs", At: []sheets.Run{{Text: "Éclairs", Style: sheets.Strong, Link: "#b", Page: "#"}}}, {Name: "<E>", At: []sheets.Run{{Text: "Éclairs", Link: "#b", Page: "#"}}}}}}}}},
	}}
}

// Whatever a book is called, its pages have plain names of their own, every link leads to a
// page that is there, and no text of the writer's ends an element or a script.
func TestPagesOfABook(t *testing.T) {
	files := map[string]string{}
	for _, f := range Book(nastyBook()) {
		require.Regexp(t, `^[a-z0-9-]+\.(html|css)$`, f.Name)
		require.Empty(t, files[f.Name], "%s twice", f.Name)
		files[f.Name] = string(f.Data)
	}
	for _, name := range []string{"index.html", "a-z.html", "about.html", "book.css", "eclairs.html", "eclairs-2.html", "index-2.html", "recipe.html", "recipe-con.html", "chapter-soups-b.html", "smorrebrod.html", "oeufs-a-la-coque.html"} {
		require.Contains(t, files, name)
	}
	href := regexp.MustCompile(`href="([^"#]*)(?:#([^"]*))?"`)
	for name, text := range files {
		if strings.HasSuffix(name, ".css") {
			continue
		}
		for _, m := range href.FindAllStringSubmatch(text, -1) {
			if m[1] != "" {
				require.Contains(t, files, m[1], "from %s", name)
			}
			to := files[m[1]]
			if m[1] == "" {
				to = text
			}
			if m[2] != "" {
				require.Contains(t, to, `id="`+m[2]+`"`, "from %s to %s", name, m[0])
			}
		}
		scripts := 0
		if name == "index.html" {
			scripts = 1
		}
		require.Equal(t, scripts, strings.Count(text, "<script"), name)
		require.Equal(t, scripts, strings.Count(text, "</script"), name)
		for _, raw := range []string{"Soups & <b>", "<E>", "<liquids>", "<Ana>", "leeks <<"} {
			require.NotContains(t, text, raw, name)
		}
		if name != "index.html" { // there the script has it, with its marks by their codes
			require.NotContains(t, text, "Broth <i>", name)
		}
		require.Equal(t, 1, strings.Count(text, "<h1"), name)
		require.NotRegexp(t, `<a [^>]*></a>`, text, "%s has a link without words", name)
		require.Contains(t, text, `<meta name="generator" content="`+Generator+`">`)
		require.Less(t, strings.Index(text, Generator), 1000, "it is looked for at the head")
	}
	require.Contains(t, files["eclairs.html"], `href="index-2.html"`, "the next")
	require.Contains(t, files["a-z.html"], `<li><a href="eclairs.html"><strong>Éclairs</strong></a></li>`, "its own name leads to it")
	require.Contains(t, files["a-z.html"], `<li>&lt;E&gt;: <a href="eclairs.html">Éclairs</a></li>`)
}

// The search holds every recipe, with its other names, what is gathered and what it says.
func TestTheSearchHoldsEveryRecipe(t *testing.T) {
	doc := nastyBook()
	var index string
	for _, f := range Book(doc) {
		if f.Name == "index.html" {
			index = string(f.Data)
		}
	}
	m := regexp.MustCompile(`(?m)const book = (\[.*\]);$`).FindStringSubmatch(index)
	require.NotNil(t, m)
	var hits []hit
	require.NoError(t, json.Unmarshal([]byte(m[1]), &hits))
	n := 0
	for _, s := range doc.Sheets {
		if s.Kind != sheets.Prep {
			continue
		}
		require.Equal(t, s.Title, hits[n].Title)
		require.Equal(t, "Broth <i>", hits[n].Also)
		require.Len(t, hits[n].Things, 1)
		require.Contains(t, hits[n].Text, "A story of")
		require.Contains(t, hits[n].Text, "Stir with care.")
		n++
	}
	require.Len(t, hits, n)
	require.NotContains(t, m[1], "<")
}
