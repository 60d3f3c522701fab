package planner

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// audit holds a timeline against the meal itself, minute by minute, from the
// rules as the notation states them. It shares no code with the planner: it
// reads only the model and the clock times.
func audit(t *testing.T, line *timeline.Timeline) {
	t.Helper()
	for _, fault := range faults(line) {
		t.Errorf("%s", fault)
	}
}

type auditor struct {
	line *timeline.Timeline
	kit  *resolve.Kitchen
	list []string
}

func (a *auditor) say(format string, args ...any) {
	a.list = append(a.list, fmt.Sprintf(format, args...))
}

func faults(line *timeline.Timeline) []string {
	a := &auditor{line: line, kit: line.Meal.Kitchen}
	if a.kit == nil {
		a.kit = &resolve.Kitchen{WaitHot: resolve.WaitHot, WaitCold: resolve.WaitCold, WaitPrepared: resolve.WaitPrepared}
	}
	a.shapes()
	a.hands()
	a.capacities()
	a.ovens()
	for _, m := range line.Meal.Makings {
		a.order(m)
		a.preparation(m)
		a.sources(m)
	}
	a.table()
	a.sink()
	return a.list
}

type stretch struct {
	from, to timeline.Minute
	amount   int
	job      *timeline.Job
}

// shapes checks that phases touch and that nothing is shorter than written.
func (a *auditor) shapes() {
	for _, j := range a.line.Jobs {
		for i, p := range j.Phases {
			if i > 0 && p.Start != j.Phases[i-1].End || p.End <= p.Start {
				a.say("%s: phases do not touch", j.Title)
			}
		}
		if j.Step == nil || j.Load > 0 { // loads are checked together
			continue
		}
		written := 0
		for _, sp := range j.Step.Step.Phases {
			if sp.Fixed != nil && sp.Every == nil {
				high := sp.Fixed.High
				if sp.Fixed.Overnight {
					high = sp.Fixed.Low
				}
				written += int((high + time.Minute - 1) / time.Minute)
			}
		}
		if j.End()-j.Start() < written {
			a.say("%s: %d min, written %d", j.Title, j.End()-j.Start(), written)
		}
	}
}

// overlaps reports where more than have is taken at once.
func (a *auditor) overlaps(what string, have int, list []stretch) {
	for _, s := range list {
		sum := 0
		var who []string
		for _, o := range list {
			if o.from <= s.from && s.from < o.to && (o.job != s.job || o == s) { // one job is one job
				sum += o.amount
				who = append(who, o.job.Title)
			}
		}
		if sum > have {
			a.say("%s: %d of %d at %s by %v", what, sum, have, a.line.TimeText(s.from), who)
			return
		}
	}
}

func (a *auditor) hands() {
	for _, name := range a.line.Cooks {
		var list []stretch
		for _, j := range a.line.Jobs {
			for _, p := range j.Phases {
				if slices.Contains(p.Cooks, name) {
					list = append(list, stretch{p.Start, p.End, 1, j})
				}
			}
			for _, p := range j.Touches {
				if slices.Contains(p.Cooks, name) && !slices.ContainsFunc(j.Phases, func(q timeline.Phase) bool {
					return slices.Contains(q.Cooks, name) && q.Start <= p.Start && p.Start < q.End
				}) {
					list = append(list, stretch{p.Start, p.End, 1, j})
				}
			}
		}
		a.overlaps(name, 1, list)
		menu := a.line.Meal.Menu
		if menu == nil || !a.line.Clock || len(menu.Hours) == 0 {
			continue
		}
		for _, s := range list {
			if s.job.Later && strings.Contains(a.line.Note, "past the hours") {
				continue
			}
			for at := s.from; at < s.to; at++ {
				if !slices.ContainsFunc(menu.Hours, func(h resolve.Hours) bool {
					return h.From <= at && at < h.To && (len(h.Cooks) == 0 || slices.Contains(h.Cooks, larder.Fold(name)))
				}) {
					a.say("%s works on %s at %s, outside the hours", name, s.job.Title, a.line.TimeText(at))
					break
				}
			}
		}
	}
	for _, j := range a.line.Jobs {
		for _, p := range j.Phases {
			want := 0
			if p.Kind != resolve.Leave {
				want = 1
			}
			if p.Kind == resolve.Work && j.Step != nil {
				want = max(1, j.Step.Step.Cooks)
			}
			if len(p.Cooks) < want {
				a.say("%s: %d cooks for a %s of %d", j.Title, len(p.Cooks), p.Kind, want)
			}
		}
	}
}

