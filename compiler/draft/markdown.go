package draft

import (
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"
)

// markdown cuts a Markdown text into pieces: its headings, paragraphs, items and rows are
// those that it marks. What stands between two fences before all else is left to the reader
// of facts, a line each.
func markdown(src string) (out []piece) {
	if head, rest, ok := frontMatter(src); ok {
		for l := range strings.SplitSeq(head, "\n") {
			key, value, found := strings.Cut(l, ":")
			value = strings.Trim(strings.TrimSpace(value), `"'`)
			switch key = strings.TrimSpace(key); {
			case !found || value == "":
				if strings.TrimSpace(l) != "" {
					out = append(out, piece{kind: para, text: strings.TrimSpace(l)})
				}
			case strings.EqualFold(key, "title") || strings.EqualFold(key, "name"):
				out = append([]piece{{kind: heading, text: value, level: 1}}, out...)
			default:
				out = append(out, piece{kind: para, text: key + ": " + value})
			}
		}
		src = rest
	}
	source := []byte(src)
	doc := goldmark.New(goldmark.WithExtensions(extension.Table)).Parser().Parse(text.NewReader(source))
	for n := doc.FirstChild(); n != nil; n = n.NextSibling() {
		out = append(out, piecesOf(n, source)...)
	}
	return out
}

// frontMatter parts the facts that stand between two lines of dashes at the very beginning.
func frontMatter(src string) (head, rest string, ok bool) {
	if !strings.HasPrefix(src, "---\n") {
		return "", src, false
	}
	return strings.Cut(src[4:], "\n---\n")
}

func piecesOf(n ast.Node, source []byte) (out []piece) {
	switch n := n.(type) {
	case *ast.Heading:
		return []piece{{kind: heading, text: inline(n, source), level: n.Level}}
	case *ast.List:
		kind := item
		if n.IsOrdered() {
			kind = numbered
		}
		for li := n.FirstChild(); li != nil; li = li.NextSibling() {
			first := true
			for c := li.FirstChild(); c != nil; c = c.NextSibling() {
				if first && (c.Kind() == ast.KindTextBlock || c.Kind() == ast.KindParagraph) {
					out = append(out, piece{kind: kind, text: strings.TrimPrefix(strings.TrimPrefix(inline(c, source), "[ ] "), "[x] ")})
					first = false
					continue
				}
				first = false
				out = append(out, piecesOf(c, source)...)
			}
		}
		return out
	case *east.Table:
		for r := n.FirstChild(); r != nil; r = r.NextSibling() {
			var cells []string
			for c := r.FirstChild(); c != nil; c = c.NextSibling() {
				cells = append(cells, inline(c, source))
			}
			if len(cells) > 0 {
				out = append(out, piece{kind: row, cells: cells, names: r.Kind() == east.KindTableHeader})
			}
		}
		return out
	case *ast.ThematicBreak:
		return nil
	case *ast.Blockquote:
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			out = append(out, piecesOf(c, source)...)
		}
		return out
	case *ast.FencedCodeBlock, *ast.CodeBlock, *ast.HTMLBlock:
		var b strings.Builder
		for i := range n.Lines().Len() {
			l := n.Lines().At(i)
			b.Write(l.Value(source))
		}
		if h, ok := n.(*ast.HTMLBlock); ok {
			if h.HasClosure() {
				b.Write(h.ClosureLine.Value(source))
			}
			return readPage(b.String()).pieces
		}
		return plain(b.String())
	}
	text := inline(n, source)
	if bold, ok := onlyBold(n); ok && len(strings.Fields(text)) <= 8 {
		return []piece{{kind: heading, text: inline(bold, source), level: 9}}
	}
	if lines := strings.Split(text, "\n"); len(lines) > 1 && (listed(lines) || factsOf(lines) != nil) {
		return blockOf(lines)
	}
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return nil
	}
	return []piece{{kind: para, text: text}}
}

// onlyBold tells whether a paragraph is nothing but words in bold: a heading of its own.
func onlyBold(n ast.Node) (ast.Node, bool) {
	c := n.FirstChild()
	if c == nil || c.NextSibling() != nil {
		return nil, false
	}
	e, ok := c.(*ast.Emphasis)
	return c, ok && e.Level == 2
}

// inline is the text of a node without its marks; the address of a link stands behind it in
// brackets.
func inline(n ast.Node, source []byte) string {
	var b strings.Builder
	var walk func(n ast.Node)
	walk = func(n ast.Node) {
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			switch c := c.(type) {
			case *ast.Text:
				b.Write(c.Segment.Value(source))
				if c.SoftLineBreak() || c.HardLineBreak() {
					b.WriteByte('\n')
				}
			case *ast.String:
				b.Write(c.Value)
			case *ast.AutoLink:
				b.Write(c.URL(source))
			case *ast.RawHTML:
				for i := range c.Segments.Len() {
					s := c.Segments.At(i)
					if strings.HasPrefix(strings.ToLower(string(s.Value(source))), "<br") {
						b.WriteByte('\n')
					}
				}
			case *ast.Link:
				walk(c)
				b.WriteString(" (" + string(c.Destination) + ")")
			case *ast.Image:
				walk(c)
				b.WriteString(" (" + string(c.Destination) + ")")
			default:
				walk(c)
			}
		}
	}
	walk(n)
	return strings.TrimSpace(b.String())
}
