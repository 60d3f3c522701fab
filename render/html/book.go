package html

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/draw"
	"tamis/render/runes"
)

//go:embed search.js
var searchScript string

//go:embed book.css
var bookStyle string

// File is a page of a book, or what its pages share.
type File struct {
	Name string // "leek-and-potato-soup.html"
	Data []byte
}

// Generator is what the pages of a book say of who made them, so that a page which is in
// the book no more can be told from what else lies in its folder.
const Generator = "Tamis book"

// Book writes a bound document as pages for one folder: index.html with the contents and
// the search, a page for each chapter and each recipe, and the index. Nothing is fetched: it
// is read from a disk, a stick or a server alike, and without a script it is plain pages.
func Book(doc *sheets.Document) []File {
	w := &bookWriter{doc: doc, files: map[string]string{}, taken: map[string]bool{"index": true, "a-z": true, "about": true}}
	for _, s := range doc.Sheets {
		switch s.Kind {
		case sheets.TitlePage, sheets.Preface, sheets.Contents:
			w.files[s.ID] = "index.html"
		case sheets.Index:
			w.files[s.ID] = "a-z.html"
		case sheets.Imprint, sheets.Care:
			w.files[s.ID] = "about.html"
		case sheets.Chapter:
			w.files[s.ID] = w.name("chapter " + s.Title)
			w.order = append(w.order, s.ID)
		default:
			w.files[s.ID] = w.name(s.Title)
			w.order = append(w.order, s.ID)
		}
	}
	w.front()
	w.about()
	w.things()
	for i, s := range doc.Sheets {
		if s.Kind == sheets.Prep || s.Kind == sheets.Chapter {
			w.leaf(&doc.Sheets[i])
		}
	}
	w.out = append(w.out, File{"book.css", []byte(style + bookStyle)})
	return w.out
}

type bookWriter struct {
	doc   *sheets.Document
	files map[string]string // sheet -> file
	taken map[string]bool
	order []string // what is leafed through: chapters and recipes
	out   []File
}

// reservedFiles are devices on Windows, with any ending.
var reservedFiles = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true}

// name is a file name of plain small letters that no other page has.
func (w *bookWriter) name(title string) string {
	var s strings.Builder
	gap := false
	for _, r := range strings.ToLower(sheets.Unmarked(runes.Clean(title))) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			if gap && s.Len() > 0 {
				s.WriteByte('-')
			}
			gap = false
			s.WriteRune(r)
		default:
			gap = true
		}
		if s.Len() >= 60 {
			break
		}
	}
	base := s.String()
	low := strings.TrimRight(base, "0123456789")
	if base == "" || reservedFiles[base] || low == "com" || low == "lpt" {
		base = strings.Trim("recipe-"+base, "-")
	}
	free := base
	for n := 2; w.taken[free]; n++ {
		free = fmt.Sprintf("%s-%d", base, n)
	}
	w.taken[free] = true
	return free + ".html"
}

// page writes one page: its head, the way to the others, what fill writes, and its foot.
func (w *bookWriter) page(file, title, script string, fill func(p *printer)) {
	doc := w.doc
	p := &printer{doc: doc, marks: map[string]int{}, ids: map[string]string{}, taken: map[string]bool{"q": true, "main": true}, files: w.files, up: 1}
	lang := tag(doc.Language)
	if lang == "" {
		lang = "en"
	}
	whole := doc.Title
	if title != "" {
		whole = title + " · " + doc.Title
	}
	allowed := "'none'"
	if script != "" {
		allowed = Allowed(script)
	}
	p.raw("<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n", lang)
	p.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'self' file:; img-src data:; script-src %s\">\n", allowed)
	p.raw("<meta name=\"generator\" content=\"%s\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n<title>%s</title>\n<link rel=\"stylesheet\" href=\"book.css\">\n</head>\n<body class=\"book\">\n", Generator, esc(orBlank(whole)))
	p.raw("<a class=\"skip\" href=\"#main\">Skip to the page</a>\n<header class=\"bar\">\n")
	if file == "index.html" {
		p.raw("<p class=\"of\"%s>%s</p>\n", dir(doc.Title), esc(orBlank(doc.Title)))
	} else {
		p.raw("<p class=\"of\"><a href=\"index.html\"%s>%s</a></p>\n", dir(doc.Title), esc(orBlank(doc.Title)))
	}
	p.raw("<nav aria-label=\"Book\"><ul><li><a href=\"index.html#contents\">Contents</a></li><li><a href=\"a-z.html\">A–Z</a></li><li><a href=\"about.html\">About</a></li></ul></nav>\n")
	p.raw("<form class=\"find\" role=\"search\" action=\"index.html\" method=\"get\"><label for=\"q\">Find</label> <input type=\"search\" id=\"q\" name=\"q\" autocomplete=\"off\"> <button>Go</button></form>\n</header>\n<main id=\"main\">\n")
	fill(p)
	p.raw("</main>\n")
	if script != "" {
		p.raw("<script>%s</script>\n", script)
	}
	p.raw("</body>\n</html>\n")
	w.out = append(w.out, File{file, append([]byte(nil), p.b.Bytes()...)})
}

