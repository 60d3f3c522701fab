package answer

import (
	"cmp"
	"fmt"
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// Who lights and turns an oven, turns it off, takes a dish to the table, and puts in what
// the engine gave nobody: a minute each of whoever is free then (common practice, no
// source). The plan stands; a minute is found in it.

const (
	// litBefore is how much earlier than it must be an oven may be lit.
	litBefore = 40
	// offAfter is how long an oven may stay on when it is empty.
	offAfter = 15
)

// atWork knows who is at something when. What the engine has given somebody to put in
// or take out has no minute yet.
type atWork struct {
	t      *timeline.Timeline
	busy   map[string][]timeline.Spell
	nobody []string // what nobody is free for: "12:40 (put in: Bake the pie)"
}

func newAtWork(t *timeline.Timeline) *atWork {
	w := &atWork{t: t, busy: t.Busy()}
	for _, j := range t.Jobs {
		for _, x := range j.Puts {
			for _, c := range x.Cooks {
				i := slices.Index(w.busy[c], timeline.Spell{From: x.Start, To: x.End})
				w.busy[c] = slices.Delete(w.busy[c], i, i+1)
			}
		}
	}
	return w
}

// minutesFor are the minutes in which a thing may be put in or taken out, best first:
// what is put in goes in a little later, what is taken out comes out a little earlier,
// within the engine's unit or a minute or two from it, and no later than it is wanted.
func minutesFor(j *timeline.Job, x *timeline.Touch, origin timeline.Minute, grid int) (out []timeline.Minute) {
	unit := origin + timeline.FloorDiv(x.Start-origin, grid)*grid
	from, to, sign := x.Start, max(unit+grid-1, x.Start+2), 1
	if x.Put == timeline.PutIn {
		to = max(x.Start, min(to, j.End()-1)) // while it is still to be in
	}
	if x.Put == timeline.TakeOut {
		from, to, sign = min(unit, x.Start-3), min(to, j.End()+j.Waits-1), -1
	}
	for n := range grid + 4 {
		for _, at := range []timeline.Minute{x.Start + n*sign, x.Start - n*sign} {
			if from <= at && at <= to && !slices.Contains(out, at) {
				out = append(out, at)
			}
		}
	}
	return out
}

// put gives a putting in or taking out its minute, so that no two fall together for one
// pair of hands: of who has it, else of whoever is free.
func (w *atWork) put(x *timeline.Touch, minutes []timeline.Minute, best ...string) bool {
	at, who := timeline.Minute(0), []string(nil)
	for _, m := range minutes {
		if i := slices.IndexFunc(x.Cooks, func(c string) bool { return w.free(c, m) }); i >= 0 {
			at, who = m, x.Cooks[i:i+1]
			w.take(who, m, m+1)
			break
		}
	}
	if who == nil {
		at, who = w.first(minutes, best...)
	}
	if x.Cooks = who; who == nil {
		return false
	}
	x.Start, x.End = at, at+x.End-x.Start
	return true
}

func (w *atWork) take(who []string, from, to timeline.Minute) {
	for _, c := range who {
		w.busy[c] = append(w.busy[c], timeline.Spell{From: from, To: to})
	}
}

// free tells whether a cook is there and at nothing else in a minute.
func (w *atWork) free(who string, at timeline.Minute) bool {
	return w.t.In(who, at) && !slices.ContainsFunc(w.busy[who], func(s timeline.Spell) bool { return s.Has(at) })
}

// anyone is a cook who is free in a minute: of those who would be best, else the one
// who has the least to do; empty when nobody is.
func (w *atWork) anyone(at timeline.Minute, best ...string) string {
	for _, c := range best {
		if slices.Contains(w.t.Cooks, c) && w.free(c, at) {
			return c
		}
	}
	cooks := slices.Clone(w.t.Cooks)
	slices.SortStableFunc(cooks, func(a, b string) int { return cmp.Compare(len(w.busy[a]), len(w.busy[b])) })
	for _, c := range cooks {
		if w.free(c, at) {
			return c
		}
	}
	return ""
}

// first finds the first minute of some in which anyone is free, and takes it.
func (w *atWork) first(minutes []timeline.Minute, best ...string) (at timeline.Minute, who []string) {
	for _, at := range minutes {
		if c := w.anyone(at, best...); c != "" {
			w.take([]string{c}, at, at+1)
			return at, []string{c}
		}
	}
	return 0, nil
}

// makeRoom has somebody begin plain work a minute later, for a minute of some: what they
// are at then is a preparation, a task or washing up, or a run of them, nobody else is at
// it, and nothing waits for it.
func (r *Result) makeRoom(w *atWork, minutes []timeline.Minute) (at timeline.Minute, who []string) {
	for _, at := range minutes {
		for _, c := range w.t.Cooks {
			if run := r.plainRun(w, c, at); len(run) > 0 && w.t.In(c, at) {
				for _, j := range run {
					w.later(c, j)
				}
				w.take([]string{c}, at, at+1)
				return at, []string{c}
			}
		}
	}
	return 0, nil
}

// plainRun is the run of plain work that a cook begins in a minute and that may all be a
// minute later; nil where there is none.
func (r *Result) plainRun(w *atWork, c string, at timeline.Minute) (run []*timeline.Job) {
	for {
		i := slices.IndexFunc(w.t.Jobs, func(j *timeline.Job) bool {
			return j.Start() == at && len(j.Phases) == 1 && slices.Equal(j.Cooks, []string{c}) && len(j.Touches)+len(j.Puts) == 0 &&
				(j.Kind == timeline.TaskJob || j.Kind == timeline.WashJob || j.Kind == timeline.PrepJob)
		})
		if i < 0 {
			return nil
		}
		j := w.t.Jobs[i]
		run, at = append(run, j), j.End()
		if w.free(c, at) {
			break
		}
	}
	if r.canWait(run) {
		return run
	}
	return nil
}

// canWait tells whether a run of jobs may all be a minute later: no limit on how long after
// something they may come is passed, and nothing else waits for them.
func (r *Result) canWait(run []*timeline.Job) bool {
	return !slices.ContainsFunc(r.Draft.Links, func(l *problem.Link) bool {
		from, to := slices.Contains(run, r.Job(l.From.Job)), slices.Contains(run, r.Job(l.To.Job))
		wait := r.moment(l.To) - r.moment(l.From)
		return from != to && r.Counts(l) && (from && wait-1 < l.Gap || to && l.Max >= 0 && wait+1 > l.Max)
	})
}

// later begins a job a minute later.
func (w *atWork) later(c string, j *timeline.Job) {
	p := &j.Phases[0]
	i := slices.Index(w.busy[c], timeline.Spell{From: p.Start, To: p.End})
	p.Start, p.End = p.Start+1, p.End+1
	w.busy[c][i] = timeline.Spell{From: p.Start, To: p.End}
	j.Waits = max(0, j.Waits-1)
}

// hands gives a name to what the engine plans without one, and says for what there is
// nobody.
func (r *Result) hands(t *timeline.Timeline) (nobody []string) {
	w := newAtWork(t)
	lacks := func(at timeline.Minute, format string, args ...any) {
		w.nobody = append(w.nobody, r.clockText(at)+" ("+fmt.Sprintf(format, args...)+")")
	}
	for _, s := range t.Servings {
		s.By = w.serves(s)
	}
	for _, given := range []bool{true, false} { // first what the engine has kept a hand free for
		for _, j := range t.Jobs {
			for i := range j.Puts {
				x := &j.Puts[i]
				if len(x.Cooks) > 0 != given {
					continue
				}
				if !w.put(x, minutesFor(j, x, r.Draft.Origin, r.Draft.Grid), j.Cooks...) {
					lacks(x.Start, "%s: %s", puttingWords(x.Put), j.Say())
				}
				if x.Put == timeline.PutIn && j.Phases[0].Kind == resolve.Leave {
					j.Cooks = putBy(j, x)
				}
			}
		}
	}
	last := map[string]*timeline.Heat{}
	for _, h := range t.Heats {
		was := last[h.Oven]
		if was != nil && !h.Turned {
			w.turnOff(was, h.Preheat)
		}
		last[h.Oven] = h
		when := whenLit(h, was)
		at, by := w.first(when)
		if by == nil {
			at, by = r.makeRoom(w, when)
		}
		if by != nil {
			h.By, h.Preheat = by, at
		} else {
			lacks(h.Preheat, "%s the %s", lightingWords(h), timeline.OvenWords(h.Oven))
		}
	}
	for _, h := range t.Heats {
		if last[h.Oven] == h {
			w.turnOff(h, timeline.MaxMinutes)
		}
	}
	return w.nobody
}

// putBy is who has a job that is only left at first: who puts it in, and who works on it
// after.
func putBy(j *timeline.Job, x *timeline.Touch) (out []string) {
	out = slices.Clone(x.Cooks)
	for _, p := range j.Phases {
		for _, c := range p.Cooks {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

// whenLit are the minutes in which an oven may be lit or turned, best first: not while
// what was at the heat before is still in it, and not past the minute from which the
// new heat is wanted.
func whenLit(h, was *timeline.Heat) (out []timeline.Minute) {
	from := h.Preheat - litBefore
	if was != nil {
		from = max(from, was.End)
		if !h.Turned { // or it would not have been turned off
			from = max(from, min(was.End+staysHot, h.Preheat))
		}
		if len(was.OffBy) > 0 {
			from = max(from, was.Off+1)
		}
	}
	for at := h.Preheat; at >= from; at-- {
		out = append(out, at)
	}
	for at := h.Preheat + 1; h.Turned && at <= h.Start; at++ { // rather a little late than not
		out = append(out, at)
	}
	return out
}

// turnOff finds who turns an oven off when it is empty, before it is lit again.
func (w *atWork) turnOff(h *timeline.Heat, before timeline.Minute) {
	var when []timeline.Minute
	for at := h.End; at <= h.End+offAfter && at < before; at++ {
		when = append(when, at)
	}
	h.Off, h.OffBy = w.first(when, w.takesOut(h)...)
}

// takesOut are those who take the last things out of an oven.
func (w *atWork) takesOut(h *timeline.Heat) (who []string) {
	for _, j := range w.t.Jobs {
		for _, x := range j.Puts {
			if j.Oven == h.Oven && x.Put == timeline.TakeOut && x.End == h.End {
				who = append(who, x.Cooks...)
			}
		}
	}
	return who
}

// goesOnWithin is how soon the next step of a dish begins that goes on with what stays
// where it is, in minutes: common practice, no source.
const goesOnWithin = 2

// remains settles what stays in its oven or on its ring, now that there are times: what
// the next step goes on with there at once. Nobody takes that out; what it was thought
// would stay, and does not, somebody does.
func remains(jobs []*timeline.Job) {
	for _, j := range jobs {
		last := j.Phases[len(j.Phases)-1]
		if j.Step == nil || last.Kind != resolve.Leave || j.Oven == "" && j.Rings == 0 {
			continue
		}
		planned := j.Stays
		j.Stays = slices.ContainsFunc(jobs, func(o *timeline.Job) bool {
			return o.Making == j.Making && o.Step != nil && o.Step != j.Step && slices.Contains(o.After, j) && o.Vessel == j.Vessel && o.Oven == j.Oven &&
				(o.Rings > 0) == (j.Rings > 0) && o.Start() >= j.End() && o.Start() <= j.End()+goesOnWithin
		})
		switch {
		case j.Stays:
			j.Puts = slices.DeleteFunc(j.Puts, func(x timeline.Touch) bool { return x.Put == timeline.TakeOut })
		case planned && last.End-last.Start > 1:
			j.Puts = append(j.Puts, timeline.Touch{Start: j.End() - 1, End: j.End(), Put: timeline.TakeOut})
		}
	}
}

// serves finds who takes a dish to the table: whoever had it last, if free, and one
// person takes what goes out with it.
func (w *atWork) serves(s *timeline.Serving) []string {
	var best []string
	end := timeline.Minute(-timeline.MaxMinutes)
	for _, j := range w.t.Jobs {
		if j.Making != nil && j.Making == s.Making && len(j.Cooks) > 0 && j.End() > end && j.Phases[len(j.Phases)-1].Kind != resolve.Leave {
			best, end = j.Cooks[:1], j.End()
		}
	}
	for _, o := range w.t.Servings { // who is on the way already may take another dish along
		if o != s && o.Course == s.Course && o.Served == s.Served && len(o.By) > 0 {
			if len(best) == 0 || !w.free(best[0], s.Served) {
				return o.By
			}
		}
	}
	_, who := w.first([]timeline.Minute{s.Served}, best...)
	return who
}

func puttingWords(p timeline.Putting) string {
	if p == timeline.PutIn {
		return "put in"
	}
	return "take off the heat"
}

func lightingWords(h *timeline.Heat) string {
	if h.Turned {
		return "turn"
	}
	return "light"
}
