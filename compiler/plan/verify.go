package plan

import "fmt"

// The checker. It is written from the meaning of the model alone: it shares no code with the
// engines, works moment by moment, and is slow on purpose.

// Violation is one rule that a solution breaks, in words for developers.
type Violation struct {
	Rule   string // "lag", "capacity", "calendar", "state", "tie", "mode", "time", "due", "branch", "stock", "score", "report"
	Detail string
}

func (v Violation) String() string { return v.Rule + ": " + v.Detail }

type verifier struct {
	p    *Problem
	s    *Solution
	list []Violation
}

// held is a stretch of a resource that the plan takes.
type held struct {
	task, use          int
	resource           int
	from, to, amount   int
	stated             bool
	setting, low, high int
}

// Verify lists everything that is wrong with a solution; nothing means that it is a plan of
// the problem, and that its score is the true one. A solution of the wrong shape is reported
// as such and looked at no further.
func Verify(p *Problem, s *Solution) []Violation {
	v := &verifier{p: p, s: s}
	if s == nil {
		v.add("report", "no solution")
		return v.list
	}
	if len(s.Options) != len(p.Branches) || len(s.Tasks) != len(p.Activities) {
		v.add("report", "%d options and %d tasks for %d branches and %d activities", len(s.Options), len(s.Tasks), len(p.Branches), len(p.Activities))
		return v.list
	}
	v.branches()
	for i := range p.Activities {
		v.task(i)
	}
	if len(v.list) > 0 {
		return v.list // what follows relies on the shape
	}
	v.lags()
	v.dues()
	holds := v.holds()
	v.resources(holds)
	v.ties(holds)
	v.states(holds)
	v.report(holds)
	v.scores(holds)
	return v.list
}

func (v *verifier) add(rule, format string, args ...any) {
	v.list = append(v.list, Violation{rule, fmt.Sprintf(format, args...)})
}

func (v *verifier) branches() {
	for i, b := range v.p.Branches {
		got := v.s.Options[i]
		if got < 0 || got >= len(b.Options) {
			v.add("branch", "branch %d has no option %d", i, got)
		} else if b.Fixed && got != b.Preset {
			v.add("branch", "branch %d is fixed to %d, not %d", i, b.Preset, got)
		}
	}
}

// met says whether a condition holds under the options of the solution.
func (v *verifier) met(w When) bool {
	met := true
	for _, c := range w {
		met = met && v.s.Options[c.Branch] == c.Option
	}
	return met
}

func (v *verifier) task(i int) {
	a, t := v.p.Activities[i], v.s.Tasks[i]
	if len(v.list) > 0 && v.list[0].Rule == "branch" {
		return
	}
	if met := v.met(a.When); met != t.On {
		v.add("branch", "activity %d (%s): takes place %v, should %v", i, a.Name, t.On, met)
	}
	if !t.On {
		return
	}
	if t.Mode < 0 || t.Mode >= len(a.Modes) {
		v.add("mode", "activity %d (%s) has no mode %d", i, a.Name, t.Mode)
		return
	}
	m := a.Modes[t.Mode]
	last := v.p.Horizon
	if a.Deadline > 0 && a.Deadline < last {
		last = a.Deadline
	}
	if t.Start < 0 || t.Start < a.Release || t.End > last || t.End-t.Start != m.Duration {
		v.add("time", "activity %d (%s): %d to %d, duration %d, allowed %d to %d", i, a.Name, t.Start, t.End, m.Duration, a.Release, last)
	}
	if len(t.Members) != len(m.Uses) || len(t.Settings) != len(m.Uses) {
		v.add("mode", "activity %d (%s): %d members and %d settings for %d uses", i, a.Name, len(t.Members), len(t.Settings), len(m.Uses))
		return
	}
	for n, u := range m.Uses {
		ok := false
		for _, r := range u.Of {
			ok = ok || r == t.Members[n]
		}
		if !ok {
			v.add("mode", "activity %d (%s), use %d: resource %d is not one of %v", i, a.Name, n, t.Members[n], u.Of)
		}
		if u.State != nil && (t.Settings[n] < u.State.Lo || t.Settings[n] > u.State.Hi) {
			v.add("state", "activity %d (%s), use %d: setting %d is not within %d to %d", i, a.Name, n, t.Settings[n], u.State.Lo, u.State.Hi)
		}
	}
}

