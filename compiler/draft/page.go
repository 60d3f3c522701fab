package draft

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// page is what a web page holds: its JSON-LD, and its text in pieces.
type page struct {
	scripts []string
	items   []*object // what its elements mark
	pieces  []piece
	beside  []string // what is of the site and not of the page: its ways, its foot
}

// readPage reads HTML as a browser does, whatever is wrong with it.
func readPage(text string) *page {
	p := &page{}
	doc, err := html.Parse(strings.NewReader(text))
	if err != nil { // deeper than anybody writes
		p.pieces = plain(said(text))
		return p
	}
	p.walk(doc)
	p.items = itemsIn(doc)
	return p
}

func (p *page) walk(n *html.Node) {
	if n.Type == html.TextNode {
		if t := strings.Join(strings.Fields(n.Data), " "); t != "" {
			p.pieces = append(p.pieces, piece{kind: para, text: t})
		}
		return
	}
	if n.Type != html.ElementNode && n.Type != html.DocumentNode {
		return
	}
	if besides(n) {
		p.scriptsIn(n)
		if t := strings.ReplaceAll(textOf(n), "\n", " "); t != "" {
			p.beside = append(p.beside, parted(t))
		}
		return
	}
	switch n.DataAtom {
	case atom.Script:
		for _, a := range n.Attr {
			if a.Key == "type" && strings.HasPrefix(strings.ToLower(strings.TrimSpace(a.Val)), "application/ld+json") && n.FirstChild != nil {
				p.scripts = append(p.scripts, n.FirstChild.Data)
			}
		}
		return
	case atom.Style, atom.Template, atom.Noscript, atom.Svg, atom.Iframe:
		return
	case atom.Title:
		if t := textOf(n); t != "" {
			p.pieces = append(p.pieces, piece{kind: heading, text: t, level: 1})
		}
		return
	case atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6:
		t, level := textOf(n), int(n.Data[1]-'0')
		if k := len(p.pieces); t != "" && !(k > 0 && p.pieces[k-1].kind == heading && p.pieces[k-1].text == t) {
			p.pieces = append(p.pieces, piece{kind: heading, text: t, level: level})
		}
		return
	case atom.Li:
		kind := item
		if n.Parent != nil && n.Parent.DataAtom == atom.Ol {
			kind = numbered
		}
		if t := textOf(n); t != "" {
			p.pieces = append(p.pieces, piece{kind: kind, text: t})
		}
		return
	case atom.Tr:
		var cells []string
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			if c.DataAtom == atom.Td || c.DataAtom == atom.Th {
				cells = append(cells, textOf(c))
			}
		}
		if strings.TrimSpace(strings.Join(cells, "")) != "" {
			p.pieces = append(p.pieces, piece{kind: row, cells: cells})
		}
		return
	case atom.Pre:
		p.pieces = append(p.pieces, plain(rawText(n))...)
		return
	}
	if inlineOnly(n) && n.FirstChild != nil {
		lines := strings.Split(textOf(n), "\n")
		if len(lines) > 1 {
			p.pieces = append(p.pieces, blockOf(lines)...)
		} else if t := lines[0]; t != "" {
			kind := para
			if c := n.FirstChild; c.NextSibling == nil && (c.DataAtom == atom.B || c.DataAtom == atom.Strong) && len(strings.Fields(t)) <= 8 {
				kind = heading
			}
			p.pieces = append(p.pieces, piece{kind: kind, text: t, level: map[pieceKind]int{heading: 9}[kind]})
		}
		return
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		p.walk(c)
	}
}

// scriptsIn takes the marked data that stand in what is not read.
func (p *page) scriptsIn(n *html.Node) {
	for d := range n.Descendants() {
		if d.DataAtom == atom.Script {
			p.walk(d)
		}
	}
}

// besides tells whether an element is beside what a page is about: the ways of its site, an
// aside, a foot, or a head that stands in no article (HTML Standard, sections, from memory).
func besides(n *html.Node) bool {
	switch n.DataAtom {
	case atom.Nav, atom.Aside:
		return true
	case atom.Footer, atom.Header:
		for up := n.Parent; up != nil; up = up.Parent {
			if up.DataAtom == atom.Article || up.DataAtom == atom.Main || up.DataAtom == atom.Section {
				return false
			}
		}
		return n.DataAtom == atom.Footer || !holds(n, atom.H1)
	}
	return false
}

// holds tells whether an element has another within it.
func holds(n *html.Node, what atom.Atom) bool {
	for d := range n.Descendants() {
		if d.DataAtom == what {
			return true
		}
	}
	return false
}

// flows tells whether an element stands within a line of text.
func flows(n *html.Node) bool {
	if n.Type == html.TextNode || n.Type == html.CommentNode {
		return true
	}
	switch n.DataAtom {
	case atom.A, atom.B, atom.Strong, atom.I, atom.Em, atom.Span, atom.Br, atom.Small, atom.Sup, atom.Sub, atom.U, atom.S, atom.Mark, atom.Abbr, atom.Code, atom.Time, atom.Img, atom.Label, atom.Q, atom.Cite, atom.Font, atom.Data, atom.Wbr:
		return true
	}
	return false
}

func inlineOnly(n *html.Node) bool {
	if n.Type != html.ElementNode {
		return false
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if !flows(c) || c.FirstChild != nil && !inlineOnly(c) {
			return false
		}
	}
	return true
}

func rawText(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return b.String()
}

// textOf is the text of an element; a break is the end of a line.
func textOf(n *html.Node) string {
	var b strings.Builder
	var walk func(n *html.Node)
	walk = func(n *html.Node) {
		switch {
		case n.Type == html.TextNode:
			b.WriteString(strings.NewReplacer("\n", " ", "\t", " ").Replace(n.Data))
		case n.DataAtom == atom.Script || n.DataAtom == atom.Style:
			return
		case n.DataAtom == atom.Br:
			b.WriteByte('\n')
		default:
			if !flows(n) && b.Len() > 0 {
				b.WriteByte(' ')
			}
			for c := n.FirstChild; c != nil; c = c.NextSibling {
				walk(c)
			}
			if !flows(n) {
				b.WriteByte(' ')
			}
		}
	}
	walk(n)
	var lines []string
	for l := range strings.SplitSeq(b.String(), "\n") {
		if l = strings.Join(strings.Fields(l), " "); l != "" {
			lines = append(lines, l)
		}
	}
	return strings.Join(lines, "\n")
}