func (a *auditor) capacities() {
	var rings []stretch
	tools, vessels := map[string][]stretch{}, map[string][]stretch{}
	for _, j := range a.line.Jobs {
		if j.Step == nil {
			continue
		}
		s := j.Step.Step
		whole := stretch{j.Start(), j.End(), max(1, s.Rings), j}
		if s.Rings > 0 {
			rings = append(rings, whole)
		}
		whole.amount = 1
		if s.Vessel != "" {
			vessels[s.Vessel] = append(vessels[s.Vessel], whole)
		}
		hands := stretch{amount: 1, job: j, from: 1, to: 0}
		for _, p := range j.Phases {
			if p.Kind != resolve.Leave {
				if hands.from > hands.to {
					hands.from = p.Start
				}
				hands.to = p.End
			}
		}
		for _, tool := range s.Tools {
			if hands.from < hands.to {
				tools[tool] = append(tools[tool], hands)
			}
		}
	}
	if a.kit.Rings > 0 {
		a.overlaps("rings", a.kit.Rings, rings)
	}
	for _, tool := range a.kit.Tools {
		a.overlaps(tool.Name, 1, tools[tool.Key])
	}
	for _, v := range a.kit.Vessels {
		a.overlaps(v.Name, max(1, v.Count), vessels[v.Key])
	}
}

// ovens checks shelves, heats and preheating.
func (a *auditor) ovens() {
	for _, o := range a.kit.Ovens {
		var list []stretch
		for _, j := range a.line.Jobs {
			if j.Oven != o.Name || j.Step == nil {
				continue
			}
			from := j.Start()
			if j.Phases[0].Kind == resolve.Work && len(j.Phases) > 1 {
				from = j.Phases[0].End
			}
			list = append(list, stretch{from, j.End(), j.Shelves, j})
			a.heated(o, j, from)
		}
		a.overlaps(o.Name, o.Shelves, list)
		var last *timeline.Heat
		for _, h := range a.line.Heats {
			if h.Oven != o.Name {
				continue
			}
			if last != nil && h.Start < last.End {
				a.say("%s is at two heats at %s", o.Name, a.line.TimeText(h.Start))
			}
			if last != nil && h.Start-last.End < min(changing(o, last.Celsius, h.Celsius), int(o.Preheat/time.Minute)) {
				a.say("%s goes from %d to %d in %d min", o.Name, last.Celsius, h.Celsius, h.Start-last.End)
			}
			last = h
		}
	}
}

// changing is how long an oven of an ordinary pace takes between two heats: up
// by 12 degrees a minute, down by 4, if its preheat is a quarter of an hour;
// begun fives of minutes count.
func changing(o resolve.Oven, from, to int) int {
	pace := 12.0
	if to < from {
		pace = 4
	}
	way := math.Abs(float64(to-from)) * o.Preheat.Minutes() / 15 / pace
	return 5 * int(math.Ceil(way/5-1e-9))
}

// heated checks that the oven is at a heat the step allows all the while, but
// for the time that a change within a step takes at most.
func (a *auditor) heated(o resolve.Oven, j *timeline.Job, from timeline.Minute) {
	heats := j.Step.Step.Heats
	for i, h := range heats {
		to := j.End()
		if h.For > 0 && i < len(heats)-1 {
			to = min(to, from+int(h.For/time.Minute))
		}
		begin, was := from, a.stayed(j)
		if i > 0 {
			was = heats[i-1]
		}
		if was.High > 0 {
			longest := 0
			for _, was := range []int{was.Low, was.High} {
				longest = max(longest, changing(o, was, h.Low), changing(o, was, h.High))
			}
			begin = min(from+longest+a.line.Grid, to)
		}
		for at := begin; at < to; at++ {
			if !slices.ContainsFunc(a.line.Heats, func(s *timeline.Heat) bool {
				celsius := s.Celsius
				if s.Fan {
					celsius = quantity.PlainOven(celsius)
				}
				return s.Oven == o.Name && s.Start <= at && at < s.End && h.Low <= celsius && celsius <= h.High
			}) {
				a.say("%s: %s is not at %d to %d at %s", j.Title, o.Name, h.Low, h.High, a.line.TimeText(at))
				break
			}
		}
		from = to
	}
}

