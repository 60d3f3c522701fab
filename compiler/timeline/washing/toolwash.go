package washing

import (
	"fmt"
	"slices"
	"time"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// turn is one dish's turn with a tool: all its uses in a stretch of the dish,
// in order of step.
type turn struct {
	mk       *problem.Making
	from, to []problem.Moment
}

// washTools has a tool that takes time to wash washed between two dishes that
// need it. Where there is more than one of it another dish takes a clean one.
func washTools(d *problem.Draft) {
	var keys []string
	washed, written := map[string]time.Duration{}, map[string]string{}
	for _, t := range d.Meal.Kitchen.Tools {
		if t.Washed <= 0 {
			continue
		}
		if _, ok := washed[t.Key]; !ok {
			keys = append(keys, t.Key)
		}
		washed[t.Key] = max(washed[t.Key], t.Washed)
		written[t.Key] = fmt.Sprintf("tools %s, washed in %s", t.Name, timeline.SpanWords(timeline.Minutes(washed[t.Key])))
	}
	for _, key := range keys {
		if t, ok := d.Kit.Tools[key]; ok && t.Count == 1 {
			washTool(d, key, timeline.Minutes(washed[key]), written[key])
		}
	}
}

// turns are the turns with a tool, in order of dish. What may fall away is left
// out.
func turns(d *problem.Draft, key string) (out []turn) {
	for _, mk := range d.Makings {
		for _, s := range dishStretches(mk) {
			if len(s.when) > 0 {
				continue // up to a pause nobody decided: the last stretch has its steps as well
			}
			open := false
			for _, j := range s.steps {
				from, to, ok := inHand(j)
				if !ok || len(j.When) > 0 || !slices.Contains(j.Step.Step.Tools, key) {
					continue
				}
				if !open {
					out = append(out, turn{mk: mk})
					open = true
				}
				t := &out[len(out)-1]
				t.from, t.to = append(t.from, problem.Moment{Job: j.First(), At: from}), append(t.to, problem.Moment{Job: j, At: to})
			}
		}
	}
	return out
}

// inHand is when hands are on a job, and so on its tools, from its start.
func inHand(j *problem.Job) (from, to int, ok bool) {
	for _, p := range j.Parts {
		if p.Kind != resolve.Leave {
			return int(p.From), handsEnd(j), true
		}
	}
	return 0, 0, false
}

// washTool orders the turns with a tool, with a washing after each but the
// last.
func washTool(d *problem.Draft, key string, length int, written string) {
	t := d.Kit.Tools[key]
	turns := turns(d, key)
	other := func(a, b turn) bool { return a.mk.M.Recipe != b.mk.M.Recipe }
	clean := func(n int, when plan.When) *problem.Job {
		j := washing(d, &problem.Wash{Tool: t.Name, N: n}, "Wash the "+t.Name, length, d.Hands(nil), when)
		j.Asked = written
		act := &d.P.Activities[j.Block.Act]
		act.Modes[0].Uses = append(act.Modes[0].Uses, plan.Use{Of: []int{t.Res}, Amount: 1})
		j.Block.Roles = append(j.Block.Roles, problem.ToolRole)
		return j
	}
	switch {
	case len(turns) < 2:
		return
	case len(turns) == 2:
		if a, b := turns[0], turns[1]; other(a, b) {
			j := clean(0, nil)
			order := eitherFirst(d, t.Name, a, b)
			for i, c := range []plan.Choice{{Branch: order, Option: 0}, {Branch: order, Option: 1}} {
				first, then := a, b
				if i == 1 {
					first, then = b, a
				}
				washedAfterTurn(d, first, j, c)
				beforeTurn(d, j.End(), then, c)
			}
		}
		return
	}
	// With more, each turn but one that comes last is washed up after.
	type after struct {
		job  *problem.Job
		last plan.Choice
	}
	all := []after{}
	for n, a := range turns {
		b := d.P.AddBranch(plan.Branch{Name: t.Name, Options: []plan.Option{{Name: "washed", Cost: 1}, {Name: "last"}}})
		j := clean(n, plan.When{{Branch: b, Option: 0}})
		j.Title += " after " + a.mk.M.Recipe.Name
		washedAfterTurn(d, a, j)
		all = append(all, after{j, plan.Choice{Branch: b, Option: 1}})
	}
	for i, a := range turns {
		for k := i + 1; k < len(turns); k++ {
			b := turns[k]
			if !other(a, b) {
				continue
			}
			order := eitherFirst(d, t.Name, a, b)
			for _, o := range []struct {
				first, then turn
				wash        after
				choice      plan.Choice
			}{
				{a, b, all[i], plan.Choice{Branch: order, Option: 0}},
				{b, a, all[k], plan.Choice{Branch: order, Option: 1}},
			} {
				beforeTurn(d, o.wash.job.End(), o.then, o.choice)
				for i, m := range o.first.to {
					beforeTurn(d, m, o.then, o.choice)
					// Whoever has it last has nobody after them.
					d.Link(o.then.to[0], o.first.from[i], 0, -1, problem.Washed, o.choice, o.wash.last)
				}
			}
		}
	}
}

// washedAfterTurn has a tool washed within the hour when a dish has done with it.
func washedAfterTurn(d *problem.Draft, t turn, j *problem.Job, when ...plan.Choice) {
	for i, m := range t.to {
		most := -1
		if i == len(t.to)-1 {
			most = washSoon
		}
		d.Link(m, j.Begin(), 0, most, problem.Washed, when...)
	}
}

// beforeTurn has a dish wait for a tool.
func beforeTurn(d *problem.Draft, m problem.Moment, t turn, when ...plan.Choice) {
	for _, from := range t.from {
		d.Link(m, from, 0, -1, problem.Washed, when...)
	}
}

// eitherFirst is a branch: the one or the other has the tool first.
func eitherFirst(d *problem.Draft, tool string, a, b turn) int {
	return d.P.AddBranch(plan.Branch{
		Name:    tool,
		Options: []plan.Option{{Name: a.mk.M.Recipe.Name + " first"}, {Name: b.mk.M.Recipe.Name + " first"}},
	})
}
