// Package answer turns the engine's solution into a plan by the clock: who has each
// job and when it begins (answer.go), what the ovens do (slots.go), how much later a
// job could begin and what it would hold up (slack.go, handover.go), the critical
// chain (chain.go), and how likely the plan is to hold (odds.go). Before that a plan is
// made a cook's: cold work early (early.go), a dish with its cook (redeal.go).
//
// A Result is one attempt: a draft and its solution. Snap, Early and Redeal change the
// solution; each answer is a new Timeline.
//
// # The clock
//
// Jobs begin on multiples of Options.Grid minutes, counted from the first
// serving; their lengths are never rounded, so that every printed end is true.
// Where a meal cannot be on time on that grid it is planned by the minute, and
// then as many jobs as can be are moved back to the grid (snap.go).
//
// Read answer.go first.
package answer

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
)

// Answer turns the engine's solution into clock times.
func (r *Result) Answer(opt timeline.Options, diags *diag.List) *timeline.Timeline {
	d, s := r.Draft, r.Solution
	t := &timeline.Timeline{
		Meal: d.Meal, Clock: d.Clock, Grid: d.Grid,
		Late: r.Late(), Bound: s.Bound * d.Grid, Proven: s.Bound >= s.Score[plan.Lateness],
		Waiting: r.waited() * d.Grid, Orderly: !d.Set.Habits.None(), Roomy: r.Room != nil,
		Paused: map[*resolve.Pause]map[*demand.Making]bool{},
		Origin: r,
	}
	if t.Clock && len(d.Meal.Menu.Hours) > 0 {
		t.Hours = map[string][]timeline.Spell{}
	}
	for _, c := range d.Kit.Cooks {
		t.Cooks = append(t.Cooks, c.Name)
		if t.Hours != nil {
			for _, w := range d.Windows(c.Key) {
				t.Hours[c.Name] = append(t.Hours[c.Name], timeline.Spell{From: w.From, To: w.To})
			}
		}
	}
	r.Opt, r.planned = opt, map[*problem.Job]*timeline.Job{}
	for _, j := range d.Jobs {
		if r.On(j) {
			r.planned[j] = &timeline.Job{Piece: j.Piece}
		}
	}
	for _, j := range d.Jobs {
		if r.On(j) {
			r.place(j)
			t.Jobs = append(t.Jobs, r.Job(j))
		}
	}
	if !opt.NoOdds {
		t.Odds = r.Chance(opt.Seed)
	}
	r.stretch()
	remains(t.Jobs)
	r.heats(t)
	r.number()
	inTime := func() {
		slices.SortStableFunc(t.Jobs, func(a, b *timeline.Job) int { return cmp.Compare(a.Start(), b.Start()) })
	}
	inTime()
	r.pauses(t)
	r.servings(t)
	nobody := r.hands(t)
	r.slack() // when every minute has its place
	t.Chain = r.criticalChain()
	sinkUntil := r.afterService(t)
	inTime()
	t.Start, t.Later, t.Early = r.firstHands(), r.later(), r.early()
	t.Note, t.Leeway = r.note(nobody, sinkUntil), r.leeway()
	r.diags = diags
	r.sayKeeps()
	r.sayLoads()
	r.sayLeft()
	return t
}

// Job is a job of the plan, with its times; nil when it does not take place, or
// before there is a plan.
func (r *Result) Job(j *problem.Job) *timeline.Job { return r.planned[j] }

// On tells whether a job takes place.
func (r *Result) On(j *problem.Job) bool { return r.Solution.Tasks[j.Block.Act].On }

// Start is when a job begins.
func (r *Result) Start(j *problem.Job) timeline.Minute {
	return r.Draft.Origin + r.Solution.Tasks[j.Block.Act].Start*r.Draft.Grid + j.Offset
}

// time is when a moment comes.
func (r *Result) time(m problem.Moment) timeline.Minute { return r.Start(m.Job) + m.At }

// moment is when a moment comes by the minutes that are printed: a job may have been put
// off by one for somebody's hands.
func (r *Result) moment(m problem.Moment) timeline.Minute {
	if j := r.Job(m.Job); j != nil {
		return r.time(m) + j.Start() - r.Start(m.Job)
	}
	return r.time(m)
}

// Counts tells whether a link is in force.
func (r *Result) Counts(l *problem.Link) bool {
	return r.On(l.From.Job) && r.On(l.To.Job) && plan.When(l.When).Holds(r.Solution.Options)
}

