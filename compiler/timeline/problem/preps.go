package problem

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// blockMinutes is how much small preparation for one step is planned as one
// piece of work.
const blockMinutes = 15

// addPreps makes jobs of the times written on gather lines: what grows is done
// once for the whole of the line, before the first step that takes from it.
// Small ones for the same step stand together, done by one cook one after the
// other; so does the same cut for several dishes, where it is to be one job.
func (d *Draft) addPreps() {
	once := map[Key]int{} // which cut that is made once a preparation is of, from 1
	for i, g := range d.Set.Habits.Cuts {
		for _, k := range g {
			once[k] = i + 1
		}
	}
	cuts := make([][]*Job, len(d.Set.Habits.Cuts)+1)
	for _, mk := range d.Makings {
		d.prepsOf(mk, func(j *Job) bool {
			n := once[j.Key()]
			if n > 0 {
				cuts[n] = append(cuts[n], j)
			}
			return n > 0
		})
	}
	for n, run := range cuts {
		if len(run) == 0 {
			continue
		}
		order := d.Set.Habits.Cuts[n-1]
		slices.SortStableFunc(run, func(a, b *Job) int { return slices.Index(order, a.Key()) - slices.Index(order, b.Key()) })
		d.prepBlock(run)
	}
}

// prepsOf makes the jobs of one making, but for those that are kept for a cut of several.
func (d *Draft) prepsOf(mk *Making, kept func(*Job) bool) {
	var run []*Job
	var user *Job
	flush := func() {
		if len(run) > 0 {
			d.prepBlock(run)
			if user != nil {
				d.Link(run[len(run)-1].End(), user.Begin(), 0, -1, prepared, user.When...)
			}
		}
		run = nil
	}
	for _, a := range mk.M.Lines {
		if mk.idle(a.Line) {
			continue
		}
		j := d.prepJob(mk, a)
		if j == nil {
			continue
		}
		first := mk.FirstTaker(a.Line)
		j.When = mk.needed(a.Line)
		if kept(j) {
			continue
		}
		small := len(j.Parts) == 1 && j.Parts[0].Kind == resolve.Work && j.Length < blockMinutes && d.byMake[a.Source] == nil
		sum := j.Length
		for _, r := range run {
			sum += r.Length
		}
		if !small || first != user || len(run) > 0 && !slices.Equal(run[0].Line.Line.By, a.Line.By) || sum > blockMinutes ||
			len(run) > 0 && (len(run[0].When) != len(j.When) || run[0].Fresh() != j.Fresh()) {
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

// FirstTaker is the job of the first step that takes from a line; nil when
// none does.
func (mk *Making) FirstTaker(line *resolve.Line) *Job {
	for _, j := range mk.Steps {
		for _, t := range j.Step.Takes {
			if t.Line == line && !t.Refers {
				return j
			}
		}
	}
	return nil
}

// idle tells whether only steps that do not take place take from a line.
func (mk *Making) idle(line *resolve.Line) bool {
	if mk.M.Reading == nil || mk.FirstTaker(line) != nil {
		return false
	}
	for _, sr := range mk.M.Reading.Steps {
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
func (mk *Making) needed(line *resolve.Line) plan.When {
	takers := mk.takers(line)
	for _, j := range takers {
		if !slices.Equal(j.When, takers[0].When) {
			return nil
		}
	}
	if len(takers) == 0 {
		return nil
	}
	return takers[0].When
}

// prepJob is the preparation of a line, or nil when it wants none.
func (d *Draft) prepJob(mk *Making, a *demand.Amount) *Job {
	j := &Job{Mk: mk}
	j.Piece = timeline.Piece{Kind: timeline.PrepJob, Making: mk.M, Line: a, Title: prepTitle(a.Line)}
	j.Place = a.Line.Span
	for i := range a.Line.Prep {
		sp := &a.Line.Prep[i]
		grow := growth(a)
		if sp.Kind == resolve.Leave {
			grow = quantity.Int(1) // soaking two bags of beans takes no longer than one
		}
		n := grow
		switch {
		case sp.ByWeightOfOne() && a.Quantity != nil:
			one, _ := a.Line.WeightOfOne(*a.Quantity)
			n = d.byWeight(mk, sp, one)
		case sp.Per != nil && a.Quantity != nil:
			if have, ok := d.howMany(*a.Quantity, a.Line, sp, mk); ok {
				n = have
			} else {
				d.cannotCount(mk, sp)
			}
		}
		l := spellLength(sp, grow, n)
		j.AddPhase(sp.Kind, sp.Place, l)
		if sp.Kind == resolve.Leave {
			j.Extra, j.Open = l.extra, l.open
		}
	}
	if j.Length == 0 {
		return nil
	}
	j.Lengthen(d.More(j))
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
func (d *Draft) prepBlock(run []*Job) {
	total := 0
	for _, j := range run {
		j.Offset = total
		total += j.Length
	}
	first := run[0]
	var uses []plan.Use
	var roles []RoleKind
	add := func(role RoleKind, u plan.Use) {
		uses, roles = append(uses, u), append(roles, role)
	}
	set := d.Hands(first.Line.Line.By)
	if len(set) == 0 && len(first.Line.Line.By) > 0 {
		d.nobody(first, first.Line.Line.By)
		set = d.Hands(nil)
	}
	if len(set) > 0 {
		if len(run) > 1 {
			add(CookRole, plan.Use{Of: set, Amount: d.Grid})
		} else {
			for _, w := range first.attended(d.Grid) {
				add(CookRole, plan.Use{Of: set, Amount: d.Grid, From: w.from, To: w.to})
			}
		}
	}
	if d.Kit.Here >= 0 && first.Parts[0].Kind == resolve.Leave {
		add(HereRole, plan.Use{Of: []int{d.Kit.Here}, Amount: 1, From: 0, To: 1})
	}
	act := d.P.AddActivity(plan.Activity{
		Name:  first.Title,
		Modes: []plan.Mode{{Duration: timeline.CeilDiv(total, d.Grid), Uses: uses}},
		When:  first.When,
	})
	b := &Block{Act: act, Length: total, Roles: roles, Jobs: run}
	for _, j := range run {
		j.Block = b
		j.Mk.Prep[j.Line.Line] = j
		d.Jobs = append(d.Jobs, j)
	}
}
