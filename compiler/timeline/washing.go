package timeline

import (
	"fmt"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// washSoon is how long after the hands leave a dish its pans may wait for the
// washing up to begin, in minutes: common practice, no source.
const washSoon = 60

// washSet is what a plan does about washing up. The zero value is all that the
// kitchen asks for, but for the rounds of `every`, which wait for a plan that
// shows when there is work.
type washSet struct {
	none   bool               // all of it is left until after
	off    []resolve.WashWhen // kinds that are left until after
	left   []key              // single ones that are
	later  bool               // what is not begun yet is
	rounds []round
}

// wash says what a job of washing up is for.
type wash struct {
	up   *resolve.WashUp // nil for a tool
	mk   *making         // of `after each dish`
	n    int             // which of a dish's, of the rounds, or of a tool's
	tool string          // its name
}

func (w *wash) key() key {
	k := key{kind: WashJob, title: w.tool, n: w.n}
	if w.up != nil {
		k.title = string(w.up.When)
	}
	if w.mk != nil {
		k.making = w.mk.m
	}
	return k
}

// washUp makes jobs of the washing up that the kitchen asks for.
func (d *draft) washUp() {
	k := d.meal.Kitchen
	if k == nil {
		return
	}
	d.washTools()
	if d.set.wash.none {
		return
	}
	for i := range k.WashUps {
		w := &k.WashUps[i]
		if slices.Contains(d.set.wash.off, w.When) {
			continue
		}
		switch w.When {
		case resolve.WashAfterDish:
			for _, mk := range d.makings {
				d.washDish(w, mk)
			}
		case resolve.WashBefore:
			d.washBefore(w)
		case resolve.WashEvery:
			d.washRounds(w)
		}
	}
}

// washing makes one job of washing up; nil when it is left until after.
func (d *draft) washing(w *wash, title string, length int, set []int, when plan.When) *job {
	s := &d.set.wash
	if w.up != nil && (slices.Contains(s.left, w.key()) || s.later && !d.set.keep.begun(w.key())) {
		return nil
	}
	j := &job{wash: w, when: when}
	j.Piece = Piece{Kind: WashJob, Title: title}
	if w.up != nil {
		j.Asked, j.place = w.up.Words(), w.up.Span
	}
	j.addPhase(resolve.Work, "", d.washLength(w, length))
	j.lengthen(d.more(j))
	uses, roles := []plan.Use(nil), []roleKind(nil)
	if len(set) > 0 {
		uses, roles = []plan.Use{{Of: set, Amount: 1}}, []roleKind{cookRole}
	}
	d.activity(j, uses, roles)
	d.jobs = append(d.jobs, j)
	return j
}

func (d *draft) washLength(w *wash, most int) length {
	l := length{most: most, least: most}
	if w.up != nil {
		l.about = w.up.Written.About
		if low := minutes(w.up.Written.Low); low > 0 {
			l.least = min(low, most)
		}
	}
	return l
}

// washDish washes up once for every stretch of a dish: when it is left alone
// for as long as that takes, or may wait for it without harm.
func (d *draft) washDish(w *resolve.WashUp, mk *making) {
	length := minutes(w.Time)
	var made []*job
	for n, s := range mk.dishStretches() {
		at, ok := d.handsLeave(s, length)
		var after []moment
		for _, j := range s.steps[:at+1] {
			if ok && j.handsEnd() > 0 {
				after = append(after, moment{j, j.handsEnd()})
			}
		}
		if !ok { // hot and worked on to the last: its boards and bowls, when all is prepared
			for _, line := range mk.m.Lines {
				if p := mk.prep[line.Line]; p != nil && s.last && !slices.ContainsFunc(after, func(m moment) bool { return m.job == p }) {
					after = append(after, moment{p, p.handsEnd()})
				}
			}
		}
		if len(after) == 0 {
			continue
		}
		when := s.when
		if at < s.free {
			when = s.straight
		}
		j := d.washing(&wash{up: w, mk: mk, n: n}, "Wash up after "+mk.m.Recipe.Name, length, d.washers(w.By, s.last), when)
		if j == nil {
			continue
		}
		made = append(made, j)
		for i, m := range after {
			most := -1
			if ok && i == len(after)-1 {
				most = washSoon
			}
			d.link(m, j.begin(), 0, most, washed)
		}
		if s.last && (mk.m.Serving != nil || !mk.used) {
			d.link(j.end(), mk.course.begin(), 0, -1, washed)
		}
	}
	for i, j := range made {
		if len(made) > 1 {
			j.Title += ", " + nthTime(i+1) + " time"
		}
	}
}

// dishStretch is the steps of a dish that are done in one go: a pause that is
// taken ends it, and a step that is left for longer than anyone stays up.
type dishStretch struct {
	mk    *making
	steps []*job
	last  bool
	// when is the condition under which it ends where it does.
	when plan.When
	// free is the number of its steps that lie before a pause nobody decided;
	// straight says that this pause is not taken.
	free     int
	straight plan.When
}

func (mk *making) dishStretches() (out []dishStretch) {
	cur := dishStretch{mk: mk}
	for i, j := range mk.steps {
		cur.steps = append(cur.steps, j)
		next := len(mk.pauses)
		if i+1 < len(mk.steps) {
			next = mk.steps[i+1].Step.Step.Pause
		}
		ends := j.longLeft()
		for n := j.Step.Step.Pause; n < next && n < len(mk.pauses); n++ {
			switch p := mk.pauses[n]; p.state {
			case paused:
				ends = true
			case free:
				part := cur
				part.steps = slices.Clone(cur.steps[cur.free:])
				part.when = plan.When{{Branch: p.branch, Option: int(paused)}}
				part.free = 0
				out = append(out, part)
				cur.free, cur.straight = len(cur.steps), plan.When{{Branch: p.branch, Option: int(straight)}}
			}
		}
		if ends && i+1 < len(mk.steps) {
			out = append(out, cur)
			cur = dishStretch{mk: mk}
		}
	}
	if len(cur.steps) > 0 {
		cur.last = true
		out = append(out, cur)
	}
	return out
}

// handsEnd is when the hands leave a job for good, from its start; 0 when
// nobody works on it.
func (j *job) handsEnd() (end int) {
	for _, p := range j.parts {
		if p.kind != resolve.Leave {
			end = int(p.to)
		}
	}
	return end
}

// handsLeave finds the last step of a stretch after which the dish can do
// without hands for as long as the washing up takes: it cooks, rests or chills
// by itself, or it is not hot and may wait. ok is false when there is none.
func (d *draft) handsLeave(s dishStretch, length int) (at int, ok bool) {
	left := 0
	for i, j := range slices.Backward(s.steps) {
		end := j.handsEnd()
		if end == 0 {
			if !j.Step.Step.Meanwhile {
				left += j.length
			}
			continue
		}
		left += j.length - end
		final := i == len(s.steps)-1
		if left >= length || final && !s.last || d.mayStand(s.mk, j, final) >= length {
			return i, true
		}
		left = 0
	}
	return -1, false
}

// mayStand is how long what a step leaves may stand without harm: 0 when it is
// hot.
func (d *draft) mayStand(mk *making, j *job, final bool) int {
	hot := hotWeight(j, 1) > 0
	if final {
		hot = d.tableWeight(mk, j) > 0
		if mk.m.Serving == nil && mk.used {
			hot = hotBase(mk, j) > 0
		}
	}
	if hot {
		return 0
	}
	most := maxMinutes
	for _, l := range d.links {
		if l.from.job == j && l.from.at == j.length && l.max >= 0 && l.why != near {
			most = min(most, l.max)
		}
	}
	return most
}

// washers are those who may wash up: those named, and on a day on which none
// of them has hours whoever is there. onDay tells that it is the day of serving.
func (d *draft) washers(by []string, onDay bool) []int {
	set := d.hands(by)
	if len(by) == 0 || len(set) == 0 {
		return d.hands(nil)
	}
	if d.clock {
		for _, h := range d.meal.Menu.Hours {
			on := floorDiv(h.From, day)
			if onDay && on != 0 || d.hasHours(by, on) {
				continue
			}
			for _, res := range d.hands(nil) {
				if !slices.Contains(set, res) {
					set = append(set, res)
				}
			}
		}
	}
	return set
}

// hasHours tells whether one of these cooks has hours on a day.
func (d *draft) hasHours(by []string, on int) bool {
	hours := d.meal.Menu.Hours
	return len(hours) == 0 || slices.ContainsFunc(hours, func(h resolve.Hours) bool {
		return floorDiv(h.From, day) == on && (len(h.Cooks) == 0 || slices.ContainsFunc(by, func(c string) bool { return slices.Contains(h.Cooks, c) }))
	})
}

// washBefore washes up before the first serving, when everything for it has
// been prepared.
func (d *draft) washBefore(w *resolve.WashUp) {
	first := d.firstCourse()
	j := d.washing(&wash{up: w}, "Wash up before serving", minutes(w.Time), d.washers(w.By, true), nil)
	if j == nil {
		return
	}
	seen := map[*job]bool{}
	for _, mk := range d.makings {
		if mk.course != first {
			continue
		}
		for _, a := range mk.m.Lines {
			if p := mk.prep[a.Line]; p != nil && !seen[p] && p.handsEnd() > 0 {
				seen[p] = true
				d.link(moment{p, p.handsEnd()}, j.begin(), 0, -1, washed)
			}
		}
	}
	d.link(j.end(), first.begin(), 0, -1, washed)
}

// nthTime is a place in a row, in words: "first".
func nthTime(n int) string {
	words := []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if n <= len(words) {
		return words[n-1]
	}
	return fmt.Sprintf("%d.", n)
}
