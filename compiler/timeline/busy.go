package timeline

import "slices"

// Busy is when each cook is at something, by name, in no order: at work, watching,
// looking, putting in and taking out, lighting and turning an oven and turning it off,
// serving. What takes no time by itself takes a minute. Whoever asks who is free asks
// here.
func (t *Timeline) Busy() map[string][]Spell {
	out := map[string][]Spell{}
	take := func(who []string, from, to Minute) {
		for _, c := range who {
			out[c] = append(out[c], Spell{from, max(to, from+1)})
		}
	}
	for _, j := range t.Jobs {
		for _, p := range j.Phases {
			if p.End > p.Start {
				take(p.Cooks, p.Start, p.End)
			}
		}
		for _, x := range slices.Concat(j.Touches, j.Puts) {
			take(x.Cooks, x.Start, x.End)
		}
	}
	for _, h := range t.Heats {
		take(h.By, h.Preheat, 0)
		take(h.OffBy, h.Off, 0)
	}
	for _, s := range t.Servings {
		take(s.By, s.Served, 0)
	}
	return out
}

// In tells whether a cook is there in a minute by the menu's hours; without hours,
// always.
func (t *Timeline) In(cook string, at Minute) bool {
	return t.Hours == nil || slices.ContainsFunc(t.Hours[cook], func(s Spell) bool { return s.Has(at) })
}

// Has tells whether a minute lies in a spell.
func (s Spell) Has(at Minute) bool { return s.From <= at && at < s.To }
