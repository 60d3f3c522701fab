// Package washing makes jobs of the washing up that a kitchen asks for: after each
// dish, before serving, every so often (washing.go), and of a tool that two dishes
// want (toolwash.go). They are hands like any other, with limits of their own.
//
// It stands above package problem, which knows of washing up only how to name it
// (problem/washset.go): the dishes come first, and the washing up is fitted to them.
// How often it is washed up `every 2 h` is only known from a plan without it; the
// rounds are dealt out in answer/stretches.go and become jobs in rounds.go. Where hot
// food would wait for the sink, the sink waits (attempt/sink.go).
//
// Read Translate first: it is the whole problem, washing up and all.
package washing

import (
	"fmt"
	"slices"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
)

// washSoon is how long after the hands leave a dish its pans may wait for the
// washing up to begin, in minutes: common practice, no source.
const washSoon = 60

// Translate makes a problem of a meal, with its washing up. Findings go to diags,
// which may be nil.
func Translate(meal *demand.Meal, set problem.Setup, diags *diag.List) *problem.Draft {
	d := problem.Begin(meal, set, diags)
	washUp(d)
	d.Finish()
	return d
}

// washUp makes jobs of the washing up that the kitchen asks for.
func washUp(d *problem.Draft) {
	k := d.Meal.Kitchen
	if k == nil {
		return
	}
	washTools(d)
	for i := range k.WashUps {
		w := &k.WashUps[i]
		switch w.When {
		case resolve.WashAfterDish:
			for _, mk := range d.Makings {
				washDish(d, w, mk)
			}
		case resolve.WashBefore:
			washBefore(d, w)
		case resolve.WashEvery:
			washRounds(d, w)
		}
	}
}

// washing makes one job of washing up; nil when it is left until after.
func washing(d *problem.Draft, w *problem.Wash, title string, length int, set []int, when plan.When) *problem.Job {
	if w.Up != nil && !planned(d, w.Up, w) {
		after(d, w.Up, title, set)
		return nil
	}
	j := &problem.Job{Wash: w, When: when}
	j.Piece = timeline.Piece{Kind: timeline.WashJob, Title: title}
	if w.Up != nil {
		j.Asked, j.Place = w.Up.Words(), w.Up.Span
	}
	j.AddPhase(resolve.Work, "", washLength(d, w, length))
	j.Lengthen(d.More(j))
	uses, roles := []plan.Use(nil), []problem.RoleKind(nil)
	if len(set) > 0 {
		uses, roles = []plan.Use{{Of: set, Amount: d.Grid}}, []problem.RoleKind{problem.CookRole}
	}
	d.Activity(j, uses, roles)
	d.Jobs = append(d.Jobs, j)
	return j
}

// planned tells whether a plan has washing up of a line, or one of it, before the
// meal is served.
func planned(d *problem.Draft, line *resolve.WashUp, w *problem.Wash) bool {
	s := &d.Set.Wash
	return !s.None && !slices.Contains(s.Off, line.When) &&
		(w == nil || !slices.Contains(s.Left, w.Key()) && (!s.Later || d.Set.Keep.Begun(w.Key())))
}

// after leaves washing up until after serving, once for each title.
func after(d *problem.Draft, line *resolve.WashUp, title string, set []int) {
	if len(set) == 0 {
		set = d.Hands(nil)
	}
	if len(set) > 0 && !slices.ContainsFunc(d.After, func(a problem.AfterWash) bool { return a.Title == title }) {
		d.After = append(d.After, problem.AfterWash{Title: title, Asked: line.Words(), Minutes: timeline.Minutes(line.Time), Set: set})
	}
}

func washLength(d *problem.Draft, w *problem.Wash, most int) problem.Length {
	l := problem.Length{Most: most, Least: most}
	if w.Up != nil {
		l.About = w.Up.Written.About
		if low := timeline.Minutes(w.Up.Written.Low); low > 0 {
			l.Least = min(low, most)
		}
	}
	return l
}

