package advice

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Pausing proposes, for what is left of a meal, to take a pause that the recipe
// allows and the plan did not: nothing behind it may have been begun.
func Pausing(d *problem.Draft, c Clash) (out []Cure) {
	k := d.Set.Keep
	if k == nil {
		return nil
	}
	for _, mk := range d.Makings {
		if s := mk.M.Serving; s != nil && s.Straight || len(c.jobs) > 0 && !slices.ContainsFunc(c.jobs, func(j *problem.Job) bool { return j.Mk == mk }) {
			continue
		}
		for n, p := range mk.Pauses {
			last := stepBefore(mk, n)
			if p.State != problem.Straight || last == nil || k.Served(mk.Course) || pastPause(mk, k, n) {
				continue
			}
			text := fmt.Sprintf("pause after %s, up to %s %s", last.Of(), timeline.SpanWords(timeline.Minutes(p.Model.UpTo)), placeIn(p.Model.Place))
			out = append(out, Cure{Text: text, Change: func(s *problem.Setup) {
				all := *s.Keep
				all.Pauses = map[*demand.Making][]bool{}
				maps.Copy(all.Pauses, k.Pauses)
				taken := make([]bool, len(mk.Pauses))
				copy(taken, k.Pauses[mk.M])
				taken[n] = true
				all.Pauses[mk.M] = taken
				s.Keep = &all
			}})
		}
	}
	return out
}

func placeIn(place string) string { return cmp.Or(resolve.InThe(place), "somewhere cold") }

// pastPause tells whether something was begun that comes after a pause, or that
// would have been otherwise with it.
func pastPause(mk *problem.Making, k *problem.Kept, n int) bool {
	return slices.ContainsFunc(mk.Steps, func(j *problem.Job) bool {
		s := j.Step.Step
		other := slices.ContainsFunc(s.If, func(c resolve.Condition) bool { return c.Paused && c.Pause == n+1 })
		return (s.Pause > n || other) && k.Begun(j.First().Key())
	})
}

// stepBefore is the last step before a pause that takes place.
func stepBefore(mk *problem.Making, n int) *problem.Job {
	for _, j := range slices.Backward(mk.Steps) {
		if j.Step.Step.Pause <= n {
			return j
		}
	}
	return nil
}

// leavingOut proposes to leave out what is only done if needed and is still to
// do.
func leavingOut(d *problem.Draft) []Cure {
	var steps []string
	for _, j := range d.Jobs {
		if j.IfNeeded() && j.First() == j && !d.Set.Keep.Begun(j.Key()) {
			steps = append(steps, j.Of())
		}
	}
	if len(steps) == 0 {
		return nil
	}
	if n := len(steps); n > 3 {
		steps = append(steps[:2], fmt.Sprintf("%d more", n-2))
	}
	return []Cure{{Text: fmt.Sprintf("leave out %s, only done if needed", timeline.Listed(steps)), Change: func(s *problem.Setup) { s.Bare = true }}}
}

