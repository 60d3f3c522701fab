package answer

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// What a range is taken to mean when meals are cooked by chance. The plan
// itself allows for the longer figure of every range.
const (
	oddsRuns = 1000

	// blamed is how many late meals are looked into for what made them late.
	blamed = 20

	// beyond is the part of all times that are shorter than the lower figure of
	// a range, and that are longer than the upper: a range is an estimate of
	// what is usual, as the tenth and the ninetieth of a hundred are in
	// three-point estimating (Keefer & Bodily 1983, from memory).
	beyond = 0.1
)

// Doubt is a phase whose time is not certain: a range or a guess. Maybe is a job
// that happens half the time.
type Doubt struct {
	Job         *problem.Job
	end         int // of the phase, in minutes from the job's start
	Planned     int // minutes
	Least, Most float64
	maybe       bool
}

// Draw is by how many minutes the phase misses its plan, for a chance from 0
// to 1: the middle of the range is likeliest, and its likelihood falls evenly
// to both sides (a triangle), so that a tenth lies beyond either figure.
func (d Doubt) Draw(chance float64) float64 {
	if d.maybe {
		if chance < 0.5 {
			return -float64(d.Planned)
		}
		return 0
	}
	half := (d.Most - d.Least) / 2 / (1 - math.Sqrt(2*beyond))
	off := half * (math.Sqrt(2*chance) - 1)
	if chance > 0.5 {
		off = half * (1 - math.Sqrt(2*(1-chance)))
	}
	return (d.Least+d.Most)/2 + off - float64(d.Planned)
}

// Doubts lists what a plan cannot know: ranges, guesses, and steps that may not
// happen; to be asked before jobs are stretched.
func (r *Result) Doubts() (out []Doubt) {
	for _, j := range r.Draft.Jobs {
		if !r.On(j) {
			continue
		}
		if j.IfNeeded() {
			out = append(out, Doubt{Job: j, end: j.Length, Planned: j.Length, maybe: true})
			continue
		}
		for i, p := range j.Parts {
			n := p.Length()
			guess := guessed(j, i)
			if guess == problem.Sure && p.Kind != resolve.Leave {
				guess = problem.ByHand
			}
			switch least, most := guess.Spread(); {
			case p.Least > 0 && p.Least < n:
				out = append(out, Doubt{Job: j, end: int(p.To), Planned: n, Least: float64(p.Least), Most: float64(n)})
			case least < most:
				out = append(out, Doubt{Job: j, end: int(p.To), Planned: n, Least: least * float64(n), Most: most * float64(n)})
			}
		}
	}
	return out
}

// guessed is how sure the writer was of a phase; a time that nobody wrote is
// as by sight.
func guessed(j *problem.Job, phase int) problem.Guess {
	switch {
	case j.Assumed:
		return problem.BySight
	case phase < len(j.Guesses):
		return j.Guesses[phase]
	}
	return problem.Sure
}

// cooked is what comes of a meal that is cooked again and again.
type cooked struct {
	// of what
	draft *problem.Draft
	tasks []plan.Task
	seed  uint64

	onTime  int
	missed  []float64 // by how much the others were late
	courses []int     // how often each was late
	saved   []float64 // minutes of lateness there would not be if a doubt were none
}

// Chance is what comes of cooking the meal again and again, each range as long as chance
// has it. Cooks keep to the sheet: nothing begins before its time, and what has to wait
// begins as soon as it can, in the order of the plan.
func (r *Result) Chance(seed uint64) *timeline.Odds {
	doubts := r.Doubts()
	if len(doubts) == 0 {
		return nil
	}
	c := r.cooked
	if c == nil || c.draft != r.Draft || c.seed != seed || len(c.saved) != len(doubts) || !slices.EqualFunc(c.tasks, r.Solution.Tasks, sameTask) {
		c = r.cook(doubts, seed)
		r.cooked = c
	}
	odds := &timeline.Odds{Runs: oddsRuns, OnTime: c.onTime, Watch: r.worstOf(doubts, c.saved)}
	for _, late := range c.missed {
		odds.Worst = max(odds.Worst, int(late))
	}
	for i, course := range r.Draft.Courses {
		odds.Courses = append(odds.Courses, timeline.CourseOdds{Course: course.Course, Late: c.courses[i]})
	}
	if odds.Buffer = buffer(c.missed); r.Late() > 0 {
		odds.Buffer = 0 // it has other cures
	} else if odds.Buffer > 0 {
		odds.TooLong, odds.Closed = r.shifted(odds.Buffer)
	}
	return odds
}