// waited is the weighted waiting of the solution, in the engine's units.
func (r *Result) waited() (sum int) {
	for _, w := range r.Draft.P.Waits {
		a, b := r.Solution.Tasks[w.From.Activity], r.Solution.Tasks[w.To.Activity]
		if a.On && b.On {
			sum += w.Weight * max(0, b.Start-a.Start-w.Free)
		}
	}
	return sum
}

// place gives a job its times, cooks and oven.
func (r *Result) place(j *problem.Job) {
	at, out := r.Start(j), r.Job(j)
	for _, s := range j.Parts {
		out.Phases = append(out.Phases, timeline.Phase{Kind: s.Kind, Start: at + timeline.Minute(s.From), End: at + timeline.Minute(s.To), Least: s.Least, Place: s.Place})
	}
	for _, t := range j.Touches {
		list := &out.Touches
		if t.Put != timeline.NoPutting {
			list = &out.Puts
		}
		*list = append(*list, timeline.Touch{Start: at + timeline.Minute(t.From), End: at + timeline.Minute(t.To), Text: t.Text, Moment: t.Moment, Swap: t.Swap, Put: t.Put})
	}
	r.people(j)
	if j.LongLeft() {
		out.Touches = slices.DeleteFunc(out.Touches, func(t timeline.Touch) bool { return t.Text == "" && !r.open(t.Start) })
	}
	task := r.Solution.Tasks[j.Block.Act]
	for n, role := range j.Block.Roles {
		if o, ok := r.Draft.Kit.OvenOf(task.Members[n]); ok && role == problem.OvenRole {
			out.Oven = o.Name
		}
	}
	for _, l := range r.Draft.Links {
		if l.To.Job == j && l.Why != problem.AllOf && l.Why != problem.Near && l.Why != problem.VesselFree && l.Why != problem.WashRound && l.From.Job.Kind != "" && r.Counts(l) && (l.Why != problem.NextLoad || r.Start(l.From.Job)+l.From.Job.Length <= r.Start(j)) && !slices.Contains(out.After, r.Job(l.From.Job)) {
			out.After = append(out.After, r.Job(l.From.Job))
		}
	}
}

// open tells whether anyone is in the kitchen at a minute; without hours, always.
func (r *Result) open(at timeline.Minute) bool {
	return len(r.Draft.Open) == 0 || slices.ContainsFunc(r.Draft.Open, func(w problem.Window) bool { return w.From <= at && at < w.To })
}

// people says who works on each phase of a job.
func (r *Result) people(j *problem.Job) {
	out := r.Job(j)
	task := r.Solution.Tasks[j.Block.Act]
	mode := r.Draft.P.Activities[j.Block.Act].Modes[task.Mode]
	holders := func(from problem.Offset, role problem.RoleKind, also func(plan.Use) bool) (names []string) {
		unit := (j.Offset + int(from)) / r.Draft.Grid
		for n, u := range mode.Uses {
			whole := u.From == 0 && u.To == 0
			if c, ok := r.Draft.Kit.CookOf(task.Members[n]); ok && j.Block.Roles[n] == role && (whole || u.From <= unit && unit < u.To) && also(u) {
				names = append(names, c.Name)
			}
		}
		return names
	}
	by := func(from problem.Offset, role problem.RoleKind) []string {
		return holders(from, role, func(plan.Use) bool { return true })
	}
	add := func(names []string) {
		for _, n := range names {
			if !slices.Contains(out.Cooks, n) {
				out.Cooks = append(out.Cooks, n)
			}
		}
	}
	for i, s := range j.Parts {
		p := &out.Phases[i]
		if p.Kind == resolve.Leave {
			continue
		}
		p.Cooks = by(s.From, problem.CookRole)
		if p.Kind == resolve.Work || j.WorkEnd == 0 {
			p.Cooks = append(p.Cooks, by(s.From, problem.HelpRole)...)
		}
		add(p.Cooks)
	}
	touched, put := 0, 0
	for _, t := range j.Touches {
		x := &timeline.Touch{}
		if t.Put != timeline.NoPutting {
			x, put = &out.Puts[put], put+1
		} else {
			x, touched = &out.Touches[touched], touched+1
		}
		// of one slot, a putting in or out has a part, a look the whole
		x.Cooks = holders(t.From, problem.CookRole, func(u plan.Use) bool { return (u.Amount < r.Draft.Grid) == (t.Put != timeline.NoPutting) })
		if len(x.Cooks) == 0 {
			x.Cooks = by(t.From, problem.CookRole)
		}
		if t.Swap || t.Put == timeline.PutIn {
			add(x.Cooks)
		}
	}
}