// when is the time of a moment; ok is false if its activity does not take place.
func (v *verifier) when(m Moment) (at int, ok bool) {
	t := v.s.Tasks[m.Activity]
	at = t.Start
	if m.Edge == End {
		at = t.Start + v.p.Activities[m.Activity].Modes[t.Mode].Duration
	}
	return at, t.On
}

func (v *verifier) lags() {
	for i, l := range v.p.Lags {
		a, one := v.when(l.Before)
		b, two := v.when(l.After)
		if one && two && v.met(l.When) && b-a < l.Gap {
			v.add("lag", "lag %d (%s): %d after %d is less than %d", i, l.Why, b, a, l.Gap)
		}
	}
}

func (v *verifier) dues() {
	for i, d := range v.p.Dues {
		at, on := v.when(d.Of)
		if on && (d.Hard && at > d.At || d.Exact && at < d.At) {
			v.add("due", "due %d: at %d, due %d", i, at, d.At)
		}
	}
}

func (v *verifier) holds() []held {
	var list []held
	for i, t := range v.s.Tasks {
		if !t.On {
			continue
		}
		m := v.p.Activities[i].Modes[t.Mode]
		for n, u := range m.Uses {
			h := held{task: i, use: n, resource: t.Members[n], amount: u.Amount, from: t.Start, to: t.Start + m.Duration}
			if u.To > 0 {
				h.from, h.to = t.Start+u.From, t.Start+u.To
			}
			if u.State != nil {
				h.stated, h.setting, h.low, h.high = true, t.Settings[n], u.State.Lo, u.State.Hi
			}
			list = append(list, h)
		}
	}
	return list
}

func (v *verifier) resources(holds []held) {
	for r, res := range v.p.Resources {
		total := 0
		for _, h := range holds {
			if h.resource != r || h.amount == 0 {
				continue
			}
			total += h.amount
			if res.Stock || h.from >= h.to {
				continue
			}
			// The load can only be at its highest where some hold starts.
			load := 0
			for _, g := range holds {
				if g.resource == r && g.from <= h.from && h.from < g.to {
					load += g.amount
				}
			}
			if load > res.Capacity {
				v.add("capacity", "resource %d (%s) at %d: %d of %d", r, res.Name, h.from, load, res.Capacity)
			}
			for at := h.from; at < h.to && len(res.Calendar) > 0; at++ {
				if !inside(res.Calendar, at) {
					v.add("calendar", "resource %d (%s) at %d, by activity %d", r, res.Name, at, h.task)
					break
				}
			}
		}
		if res.Stock && total > res.Capacity {
			v.add("stock", "resource %d (%s): %d of %d", r, res.Name, total, res.Capacity)
		}
	}
}

func inside(spells []Span, at int) bool {
	for _, s := range spells {
		if s.From <= at && at < s.To {
			return true
		}
	}
	return false
}

func (v *verifier) ties(holds []held) {
	taken := map[int]held{}
	for _, h := range holds {
		tie := v.p.Activities[h.task].Modes[v.s.Tasks[h.task].Mode].Uses[h.use].Tie
		if tie == 0 {
			continue
		}
		if g, ok := taken[tie]; ok && g.resource != h.resource {
			v.add("tie", "tie %d: activity %d takes resource %d, activity %d takes %d", tie, g.task, g.resource, h.task, h.resource)
		}
		taken[tie] = h
	}
}

func (v *verifier) states(holds []held) {
	for i, h := range holds {
		if !h.stated || h.from >= h.to || h.amount == 0 {
			continue
		}
		rule := v.p.Resources[h.resource].State
		// Walk back from the start of the use to where the resource opened.
		opened := h.from
		spells := v.p.Resources[h.resource].Calendar
		for opened > 0 && (len(spells) == 0 || inside(spells, opened-1)) {
			opened--
		}
		if h.from-opened < rule.First {
			v.add("state", "resource %d: activity %d starts at %d, %d after opening, takes %d to make ready", h.resource, h.task, h.from, h.from-opened, rule.First)
		}
		for _, g := range holds[:i] {
			if !g.stated || g.resource != h.resource || g.from >= g.to || g.amount == 0 || g.setting == h.setting {
				continue
			}
			if h.from-g.to < changeTime(rule, g.setting, h.setting) && g.from-h.to < changeTime(rule, h.setting, g.setting) {
				v.add("state", "resource %d: activity %d at %d and activity %d at %d are too near", h.resource, g.task, g.setting, h.task, h.setting)
			}
		}
	}
}

