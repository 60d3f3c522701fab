package advice

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/attempt"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// maxCures is how many cures are offered, and maxTries how many are tried.
const (
	maxCures = 3
	maxTries = 9
)

// Cure is something that might help, to be tried before it is offered.
type Cure struct {
	Change func(*problem.Setup)
	Text   string
	Write  []diag.Edit // writes it into the text; nil where that is no line of the notation
	more   []Cure      // more and more of it, to be tried if this is not enough
	strict bool        // it is no cure if things wait longer than they may
}

// cures tries what might mend a meal that is late or has no plan, and says
// what worked, and how much did: a plan was made with it, and everything was on time. What
// did not is kept in a.Tried, with what came of it.
func cures(a *attempt.Attempts, r *answer.Result, c Clash, say func(text string, write []diag.Edit)) (said int) {
	most := maxCures
	if r.Set.Keep != nil {
		most = 2 * maxCures // there is no other day: all that can be done is wanted
	}
	for i, cu := range possible(a, r, c) {
		if i == maxTries || said == most || a.Ctx.Err() != nil {
			return said
		}
		best, with, t := enough(a, r, cu)
		if t == nil || t.Late() > 0 {
			a.Tried = append(a.Tried, attempt.Tried{Text: best.Text, Came: came(t)})
			continue
		}
		said++
		say(best.Text+with+during(t, c, best), best.Write)
	}
	return said
}

// sayTried says what was tried where nothing worked.
func sayTried(a *attempt.Attempts, r *answer.Result, say func(text string, write []diag.Edit)) {
	if r.Set.Keep != nil || a.Ctx.Err() != nil {
		return
	}
	for _, t := range triedWords(a.Tried) {
		say(t, nil)
	}
	a.Tried = nil
}

// triedWords says them all, those with the same end together.
func triedWords(all []attempt.Tried) (out []string) {
	var ends []string
	for _, t := range all {
		if !slices.Contains(ends, t.Came) {
			ends = append(ends, t.Came)
		}
	}
	for _, end := range ends {
		var texts []string
		for _, t := range all {
			if t.Came == end {
				texts = append(texts, t.Text)
			}
		}
		out = append(out, fmt.Sprintf("tried, and %s: %s", end, strings.Join(texts, "; ")))
	}
	return out
}

// came says what came of a cure that was not enough.
func came(t *answer.Result) string {
	if t == nil {
		return "no plan that keeps every limit"
	}
	return fmt.Sprintf("still %s late", timeline.SpanWords(t.LatestCourse()))
}

// enough finds how much of a cure mends a meal: every other amount is tried
// until one does, then the one before it. With says what is still amiss.
func enough(a *attempt.Attempts, r *answer.Result, cu Cure) (best Cure, with string, t *answer.Result) {
	best = cu
	t, with = planWith(a, r, cu)
	near := cu // the least with which there is a plan
	found := t != nil
	for i := 0; i < len(cu.more) && (t == nil || t.Late() > 0); i += 2 {
		n, amiss := planWith(a, r, cu.more[i])
		if n != nil && !found {
			near, found = cu.more[i], true
		}
		if n == nil || n.Late() > 0 {
			continue
		}
		best, with, t = cu.more[i], amiss, n
		if i > 0 {
			if n, amiss := planWith(a, r, cu.more[i-1]); n != nil && n.Late() == 0 {
				best, with, t = cu.more[i-1], amiss, n
			}
		}
	}
	if r.Solution != nil || !found || t != nil && t.Late() == 0 {
		return best, with, t
	}
	// Where there was no plan there is one, but late: need it be?
	set := r.Set
	near.Change(&set)
	if n := harder(a, set); n != nil && n.Late() == 0 {
		return near, "", n
	}
	return best, with, t
}