// stretch lets what may be left longer stay until it is wanted, and works out
// the waiting of everything.
func (r *Result) stretch() {
	next := map[*problem.Job]timeline.Minute{}
	for _, l := range r.Draft.Links {
		switch l.Why {
		case problem.BeforeServing, problem.ForTask, problem.VesselFree, problem.AllOf, problem.Near, problem.Washed, problem.WashRound:
			continue
		}
		if l.From.At != l.From.Job.Length || !r.Counts(l) {
			continue
		}
		at := r.time(l.To)
		if have, ok := next[l.From.Job]; !ok || at < have {
			next[l.From.Job] = at
		}
	}
	for _, j := range r.Draft.Jobs {
		at, ok := next[j]
		if !ok || !r.On(j) {
			continue
		}
		out := r.Job(j)
		last := &out.Phases[len(out.Phases)-1]
		if wait := at - last.End; wait > 0 && last.Kind == resolve.Leave {
			switch {
			case j.Open:
				last.Stretch = min(wait, r.vesselFor(j))
			case j.Extra > 0:
				last.Stretch = min(wait, j.Extra, r.vesselFor(j))
			}
			last.End += last.Stretch
		}
		out.Waits = max(0, at-last.End)
	}
	for _, mk := range r.Draft.Makings { // what is done first waits for the last load, and then with it
		for _, s := range mk.Steps {
			for _, j := range r.Draft.LoadsOf(mk, s) {
				if j != s && r.On(j) {
					r.Job(j).Waits = max(0, r.Job(s).End()+r.Job(s).Waits-r.Job(j).End())
				}
			}
		}
	}
}

func vesselOf(j *problem.Job) string {
	if j.Step == nil {
		return ""
	}
	return j.Step.Step.Vessel
}

// vesselFor is how much longer than planned a job's vessel is not wanted for
// anything else.
func (r *Result) vesselFor(j *problem.Job) int {
	v, listed := r.Draft.Kit.Vessels[vesselOf(j)]
	if !listed {
		return timeline.MaxMinutes
	}
	var starts []timeline.Minute // one for each vessel that is wanted then
	end := r.Start(j) + j.Length
	in := 0 // in other vessels of the kind when it should be done
	for _, o := range r.Draft.Jobs {
		if o == j || o.Step == nil || vesselOf(o) != vesselOf(j) || !r.On(o) {
			continue
		}
		switch at := r.Start(o); {
		case at >= end:
			starts = append(starts, slices.Repeat([]timeline.Minute{at}, max(1, o.Vessels))...)
		case at+o.Length > end:
			in += max(1, o.Vessels)
		}
	}
	slices.Sort(starts)
	if spare := v.Count - max(1, j.Vessels) - in; spare < len(starts) {
		return starts[max(0, spare)] - end
	}
	return timeline.MaxMinutes
}

// pauses notes which pauses are taken.
func (r *Result) pauses(t *timeline.Timeline) {
	for _, mk := range r.Draft.Makings {
		for _, p := range mk.Pauses {
			if p.State == problem.Paused || p.State == problem.Free && r.Solution.Options[p.Branch] == int(problem.Paused) {
				if t.Paused[p.Model] == nil {
					t.Paused[p.Model] = map[*demand.Making]bool{}
				}
				t.Paused[p.Model][mk.M] = true
			}
		}
	}
}

// servings lists the dishes in the order they are served.
func (r *Result) servings(t *timeline.Timeline) {
	d := r.Draft
	ready := func(mk *problem.Making, at timeline.Minute) timeline.Minute {
		last, any := at, false
		for _, j := range mk.Steps {
			if end := r.Start(j) + j.Length; r.On(j) && (!any || end > last) {
				last, any = end, true
			}
		}
		return last
	}
	if d.Meal.Menu == nil {
		for _, mk := range d.Makings {
			if !mk.Used {
				t.Servings = append(t.Servings, &timeline.Serving{
					Making: mk.M, Name: mk.M.Recipe.Name, At: mk.Course.At,
					Ready: ready(mk, mk.Course.At), Served: r.Start(mk.Course),
				})
			}
		}
		return
	}
	for i, c := range d.Meal.Menu.Courses {
		served := r.Start(d.Courses[i])
		for _, s := range c.Servings {
			out := &timeline.Serving{Name: s.Name, Course: c.Name, At: d.Courses[i].At, Ready: served, Served: served}
			for _, mk := range d.Makings {
				if mk.M.Serving == s {
					out.Making, out.Ready = mk.M, ready(mk, served)
				}
			}
			t.Servings = append(t.Servings, out)
		}
	}
}

