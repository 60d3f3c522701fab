package events

import (
	"slices"
	"strings"

	"tamis/compiler/resolve"
)

// Calls are the call times, a line for each day with work: when each cook is first wanted,
// and of a day before when its work is done.
func (l *List) Calls() (out []string) {
	type day struct {
		first map[string]Moment
		done  Moment
	}
	days := map[int]*day{}
	at := func(who []string, from, to Moment) {
		for _, c := range who {
			n := l.Day(from)
			d := days[n]
			if d == nil {
				d = &day{map[string]Moment{}, to}
				days[n] = d
			}
			if have, ok := d.first[c]; !ok || from < have {
				d.first[c] = from
			}
			d.done = max(d.done, to)
		}
	}
	for _, e := range l.Events {
		switch e.Kind {
		case Job:
			for _, p := range e.Phases {
				if p.Kind != resolve.Leave {
					at(p.Who, p.Start, p.End)
				}
			}
		case Touch, In, Out, Heat, Off, Serve:
			end := e.Start
			if e.Kind == Touch {
				end = e.End
			}
			at(e.Who, e.Start, end)
		}
	}
	var order []int
	for n := range days {
		order = append(order, n)
	}
	slices.Sort(order)
	for _, n := range order {
		var calls []string
		for _, c := range l.Cooks {
			if m, ok := days[n].first[c]; ok {
				calls = append(calls, c+" "+l.Clock(m))
			}
		}
		slices.SortStableFunc(calls, func(a, b string) int {
			return strings.Compare(a[strings.LastIndex(a, " "):], b[strings.LastIndex(b, " "):])
		})
		line := "Call times"
		if len(order) > 1 {
			line += ", " + l.DayName(n)
		}
		line += ": " + strings.Join(calls, ", ")
		if n != order[len(order)-1] {
			line += "; done by " + l.Clock(days[n].done)
		}
		out = append(out, line+".")
	}
	return out
}