// each calls f for the sheets of a kind.
func (w *bookWriter) each(kind sheets.Kind, f func(s *sheets.Sheet)) {
	for i := range w.doc.Sheets {
		if w.doc.Sheets[i].Kind == kind {
			f(&w.doc.Sheets[i])
		}
	}
}

// front is the first page: title, search, preface, contents.
func (w *bookWriter) front() {
	w.page("index.html", "", w.search(), func(p *printer) {
		w.each(sheets.TitlePage, func(s *sheets.Sheet) {
			p.raw("<div class=\"title\">\n<h1%s>%s</h1>\n", dir(s.Title), esc(orBlank(s.Title)))
			w.stripe(p, 0)
			for _, f := range s.Facts {
				p.raw("<p class=\"whose\"%s>%s</p>\n", dir(f), esc(f))
			}
			p.raw("</div>\n")
			p.blocks(s)
		})
		p.raw("<section id=\"found\" aria-labelledby=\"found-head\" hidden>\n<h2 id=\"found-head\">Found</h2>\n<p role=\"status\" id=\"count\"></p>\n<ul class=\"hits\" id=\"hits\"></ul>\n</section>\n")
		w.each(sheets.Preface, func(s *sheets.Sheet) {
			p.raw("<section class=\"preface\">\n<h2>%s</h2>\n", esc(s.Title))
			p.blocks(s)
			p.raw("</section>\n")
		})
		p.raw("<section id=\"contents\">\n<h2>Contents</h2>\n")
		open := false
		for _, id := range w.order {
			s := w.doc.Sheet(id)
			if s.Kind == sheets.Chapter {
				if open {
					p.raw("</ul>\n")
				}
				p.raw("<h3%s><a href=\"%s\">%s</a></h3>\n<ul class=\"list-of\">\n", dir(s.Title), w.files[id], esc(orBlank(s.Title)))
				open = true
				continue
			}
			p.raw("<li%s><a href=\"%s\">%s</a></li>\n", dir(s.Title), w.files[id], esc(orBlank(s.Title)))
		}
		if open {
			p.raw("</ul>\n")
		}
		p.raw("</section>\n")
	})
}

// about is whose the book is, how it is read, and its cautions.
func (w *bookWriter) about() {
	w.page("about.html", "About", "", func(p *printer) {
		p.raw("<h1>About this book</h1>\n")
		for _, kind := range []sheets.Kind{sheets.Imprint, sheets.Care} {
			w.each(kind, p.blocks)
		}
	})
}

// things is the index.
func (w *bookWriter) things() {
	w.each(sheets.Index, func(s *sheets.Sheet) {
		w.page("a-z.html", s.Title, "", func(p *printer) {
			p.raw("<h1>%s</h1>\n", esc(s.Title))
			p.blocks(s)
		})
	})
}