// firstHands is when the first hands-on work begins.
func (r *Result) firstHands() timeline.Minute {
	first, any := r.Start(r.Draft.FirstCourse()), false
	for _, j := range r.Draft.Jobs {
		if !r.On(j) {
			continue
		}
		for _, p := range r.Job(j).Phases {
			if p.Kind != resolve.Leave && (!any || p.Start < first) {
				first, any = p.Start, true
			}
		}
	}
	return first
}

// note tells the cook what was taken for granted and what could not be kept: what
// nobody is free for, and until when washing up after serving goes on past the hours.
func (r *Result) note(nobody []string, sinkUntil timeline.Minute) string {
	d := r.Draft
	var out []string
	if r.Late() > 0 {
		for _, c := range d.Courses {
			if n := r.Start(c) - c.At; n > 0 {
				what := "The meal"
				if c.Course != "" {
					what = c.Course
				}
				out = append(out, fmt.Sprintf("%s is %s late.", what, timeline.SpanWords(n)))
			}
		}
	}
	if names := r.sameDay(); len(names) > 0 {
		out = append(out, timeline.Listed(names)+" cannot be done the day before; it is made ahead on the day itself.")
	}
	for _, done := range []string{"made", "begun"} {
		if names := r.dayBefore(done == "made"); len(names) > 0 {
			out = append(out, timeline.Listed(names)+" "+isAre(names)+" "+done+" the day before, when hands are idle.")
		}
	}
	out = append(out, r.roomWords()...)
	if names := r.washedAfter(); len(names) > 0 {
		out = append(out, "So that no hot food waits for it, "+timeline.Listed(names)+" is left until after serving.")
	}
	if sinkUntil > 0 {
		out = append(out, "The washing up after serving goes on until "+r.clockText(sinkUntil)+", past the hours.")
	}
	out = append(out, r.Named...)
	if len(nobody) > 0 {
		out = append(out, "Nobody is free for a minute at "+strings.Join(nobody, ", at ")+".")
	}
	if d.Meal.Kitchen == nil {
		out = append(out, "No kitchen is named: planned for "+hands(len(d.Kit.Cooks))+", with as many rings and ovens as are wanted.")
	}
	if d.Clock && len(d.Meal.Menu.Hours) == 0 && r.firstHands() < 0 {
		out = append(out, "Work begins before the day of serving, for the menu gives no hours.")
	}
	return strings.Join(out, " ")
}

// sameDay lists what is made ahead on the day of serving though there are hours
// before it.
func (r *Result) sameDay() (names []string) {
	d := r.Draft
	if !d.Set.SameDay || !d.Clock {
		return nil
	}
	if _, _, ok := d.Night(); !ok {
		return nil
	}
	for _, mk := range d.Makings {
		for _, p := range mk.Pauses {
			if p.State != problem.Paused {
				continue
			}
			for _, j := range mk.Steps {
				if j.Step.Step.Index == p.Model.After-1 && r.On(j) && r.Start(j) > 0 {
					names = append(names, mk.M.Recipe.Name)
				}
			}
		}
	}
	return names
}

// dayBefore lists what the plan itself has chosen to make, else only to begin, the day
// before: made is what is only brought back and dished up on the day.
func (r *Result) dayBefore(made bool) (names []string) {
	for _, mk := range r.Draft.Makings {
		if slices.Contains(r.Draft.Set.Habits.Ahead, mk.M) && r.onlyServed(mk) == made {
			names = append(names, mk.M.Recipe.Name)
		}
	}
	return names
}

// onlyServed tells whether nothing is left for the day of serving but what brings a dish
// back, and a last step without heat.
func (r *Result) onlyServed(mk *problem.Making) bool {
	for i, j := range mk.Steps {
		if r.On(j) && r.Start(j) >= 0 && len(j.Step.Step.If) == 0 && (j.Hot || !mk.Last(i)) {
			return false
		}
	}
	return true
}

func isAre(names []string) string {
	if len(names) > 1 {
		return "are"
	}
	return "is"
}

func hands(n int) string {
	if n == 1 {
		return "one cook"
	}
	return fmt.Sprintf("%d cooks", n)
}

// number counts the steps of each making as the prep sheet does.
func (r *Result) number() {
	for _, mk := range r.Draft.Makings {
		n := 0
		for _, j := range mk.Steps {
			if r.On(j) {
				n++
				for _, load := range r.Draft.LoadsOf(mk, j) {
					r.Job(load).Number = n
				}
			}
		}
	}
}