// longerHours proposes to begin earlier, on the serving day or one before, or to
// work on a day more.
func longerHours(d *problem.Draft, r *answer.Result) (out []Cure) {
	if !d.Clock || len(d.Open) == 0 || d.Set.Keep != nil {
		return nil
	}
	hours := len(d.Meal.Menu.Hours) > 0
	if from := d.FirstCourse().At - d.LongestChain(); hours && from < d.Open[0].From {
		n := -timeline.FloorDiv(from, timeline.Day)
		if from < problem.BeforeOpens-n*timeline.Day { // it begins before anybody is up
			n++
		}
		if n > 0 {
			out = append(out, growing([]int{n, n + 1}, func(n int) Cure {
				w := problem.Window{From: problem.BeforeOpens - n*timeline.Day, To: problem.BeforeShuts - n*timeline.Day}
				day := strings.TrimPrefix(quantity.DayText(-n), "the ")
				line := "hours " + day + ", 08:00 to 21:00"
				return Cure{
					Change: func(s *problem.Setup) { s.More = w }, Text: fmt.Sprintf("work %s too: `%s`", day, line),
					Write: above(d.Meal.Menu.Hours[0].Span, line),
				}
			})...)
		}
	}
	add := func(opens timeline.Minute, much ...int) {
		var can []int
		for _, n := range much {
			if !hours || timeline.FloorDiv(opens-n, timeline.Day) == timeline.FloorDiv(opens, timeline.Day) && opens-n >= timeline.FloorDiv(opens, timeline.Day)*timeline.Day+problem.DayOpens {
				can = append(can, n)
			}
		}
		out = append(out, growing(can, func(n int) Cure {
			at := d.ClockText(opens - n)
			if opens >= 0 {
				at += " on the day"
			}
			return Cure{
				Change: func(s *problem.Setup) { s.Opens, s.Earlier = opens, n }, Text: fmt.Sprintf("begin at %s, %s earlier", at, timeline.SpanWords(n)),
				Write: opening(d, opens, n),
			}
		})...)
	}
	if r.Solution == nil && hours {
		for i, w := range d.Open {
			if w.From < 0 && i < 2 {
				add(w.From, 30, 60, 90, 120, 180, 240, 300, 360, 480, 600)
			}
		}
	}
	add(dayOpens(d), 60, 120)
	return out
}

// during says when a dish is made that could not be before, by a plan with
// longer hours.
func during(t *answer.Result, c Clash, cu Cure) string {
	if len(c.jobs) == 0 || t.Set.Earlier == 0 && t.Set.More == (problem.Window{}) {
		return ""
	}
	mk := c.jobs[0].Mk
	if mk == nil || slices.ContainsFunc(c.jobs, func(j *problem.Job) bool { return j.Mk != mk }) {
		return ""
	}
	from, to := problem.None, -problem.None
	var made []*problem.Job
	for _, j := range t.Draft.Jobs {
		if j.Mk != nil && j.Mk.M == mk.M && t.On(j) {
			made = append(made, j)
			from = min(from, t.Start(j))
		}
	}
	for _, j := range made { // until it stands
		if j.Length < problem.LongLeave && t.Start(j) < from+timeline.Day/2 {
			to = max(to, t.Start(j)+j.Length)
		}
	}
	if from >= to {
		return ""
	}
	return fmt.Sprintf(" (%s is then made from %s to %s)", mk.M.Recipe.Name, t.Draft.ClockText(from), t.Draft.ClockText(to))
}

// opening writes the earlier hour into the lines of hours that begin with another.
func opening(d *problem.Draft, opens timeline.Minute, earlier int) (out []diag.Edit) {
	was := d.ClockText(opens)
	for _, h := range d.Meal.Menu.Hours {
		if i := strings.Index(h.Span.Text(), was); i >= 0 && h.From == opens {
			at := h.Span.File.Span(h.Span.Start+i, h.Span.Start+i+len(was))
			out = append(out, diag.Edit{Span: at, Text: d.ClockText(opens - earlier)})
		}
	}
	return out
}

// washLater are the cures that leave washing up until after serving: a line of
// the kitchen each, then all of them.
func washLater(d *problem.Draft, c Clash, hands bool) (out []Cure) {
	if !hands && !slices.ContainsFunc(c.jobs, func(j *problem.Job) bool { return j.Wash != nil }) {
		return nil
	}
	var lines []string
	for _, j := range d.Jobs {
		if j.Wash == nil || j.Wash.Up == nil {
			continue
		}
		line := "`" + j.Wash.Up.Words() + "`"
		if slices.Contains(lines, line) {
			continue
		}
		lines = append(lines, line)
		when := j.Wash.Up.When
		out = append(out, Cure{
			Change: func(s *problem.Setup) { s.Wash.Off = append(slices.Clone(s.Wash.Off), when) },
			Text:   fmt.Sprintf("leave the washing up until after: take out %s", line),
		})
	}
	if len(lines) > 1 {
		out = append(out, Cure{
			Change: func(s *problem.Setup) { s.Wash = problem.WashSet{None: true} },
			Text:   "leave all the washing up until after: take out " + strings.Join(lines, " and "),
		})
	}
	return out
}
