package main

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
	"tamis/render/draw"
	"tamis/render/fonts"
	"tamis/render/page"
	"tamis/render/pdf"
)

// printedBook is a book as it lies on the table: what each page says.
type printedBook struct {
	*page.Book
	words []string         // by page, from 0
	at    map[string]int   // title of a sheet -> its page, from 1
	paras map[int][]string // the paragraphs of a page
}

func asPrinted(b *page.Book) *printedBook {
	out := &printedBook{Book: b, at: map[string]int{}, paras: map[int][]string{}}
	for n, p := range b.Pages {
		var words strings.Builder
		last := 0
		para := ""
		for _, o := range p.Ops {
			x, ok := o.(*draw.Text)
			if !ok {
				continue
			}
			if x.Field != last {
				out.paras[n] = append(out.paras[n], strings.ReplaceAll(para, "\u00a0", " "))
				para, last = "", x.Field
			}
			if !x.Glued && para != "" {
				para += " "
			}
			para += x.Str
			words.WriteString(x.Str + " ")
		}
		out.paras[n] = append(out.paras[n], strings.ReplaceAll(para, "\u00a0", " "))
		out.words = append(out.words, strings.ReplaceAll(words.String(), "\u00a0", " "))
	}
	for _, s := range b.Sheets {
		out.at[s.Title] = s.Page + 1
	}
	return out
}

// paperOf are the papers of a book.
var papersOfBooks = []page.Options{{Paper: page.A5}, {Paper: page.A4}, {Paper: page.Letter}, {Paper: page.A4, Booklet: true}, {Paper: page.A4, Large: true}}

// saidRefs reads "Uses Pale roux, p. 61; Ham stock, p. 60." from the pages of a recipe.
func (b *printedBook) saidRefs(from, to int, head string) map[string]int {
	out := map[string]int{}
	for n := from; n < to; n++ {
		for _, p := range b.paras[n] {
			rest, ok := strings.CutPrefix(p, head+" ")
			if !ok {
				continue
			}
			for _, m := range regexp.MustCompile(`([^;]+), p\. (\d+)[;.]`).FindAllStringSubmatch(rest+";", -1) {
				k, _ := strconv.Atoi(m[2])
				out[strings.TrimSpace(m[1])] = k
			}
		}
	}
	return out
}