// leaf is the page of a chapter or a recipe, with what comes before and after it.
func (w *bookWriter) leaf(s *sheets.Sheet) {
	w.page(w.files[s.ID], s.Title, "", func(p *printer) {
		w.each(sheets.Chapter, func(c *sheets.Sheet) {
			if c.Chapter == s.Chapter && c != s {
				p.raw("<p class=\"chapter\"><a href=\"%s\">%s</a></p>\n", w.files[c.ID], esc(orBlank(c.Title)))
			}
		})
		p.raw("<h1%s>%s</h1>\n", dir(s.Title), esc(orBlank(s.Title)))
		p.facts("facts", s.Facts)
		w.stripe(p, w.doc.ChapterNumber(s.Chapter))
		p.title = orBlank(s.Title)
		p.blocks(s)
		w.onward(p, s.ID)
	})
}

// onward leads to the pages before and after.
func (w *bookWriter) onward(p *printer, id string) {
	at := -1
	for i, o := range w.order {
		if o == id {
			at = i
		}
	}
	p.raw("<nav class=\"onward\" aria-label=\"Before and after\"><ul>")
	if at > 0 {
		s := w.doc.Sheet(w.order[at-1])
		p.raw("<li><a rel=\"prev\" href=\"%s\"><span aria-hidden=\"true\">← </span>%s</a></li>", w.files[s.ID], esc(orBlank(s.Title)))
	}
	if at+1 < len(w.order) {
		s := w.doc.Sheet(w.order[at+1])
		p.raw("<li><a rel=\"next\" href=\"%s\">%s<span aria-hidden=\"true\"> →</span></a></li>", w.files[s.ID], esc(orBlank(s.Title)))
	}
	p.raw("</ul></nav>\n")
}

// stripe draws the cloth stripe of a chapter over the width of the page.
func (w *bookWriter) stripe(p *printer, n int) {
	p.raw("<svg class=\"band\" aria-hidden=\"true\" focusable=\"false\" viewBox=\"0 0 1200 8\" preserveAspectRatio=\"xMinYMid slice\"><g fill=\"currentColor\">%s</g></svg>\n", shapes(draw.Stripe(n, 0, 0, 1200, 8)))
}

// blocks writes all blocks of a sheet.
func (p *printer) blocks(s *sheets.Sheet) {
	for _, b := range s.Blocks {
		p.block(s, b)
	}
}

// hit is a recipe as the search knows it.
type hit struct {
	Title   string   `json:"t"`
	URL     string   `json:"u"`
	Chapter string   `json:"c"`
	Also    string   `json:"a,omitempty"`
	Things  []string `json:"i,omitempty"` // what is gathered
	Text    string   `json:"x,omitempty"` // what else it says
}

// search is the script of the search with all that it looks through, so that no file has
// to be read, which a browser does not do from a disk.
func (w *bookWriter) search() string {
	hits := []hit{}
	for _, id := range w.order {
		s := w.doc.Sheet(id)
		if s.Kind != sheets.Prep {
			continue
		}
		h := hit{Title: runes.Clean(s.Title), URL: w.files[id], Chapter: runes.Clean(s.Chapter)}
		var text strings.Builder
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case *sheets.Prose:
				for _, q := range b.Paras {
					if words, ok := strings.CutPrefix(sheets.Words(q.Runs), "also called "); ok {
						h.Also = runes.Clean(words)
						continue
					}
					if !b.Small {
						text.WriteString(sheets.Words(q.Runs) + " ")
					}
				}
			case *sheets.Table:
				for _, g := range b.Groups {
					for _, r := range g.Rows {
						if n := len(r.Cells); n > 0 && len(r.Cells[n-1].Runs) > 0 {
							h.Things = append(h.Things, runes.Clean(r.Cells[n-1].Runs[0].Text))
						}
					}
				}
			case *sheets.Steps:
				for _, i := range b.Items {
					if st, ok := i.(*sheets.Step); ok {
						text.WriteString(sheets.Words(st.Runs) + " ")
					}
				}
			}
		}
		h.Text = runes.Clean(strings.Join(strings.Fields(text.String()), " "))
		hits = append(hits, h)
	}
	data, err := json.Marshal(hits) // it writes <, > and & by their codes, so nothing in it ends the script
	if err != nil {
		data = []byte("[]")
	}
	return strings.Replace(searchScript, "/*BOOK*/[]", string(data), 1)
}
