package timeline

import (
	"fmt"
	"slices"
	"time"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
)

// turn is one dish's turn with a tool: all its uses in a stretch of the dish,
// in order of step.
type turn struct {
	mk       *making
	from, to []moment
}

// washTools has a tool that takes time to wash washed between two dishes that
// need it. Where there is more than one of it another dish takes a clean one.
func (d *draft) washTools() {
	var keys []string
	washed, written := map[string]time.Duration{}, map[string]string{}
	for _, t := range d.meal.Kitchen.Tools {
		if t.Washed <= 0 {
			continue
		}
		if _, ok := washed[t.Key]; !ok {
			keys = append(keys, t.Key)
		}
		washed[t.Key] = max(washed[t.Key], t.Washed)
		written[t.Key] = fmt.Sprintf("tools %s, washed in %s", t.Name, spanWords(minutes(washed[t.Key])))
	}
	for _, key := range keys {
		if t, ok := d.kit.tools[key]; ok && t.count == 1 {
			d.washTool(key, minutes(washed[key]), written[key])
		}
	}
}

// turns are the turns with a tool, in order of dish. What may fall away is left
// out.
func (d *draft) turns(key string) (out []turn) {
	for _, mk := range d.makings {
		for _, s := range mk.dishStretches() {
			if len(s.when) > 0 {
				continue // up to a pause nobody decided: the last stretch has its steps as well
			}
			open := false
			for _, j := range s.steps {
				from, to, ok := j.inHand()
				if !ok || len(j.when) > 0 || !slices.Contains(j.Step.Step.Tools, key) {
					continue
				}
				if !open {
					out = append(out, turn{mk: mk})
					open = true
				}
				t := &out[len(out)-1]
				t.from, t.to = append(t.from, moment{j.first(), from}), append(t.to, moment{j, to})
			}
		}
	}
	return out
}

// inHand is when hands are on a job, and so on its tools, from its start.
func (j *job) inHand() (from, to int, ok bool) {
	for _, p := range j.parts {
		if p.kind != resolve.Leave {
			return int(p.from), j.handsEnd(), true
		}
	}
	return 0, 0, false
}

// washTool orders the turns with a tool, with a washing after each but the
// last.
func (d *draft) washTool(key string, length int, written string) {
	t := d.kit.tools[key]
	turns := d.turns(key)
	other := func(a, b turn) bool { return a.mk.m.Recipe != b.mk.m.Recipe }
	clean := func(n int, when plan.When) *job {
		j := d.washing(&wash{tool: t.name, n: n}, "Wash the "+t.name, length, d.hands(nil), when)
		j.Asked = written
		act := &d.p.Activities[j.block.act]
		act.Modes[0].Uses = append(act.Modes[0].Uses, plan.Use{Of: []int{t.res}, Amount: 1})
		j.block.roles = append(j.block.roles, toolRole)
		return j
	}
	switch {
	case len(turns) < 2:
		return
	case len(turns) == 2:
		if a, b := turns[0], turns[1]; other(a, b) {
			j := clean(0, nil)
			order := d.eitherFirst(t.name, a, b)
			for i, c := range []plan.Choice{{Branch: order, Option: 0}, {Branch: order, Option: 1}} {
				first, then := a, b
				if i == 1 {
					first, then = b, a
				}
				d.washedAfterTurn(first, j, c)
				d.beforeTurn(j.end(), then, c)
			}
		}
		return
	}
	// With more, each turn but one that comes last is washed up after.
	type after struct {
		job  *job
		last plan.Choice
	}
	all := []after{}
	for n, a := range turns {
		b := d.p.AddBranch(plan.Branch{Name: t.name, Options: []plan.Option{{Name: "washed", Cost: 1}, {Name: "last"}}})
		j := clean(n, plan.When{{Branch: b, Option: 0}})
		j.Title += " after " + a.mk.m.Recipe.Name
		d.washedAfterTurn(a, j)
		all = append(all, after{j, plan.Choice{Branch: b, Option: 1}})
	}
	for i, a := range turns {
		for k := i + 1; k < len(turns); k++ {
			b := turns[k]
			if !other(a, b) {
				continue
			}
			order := d.eitherFirst(t.name, a, b)
			for _, o := range []struct {
				first, then turn
				wash        after
				choice      plan.Choice
			}{
				{a, b, all[i], plan.Choice{Branch: order, Option: 0}},
				{b, a, all[k], plan.Choice{Branch: order, Option: 1}},
			} {
				d.beforeTurn(o.wash.job.end(), o.then, o.choice)
				for i, m := range o.first.to {
					d.beforeTurn(m, o.then, o.choice)
					// Whoever has it last has nobody after them.
					d.link(o.then.to[0], o.first.from[i], 0, -1, washed, o.choice, o.wash.last)
				}
			}
		}
	}
}

// washedAfterTurn has a tool washed within the hour when a dish has done with it.
func (d *draft) washedAfterTurn(t turn, j *job, when ...plan.Choice) {
	for i, m := range t.to {
		most := -1
		if i == len(t.to)-1 {
			most = washSoon
		}
		d.link(m, j.begin(), 0, most, washed, when...)
	}
}

// beforeTurn has a dish wait for a tool.
func (d *draft) beforeTurn(m moment, t turn, when ...plan.Choice) {
	for _, from := range t.from {
		d.link(m, from, 0, -1, washed, when...)
	}
}

// eitherFirst is a branch: the one or the other has the tool first.
func (d *draft) eitherFirst(tool string, a, b turn) int {
	return d.p.AddBranch(plan.Branch{
		Name:    tool,
		Options: []plan.Option{{Name: a.mk.m.Recipe.Name + " first"}, {Name: b.mk.m.Recipe.Name + " first"}},
	})
}
