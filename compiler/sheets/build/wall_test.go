package build_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
)

// wallRow is a post of the wall sheet with its day and moment.
type wallRow struct {
	day, at, column string
	sheets.Post
	seen bool
}

// wall holds the wall sheet against the plan: every job stands once in the column
// of each of its cooks, at the minute at which that cook begins, or in the row of
// knife work it goes on with; every look is in a row of its own or in that of its
// job; what goes in an oven or on a ring and stays there, and every heat, is in
// the last column until the minute at which it ends; every serving is in a bar;
// and there is no more.
func (p *paper) wall() {
	var posts []*wallRow
	bars := map[string]int{}
	for i := range p.doc.Sheets {
		s := &p.doc.Sheets[i]
		if s.Kind != sheets.Wall {
			continue
		}
		day := s.Title
		for _, b := range s.Blocks {
			switch b := b.(type) {
			case *sheets.Heading:
				day = b.Text
			case *sheets.Board:
				p.closeRows(b)
				last := -1 << 30
				for _, r := range b.Rows {
					require.GreaterOrEqual(p, minuteOf(r.At), last, "rows in order of time")
					last = minuteOf(r.At)
					if r.Bar != "" {
						bars[day+" "+r.At+" "+r.Bar]++
					}
					for c, cell := range r.Cells {
						for _, post := range cell {
							require.NotContains(p, post.Words, "…")
							posts = append(posts, &wallRow{day: day, at: r.At, column: b.Columns[c], Post: post})
						}
					}
				}
			}
		}
	}
	p.posts = &posts
	find := func(what string, is func(r *wallRow) bool) {
		p.Helper()
		i := slices.IndexFunc(posts, func(r *wallRow) bool { return !r.seen && is(r) })
		require.GreaterOrEqual(p, i, 0, "%s is not on the wall", what)
		posts[i].seen = true
	}
	const fire = "By itself"
	at := func(m int, column string) func(r *wallRow) bool {
		return func(r *wallRow) bool {
			return r.day == p.dayTitle(p.day(m)) && r.at == p.clock(m) && r.column == column
		}
	}
	ends := func(r *wallRow, m int) bool { // in full, or the minutes within the hour
		full := p.clock(m)
		until, _, _ := strings.Cut(r.Until, " ") // then who takes it out, or a day
		if i := strings.LastIndexByte(r.Until, ' '); i > 0 && strings.Contains(r.Until[i:], ":") {
			until = r.Until
		}
		until = strings.TrimSuffix(until, "?")
		return until != "" && strings.HasSuffix(full, until) || strings.HasSuffix(until, full)
	}
	for _, h := range p.Heats {
		find("heat", func(r *wallRow) bool {
			lit := at(h.Preheat, fire)(r) || at(h.Preheat+1, fire)(r) && strings.HasPrefix(r.Words, p.clock(h.Preheat)+" ")
			return lit && strings.Join(h.By, "") == named(r.Words, h.By) && strings.Contains(r.Words, p.setting(h)) && (h.Start == h.Preheat || ends(r, h.Start))
		})
	}
	knife := map[string]int{} // the end of the knife work a cook was last at
	for _, j := range p.Jobs {
		mark := letterOf(j.Making)
		if mark != "" && j.Number > 0 {
			mark += fmt.Sprint(j.Number)
		}
		begins := map[string]int{}
		free := map[string]int{}
		for i, ph := range j.Phases {
			back := i > 0 && ph.Kind == resolve.Work && j.Phases[i-1].Kind != resolve.Work // who comes back for it has a row of that
			for _, c := range ph.Cooks {
				free[c] = ph.End
				if _, known := begins[c]; !known && !back {
					begins[c] = ph.Start
				}
				if back {
					find(c+" comes back to "+words(j), func(r *wallRow) bool { return at(ph.Start, c)(r) && r.Mark == mark })
				}
			}
		}
		for _, x := range j.Puts {
			for _, c := range j.Cooks {
				if _, known := begins[c]; !known && x.Put == timeline.PutIn && slices.Contains(x.Cooks, c) {
					begins[c] = x.Start
				}
			}
		}
		for c, m := range begins {
			if j.Line != nil {
				thing := j.Line.Line.Name
				one := strings.TrimSuffix(thing, "s") // "2 lemons" of 1 lemon
				row := -1                             // the last that may be meant
				for i, r := range posts {
					if r.column == c && r.day == p.dayTitle(p.day(m)) && strings.Contains(r.Words, one) && minuteOf(r.at) <= minuteOf(p.clock(m)) &&
						(r.Mark == mark || amongMarks(r.Words, mark) || mark == "") &&
						(row < 0 || minuteOf(posts[row].at) < minuteOf(r.at)) {
						row = i
					}
				}
				require.GreaterOrEqual(p, row, 0, "%s of %s is not on the wall", thing, c)
				if posts[row].at != p.clock(m) { // in the row of what was cut before
					require.LessOrEqual(p, m-knife[c], 5, "%s of %s at %s is not begun when its row of %s says", thing, letterOf(j.Making), p.clock(m), posts[row].at)
				}
				posts[row].seen = true
				knife[c] = free[c]
				continue
			}
			find(c+": "+words(j), func(r *wallRow) bool {
				return at(m, c)(r) && r.Mark == mark && (strings.EqualFold(firstWord(r.Words), firstWord(words(j))) || strings.EqualFold(firstWord(r.Words), firstWord(p.words(j))))
			})
		}
		p.wallAlone(j, mark, begins, find, at, ends)
		for _, t := range j.Touches {
			for _, c := range t.Cooks {
				if t.Swap {
					continue
				}
				own := func(r *wallRow) bool { return at(t.Start, c)(r) && r.Mark == mark }
				if t.Text == "" && slices.ContainsFunc(posts, func(r *wallRow) bool {
					return r.column == c && r.Mark == mark && looksEvery(r.Looks, minuteOf(p.clock(t.Start))) || r.column == c && r.Mark == mark && slices.Contains(strings.FieldsFunc(r.Looks, func(x rune) bool { return x == ' ' || x == ',' }), p.clock(t.Start))
				}) {
					continue
				}
				find(c+" sees to "+words(j), own)
			}
		}
	}
	for _, s := range p.Servings {
		found := false
		for text := range bars {
			found = found || strings.HasPrefix(text, p.dayTitle(p.day(s.Served))+" "+p.clock(s.Served)+" ") && strings.Contains(text, s.Name)
		}
		require.True(p, found, "%s is served, and no bar says so", s.Name)
	}
	for _, r := range posts {
		require.True(p, r.seen, "%s %s: %s %s is on the wall and not in the plan", r.at, r.column, r.Mark, r.Words)
	}
}

