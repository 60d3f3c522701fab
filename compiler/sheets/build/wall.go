package build

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"tamis/compiler/events"
	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/sheets"
)

const (
	briefly  = 30 // letters of what somebody does, on a wall
	beside   = 26 // the same where cooks stand side by side
	briefest = 20 // the same where there is less room
	shortest = 16 // and where a day would else take two leaves
	mostRows = 26 // of the days before that share a leaf
	fewRows  = 5  // of a day before, which is not worth a leaf of its own
	mostWide = 4  // cooks side by side on a leaf that lies on its side; more take another board
	mostTall = 2  // cooks side by side on an upright one
	atOnce   = 5  // minutes between two bits of knife work, or of what is by itself, that still are one row
)

// walls are the leaves that hang up: for each day a row for each moment at which
// somebody begins something, in the column of who does it. What is looked at
// again, and taken out or off, is folded into the row of what it belongs to. The
// day of serving has a leaf of its own; what little is done on the days before
// stands on one.
func (b *builder) walls() (out []*sheets.Sheet) {
	var leaf *sheets.Sheet
	rows := 0
	probes, _ := b.allProbes(practice.OfMeal(b.books, b.meal))
	for _, d := range b.plan.Days() {
		w := b.wallDay(d)
		boards := w.boards(mostWide)
		n := 0
		for _, board := range boards {
			n += len(board.Rows)
		}
		if n == 0 {
			continue
		}
		shares := leaf != nil && (d < 0 && rows+n <= mostRows || rows <= fewRows)
		if shares {
			if len(leaf.Blocks) > 0 && !headed(leaf) {
				leaf.Blocks = append([]sheets.Block{&sheets.Heading{Text: leaf.Title}}, leaf.Blocks...)
			}
			leaf.Title, leaf.Facts = leaf.Title+", "+b.dayTitle(d), nil
			if b.plan.Note != "" {
				leaf.Facts = []string{b.plan.Note}
			}
			leaf.Blocks = append(leaf.Blocks, &sheets.Heading{Text: b.dayTitle(d), Note: w.called()})
		} else {
			leaf, rows = &sheets.Sheet{ID: b.id("wall-sheet"), Kind: sheets.Wall, Title: b.dayTitle(d), Facts: b.wallFacts(w, len(out) == 0)}, 0
			out = append(out, leaf)
		}
		rows += n
		leaf.Wide = leaf.Wide || len(w.cooks()) > mostTall
		for _, board := range boards {
			leaf.Blocks = append(leaf.Blocks, board)
		}
		if foot := b.wallFoot(d, probes); foot != nil {
			leaf.Blocks = append(leaf.Blocks, foot)
		}
	}
	return out
}

// headed tells whether the days of a leaf have headings.
func headed(s *sheets.Sheet) bool {
	return slices.ContainsFunc(s.Blocks, func(b sheets.Block) bool { _, ok := b.(*sheets.Heading); return ok })
}