// changeTime is how long a resource takes from one value to another: a step of time for each
// full or begun part of the way that a step brings, and Change at the least.
func changeTime(rule *State, from, to int) int {
	time, each, at := 0, max(rule.Step, 1), from
	for at < to && rule.Up > 0 {
		at, time = at+rule.Up, time+each
	}
	for at = from; at > to && rule.Down > 0; {
		at, time = at-rule.Down, time+each
	}
	if from != to && time < rule.Change {
		return rule.Change
	}
	return time
}

// report checks the list of settings against the uses.
func (v *verifier) report(holds []held) {
	for i, st := range v.s.States {
		if st.Ready > st.From || st.From >= st.To || st.Ready < 0 {
			v.add("report", "setting %d of resource %d: ready %d, %d to %d", st.Setting, st.Resource, st.Ready, st.From, st.To)
		}
		var before *Steady
		for k, other := range v.s.States {
			if other.Resource == st.Resource && other.From < st.From && (before == nil || other.From > before.From) {
				before = &v.s.States[k]
			}
		}
		rule := v.p.Resources[st.Resource].State
		if before == nil && st.From-st.Ready < rule.First {
			v.add("report", "resource %d: ready in %d, takes %d", st.Resource, st.From-st.Ready, rule.First)
		}
		if before != nil {
			if need := min(rule.First, changeTime(rule, before.Setting, st.Setting)); st.From-st.Ready < need {
				v.add("report", "resource %d: from %d to %d in %d, takes %d", st.Resource, before.Setting, st.Setting, st.From-st.Ready, need)
			}
		}
		for _, other := range v.s.States[:i] {
			if other.Resource == st.Resource && st.Ready < other.To && other.Ready < st.To {
				v.add("report", "resource %d: settings %d and %d overlap at %d", st.Resource, other.Setting, st.Setting, st.Ready)
			}
		}
	}
	for _, h := range holds {
		if !h.stated || h.from >= h.to || h.amount == 0 {
			continue
		}
		ok := false
		for _, st := range v.s.States {
			ok = ok || st.Resource == h.resource && st.From <= h.from && h.to <= st.To && st.Setting == h.setting
		}
		if !ok {
			v.add("report", "activity %d: no spell of resource %d at %d covers %d to %d", h.task, h.resource, h.setting, h.from, h.to)
		}
	}
}

func (v *verifier) scores(holds []held) {
	var z Score
	for i, b := range v.p.Branches {
		z[Cost] += b.Options[v.s.Options[i]].Cost
	}
	end, early, first, hands := 0, 0, v.p.Horizon, false
	for _, r := range v.p.Resources {
		hands = hands || r.Hands
	}
	for i, t := range v.s.Tasks {
		if !t.On {
			continue
		}
		z[Cost] += v.p.Activities[i].Modes[t.Mode].Cost
		early += v.p.Horizon - t.Start
		if t.End > end {
			end = t.End
		}
		if !hands && t.Start < first {
			first = t.Start
		}
	}
	for _, h := range holds {
		if v.p.Resources[h.resource].Hands && h.amount > 0 && h.from < h.to && h.from < first {
			first = h.from
		}
	}
	if v.p.Goal == Makespan {
		z[0] = end
	} else {
		for _, d := range v.p.Dues {
			if at, on := v.when(d.Of); on && at > d.At {
				z[Lateness] += d.Weight * (at - d.At)
			}
		}
		for _, w := range v.p.Waits {
			a, one := v.when(w.From)
			b, two := v.when(w.To)
			if one && two && b-a > w.Free {
				z[Waiting] += w.Weight * (b - a - w.Free)
			}
		}
		z[Lead], z[Earliness] = v.p.Horizon-first, early
	}
	if z != v.s.Score {
		v.add("score", "stated %v, is %v", v.s.Score, z)
	}
	if v.s.Bound > z[0] {
		v.add("score", "bound %d is above %d", v.s.Bound, z[0])
	}
	for k, least := range v.s.Bounds {
		if least > z[k] {
			v.add("score", "bound %d of place %d is above %d", least, k, z[k])
		}
	}
}