// The numbers of a book are true: what it says of its pages is where things are, both
// ways, in the contents and in the index.
func TestABookSaysItsPagesTruly(t *testing.T) {
	tree, err := load.Path("examples/family-notebook")
	require.NoError(t, err)
	r := compiled(tree, compiler.Options{})
	require.Len(t, r.Documents, 1)
	doc := r.Documents[0]
	require.True(t, doc.Bound)
	uses, usedIn := map[string][]string{}, map[string][]string{}
	var recipes []string
	for _, x := range r.Model.Recipes {
		recipes = append(recipes, x.Name)
		for _, l := range x.Lines {
			var from *resolve.Recipe
			if from = l.From; from == nil && l.Product != nil {
				from = l.Product.Recipe
			}
			if from != nil && from != x && !slices.Contains(uses[x.Name], from.Name) {
				uses[x.Name] = append(uses[x.Name], from.Name)
				usedIn[from.Name] = append(usedIn[from.Name], x.Name)
			}
		}
	}
	require.NotEmpty(t, uses)
	for _, opt := range papersOfBooks {
		b := asPrinted(page.Lay(doc, opt))
		name := fmt.Sprintf("%s booklet %v large %v", opt.Paper.Name, opt.Booklet, opt.Large)
		starts := b.Sheets
		end := func(i int) int { // after its last page
			if i+1 < len(starts) {
				return max(starts[i+1].Page, starts[i].Page+1)
			}
			return len(b.Pages)
		}
		contents := map[string]int{}
		for i, s := range starts {
			if s.Title != "Contents" {
				continue
			}
			for n := s.Page; n < end(i); n++ {
				for k, p := range b.paras[n] {
					if k+1 < len(b.paras[n]) {
						if no, err := strconv.Atoi(b.paras[n][k+1]); err == nil {
							contents[p] = no
						}
					}
				}
			}
		}
		for _, x := range recipes {
			require.Contains(t, b.words[b.at[x]-1], x, "%s: the page of %s", name, x)
			require.Equal(t, b.at[x], contents[x], "%s: %s in the contents", name, x)
		}
		for i, s := range starts {
			if !slices.Contains(recipes, s.Title) {
				continue
			}
			to := end(i)
			for _, way := range []struct {
				head string
				want []string
			}{{"Uses", uses[s.Title]}, {"Used in", usedIn[s.Title]}} {
				got := map[string]int{}
				for k, n := range b.saidRefs(s.Page, to, way.head) {
					if slices.Contains(way.want, k) { // another recipe may stand on the page
						got[k] = n
					}
				}
				want := map[string]int{}
				for _, o := range way.want {
					want[o] = b.at[o]
				}
				require.Equal(t, want, got, "%s: %s %s", name, s.Title, way.head)
			}
		}
		index := b.index(t)
		for _, x := range recipes {
			require.Contains(t, index[x], b.at[x], "%s: %s in the index", name, x)
		}
		for _, thing := range []string{"plum tomatoes", "cooking apples", "self-raising flour", "neck of lamb"} {
			at := strings.LastIndex(thing, " ")
			require.NotEmpty(t, index[thing], name)
			require.Equal(t, index[thing], index[thing[at+1:]+", "+thing[:at]], "%s: %s is looked for under what it is", name, thing)
		}
		require.Empty(t, index["pod, vanilla"], "no food by itself")
		require.Empty(t, index["sauce, White"], "a recipe stands by its names")
		for thing, at := range index {
			kind, _, _ := strings.Cut(thing, ", ") // "tomatoes, plum"
			last := strings.Fields(strings.ToLower(kind))
			word := last[len(last)-1]
			for _, n := range at {
				if all := strings.ToLower(b.words[n-1] + b.words[min(n, len(b.words)-1)]); !slices.Contains(recipes, thing) {
					require.Contains(t, all, strings.TrimSuffix(word[:max(len(word)-2, 1)], "e"), "%s: %s on page %d", name, thing, n)
				}
			}
		}
	}
}

// The contents of a book of some seventy recipes face each other, on every paper.
func TestTheContentsOfABookFaceEachOther(t *testing.T) {
	tree, err := load.Path("examples/family-notebook")
	require.NoError(t, err)
	doc := compiled(tree, compiler.Options{}).Documents[0]
	for _, opt := range papersOfBooks {
		if opt.Large {
			continue
		}
		b := asPrinted(page.Lay(doc, opt))
		i := slices.IndexFunc(b.Sheets, func(s page.Start) bool { return s.Title == "Contents" })
		require.LessOrEqual(t, b.Sheets[i+1].Page-b.Sheets[i].Page, 2, opt.Paper.Name)
		require.Equal(t, 1, b.Sheets[i].Page%2, "%s: they begin on the left", opt.Paper.Name)
	}
}

// index reads what the index says: "butter  12, 14".
func (b *printedBook) index(t *testing.T) map[string][]int {
	t.Helper()
	out := map[string][]int{}
	entry := regexp.MustCompile(`^(.+?) +((?:\d+, )*\d+)$`)
	for n := b.at["Index"] - 1; n < len(b.Pages); n++ {
		for _, p := range b.paras[n] {
			if m := entry.FindStringSubmatch(p); m != nil {
				for _, s := range strings.Split(m[2], ", ") {
					k, err := strconv.Atoi(s)
					require.NoError(t, err)
					require.LessOrEqual(t, k, len(b.Pages))
					out[m[1]] = append(out[m[1]], k)
				}
				require.True(t, slices.IsSorted(out[m[1]]), p)
			}
		}
	}
	require.NotEmpty(t, out)
	return out
}

