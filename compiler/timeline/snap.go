package timeline

import (
	"cmp"
	"maps"
	"slices"

	"tamis/compiler/plan"
)

// snap moves as many jobs of a plan by the minute as can be to a coarser
// clock. From the last job to the first, each is begun up to a grid earlier,
// and with it whatever then has to be earlier too. A move that breaks a rule
// is taken back.
func (r *result) snap(grid int) {
	if r.solution == nil {
		return
	}
	s := &snapper{r: r, grid: grid, arcs: r.arcs(), starts: map[*block]int{}}
	order := r.blocks()
	for _, b := range order {
		s.starts[b] = r.solution.Tasks[b.act].Start
	}
	for _, l := range r.draft.links {
		if l.max >= 0 && r.counts(l) {
			s.limits = append(s.limits, l)
		}
	}
	slices.SortStableFunc(order, func(a, b *block) int { return cmp.Compare(s.starts[b], s.starts[a]) })
	for _, b := range order {
		s.move(b)
	}
}

// snapper moves blocks; its times are the engine's, of one minute each.
type snapper struct {
	r      *result
	grid   int
	arcs   []arc
	limits []*link
	starts map[*block]int
	all    bool // what has to move along goes to the grid too, not just as far as it must
}

// floor is the last moment of the grid not after a start.
func (s *snapper) floor(start int) int {
	d := s.r.draft
	first := (d.firstCourse().at - d.origin) / d.grid
	return first - ceilDiv(first-start, s.grid)*s.grid
}

// move begins a block on the grid, if everything else can follow.
func (s *snapper) move(b *block) {
	if s.starts[b] == s.floor(s.starts[b]) {
		return
	}
	before := maps.Clone(s.starts)
	for _, all := range []bool{true, false} {
		s.all = all
		if s.push(b, s.floor(s.starts[b])) {
			s.apply()
			if !s.r.broken() {
				return
			}
		}
		maps.Copy(s.starts, before)
		s.apply()
	}
}

// push begins a block at a time and makes what it waits for, and what may not
// wait longer for it, earlier as well. It fails when that has no end or would
// move a course.
func (s *snapper) push(b *block, start int) bool {
	s.starts[b] = start
	queue := []*block{b}
	for n := 0; len(queue) > 0; n++ {
		if n > 4*len(s.starts)+16 {
			return false
		}
		cur := queue[0]
		queue = queue[1:]
		earlier := func(j *job, begin int) bool {
			if j.Kind == "" {
				return false
			}
			at := begin - j.offset
			if s.all {
				at = s.floor(at)
			}
			if have := s.starts[j.block]; at < have {
				if !s.all && have == s.floor(have) { // it would leave the grid
					return false
				}
				s.starts[j.block] = at
				queue = append(queue, j.block)
			}
			return true
		}
		for _, a := range s.arcs {
			if a.to.block == cur && s.begin(a.to)-s.begin(a.from) < a.least() && !earlier(a.from, s.begin(a.to)-a.least()) {
				return false
			}
		}
		for _, l := range s.limits {
			if from := s.begin(l.from.job) + l.from.at; l.from.job.block == cur && s.begin(l.to.job)+l.to.at > from+l.max && !earlier(l.to.job, from+l.max-l.to.at) {
				return false
			}
		}
	}
	return true
}

// begin is when a job begins; courses stay where they are.
func (s *snapper) begin(j *job) int {
	if at, ok := s.starts[j.block]; ok {
		return at + j.offset
	}
	return s.r.solution.Tasks[j.block.act].Start
}

func (s *snapper) apply() {
	for b, at := range s.starts {
		t := &s.r.solution.Tasks[b.act]
		t.End += at - t.Start
		t.Start = at
	}
}

// broken tells whether the solution breaks a rule. Its score and its list of
// oven heats are those of the plan before it was moved: nothing here reads
// them.
func (r *result) broken() bool {
	return slices.ContainsFunc(plan.Verify(&r.draft.p, r.solution), func(v plan.Violation) bool {
		return v.Rule != "score" && v.Rule != "report"
	}) || r.unwashed()
}
