package answer

import (
	"cmp"
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
)

// afterService gives the washing up that is left until after serving its rows: when
// the last course is out, one after the other by whoever may and is there and free
// first. What no hours hold goes on past those of who is there last; until is when
// that is over, else 0.
func (r *Result) afterService(t *timeline.Timeline) (until timeline.Minute) {
	free := map[string]timeline.Minute{}
	busy := t.Busy()
	for _, c := range t.Cooks {
		for _, d := range r.Draft.Courses {
			free[c] = max(free[c], r.Start(d))
		}
		for _, s := range busy[c] {
			free[c] = max(free[c], s.To)
		}
	}
	for _, w := range r.Draft.After {
		who, at, over := r.washesUp(t, w, free)
		if who == "" {
			continue
		}
		free[who] = at + w.Minutes
		if over {
			until = max(until, free[who])
		}
		t.Jobs = append(t.Jobs, &timeline.Job{
			Piece: timeline.Piece{Kind: timeline.WashJob, Title: w.Title, Asked: w.Asked, Later: true}, Cooks: []string{who}, Slack: timeline.Day,
			Phases: []timeline.Phase{{Kind: resolve.Work, Start: at, End: at + w.Minutes, Least: w.Minutes, Cooks: []string{who}}},
		})
	}
	return until
}

// washesUp is who washes up after serving and from when: who has it done first within
// their hours; where nobody has, who is there last. over tells that it goes on past
// the hours.
func (r *Result) washesUp(t *timeline.Timeline, w problem.AfterWash, free map[string]timeline.Minute) (who string, at timeline.Minute, over bool) {
	type turn struct {
		who  string
		at   timeline.Minute
		gone timeline.Minute // how long before it is done they have gone home; 0 when they have not
	}
	var all []turn
	for _, res := range w.Set {
		c, ok := r.Draft.Kit.CookOf(res)
		if !ok {
			continue
		}
		d := r.Draft
		n := turn{c.Name, d.Origin + timeline.CeilDiv(free[c.Name]-d.Origin, d.Grid)*d.Grid, 0}
		if t.Hours != nil {
			n.gone = timeline.MaxMinutes
			for _, s := range t.Hours[c.Name] {
				switch begins := max(n.at, s.From); {
				case begins+w.Minutes <= s.To && n.gone > 0:
					n.at, n.gone = begins, 0
				case s.From <= n.at:
					n.gone = min(n.gone, n.at+w.Minutes-s.To)
				}
			}
		}
		all = append(all, n)
	}
	if len(all) == 0 {
		return "", 0, false
	}
	best := slices.MinFunc(all, func(a, b turn) int { return cmp.Or(cmp.Compare(a.gone, b.gone), cmp.Compare(a.at, b.at)) })
	return best.who, best.at, best.gone > 0
}