// washDish washes up once for every stretch of a dish: when it is left alone
// for as long as that takes, or may wait for it without harm.
func washDish(d *problem.Draft, w *resolve.WashUp, mk *problem.Making) {
	length := timeline.Minutes(w.Time)
	var made []*problem.Job
	for n, s := range dishStretches(mk) {
		at, ok := handsLeave(d, s, length)
		var moments []problem.Moment
		for _, j := range s.steps[:at+1] {
			if ok && handsEnd(j) > 0 {
				moments = append(moments, problem.Moment{Job: j, At: handsEnd(j)})
			}
		}
		if !ok { // hot and worked on to the last: its boards and bowls, when all is prepared
			for _, line := range mk.M.Lines {
				if p := mk.Prep[line.Line]; p != nil && s.last && !slices.ContainsFunc(moments, func(m problem.Moment) bool { return m.Job == p }) {
					moments = append(moments, problem.Moment{Job: p, At: handsEnd(p)})
				}
			}
		}
		if len(moments) == 0 {
			if s.last && len(mk.Steps) > 0 { // hot, and nothing prepared: there is no other moment
				after(d, w, "Wash up after "+mk.M.Recipe.Name, washers(d, w.By, true))
			}
			continue
		}
		when := s.when
		if at < s.free {
			when = s.straight
		}
		title := "Wash up after " + mk.M.Recipe.Name
		if !ok { // it is not cooked yet
			title = "Wash up the boards of " + mk.M.Recipe.Name
		}
		j := washing(d, &problem.Wash{Up: w, Mk: mk, N: n}, title, length, washers(d, w.By, s.last), when)
		if j == nil {
			continue
		}
		made = append(made, j)
		for i, m := range moments {
			most := -1
			if ok && i == len(moments)-1 {
				most = washSoon
			}
			d.Link(m, j.Begin(), 0, most, problem.Washed)
		}
		if s.last && (mk.M.Serving != nil || !mk.Used) {
			d.Link(j.End(), mk.Course.Begin(), 0, -1, problem.Washed)
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
	mk    *problem.Making
	steps []*problem.Job
	last  bool
	// when is the condition under which it ends where it does.
	when plan.When
	// free is the number of its steps that lie before a pause nobody decided;
	// straight says that this pause is not taken.
	free     int
	straight plan.When
}

func dishStretches(mk *problem.Making) (out []dishStretch) {
	cur := dishStretch{mk: mk}
	for i, j := range mk.Steps {
		cur.steps = append(cur.steps, j)
		next := len(mk.Pauses)
		if i+1 < len(mk.Steps) {
			next = mk.Steps[i+1].Step.Step.Pause
		}
		ends := j.LongLeft()
		for n := j.Step.Step.Pause; n < next && n < len(mk.Pauses); n++ {
			switch p := mk.Pauses[n]; p.State {
			case problem.Paused:
				ends = true
			case problem.Free:
				part := cur
				part.steps = slices.Clone(cur.steps[cur.free:])
				part.when = plan.When{{Branch: p.Branch, Option: int(problem.Paused)}}
				part.free = 0
				out = append(out, part)
				cur.free, cur.straight = len(cur.steps), plan.When{{Branch: p.Branch, Option: int(problem.Straight)}}
			}
		}
		if ends && i+1 < len(mk.Steps) {
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
func handsEnd(j *problem.Job) (end int) {
	for _, p := range j.Parts {
		if p.Kind != resolve.Leave {
			end = int(p.To)
		}
	}
	return end
}

// handsLeave finds the last step of a stretch after which the dish can do
// without hands for as long as the washing up takes: it cooks, rests or chills
// by itself, or it is not hot and may wait. ok is false when there is none.
func handsLeave(d *problem.Draft, s dishStretch, length int) (at int, ok bool) {
	left := 0
	for i, j := range slices.Backward(s.steps) {
		end := handsEnd(j)
		if end == 0 {
			if !j.Step.Step.Meanwhile {
				left += j.Length
			}
			continue
		}
		left += j.Length - end
		final := i == len(s.steps)-1
		if left >= length || final && !s.last || mayStand(d, s.mk, j, final) >= length {
			return i, true
		}
		left = 0
	}
	return -1, false
}

// mayStand is how long what a step leaves may stand without harm: 0 when it is
// hot.
func mayStand(d *problem.Draft, mk *problem.Making, j *problem.Job, final bool) int {
	hot := problem.HotWeight(j, 1) > 0
	if final {
		hot = d.TableWeight(mk, j) > 0
		if mk.M.Serving == nil && mk.Used {
			hot = problem.HotBase(mk, j) > 0
		}
	}
	if hot {
		return 0
	}
	most := timeline.MaxMinutes
	for _, l := range d.Links {
		if l.From.Job == j && l.From.At == j.Length && l.Max >= 0 && l.Why != problem.Near {
			most = min(most, l.Max)
		}
	}
	return most
}

// washers are those who may wash up: those named, and on a day on which none
// of them has hours whoever is there. onDay tells that it is the day of serving.
func washers(d *problem.Draft, by []string, onDay bool) []int {
	set := d.Hands(by)
	if len(by) == 0 || len(set) == 0 {
		return d.Hands(nil)
	}
	if d.Clock {
		for _, h := range d.Meal.Menu.Hours {
			on := timeline.FloorDiv(h.From, timeline.Day)
			if onDay && on != 0 || hasHours(d, by, on) {
				continue
			}
			for _, res := range d.Hands(nil) {
				if !slices.Contains(set, res) {
					set = append(set, res)
				}
			}
		}
	}
	return set
}

// hasHours tells whether one of these cooks has hours on a day.
func hasHours(d *problem.Draft, by []string, on int) bool {
	hours := d.Meal.Menu.Hours
	return len(hours) == 0 || slices.ContainsFunc(hours, func(h resolve.Hours) bool {
		return timeline.FloorDiv(h.From, timeline.Day) == on && (len(h.Cooks) == 0 || slices.ContainsFunc(by, func(c string) bool { return slices.Contains(h.Cooks, c) }))
	})
}

// washBefore washes up before the first serving, when everything for it has
// been prepared.
func washBefore(d *problem.Draft, w *resolve.WashUp) {
	first := d.FirstCourse()
	j := washing(d, &problem.Wash{Up: w}, "Wash up before serving", timeline.Minutes(w.Time), washers(d, w.By, true), nil)
	if j == nil {
		return
	}
	seen := map[*problem.Job]bool{}
	for _, mk := range d.Makings {
		if mk.Course != first {
			continue
		}
		for _, a := range mk.M.Lines {
			if p := mk.Prep[a.Line]; p != nil && !seen[p] && handsEnd(p) > 0 {
				seen[p] = true
				d.Link(problem.Moment{Job: p, At: handsEnd(p)}, j.Begin(), 0, -1, problem.Washed)
			}
		}
	}
	d.Link(j.End(), first.Begin(), 0, -1, problem.Washed)
}

// nthTime is a place in a row, in words: "first".
func nthTime(n int) string {
	words := []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if n <= len(words) {
		return words[n-1]
	}
	return fmt.Sprintf("%d.", n)
}