// wallAlone looks for what a job leaves in an oven, on a ring or by itself.
func (p *paper) wallAlone(j *timeline.Job, mark string, begins map[string]int, find func(string, func(*wallRow) bool), at func(int, string) func(*wallRow) bool, ends func(*wallRow, int) bool) {
	const fire = "By itself"
	left := slices.ContainsFunc(j.Phases, func(ph timeline.Phase) bool { return ph.Kind == resolve.Leave && ph.End > ph.Start })
	in := func(from int, word string) {
		find(words(j)+" in its place", func(r *wallRow) bool {
			return (at(from, fire)(r) || at(rowAt(j), fire)(r)) && r.Mark == mark && ends(r, j.End()) && strings.Contains(strings.ToLower(r.Words), word)
		})
	}
	if left && j.Oven != "" {
		from := j.Phases[slices.IndexFunc(j.Phases, func(ph timeline.Phase) bool { return ph.Kind != resolve.Work })].Start
		in(from, "oven")
	}
	if left && j.Rings > 0 {
		in(rowAt(j), "ring")
	}
	if len(begins) == 0 && len(j.Cooks) == 0 && j.Oven == "" && j.Rings == 0 && j.End() > j.Start() {
		if folded := slices.ContainsFunc(*p.posts, func(r *wallRow) bool { // into what it goes on from
			return r.column == fire && strings.HasPrefix(r.Mark, letterOf(j.Making)) && strings.Contains(r.Looks, "then ") && strings.Contains(r.Looks, "–"+p.clock(j.End()))
		}); folded {
			return
		}
		find(words(j)+" by itself", func(r *wallRow) bool { return at(j.Start(), fire)(r) && r.Mark == mark && ends(r, j.End()) })
	}
}

