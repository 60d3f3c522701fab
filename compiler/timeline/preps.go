package timeline

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// blockMinutes is how much small preparation for one step is planned as one
// piece of work.
const blockMinutes = 15

// addPreps makes jobs of the times written on gather lines: what grows is done
// once for the whole of the line, before the first step that takes from it.
// Small ones for the same step stand together, done by one cook one after the
// other.
func (d *draft) addPreps(mk *making) {
	var run []*job
	var user *job
	flush := func() {
		if len(run) > 0 {
			d.prepBlock(run)
			if user != nil {
				d.link(run[len(run)-1].end(), user.begin(), 0, -1, prepared, user.when...)
			}
		}
		run = nil
	}
	for _, a := range mk.m.Lines {
		if mk.idle(a.Line) {
			continue
		}
		j := d.prepJob(mk, a)
		if j == nil {
			continue
		}
		first := mk.firstTaker(a.Line)
		j.when = mk.needed(a.Line)
		small := len(j.parts) == 1 && j.parts[0].kind == resolve.Work && j.length < blockMinutes && d.byMake[a.Source] == nil
		sum := j.length
		for _, r := range run {
			sum += r.length
		}
		if !small || first != user || sum > blockMinutes || len(run) > 0 && len(run[0].when) != len(j.when) {
			flush()
		}
		user = first
		run = append(run, j)
		if !small {
			flush()
		}
	}
	flush()
}

// firstTaker is the job of the first step that takes from a line; nil when
// none does.
func (mk *making) firstTaker(line *resolve.Line) *job {
	for _, j := range mk.steps {
		for _, t := range j.Step.Takes {
			if t.Line == line && !t.Refers {
				return j
			}
		}
	}
	return nil
}

// idle tells whether only steps that do not take place take from a line.
func (mk *making) idle(line *resolve.Line) bool {
	if mk.m.Reading == nil || mk.firstTaker(line) != nil {
		return false
	}
	for _, sr := range mk.m.Reading.Steps {
		for _, t := range sr.Takes {
			if t.Line == line {
				return true
			}
		}
	}
	return false
}

// needed is the condition under which a line has to be prepared: that of the
// steps that take from it, when all of them have the same one.
func (mk *making) needed(line *resolve.Line) plan.When {
	takers := mk.takers(line)
	for _, j := range takers {
		if !slices.Equal(j.when, takers[0].when) {
			return nil
		}
	}
	if len(takers) == 0 {
		return nil
	}
	return takers[0].when
}

// prepJob is the preparation of a line, or nil when it wants none.
func (d *draft) prepJob(mk *making, a *demand.Amount) *job {
	j := &job{mk: mk}
	j.Piece = Piece{Kind: PrepJob, Making: mk.m, Line: a, Title: prepTitle(a.Line)}
	j.place = a.Line.Span
	for i := range a.Line.Prep {
		sp := &a.Line.Prep[i]
		grow := growth(a)
		if sp.Kind == resolve.Leave {
			grow = quantity.Int(1) // soaking two bags of beans takes no longer than one
		}
		n := grow
		if sp.Per != nil && a.Quantity != nil {
			if have, ok := d.howMany(*a.Quantity, a.Line, sp, mk); ok {
				n = have
			} else {
				d.cannotCount(mk, sp)
			}
		}
		l := spellLength(sp, grow, n)
		j.addPhase(sp.Kind, sp.Place, l)
		if sp.Kind == resolve.Leave {
			j.extra, j.open = l.extra, l.open
		}
	}
	if j.length == 0 {
		return nil
	}
	j.lengthen(d.more(j))
	return j
}

// prepTitle is what is done to a line, in its own words: "celeriac, diced".
func prepTitle(l *resolve.Line) string {
	if l.Note.Text != "" {
		return l.Name + ", " + strings.TrimSpace(l.Note.Text)
	}
	return l.Name
}

// prepBlock gives a run of preparations one activity.
func (d *draft) prepBlock(run []*job) {
	total := 0
	for _, j := range run {
		j.offset = total
		total += j.length
	}
	first := run[0]
	var uses []plan.Use
	var roles []roleKind
	add := func(role roleKind, u plan.Use) {
		uses, roles = append(uses, u), append(roles, role)
	}
	if set := d.hands(nil); len(set) > 0 {
		if len(run) > 1 {
			add(cookRole, plan.Use{Of: set, Amount: 1})
		} else {
			for _, w := range first.attended(d.grid) {
				add(cookRole, plan.Use{Of: set, Amount: 1, From: w.from, To: w.to})
			}
		}
	}
	if d.kit.here >= 0 && first.parts[0].kind == resolve.Leave {
		add(hereRole, plan.Use{Of: []int{d.kit.here}, Amount: 1, From: 0, To: 1})
	}
	act := d.p.AddActivity(plan.Activity{
		Name:  first.Title,
		Modes: []plan.Mode{{Duration: ceilDiv(total, d.grid), Uses: uses}},
		When:  first.when,
	})
	b := &block{act: act, length: total, roles: roles, jobs: run}
	for _, j := range run {
		j.block = b
		j.mk.prep[j.Line.Line] = j
		d.jobs = append(d.jobs, j)
	}
}
