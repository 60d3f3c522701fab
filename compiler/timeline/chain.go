package timeline

import "slices"

// criticalChain finds the chain that makes the meal as long as it is, and marks
// its jobs: among runs of jobs that have nothing to spare between them and end
// at a serving, the one that begins first, and of those the one with the fewest
// jobs.
func (r *result) criticalChain() (chain []*Job) {
	type run struct {
		start Minute // of its first job
		jobs  int
		next  *job
	}
	better := func(a, b run) bool { return a.start < b.start || a.start == b.start && a.jobs < b.jobs }
	arcs := slices.DeleteFunc(r.arcs(), func(a arc) bool {
		return r.spare(a) >= r.draft.grid || a.from.Kind != "" && r.on(a.from) && r.job(a.from).Slack >= r.draft.grid || a.from == a.to
	})
	best := map[*job]run{}
	for range len(r.draft.jobs) + 1 {
		changed := false
		for _, a := range arcs {
			tail, ok := best[a.to]
			if a.to.Kind == "" { // a course
				tail, ok = run{start: r.start(a.to)}, true
			}
			if !ok || r.start(a.from) > r.start(a.to) {
				continue
			}
			// A run begins where its first job does, and is found from its end.
			n := run{r.start(a.from), 1 + tail.jobs, a.to}
			if have, ok := best[a.from]; !ok || n.jobs < have.jobs {
				best[a.from], changed = n, true
			}
		}
		if !changed {
			break
		}
	}
	var first *job
	for _, j := range r.draft.jobs {
		if n, ok := best[j]; ok && (first == nil || better(n, best[first])) {
			first = j
		}
	}
	for j := first; j != nil && j.Kind != "" && !slices.Contains(chain, r.job(j)); j = best[j].next {
		r.job(j).Critical = true
		chain = append(chain, r.job(j))
	}
	return chain
}
