package chart

import (
	"math"

	"tamis/compiler/sheets"
)

// Page is what stands on one page of a chart: days, or a part of one, in the
// style in which they say most.
type Page struct {
	Cuts  []Cut
	Style Style
}

// Fit puts the panels of a chart on as few pages as can be: as many whole days on
// each as stand there, in the first of the styles that lets them; a day that no
// page can hold is parted between its lanes. room is the height of a page for a
// heading, given its number, and lanes; head is that of a heading.
func Fit(panels []sheets.Panel, w, head float64, room func(page int) float64, styles []Style) (out []Page) {
	f := &fitting{w: w, head: head, styles: styles, known: map[measured]Picture{}, widths: widths{}}
	var page []Cut
	flush := func() {
		if len(page) > 0 {
			style := f.best(page, room(len(out)))
			f.deepen(page, style, room(len(out)))
			out = append(out, Page{page, styles[style]})
			page = nil
		}
	}
	last := len(styles) - 1
	for i := range panels {
		c := Whole(&panels[i])
		crowded := f.crowded(c)
		if with := append(page[:len(page):len(page)], c); !crowded && f.tall(with, last) <= room(len(out)) {
			page = with
			continue
		}
		flush()
		if !crowded && f.tall([]Cut{c}, last) <= room(len(out)) {
			page = []Cut{c}
			continue
		}
		parts := f.part(c, func(n int) float64 { return room(len(out) + n) })
		for n, part := range parts {
			page = []Cut{part}
			if n < len(parts)-1 {
				flush()
			}
		}
	}
	flush()
	return out
}

type fitting struct {
	w, head float64
	styles  []Style
	known   map[measured]Picture
	widths  widths
}

type measured struct {
	panel              *sheets.Panel
	first, last, style int
}

// measure is how a cut comes out in a style, without its marks.
func (f *fitting) measure(c Cut, style int) Picture {
	key := measured{c.Panel, c.First, c.Last, style}
	pic, ok := f.known[key]
	if !ok {
		pic = lay(&picture{Cut: c, st: f.styles[style], w: f.w, bare: true, widths: f.widths})
		f.known[key] = pic
	}
	return pic
}

// tall is the height of cuts with their headings.
func (f *fitting) tall(cuts []Cut, style int) (h float64) {
	for _, c := range cuts {
		h += f.head + f.measure(c, style).H
	}
	return h
}

// best is the style for a page in which fewest bars are without words, and of
// those the one liked best.
func (f *fitting) best(cuts []Cut, room float64) int {
	best, least := len(f.styles)-1, -1
	for k := range f.styles {
		if f.tall(cuts, k) > room {
			continue
		}
		mute := 0
		for _, c := range cuts {
			mute += f.measure(c, k).Mute
		}
		if least < 0 || mute < least {
			best, least = k, mute
		}
	}
	return best
}

// mostSteps is as deep as words may stand below a bar.
const mostSteps = 3

// deepen gives what room a page has left to the lanes whose words leave most
// unsaid, a row of words at a time.
func (f *fitting) deepen(cuts []Cut, style int, room float64) {
	spare := room - f.tall(cuts, style) - 0.5
	type lane struct{ cut, lane int }
	type depth struct {
		h    float64
		curt int
	}
	deep := map[lane][]depth{} // by rows of words beyond the style's
	first := f.styles[style].Steps
	if first == 0 {
		first = mostSteps
	}
	for i := range cuts {
		for steps := first; steps <= mostSteps; steps++ {
			st := f.styles[style]
			st.Steps = steps
			pic := lay(&picture{Cut: cuts[i], st: st, w: f.w, bare: true, widths: f.widths})
			top := pic.Top
			for k, end := range pic.Ends {
				deep[lane{i, k}] = append(deep[lane{i, k}], depth{end - top, pic.Curt[k]})
				top = end
			}
		}
	}
	for {
		best, gain, cost := lane{-1, -1}, 0.0, 0.0
		for i := range cuts {
			for k := range cuts[i].Last - cuts[i].First {
				d := deep[lane{i, k}]
				if len(d) < 2 {
					continue
				}
				h, said := max(d[1].h-d[0].h, 0.01), d[0].curt-d[1].curt
				if h <= spare && said > 0 && float64(said)/h > gain {
					best, gain, cost = lane{i, k}, float64(said)/h, h
				}
			}
		}
		if best.cut < 0 {
			return
		}
		c := &cuts[best.cut]
		if c.Steps == nil {
			c.Steps = make([]int, c.Last-c.First)
			for k := range c.Steps {
				c.Steps[k] = first
			}
		}
		c.Steps[best.lane]++
		deep[best] = deep[best][1:]
		spare -= cost
	}
}

