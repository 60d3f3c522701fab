package page

import "strings"

// Paper is a size of paper in points, and how it is used: the margins are that
// of the binding edge, left or, on a sheet on its side, top, and that of the others.
type Paper struct {
	Name          string
	W, H          float64
	Card          bool // a card of its own, filed by its dish: "card 1 of 2"
	binding, edge float64
	facing        bool // pages lie open side by side: the binding edge is right on those with even numbers
	hung          *Paper
}

// Hung is the paper of what hangs on a wall, a leaf of a day or a chart: that of
// all else, or larger.
func (p Paper) Hung() Paper {
	if p.hung != nil {
		return *p.hung
	}
	return p
}

// Half is the page of a booklet folded from p, and whether p is folded so. A
// fold takes less room than a punch.
func (p Paper) Half() (Paper, bool) {
	switch p.Name {
	case A4.Name:
		return Paper{Name: "half a4", W: A5.W, H: A5.H, binding: 15 * mm, edge: 10 * mm, facing: true}, true
	case Letter.Name:
		return Paper{Name: "half letter", W: Letter.H / 2, H: Letter.W, binding: 14 * mm, edge: 10 * mm, facing: true}, true
	}
	return Paper{}, false
}

// Sides is how a booklet of n pages is printed two by two: on every side of
// paper, front, back, front …, the pages to the left and to the right of the
// fold, 0 for a blank one. The first page is to the right of the last on the
// outermost front, the second to the left of the last but one on its back, and
// so inwards, blank pages last; the two on a side always add up to one more than
// a multiple of four (common practice of saddle stitching, no source).
func Sides(n int) [][2]int {
	total := (n + 3) / 4 * 4
	page := func(i int) int {
		if i > n {
			return 0
		}
		return i
	}
	var out [][2]int
	for i := 1; i <= total/2; i++ {
		low, high := page(i), page(total+1-i)
		if i%2 == 1 {
			out = append(out, [2]int{high, low})
		} else {
			out = append(out, [2]int{low, high})
		}
	}
	return out
}

const (
	mm   = 72 / 25.4
	inch = 72.0
)

// The papers. On A3 is what hangs, and all that is carried and bound on A4. Sizes from ISO 216 and ANSI/ASME Y14.1; file cards are 6 × 4 and
// 5 × 3 inches by common practice, no source. What is bound has room for a punch.
var (
	A4      = Paper{Name: "a4", W: 210 * mm, H: 297 * mm, binding: 20 * mm, edge: 13 * mm}
	Letter  = Paper{Name: "letter", W: 8.5 * inch, H: 11 * inch, binding: 20 * mm, edge: 13 * mm}
	A5      = Paper{Name: "a5", W: 148 * mm, H: 210 * mm, binding: 18 * mm, edge: 10 * mm}
	Card6x4 = Paper{Name: "6x4", W: 6 * inch, H: 4 * inch, Card: true, binding: 8 * mm, edge: 8 * mm}
	A3      = Paper{Name: "a3", W: A4.W, H: A4.H, binding: A4.binding, edge: A4.edge, hung: &Paper{Name: "a3", W: 297 * mm, H: 420 * mm, binding: 20 * mm, edge: 13 * mm}}
	Card5x3 = Paper{Name: "5x3", W: 5 * inch, H: 3 * inch, Card: true, binding: 7 * mm, edge: 7 * mm}
)

// Papers lists all papers.
func Papers() []Paper { return []Paper{A4, A3, Letter, A5, Card6x4, Card5x3} }

// PaperNamed finds a paper by its name, in capitals or not.
func PaperNamed(name string) (Paper, bool) {
	for _, p := range Papers() {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Paper{}, false
}

// sizes are the type sizes of one option.
type sizes struct {
	masthead, title, again, heading, sub     float64
	step, number, look, body, small, running float64
	chart                                    float64
}

var (
	normal = sizes{
		masthead: 38, title: 30, again: 16, heading: 16, sub: 13.5,
		step: 13.5, number: 24, look: 14, body: 13, small: 11, running: 10, chart: 11,
	}
	large = sizes{
		masthead: 40, title: 34, again: 19, heading: 21, sub: 18,
		step: 18, number: 28, look: 19, body: 17, small: 16, running: 16, chart: 16,
	}
	// a card is held in the hand; what does not fit goes on another card
	card = sizes{
		masthead: 20, title: 18, again: 12, heading: 12.5, sub: 12,
		step: 12, number: 17, look: 12, body: 11.5, small: 10, running: 9, chart: 10,
	}
)

// times is z with everything but the running head and foot so many times as large.
func (z sizes) times(n float64) sizes {
	for _, size := range []*float64{&z.masthead, &z.title, &z.again, &z.heading, &z.sub, &z.step, &z.number, &z.look, &z.body, &z.small, &z.chart} {
		*size *= n
	}
	return z
}

// sizesOf are the type sizes for opt. The titles of a folded sheet are
// smaller; its words are not.
func sizesOf(opt Options) sizes {
	switch {
	case opt.Large:
		return large
	case opt.Paper.Card:
		return card
	case opt.Paper.W < A4.W*0.8:
		s := normal
		s.masthead, s.title, s.again, s.number = 28, 24, 15, 20
		return s
	}
	return normal
}

// tight tells whether a page holds few lines for the size of its letters.
func (t *typesetter) tight() bool { return t.opt.Large || t.opt.Paper.W < A4.W*0.8 }

// furniture is the height of the running head and of the foot.
func (t *typesetter) furniture() (head, foot float64) {
	if t.boxed() {
		return t.sz.running*1.25 + 6 + tabRises, t.sz.running * 1.6
	}
	if t.opt.Paper.Card {
		return t.sz.running*1.25 + 6, t.sz.running * 1.6
	}
	return t.sz.running*1.25 + 10, t.sz.running * 2
}
