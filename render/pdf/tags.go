package pdf

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"tamis/render/draw"
)

// tags gathers the structure of a document while its pages are drawn: which
// piece of which page belongs to which part. ISO 32000-1, 14.7 and 14.8.
type tags struct {
	parts map[*draw.Tag]*part
	top   []*part
	pages [][]*part // by page, then by the number of the piece: its part
	links []link
}

// part is an element of the structure tree.
type part struct {
	tag  *draw.Tag
	role string
	up   *part
	kids []kid
	obj  int
}

// kid is a part of a part, a piece of a page, or a link.
type kid struct {
	part       *part
	page, mark int // mark: the number of the piece on the page
	link       int // index into links, or -1
}

// link is a place on a page that leads somewhere.
type link struct {
	page int
	rect string // its corners
	act  string // where it leads, as it is written
	says string
	part *part
	obj  int
}

func newTags(pages int) *tags {
	return &tags{parts: map[*draw.Tag]*part{}, pages: make([][]*part, pages)}
}

// of is the part that a tag stands for, hung below the part it belongs to.
func (t *tags) of(tag *draw.Tag) *part {
	if p := t.parts[tag]; p != nil {
		return p
	}
	p := &part{tag: tag, role: tag.Role}
	t.parts[tag] = p
	if tag.Above == nil {
		t.top = append(t.top, p)
		return p
	}
	p.up = t.of(tag.Above)
	p.up.kids = append(p.up.kids, kid{part: p, link: -1})
	return p
}

// piece counts a new piece of a page, n from 0, that belongs to p.
func (t *tags) piece(n int, p *part) int {
	mark := len(t.pages[n])
	t.pages[n] = append(t.pages[n], p)
	p.kids = append(p.kids, kid{page: n, mark: mark, link: -1})
	return mark
}

// linked makes a part of p that is a link, for a run of text.
func (t *tags) linked(p *part, l link) *part {
	q := &part{role: "Link", up: p, tag: p.tag}
	p.kids = append(p.kids, kid{part: q, link: -1})
	q.kids = append(q.kids, kid{link: len(t.links)})
	l.part = q
	t.links = append(t.links, l)
	return q
}

// sorted puts the parts in the order they are read, which on folded sheets is
// not the order of the pages.
func (t *tags) sorted() []*part {
	whole := &part{tag: &draw.Tag{Role: "Document"}, role: "Document"}
	for _, p := range t.top {
		p.up = whole
		whole.kids = append(whole.kids, kid{part: p, link: -1})
	}
	t.top = []*part{whole}
	var all []*part
	var walk func(p *part)
	walk = func(p *part) {
		all = append(all, p)
		if p.role != "Link" && !slices.ContainsFunc(p.kids, func(k kid) bool { return k.part == nil || k.part.role == "Link" }) {
			slices.SortStableFunc(p.kids, func(a, b kid) int { return cmp.Compare(a.part.tag.Order, b.part.tag.Order) })
		}
		for _, k := range p.kids {
			if k.part != nil {
				walk(k.part)
			}
		}
	}
	for _, p := range t.top {
		even(p, 0)
		walk(p)
	}
	return all
}

// even gives every row of a table as many cells as it has columns: those that hold
// no words are there all the same, or what is heard stands under the wrong head.
func even(p *part, cols int) {
	if p.tag.Cols > 0 {
		cols = p.tag.Cols
	}
	if p.role == "TR" && cols > 0 {
		byCol := map[int]kid{}
		for _, k := range p.kids {
			if k.part == nil || k.part.tag.Col == 0 || k.part.tag.Col > cols {
				return // one cell over all of them
			}
			byCol[k.part.tag.Col] = k
		}
		if len(byCol) == len(p.kids) { // else a row is parted over pages
			p.kids = p.kids[:0:0]
			for c := range cols {
				k, ok := byCol[c+1]
				if !ok {
					k = kid{part: &part{tag: &draw.Tag{Role: "TD", Col: c + 1}, role: "TD", up: p}, link: -1}
				}
				p.kids = append(p.kids, k)
			}
		}
		return
	}
	for _, k := range p.kids {
		if k.part != nil {
			even(k.part, cols)
		}
	}
}

// text16 is a text string of any letters: UTF-16 in figures. ISO 32000-1, 7.9.2.2.
func text16(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04X", u)
	}
	b.WriteByte('>')
	return b.String()
}

// object writes p as a dictionary; root is the number of the tree.
func (t *tags) object(p *part, root int) string {
	var b strings.Builder
	up := root
	if p.up != nil {
		up = p.up.obj
	}
	b.WriteString("<</S/" + p.role + "/P " + ref(up))
	if p.role == p.tag.Role {
		switch p.role {
		case "Sect":
			fmt.Fprintf(&b, "/T%s", text16(p.tag.Alt))
		case "Figure":
			fmt.Fprintf(&b, "/Alt%s", text16(p.tag.Alt))
		}
		if a := cellAttributes(p); a != "" {
			b.WriteString("/A<</O/Table" + a + ">>")
		}
		if p.role == "L" && numberedList(p) {
			b.WriteString("/A<</O/List/ListNumbering/Decimal>>")
		}
	}
	at := -1 // the page that bare numbers are of
	for _, k := range p.kids {
		if k.part == nil && k.link < 0 {
			at = k.page
			b.WriteString("/Pg " + ref(pageObject(at)))
			break
		}
	}
	b.WriteString("/K[")
	for i, k := range p.kids {
		if i > 0 {
			b.WriteByte(' ')
		}
		switch {
		case k.part != nil:
			b.WriteString(ref(k.part.obj))
		case k.link >= 0:
			b.WriteString("<</Type/OBJR/Obj " + ref(t.links[k.link].obj) + "/Pg " + ref(pageObject(t.links[k.link].page)) + ">>")
		case k.page == at:
			b.WriteString(strconv.Itoa(k.mark))
		default:
			fmt.Fprintf(&b, "<</Type/MCR/Pg %d 0 R/MCID %d>>", pageObject(k.page), k.mark)
		}
	}
	b.WriteString("]>>")
	return b.String()
}

// cellAttributes are what a cell is the head of, and over how many columns it is.
func cellAttributes(p *part) (out string) {
	if p.role != "TH" && p.role != "TD" {
		return ""
	}
	if p.tag.Scope != "" {
		out = "/Scope/" + p.tag.Scope
	}
	for up := p.up; p.tag.Col == 0 && up != nil; up = up.up {
		if up.tag.Cols > 1 {
			return out + "/ColSpan " + strconv.Itoa(up.tag.Cols)
		}
	}
	return out
}

// numberedList tells whether the items of p have labels; those of ours are
// numbers and letters.
func numberedList(p *part) bool {
	return len(p.kids) > 0 && p.kids[0].part != nil && len(p.kids[0].part.kids) > 0 && p.kids[0].part.kids[0].part != nil &&
		p.kids[0].part.kids[0].part.role == "Lbl"
}
