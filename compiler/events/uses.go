package events

import "slices"

// uses are how the ovens, the rings and the hands are used on a day.
func (l *List) uses(d *Day) (out []Use) {
	add := func(u Use) {
		if len(u.Spans) > 0 {
			out = append(out, u)
		}
	}
	for _, o := range l.Ovens {
		add(Use{Kind: OvenUse, Oven: o, Spans: l.ovenUse(d, o)})
	}
	add(Use{Kind: RingUse, Spans: l.ringUse(d)})
	add(Use{Kind: HandsUse, Spans: l.handsUse(d)})
	return out
}

// within cuts a span off at the edges of a day; false when nothing of it is left.
func (d *Day) within(s Span) (Span, bool) {
	s.From, s.To = max(s.From, d.Start), min(s.To, d.End)
	return s, s.From < s.To
}

// ovenUse is when an oven heats up, and to what it is set after.
func (l *List) ovenUse(d *Day, oven string) (out []Span) {
	var heats []*Event
	for _, e := range l.Each(Heat) {
		if e.Where.Oven == oven {
			heats = append(heats, e)
		}
	}
	for i, e := range heats {
		until := e.Setting.Until
		if i+1 < len(heats) {
			until = min(until, heats[i+1].Start)
		}
		for _, s := range []Span{{From: e.Start, To: min(e.End, until), Heating: true, Words: e.Setting.Words}, {From: e.End, To: until, Words: e.Setting.Words}} {
			if s, ok := d.within(s); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

// ringUse is how many rings are in use from one moment at which that changes to
// the next.
func (l *List) ringUse(d *Day) (out []Span) {
	in := l.Each(In)
	marks := []Moment{d.Start, d.End}
	for _, e := range in {
		if e.Where.Rings > 0 {
			marks = append(marks, e.Start, e.End)
		}
	}
	all := 0
	if k := l.meal.Kitchen; k != nil {
		all = k.Rings
	}
	for _, s := range between(d, marks) {
		for _, e := range in {
			if e.Where.Rings > 0 && e.Start <= s.From && e.End >= s.To {
				s.Count += e.Where.Rings
			}
		}
		s.Full = all > 0 && s.Count >= all
		if n := len(out); n > 0 && out[n-1].To == s.From && out[n-1].Count == s.Count {
			out[n-1].To = s.To
		} else if s.Count > 0 {
			out = append(out, s)
		}
	}
	return out
}

// handsUse is whose hands are free, from the first work of the day to its last:
// of the cooks who work that day, in their hours.
func (l *List) handsUse(d *Day) (out []Span) {
	busy := map[string][]Spell{}
	marks := []Moment{}
	for cook, spells := range l.busy {
		for _, s := range spells {
			if s.From >= d.Start && s.From < d.End {
				busy[cook] = append(busy[cook], s)
				marks = append(marks, s.From, s.To)
			}
		}
	}
	for _, spells := range l.Hours {
		for _, s := range spells {
			marks = append(marks, s.From, s.To)
		}
	}
	in := func(spells []Spell, s Span) bool {
		return slices.ContainsFunc(spells, func(b Spell) bool { return b.From <= s.From && b.To >= s.To })
	}
	first, last := d.End, d.Start
	for _, spells := range busy {
		for _, s := range spells {
			first, last = min(first, s.From), max(last, s.To)
		}
	}
	if len(busy) < 2 { // one cook's lane says it
		return nil
	}
	for _, s := range between(d, marks) {
		if s.From < first || s.To > last {
			continue
		}
		for _, c := range l.Cooks {
			if len(busy[c]) > 0 && !in(busy[c], s) && (l.Hours == nil || in(l.Hours[c], s)) {
				s.Free = append(s.Free, c)
			}
		}
		s.Full = len(s.Free) == 0
		if n := len(out); n > 0 && out[n-1].To == s.From && slices.Equal(out[n-1].Free, s.Free) {
			out[n-1].To = s.To
			continue
		}
		out = append(out, s)
	}
	return out
}

// between are the stretches between moments, within a day.
func between(d *Day, marks []Moment) (out []Span) {
	slices.Sort(marks)
	for i := 1; i < len(marks); i++ {
		if s, ok := d.within(Span{From: marks[i-1], To: marks[i]}); ok {
			out = append(out, s)
		}
	}
	return out
}
