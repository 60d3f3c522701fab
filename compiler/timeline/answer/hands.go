package answer

import (
	"cmp"
	"fmt"
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
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

// atWork knows who is at something when.
type atWork struct {
	t    *timeline.Timeline
	busy map[string][]timeline.Spell
}

func newAtWork(t *timeline.Timeline) *atWork {
	w := &atWork{t: t, busy: map[string][]timeline.Spell{}}
	for _, j := range t.Jobs {
		for _, p := range j.Phases {
			w.take(p.Cooks, p.Start, p.End)
		}
		for _, x := range j.Touches {
			w.take(x.Cooks, x.Start, max(x.End, x.Start+1))
		}
	}
	return w
}

// oneByOne moves a putting in or taking out by a minute or two, where its cook has
// another at the same minute.
func (w *atWork) oneByOne(x *timeline.Touch) {
	tries := []timeline.Minute{0, 1, 2, 3, 4}
	if x.Put == timeline.TakeOut {
		tries = []timeline.Minute{0, -1, -2, -3, 1, 2}
	}
	for _, off := range tries {
		if w.free(x.Cooks[0], x.Start+off) {
			x.Start, x.End = x.Start+off, x.End+off
			break
		}
	}
	w.take(x.Cooks, x.Start, x.End)
}

func (w *atWork) take(who []string, from, to timeline.Minute) {
	for _, c := range who {
		w.busy[c] = append(w.busy[c], timeline.Spell{From: from, To: to})
	}
}

// free tells whether a cook is there and at nothing else in a minute.
func (w *atWork) free(who string, at timeline.Minute) bool {
	in := func(s timeline.Spell) bool { return s.From <= at && at < s.To }
	return (w.t.Hours == nil || slices.ContainsFunc(w.t.Hours[who], in)) && !slices.ContainsFunc(w.busy[who], in)
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

// hands gives a name to what the engine plans without one.
func (r *Result) hands(t *timeline.Timeline) {
	w := newAtWork(t)
	for _, s := range t.Servings {
		s.By = w.serves(s)
	}
	for _, j := range t.Jobs {
		for i := range j.Puts {
			if x := &j.Puts[i]; len(x.Cooks) > 0 {
				w.oneByOne(x)
			}
		}
	}
	for _, j := range t.Jobs {
		for i := range j.Puts {
			x := &j.Puts[i]
			if len(x.Cooks) > 0 {
				continue
			}
			near := []timeline.Minute{x.Start, x.Start + 1, x.Start + 2}
			if x.Put == timeline.TakeOut {
				near = []timeline.Minute{x.Start, x.Start - 1, x.Start - 2}
			}
			at, who := w.first(near, j.Cooks...)
			if x.Cooks = who; who != nil {
				x.Start, x.End = at, at+x.End-x.Start
			}
			if x.Put == timeline.PutIn && len(j.Cooks) == 0 {
				j.Cooks = x.Cooks
			}
			if len(x.Cooks) == 0 && t.Clock {
				r.nobodyAt = append(r.nobodyAt, fmt.Sprintf("%s, to %s: %s", r.clockText(x.Start), puttingWords(x.Put), j.Say()))
			}
		}
	}
	last := map[string]*timeline.Heat{}
	for _, h := range t.Heats {
		if was := last[h.Oven]; was != nil && !h.Turned {
			w.turnOff(was, h.Preheat)
		}
		last[h.Oven] = h
		var when []timeline.Minute
		if h.Turned {
			when = []timeline.Minute{h.Preheat, h.Preheat + 1, h.Preheat + 2, h.Preheat - 1}
		} else {
			for n := range timeline.Minute(litBefore + 1) {
				when = append(when, h.Preheat-n)
			}
		}
		if at, by := w.first(when); by != nil {
			h.By, h.Preheat = by, at
		}
	}
	for _, h := range t.Heats {
		if last[h.Oven] == h {
			w.turnOff(h, timeline.MaxMinutes)
		}
	}
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
		return "begin"
	}
	return "take off the heat"
}