// sameTask tells whether two tasks are done at the same time by the same people.
func sameTask(a, b plan.Task) bool {
	return a.On == b.On && a.Start == b.Start && a.End == b.End && a.Mode == b.Mode && slices.Equal(a.Members, b.Members)
}

// cook cooks the meal as often as it takes.
func (r *Result) cook(doubts []Doubt, seed uint64) *cooked {
	sim := newSimulation(r, doubts)
	c := &cooked{draft: r.Draft, seed: seed, courses: make([]int, len(sim.due)), saved: make([]float64, len(doubts))}
	for _, t := range r.Solution.Tasks {
		t.Members = slices.Clone(t.Members)
		c.tasks = append(c.tasks, t)
	}
	rng := rand.New(rand.NewPCG(seed, 0x6f646473))
	off := make([]float64, len(doubts))
	for range oddsRuns {
		for i, d := range doubts {
			off[i] = d.Draw(rng.Float64())
		}
		worst, late := sim.run(off)
		if worst < 1 {
			c.onTime++
		} else {
			c.missed = append(c.missed, worst)
		}
		for i := range c.courses {
			if sim.late(i) >= 1 {
				c.courses[i]++
			}
		}
		if late == 0 || len(c.missed) > blamed {
			continue
		}
		for i := range doubts {
			if was := off[i]; was > 0 {
				off[i] = 0
				_, without := sim.run(off)
				c.saved[i] += late - without
				off[i] = was
			}
		}
	}
	return c
}

// buffer is how much earlier all would have to begin, in whole fives of minutes, for
// 95 meals in 100 to be on time, of those that were late by so much.
func buffer(missed []float64) int {
	spared := oddsRuns / 20 // that many may be late
	if len(missed) <= spared {
		return 0
	}
	missed = slices.Sorted(slices.Values(missed))
	return timeline.CeilDiv(int(math.Floor(missed[len(missed)-1-spared])), 5) * 5
}

// shifted tells what would be broken if all but the servings were so many minutes earlier:
// the dishes that would wait too long for the table, and the hours.
func (r *Result) shifted(by int) (tooLong []string, closed bool) {
	for _, l := range r.Draft.Links {
		if l.To.Job.Kind != "" || l.From.Job.Mk == nil || l.Max < 0 || !r.Counts(l) || l.Why == problem.BeforeServing {
			continue
		}
		if name := l.From.Job.Mk.M.Recipe.Name; r.time(l.To)-r.time(l.From)+by > l.Max && !slices.Contains(tooLong, name) {
			tooLong = append(tooLong, name)
		}
	}
	for _, e := range r.errands() { // in order of time
		if at := r.Draft.Origin + e.from*r.Draft.Grid; at >= 0 { // of the day of serving
			return tooLong, r.open(at) && !r.open(at-by)
		}
	}
	return tooLong, false
}

// late is by how much a course was late in the last run.
func (s *simulation) late(course int) float64 {
	return max(0, s.now[s.courses[course]]-s.due[course])
}

// worstOf lists the jobs whose ranges cost most, worst first, three at most.
func (r *Result) worstOf(doubts []Doubt, cost []float64) (out []*timeline.Job) {
	sum := map[*problem.Job]float64{}
	var jobs []*problem.Job
	for i, d := range doubts {
		if !slices.Contains(jobs, d.Job) {
			jobs = append(jobs, d.Job)
		}
		sum[d.Job] += cost[i]
	}
	slices.SortStableFunc(jobs, func(a, b *problem.Job) int { return cmp.Compare(sum[b], sum[a]) })
	for _, j := range jobs {
		if sum[j] > 0 && len(out) < 3 {
			out = append(out, r.Job(j))
		}
	}
	return out
}

