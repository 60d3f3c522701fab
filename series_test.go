package main

import (
	"bytes"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/page"
)

// The pages of a series lie in one folder and lead to each other, from a folder as from a
// server: every link to a page of ours is to a file that is there and to a place in it.
func TestThePagesOfASeriesLeadToEachOther(t *testing.T) {
	dir := t.TempDir()
	var out, said bytes.Buffer
	require.Zero(t, run(t.Context(), []string{"build", "examples/evening-class", "--sheets", "series,leaf,crew", "--to", "html,pdf", "-o", dir}, strings.NewReader(""), &out, &said), said.String())
	files, err := filepath.Glob(filepath.Join(dir, "*.html"))
	require.NoError(t, err)
	require.Len(t, files, 6, "the whole, four leaves, the crew's")
	href := regexp.MustCompile(`href="([^"]*)"`)
	id := regexp.MustCompile(` id="([^"]*)"`)
	to := map[string]map[string]bool{}
	ids := map[string]map[string]bool{}
	texts := map[string]string{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		name := filepath.Base(f)
		texts[name], ids[name], to[name] = string(data), map[string]bool{}, map[string]bool{}
		for _, m := range id.FindAllStringSubmatch(string(data), -1) {
			ids[name][m[1]] = true
		}
	}
	for name, text := range texts {
		for _, m := range href.FindAllStringSubmatch(text, -1) {
			u, err := url.Parse(m[1])
			require.NoError(t, err, m[1])
			if u.Scheme != "" {
				continue
			}
			at := name
			if u.Path != "" {
				at = u.Path
				to[name][at] = true
			}
			require.Contains(t, texts, at, "%s: %s", name, m[1])
			if u.Fragment != "" {
				require.True(t, ids[at][u.Fragment], "%s: %s", name, m[1])
			}
		}
		require.NotContains(t, text, "doc:")
	}
	for name := range texts {
		for other := range texts {
			require.True(t, name == other || to[name][other], "%s leads to %s", name, other)
		}
	}
	// without the others there is nothing to lead to
	alone := t.TempDir()
	require.Zero(t, run(t.Context(), []string{"build", "examples/evening-class", "--sheets", "series", "--to", "html", "-o", alone}, strings.NewReader(""), &out, &said), said.String())
	data, err := os.ReadFile(filepath.Join(alone, "table-in-four-evenings.html"))
	require.NoError(t, err)
	require.NotContains(t, string(data), "evenings-1")
}

// A list on a leaf stands below its title, in one column, where that costs no page.
func TestAListOfALeafIsNotCut(t *testing.T) {
	tree, err := load.Path("examples/regatta-picnic")
	require.NoError(t, err)
	docs := compiled(tree, compiler.Options{Sheets: []sheets.Kind{sheets.Leaf}}).Documents
	for part, of := range map[int][2]string{3: {"Green sauce", "roughly"}, 6: {"Ahead of time", "After"}} {
		b := page.Lay(docs[part-1], page.Options{Paper: page.A4})
		type at struct {
			page int
			left bool
		}
		found, size := [2]at{}, 0.0
		for n, p := range b.Pages {
			for _, o := range p.Ops {
				x, ok := o.(*draw.Text)
				if !ok {
					continue
				}
				for i, words := range of {
					if strings.Contains(x.Str, words) && (i > 0 || x.Size > size) {
						found[i] = at{n + 1, x.X < p.W/2}
						if i == 0 { // the title is larger than where it is spoken of
							size = x.Size
						}
					}
				}
			}
		}
		require.NotZero(t, found[0].page, of)
		require.Equal(t, found[0], found[1], of)
	}
}