// harder plans with a setup and all the work that a plan may take, by the
// minute.
func harder(a *attempt.Attempts, set problem.Setup) *answer.Result {
	set.Grid = 1
	t := a.Trial(set, 1)
	if t == nil || t.Late() == 0 {
		return t
	}
	why, err := plan.Explain(a.Ctx, &t.Draft.P, a.Budget(t.Draft, 1))
	if s := why.Solution; err == nil && s != nil && s.Score[plan.Lateness] == 0 && len(plan.Verify(&t.Draft.P, s)) == 0 {
		was := t.Solution
		if t.Solution = s; t.Unwashed() {
			t.Solution = was
		}
	}
	return t
}

// planWith plans with a cure; nil: there is no plan. What runs late may wait longer
// than it should only if there is no other way.
func planWith(a *attempt.Attempts, r *answer.Result, cu Cure) (t *answer.Result, amiss string) {
	set := r.Set
	set.Grid = 1
	if set.Keep != nil {
		all := *set.Keep
		all.Until, all.Loose = problem.None, false
		set.Keep = &all
	}
	cu.Change(&set)
	t = a.Trial(set, 4)
	if t == nil && set.Grid < a.Opt.Grid && r.Draft.EveryLine() != nil { // rounds of washing up may suit the coarser clock
		set.Grid = a.Opt.Grid
		if t = a.Trial(set, 1); t == nil {
			set.Grid = 1
		}
	}
	if !cu.strict && r.Set.Keep != nil && r.Set.Keep.Loose && (t == nil || t.Late() > 0) {
		all := *set.Keep
		all.Loose = true
		set.Keep = &all
		if l := a.Trial(set, 4); l != nil && (t == nil || l.Late() < t.Late()) {
			return l, ", though things wait longer than they may"
		}
	}
	return t, ""
}

// possible lists the cures worth trying: those that touch what the conflict
// names.
func possible(a *attempt.Attempts, r *answer.Result, c Clash) (out []Cure) {
	d := r.Draft
	add := func(text string, change func(*problem.Setup)) { out = append(out, Cure{Change: change, Text: text}) }
	all := len(c.resources) == 0 // nothing is known: try what is usual
	oven, rings, cooks := false, false, false
	var things []string
	for _, res := range c.resources {
		if _, ok := d.Kit.OvenOf(res); ok {
			oven = true
		} else if _, ok := d.Kit.CookOf(res); ok {
			cooks = true
		} else if res == d.Kit.Rings {
			rings = true
		} else if res != d.Kit.Here {
			things = append(things, d.P.Resources[res].Name)
		}
	}
	out = append(out, washLater(d, c, cooks || all)...)
	out = append(out, Pausing(d, c)...)
	out = append(out, leavingOut(d)...)
	for i, mk := range d.Makings {
		if d.Set.Keep != nil || len(mk.Pauses) == 0 || mk.M.Serving == nil || slices.ContainsFunc(mk.Pauses, func(p problem.Pause) bool { return p.State == problem.Paused }) {
			continue
		}
		if len(c.jobs) > 0 && !slices.ContainsFunc(c.jobs, func(j *problem.Job) bool { return j.Mk != nil && j.Mk.M == mk.M }) {
			continue
		}
		text := fmt.Sprintf("make it ahead: `%s, ahead`", mk.M.Recipe.Name)
		add(text, func(s *problem.Setup) { s.Ahead = i + 1; s.SameDay = true; s.Free = false })
		out[len(out)-1].Write = ahead(mk.M.Serving.Span)
	}
	if rings || all && d.Kit.Rings >= 0 {
		add("find one more ring", func(s *problem.Setup) { s.Rings = 1 })
	}
	if len(d.Kit.Ovens) > 0 && (oven || all) {
		add("find room for one more shelf in the oven", func(s *problem.Setup) { s.Shelves = 1 })
		more := "find a second oven"
		if len(d.Kit.Ovens) > 1 {
			more = "find one more oven"
		}
		add(more, func(s *problem.Setup) { s.Ovens = 1 })
	}
	if r.Solution != nil && d.Set.Keep == nil {
		for _, n := range []int{15, 30, 45, 60, 90, 120} {
			if n >= r.Late()/max(1, lateCourses(r)) {
				add(fmt.Sprintf("serve %s later", timeline.SpanWords(n)), func(s *problem.Setup) { s.Later = n })
				break
			}
		}
	}
	out = append(out, longerHours(d, r)...)
	if d.Clock && d.Set.Keep == nil && len(d.Meal.Menu.Hours) > 0 && len(d.Open) > 0 && d.Open[0].From > problem.BeforeShuts-timeline.Day {
		add("work on the evening before: `hours day before, 17:00 to 21:00`", func(s *problem.Setup) { s.Evening = true })
		out[len(out)-1].Write = above(d.Meal.Menu.Hours[0].Span, "hours day before, 17:00 to 21:00")
	}
	if cooks || all {
		out = append(out, growing([]int{1, 2}, func(n int) Cure {
			return Cure{Change: func(s *problem.Setup) { s.Cooks = n }, Text: []string{"find one more cook", "find two more cooks"}[n-1]}
		})...)
	}
	if len(things) > 0 {
		out = append(out, growing([]int{1, 2}, func(n int) Cure {
			return Cure{
				Text:   fmt.Sprintf("have %s more %s", []string{"one", "two"}[n-1], timeline.Listed(things)),
				Change: func(s *problem.Setup) { s.Spare = slices.Repeat(things, n) },
			}
		})...)
	}
	switch {
	case d.Set.Keep != nil:
		first := max(1, lateBy(r))
		out = append(out, growing([]int{first, first + 5, first + 10, first + 15, first + 30, first + 60}, func(n int) Cure {
			return Cure{Change: func(s *problem.Setup) { s.Later = n }, Text: fmt.Sprintf("serve what is left %s later", timeline.SpanWords(n)), strict: true}
		})...)
	case r.Solution == nil:
		out = append(out, growing([]int{15, 30, 60}, func(n int) Cure {
			return Cure{Change: func(s *problem.Setup) { s.Later = n }, Text: fmt.Sprintf("serve %s later", timeline.SpanWords(n))}
		})...)
	}
	return out
}

