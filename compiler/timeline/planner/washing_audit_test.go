package planner

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// sink checks the washing up from the model and the clock alone.
func (a *auditor) sink() {
	a.toolsWashed()
	for i := range a.kit.WashUps {
		w := &a.kit.WashUps[i]
		var jobs []*timeline.Job
		for _, j := range a.line.Jobs {
			if j.Kind == timeline.WashJob && j.Asked == w.Words() && !a.afterwards(j) {
				jobs = append(jobs, j)
				a.washed(w, j)
			}
		}
		switch w.When {
		case resolve.WashAfterDish:
			a.eachWashed(jobs)
		case resolve.WashBefore:
			a.washedBefore(jobs)
		case resolve.WashEvery:
			a.washedEvery(w, jobs)
		}
	}
}

// afterwards tells whether washing up is one that is left until after serving; it has to
// come then.
func (a *auditor) afterwards(j *timeline.Job) bool {
	for _, s := range a.line.Servings {
		if j.Later && j.Start() < s.Served {
			a.say("%s at %s, before %s is served", j.Title, a.line.TimeText(j.Start()), s.Name)
		}
	}
	return j.Later
}

func (a *auditor) leftUnwashed() bool { return strings.Contains(a.line.Note, "left until after") }

// washed checks how long it takes, and by whom: those named, where they have
// hours on the day.
func (a *auditor) washed(w *resolve.WashUp, j *timeline.Job) {
	if n := time.Duration(j.End()-j.Start()) * time.Minute; n != w.Time {
		a.say("%s takes %v, not %v", j.Title, n, w.Time)
	}
	if len(j.Cooks) != 1 {
		a.say("%s by %v", j.Title, j.Cooks)
		return
	}
	there := func(cook string) bool {
		menu := a.line.Meal.Menu
		if menu == nil || len(menu.Hours) == 0 {
			return true
		}
		return slices.ContainsFunc(menu.Hours, func(h resolve.Hours) bool {
			return timeline.FloorDiv(h.From, timeline.Day) == timeline.FloorDiv(j.Start(), timeline.Day) && (len(h.Cooks) == 0 || slices.Contains(h.Cooks, cook))
		})
	}
	// One that begins the day with hours of all may fall on either; the planner only promises it where the day is known.
	if who := larder.Fold(j.Cooks[0]); len(w.By) > 0 && !slices.Contains(w.By, who) && timeline.FloorDiv(j.Start(), timeline.Day) == 0 && slices.ContainsFunc(w.By, there) && w.When != resolve.WashAfterDish {
		a.say("%s by %s, who is not to do it", j.Title, who)
	}
}

// handsOf lists the stretches of hands on a dish, its preparation too.
func (a *auditor) handsOf(m *demand.Making) (out []stretch) {
	for _, j := range a.line.Jobs {
		for _, p := range j.Phases {
			if j.Making == m && p.Kind != resolve.Leave {
				out = append(out, stretch{p.Start, p.End, 1, j})
			}
		}
	}
	return out
}

// eachWashed checks that what is washed up after a dish comes when its hands
// have left it, within the hour if a step was the last, and before the table;
// and that every dish which is left alone long enough has it.
func (a *auditor) eachWashed(jobs []*timeline.Job) {
	for _, m := range a.line.Meal.Makings {
		hands := a.handsOf(m)
		var mine []*timeline.Job
		for _, j := range jobs {
			if rest, ok := strings.CutPrefix(j.Title, "Wash up after "+m.Recipe.Name); ok && (rest == "" || rest[0] == ',') {
				mine = append(mine, j)
			}
		}
		for _, j := range mine {
			soon := false
			for _, h := range hands {
				wait := j.Start() - h.to
				soon = soon || wait >= 0 && (wait <= 60 || h.job.Kind == timeline.PrepJob)
			}
			if !soon {
				a.say("%s at %s: no hands have left it in the hour before", j.Title, a.line.TimeText(j.Start()))
			}
		}
		served := timeline.MaxMinutes
		for _, s := range a.line.Servings {
			if s.Making == m {
				served = s.Served
			}
		}
		if len(mine) > 0 && mine[len(mine)-1].End() > served {
			a.say("%s ends at %s, after serving", mine[len(mine)-1].Title, a.line.TimeText(mine[len(mine)-1].End()))
		}
		if len(mine) > 0 || a.leftUnwashed() || strings.Count(fmt.Sprint(titles(jobs)), m.Recipe.Name) > 0 {
			continue
		}
		for _, j := range a.jobsOf(m) {
			last := j.Phases[len(j.Phases)-1]
			if len(j.Phases) > 1 && last.Kind == resolve.Leave && len(j.Step.Step.If) == 0 && last.End-last.Start >= jobMinutes(a.kit, resolve.WashAfterDish) {
				a.say("%s is left for %d min at %s, and never washed up after", m.Recipe.Name, last.End-last.Start, a.line.TimeText(last.Start))
				break
			}
		}
	}
}