// simulation cooks one plan with other times.
type simulation struct {
	starts  []float64 // planned, of jobs and courses in order of time
	due     []float64 // when each course should be served
	arcs    []simArc  // in order of where they come from
	misses  [][]int   // doubts of one job that come before a moment of it; the first has none
	missed  []float64 // by how much, in this run
	now     []float64
	courses []int // their places among the starts
	back    bool  // some arc runs back in time
}

// simArc is an arc between places of starts, with the misses that make it longer and those
// that make it shorter.
type simArc struct {
	from, to     int32
	longer, less int32
	least        float64
}

func newSimulation(r *Result, doubts []Doubt) *simulation {
	s := &simulation{}
	place := map[*problem.Job]int{}
	add := func(j *problem.Job) {
		place[j] = len(s.starts)
		s.starts = append(s.starts, float64(r.Start(j)))
	}
	order := slices.Clone(r.Draft.Jobs)
	order = append(slices.DeleteFunc(order, func(j *problem.Job) bool { return !r.On(j) }), r.Draft.Courses...)
	slices.SortStableFunc(order, func(a, b *problem.Job) int { return cmp.Compare(r.Start(a), r.Start(b)) })
	for _, j := range order {
		add(j)
	}
	for _, c := range r.Draft.Courses {
		s.courses = append(s.courses, place[c])
		s.due = append(s.due, float64(c.At))
	}
	s.misses = [][]int{nil}
	by := func(j *problem.Job, at int) int32 {
		var all []int
		for i, d := range doubts {
			if d.Job == j && d.end <= at {
				all = append(all, i)
			}
		}
		n := slices.IndexFunc(s.misses, func(m []int) bool { return slices.Equal(m, all) })
		if n < 0 {
			n = len(s.misses)
			s.misses = append(s.misses, all)
		}
		return int32(n)
	}
	for _, a := range r.PushArcs() {
		s.arcs = append(s.arcs, simArc{int32(place[a.From]), int32(place[a.To]), by(a.From, a.FromAt), by(a.To, a.ToAt), float64(a.least())})
	}
	s.missed = make([]float64, len(s.misses))
	s.arcs = longest(s.arcs)
	s.back = slices.ContainsFunc(s.arcs, func(a simArc) bool { return a.from >= a.to })
	s.now = make([]float64, len(s.starts))
	return s
}

// longest are arcs in order of where they come from, without those that others make idle:
// between the same places, longer and shorter by the same, and no less.
func longest(arcs []simArc) []simArc {
	slices.SortFunc(arcs, func(a, b simArc) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to), cmp.Compare(a.longer, b.longer), cmp.Compare(a.less, b.less), cmp.Compare(b.least, a.least))
	})
	return slices.CompactFunc(arcs, func(a, b simArc) bool {
		return a.from == b.from && a.to == b.to && a.longer == b.longer && a.less == b.less
	})
}

// run gives the lateness of the latest course and of all together, in minutes.
func (s *simulation) run(off []float64) (worst, sum float64) {
	copy(s.now, s.starts)
	for n, all := range s.misses {
		s.missed[n] = 0
		for _, i := range all {
			s.missed[n] += off[i]
		}
	}
	for range len(s.starts) + 1 { // where all arcs run forward, one round settles it
		changed := false
		for _, a := range s.arcs {
			at := s.now[a.from] + a.least + s.missed[a.longer] - s.missed[a.less]
			if at > s.now[a.to]+1e-9 {
				s.now[a.to], changed = at, true
			}
		}
		if !changed || !s.back {
			break
		}
	}
	for i := range s.due {
		late := s.late(i)
		worst, sum = max(worst, late), sum+late
	}
	return worst, sum
}
