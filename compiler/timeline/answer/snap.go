package answer

import (
	"cmp"
	"maps"
	"slices"

	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Snap moves as many jobs of a plan by the minute as can be to a coarser
// clock. From the last job to the first, each is begun up to a grid earlier,
// and with it whatever then has to be earlier too. A move that breaks a rule
// is taken back.
func (r *Result) Snap(grid int) {
	if r.Solution == nil {
		return
	}
	s := &snapper{r: r, grid: grid, arcs: r.Arcs(), starts: map[*problem.Block]int{}}
	order := r.Blocks()
	for _, b := range order {
		s.starts[b] = r.Solution.Tasks[b.Act].Start
	}
	for _, l := range r.Draft.Links {
		if l.Max >= 0 && r.Counts(l) {
			s.limits = append(s.limits, l)
		}
	}
	slices.SortStableFunc(order, func(a, b *problem.Block) int { return cmp.Compare(s.starts[b], s.starts[a]) })
	for _, b := range order {
		s.move(b)
	}
}

// snapper moves blocks; its times are the engine's, of one minute each.
type snapper struct {
	r      *Result
	grid   int
	arcs   []arc
	limits []*problem.Link
	starts map[*problem.Block]int
	all    bool // what has to move along goes to the grid too, not just as far as it must
}

// floor is the last moment of the grid not after a start.
func (s *snapper) floor(start int) int {
	d := s.r.Draft
	first := (d.FirstCourse().At - d.Origin) / d.Grid
	return first - timeline.CeilDiv(first-start, s.grid)*s.grid
}

// move begins a block on the grid, if everything else can follow.
func (s *snapper) move(b *problem.Block) {
	if s.starts[b] == s.floor(s.starts[b]) {
		return
	}
	before := maps.Clone(s.starts)
	for _, all := range []bool{true, false} {
		s.all = all
		if s.push(b, s.floor(s.starts[b])) {
			s.apply()
			if !s.r.Broken() {
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
func (s *snapper) push(b *problem.Block, start int) bool {
	s.starts[b] = start
	queue := []*problem.Block{b}
	for n := 0; len(queue) > 0; n++ {
		if n > 4*len(s.starts)+16 {
			return false
		}
		cur := queue[0]
		queue = queue[1:]
		earlier := func(j *problem.Job, begin int) bool {
			if j.Kind == "" {
				return false
			}
			at := begin - j.Offset
			if s.all {
				at = s.floor(at)
			}
			if have := s.starts[j.Block]; at < have {
				if !s.all && have == s.floor(have) { // it would leave the grid
					return false
				}
				s.starts[j.Block] = at
				queue = append(queue, j.Block)
			}
			return true
		}
		for _, a := range s.arcs {
			if a.To.Block == cur && s.begin(a.To)-s.begin(a.From) < a.least() && !earlier(a.From, s.begin(a.To)-a.least()) {
				return false
			}
		}
		for _, l := range s.limits {
			if from := s.begin(l.From.Job) + l.From.At; l.From.Job.Block == cur && s.begin(l.To.Job)+l.To.At > from+l.Max && !earlier(l.To.Job, from+l.Max-l.To.At) {
				return false
			}
		}
	}
	return true
}

// begin is when a job begins; courses stay where they are.
func (s *snapper) begin(j *problem.Job) int {
	if at, ok := s.starts[j.Block]; ok {
		return at + j.Offset
	}
	return s.r.Solution.Tasks[j.Block.Act].Start
}

func (s *snapper) apply() {
	for b, at := range s.starts {
		t := &s.r.Solution.Tasks[b.Act]
		t.End += at - t.Start
		t.Start = at
	}
}

// Broken tells whether the solution breaks a rule. Its score and its list of
// oven heats are those of the plan before it was moved: nothing here reads
// them.
func (r *Result) Broken() bool {
	return slices.ContainsFunc(plan.Verify(&r.Draft.P, r.Solution), func(v plan.Violation) bool {
		return v.Rule != "score" && v.Rule != "report"
	}) || r.Unwashed()
}