func jobMinutes(k *resolve.Kitchen, when resolve.WashWhen) int {
	for _, w := range k.WashUps {
		if w.When == when {
			return int(w.Time / time.Minute)
		}
	}
	return 0
}

// washedBefore checks that there is one, when all for the first course has been
// prepared, and that it is done by then.
func (a *auditor) washedBefore(jobs []*timeline.Job) {
	if len(jobs) != 1 {
		if len(jobs) > 1 || !a.leftUnwashed() {
			a.say("washed up %d times before serving", len(jobs))
		}
		return
	}
	due, first := timeline.MaxMinutes, timeline.MaxMinutes // of the course that should be served first, however late it is
	for _, s := range a.line.Servings {
		if s.At < due || s.At == due && s.Served < first {
			due, first = s.At, s.Served
		}
	}
	if jobs[0].End() > first {
		a.say("washed up before serving until %s", a.line.TimeText(jobs[0].End()))
	}
	for _, s := range a.line.Servings {
		for _, h := range a.handsOf(s.Making) {
			if s.Making != nil && s.Served == first && h.job.Kind == timeline.PrepJob && h.to > jobs[0].Start() {
				a.say("%s is prepared after the washing up before serving", h.job.Title)
			}
		}
	}
}

// washedEvery walks through the minutes in which hands are on a dish: none lies
// further than the interval from the last washing up, or from the first work
// after an hour's break.
func (a *auditor) washedEvery(w *resolve.WashUp, jobs []*timeline.Job) {
	if a.leftUnwashed() {
		return
	}
	busy := map[timeline.Minute]bool{}
	from, to := timeline.MaxMinutes, -timeline.MaxMinutes
	for _, m := range a.line.Meal.Makings {
		for _, h := range a.handsOf(m) {
			for at := h.from; at < h.to; at++ {
				busy[at] = true
			}
			from, to = min(from, h.from), max(to, h.to)
		}
	}
	since, idle := from, 0
	for at := from; at < to; at++ {
		for _, j := range jobs {
			if j.Start() <= at && at < j.End() {
				since = max(since, j.End())
			}
		}
		if !busy[at] {
			idle++
			continue
		}
		if idle >= 60 {
			since = at
			for _, j := range jobs {
				if j.Start() <= at && at < j.End() {
					since = j.End()
				}
			}
		}
		if idle = 0; time.Duration(at+1-since)*time.Minute > w.Every {
			a.say("still at work at %s, not washed up since %s", a.line.TimeText(at), a.line.TimeText(since))
			return
		}
	}
}