// stayed is the heat at which the food of a step stood in the same oven until it began;
// none where it did not.
func (a *auditor) stayed(j *timeline.Job) (was resolve.Heat) {
	for _, o := range a.line.Jobs {
		if o.Making == j.Making && o != j && o.Oven == j.Oven && o.End() == j.Start() && o.Phases[len(o.Phases)-1].Kind != resolve.Work && j.Phases[0].Kind != resolve.Work {
			was = o.Step.Step.Heats[len(o.Step.Step.Heats)-1]
		}
	}
	return was
}

// jobsOf lists the step jobs of a making in the order of its steps.
func (a *auditor) jobsOf(m *demand.Making) (out []*timeline.Job) {
	for _, j := range a.line.Jobs {
		if j.Making == m && j.Kind == timeline.StepJob && j.Load == 0 {
			out = append(out, j)
		}
		if j.Making == m && j.Load == 1 {
			out = append(out, a.together(j))
		}
	}
	slices.SortFunc(out, func(a, b *timeline.Job) int { return a.Step.Step.Index - b.Step.Step.Index })
	return out
}

// together checks the loads of a step, and makes one job of them, from the
// beginning of the first to the end of the last: every load is there, has its
// own time to the full, and comes in its turn and soon after the one before.
func (a *auditor) together(first *timeline.Job) *timeline.Job {
	loads := make([]*timeline.Job, first.Loads)
	for _, j := range a.line.Jobs {
		if j.Making == first.Making && j.Step == first.Step {
			loads[j.Load-1] = j
		}
	}
	whole := *first
	whole.Title = first.Step.Step.Title
	whole.Phases = nil
	for i, j := range loads {
		if j == nil {
			a.say("%s: load %d is missing", whole.Title, i+1)
			return first
		}
		each := 0
		for _, sp := range j.Step.Step.Phases {
			if sp.Per != nil && sp.Each.Load {
				each += int((sp.Per.High + time.Minute - 1) / time.Minute)
			}
		}
		if j.End()-j.Start() < each {
			a.say("%s: %d min, written %d", j.Title, j.End()-j.Start(), each)
		}
		if i > 0 && len(j.Cooks) == 0 {
			a.say("%s: nobody puts it in", j.Title)
		}
		if i > 0 && (j.End() < loads[i-1].End() || j.Start() > loads[i-1].End()+30) {
			a.say("%s does not come in its turn", j.Title)
		}
		whole.Phases = append(whole.Phases, j.Phases...)
	}
	whole.Phases[0].Start, whole.Phases[len(whole.Phases)-1].End = first.Start(), loads[len(loads)-1].End()
	return &whole
}

func (a *auditor) hotStep(s *resolve.Step) bool { return len(s.Heats) > 0 || s.Rings > 0 || s.Grill }

// order checks rules 1 to 3, 7 and 8 of the notation.
func (a *auditor) order(m *demand.Making) {
	jobs := a.jobsOf(m)
	for i, j := range jobs {
		s := j.Step.Step
		var plain *timeline.Job
		var strand []*timeline.Job
		for k := i - 1; k >= 0 && plain == nil; k-- {
			if jobs[k].Step.Step.Meanwhile {
				strand = append(strand, jobs[k])
			} else {
				plain = jobs[k]
			}
		}
		switch {
		case s.Meanwhile:
			if plain != nil && j.Start() < plain.Start() {
				a.say("%s starts before its host %s", j.Title, plain.Title)
			}
			if len(strand) > 0 && j.Start() < strand[0].End() {
				a.say("%s starts before %s is done", j.Title, strand[0].Title)
			}
		case s.AnyTime || len(s.After) > 0:
		case plain != nil:
			for _, b := range append(strand, plain) {
				if j.Start() < b.End() {
					a.say("%s starts before %s is done", j.Title, b.Title)
				}
			}
			a.waited(m, plain, j, strand)
		}
		for _, maker := range s.After {
			for _, b := range jobs {
				if b.Step.Step == maker && j.Start() < b.End() {
					a.say("%s starts before %s is done", j.Title, b.Title)
				}
			}
		}
	}
}

