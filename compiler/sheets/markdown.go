package sheets

import (
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
)

// Markdown turns a writer's prose into paragraphs of styled runs. Raw HTML and
// pictures are left out; a picture's words are kept.
func Markdown(src string) []Para {
	source := []byte(src)
	root := goldmark.DefaultParser().Parse(text.NewReader(source))
	var out []Para
	blocks(root, source, Paragraph, &out)
	return out
}

// blocks walks block nodes in order.
func blocks(parent ast.Node, source []byte, kind ParaKind, out *[]Para) {
	number := 0
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		switch x := n.(type) {
		case *ast.Heading:
			addPara(out, Para{Kind: Subhead, Runs: inlines(x, source)})
		case *ast.Blockquote:
			blocks(x, source, Quote, out)
		case *ast.List:
			item := Item
			if x.IsOrdered() {
				item = Numbered
				number = max(x.Start, 1)
			}
			for li := x.FirstChild(); li != nil; li = li.NextSibling() {
				first := len(*out)
				blocks(li, source, item, out)
				if item == Numbered && len(*out) > first {
					(*out)[first].Number = number
					number++
				}
				for i := first + 1; i < len(*out); i++ { // a second paragraph of an item
					if (*out)[i].Kind == item && item == Numbered {
						(*out)[i].Kind = Paragraph
					}
				}
			}
		case *ast.CodeBlock, *ast.FencedCodeBlock:
			lines := n.Lines()
			for i := range lines.Len() {
				seg := lines.At(i)
				addPara(out, Para{Kind: Quote, Runs: []Run{{Text: strings.TrimRight(string(seg.Value(source)), "\n")}}})
			}
		case *ast.HTMLBlock, *ast.ThematicBreak:
		default:
			addPara(out, Para{Kind: kind, Runs: inlines(n, source)})
		}
	}
}

func addPara(out *[]Para, p Para) {
	if len(p.Runs) > 0 {
		*out = append(*out, p)
	}
}

// inlines flattens inline nodes to runs.
func inlines(parent ast.Node, source []byte) []Run {
	var out []Run
	var walk func(n ast.Node, style Style, link string)
	add := func(s string, style Style, link string) {
		if s == "" {
			return
		}
		if k := len(out) - 1; k >= 0 && out[k].Style == style && out[k].Link == link {
			out[k].Text += s
			return
		}
		out = append(out, Run{Text: s, Style: style, Link: link})
	}
	walk = func(n ast.Node, style Style, link string) {
		switch x := n.(type) {
		case *ast.Text:
			add(string(x.Segment.Value(source)), style, link)
			if x.SoftLineBreak() || x.HardLineBreak() {
				add(" ", style, link)
			}
			return
		case *ast.String:
			add(string(x.Value), style, link)
			return
		case *ast.AutoLink:
			add(string(x.Label(source)), style, safeLink(string(x.URL(source))))
			return
		case *ast.RawHTML:
			return
		case *ast.Emphasis:
			if x.Level == 2 {
				style = Strong
			} else if style == Plain {
				style = Emph
			}
		case *ast.Link:
			link = safeLink(string(x.Destination))
		}
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			walk(c, style, link)
		}
	}
	for c := parent.FirstChild(); c != nil; c = c.NextSibling() {
		walk(c, Plain, "")
	}
	return out
}

// safeLink keeps links to pages and mail, and drops what could run.
func safeLink(dest string) string {
	for _, ok := range []string{"https://", "http://", "mailto:"} {
		if strings.HasPrefix(strings.ToLower(dest), ok) {
			return dest
		}
	}
	return ""
}
