package answer

import (
	"slices"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// criticalChain finds the chain that makes the meal as long as it is, and marks
// its jobs: among runs of jobs that have nothing to spare between them and end
// at a serving, the one that begins first, and of those the one with the fewest
// jobs.
func (r *Result) criticalChain() (chain []*timeline.Job) {
	type run struct {
		start timeline.Minute // of its first job
		jobs  int
		next  *problem.Job
	}
	better := func(a, b run) bool { return a.start < b.start || a.start == b.start && a.jobs < b.jobs }
	arcs := slices.DeleteFunc(r.Arcs(), func(a arc) bool {
		return r.spare(a) >= r.Draft.Grid || a.From.Kind != "" && r.On(a.From) && r.Job(a.From).Slack >= r.Draft.Grid || a.From == a.To
	})
	best := map[*problem.Job]run{}
	for range len(r.Draft.Jobs) + 1 {
		changed := false
		for _, a := range arcs {
			tail, ok := best[a.To]
			if a.To.Kind == "" { // a course
				tail, ok = run{start: r.Start(a.To)}, true
			}
			if !ok || r.Start(a.From) > r.Start(a.To) {
				continue
			}
			// A run begins where its first job does, and is found from its end.
			n := run{r.Start(a.From), 1 + tail.jobs, a.To}
			if have, ok := best[a.From]; !ok || n.jobs < have.jobs {
				best[a.From], changed = n, true
			}
		}
		if !changed {
			break
		}
	}
	var first *problem.Job
	for _, j := range r.Draft.Jobs {
		if n, ok := best[j]; ok && (first == nil || better(n, best[first])) {
			first = j
		}
	}
	for j := first; j != nil && j.Kind != "" && !slices.Contains(chain, r.Job(j)); j = best[j].next {
		r.Job(j).Critical = true
		chain = append(chain, r.Job(j))
	}
	return chain
}
