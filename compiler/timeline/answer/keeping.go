package answer

import (
	"tamis/compiler/demand"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Keeping is what a plan is to be kept by, from a moment on.
func (r *Result) Keeping(now timeline.Minute) *problem.Kept {
	k := &problem.Kept{Now: now, Until: problem.None, Past: map[problem.Key]problem.Past{}, Pauses: map[*demand.Making][]bool{}}
	for _, b := range r.Blocks() {
		task := r.Solution.Tasks[b.Act]
		p := problem.Past{Start: r.Draft.Origin + task.Start*r.Draft.Grid}
		for n, role := range b.Roles {
			p.Uses = append(p.Uses, problem.PastUse{Role: role, Name: r.Draft.P.Resources[task.Members[n]].Name, Setting: task.Settings[n]})
		}
		k.Past[b.Jobs[0].Key()] = p
	}
	for _, c := range r.Draft.Courses {
		k.Past[c.Key()] = problem.Past{Start: r.Start(c)}
	}
	for _, mk := range r.Draft.Makings {
		for _, p := range mk.Pauses {
			k.Pauses[mk.M] = append(k.Pauses[mk.M], p.State == problem.Paused || p.State == problem.Free && r.Solution.Options[p.Branch] == int(problem.Paused))
		}
	}
	return k
}