func firstWord(s string) string {
	word, _, _ := strings.Cut(s, " ")
	return strings.Trim(word, ".,;:")
}

var every = regexp.MustCompile(`^look every .*, (\S+) to ([^ ,]+)`)

// looksEvery tells whether a look at a minute is among those of "look every 15 min,
// 14:25 to 17:10".
func looksEvery(said string, at int) bool {
	m := every.FindStringSubmatch(said)
	return m != nil && minuteOf(m[1]) <= at && at <= minuteOf(m[2])
}

// named is those of the cooks whom words name.
func named(words string, cooks []string) (out string) {
	for _, c := range cooks {
		if strings.Contains(words, c) {
			out += c
		}
	}
	return out
}

// amongMarks tells whether words name a dish by its mark: "Prepare plums (D E C)".
func amongMarks(words, mark string) bool {
	for _, in := range strings.Split(words, "(")[1:] {
		marks, _, _ := strings.Cut(in, ")")
		if slices.Contains(strings.Fields(marks), mark) {
			return true
		}
	}
	return false
}

// closeRows holds the fewer rows of a board against its rows: the same posts in the
// same columns, each at the same minute, in order of time in each column. Where words are
// fewer too, each post and each bar still says what it belongs to and when it is over; where
// a cook's stand below one another it is seen when the hands are free: at the next.
func (p *paper) closeRows(b *sheets.Board) {
	require.NotEmpty(p, b.Close)
	type at struct {
		minute int
		sheets.Post
	}
	list := func(rows []sheets.BoardRow, within int) (columns [][]at, bars []string) {
		columns = make([][]at, len(b.Columns))
		for _, r := range rows {
			if r.Bar != "" {
				bars = append(bars, r.At+r.Bar)
			}
			for c, cell := range r.Cells {
				for _, post := range cell {
					m := minuteOf(r.At)
					if post.At != "" {
						own := post.At
						if strings.HasPrefix(own, ":") {
							own = r.At[:strings.IndexByte(r.At, ':')] + own
						}
						m = minuteOf(own)
						require.Greater(p, m, minuteOf(r.At))
						require.LessOrEqual(p, m-minuteOf(r.At), within)
					}
					require.NotContains(p, post.Words, "Prepare 1 things")
					post.At = ""
					columns[c] = append(columns[c], at{m, post})
				}
			}
		}
		return columns, bars
	}
	columns, bars := list(b.Rows, 0)
	short := func(columns [][]at, bars []string) {
		for _, c := range columns {
			for i := range c {
				c[i].Words = ""
			}
		}
		for i := range bars {
			bars[i] = strings.Replace(bars[i], " on the table: ", ": ", 1)
		}
	}
	for i, rows := range b.Close {
		within, left := 30, len(b.Close)-1-i
		if left == 0 {
			within = 60
			for c, column := range columns {
				for k := range column {
					if b.Columns[c] != "By itself" {
						column[k].Until = ""
					}
				}
			}
		}
		closer, closeBars := list(rows, within)
		if left < 2 {
			short(columns, bars)
			short(closer, closeBars)
		} else {
			require.Less(p, len(rows), len(b.Rows))
		}
		require.Equal(p, columns, closer)
		require.Equal(p, bars, closeBars)
	}
}