// wallFacts is the line below the title of a leaf. What the plan could not keep, or does
// of itself, stands on the first.
func (b *builder) wallFacts(w *wallDay, first bool) (out []string) {
	note := ""
	if first {
		note = b.plan.Note
	}
	for _, s := range []string{b.doc.Covers, w.called(), b.plan.ChangeWords(w.day), note} {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// alone is the column of what no cook holds in the hand: in an oven, on a ring,
// or standing.
const alone = "By itself"

// post is what begins at a moment, in the column of a cook or of what is
// by itself.
type post struct {
	sheets.Post
	short string // its words where there is little room
	at    events.Moment
	end   events.Moment
	whose string
	of    *events.Event   // the job it belongs to
	cuts  []*events.Event // of a row of knife work, what is cut
	looks []events.Moment
	then  []string // what it goes on to by itself
	off   string   // when its oven is turned off, and by whom
	lit   bool     // an oven is lit or turned
	oven  string   // that it is in
}

// bar is a serving.
type bar struct {
	at            events.Moment
	course, names string
}

// text is what the bar says; shortly, without what a bar says of itself.
func (s bar) text(shortly bool) string {
	switch {
	case s.course == "":
		return "On the table: " + s.names
	case shortly:
		return s.course + ": " + s.names
	}
	return s.course + " on the table: " + s.names
}

// wallDay is a day of the wall sheet.
type wallDay struct {
	b     *builder
	day   int
	posts []*post
	bars  []bar
}

func (b *builder) wallDay(day int) *wallDay {
	w := &wallDay{b: b, day: day}
	for _, e := range b.plan.Events {
		if b.plan.Day(e.At) != day {
			continue
		}
		switch e.Kind {
		case events.Heat:
			w.heat(e)
		case events.In:
			w.in(e)
		case events.Job:
			w.job(e)
		case events.Touch:
			w.touch(e)
		case events.Off:
			w.off(e)
		case events.Serve:
			w.serve(e)
		}
	}
	slices.SortStableFunc(w.posts, func(x, y *post) int { return cmp.Compare(x.at, y.at) })
	most := briefly
	if len(w.cooks()) > 1 {
		most = beside
	}
	for _, p := range w.posts {
		w.b.word(p, most)
	}
	w.untils()
	w.lights()
	return w
}

// untils says of each post when it is over: of a cook's only where the hands are
// then free for a while, for else the next row says it.
func (w *wallDay) untils() {
	for i, p := range w.posts {
		if p.end <= p.at {
			continue
		}
		next := slices.IndexFunc(w.posts[i+1:], func(o *post) bool { return o.whose == p.whose && o.at > p.at })
		if next >= 0 && p.whose != alone && w.posts[i+1+next].at.Since(p.end) <= atOnce && !w.between(p.end, w.posts[i+1+next].at) {
			continue
		}
		p.Until = w.b.shortUntil(p.at, p.end)
		if p.of != nil && p.of.Unsure {
			p.Until += "?"
		}
		if p.whose == alone && p.of != nil {
			p.Until += w.takenOutBy(p)
		}
	}
}

// takenOutBy is who takes a thing out or off, where that is not who put it there.
func (w *wallDay) takenOutBy(p *post) string {
	for _, e := range w.b.plan.Each(events.Out) {
		if e.Of == p.of && len(e.Who) > 0 && !slices.Equal(e.Who, p.of.Who) {
			return " " + strings.Join(e.Who, ", ")
		}
	}
	return ""
}

func (w *wallDay) add(p *post) { w.posts = append(w.posts, p) }

// last is the post a cook has begun last.
func (w *wallDay) last(whose string) *post {
	for _, p := range slices.Backward(w.posts) {
		if p.whose == whose {
			return p
		}
	}
	return nil
}

func (w *wallDay) heat(e *events.Event) {
	words := w.oven(e.Where.Oven) + ": " + e.Title
	if len(e.Who) > 0 {
		words += ", " + strings.Join(e.Who, ", ")
	}
	short := strings.Join(append([]string{w.oven(e.Where.Oven) + " " + e.Setting.Words}, e.Who...), ", ")
	w.add(&post{at: e.Start, end: e.End, whose: alone, lit: true, short: short, Post: sheets.Post{Words: words}})
}

// oven is what an oven is called where it stands alone.
func (w *wallDay) oven(name string) string {
	if len(w.b.plan.Ovens) > 1 {
		return events.OvenName(name)
	}
	return "Oven"
}

// off adds the turning off to the row of what the oven had last.
func (w *wallDay) off(e *events.Event) {
	for _, p := range slices.Backward(w.posts) {
		if p.whose == alone && p.oven == e.Where.Oven {
			p.off = "oven off"
			if e.Start.Since(p.end) > atOnce {
				p.off += " " + w.b.plan.Clock(e.Start)
			}
			p.off = strings.TrimSpace(p.off + " " + strings.Join(e.Who, ", "))
			return
		}
	}
	words := w.oven(e.Where.Oven) + ": turn off" // what was in it went in on another day, or somebody stood by
	if len(e.Who) > 0 {
		words += ", " + strings.Join(e.Who, ", ")
	}
	w.add(&post{at: e.Start, end: e.Start, whose: alone, Post: sheets.Post{Words: words}})
}

// lights puts an oven that is lit a minute before somebody begins something in that
// row, with its minute: a row less to look through.
func (w *wallDay) lights() {
	for _, p := range w.posts {
		if !p.lit || slices.ContainsFunc(w.posts, func(o *post) bool { return !o.lit && o.at == p.at }) {
			continue
		}
		if next := p.at.Add(1); slices.ContainsFunc(w.posts, func(o *post) bool { return !o.lit && o.at == next }) {
			at := w.b.plan.Clock(p.at) + " "
			p.Words, p.short = at+larder.Small(p.Words), at+larder.Small(p.short)
			p.at = next
		}
	}
}

// in is a putting in or on of what then stays by itself, in the row of who does
// it, and a row for a hand that does no more of the job.
func (w *wallDay) in(e *events.Event) {
	if e.Of.Alone() == 0 {
		return // who works at it stands there
	}
	words := w.oven(e.Where.Oven)
	if e.Where.Oven == "" {
		words = strings.Join(events.Place{Rings: e.Where.Rings, Level: e.Where.Level}.Words(), " ")
	}
	p := &post{at: e.Start, end: e.End, whose: alone, of: e.Of, oven: e.Where.Oven, Post: sheets.Post{Words: words}}
	if begun := e.Of.At; begun < e.Start && w.b.plan.Day(begun) == w.day {
		p.at = begun
	}
	w.add(p)
	for _, cook := range e.Who {
		if w.begun(cook, e.Of) == nil {
			w.add(&post{at: e.Start, end: e.Start, whose: cook, of: e.Of})
		}
	}
}

// job is a post for each cook of it, from when that cook begins; who comes back
// for it later, or only puts it in, has a row of that. A job that is only left, and
// stands neither in an oven nor on a ring, is among what is by itself.
func (w *wallDay) job(e *events.Event) {
	if e.Line != nil && w.cut(e) {
		return
	}
	for _, cook := range e.Who {
		at, works := w.b.plan.BegunBy(e, cook)
		if !works {
			continue
		}
		p := &post{at: at, end: e.HandsFree(cook), whose: cook, of: e}
		if e.Line != nil {
			p.cuts = []*events.Event{e}
		}
		w.add(p)
	}
	if len(e.Who) > 0 || e.Where.Oven != "" || e.Where.Rings > 0 || e.Length() == 0 {
		return
	}
	if i := slices.IndexFunc(w.posts, func(p *post) bool {
		return p.whose == alone && p.of != nil && p.of.Dish == e.Dish && p.end <= e.Start && e.Start.Since(p.end) <= atOnce && len(p.then) == 0
	}); i >= 0 { // it only goes on
		p := w.posts[i]
		p.then = append(p.then, "then "+larder.Small(events.Brief(e.Does, briefest))+" –"+w.b.plan.ClockFrom(p.at, e.End))
		return
	}
	w.add(&post{at: e.Start, end: e.End, whose: alone, of: e})
}

// cut adds knife work to the row before, when the same hands go on with it.
func (w *wallDay) cut(e *events.Event) bool {
	if len(e.Who) != 1 {
		return false
	}
	p := w.last(e.Who[0])
	if p == nil || len(p.cuts) == 0 || e.Start.Since(p.end) > atOnce || w.between(p.at, e.Start) {
		return false
	}
	p.cuts, p.end = append(p.cuts, e), e.HandsFree(e.Who[0])
	return true
}

// between tells whether a dish is served after one moment and before another.
func (w *wallDay) between(from, to events.Moment) bool {
	return slices.ContainsFunc(w.bars, func(b bar) bool { return b.at > from && b.at <= to })
}

// touch is a look at something that is left. What the writer says to do then has
// a row of its own; looking again does not.
func (w *wallDay) touch(e *events.Event) {
	if e.Swap { // the row of its job says it
		return
	}
	for _, cook := range e.Who {
		if e.Text == "" && !e.Then {
			if p := w.begun(cook, e.Of); p != nil {
				p.looks = append(p.looks, e.Start)
				continue
			}
		}
		said := e.Text
		if e.Then {
			said = e.Words
		}
		w.add(&post{at: e.Start, end: e.End, whose: cook, of: e.Of, Post: sheets.Post{Words: said}})
	}
}

// begun is the row of a cook that has to do with a job; what was said at a
// moment does not count.
func (w *wallDay) begun(cook string, job *events.Event) *post {
	for _, p := range slices.Backward(w.posts) {
		if p.whose == cook && p.of == job && p.Words == "" {
			return p
		}
	}
	return nil
}

func (w *wallDay) serve(e *events.Event) {
	name := e.Thing
	if m := w.b.markOf(e); m != "" {
		name = m + " " + name
	}
	if n := len(w.bars); n > 0 && w.bars[n-1].at == e.Start && w.bars[n-1].course == e.Course {
		w.bars[n-1].names += ", " + name
		return
	}
	w.bars = append(w.bars, bar{e.Start, e.Course, name})
}

// word says what a post is, in so many letters where other sheets say it at length.
func (b *builder) word(p *post, most int) {
	switch {
	case len(p.cuts) > 0:
		b.knifeWork(p)
	case p.of != nil:
		p.Mark, p.Link = b.markOf(p.of), b.linkTo(p.of.Dish)
		if p.Mark != "" && p.of.Number > 0 {
			p.Mark += fmt.Sprint(p.of.Number)
		}
		if p.Words == "" {
			p.Words = p.of.Does
		}
		switch {
		case p.of.Dish == nil:
			most = 2 * briefly
		case p.whose == alone:
			most = briefest
		}
		p.Words, p.short = b.shortly(p, most), b.shortly(p, shortest)
	}
	if len(p.looks) > 0 {
		p.then = append([]string{"look " + looksText(p.looks, b.plan.Clock)}, p.then...)
	}
	if p.off != "" {
		p.then = append(p.then, p.off)
	}
	p.Looks = strings.Join(p.then, ", ")
}

// shortly is what a post says in so many letters, and what must not be left out.
func (b *builder) shortly(p *post, most int) string {
	words := larder.Capital(events.Brief(p.Words, most))
	if p.of.IfNeeded && p.whose != alone {
		words += ", if needed"
	}
	if l := p.of.LoadText(); l != "" {
		words += ", " + l
	}
	if p.whose == alone {
		words = larder.Small(words)
	}
	return words
}

// looksText says when a thing is looked at: each time, or how often where that is
// more than a cook would read.
func looksText(at []events.Moment, clock func(events.Moment) string) string {
	const few = 4
	every := events.Minutes(0)
	for i := 1; i < len(at) && len(at) > few; i++ {
		if n := at[i].Since(at[i-1]); i == 1 {
			every = n
		} else if n != every {
			every = 0
			break
		}
	}
	if every > 0 {
		return fmt.Sprintf("every %s, %s to %s", every.Words(), clock(at[0]), clock(at[len(at)-1]))
	}
	var out []string
	for _, m := range at {
		out = append(out, clock(m))
	}
	return strings.Join(out, ", ")
}

// shortUntil is when something is over: within the hour only the minutes.
func (b *builder) shortUntil(from, to events.Moment) string {
	a, z := b.plan.Clock(from), b.plan.ClockFrom(from, to)
	if hour, _, ok := strings.Cut(a, ":"); ok && b.plan.Clocked() && strings.HasPrefix(z, hour+":") {
		return strings.TrimPrefix(z, hour)
	}
	return z
}

// knifeWork says what is cut in one go: one thing with its amount and its cut,
// more by name, each with the letters of its dishes, for the mise-en-place list
// has them.
func (b *builder) knifeWork(p *post) {
	if len(p.cuts) == 1 {
		e := p.cuts[0]
		p.Mark, p.Link, p.Words = b.markOf(e), b.linkTo(e.Dish), e.Thing
		if e.Amount != nil {
			p.Words = b.cutThing(e)
		}
		if with := p.Words + ", " + e.Cut; e.Cut != "" && utf8.RuneCountInString(with) <= briefly+briefest {
			p.Words = with
		}
		return
	}
	var things []string
	marks := map[string]string{}
	for _, e := range p.cuts {
		thing := b.nameOf(e.Line)
		if _, known := marks[thing]; !known {
			things = append(things, thing)
		}
		if m := b.markOf(e); !slices.Contains(strings.Fields(marks[thing]), m) {
			marks[thing] = strings.TrimSpace(marks[thing] + " " + m)
		}
	}
	for i, t := range things {
		if marks[t] != "" {
			things[i] += " (" + marks[t] + ")"
		}
	}
	p.Words = "Prepare " + strings.Join(things, ", ")
	if len(things) == 1 {
		return // as few words as can be
	}
	var letters []string
	for _, e := range p.cuts {
		if m := b.markOf(e); m != "" && !slices.Contains(letters, m) {
			letters = append(letters, m)
		}
	}
	slices.Sort(letters)
	p.short = fmt.Sprintf("Prepare %d things", len(things))
	if len(letters) > 0 {
		p.short += " (" + strings.Join(letters, " ") + ")"
	}
}

// cooks are those with a column, in the order of the kitchen.
func (w *wallDay) cooks() (out []string) {
	for _, c := range w.b.plan.Cooks {
		if w.last(c) != nil {
			out = append(out, c)
		}
	}
	return out
}

// called says when each cook is wanted: "Ana from 09:20, Jo from 11:40".
func (w *wallDay) called() string {
	cooks := w.cooks()
	if len(cooks) < 2 {
		return ""
	}
	var out []string
	for _, c := range cooks {
		i := slices.IndexFunc(w.posts, func(p *post) bool { return p.whose == c })
		out = append(out, fmt.Sprintf("%s from %s", c, w.b.plan.Clock(w.posts[i].at)))
	}
	return strings.Join(out, ", ")
}

// boards are the day's rows, with so many cooks side by side at most. What is by
// itself stands on the first.
func (w *wallDay) boards(most int) (out []*sheets.Board) {
	cooks := w.cooks()
	n := (len(cooks) + most - 1) / most
	for i := range max(n, 1) {
		var some []string
		if n > 0 { // as many on each as can be
			some = cooks[len(cooks)*i/n : len(cooks)*(i+1)/n]
		}
		if i == 0 && w.last(alone) != nil {
			some = append(slices.Clip(some), alone)
		}
		out = append(out, w.board(some))
	}
	return out
}

func (w *wallDay) board(columns []string) *sheets.Board {
	board := &sheets.Board{Columns: columns, Cooks: len(slices.DeleteFunc(slices.Clone(columns), func(c string) bool { return c == alone }))}
	at := map[events.Moment]int{}
	var moments []events.Moment
	see := func(m events.Moment) {
		if _, ok := at[m]; !ok {
			at[m] = 0
			moments = append(moments, m)
		}
	}
	for _, p := range w.posts {
		if slices.Contains(columns, p.whose) {
			see(p.at)
		}
	}
	for _, s := range w.bars {
		see(s.at)
	}
	slices.Sort(moments)
	// rows are those of the day, and when each is begun.
	rows := func(short bool) (out []sheets.BoardRow, begun []events.Moment) {
		for _, m := range moments {
			for _, s := range w.bars {
				if s.at == m {
					out, begun = append(out, sheets.BoardRow{At: w.b.plan.Clock(m), Bar: s.text(short)}), append(begun, m)
				}
			}
			row, any := sheets.BoardRow{At: w.b.plan.Clock(m), Cells: make([][]sheets.Post, len(columns))}, false
			for _, p := range w.posts {
				if i := slices.Index(columns, p.whose); i >= 0 && p.at == m {
					post := p.Post
					if short && p.short != "" {
						post.Words = p.short
					}
					row.Cells[i], any = append(row.Cells[i], post), true
				}
			}
			if any {
				out, begun = append(out, row), append(begun, m)
			}
		}
		return out, begun
	}
	all, begun := rows(false)
	board.Rows = all
	if c := w.close(all, begun, closeBy, false); len(c) < len(all) {
		board.Close = append(board.Close, c)
	}
	briefly, _ := rows(true)
	board.Close = append(board.Close, w.close(briefly, begun, closest, false))
	below, _ := rows(true)
	for _, r := range below { // it is seen when hands are free again: at the next
		for i := range r.Cells {
			for k := range r.Cells[i] {
				if columns[i] != alone {
					r.Cells[i][k].Until = ""
				}
			}
		}
	}
	board.Close = append(board.Close, w.close(below, begun, stacked, true))
	return board
}

// closeBy is how many minutes after a row another may begin that is put into it, and
// closest where words are few too.
// By stacked minutes what one cook begins stands below one another too.
const (
	closeBy = 20
	closest = 30
	stacked = 60
)

// close puts rows that begin soon after one another into one: what begins later says when.
// Unless they go below one another, none of whose columns has something in both.
func (w *wallDay) close(rows []sheets.BoardRow, begun []events.Moment, within events.Minutes, below bool) (out []sheets.BoardRow) {
	first := events.Moment(0) // of the last of out
	for i, r := range rows {
		n := len(out)
		if n == 0 || r.Bar != "" || out[n-1].Bar != "" || begun[i].Since(first) > within || !below && share(out[n-1], r) {
			if r.Bar == "" {
				r.Cells = slices.Clone(r.Cells)
			}
			out, first = append(out, r), begun[i]
			continue
		}
		for k, cell := range r.Cells {
			if len(cell) == 0 {
				continue
			}
			later := slices.Clone(cell)
			for j := range later {
				later[j].At = w.b.shortUntil(first, begun[i])
			}
			out[n-1].Cells[k] = append(slices.Clip(out[n-1].Cells[k]), later...)
		}
	}
	return out
}

// share tells whether two rows have something in the same column.
func share(a, b sheets.BoardRow) bool {
	for i := range a.Cells {
		if len(a.Cells[i]) > 0 && len(b.Cells[i]) > 0 {
			return true
		}
	}
	return false
}

// wallFoot is what a day's cooks look down for: what is probed, and who must not
// eat what.
func (b *builder) wallFoot(day int, list []probe) *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{{Kind: sheets.TextColumn}, {Kind: sheets.TextColumn, Weight: 1}}}
	g := sheets.Group{}
	row := func(title string, parts []string, sep string) {
		if len(parts) > 0 {
			g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{Runs: []sheets.Run{{Text: title, Style: sheets.Strong}}}, say(strings.Join(parts, sep))}})
		}
	}
	row("Probe", b.probesOf(day, list), "; ")
	var served []*events.Event
	for _, e := range b.plan.Each(events.Serve) {
		if b.plan.Day(e.Start) == day {
			served = append(served, e)
		}
	}
	contains, labels, unknown := b.allergensByLetter(served)
	if len(contains) > 0 {
		contains[0] = "by what is listed, " + contains[0]
	}
	row("Contains", contains, " · ")
	row("Read the label", labels, " · ")
	row("Not known", unknown, " · ")
	if n := len(g.Rows); len(served) > 0 && day == b.plan.Day(b.plan.Zero) {
		row("If it slips", b.plan.Slips, "; ")
		for k := range g.Rows[n:] {
			g.Rows[n+k].Spare = true
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	t.Groups = []sheets.Group{g}
	return t
}

// probesOf is what is probed on a day, each target with the letters of the dishes
// and their times: "middle of the food at least 75 °C: B 19:22, C 19:42, 19:57".
func (b *builder) probesOf(day int, list []probe) (out []string) {
	type place struct{ what, target string }
	type when struct {
		of    string
		times []string
	}
	var places []place
	whens := map[place][]when{}
	for _, p := range list {
		if !p.timed || b.plan.Day(p.at) != day || p.what == coolingBegins { // the row of the day says it
			continue
		}
		at := place{larder.Small(p.what), p.target}
		if p.what != fridge && utf8.RuneCountInString(p.target) > briefly {
			at.target = "" // what is longer stands in the log
		}
		list, known := whens[at]
		if !known {
			places = append(places, at)
		}
		if p.what == fridge {
			whens[at] = nil
			continue
		}
		of, clock := b.mark(p.making), b.plan.Clock(p.at)
		switch n := len(list); {
		case n == 0 || list[n-1].of != of:
			list = append(list, when{of, []string{clock}})
		case !slices.Contains(list[n-1].times, clock):
			list[n-1].times = append(list[n-1].times, clock)
		}
		whens[at] = list
	}
	for _, at := range places {
		text := strings.TrimSpace(at.what + " " + at.target)
		var said []string
		for _, w := range whens[at] {
			said = append(said, w.of+"\u00a0"+strings.Join(w.times, ", "))
		}
		if len(said) > 0 {
			text += ": " + strings.Join(said, ", ")
		}
		out = append(out, text)
	}
	return out
}

// allergensByLetter names what is in dishes that are served, each with the letters
// of the dishes: "milk A E"; of what is bought ready only the label can tell.
func (b *builder) allergensByLetter(served []*events.Event) (contains, labels, unknown []string) {
	shown := hazard.AllergenList(b.practice())
	var lists [3]map[string][]string
	for k := range lists {
		lists[k] = map[string][]string{}
	}
	add := func(k int, name, mark string) {
		if !slices.Contains(lists[k][name], mark) {
			lists[k][name] = append(lists[k][name], mark)
		}
	}
	for _, e := range served {
		if e.Dish == nil {
			if it, known := larder.Builtin().Find(e.Thing); !known || it.Counter != "greengrocer" || len(it.Contains) > 0 { // loose fruit has no label
				add(1, e.Thing, "")
			}
			continue
		}
		a := hazard.AllergensOf(shown, b.thingsOf(e.Dish))
		for k, names := range [][]string{a.Contains, a.LabelNames(), a.Unknown} {
			for _, n := range names {
				add(k, n, b.mark(e.Dish))
			}
		}
	}
	var out [3][]string
	for k, list := range lists {
		for _, name := range slices.Sorted(maps.Keys(list)) {
			out[k] = append(out[k], strings.TrimSpace(name+" "+strings.Join(list[name], " ")))
		}
	}
	return out[0], out[1], out[2]
}