// waited checks the limit on waiting between two steps.
func (a *auditor) waited(m *demand.Making, from, to *timeline.Job, strand []*timeline.Job) {
	s, n := from.Step.Step, to.Step.Step
	limit := a.kit.WaitCold
	if a.hotStep(s) {
		limit = a.kit.WaitHot
	}
	hold, held := heldFor(s)
	kept := false
	for _, c := range s.Margin {
		if k, ok := c.(*resolve.Keeping); ok {
			kept, limit = true, max(limit, k.Keep.Time.High, k.Keep.Time.UpTo)
		}
	}
	for _, p := range s.Makes {
		if p.Keeps != nil {
			kept = true
			limit = max(limit, p.Keeps.Time.High, p.Keeps.Time.UpTo)
		}
	}
	switch {
	case n.Within != nil && held:
		limit = min(*n.Within, hold)
	case n.Within != nil:
		limit = *n.Within
	case held:
		limit = hold
	case !kept && len(s.Phases) > 0 && s.Phases[len(s.Phases)-1].Kind == resolve.Leave && !a.hotStep(s):
		if f := s.Phases[len(s.Phases)-1].Fixed; f != nil && f.UpTo > f.High { // what is left of the permission
			limit = f.UpTo - f.High - time.Duration(from.Phases[len(from.Phases)-1].Stretch)*time.Minute
		}
	}
	for _, p := range m.Recipe.Pauses {
		if s.Pause < p.Number && p.Number <= n.Pause && a.line.Paused[p][m] {
			limit = max(limit, p.UpTo)
		}
	}
	for _, sp := range s.Phases { // what is left of a permission counts as leaving
		if sp.Fixed != nil && sp.Fixed.AtLeast {
			return
		}
	}
	last := from.End()
	for _, b := range strand {
		last = max(last, b.End())
	}
	if wait := to.Start() - last; time.Duration(wait)*time.Minute > limit {
		a.say("%s waits %d min for %s, at most %v", from.Title, wait, to.Title, limit)
	}
}

// heldFor is how long a step lets what it made be held.
func heldFor(s *resolve.Step) (time.Duration, bool) {
	if s.Hold == nil || s.Hold.UpTo == nil {
		return 0, false
	}
	return max(s.Hold.UpTo.High, s.Hold.UpTo.UpTo), true
}

// preparation checks that what is prepared is ready before it is used, and not
// too long before.
func (a *auditor) preparation(m *demand.Making) {
	for _, j := range a.line.Jobs {
		if j.Making != m || j.Kind != timeline.PrepJob {
			continue
		}
		for _, user := range a.jobsOf(m) {
			if !slices.ContainsFunc(user.Step.Takes, func(t resolve.Take) bool { return t.Line == j.Line.Line && !t.Refers }) {
				continue
			}
			if user.Start() < j.End() {
				a.say("%s is used at %s before it is prepared", j.Title, a.line.TimeText(user.Start()))
			}
			if wait := user.Start() - j.End(); j.Phases[len(j.Phases)-1].Kind != resolve.Leave && time.Duration(wait)*time.Minute > a.kit.WaitPrepared {
				a.say("%s waits %d min", j.Title, wait)
			}
			break
		}
	}
}