// bigBook is the text of a book of n recipes, some on two pages of A5, a tenth of them bases.
func bigBook(n int) fstest.MapFS {
	var book, text strings.Builder
	book.WriteString("book The long book\n  by Ana Roe\n  for whoever asks\n  about\n    Some are short, and some go on.\n")
	for c := 0; c*30 < n; c++ {
		fmt.Fprintf(&book, "  chapter Chapter %d\n    about\n      What is in it.\n", c+1)
		for k := c * 30; k < min(c*30+30, n); k++ {
			if k%10 == 9 {
				fmt.Fprintf(&text, "base Stock %d\n  makes 2 litres\n  keeps 2 days, fridge\n  gather\n    1 kg     chicken wings\n    2        onions\n    3 litres water\n  method\n    - Simmer the chicken wings and the onions in the water.\n      | ring low | leave 3 h\n\n", k)
				continue
			}
			fmt.Fprintf(&book, "    Dish %d\n", k)
			fmt.Fprintf(&text, "dish Dish %d\n  serves 4\n  source a card, number %d\n  about\n", k, k)
			for range k%7 + 1 {
				text.WriteString("    Somebody brought it home one wet evening, and it has been made ever since, whenever the wind stands in the north and nobody wants to go out.\n\n")
			}
			fmt.Fprintf(&text, "  gather\n    500 ml   Stock %d\n    400 g    leeks, sliced\n    %d g     potatoes, diced\n    30 g     butter\n    salt | to taste\n  method\n", (k/10)*10+9, 200+k)
			text.WriteString("    - Melt the butter and sweat the leeks in it.\n      | ring low | work 5 min\n")
			for range k%9 + 1 {
				text.WriteString("    - Stir, look at it from all sides, and go on as the sort of day and the sort of pan ask for.\n      | ring low | work 2 min\n")
			}
			fmt.Fprintf(&text, "    - Pour on the Stock %d, add the potatoes and the salt, and simmer.\n      | ring low | leave 20 min\n\n", (k/10)*10+9)
		}
	}
	if (n-1)%10 != 9 { // the last few draw on it
		fmt.Fprintf(&text, "base Stock %d\n  makes 2 litres\n  gather\n    1 kg     chicken wings\n    3 litres water\n  method\n    - Simmer the chicken wings in the water.\n      | ring low | leave 3 h\n", (n-1)/10*10+9)
	}
	return fstest.MapFS{"book.tamis": {Data: []byte(book.String())}, "all.tamis": {Data: []byte(text.String())}}
}

// A chapter opens on the right, a recipe of two pages on the left, and no page but those
// that are ruled to be written on is empty; nothing lies outside the margins.
func TestHowABookIsBound(t *testing.T) {
	tree, err := load.FS(bigBook(60), ".", "", "long")
	require.NoError(t, err)
	r := compiled(tree, compiler.Options{})
	require.False(t, r.Diags.HasErrors(), "%v", r.Diags.Sorted())
	doc := r.Documents[0]
	for _, opt := range papersOfBooks {
		b := asPrinted(page.Lay(doc, opt))
		long, chapters, faces := 0, 0, 0
		for i, s := range b.Sheets {
			to := len(b.Pages)
			if i+1 < len(b.Sheets) {
				to = b.Sheets[i+1].Page
			}
			for to > s.Page+1 && strings.Contains(b.words[to-1], "what came of it") {
				to--
			}
			n := to - s.Page
			switch {
			case strings.HasPrefix(s.Title, "Chapter "):
				chapters++
				require.Equal(t, 0, s.Page%2, "%s on the right", s.Title)
				require.Equal(t, 0, s.Level)
			case strings.HasPrefix(s.Title, "Dish "):
				require.Equal(t, 1, s.Level, "its bookmark stands below that of its chapter")
				if n > 1 {
					long++
					require.Equal(t, 1, s.Page%2, "%s, of %d pages, begins on the left", s.Title, n)
					if !strings.Contains(b.words[s.Page], "Melt the butter") && strings.Contains(b.words[s.Page+1], "Melt the butter") {
						faces++
					}
				}
			}
		}
		require.Equal(t, 2, chapters)
		if opt.Paper == page.A5 {
			require.Greater(t, long, 5)
			require.Greater(t, faces, 5, "what is gathered faces what is done")
		}
		for n, p := range b.Pages {
			require.NotEmpty(t, strings.TrimSpace(b.words[n]), "page %d", n+1)
			for _, o := range p.Ops {
				x, ok := o.(*draw.Text)
				if !ok {
					continue
				}
				top, bottom := x.Span()
				require.True(t, x.X >= p.Area.X-0.1 && x.X+x.W <= p.Area.X+p.Area.W+0.1 && top >= p.Area.Y-2 && bottom <= p.Area.Y+p.Area.H+3, "page %d: %q", n+1, x.Str)
			}
			inner, outer := p.Area.X, p.W-p.Area.X-p.Area.W
			if n%2 == 1 {
				inner, outer = outer, inner
			}
			require.Greater(t, inner, outer, "page %d has its wide margin at the fold", n+1)
		}
		require.Contains(t, b.words[0], "The long book")
		require.Contains(t, b.words[0], "by Ana Roe")
		require.Contains(t, b.words[0], "for whoever asks")
		require.Equal(t, fonts.SerifBold, b.Pages[0].Ops[0].(*draw.Text).Face)
	}
}

