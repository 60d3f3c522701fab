package answer

import (
	"slices"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// afterService gives the washing up that is left until after serving its rows: when
// the last course is out, one after the other by whoever may and is free first.
func (r *Result) afterService(t *timeline.Timeline) {
	free := map[string]timeline.Minute{}
	for _, c := range r.Draft.Kit.Cooks {
		for _, d := range r.Draft.Courses {
			free[c.Name] = max(free[c.Name], r.Start(d))
		}
		for _, j := range t.Jobs {
			for _, p := range j.Phases {
				if slices.Contains(p.Cooks, c.Name) {
					free[c.Name] = max(free[c.Name], p.End)
				}
			}
		}
	}
	past := timeline.Minute(0)
	for _, w := range r.Draft.After {
		who := ""
		for _, res := range w.Set {
			if c, ok := r.Draft.Kit.CookOf(res); ok && (who == "" || free[c.Name] < free[who]) {
				who = c.Name
			}
		}
		if who == "" {
			continue
		}
		at := free[who]
		free[who] += w.Minutes
		for _, s := range t.Hours[who] {
			if s.From <= at && at <= s.To && free[who] > s.To {
				past = max(past, free[who])
			}
		}
		t.Jobs = append(t.Jobs, &timeline.Job{
			Piece: timeline.Piece{Kind: timeline.WashJob, Title: w.Title, Asked: w.Asked, Later: true}, Cooks: []string{who}, Slack: timeline.Day,
			Phases: []timeline.Phase{{Kind: resolve.Work, Start: at, End: at + w.Minutes, Least: w.Minutes, Cooks: []string{who}}},
		})
	}
	if past > 0 {
		r.sinkPast = "The washing up after serving goes on until " + r.clockText(past) + ", past the hours."
	}
}