// sources checks that a base is ready before it is drawn on and still keeps.
func (a *auditor) sources(m *demand.Making) {
	for _, amount := range m.Lines {
		if amount.Source == nil {
			continue
		}
		from := a.jobsOf(amount.Source)
		for _, user := range a.jobsOf(m) {
			if !slices.ContainsFunc(user.Step.Takes, func(t resolve.Take) bool { return t.Line == amount.Line && !t.Refers }) {
				continue
			}
			ready := -1 << 30
			for _, j := range from {
				if p := amount.Line.Product; p == nil || p.Step == j.Step.Step {
					ready = max(ready, j.End())
				}
			}
			if user.Start() < ready && (amount.Line.Product == nil || len(amount.Line.Product.Step.Moments) == 0) {
				a.say("%s takes %s at %s, ready at %s", user.Title, amount.Line.Name, a.line.TimeText(user.Start()), a.line.TimeText(ready))
			}
			keeps := 2 * time.Hour
			if k := amount.Source.Recipe.Keeps; k != nil {
				keeps = max(k.Time.High, k.Time.UpTo)
			}
			if p := amount.Line.Product; p != nil && p.Keeps != nil {
				keeps = max(p.Keeps.Time.High, p.Keeps.Time.UpTo)
			}
			if n := len(from); n > 0 && amount.Line.Product == nil && from[n-1].End() == ready {
				if hold, held := heldFor(from[n-1].Step.Step); held {
					keeps = hold
				}
			}
			if wait := time.Duration(user.Start()-ready) * time.Minute; ready > -1<<30 && wait > keeps && len(amount.Source.Recipe.Pauses) == 0 {
				a.say("%s takes %s %v after it was made, keeps %v", user.Title, amount.Line.Name, wait, keeps)
			}
		}
	}
}

// table checks that every dish is ready when it is served, and hot.
func (a *auditor) table() {
	for _, s := range a.line.Servings {
		if s.Served < s.At || s.Served > s.At && a.line.Late == 0 {
			a.say("%s is served at %s, due %s", s.Name, a.line.TimeText(s.Served), a.line.TimeText(s.At))
		}
		if s.Making == nil {
			continue
		}
		jobs := a.jobsOf(s.Making)
		end, last := -1<<30, (*timeline.Job)(nil)
		for _, j := range jobs {
			if j.End() > end {
				end, last = j.End(), j
			}
		}
		if last == nil {
			continue
		}
		if end > s.Served {
			a.say("%s is served at %s, done at %s", s.Name, a.line.TimeText(s.Served), a.line.TimeText(end))
		}
		how := s.Making.Recipe.ServeHow
		hold, held := heldFor(last.Step.Step)
		if !held && (how == nil || how.State != "hot") {
			continue
		}
		limit := a.kit.WaitHot
		if held {
			limit = hold
		}
		if how != nil && how.Within != nil && (!held || how.Within.High < hold) {
			limit = how.Within.High
		}
		if d := last.Step.Step.DoneBefore; d != nil {
			limit += *d
		}
		if wait := time.Duration(s.Served-end) * time.Minute; wait > limit {
			a.say("%s stands %v before it is served, at most %v", s.Name, wait, limit)
		}
	}
}

// The audit itself finds what is wrong: each fault put into a sound plan is
// seen.
func TestAuditSees(t *testing.T) {
	build := func() *timeline.Timeline {
		a := recipe("Soup", step("Simmer", ring, work(10), leave(30)), step("Blend", work(5)), hot(10))
		b := recipe("Bread", step("Bake", heat(220, 220), work(5), leave(35)))
		return newMeal(farmhouse()).serve("First", at(13, 0), a, b).planned(t)
	}
	require.Empty(t, faults(build()))
	move := func(j *timeline.Job, by int) {
		for i := range j.Phases {
			j.Phases[i].Start += by
			j.Phases[i].End += by
		}
	}
	for name, harm := range map[string]func(*timeline.Timeline){
		"late":         func(l *timeline.Timeline) { move(job(l, t, "Bake"), 30) },
		"out of order": func(l *timeline.Timeline) { move(job(l, t, "Blend"), -30) },
		"two at once": func(l *timeline.Timeline) {
			move(job(l, t, "Bake"), job(l, t, "Simmer").Start()-job(l, t, "Bake").Start())
		},
		"stands":    func(l *timeline.Timeline) { move(job(l, t, "Blend"), -15); move(job(l, t, "Simmer"), -15) },
		"cold oven": func(l *timeline.Timeline) { l.Heats[0].Celsius = 180 },
		"waits":     func(l *timeline.Timeline) { move(job(l, t, "Simmer"), -30) },
		"nobody":    func(l *timeline.Timeline) { job(l, t, "Blend").Phases[0].Cooks = nil },
	} {
		line := build()
		harm(line)
		require.NotEmpty(t, faults(line), name)
	}
}