// A recipe with a picture has it on the page where it begins, and where that leaves too
// little room for its method, that has the page opposite.
func TestAPictureFacesTheMethod(t *testing.T) {
	files := bigBook(20)
	img := image.NewGray(image.Rect(0, 0, 900, 700))
	var data bytes.Buffer
	require.NoError(t, png.Encode(&data, img))
	files["p.png"] = &fstest.MapFile{Data: data.Bytes()}
	text := string(files["all.tamis"].Data)
	files["all.tamis"] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(text, "  source a card", "  picture p.png, The pot. Photograph by Ana Roe, CC BY 4.0\n  source a card"))}
	tree, err := load.FS(files, ".", "", "long")
	require.NoError(t, err)
	doc := compiled(tree, compiler.Options{}).Documents[0]
	b := asPrinted(page.Lay(doc, page.Options{Paper: page.A5}))
	spread, pictures := 0, 0
	for _, s := range b.Sheets {
		if !strings.HasPrefix(s.Title, "Dish ") {
			continue
		}
		if slices.ContainsFunc(b.Pages[s.Page].Ops, func(o draw.Op) bool { _, ok := o.(*draw.Picture); return ok }) {
			pictures++
			require.Contains(t, b.words[s.Page], "Photograph by Ana Roe, CC BY 4.0")
		} else { // a story that fills the page
			require.Contains(t, b.words[s.Page+1], "Photograph by Ana Roe, CC BY 4.0")
		}
		if !strings.Contains(b.words[s.Page], "Melt the butter") {
			spread++
			require.Equal(t, 1, s.Page%2, s.Title)
			require.Contains(t, b.words[s.Page+1], "Melt the butter", s.Title)
		}
	}
	require.Greater(t, pictures, 13)
	require.Greater(t, spread, 5)
}

// What is asked for by name is printed: the loose sheets of a book, and a book where a menu
// stands beside it.
func TestABookIsAskedForByName(t *testing.T) {
	files := bigBook(12)
	files["menu.tamis"] = &fstest.MapFile{Data: []byte("menu Supper\n  covers 4\n  course First\n    Dish 1\n")}
	tree, err := load.FS(files, ".", "", "long")
	require.NoError(t, err)
	require.False(t, compiled(tree, compiler.Options{}).Documents[0].Bound, "a menu is what is cooked")
	b := compiled(tree, compiler.Options{Sheets: []sheets.Kind{sheets.Book}})
	require.True(t, b.Documents[0].Bound)
	delete(files, "menu.tamis")
	tree, err = load.FS(files, ".", "", "long")
	require.NoError(t, err)
	loose := compiled(tree, compiler.Options{Sheets: []sheets.Kind{sheets.Prep}}).Documents[0]
	require.False(t, loose.Bound)
	require.Equal(t, sheets.Prep, loose.Sheets[len(loose.Sheets)-1].Kind)
}

// Three hundred recipes are set, indexed and drawn in a moment.
func TestALongBookIsSoonPrinted(t *testing.T) {
	files := bigBook(300)
	effort.Within(t, 3*time.Second, "to print a book of 300 recipes", func() {
		tree, err := load.FS(files, ".", "", "long")
		require.NoError(t, err)
		r := compiled(tree, compiler.Options{})
		require.Len(t, r.Documents, 1)
		var out bytes.Buffer
		require.NoError(t, pdf.Write(&out, r.Documents[0], pdf.Options{Paper: page.A5}))
		require.Greater(t, out.Len(), 100_000)
	})
}
