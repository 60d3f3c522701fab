package build

import (
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"

	"tamis/compiler/check"
	"tamis/compiler/sheets"
)

// Markdown turns a writer's prose into paragraphs of styled runs. Raw HTML and
// pictures are left out; a picture's words are kept.
//
// Prose that cannot be read in good time, which check reports, is left out.
func Markdown(src string) []sheets.Para {
	if check.Tangled(src) != "" {
		return nil
	}
	source := []byte(src)
	root := goldmark.DefaultParser().Parse(text.NewReader(source))
	var out []sheets.Para
	blocks(root, source, sheets.Paragraph, &out)
	return out
}

// blocks walks block nodes in order.
func blocks(parent ast.Node, source []byte, kind sheets.ParaKind, out *[]sheets.Para) {
	number := 0
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		switch x := n.(type) {
		case *ast.Heading:
			addPara(out, sheets.Para{Kind: sheets.Subhead, Runs: inlines(x, source)})
		case *ast.Blockquote:
			blocks(x, source, sheets.Quote, out)
		case *ast.List:
			item := sheets.Item
			if x.IsOrdered() {
				item = sheets.Numbered
				number = max(x.Start, 1)
			}
			for li := x.FirstChild(); li != nil; li = li.NextSibling() {
				first := len(*out)
				blocks(li, source, item, out)
				if item == sheets.Numbered && len(*out) > first {
					(*out)[first].Number = number
					number++
				}
				for i := first + 1; i < len(*out); i++ { // a second paragraph of an item
					if (*out)[i].Kind == item && item == sheets.Numbered {
						(*out)[i].Kind = sheets.Paragraph
					}
				}
			}
		case *ast.CodeBlock, *ast.FencedCodeBlock:
			lines := n.Lines()
			for i := range lines.Len() {
				seg := lines.At(i)
				addPara(out, sheets.Para{Kind: sheets.Quote, Runs: []sheets.Run{{Text: strings.TrimRight(string(seg.Value(source)), "\n")}}})
			}
		case *ast.HTMLBlock, *ast.ThematicBreak:
		default:
			addPara(out, sheets.Para{Kind: kind, Runs: inlines(n, source)})
		}
	}
}

func addPara(out *[]sheets.Para, p sheets.Para) {
	if len(p.Runs) > 0 {
		*out = append(*out, p)
	}
}

// inlines flattens inline nodes to runs.
func inlines(parent ast.Node, source []byte) []sheets.Run {
	var out []sheets.Run
	var walk func(n ast.Node, style sheets.Style, link string)
	add := func(s string, style sheets.Style, link string) {
		if s == "" {
			return
		}
		if k := len(out) - 1; k >= 0 && out[k].Style == style && out[k].Link == link {
			out[k].Text += s
			return
		}
		out = append(out, sheets.Run{Text: s, Style: style, Link: link})
	}
	walk = func(n ast.Node, style sheets.Style, link string) {
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
				style = sheets.Strong
			} else if style == sheets.Plain {
				style = sheets.Emph
			}
		case *ast.Link:
			link = safeLink(string(x.Destination))
		}
		for c := n.FirstChild(); c != nil; c = c.NextSibling() {
			walk(c, style, link)
		}
	}
	for c := parent.FirstChild(); c != nil; c = c.NextSibling() {
		walk(c, sheets.Plain, "")
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