var straight = regexp.MustCompile(`(?i)straight\s+through`)

// ahead writes into a serving that it is made ahead, in place of the contrary.
func ahead(at source.Span) []diag.Edit {
	if at.File == nil { // of no text: made by a program
		return nil
	}
	line, _, _ := strings.Cut(at.Text(), "\n")
	if i := straight.FindStringIndex(line); i != nil {
		return []diag.Edit{{Span: at.File.Span(at.Start+i[0], at.Start+i[1]), Text: "ahead"}}
	}
	end := at.Start + len(strings.TrimRight(line, " \t\r"))
	return []diag.Edit{{Span: at.File.Span(end, end), Text: ", ahead"}}
}

// above writes a line above the one at which a span begins, as far in.
func above(at source.Span, text string) []diag.Edit {
	if at.File == nil {
		return nil
	}
	start := at.File.LineSpan(at.Position().Line).Start
	return []diag.Edit{{Span: at.File.Span(at.Start, at.Start), Text: text + "\n" + at.File.Text[start:at.Start]}}
}

// lateBy is by how many minutes a plan, if there is one, is late at most.
func lateBy(r *answer.Result) int {
	if r.Solution == nil {
		return 0
	}
	return r.LatestCourse()
}

// growing is one cure of which more and more may be tried.
func growing(much []int, of func(int) Cure) []Cure {
	if len(much) == 0 {
		return nil
	}
	first := of(much[0])
	for _, n := range much[1:] {
		first.more = append(first.more, of(n))
	}
	return []Cure{first}
}

// dayOpens is when work may begin on the serving day.
func dayOpens(d *problem.Draft) timeline.Minute {
	for _, w := range d.Open {
		if w.From >= 0 {
			return w.From
		}
	}
	return d.Open[0].From
}

// lateCourses counts the courses that are late.
func lateCourses(r *answer.Result) (n int) {
	for _, c := range r.Draft.Courses {
		if r.Start(c) > c.At {
			n++
		}
	}
	return n
}
