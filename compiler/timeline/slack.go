package timeline

import (
	"cmp"
	"fmt"
	"slices"
)

// arc says that one job cannot be pushed later than another allows: to begins
// at least gap after from begins.
type arc struct {
	from, to *job
	gap      int
	text     string // why, for the cook; may be empty
}

// slack works out how much later each job could start without making any
// serving later, if what comes after it moved along.
func (r *result) slack() {
	arcs := r.arcs()
	late := map[*job]int{}
	for _, j := range r.draft.jobs {
		late[j] = r.room(j)
	}
	for range len(r.draft.jobs) + 1 {
		changed := false
		for _, a := range arcs {
			spare := r.start(a.to) - r.start(a.from) - a.gap
			if a.to.Kind != "" {
				spare += late[a.to]
			}
			if spare = max(0, spare); spare < late[a.from] {
				late[a.from], changed = spare, true
			}
		}
		if !changed {
			break
		}
	}
	for _, j := range r.draft.jobs {
		if r.on(j) {
			j.Slack = late[j]
		}
	}
}

// room is how much later a job may start for what it waits for and for the
// hours of its cooks.
func (r *result) room(j *job) int {
	if !r.on(j) {
		return 0
	}
	room := day
	for _, l := range r.draft.links {
		if l.to.job == j && l.max >= 0 && r.counts(l) {
			room = min(room, r.time(l.from)+l.max-r.time(l.to))
		}
	}
	for n, role := range j.block.roles {
		if role != cookRole && role != helpRole && role != hereRole {
			continue
		}
		task := r.solution.Tasks[j.block.act]
		use := r.draft.p.Activities[j.block.act].Modes[task.Mode].Uses[n]
		to := task.End
		if use.To > 0 {
			to = task.Start + use.To
		}
		for _, s := range r.draft.p.Resources[task.Members[n]].Calendar {
			if to <= s.To && task.Start < s.To {
				room = min(room, (s.To-to)*r.draft.grid)
				break
			}
		}
	}
	return max(0, room)
}

// arcs lists what keeps jobs from being later: what waits for them, and whoever
// and whatever is wanted elsewhere next.
func (r *result) arcs() (out []arc) {
	for _, l := range r.draft.links {
		if r.counts(l) && l.from.job.Kind != "" && l.from.job.block != l.to.job.block {
			out = append(out, arc{l.from.job, l.to.job, l.from.at + l.gap - l.to.at, r.linkReason(l)})
		}
	}
	return append(out, r.handOvers()...)
}

// hold is a stretch of a resource that a job takes, in minutes.
type hold struct {
	job      *job
	from, to Minute
	setting  int
	stated   bool
}

// handOvers are the arcs from each job to those that next take what it takes.
func (r *result) handOvers() (out []arc) {
	d := r.draft
	holds := map[int][]hold{}
	for _, b := range r.blocks() {
		task := r.solution.Tasks[b.act]
		for n, u := range d.p.Activities[b.act].Modes[task.Mode].Uses {
			if b.roles[n] == hereRole {
				continue
			}
			from, to := 0, task.End-task.Start
			if u.To > 0 {
				from, to = u.From, u.To
			}
			at := d.origin + task.Start*d.grid
			holds[task.Members[n]] = append(holds[task.Members[n]], hold{
				b.jobs[len(b.jobs)-1], at + from*d.grid, min(at+to*d.grid, at+b.length), task.Settings[n], u.State != nil,
			})
		}
	}
	for res := range d.p.Resources {
		hs := holds[res]
		slices.SortStableFunc(hs, func(a, b hold) int { return cmp.Compare(a.from, b.from) })
		rule := d.p.Resources[res]
		for i, a := range hs {
			for _, b := range hs[i+1:] {
				gap := 0
				switch {
				case a.stated && b.stated && a.setting != b.setting:
					gap = rule.State.Change * d.grid
				case rule.Capacity > 1 && !r.full(hs, b.from, rule.Capacity):
					continue
				}
				if b.from < a.to || a.job.block == b.job.block {
					continue
				}
				text := fmt.Sprintf("%s is wanted for %s at %s", rule.Name, b.job.of(), r.clockText(b.from))
				if res == d.kit.rings {
					text = fmt.Sprintf("its ring is wanted for %s at %s", b.job.of(), r.clockText(b.from))
				}
				out = append(out, arc{a.job, b.job, a.to - r.start(a.job) + gap - (b.from - r.start(b.job)), text})
				if rule.Capacity == 1 {
					break
				}
			}
		}
	}
	return out
}

// full tells whether all of a resource is taken at a moment.
func (r *result) full(hs []hold, at Minute, capacity int) bool {
	n := 0
	for _, h := range hs {
		if h.from <= at && at < h.to {
			n++
		}
	}
	return n >= capacity
}

// blocks lists the engine's activities that take place, in order of jobs.
func (r *result) blocks() (out []*block) {
	seen := map[*block]bool{}
	for _, j := range r.draft.jobs {
		if r.on(j) && !seen[j.block] {
			seen[j.block] = true
			out = append(out, j.block)
		}
	}
	return out
}

// linkReason says in a cook's words what a link holds a job for.
func (r *result) linkReason(l *link) string {
	at := r.clockText(r.time(l.to))
	switch {
	case l.to.job.Kind == "":
		if l.to.job.course == "" {
			return "it is served at " + at
		}
		return fmt.Sprintf("%s is served at %s", l.to.job.course, at)
	case l.why == vesselFree:
		return fmt.Sprintf("its vessel is wanted for %s at %s", l.to.job.of(), at)
	}
	return fmt.Sprintf("%s begins at %s", l.to.job.of(), at)
}

// reasons notes what each job is held by: the arcs that leave it no room.
func (r *result) reasons() {
	tight := map[*job][]string{}
	for _, a := range r.arcs() {
		spare := r.start(a.to) - r.start(a.from) - a.gap
		if spare < r.draft.grid && a.text != "" && !slices.Contains(tight[a.from], a.text) {
			tight[a.from] = append(tight[a.from], a.text)
		}
	}
	for _, j := range r.draft.jobs {
		if !r.on(j) {
			continue
		}
		j.Holds = tight[j]
		if len(j.Holds) == 0 && j.block.jobs[len(j.block.jobs)-1] != j {
			j.Holds = tight[j.block.jobs[len(j.block.jobs)-1]]
		}
	}
}