// A chart of more dishes than mostDishes is followed by nobody on a page that is
// not widePage: it is parted where a course ends.
const (
	mostDishes = 12
	widePage   = 1000.0 // points: A3 on its side
)

// crowded tells whether a day has too many lanes for one page, and courses to part
// it by.
func (f *fitting) crowded(c Cut) bool {
	return f.w < widePage && c.Last-c.First > mostDishes && len(courses(c)) > 1
}

// courses are the lanes of each course of a day, in their order; what has none
// stays with what stands above it.
func courses(c Cut) (out []Cut) {
	for i := c.First; i < c.Last; i++ {
		l := c.Panel.Lanes[i]
		if n := len(out); n > 0 && (l.Course == "" || l.Course == c.Panel.Lanes[out[n-1].First].Course) {
			out[n-1].Last = i + 1
			continue
		}
		part := c
		part.First, part.Last = i, i+1
		out = append(out, part)
	}
	return out
}

// part parts a day that no page holds: where a course ends, if that takes no page
// more, else into about as many lanes on each; what they share stands below the last.
func (f *fitting) part(c Cut, room func(n int) float64) []Cut {
	if c.Last <= c.First+1 {
		return []Cut{c}
	}
	parts := f.parts(c, c.Last-c.First, room)
	if by := f.byCourse(c, room); len(by) > 1 && (len(by) <= len(parts) || f.crowded(c)) {
		parts = by
	} else if even := f.parts(c, (c.Last-c.First+len(parts)-1)/len(parts), room); len(even) == len(parts) {
		parts = even
	}
	for i := range parts {
		parts[i].Part, parts[i].Parts = i+1, len(parts)
	}
	return parts
}

// byCourse parts a day where courses end, on as few pages as may be, and of these as even
// as may be; nil where a course by itself has no room.
func (f *fitting) byCourse(c Cut, room func(n int) float64) (parts []Cut) {
	list := courses(c)
	fits := func(from, to, page int) bool {
		both := list[from]
		both.Last = list[to-1].Last
		return (to == from+1 || both.Last-both.First <= mostDishes) && f.tall([]Cut{both}, len(f.styles)-1) <= room(page)
	}
	// A way is where a page that begins with a course is best cut, so that the fullest of it
	// and those after it has the fewest lanes.
	for pages := 1; pages <= len(list); pages++ {
		type way struct{ end, most int }
		best := map[[2]int]way{} // by the first course and the page
		var from func(i, page int) way
		from = func(i, page int) (w way) {
			if known, ok := best[[2]int{i, page}]; ok {
				return known
			}
			w.most = math.MaxInt
			for end := i + 1; end <= len(list) && fits(i, end, page); end++ {
				most := list[end-1].Last - list[i].First
				switch last := page == pages-1; {
				case last && end < len(list), !last && end == len(list):
					continue
				case !last:
					most = max(most, from(end, page+1).most)
				}
				if most < w.most {
					w = way{end, most}
				}
			}
			best[[2]int{i, page}] = w
			return w
		}
		if from(0, 0).most == math.MaxInt {
			continue
		}
		for i, page := 0, 0; page < pages; page++ {
			end := from(i, page).end
			both := list[i]
			both.Last = list[end-1].Last
			parts, i = append(parts, both), end
		}
		return parts
	}
	return nil
}

// parts are a day in pieces of so many lanes at most, each no taller than its page
// but for a single lane.
func (f *fitting) parts(c Cut, most int, room func(n int) float64) (parts []Cut) {
	style := len(f.styles) - 1
	rest := c
	for rest.First < c.Last {
		part := rest
		part.Last = min(part.Last, part.First+most)
		for part.Last > part.First+1 && f.tall([]Cut{part}, style) > room(len(parts)) {
			part.Last--
		}
		parts = append(parts, part)
		rest.First = part.Last
	}
	return parts
}