// The audit sees what is wrong with washing up.
func TestAuditSeesTheSink(t *testing.T) {
	build := func() *timeline.Timeline {
		soup := recipe("Soup", chopped("leeks", 12), step("Simmer", ring, work(10), leave(130)), step("Blend", work(5)), hot(10))
		bread := recipe("Bread", step("Knead", work(60)), step("Shape", work(60)), step("Slash", work(30)))
		k := washUpMeal(washUp(resolve.WashAfterDish, 10, 0), washUp(resolve.WashBefore, 20, 0), washUp(resolve.WashEvery, 15, 90))
		k.Cooks = []string{"Ana", "Jo", "Sam"}
		return newMeal(k).serve("First", at(13, 0), soup, bread).planned(t)
	}
	move := func(j *timeline.Job, by int) {
		j.Phases[0].Start += by
		j.Phases[0].End += by
	}
	drop := func(l *timeline.Timeline, title string) {
		l.Jobs = slices.DeleteFunc(l.Jobs, func(j *timeline.Job) bool { return strings.HasPrefix(j.Title, title) })
	}
	build()
	tools := farmhouse()
	tools.Tools = []resolve.Tool{{Name: "mill", Key: "mill", Washed: 2 * time.Minute}}
	dip := recipe("Dip", step("Grind", work(5), withTool("mill")), &resolve.ServeHow{State: "cold"})
	rub := recipe("Rub", step("Crush", work(5), withTool("mill")), &resolve.ServeHow{State: "cold"})
	milled := newMeal(tools).serve("First", at(13, 0), dip, rub).planned(t)
	job(milled, t, "Wash the mill").Title = "Admire the mill"
	require.NotEmpty(t, faults(milled))
	for name, harm := range map[string]func(*timeline.Timeline){
		"too soon":         func(l *timeline.Timeline) { move(job(l, t, "Wash up after Soup"), -180) },
		"after the table":  func(l *timeline.Timeline) { move(job(l, t, "Wash up after Bread"), 60) },
		"none for a dish":  func(l *timeline.Timeline) { drop(l, "Wash up after Soup") },
		"before, too late": func(l *timeline.Timeline) { move(job(l, t, "Wash up before serving"), 10) },
		"before, too soon": func(l *timeline.Timeline) { move(job(l, t, "Wash up before serving"), -240) },
		"none before":      func(l *timeline.Timeline) { drop(l, "Wash up before") },
		"no rounds":        func(l *timeline.Timeline) { drop(l, "Wash up, round") },
		"too short":        func(l *timeline.Timeline) { job(l, t, "Wash up before serving").Phases[0].Start++ },
		"nobody":           func(l *timeline.Timeline) { job(l, t, "Wash up before serving").Cooks = nil },
	} {
		line := build()
		harm(line)
		require.NotEmpty(t, faults(line), name)
	}
}

// toolsWashed checks that a tool of which there is one is washed, by somebody,
// between two dishes that have it.
func (a *auditor) toolsWashed() {
	count := map[string]int{}
	for _, t := range a.kit.Tools {
		count[t.Key]++
	}
	for _, t := range a.kit.Tools {
		if t.Washed == 0 || count[t.Key] > 1 {
			continue
		}
		var uses []stretch
		for _, j := range a.line.Jobs {
			if j.Step == nil || !slices.Contains(j.Step.Step.Tools, t.Key) {
				continue
			}
			s := stretch{from: timeline.MaxMinutes, job: j}
			for _, p := range j.Phases {
				if p.Kind != resolve.Leave {
					s.from, s.to = min(s.from, p.Start), p.End
				}
			}
			if s.from < s.to {
				uses = append(uses, s)
			}
		}
		slices.SortFunc(uses, func(a, b stretch) int { return a.from - b.from })
		for i := 1; i < len(uses); i++ {
			was, now := uses[i-1], uses[i]
			if was.job.Making.Recipe == now.job.Making.Recipe || len(was.job.Step.Step.If)+len(now.job.Step.Step.If) > 0 {
				continue // what may fall away with a pause is not promised
			}
			if !slices.ContainsFunc(a.line.Jobs, func(j *timeline.Job) bool {
				return j.Kind == timeline.WashJob && strings.HasPrefix(j.Title, "Wash the "+t.Name) && len(j.Cooks) == 1 && was.to <= j.Start() && j.Start() <= was.to+60 &&
					j.End() <= now.from && time.Duration(j.End()-j.Start())*time.Minute >= t.Washed
			}) {
				a.say("the %s goes from %s to %s and is not washed", t.Name, was.job.Title, now.job.Title)
			}
		}
	}
}
