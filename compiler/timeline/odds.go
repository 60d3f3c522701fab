package timeline

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// What a range is taken to mean when meals are cooked by chance. The plan
// itself allows for the longer figure of every range.
const (
	oddsRuns = 2000

	// beyond is the part of all times that are shorter than the lower figure of
	// a range, and that are longer than the upper: a range is an estimate of
	// what is usual, as the tenth and the ninetieth of a hundred are in
	// three-point estimating (Keefer & Bodily 1983, from memory).
	beyond = 0.1
)

// doubt is a phase whose time is not certain: a range or a guess. Maybe is a job
// that happens half the time.
type doubt struct {
	job         *job
	end         int // of the phase, in minutes from the job's start
	planned     int // minutes
	least, most float64
	maybe       bool
}

// draw is by how many minutes the phase misses its plan, for a chance from 0
// to 1: the middle of the range is likeliest, and its likelihood falls evenly
// to both sides (a triangle), so that a tenth lies beyond either figure.
func (d doubt) draw(chance float64) float64 {
	if d.maybe {
		if chance < 0.5 {
			return -float64(d.planned)
		}
		return 0
	}
	half := (d.most - d.least) / 2 / (1 - math.Sqrt(2*beyond))
	off := half * (math.Sqrt(2*chance) - 1)
	if chance > 0.5 {
		off = half * (1 - math.Sqrt(2*(1-chance)))
	}
	return (d.least+d.most)/2 + off - float64(d.planned)
}

// doubts lists what a plan cannot know: ranges, guesses, and steps that may not
// happen; to be asked before jobs are stretched.
func (r *result) doubts() (out []doubt) {
	for _, j := range r.draft.jobs {
		if !r.on(j) {
			continue
		}
		if j.ifNeeded() {
			out = append(out, doubt{job: j, end: j.length, planned: j.length, maybe: true})
			continue
		}
		for i, p := range j.parts {
			n := p.length()
			switch least, most := j.guessed(i).spread(); {
			case p.least > 0 && p.least < n:
				out = append(out, doubt{job: j, end: int(p.to), planned: n, least: float64(p.least), most: float64(n)})
			case least < most:
				out = append(out, doubt{job: j, end: int(p.to), planned: n, least: least * float64(n), most: most * float64(n)})
			}
		}
	}
	return out
}

// guessed is how sure the writer was of a phase; a time that nobody wrote is
// as by sight.
func (j *job) guessed(phase int) guess {
	switch {
	case j.Assumed:
		return bySight
	case phase < len(j.guesses):
		return j.guesses[phase]
	}
	return sure
}

// ifNeeded tells whether a job is a step that may not happen.
func (j *Piece) ifNeeded() bool { return j.Step != nil && j.Step.Step.OnlyIfNeeded }

// chances cooks the meal again and again, each range as long as chance has it.
// Cooks keep to the sheet: nothing begins before its time, and what has to wait
// begins as soon as it can, in the order of the plan.
func (r *result) chances(seed uint64) *Odds {
	doubts := r.doubts()
	if len(doubts) == 0 {
		return nil
	}
	sim := newSimulation(r, doubts)
	rng := rand.New(rand.NewPCG(seed, 0x6f646473))
	odds := &Odds{Runs: oddsRuns}
	saved := make([]float64, len(doubts)) // minutes of lateness there would not be if the range were kept
	off := make([]float64, len(doubts))
	for range oddsRuns {
		for i, d := range doubts {
			off[i] = d.draw(rng.Float64())
		}
		worst, late := sim.run(off)
		if worst < 1 {
			odds.OnTime++
		}
		odds.Worst = max(odds.Worst, int(worst))
		if late == 0 {
			continue
		}
		for i := range doubts {
			if was := off[i]; was > 0 {
				off[i] = 0
				_, without := sim.run(off)
				saved[i] += late - without
				off[i] = was
			}
		}
	}
	odds.Watch = r.worstOf(doubts, saved)
	return odds
}

// worstOf lists the jobs whose ranges cost most, worst first, three at most.
func (r *result) worstOf(doubts []doubt, cost []float64) (out []*Job) {
	sum := map[*job]float64{}
	var jobs []*job
	for i, d := range doubts {
		if !slices.Contains(jobs, d.job) {
			jobs = append(jobs, d.job)
		}
		sum[d.job] += cost[i]
	}
	slices.SortStableFunc(jobs, func(a, b *job) int { return cmp.Compare(sum[b], sum[a]) })
	for _, j := range jobs {
		if sum[j] > 0 && len(out) < 3 {
			out = append(out, r.job(j))
		}
	}
	return out
}

// simulation cooks one plan with other times.
type simulation struct {
	starts  []float64 // planned, by job; courses follow the jobs
	due     []float64 // when each course should be served
	arcs    []simArc
	now     []float64
	courses int // where they begin
}

// simArc is an arc between places of starts, with the doubts that make it
// longer and those that make it shorter.
type simArc struct {
	from, to     int
	least        float64
	longer, less []int
}

func newSimulation(r *result, doubts []doubt) *simulation {
	s := &simulation{}
	place := map[*job]int{}
	add := func(j *job) {
		place[j] = len(s.starts)
		s.starts = append(s.starts, float64(r.start(j)))
	}
	order := slices.Clone(r.draft.jobs)
	slices.SortStableFunc(order, func(a, b *job) int { return cmp.Compare(r.startOf(a), r.startOf(b)) })
	for _, j := range order {
		if r.on(j) {
			add(j)
		}
	}
	s.courses = len(s.starts)
	for _, c := range r.draft.courses {
		add(c)
		s.due = append(s.due, float64(c.at))
	}
	by := func(j *job, at int) (out []int) {
		for i, d := range doubts {
			if d.job == j && d.end <= at {
				out = append(out, i)
			}
		}
		return out
	}
	for _, a := range append(r.arcs(), r.courseArcs()...) {
		s.arcs = append(s.arcs, simArc{place[a.from], place[a.to], float64(a.least()), by(a.from, a.fromAt), by(a.to, a.toAt)})
	}
	slices.SortStableFunc(s.arcs, func(a, b simArc) int { return cmp.Compare(a.from, b.from) })
	s.now = make([]float64, len(s.starts))
	return s
}

// run gives the lateness of the latest course and of all together, in minutes.
func (s *simulation) run(off []float64) (worst, sum float64) {
	copy(s.now, s.starts)
	for range len(s.starts) + 1 { // arcs run forward but for few; two rounds settle most
		changed := false
		for _, a := range s.arcs {
			at := s.now[a.from] + a.least
			for _, i := range a.longer {
				at += off[i]
			}
			for _, i := range a.less {
				at -= off[i]
			}
			if at > s.now[a.to]+1e-9 {
				s.now[a.to], changed = at, true
			}
		}
		if !changed {
			break
		}
	}
	for i, due := range s.due {
		late := max(0, s.now[s.courses+i]-due)
		worst, sum = max(worst, late), sum+late
	}
	return worst, sum
}
